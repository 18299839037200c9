package charts

import (
	"errors"
	"math"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// ChangeData is what the change chart shows: the change of a few nutrients per
// serving, version by version, against the original.
type ChangeData struct {
	Title    string
	Versions []ChangeVersion // 1 to 8
	Panels   []ChangePanel   // 1 to 6, each with a Change for every version
}

// ChangeVersion names a version. The letter chooses colour, marker and hatch.
type ChangeVersion struct{ Letter, Name string }

// ChangePanel is one nutrient: Label "Calories", Unit "kcal", the Original's
// amount per serving (NaN if not known) and the Changes in the order of Versions.
// Said is the Original's number as the text beside the chart rounds it, "" to round
// it as the program's tables do.
type ChangePanel struct {
	Label, Unit string
	Original    float64
	Said        string
	AtLeast     bool // the Original holds more that is not known
	Changes     []Change
}

// Change is version minus original per serving: Amount in the panel's unit,
// lighter is negative; Percent of the original, NaN where the original has none.
// Known false, Bound "unknown" or an amount that is no number is drawn as not known.
// Bound is "" or "exact", "at_least" (lighter by at least that much: the original
// has unknown parts) or "at_most" (lighter by at most that much: the version has).
// Said is the signed number as the text beside the chart rounds it, "" to round
// Amount as the program's tables do.
type Change struct {
	Amount, Percent float64
	Known           bool
	Bound           string
	Said            string
}

// isKnown says whether there is an amount to write.
func (c Change) isKnown() bool {
	return c.Known && c.Bound != "unknown" && finite(c.Amount)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// ChangeChart prepares the change chart from a copy of d, or says in a
// problem.Error what keeps it from being drawn.
func ChangeChart(d ChangeData) (*Figure, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	d = d.clone()
	v := &changeView{d, rowLabels(d.Versions)}
	return &Figure{title: d.Title, alt: d.alt(), paint: v.paint}, nil
}

// maxPanels is how many small panels stand side by side.
const maxPanels = 6

func (d ChangeData) check() error {
	fail := func(key string, args ...any) error {
		return problem.Wrap(errors.New("charts: "+key), d.Title, words.Say(key, args...), words.Say(key+".hint"))
	}
	switch n := len(d.Versions); {
	case n == 0:
		return fail("charts.none")
	case n > Versions:
		return fail("charts.many", n, Versions)
	case len(d.Panels) == 0 || len(d.Panels) > maxPanels:
		return fail("charts.change.panels", maxPanels)
	}
	for _, p := range d.Panels {
		if len(p.Changes) != len(d.Versions) {
			return fail("charts.change.uneven", p.Label, len(p.Changes), len(d.Versions))
		}
	}
	return nil
}

func (d ChangeData) clone() ChangeData {
	d.Title = oneLine(d.Title)
	d.Versions = append([]ChangeVersion(nil), d.Versions...)
	d.Panels = append([]ChangePanel(nil), d.Panels...)
	for i, v := range d.Versions {
		d.Versions[i] = ChangeVersion{oneLine(v.Letter), oneLine(v.Name)}
	}
	for i := range d.Panels {
		p := &d.Panels[i]
		p.Label, p.Unit = oneLine(p.Label), oneLine(p.Unit)
		p.Changes = append([]Change(nil), p.Changes...)
	}
	return d
}

// detail is how much a label says.
type detail int

const (
	withPercent detail = iota // –143 kcal (–21 %)
	withUnit                  // –143 kcal
	numberOnly                // –143
	terse                     // –143, and a question mark for all that is not sure
	noLabel
)

// label says a change in so much detail.
func (c Change) label(unit string, how detail) string {
	if how == noLabel {
		return ""
	}
	sure := c.Bound != "at_least" && c.Bound != "at_most"
	switch {
	case !c.isKnown() && how == terse:
		return words.Unknown
	case !c.isKnown():
		return words.Say("charts.not_known")
	case sure:
		return c.text(unit, how)
	case how == terse:
		return words.Say("charts.amount", c.text(unit, how), words.Unknown)
	}
	return c.bound(unit, how)
}

// flat says whether the change rounds to nothing.
func (c Change) flat(unit string) bool {
	s := c.number(unit)
	return !strings.HasPrefix(s, "+") && !strings.HasPrefix(s, words.Minus)
}

// number is the signed amount without its unit.
func (c Change) number(unit string) string {
	if c.Said != "" {
		return c.Said
	}
	return words.Signed(c.Amount, words.Decimals(unit))
}

func (c Change) text(unit string, how detail) string {
	amount := c.number(unit)
	switch {
	case c.flat(unit) && how >= numberOnly:
		return words.Number(0, 0)
	case c.flat(unit):
		return words.Say("charts.change.none")
	case how >= numberOnly || unit == "":
		return amount
	case how == withPercent && finite(c.Percent):
		return words.Say("charts.change.percent", amount, unit, words.Percent(c.Percent))
	}
	return words.Say("charts.amount", amount, unit)
}

// bound says a change of which one side is known; on a rise the words change
// places, since lighter by at least minus 20 is heavier by at most 20.
func (c Change) bound(unit string, how detail) string {
	least := c.Bound == "at_least"
	switch {
	case c.flat(unit) && least:
		return words.Say("charts.change.not_heavier")
	case c.flat(unit):
		return words.Say("charts.change.not_lighter")
	case least == (c.Amount < 0):
		return words.Say("charts.at_least", c.text(unit, how))
	}
	return words.Say("charts.at_most", c.text(unit, how))
}

// alt is the chart in sentences.
func (d ChangeData) alt() string {
	var out []string
	if d.Title != "" {
		out = append(out, words.Say("charts.alt.title", d.Title))
	}
	out = append(out, words.Say("charts.change.alt"))
	for _, p := range d.Panels {
		var each []string
		for i, c := range p.Changes {
			v := words.Say("charts.alt.version", d.Versions[i].Letter, d.Versions[i].Name)
			each = append(each, words.Say("charts.alt.value", strings.TrimSpace(v), c.label(p.Unit, withPercent)))
		}
		out = append(out, words.Say("charts.change.alt.panel", p.Label, p.original(), Semicolons(each)))
	}
	return strings.Join(out, " ")
}

// original says the amount changes are measured against.
func (p ChangePanel) original() string {
	if !finite(p.Original) {
		return words.Say("charts.change.original.unknown")
	}
	said := p.Said
	if said == "" {
		said = words.Number(p.Original, words.Decimals(p.Unit))
	}
	if p.AtLeast {
		return words.Say("charts.change.original.at_least", said, p.Unit)
	}
	return words.Say("charts.change.original", said, p.Unit)
}
