// Package sheets lays values out as the tables the window shows: rows of
// ready words and numbers, without any drawing. Pages hand them to widgets.
package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Mark is a sign beside a cell; it always pairs with words in Tip.
type Mark int

// Marks a cell can carry.
const (
	NoMark Mark = iota
	Look        // look here: something rose, is assumed or in doubt
	Wrong       // an error
	Met         // a target of the brief is met
	Missed      // a target of the brief is missed
)

// verdictMark is the mark of the first verdict; the others follow.
const verdictMark Mark = 100

// VerdictMark is the mark of a verdict: the one its figures have.
func VerdictMark(v charts.Verdict) Mark {
	return verdictMark + Mark(max(slices.Index(charts.Verdicts, v), 0))
}

// Verdict is the verdict a mark stands for; false for any other mark.
func (m Mark) Verdict() (charts.Verdict, bool) {
	if i := int(m - verdictMark); i >= 0 && i < len(charts.Verdicts) {
		return charts.Verdicts[i], true
	}
	return "", false
}

// TickState of a cell that is a tick box.
type TickState int

// States of a tick box.
const (
	NoTick TickState = iota
	TickOff
	TickOn
	TickDisabled // cannot be ticked here
)

// Cell is one field of a table, in words. Bar is a change from -1 to 1 of the
// widest in its table, lighter negative, NaN for none.
type Cell struct {
	Text     string
	Sub      string // a change, beside the text
	Bar      float64
	Mark     Mark
	Tick     TickState
	Editable bool
	Muted    bool
	Struck   bool
	Strong   bool
	Number   bool // right-aligned, tabular
	Wrap     bool
	Tip      string
}

// Row is one row; a Band row is a heading across the whole width. Key names
// what the row stands for ("energy_kcal", a line's or step's ID).
type Row struct {
	Key   string
	Band  bool
	Label Cell
	Cells []Cell
}

// Column is one version's column (or a plain one, when Letter is empty).
type Column struct {
	Key    string // the version's ID, "" for the original
	Letter string // "A"; empty for the original
	Index  int    // 0 is the original; picks colour and marker
	Title  string
	Sub    string
	Number bool
	Tight  bool // words that need no spare width
}

// Sheet is a table ready to be shown.
type Sheet struct {
	Corner  string // heading of the first column
	Columns []Column
	Rows    []Row
}

// Only is the sheet with these of its columns, in this order.
func (s Sheet) Only(keep []int) Sheet {
	out := Sheet{Corner: s.Corner, Columns: make([]Column, len(keep)), Rows: make([]Row, len(s.Rows))}
	for i, k := range keep {
		out.Columns[i] = s.Columns[k]
	}
	for i, r := range s.Rows {
		cells := make([]Cell, 0, len(keep))
		for _, k := range keep {
			if k < len(r.Cells) {
				cells = append(cells, r.Cells[k])
			}
		}
		r.Cells = cells
		out.Rows[i] = r
	}
	return out
}

func noBar() float64 { return math.NaN() }

func text(s string) Cell { return Cell{Text: s, Bar: noBar()} }

// Amount formats a figure: "541", "28.4", with "at least" as ≥ in words and a
// question mark where nothing is known.
func Amount(f nutrition.Figure, n food.Nutrient) string {
	return amountIn(f, words.Decimals(n.Unit()))
}

// amountIn is Amount with so many places.
func amountIn(f nutrition.Figure, decimals int) string {
	if f.Nowhere {
		return words.Unknown
	}
	s := words.Number(f.Amount, decimals)
	switch {
	case f.About:
		return words.Say("amount.about", s)
	case f.AtLeast:
		return words.Say("amount.at-least", s)
	}
	return s
}

// ChangeText formats a change: "–143 (–21 %)", with "at least", "at most" or
// "not known" where it is not exact.
func ChangeText(c nutrition.Change, n food.Nutrient) string {
	return changeIn(c, words.Decimals(n.Unit()))
}

// changeIn is ChangeText with so many places.
func changeIn(c nutrition.Change, decimals int) string {
	if c.Bound == nutrition.NotSure {
		return words.Say("change.unknown")
	}
	s := words.Signed(c.Amount, decimals)
	if !math.IsNaN(c.Percent) && strings.Trim(s, "0.,") != "" {
		s += " (" + words.Percent(c.Percent) + ")"
	}
	switch c.Bound {
	case nutrition.AtLeast:
		return words.Say("change.at-least", s)
	case nutrition.AtMost:
		return words.Say("change.at-most", s)
	}
	return s
}

// WithUnit names a nutrient with its unit: "energy, kcal".
func WithUnit(n food.Nutrient) string {
	return words.Say("nutrient.with-unit", words.Say("nutrient."+n.Key()), n.Unit())
}

// lineNames names lines for a tip; each once.
func lineNames(d *recipes.Draft, ids []recipes.ID) string {
	var out []string
	seen := map[recipes.ID]bool{}
	for _, id := range ids {
		for i := range d.Lines {
			if l := d.Lines[i].Line; l.ID == id && !seen[id] {
				seen[id] = true
				out = append(out, LineName(l))
			}
		}
	}
	return words.Join(out)
}

// LineName is the short name of an ingredient.
func LineName(l *recipes.Line) string {
	if l.Name != "" {
		return l.Name
	}
	return strings.TrimSpace(l.Text)
}
