package sheets

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// LineFacts is all that an ingredient's figures rest on, in one column.
type LineFacts struct {
	Title     string // "300 ml double cream"
	Caption   string // where a change would show
	Source    string // the food's row: table, release, number
	From      string // how the weight is known
	Chain     []Fact // from the weight as written to the weight on the plate, as arithmetic
	Kept      []Fact // what cooking leaves, with the source of each factor
	Off       []Off  // what is taken off it
	Allergens string
	Figures   Sheet // per 100 g, this ingredient, per serving, share
}

// Fact is a name with what it is.
type Fact struct{ Name, Value string }

// LineFacts gathers the facts of a line in column i; a line the column does
// not hold is looked up in the original. found is false when neither has it.
func (x *Bench) LineFacts(line recipes.ID, i int) (facts LineFacts, found bool) {
	at := x.indexOf(i, line)
	if at < 0 {
		i, at = 0, x.indexOf(0, line)
	}
	if at < 0 {
		return LineFacts{}, false
	}
	d := &x.Accounts[i].Draft.Lines[at]
	f := LineFacts{Title: LineText(d.Line), Caption: x.lineCaption(d, i)}
	f.Chain, f.Kept, f.Off = x.chain(i, at), x.keptFacts(i, at), x.offOf(i, d.From)
	f.Source, f.Allergens, f.From = x.source(d.Line), words.Say("allergens.unknown"), gramsTip(d.Line)
	if row := x.Accounts[i].Lines[at].Food; row != nil {
		f.Source, f.Allergens = foodTip(row), AllergenText(row.Allergens)
	}
	f.Figures = x.lineFigures(i, at)
	return f, true
}

// lineCaption says where a change of the line shows.
func (x *Bench) lineCaption(d *recipes.DraftLine, i int) string {
	if d.Swap == "" {
		return words.Say("line.of-original")
	}
	if s := x.book.Swap(x.Recipe.ID, d.Swap); s != nil {
		return words.Say("line.of-swap", s.Name)
	}
	return words.Say("line.in", x.ColumnName(i))
}

// lineFigures lays out every nutrient: the row per 100 g, what this ingredient
// brings to the whole dish and to a serving, and its share of the dish.
func (x *Bench) lineFigures(i, at int) Sheet {
	s := Sheet{Corner: words.Say("line.nutrient"), Columns: []Column{
		{Key: "per100", Title: words.Say("line.per-100g"), Number: true, Index: -1},
		{Key: "dish", Title: words.Say("line.dish"), Number: true, Index: -1},
		{Key: "serving", Title: words.Say("line.serving"), Number: true, Index: -1},
		{Key: "share", Title: words.Say("line.share"), Number: true, Index: -1},
	}}
	a := x.Accounts[i]
	for _, n := range x.leading(true) {
		v, known := a.LineAmount(at, n)
		as := x.as(n)
		r := Row{Key: n.Key(), Label: text(as.label())}
		r.Cells = []Cell{
			x.per100(i, at, n), as.cell(v, known), as.cell(v/a.Draft.Servings, known),
			shareCell(v, a.Total(n).Amount, known),
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

func (x *Bench) per100(i, at int, n food.Nutrient) Cell {
	f := x.Accounts[i].Lines[at].Food
	if f == nil {
		return x.as(n).cell(0, false)
	}
	v, ok := f.Per100.Get(n)
	return x.as(n).cell(v, ok)
}

func (s shownAs) cell(v float64, known bool) Cell {
	if !known {
		return Cell{Text: words.Unknown, Muted: true, Number: true, Bar: noBar(), Tip: words.Say("foods.blank")}
	}
	return Cell{Text: words.Number(v*s.times, s.decimals), Number: true, Bar: noBar()}
}

func shareCell(v, total float64, known bool) Cell {
	if !known || !(total > 0) {
		return Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar()}
	}
	return Cell{Text: words.Share(math.Max(0, v/total)), Number: true, Bar: noBar()}
}

// States are the states a food may have been weighed in, with their words; the
// first is "not said".
func States() []Fact {
	out := []Fact{{"", words.Say("state.none")}}
	for _, s := range []food.State{food.Raw, food.Dry, food.Cooked, food.Drained, food.Frozen} {
		out = append(out, Fact{string(s), words.Say("state." + string(s))})
	}
	return out
}

// GramsField is a line's weight for a field, empty when it is not known.
func GramsField(l *recipes.Line) string {
	if !l.Known() {
		return ""
	}
	return words.Field(l.Grams, 1)
}

// ShareField is a part eaten for a field, in per cent.
func ShareField(part float64) string { return words.Trim(part*100, 1) }
