package sheets

import (
	"errors"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// SampleFields is how a sample was cooked and served, as typed.
type SampleFields struct{ Cook, Cooked, Heat, Held string }

// Fields of a sample that can be wrong.
const (
	SampleCookedField = "cooked"
	SampleHeatField   = "heat"
	SampleHeldField   = "held"
)

// SampleFieldsOf fills the form of a sample.
func SampleFieldsOf(s *recipes.Sample) SampleFields {
	return SampleFields{Cook: s.Cook, Cooked: s.Cooked, Heat: fieldOf(s.Celsius, 1), Held: fieldOf(s.Held, 1)}
}

// ReadSample takes the form back; faults name the fields that are wrong.
func ReadSample(f SampleFields, base *recipes.Sample) (*recipes.Sample, Faults) {
	to, faults := *base, Faults{}
	to.Cook = strings.TrimSpace(f.Cook)
	to.Cooked = ""
	if !Blank(f.Cooked) {
		day, ok := ReadDay(f.Cooked)
		if !ok {
			faults[SampleCookedField] = words.Say("error.date", f.Cooked)
		} else {
			to.Cooked = day.Format(testDate)
		}
	}
	read := func(field, text string, most float64) float64 { return faults.number(field, text, 0, most) }
	to.Celsius, to.Held = read(SampleHeatField, f.Heat, 100), read(SampleHeldField, f.Held, 24*60)
	return &to, faults
}

// BadRows lists what is wrong with a file, a row of it each.
func BadRows(faults []error) Sheet {
	s := Sheet{Corner: words.Say("tastings.bad.where"), Columns: []Column{{Key: "what", Title: words.Say("tastings.bad.what"), Index: -1}}}
	for _, err := range faults {
		where, what := "", err.Error()
		var p *problem.Error
		if errors.As(err, &p) {
			where = p.Where
			what = Capital(strings.TrimSpace(p.What))
			if p.Hint != "" {
				what = words.Say("tastings.bad.hint", what, p.Hint)
			}
		}
		s.Rows = append(s.Rows, Row{Label: text(where), Cells: []Cell{{Text: what, Wrap: true, Bar: noBar()}}})
	}
	return s
}

// SameWord tells whether a word was typed, in any case.
func SameWord(typed, word string) bool { return strings.EqualFold(strings.TrimSpace(typed), word) }
