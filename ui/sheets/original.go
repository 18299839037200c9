package sheets

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Columns of the Original sheet, by index.
const (
	OrigGrams = iota
	OrigFood
	OrigEnergy
	OrigSodium
	OrigStatus
	OrigEaten
	OrigFrom
)

// Ingredients lays out the original's lines to be looked over and put right:
// text, grams, food, energy and sodium in the whole dish, state of the reading,
// part eaten, how the grams are known. Rows are keyed by line ID.
func (x *Bench) Ingredients() Sheet {
	s := Sheet{Corner: words.Say("original.ingredient"), Columns: []Column{
		{Key: "grams", Title: words.Say("original.grams"), Number: true, Index: -1},
		{Key: "food", Title: words.Say("original.food"), Index: -1},
		x.figureColumn("energy", food.EnergyKcal),
		x.figureColumn("sodium", food.Sodium),
		{Key: "status", Title: words.Say("original.status"), Index: -1},
		{Key: "eaten", Title: words.Say("original.eaten"), Number: true, Index: -1},
		{Key: "from", Title: words.Say("original.from"), Index: -1},
	}}
	section := ""
	for _, i := range inOrder(x.Recipe.Lines) {
		l := x.Recipe.Lines[i]
		if l.Section != section {
			section = l.Section
			s.Rows = append(s.Rows, Row{Key: "section", Band: true, Label: text(SectionText(x.Recipe, section))})
		}
		s.Rows = append(s.Rows, x.ingredientRow(i, l))
	}
	return s
}

// Widths of the Original table, at text factor 1, below which it goes without a
// column.
const (
	origNoFrom   = 880
	origNoEaten  = 700
	origNoSodium = 640
)

// OrigColumns lists the columns of the Original sheet for a table of a width, at
// text factor 1. What matters least goes first: how a weight is known is told by
// the grams' tip as well, a part eaten of everything says nothing, and sodium
// stands on the Versions page; the details of an ingredient have all of them.
func (s Sheet) OrigColumns(width float32) []int {
	whole := true
	for _, r := range s.Rows {
		whole = whole && (r.Band || r.Cells[OrigEaten].Text == words.Share(1))
	}
	keep := []int{OrigGrams, OrigFood, OrigEnergy}
	if width >= origNoSodium {
		keep = append(keep, OrigSodium)
	}
	keep = append(keep, OrigStatus)
	if width >= origNoEaten || !whole {
		keep = append(keep, OrigEaten)
	}
	if width >= origNoFrom {
		keep = append(keep, OrigFrom)
	}
	return keep
}

func (x *Bench) ingredientRow(i int, l *recipes.Line) Row {
	a := x.Original()
	r := Row{Key: string(l.ID), Label: Cell{Text: l.Text, Editable: true, Wrap: true, Bar: noBar()}}
	grams := Cell{Text: offSign(l, weightText(l, 1)), Number: true, Editable: true, Bar: noBar(), Tip: gramsTip(l)}
	from := Cell{Text: gramsTip(l), Muted: true, Bar: noBar()}
	named := Cell{Text: words.Say("original.no-food"), Mark: Wrong, Editable: true, Wrap: true, Bar: noBar()}
	if f := a.Lines[i].Food; f != nil {
		named = Cell{Text: f.Name, Editable: true, Wrap: true, Bar: noBar(), Tip: foodTip(f)}
		if f.Source == "own" && Impossible(f) {
			named.Mark, named.Tip = Wrong, join(words.Say("fault.impossible"), named.Tip)
		}
	}
	if l.Sub != nil {
		r.Label.Editable = false
		named = Cell{Text: SubName(x.book, *l.Sub), Wrap: true, Bar: noBar(), Tip: words.Say("sub.open.tip")}
	}
	eaten := Cell{Text: words.Share(l.PartEaten), Number: true, Editable: true, Muted: l.PartEaten == 1, Bar: noBar(), Tip: words.Say("original.eaten.tip")}
	if l.Uptake != nil {
		eaten.Text, eaten.Editable, eaten.Tip = words.Say("original.by-part"), false, words.Say("original.by-part.tip")
	}
	if a.Lines[i].Capped {
		grams.Mark, grams.Tip = Look, words.Say("line.capped.text", words.Grams(a.Lines[i].Eaten))
	}
	r.Cells = []Cell{grams, named, x.lineFigure(i, food.EnergyKcal), x.lineFigure(i, food.Sodium), statusCell(l), eaten, from}
	return r
}

// figureColumn is a column of a nutrient as the workbook shows it.
func (x *Bench) figureColumn(key string, n food.Nutrient) Column {
	s := x.as(x.units.Of(n))
	return Column{Key: key, Title: s.name, Sub: s.unit, Number: true, Index: -1}
}

func (x *Bench) lineFigure(i int, n food.Nutrient) Cell {
	n = x.units.Of(n)
	s := x.as(n)
	v, ok := x.Original().LineAmount(i, n)
	if !ok {
		return Cell{Text: words.Unknown, Number: true, Muted: true, Bar: noBar()}
	}
	return Cell{Text: words.Number(v*s.times, s.decimals), Number: true, Bar: noBar()}
}

func statusCell(l *recipes.Line) Cell {
	switch l.Status() {
	case recipes.StatusMatched:
		return Cell{Text: words.Say("status.matched"), Muted: true, Bar: noBar(), Mark: Met}
	case recipes.StatusUnknown:
		return Cell{Text: words.Say("status.unknown"), Mark: Wrong, Bar: noBar(), Tip: DoubtText(l)}
	}
	return Cell{Text: words.Say("status.check"), Mark: Look, Bar: noBar(), Tip: DoubtText(l)}
}

// foodTip says where a food's row comes from.
func foodTip(f *food.Food) string {
	if f.Source == "own" {
		return words.Say("food.own", f.Note)
	}
	return words.Say("food.source", f.Published, f.Release, f.Code)
}

// ServesMore says what the number of servings leaves out: how it was come by, or
// what it makes; empty when it was simply stated.
func ServesMore(r *recipes.Recipe) string {
	if r.ServingsFrom == recipes.ServingsStated && r.Makes == "" {
		return ""
	}
	return ServesText(r)
}
