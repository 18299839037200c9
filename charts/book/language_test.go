package book

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"parewell/analysis/claims"
	"parewell/charts/manuscript"
	"parewell/recipes/words"
)

// ofTheCook begin the keys whose English words stand in the demo's own recipes too:
// names of swaps and sheets that the pages do not have.
var ofTheCook = regexp.MustCompile(`^(ideas|swap|tests)\.`)

// englishOnly are the sentences, as patterns, that French has no words of its own
// for, by key.
func englishOnly(t *testing.T) map[string]*regexp.Regexp {
	t.Helper()
	read := func(code string) map[string]string {
		out := map[string]string{}
		all, err := filepath.Glob(filepath.Join("..", "..", "recipes", "words", code, "*.txt"))
		if err != nil || len(all) == 0 {
			t.Fatal(all, err)
		}
		for _, name := range all {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, line := range strings.Split(string(text), "\n") {
				if key, sentence, ok := strings.Cut(line, "="); ok && !strings.HasPrefix(line, "#") {
					out[strings.TrimSpace(key)] = strings.TrimSpace(sentence)
				}
			}
		}
		return out
	}
	fr, out := read("fr"), map[string]*regexp.Regexp{}
	slot := regexp.MustCompile(`\\\{\d\\\}`)
	for key, sentence := range read("en") {
		if _, ok := fr[key]; ok || ofTheCook.MatchString(key) || strings.Count(sentence, " ") < 2 || !regexp.MustCompile(`\pL{3} \pL{2}`).MatchString(sentence) {
			continue
		}
		out[key] = regexp.MustCompile(slot.ReplaceAllString(regexp.QuoteMeta(sentence), ".+?"))
	}
	return out
}

// TestNothingOnPaperIsEnglish makes the whole book of the demo in French, with its
// figures: no sentence of the program falls back, and English is spoken again
// behind it.
func TestNothingOnPaperIsEnglish(t *testing.T) {
	b := mustHarbour(t)
	all := ""
	for _, o := range []Options{Usual(Both, claims.EU), Usual(US, claims.US)} {
		var files []File
		if err := Speaking("fr", func() error {
			m, err := ManuscriptOf(b, "", Chosen(b), o, time.Date(2026, 8, 1, 0, 0, 0, 0, time.UTC))
			if err != nil {
				return err
			}
			files, err = m.RecipeFiles(b, 120, FigureOptions{Formats: []string{"svg"}})
			files = append(files, m.BookFiles()...)
			return err
		}); err != nil {
			t.Fatal(err)
		}
		for _, f := range Spoken("fr", files) {
			switch filepath.Ext(f.Name) {
			case ".txt", ".md", ".csv":
				all += string(written(t, f.Write))
			}
			all += f.Name + "\n"
		}
	}
	if words.Current().Code != "en" {
		t.Error("French is still spoken")
	}
	all = strings.ReplaceAll(all, noBreak, " ")
	for key, english := range englishOnly(t) {
		if said := english.FindString(all); said != "" {
			t.Errorf("%s is said in English: %s", key, said)
		}
	}
	for _, want := range []string{
		"Recettes", "Fait le 1er août 2026.", "dont acides gras saturés", "2,9 g au lieu de 3,1 g", "Donne 6 portions", "Contient : lait",
		"Peut contenir, selon le produit : ", "Calories", "Dégustée à l’aveugle le 14 mars 2026, édition 1 : 15 personnes, 1 cuisson.", "Précautions",
		"Ce qui ne concorde pas encore", "Pas pesé après cuisson", "-02-d-ou-vient-l-energie.svg", "-05-sel-echange-par-echange.svg",
		"-06-notes-appreciation-globale.svg", "Cascade, Sel par portion, de l’original (3,1 g)", "intervalles à 95 %",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("nothing says %q", want)
		}
	}
	if m := regexp.MustCompile(`\[[a-z]+\.[a-z._-]+\]`).FindString(all); m != "" {
		t.Errorf("%s has no sentence", m)
	}
}

// TestMarksHoldToTheirWords: French sets some marks off by a space; no line of a
// PDF begins with one, and none ends between a number and its unit.
func TestMarksHoldToTheirWords(t *testing.T) {
	var r manuscript.Ruler
	text := ""
	if err := Speaking("fr", func() error {
		text = words.Say("book.report.name", "saumon", "truite", "Soupe") + " " + words.Say("book.tested.once", "x", 1, 12, "y") + " 45 kcal"
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	for wide := 60.0; wide < 300; wide += 3 { // from the widest pair of words on
		for _, line := range r.Wrap(unbroken(text), 10, wide, false) {
			if strings.IndexAny(line, ":;»") == 0 || strings.HasPrefix(line, "kcal") || strings.HasSuffix(line, "«") {
				t.Errorf("at %g points a line is %q", wide, line)
			}
		}
	}
}

func TestALanguageThereIsNot(t *testing.T) {
	if err := Speaking("xx", func() error { t.Error("it speaks"); return nil }); err == nil || !strings.Contains(err.Error(), "xx") {
		t.Error(err)
	}
	if err := Speaking("", func() error { return nil }); err != nil {
		t.Error(err)
	}
}

// TestEveryKindHasItsHeading: the report's kinds all have words, in English too.
func TestEveryKindHasItsHeading(t *testing.T) {
	for _, k := range reportOrder {
		if !words.Current().Has("book.kind." + string(k)) {
			t.Errorf("%q has no heading", k)
		}
	}
}
