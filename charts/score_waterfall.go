package charts

import (
	"math"
	"sort"
	"strings"

	"parewell/recipes/words"
)

// WaterfallData is what the waterfall shows: how the amount of a nutrient goes
// from the original to a version, swap by swap, with what each does to liking.
type WaterfallData struct {
	Title          string
	Nutrient, Unit string
	Attribute      string  // "Liking"; "" leaves the column of effects out
	Percent        int     // confidence of the intervals; 0 for 90
	Limit          float64 // the most liking that may be lost; 0 or NaN: no line
	Places         int     // decimals of effects, those of the table beside it; 0: as its own need
	Original       float64 // per serving
	Version        WaterfallEnd
	Steps          []WaterfallStep
}

// WaterfallEnd is the version at the end: its amount per serving and what all
// its swaps together do to the score (Effect NaN: not tasted).
type WaterfallEnd struct {
	Letter, Name      string
	Amount            float64
	Effect, Low, High float64
	Verdict           Verdict
}

// WaterfallStep is one swap: Change of the amount per serving (lighter is
// negative) and its effect on the score, NaN where it was not tasted. Steps of one
// Group above 0 were always served together: their Effect is that of all of them,
// and it is drawn once, across them.
type WaterfallStep struct {
	Name              string
	Change            float64
	Effect, Low, High float64
	Verdict           Verdict
	Group             int
}

// Waterfall prepares the waterfall from a copy of d, or says in a problem.Error
// what keeps it from being drawn. What the steps do not account for is a step of
// its own.
func Waterfall(d WaterfallData) (*Figure, error) {
	if d.Percent == 0 {
		d.Percent = 90
	}
	if err := d.check(); err != nil {
		return nil, err
	}
	v := &fallView{d: d.clone()}
	return &Figure{title: v.d.Title, alt: v.alt(), paint: v.paint}, nil
}

// places are the decimals of the effects in the figure: those of the one that needs
// most, as in the window's table.
func (d WaterfallData) places() int {
	n := max(1, d.Places)
	if finite(d.Version.Effect) {
		n = max(n, EffectPlaces(d.Version.Low, d.Version.High, d.Limit))
	}
	for _, st := range d.Steps {
		if finite(st.Effect) {
			n = max(n, EffectPlaces(st.Low, st.High, d.Limit))
		}
	}
	return n
}

func (d WaterfallData) check() error {
	if err := checkCount(d.Title, "charts.map.none", "charts.map.many", len(d.Steps), mostItems); err != nil {
		return err
	}
	steps := append([]WaterfallStep{{d.Version.Name, d.Version.Amount, d.Version.Effect, d.Version.Low, d.Version.High, d.Version.Verdict, 0}}, d.Steps...)
	for _, st := range steps {
		if !finite(st.Change) || !finite(d.Original) {
			return fault(d.Title, "charts.fall.unknown", oneLine(st.Name))
		}
		if err := checkSizes(d.Title, st.Name, st.Change, d.Original, d.Limit); err != nil {
			return err
		}
		if err := checkInterval(d.Title, st.Name, st.Low, st.Effect, st.High); err != nil {
			return err
		}
		if err := checkVerdict(d.Title, st.Name, st.Verdict); err != nil {
			return err
		}
	}
	return nil
}

// clone copies d and adds what the steps do not account for, if it would be
// seen in the numbers.
func (d WaterfallData) clone() WaterfallData {
	d.Title, d.Nutrient, d.Unit, d.Attribute = ofScore(d.Title, d.Attribute), oneLine(d.Nutrient), oneLine(d.Unit), oneLine(d.Attribute)
	d.Version.Letter, d.Version.Name = oneLine(d.Version.Letter), oneLine(d.Version.Name)
	d.Version.Verdict = d.Version.Verdict.given(d.Version.Effect, d.Version.Low, d.Version.High)
	d.Steps = gathered(d.Steps)
	rest := d.Version.Amount - d.Original
	for i := range d.Steps {
		st := &d.Steps[i]
		st.Name, st.Verdict = oneLine(st.Name), st.Verdict.given(st.Effect, st.Low, st.High)
		rest -= st.Change
	}
	if math.Abs(rest)*math.Pow10(words.Decimals(d.Unit)) >= 0.5 {
		d.Steps = append(d.Steps, restStep(words.Say("charts.fall.rest"), rest))
	}
	return d
}

// gathered copies steps with those of a group next to each other, where the first
// of them stands.
func gathered(steps []WaterfallStep) []WaterfallStep {
	var out []WaterfallStep
	seen := map[int]bool{}
	for i, st := range steps {
		if seen[st.Group] {
			continue
		}
		out = append(out, st)
		if st.Group == 0 {
			continue
		}
		seen[st.Group] = true
		for _, other := range steps[i+1:] {
			if other.Group == st.Group {
				out = append(out, other)
			}
		}
	}
	return out
}

// apart takes the effect from steps whose group is not all there: it is not
// theirs alone.
func apart(steps []WaterfallStep, whole map[int]int) {
	here := map[int]int{}
	for _, st := range steps {
		here[st.Group]++
	}
	for i := range steps {
		if st := &steps[i]; st.Group > 0 && here[st.Group] < whole[st.Group] {
			st.Effect, st.Low, st.High, st.Group = math.NaN(), math.NaN(), math.NaN(), 0
		}
	}
}

// restStep is a step that is no single swap and has no effect of its own.
func restStep(name string, change float64) WaterfallStep {
	return WaterfallStep{Name: name, Change: change, Effect: math.NaN(), Low: math.NaN(), High: math.NaN(), Verdict: noVerdict}
}

// noVerdict marks a step that cannot have one.
const noVerdict Verdict = "none"

// most returns at most n steps in their order, the smallest joined to one.
func (d WaterfallData) most(n int) []WaterfallStep {
	if len(d.Steps) <= n {
		return d.Steps
	}
	n = max(n, 1)
	order := make([]int, len(d.Steps))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool {
		return math.Abs(d.Steps[order[a]].Change) > math.Abs(d.Steps[order[b]].Change)
	})
	keep := map[int]bool{}
	for _, i := range order[:n-1] {
		keep[i] = true
	}
	var out []WaterfallStep
	total, groups := 0.0, map[int]int{}
	for i, st := range d.Steps {
		groups[st.Group]++
		if keep[i] {
			out = append(out, st)
		} else {
			total += st.Change
		}
	}
	apart(out, groups)
	return append(out, restStep(words.Say("charts.fall.small", len(d.Steps)-n+1), total))
}

// fallView paints the waterfall.
type fallView struct{ d WaterfallData }

func (v *fallView) alt() string {
	d := v.d
	out := titled(d.Title, words.Say("charts.fall.alt", d.Nutrient, amountOf(d.Original, d.Unit), sampleName(d.Version.Letter, d.Version.Name), amountOf(d.Version.Amount, d.Unit)))
	for _, st := range d.Steps {
		out = append(out, v.altStep(st))
	}
	if d.Attribute != "" {
		out = append(out, words.Say("charts.fall.alt.score", d.Attribute, d.Percent))
		if finite(limitAt(d.Limit)) {
			out = append(out, words.Say("charts.map.alt.limit", words.Trim(d.Limit, 2)))
		}
	}
	if d.Attribute != "" && finite(d.Version.Effect) {
		out = append(out, words.Say("charts.fall.alt.all", effectText(d.Version.Effect, d.Version.Low, d.Version.High, d.places()), d.Version.Verdict.Words()))
	}
	return strings.Join(out, " ")
}

func (v *fallView) altStep(st WaterfallStep) string {
	change := changeOf(st.Change, v.d.Unit)
	switch {
	case v.d.Attribute == "" || st.Verdict == noVerdict:
		return words.Say("charts.fall.alt.step", st.Name, change)
	case !finite(st.Effect):
		return words.Say("charts.fall.alt.effect", st.Name, change, words.Say("charts.not_known"), st.Verdict.Words())
	}
	text := words.Say("charts.fall.alt.effect", st.Name, change, effectText(st.Effect, st.Low, st.High, v.d.places()), st.Verdict.Words())
	if with := v.d.partners(st); len(with) > 0 {
		text += " " + words.Say("charts.map.alt.group", words.Join(with))
	}
	return text
}

// partners names the other steps of a step's group.
func (d WaterfallData) partners(st WaterfallStep) []string {
	var out []string
	for _, o := range d.Steps {
		if st.Group > 0 && o.Group == st.Group && o.Name != st.Name {
			out = append(out, o.Name)
		}
	}
	return out
}
