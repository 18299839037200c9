package book

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/analysis/ledger"
	"parewell/charts"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// TestNamesForAnArtDepartment: files of figures are named in plain letters, with
// recipe, version and number, in every language, and the list of captions has the
// same names with their endings.
func TestNamesForAnArtDepartment(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	o := FigureOptions{Formats: []string{"svg", "eps"}, Proof: true}
	for _, code := range []string{"en", "fr"} {
		was := words.Current()
		words.Use(words.Find(code))
		files, err := p.RecipeFigures(mustHarbour(t), 120, o)
		if err != nil {
			t.Fatal(err)
		}
		plainName := regexp.MustCompile(`^smoked-haddock-and-leek-gratin-b-\d\d-[a-z0-9-]+\.(svg|eps)$`)
		have, seen := map[string]bool{}, 0
		for _, f := range files {
			if have[f.Name] {
				t.Errorf("%s twice", f.Name)
			}
			have[f.Name] = true
			if !strings.HasSuffix(f.Name, ".csv") && !strings.HasSuffix(f.Name, ".txt") && !plainName.MatchString(f.Name) {
				t.Errorf("%s: %q", code, f.Name)
			}
		}
		i := slices.IndexFunc(files, func(f File) bool { return f.Name == "captions.csv" })
		rows, err := csv.NewReader(bytes.NewReader(written(t, files[i].Write))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range rows[1:] {
			for _, name := range strings.Split(row[1]+"; "+row[2], "; ") {
				if seen++; !have[name] {
					t.Errorf("%s: captions.csv has %q, which is no file", code, name)
				}
			}
			if row[3] != p.Title || row[4] != "B" {
				t.Errorf("%s: recipe %q version %q", code, row[3], row[4])
			}
			if french := strings.Contains(row[5]+row[6], "Overall") || strings.Contains(row[5]+row[6], "Flavour"); french == (code == "fr") && french {
				t.Errorf("%s: %s %s", code, row[5], row[6])
			}
		}
		if seen == 0 || seen+3 != len(files) {
			t.Errorf("%d names for %d files", seen, len(files))
		}
		words.Use(was)
	}
	for text, want := range map[string]string{"Crème brûlée, à l’œuf": "creme-brulee-a-l-oeuf", "Борщ": "", "A + B": "a-b", strings.Repeat("leek ", 20): "leek-leek-leek-leek-leek-leek-leek-leek"} {
		if got := plainWords(text, longTitle); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
	if got := scoreName("How cheesy"); got != "How cheesy" {
		t.Errorf("a cook's own word became %q", got)
	}
}

// TestRangesSayHowFarToTrustThem: what the window warns of stands in caption and
// text alternative of every figure of ranges, and of no other.
func TestRangesSayHowFarToTrustThem(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	d, err := drawnOf(mustHarbour(t), p.Recipe, p.Version, "", Usual(Metric, claims.EU), 120)
	if err != nil {
		t.Fatal(err)
	}
	d.tasted.pool.Peeked = true
	d.out = nil
	d.falls()
	d.scores()
	ranges := 0
	for _, f := range d.out {
		shown := strings.Contains(f.Alt, "interval") || strings.Contains(f.Alt, "range")
		for _, note := range d.care() {
			if strings.Contains(f.Caption, note) != shown || strings.Contains(f.Alt, note) != shown {
				t.Errorf("%s: ranges %v, and the note %q\n%s\n%s", f.Name, shown, note, f.Caption, f.Alt)
			}
		}
		if shown {
			ranges++
		}
	}
	if ranges != 7 || !slices.Contains(d.care(), words.Say("book.tested.peeked")) {
		t.Errorf("%d figures of ranges; %q", ranges, d.care())
	}
	if !slices.ContainsFunc(d.care(), func(s string) bool { return strings.HasSuffix(s, ": C.") || strings.Contains(s, "C") }) {
		t.Errorf("what was cooked once is not named: %q", d.care())
	}
}

// TestKeepOrDropHasEveryVerdict: swaps that were always served together have a row
// of their own, and every verdict its words.
func TestKeepOrDropHasEveryVerdict(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	d, err := drawnOf(mustHarbour(t), p.Recipe, p.Version, "", Usual(Metric, claims.EU), 120)
	if err != nil {
		t.Fatal(err)
	}
	rows := d.keepOrDrop()
	at := func(head string) int { return slices.Index(rows[0], head) }
	kinds := map[string]int{}
	for _, r := range rows[1:] {
		kinds[r[0]]++
		if len(r) != len(rows[0]) || r[at("verdict_words")] == "" || strings.HasPrefix(r[at("verdict_words")], "[") {
			t.Errorf("%q", r)
		}
		if r[0] == "together" && (!strings.Contains(r[1], "olive oil for the butter under the leeks; crumbs") || r[at("lighter_by")] == "" || r[at("low")] == "" || r[at("high")] == "" || r[at("verdict")] != string(ledger.NotEnough)) {
			t.Errorf("%q", r)
		}
	}
	if kinds["together"] != 1 || kinds["swap"] != 10 || kinds["version"] == 0 {
		t.Errorf("%v", kinds)
	}
	if rows := KeepOrDrop(d.tasted.table, food.EnergyKcal, "Overall", true, nil); len(rows) != 1+kinds["swap"]+1+kinds["version"] {
		t.Errorf("%d rows", len(rows))
	}
	if d, err = drawnOf(mustHarbour(t), p.Recipe, p.Version, "Flavour", Usual(Metric, claims.EU), 120); err != nil {
		t.Fatal(err)
	}
	lower := 0
	for _, r := range d.keepOrDrop()[1:] {
		if strings.Contains(r[at("verdict_words")], "liked") {
			t.Errorf("flavour is judged as liking: %q", r)
		}
		if r[at("verdict")] == string(charts.ScoredLower) {
			lower++
		}
	}
	if lower < 3 {
		t.Errorf("%d rows scored lower", lower)
	}
}
