package manuscript

import (
	"math"
	"slices"
	"strconv"
	"time"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// What is reckoned with where the cook says nothing (common practice, no source).
const (
	usualPreheat = 15.0 // minutes
	usualPerCup  = 0.5  // minutes to fill a cup
	usualHold    = 15.0 // minutes
	betweenCups  = 2.0  // minutes a taster takes from one sample to the next
	betweenTrays = 5.0  // minutes to clear and seat
	longEvening  = 90.0 // minutes from the first wave to the last that are worth a word
)

// run works the run sheet back from the time of serving.
func (m *maker) run(out *Run) error {
	t := m.tasting
	clock, err := clockOf(t)
	if err != nil {
		return err
	}
	out.Cooks, out.Codes, out.Serves = t.Cooks, t.Codes, t.Serves
	out.Facts = m.facts()
	w := m.waves()
	longest, rest := 0.0, m.longestRest()
	for i, seats := range w.seats {
		wave := m.wave(i, seats, w, clock)
		longest = max(longest, rest+w.perCup*float64(cupsOf(&wave)))
		out.Waves = append(out.Waves, wave)
	}
	if t.Time == "" {
		out.Warnings = append(out.Warnings, say("run.warn.time"))
	}
	if t.Holds > 0 && longest > t.Holds {
		out.Warnings = append(out.Warnings, say("run.warn.holds", words.Number(math.Ceil(longest), 0), words.Trim(t.Holds, 0)))
	}
	if last := w.gap * float64(len(w.seats)-1); last > longEvening {
		out.Warnings = append(out.Warnings, say("run.warn.long", words.Number(last, 0)))
	}
	for i := range m.list.Pots {
		if p := &m.list.Pots[i]; p.Dish == "" && p.Cups > 0 && m.cooked(p.Version).minutes == 0 {
			out.Warnings = append(out.Warnings, say("run.warn.minutes"))
			break
		}
	}
	out.Sources = m.fromMethod()
	m.keys(out)
	return nil
}

func cupsOf(w *Wave) int {
	n := 0
	for _, p := range w.Portions {
		n += p.Cups
	}
	return n
}

// facts are the line under the names.
func (m *maker) facts() []string {
	t := m.tasting
	var out []string
	if t.Portion > 0 {
		out = append(out, say("run.fact.portion", words.Grams(t.Portion)))
	}
	if t.Spare > 0 {
		out = append(out, say("run.fact.spare", words.Share(t.Spare)))
	}
	if t.Celsius > 0 {
		out = append(out, say("run.fact.celsius", words.Trim(t.Celsius, 1)))
	}
	if m.ask.Rest > 0 {
		out = append(out, say("run.fact.rest", words.Trim(m.ask.Rest, 1)))
	}
	if t.Holds > 0 {
		out = append(out, say("run.fact.holds", words.Trim(t.Holds, 1)))
	} else {
		out = append(out, say("run.fact.no-hold", words.Trim(usualHold, 0)))
	}
	if t.Cleanser != "" {
		return append(out, say("run.fact.cleanser", t.Cleanser))
	}
	return append(out, say("run.fact.water"))
}

// rounds are the seats of each wave and what they are timed by, in minutes.
type rounds struct {
	seats       [][]int
	perCup, gap float64
}

// waves cuts the seats so that the first cup filled of a wave is not held longer
// than it may be while the last is filled; waves are as even as they can be. The
// next wave is served when the one before has tasted.
func (m *maker) waves() rounds {
	w := rounds{perCup: m.ask.PerCup}
	if w.perCup == 0 {
		w.perCup = usualPerCup
	}
	hold, rest := m.tasting.Holds, m.longestRest()
	if hold <= 0 {
		hold = usualHold + rest
	}
	most, seats := 1, 0
	for _, s := range m.tasting.Seats {
		if s.Away != "" {
			continue
		}
		n := len(s.Cups)
		if s.Reference != "" {
			n++
		}
		most, seats = max(most, n), seats+1
	}
	per := m.ask.PerWave
	if per == 0 {
		per = max(1, int((hold-rest)/(w.perCup*float64(most))+1e-9))
	}
	if n := (seats + per - 1) / per; n > 0 {
		per = (seats + n - 1) / n
	}
	w.seats = tasting.Waves(m.tasting, per)
	w.gap = max(w.perCup*float64(per*most), betweenCups*float64(most)+betweenTrays)
	w.gap = math.Ceil(w.gap/5) * 5
	return w
}

// clockOf returns how a moment is written, given in minutes after the first wave
// is served.
func clockOf(t *recipes.Tasting) (func(float64) string, error) {
	if t.Time == "" {
		return func(at float64) string { return say("run.before", words.Signed(math.Floor(at), 0)) }, nil
	}
	at, err := time.Parse("15:04", t.Time)
	if err != nil {
		return nil, problem.Wrap(err, t.Date, say("time", strconv.Quote(t.Time)), say("time.hint"))
	}
	return func(after float64) string {
		return words.Clock(at.Add(time.Duration(math.Floor(after)) * time.Minute))
	}, nil
}

// minutes is how long a version cooks: as written, else the mean of its kept
// tests; 0 when nobody has said.
func (m *maker) minutes(version recipes.ID) float64 {
	d := m.book.Draft(m.recipe, m.book.Version(m.recipe.ID, version))
	if d.Dish.Minutes > 0 {
		return d.Dish.Minutes
	}
	sum, n := 0.0, 0.0
	for _, x := range m.book.TestsOf(m.recipe.ID, version) {
		if x.SetAside == "" && x.Minutes > 0 {
			sum, n = sum+x.Minutes, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sum / n
}

// inOven are the methods that want an oven or grill hot beforehand.
var inOven = []string{"baked", "roasted", "grilled"}

func (m *maker) wave(i int, seats []int, w rounds, clock func(float64) string) Wave {
	serve := float64(i) * w.gap
	wave := Wave{Number: i + 1, Seats: seats, Serve: clock(serve)}
	wave.Portions = m.portions(seats)
	begin := serve - w.perCup*float64(cupsOf(&wave))
	cups := map[int]int{}
	for _, s := range m.tasting.Seats {
		if slices.Contains(seats, s.Number) {
			for _, id := range onTray(&s) {
				cups[m.pot[id]]++
			}
		}
	}
	for n := range m.list.Pots {
		if cups[n] == 0 {
			continue
		}
		p := &m.list.Pots[n]
		grams := float64(cups[n]) * m.tasting.Portion * (1 + m.tasting.Spare)
		f := Fire{Pot: m.potName(p), Portion: clock(begin), Grams: gramsOrUnknown(grams), CSVGrams: plain(grams)}
		m.fire(&f, p.Dish != "", p.Version, begin, i, clock)
		wave.Fires = append(wave.Fires, f)
	}
	return wave
}

// fire works a pot back from its first portion. A dish from elsewhere has no
// times.
func (m *maker) fire(f *Fire, dish bool, version recipes.ID, begin float64, wave int, clock func(float64) string) {
	if dish {
		return
	}
	f.Vessel = m.ask.Vessel
	c := m.cooked(version)
	out := begin - c.rest
	f.Out = clock(out)
	if m.tasting.Holds > 0 {
		f.Late = clock(out + m.tasting.Holds)
	}
	if c.heat > 0 && (c.oven || c.anyHeat) {
		f.Heat = say("run.degrees", words.Trim(c.heat, 0))
	}
	if c.minutes == 0 {
		return
	}
	f.Minutes, f.In = words.Trim(c.minutes, 0), clock(out-c.minutes)
	switch {
	case !c.oven:
		f.On = say("run.no-heat")
	case wave > 0:
		f.On = say("run.still-on")
	default:
		preheat := m.ask.Preheat
		if preheat == 0 {
			preheat = usualPreheat
		}
		f.On = clock(out - c.minutes - preheat)
	}
}

// onTray are the samples on a tray, the open one first.
func onTray(s *recipes.Seat) []recipes.ID {
	var out []recipes.ID
	if s.Reference != "" {
		out = append(out, s.Reference)
	}
	for _, c := range s.Cups {
		out = append(out, c.Sample)
	}
	return out
}

// portions counts the cups of each sample in a wave.
func (m *maker) portions(seats []int) []Portion {
	var out []Portion
	t := m.tasting
	for _, s := range tasting.InOrder(m.book, t.ID) {
		p := Portion{Sample: m.names[s.ID], Code: m.oneCode(s.ID)}
		for i := range t.Seats {
			if slices.Contains(seats, t.Seats[i].Number) {
				for _, id := range onTray(&t.Seats[i]) {
					if id == s.ID {
						p.Cups++
					}
				}
			}
		}
		if p.Cups == 0 {
			continue
		}
		all := float64(p.Cups) * t.Portion
		p.Each, p.All = gramsOrUnknown(t.Portion), gramsOrUnknown(all)
		p.CSV = []string{plain(t.Portion), plain(all)}
		out = append(out, p)
	}
	return out
}

// gramsOrUnknown writes a weight; one that nobody has set is not known.
func gramsOrUnknown(g float64) string {
	if g <= 0 {
		return words.Unknown
	}
	return words.Grams(g)
}

// oneCode is a sample's code where all its cups have the same and no other sample
// has it, else "".
func (m *maker) oneCode(id recipes.ID) string {
	code := 0
	for _, s := range m.tasting.Seats {
		for _, c := range s.Cups {
			switch {
			case c.Sample == id && code != 0 && c.Code != code:
				return ""
			case c.Sample == id:
				code = c.Code
			}
		}
	}
	for _, s := range m.tasting.Seats {
		for _, c := range s.Cups {
			if c.Sample != id && c.Code == code {
				return ""
			}
		}
	}
	if code == 0 {
		return ""
	}
	return strconv.Itoa(code)
}

// keys says what is on each tray.
func (m *maker) keys(out *Run) {
	for _, w := range out.Waves {
		for _, n := range w.Seats {
			seat := m.tasting.Seat(n)
			k := SeatKey{Seat: n, Wave: w.Number, Taster: m.taster(seat), Open: m.key(0, seat.Reference)}
			for _, c := range seat.Cups {
				k.Cups = append(k.Cups, m.key(c.Code, c.Sample))
			}
			out.Sheet = append(out.Sheet, k)
		}
	}
}

func (m *maker) key(code int, sample recipes.ID) CupKey {
	if sample == "" {
		return CupKey{}
	}
	return CupKey{Code: code, Sample: m.names[sample], Short: m.shortName(&m.list.Pots[m.pot[sample]])}
}
