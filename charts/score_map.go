package charts

import (
	"math"
	"sort"
	"strings"

	"parewell/recipes/words"
)

// SwapMapData is what the keep-or-drop map shows: what each swap takes off
// against what it does to liking.
type SwapMapData struct {
	Places    int // decimals of effects, those of the table beside it; 0: as its own need
	Title     string
	Nutrient  string  // "Calories"
	Unit      string  // "kcal"
	Attribute string  // "Liking"
	Percent   int     // confidence of the intervals; 0 for 90
	Limit     float64 // the most liking that may be lost; 0 or NaN: no line
	Swaps     []MapSwap
}

// MapSwap is one swap: Saving is what it takes off a serving (lighter is
// positive), Effect what it does to the score, with its interval; NaN where it
// was not tasted. Swaps of one Group above 0 were always served together: their
// Effect is that of all of them, and they are joined.
type MapSwap struct {
	Name              string
	Saving            float64
	Effect, Low, High float64
	Verdict           Verdict
	Group             int
}

func (m MapSwap) tasted() bool { return finite(m.Effect) }

// SwapMap prepares the keep-or-drop map from a copy of d, or says in a
// problem.Error what keeps it from being drawn. Figures for print want the
// recorded limit: what-if limits are for the screen.
func SwapMap(d SwapMapData) (*Figure, error) {
	if d.Percent == 0 {
		d.Percent = 90
	}
	if err := d.check(); err != nil {
		return nil, err
	}
	v := &mapView{d.clone()}
	return &Figure{title: v.d.Title, alt: v.alt(), paint: v.paint}, nil
}

func (d SwapMapData) check() error {
	if err := checkCount(d.Title, "charts.map.none", "charts.map.many", len(d.Swaps), mostItems); err != nil {
		return err
	}
	for _, m := range d.Swaps {
		if err := checkInterval(d.Title, m.Name, m.Low, m.Effect, m.High); err != nil {
			return err
		}
		if err := checkVerdict(d.Title, m.Name, m.Verdict); err != nil {
			return err
		}
		if err := checkSizes(d.Title, m.Name, m.Saving); err != nil {
			return err
		}
	}
	return checkSizes(d.Title, words.Say("charts.scores.limit.name"), d.Limit)
}

// clone copies d with the swaps by saving, the largest first, so that numbers on
// the map run from right to left; a swap whose saving is not known comes last.
func (d SwapMapData) clone() SwapMapData {
	d.Title, d.Nutrient, d.Unit, d.Attribute = ofScore(d.Title, d.Attribute), oneLine(d.Nutrient), oneLine(d.Unit), oneLine(d.Attribute)
	d.Swaps = append([]MapSwap(nil), d.Swaps...)
	for i := range d.Swaps {
		m := &d.Swaps[i]
		m.Name, m.Verdict = oneLine(m.Name), m.Verdict.given(m.Effect, m.Low, m.High)
	}
	sort.SliceStable(d.Swaps, func(i, j int) bool { return rank(d.Swaps[i].Saving) > rank(d.Swaps[j].Saving) })
	return d
}

// rank puts what is not known under everything.
func rank(v float64) float64 {
	if !finite(v) {
		return math.Inf(-1)
	}
	return v
}

// limit is where the line of the limit lies, NaN for none.
func limitAt(limit float64) float64 {
	if limit > 0 {
		return -limit
	}
	return math.NaN()
}

// places are the decimals of the effects in the figure: those of the one that needs
// most, as in the window's table.
func (d SwapMapData) places() int {
	n := max(1, d.Places)
	for _, m := range d.Swaps {
		if m.tasted() {
			n = max(n, EffectPlaces(m.Low, m.High, d.Limit))
		}
	}
	return n
}

// partners names the swaps of the same group as swap i.
func (d SwapMapData) partners(i int) []string {
	var out []string
	for k, m := range d.Swaps {
		if k != i && m.Group > 0 && m.Group == d.Swaps[i].Group {
			out = append(out, m.Name)
		}
	}
	return out
}

// figures says saving and effect of swap i in one line; the mark says the rest.
func (d SwapMapData) figures(i int) string {
	m := d.Swaps[i]
	out := changeOf(-m.Saving, d.Unit)
	if m.tasted() {
		text := effectText(m.Effect, m.Low, m.High, d.places())
		if len(d.partners(i)) > 0 {
			text = words.Say("charts.fall.together", text)
		}
		return words.Say("charts.list", out, text)
	}
	return words.Say("charts.list", out, m.Verdict.Words())
}

func (v *mapView) alt() string {
	d := v.d
	out := titled(d.Title, words.Say("charts.map.alt", d.Nutrient, d.Attribute, d.Percent))
	if at := limitAt(d.Limit); finite(at) {
		out = append(out, words.Say("charts.map.alt.limit", words.Trim(d.Limit, 2)))
	}
	for i, m := range d.Swaps {
		text := words.Say("charts.map.alt.swap", m.Name, changeOf(-m.Saving, d.Unit), effectText(m.Effect, m.Low, m.High, d.places()), m.Verdict.Words())
		if with := d.partners(i); len(with) > 0 {
			text += " " + words.Say("charts.map.alt.group", words.Join(with))
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

// itemNumber is the number an item goes by on a map.
func itemNumber(i int) string { return words.Number(float64(i+1), 0) }
