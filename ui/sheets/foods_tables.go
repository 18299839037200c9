package sheets

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Releases lists the published tables of a workbook, the newest import first,
// after the table that comes with the program, whose key is empty.
func Releases(b *recipes.Book, starter int) Sheet {
	s := Sheet{Corner: words.Say("releases.table"), Columns: []Column{
		{Key: "foods", Title: words.Say("releases.foods"), Number: true, Index: -1},
		{Key: "used", Title: words.Say("releases.used"), Number: true, Index: -1},
		{Key: "since", Title: words.Say("releases.since"), Tight: true, Index: -1},
	}}
	used := map[string]int{}
	eachLine(b, func(u FoodUse) { used[u.Line.Food.Source+"/"+u.Line.Food.Release]++ })
	number := func(n int) Cell { return Cell{Text: words.Number(float64(n), 0), Number: true, Bar: noBar()} }
	s.Rows = append(s.Rows, Row{Label: Cell{Text: words.Say("releases.starter"), Bar: noBar(), Wrap: true}, Cells: []Cell{
		number(starter), number(used[food.StarterSource+"/"+food.StarterRelease]), {Text: words.Say("releases.with"), Muted: true, Bar: noBar()},
	}})
	for _, r := range b.Releases() {
		s.Rows = append(s.Rows, Row{Key: r.Key(), Label: Cell{Text: r.Name, Bar: noBar(), Wrap: true}, Cells: []Cell{
			number(r.Foods), number(used[r.Key()]), {Text: words.Day(r.Imported), Muted: true, Bar: noBar()},
		}})
	}
	return s
}

// TableRead is what became of one published table that was read.
type TableRead struct {
	Name            string
	Foods           int
	Rows, Bad, Left int
	Wrong           []*problem.Error // the rows left out, as many as are kept
	Already         bool
}

// ReadText says in a few sentences what became of a table.
func (t TableRead) ReadText() string {
	key := "releases.did"
	if t.Already {
		key = "releases.already"
	}
	out := words.Say(key, t.Foods, t.Name)
	if t.Left > 0 {
		out += " " + words.Say("cmd.foods.import.left", t.Left)
	}
	if t.Bad > 0 {
		out += " " + words.Say("releases.bad", t.Bad, t.Rows)
	}
	return out
}

// mostWrong is how many bad rows are listed.
const mostWrong = 20

// WrongRows lists the first rows that could not be read, with their place; more
// is how many there are besides, "" for none.
func WrongRows(all []TableRead) (s Sheet, more string) {
	s = Sheet{Corner: words.Say("releases.place"), Columns: []Column{{Key: "why", Title: words.Say("releases.why"), Index: -1}}}
	bad := 0
	for _, t := range all {
		bad += t.Bad
		for _, e := range t.Wrong {
			if len(s.Rows) < mostWrong {
				s.Rows = append(s.Rows, Row{Label: Cell{Text: e.Where, Bar: noBar(), Wrap: true}, Cells: []Cell{{Text: e.What, Bar: noBar(), Wrap: true}}})
			}
		}
	}
	if rest := bad - len(s.Rows); rest > 0 {
		more = words.Say("cmd.foods.import.more", rest)
	}
	return s, more
}
