package words

import (
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// saidOnPaper begin the keys that printed pages have said for them by other
// packages: cautions, allergens, and what the rules make of a headnote.
var saidOnPaper = []string{
	"caution.", "ideas.allergen.", "nutrient.", "month.", "claims.less-than", "claims.verdict.", "claims.why.", "claims.missing.",
	"claims.ask.", "claims.basis.", "claims.op.", "claims.sum", "claims.said.", "claims.advice.", "cmd.print.",
}

// wordless is a sentence of marks and arguments only, the same in every language.
func wordless(sentence string) bool {
	rest := slot.ReplaceAllString(sentence, "")
	return !regexp.MustCompile(`\pL\pL`).MatchString(rest)
}

// TestPaperIsWhollyFrench: every sentence of figures and of printed pages is there
// in French, so that no page falls back to English.
func TestPaperIsWhollyFrench(t *testing.T) {
	en, fr := Find("en"), Find("fr")
	used := slices.Collect(maps.Keys(keysInCode(t, filepath.Join("..", "..", "charts"), "manuscript")))
	for _, start := range saidOnPaper {
		used = append(used, start+"*")
	}
	checked := 0
	for key, sentence := range en.sentences {
		base := strings.TrimSuffix(strings.TrimSuffix(key, "#one"), ".hint")
		on := slices.ContainsFunc(used, func(u string) bool {
			start, many := strings.CutSuffix(u, "*")
			return u == base || many && strings.HasPrefix(base, start)
		})
		if !on || wordless(sentence) || strings.HasSuffix(key, "#one") {
			continue
		}
		checked++
		if _, ok := fr.sentences[key]; !ok {
			t.Errorf("%q is not said in French: %s", key, sentence)
		}
	}
	if checked < 400 {
		t.Errorf("only %d sentences were found", checked)
	}
}

// TestFrenchNamesOfTheRegulation: Regulation (EU) No 1169/2011 of 25 October 2011,
// French text (OJ L 304, 22.11.2011): Annex XV names what a nutrition declaration
// has, Annex II the allergens (the word cereals containing gluten stands apart
// here: wheat, and rye, barley or oats).
func TestFrenchNamesOfTheRegulation(t *testing.T) {
	inFrench(t)
	for key, want := range map[string]string{
		"book.row.eu.energy_kcal":     "Énergie",
		"book.row.eu.fat_g":           "Matières grasses",
		"book.row.eu.saturated_fat_g": "dont acides gras saturés",
		"book.row.eu.carbohydrate_g":  "Glucides",
		"book.row.eu.sugars_g":        "dont sucres",
		"book.row.eu.fibre_g":         "Fibres alimentaires",
		"book.row.eu.protein_g":       "Protéines",
		"book.row.eu.salt":            "Sel",
		"ideas.allergen.milk":         "lait",
		"ideas.allergen.egg":          "œufs",
		"ideas.allergen.fish":         "poissons",
		"ideas.allergen.crustacean":   "crustacés",
		"ideas.allergen.mollusc":      "mollusques",
		"ideas.allergen.tree nut":     "fruits à coque",
		"ideas.allergen.peanut":       "arachides",
		"ideas.allergen.soybean":      "soja",
		"ideas.allergen.sesame":       "graines de sésame",
		"ideas.allergen.celery":       "céleri",
		"ideas.allergen.mustard":      "moutarde",
		"ideas.allergen.lupin":        "lupin",
		"ideas.allergen.sulphite":     "anhydride sulfureux et sulfites",
		"ideas.allergen.wheat":        "blé",
	} {
		if got := Say(key); got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
}
