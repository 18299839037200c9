package sheets

import (
	"slices"
	"strings"
	"testing"
	"time"

	"parewell/charts/book"
	"parewell/recipes"
)

// printed is the gratin with a note on technique, and the book it makes.
func printed(t *testing.T, more ...recipes.Verb) (*recipes.Book, *recipes.Recipe, *book.Manuscript) {
	t.Helper()
	b, _ := gratin(t)
	swap := *b.Swap("recipe", "half")
	swap.Note = "Melt it slowly."
	b = do(t, b, append([]recipes.Verb{recipes.EditSwap(&swap, nil)}, more...)...)
	m, err := book.ManuscriptOf(b, "Book", book.Chosen(b), book.OptionsOf(b), time.Date(2026, 1, 2, 0, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	return b, b.Recipe("recipe"), m
}

func TestPrintChoices(t *testing.T) {
	b, r, _ := printed(t)
	choices := PrintChoices(b, r)
	if len(choices) != 3 || choices[0].Key != "" || choices[1].Key != string(b.Versions(r.ID)[0].ID) || choices[2].Key != string(recipes.PrintOriginal) {
		t.Fatalf("%+v", choices)
	}
	for _, tt := range []struct {
		name, typed, want string
		ok                bool
	}{
		{"its letter", "a", choices[1].Key, true},
		{"its whole name", choices[1].Name, choices[1].Key, true},
		{"the original", " Original ", string(recipes.PrintOriginal), true},
		{"none", "b", "", false},
	} {
		if key, ok := PrintNamed(b, r, tt.typed); key != tt.want || ok != tt.ok {
			t.Errorf("%s: %q, %v", tt.name, key, ok)
		}
	}
	if got := PrintChosen(b, r); got != "" {
		t.Errorf("nothing chosen: %q", got)
	}
	b = do(t, b, recipes.SetPrint(r.ID, recipes.Print{Version: recipes.PrintOriginal}))
	if got := PrintChosen(b, b.Recipe(r.ID)); got != string(recipes.PrintOriginal) {
		t.Errorf("the original chosen: %q", got)
	}
}

// TestPrintNotes: what a swap says is on the page until it is taken off.
func TestPrintNotes(t *testing.T) {
	b, r, _ := printed(t)
	want := []PrintNote{{Swap: "half", Name: "Half the butter", On: true}}
	if got := PrintNotes(b, r); !slices.Equal(got, want) {
		t.Fatalf("%+v", got)
	}
	off := Untold(r, "half", false)
	b = do(t, b, recipes.SetPrint(r.ID, recipes.Print{Untold: off}))
	r, want[0].On = b.Recipe(r.ID), false
	if got := PrintNotes(b, r); !slices.Equal(got, want) {
		t.Errorf("taken off: %+v", got)
	}
	if got := Untold(r, "half", true); len(got) != 0 || len(r.Print.Untold) != 1 {
		t.Errorf("put on again: %v, and the recipe has %v", got, r.Print.Untold)
	}
	b = do(t, b, recipes.SetPrint(r.ID, recipes.Print{Version: recipes.PrintOriginal}))
	if got := PrintNotes(b, b.Recipe(r.ID)); len(got) != 0 {
		t.Errorf("the original's: %+v", got)
	}
}

func TestHeadnoteOf(t *testing.T) {
	b, r, _ := printed(t)
	got := HeadnoteOf(b, r, "Guilt-free, and lovely.")
	if len(got) != 1 || got[0].Mark != Wrong {
		t.Errorf("%+v", got)
	}
}

// TestBookSheets: 200 kcal a serving instead of 300 in every table of the book.
func TestBookSheets(t *testing.T) {
	b, r, m := printed(t, recipes.Set(book.SettingRule, "us"))
	list := BookRecipes(b, m).Rows[0]
	if list.Cells[BookIn].Tick != TickOn || list.Cells[2].Text != "200" || !strings.Contains(list.Cells[2].Sub, "33") {
		t.Errorf("in the list: %+v", list.Cells)
	}
	if open := list.Cells[3]; open.Text == "" || open.Mark != Look {
		t.Errorf("open: %+v", open)
	}
	table := BookNutrition(m)
	if !table.Rows[0].Band {
		t.Errorf("no band: %+v", table.Rows[0])
	}
	kcal := row(t, table, "0:energy_kcal")
	if kcal.Cells[0].Text != "300" || kcal.Cells[1].Text != "200" || kcal.Cells[2].Bar > -.3 {
		t.Errorf("before and after: %+v", kcal.Cells)
	}
	if sodium := row(t, table, "0:sodium_mg"); !strings.Contains(sodium.Label.Text, "sodium") || sodium.Cells[2].Bar < 1 {
		t.Errorf("sodium: %+v", sodium)
	}
	_, _, salted := printed(t, recipes.Set(book.SettingSalt, book.Salt))
	if salt := row(t, BookNutrition(salted), "0:sodium_mg"); !strings.Contains(salt.Label.Text, "salt") || salt.Cells[0].Text != "0.05" {
		t.Errorf("salt: %+v", salt) // 20 mg of sodium
	}
	index := BookIndex(m)
	if len(index.Rows) != 3 || index.Rows[0].Cells[0].Text != "Gratin" {
		t.Errorf("index: %+v", index.Rows)
	}
	report := BookReport(m)
	if len(report.Rows) != len(m.Report) || len(report.Rows) == 0 {
		t.Errorf("%d rows for %d points", len(report.Rows), len(m.Report))
	}
	b = do(t, b, recipes.SetPrint(r.ID, recipes.Print{LeftOut: true, Title: "Friday gratin"}))
	out := BookRecipes(b, nil).Rows[0]
	if out.Cells[BookIn].Tick != TickOff || !out.Label.Muted || out.Label.Text != "Friday gratin" || out.Cells[2].Text != "" {
		t.Errorf("left out: %+v", out)
	}
}

// TestWhyThePagePrintsAnotherEnergy: the sentence names the ingredients that are
// printed rounded, the rule, and what each of them moves.
func TestWhyThePagePrintsAnotherEnergy(t *testing.T) {
	line := func(name string, was, is, kcal float64) book.MovedLine {
		return book.MovedLine{Name: name, Was: was, Is: is, By: kcal}
	}
	for _, row := range []struct {
		name  string
		moved *book.Moved
		want  string
	}{
		{"not wholly known", nil, ""},
		{"the same number", &book.Moved{Own: 500.2, Page: 499.8, Lines: []book.MovedLine{line("oil", 20, 19.9, -0.4)}}, ""},
		{"one line", &book.Moved{Own: 585, Page: 575, Lines: []book.MovedLine{line("oil", 26.8, 20, -10)}}, "The page prints 575 kcal a serving where Versions shows 585. What moved it: oil printed as 20 g instead of 27 g (–10 kcal)."},
		{"weights that read the same", &book.Moved{Own: 585, Page: 587, Lines: []book.MovedLine{line("oil", 20.4, 20, 2)}}, "oil printed as 20 g instead of 20.4 g (+2 kcal)"},
		{
			"small things and the rule", &book.Moved{Own: 585, Page: 560, Rule: -4, Lines: []book.MovedLine{line("oil", 27, 20, -10), line("rice", 90, 80, -7), line("ham", 40, 35, -3), line("peas", 11, 10, -1)}},
			"ham printed as 35 g instead of 40 g (–3 kcal), one smaller rounding (–1 kcal) and energy counted by the factors of EU labels (–4 kcal).",
		},
	} {
		if got := PrintMoved(&book.Page{Moved: row.moved}); row.want == "" && got != "" || !strings.Contains(got, row.want) {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}
