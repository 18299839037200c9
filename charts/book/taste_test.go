package book

import (
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/recipes"
)

// TestWordsOfTaste: that a version tastes as the original does is asked about until
// a tasting of this very dish bears it out; the list is one in the window's report
// and on the page.
func TestWordsOfTaste(t *testing.T) {
	b := apply(t, mustHarbour(t), recipes.SetHeadnote(mustHarbour(t).Recipes()[0].ID, "Every bit as creamy as it was. Nobody will notice."))
	r := b.Recipes()[0]
	n := 0
	fresh := func() recipes.ID { n++; return recipes.ID(strings.Repeat("n", n)) }
	later := apply(t, b, recipes.ChangeDish("", fresh, recipes.SetServings(r.ID, 5)))
	for _, row := range []struct {
		name, letter string
		book         *recipes.Book
		want         string // of why; empty where the tasting bears it out
	}{
		{"within the limit", "A", b, ""},
		{"not enough tasting", "B", b, "not enough tasting"},
		{"too much lost", "D", b, "more than the limit"},
		{"never tasted", "F", b, "no closed blind tasting"},
		{"changed since", "A", later, "changed since"},
		{"the original", "", b, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			id := recipes.ID("")
			for _, v := range row.book.Versions(r.ID) {
				if v.Letter == row.letter {
					id = v.ID
				}
			}
			m, err := ManuscriptOf(row.book, "", []Choice{{r.ID, id}}, Usual(Metric, claims.EU), someDay)
			if err != nil {
				t.Fatal(err)
			}
			asked := 0
			for _, o := range m.Report {
				if o.Kind == OpenTaste {
					asked++
					if row.want == "" || !strings.Contains(o.Text, row.want) {
						t.Errorf("%q, want %q", o.Text, row.want)
					}
				}
				onPage := slices.ContainsFunc(m.Pages[0].openBlocks(), func(x block) bool { return slices.Contains(x.items, o.Text) })
				if !onPage {
					t.Errorf("the window lists %q and the page does not", o.Text)
				}
			}
			if want := map[bool]int{true: 0, false: 2}[row.want == ""]; asked != want {
				t.Errorf("asked about %d words, want %d", asked, want)
			}
		})
	}
}

// TestWhatThePageShouldBe: a version that misses the recipe's own brief, and one that
// nobody chose, are asked about.
func TestWhatThePageShouldBe(t *testing.T) {
	count := func(p *Page, k OpenKind) (n int) {
		for _, o := range p.Editor {
			if o.Kind == k {
				n++
			}
		}
		return n
	}
	b := pageOf(t, 0, "B", Usual(Metric, claims.EU)) // 566 kcal of at most 500, 1,180 mg of sodium of at most 800
	f := pageOf(t, 0, "F", Usual(Metric, claims.EU)) // meets it
	if count(b, OpenBrief) != 2 || count(f, OpenBrief) != 0 || count(b, OpenNotChosen) != 0 {
		t.Errorf("%+v\n%+v", b.Editor, f.Editor)
	}
	newest := pageOf(t, 1, "E", Usual(Metric, claims.EU))
	if count(newest, OpenNotChosen) != 1 || count(pageOf(t, 1, "A", Usual(Metric, claims.EU)), OpenNotChosen) != 0 {
		t.Errorf("%+v", newest.Editor)
	}
}
