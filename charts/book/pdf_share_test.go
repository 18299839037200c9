package book

import (
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/charts/manuscript"
	"parewell/recipes/words"
)

func sheetsOf(t *testing.T, p *Page) []manuscript.Page {
	t.Helper()
	sheets, err := p.Sheets()
	if err != nil {
		t.Fatal(err)
	}
	return sheets
}

// TestLittleIsParted: where the usual plan runs a column over to the next sheet, a
// better one does not, and a figure stands in a column's free room rather than on a
// sheet of its own.
func TestLittleIsParted(t *testing.T) {
	for _, row := range []struct {
		recipe      int
		letter      string
		runsOver    bool // by the usual plan
		figureFirst bool // the figure is on the first sheet
	}{
		{0, "B", true, false},
		{1, "A", true, true},
		{2, "A", false, true},
	} {
		p := pageOf(t, row.recipe, row.letter, Usual(Metric, claims.EU))
		s := newSetter(p.Paper())
		at := s.flow(s.head(p), pdfSide, spot{0, pdfTop})
		d := s.newDesk(p)
		over := func(x sheetPlan) bool {
			_, left := s.place(d.column(x.left, d.leftWide, x.high), at)
			_, right := s.place(d.column(x.right, d.rightWide, x.high), at)
			return left.page+right.page > 0
		}
		if got := over(sheetPlans()[0]); got != row.runsOver {
			t.Errorf("%s %s: the usual plan runs over: %v", p.Title, p.Letter, got)
		}
		if over(d.best(at)) {
			t.Errorf("%s %s: a column runs over", p.Title, p.Letter)
		}
		sheets := sheetsOf(t, p)
		if got := len(sheets[0].Pictures) == 1; got != row.figureFirst {
			t.Errorf("%s %s: the figure is on the first of %d sheets: %v", p.Title, p.Letter, len(sheets), got)
		}
		for _, x := range sheets[0].Pictures {
			if x.X < pdfSide || x.X+x.Width > p.Paper().Width-pdfSide+0.01 || x.Y+x.Height > p.Paper().Height-pdfFoot {
				t.Errorf("%s: the figure stands out of the page: %+v", p.Title, x)
			}
		}
	}
}

// TestEveryPartIsSetOnce: whatever the plan, a page has all its parts.
func TestEveryPartIsSetOnce(t *testing.T) {
	p := pageOf(t, 0, "F", Usual(Both, claims.EU))
	all := 0
	for _, x := range sheetPlans() {
		keys := slices.Concat(x.left, x.right, x.under)
		slices.Sort(keys)
		all++
		if len(slices.Compact(keys)) != 9 || len(keys) != 9 {
			t.Fatalf("parts %v", keys)
		}
	}
	if all != 72 {
		t.Errorf("%d plans", all)
	}
	var said []string
	for _, s := range sheetsOf(t, p) {
		for _, x := range s.Texts {
			said = append(said, x.Text)
		}
	}
	for _, x := range p.parts()[1:] {
		if n := len(slices.DeleteFunc(slices.Clone(said), func(s string) bool { return s != x.head })); n != 1 {
			t.Errorf("%q stands %d times on the page", x.head, n)
		}
	}
}

// TestLettersAreTheKitchens: a page does not name its version, unless the book has
// another one of the recipe.
func TestLettersAreTheKitchens(t *testing.T) {
	b := mustHarbour(t)
	r := b.Recipes()[0]
	v := b.Versions(r.ID)
	for _, row := range []struct {
		name   string
		chosen []Choice
		want   bool
	}{
		{"one version", []Choice{{r.ID, v[1].ID}}, false},
		{"beside the original", []Choice{{r.ID, ""}, {r.ID, v[1].ID}}, true},
		{"two versions", []Choice{{r.ID, v[1].ID}, {r.ID, v[2].ID}}, true},
	} {
		m, err := ManuscriptOf(b, "", row.chosen, Usual(Metric, claims.EU), someDay)
		if err != nil {
			t.Fatal(err)
		}
		p := m.Pages[len(m.Pages)-1]
		line := words.Say("book.version-named", p.Letter, p.Name)
		for _, text := range []string{sheetsOf(t, p)[0].Words(), string(written(t, p.WriteText)), string(written(t, p.WriteHTML))} {
			if strings.Contains(text, line) != row.want {
				t.Errorf("%s: the page names the version: %v", row.name, !row.want)
			}
		}
		if got := p.pageName() != p.Title; got != row.want {
			t.Errorf("%s: the contents say %q", row.name, p.pageName())
		}
		if strings.Contains(p.Picture.Alt, p.Name) {
			t.Errorf("%s: the figure names the version: %q", row.name, p.Picture.Alt)
		}
	}
}
