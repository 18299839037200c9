package book

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/recipes/words"
)

// TestOneFolderCountsEnergyOneWay: what a swap takes off is the same number in
// the waterfall and on the map, what the changes say of a version is what the
// waterfall ends at, and captions and page say by which factors.
func TestOneFolderCountsEnergyOneWay(t *testing.T) {
	for _, row := range []struct {
		rule       claims.Authority
		says, page string
	}{{claims.EU, "book.energy.eu", "book.per-serving.eu.eu"}, {claims.US, "book.energy.table", "book.per-serving.us.table"}} {
		p := pageOf(t, 0, "B", Usual(Metric, row.rule))
		figures, err := FiguresOf(mustHarbour(t), p.Recipe, p.Version, Usual(Metric, row.rule), 120)
		if err != nil {
			t.Fatal(err)
		}
		at := func(part string) Figure {
			i := slices.IndexFunc(figures, func(f Figure) bool { return strings.Contains(f.Alt, part) })
			if i < 0 {
				t.Fatalf("no figure says %q", part)
			}
			return figures[i]
		}
		fall, drawn := at("kcal) to B yogurt"), at("Map of the swaps")
		for _, swap := range []string{"olive oil for the butter under the leeks", "crumbs brushed with oil, not butter", "strained yogurt for half the double cream"} {
			saved := regexp.MustCompile(regexp.QuoteMeta(swap) + `: (–\d+ kcal)`)
			a, b := saved.FindStringSubmatch(fall.Alt), saved.FindStringSubmatch(drawn.Alt)
			if a == nil || b == nil || a[1] != b[1] {
				t.Errorf("%s: %s: %q swap by swap, %q on the map", row.rule, swap, a, b)
			}
		}
		original := regexp.MustCompile(`original[ (,]+(\d+ kcal)`)
		want := original.FindStringSubmatch(fall.Alt)[1]
		for _, f := range figures {
			if got := original.FindStringSubmatch(f.Alt); got != nil && got[1] != want {
				t.Errorf("%s: %s says %s of the original, the waterfall %s", row.rule, f.Caption, got[1], want)
			}
			if strings.Contains(f.Alt, "kcal") && !strings.Contains(f.Caption, words.Say(row.says)) {
				t.Errorf("%s: the caption does not say how energy is counted: %s", row.rule, f.Caption)
			}
		}
		if !strings.Contains(string(written(t, p.WriteText)), words.Say(row.page)) {
			t.Errorf("%s: the page does not say how energy is counted", row.rule)
		}
		if !strings.Contains(p.Picture.Caption, words.Say(row.says)) || strings.Contains(p.Picture.Caption+string(written(t, p.WriteText)), "window") {
			t.Errorf("%s: %q", row.rule, p.Picture.Caption)
		}
	}
}

// TestFiguresByAnotherScore: figures of the swaps go by the score that is asked
// for and name it; one that nobody was asked for is a problem.
func TestFiguresByAnotherScore(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	figures, err := FiguresBy(mustHarbour(t), p.Recipe, p.Version, "Flavour", Usual(Metric, claims.EU), 120)
	if err != nil {
		t.Fatal(err)
	}
	drawn := 0
	for _, f := range figures {
		if strings.HasPrefix(f.Alt, "Map of the swaps") || strings.HasPrefix(f.Alt, "Waterfall") {
			drawn++
			if !strings.Contains(f.Alt, "Flavour") || strings.Contains(f.Alt+f.Caption, "Overall") || strings.Contains(f.Alt+f.Caption, "liking") || strings.Contains(f.Alt, "liked") || strings.Contains(f.Alt, "limit") {
				t.Errorf("%s\n%s", f.Caption, f.Alt)
			}
		}
	}
	if drawn != 4 {
		t.Errorf("%d figures of swaps", drawn)
	}
	if _, err := FiguresBy(mustHarbour(t), p.Recipe, p.Version, "Crunch", Usual(Metric, claims.EU), 120); err == nil {
		t.Error("a score that nobody was asked for was taken")
	}
}

// TestOneWordAndOneSemicolon: energy has one name in a folder, and a French list
// has its space before every semicolon and one name for the original.
func TestOneWordAndOneSemicolon(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	figures := func() []Figure {
		out, err := FiguresOf(mustHarbour(t), p.Recipe, p.Version, Usual(Metric, claims.EU), 120)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	for _, f := range figures() {
		if text := f.Name + f.Caption + f.Alt; strings.Contains(strings.ToLower(text), "calorie") {
			t.Errorf("calories beside energy: %s", text)
		}
	}
	was := words.Current()
	words.Use(words.Find("fr"))
	defer words.Use(was)
	for _, f := range figures() {
		if m := regexp.MustCompile(`.{9}[^ \x{a0}\x{202f}];.{9}`).FindString(f.Caption + f.Alt); m != "" {
			t.Errorf("a semicolon without its space: %q", m)
		}
		if strings.Contains(f.Alt, "l’original :") || strings.Contains(f.Alt, "l’original, moyenne") {
			t.Errorf("the original is a name in one place and a word in another: %s", f.Alt)
		}
	}
}
