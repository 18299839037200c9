package sheets

import (
	"math"
	"strconv"
	"strings"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Columns of the list of a book's recipes.
const (
	BookIn = iota
	BookVersion
)

// BookRecipes lists every recipe in the book's order: whether it is in, in which
// version, its energy before and after, and how much is open. m may be nil while
// it is being made.
func BookRecipes(b *recipes.Book, m *book.Manuscript) Sheet {
	s := Sheet{Corner: words.Say("bookpage.recipe"), Columns: []Column{
		{Key: "in", Title: words.Say("bookpage.in"), Index: -1, Tight: true},
		{Key: "version", Title: words.Say("bookpage.version"), Index: -1},
		{Key: "energy", Title: words.Say("nutrient.energy_kcal"), Sub: "kcal", Number: true, Index: -1},
		{Key: "open", Title: words.Say("bookpage.open"), Number: true, Index: -1},
	}}
	pages := map[recipes.ID]*book.Page{}
	open := map[recipes.ID]int{}
	if m != nil {
		for _, p := range m.Pages {
			pages[p.Recipe] = p
		}
		for i := range m.Report {
			open[m.Report[i].Recipe]++
		}
	}
	for _, r := range b.Recipes() {
		s.Rows = append(s.Rows, bookRow(b, r, pages[r.ID], open[r.ID]))
	}
	return s
}

func bookRow(b *recipes.Book, r *recipes.Recipe, p *book.Page, open int) Row {
	in := Cell{Tick: TickOn, Bar: noBar()}
	if r.Print.LeftOut {
		in.Tick = TickOff
	}
	row := Row{Key: string(r.ID), Label: Cell{Text: book.TitleOf(r), Wrap: true, Muted: r.Print.LeftOut, Bar: noBar()}, Cells: []Cell{
		in,
		{Text: VersionName(book.Printed(b, r)), Editable: true, Wrap: true, Muted: r.Print.LeftOut, Bar: noBar(), Tip: words.Say("bookpage.version.tip")},
		{Bar: noBar(), Number: true},
		{Bar: noBar(), Number: true},
	}}
	if p == nil {
		return row
	}
	_, after, change, changed := p.Compare(food.EnergyKcal)
	row.Cells[2].Text = Amount(after, food.EnergyKcal)
	if changed {
		row.Cells[2].Sub = ChangeText(change, food.EnergyKcal)
	}
	if open > 0 {
		row.Cells[3] = Cell{Text: strconv.Itoa(open), Mark: Look, Number: true, Bar: noBar(), Tip: words.Say("printed.open.count", open)}
	}
	return row
}

// BookNutrition sets one serving of each recipe as printed beside the original:
// a band a recipe, a row a nutrient, sodium as the page prints it. Energy is in
// kcal, as in the book's own table.
func BookNutrition(m *book.Manuscript) Sheet {
	s := Sheet{Corner: words.Say("bookpage.serving"), Columns: []Column{
		{Key: "before", Title: words.Say("bookpage.before"), Number: true, Index: -1},
		{Key: "after", Title: words.Say("bookpage.after"), Number: true, Index: -1},
		{Key: "change", Title: words.Say("bookpage.change"), Number: true, Index: -1},
	}}
	for i, p := range m.Pages {
		s.Rows = append(s.Rows, Row{Key: "band:" + strconv.Itoa(i), Band: true, Label: text(bookName(p))})
		for _, n := range p.Nutrients() {
			s.Rows = append(s.Rows, printedRow(p, i, n))
		}
	}
	return s
}

func bookName(p *book.Page) string {
	if p.Letter == "" {
		return words.Say("bookpage.original", p.Title)
	}
	return words.Say("bookpage.named", p.Title, p.Letter)
}

func printedRow(p *book.Page, i int, n food.Nutrient) Row {
	before, after, change, changed := p.Compare(n)
	as := Units{salt: p.Salt()}.as(n)
	row := Row{Key: strconv.Itoa(i) + ":" + n.Key(), Label: text(as.label()), Cells: []Cell{
		{Text: as.amount(before), Number: true, Bar: noBar()},
		{Text: as.amount(after), Number: true, Bar: noBar(), Strong: n == food.EnergyKcal},
		{Bar: noBar(), Number: true},
	}}
	if !changed {
		row.Cells[1] = Cell{Text: words.Say("bookpage.same"), Muted: true, Number: true, Bar: noBar()}
		return row
	}
	row.Cells[2] = Cell{Text: as.change(change), Number: true, Bar: noBar()}
	if !math.IsNaN(change.Percent) && change.Amount != 0 {
		row.Cells[2].Bar = math.Max(-1, math.Min(1, change.Percent/100))
	}
	return row
}

// BookIndex lists the ingredients with the recipes they are in.
func BookIndex(m *book.Manuscript) Sheet {
	s := Sheet{Corner: words.Say("bookpage.ingredient"), Columns: []Column{{Key: "in", Title: words.Say("bookpage.index.in"), Index: -1}}}
	for _, e := range m.Index {
		var in []string
		for _, n := range e.Pages {
			in = append(in, m.Pages[n].Title)
		}
		s.Rows = append(s.Rows, Row{Key: e.Name, Label: text(e.Name), Cells: []Cell{{Text: strings.Join(in, ", "), Wrap: true, Bar: noBar()}}})
	}
	return s
}

// BookReport lists what does not hold together, what may mislead a reader first;
// the rows are those of m.Report.
func BookReport(m *book.Manuscript) Sheet {
	s := Sheet{Corner: words.Say("bookpage.report"), Columns: []Column{{Key: "in", Title: words.Say("bookpage.recipe"), Index: -1}}}
	for i := range m.Report {
		x := &m.Report[i]
		mark := Look
		if x.Kind == book.OpenHealth || x.Kind == book.OpenAllergen {
			mark = Wrong
		}
		s.Rows = append(s.Rows, Row{Key: strconv.Itoa(i), Label: Cell{Text: x.Text, Wrap: true, Mark: mark, Bar: noBar()}, Cells: []Cell{{Text: x.Title, Wrap: true, Muted: true, Bar: noBar()}}})
	}
	return s
}
