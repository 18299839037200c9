package sheets

import (
	"math"

	"parewell/analysis/nutrition"
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
	Weights   []Fact // from the weight as written to the weight eaten
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
	f := LineFacts{Title: d.Line.Text, Caption: x.lineCaption(d, i)}
	f.Weights = x.weightFacts(i, at)
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

func (x *Bench) weightFacts(i, at int) []Fact {
	d, la := &x.Accounts[i].Draft.Lines[at], &x.Accounts[i].Lines[at]
	l := d.Line
	out := []Fact{{words.Say("line.written"), gramsText(l, l.Grams)}}
	if d.Scale != 1 {
		out = append(out, Fact{words.Say("line.scaled", x.ColumnName(i)), weighedText(la, la.Grams)})
	}
	edible := words.Say("line.edible.already")
	if l.AsBought && la.Food != nil {
		edible = words.Say("line.edible.share", words.Share(la.Food.EdiblePart()), weighedText(la, la.Edible))
	}
	out = append(out, Fact{words.Say("line.edible"), edible},
		Fact{words.Say("line.part-eaten"), words.Share(d.PartEaten)},
		Fact{words.Say("line.eaten"), weighedText(la, la.Eaten)})
	if d.State != "" {
		out = append(out, Fact{words.Say("line.state"), words.Say("state." + string(d.State))})
	}
	out = append(out, x.cookingFacts(i, at)...)
	if l.Status() != recipes.StatusMatched {
		out = append(out, Fact{words.Say("original.status"), DoubtText(l)})
	}
	return out
}

// weighedText is one of a line's weights, or a question mark.
func weighedText(la *nutrition.LineAccount, grams float64) string {
	if !la.Weighed {
		return words.Unknown
	}
	return words.Grams(grams)
}

// cookingFacts say how the line is cooked, what its weight then is and what of
// its nutrients stays; none when no way of cooking is stated.
func (x *Bench) cookingFacts(i, at int) []Fact {
	draft, la := x.Accounts[i].Draft, &x.Accounts[i].Lines[at]
	d := &draft.Lines[at]
	t := d.Technique
	if t.Method == "" {
		t = draft.Dish
	}
	if t.Method == "" || la.Food == nil {
		return nil
	}
	out := []Fact{{words.Say("line.cooked"), MethodText(t)}}
	if y, ok := nutrition.YieldOf(d, draft.Dish, la.Food); ok && la.Weighed {
		out = append(out, Fact{words.Say("line.cooked.weight"), words.Say("line.cooked.yield", words.Grams(la.Eaten*y.Yield), words.Share(y.Yield))})
	}
	for _, k := range nutrition.FactorsOf(d, draft.Dish, la.Food) {
		key := "line.kept.share"
		if k.Assumed {
			key = "line.kept.assumed"
		}
		out = append(out, Fact{words.Say("line.kept"), words.Say(key, words.Say("nutrient."+k.Nutrient.Key()), words.Share(k.Kept), words.Say(k.Source))})
	}
	return out
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
	for _, n := range Shown {
		v, known := a.LineAmount(at, n)
		r := Row{Key: n.Key(), Label: text(WithUnit(n))}
		r.Cells = []Cell{
			x.per100(i, at, n), figureCell(v, n, known), figureCell(v/a.Draft.Servings, n, known),
			shareCell(v, a.Total(n).Amount, known),
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

func (x *Bench) per100(i, at int, n food.Nutrient) Cell {
	f := x.Accounts[i].Lines[at].Food
	if f == nil {
		return figureCell(0, n, false)
	}
	v, ok := f.Per100.Get(n)
	return figureCell(v, n, ok)
}

func figureCell(v float64, n food.Nutrient, known bool) Cell {
	if !known {
		return Cell{Text: words.Unknown, Muted: true, Number: true, Bar: noBar(), Tip: words.Say("foods.blank")}
	}
	return Cell{Text: words.Number(v, words.Decimals(n.Unit())), Number: true, Bar: noBar()}
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
	return words.Trim(l.Grams, 1)
}

// ShareField is a part eaten for a field, in per cent.
func ShareField(part float64) string { return words.Trim(part*100, 1) }
