package book

import (
	"regexp"
	"strings"
	"testing"
)

func TestFiguresHoldTogether(t *testing.T) {
	for _, row := range []struct{ name, in, want string }{
		{"number and unit", "704 to 489 kcal, 46 g fat", "704 to 489_kcal, 46_g fat"},
		{"a fall", "46 g instead of 24 g (–48 %).", "46_g instead of 24_g (\u221248_%)."},
		{"a range is none", "50–55 minutes", "50–55_minutes"},
		{"a fraction", "½ tsp fine salt", "½_tsp fine salt"},
		{"degrees", "at 190 °C, then", "at 190_°C, then"},
		{"a word that begins like a unit", "2 large eggs, 3 greens", "2 large eggs, 3 greens"},
		{"two in a row", "1 g 2 g", "1_g 2_g"},
		{"what is counted", "16 personnes, 2 cuissons; 16 tasters, 2 pots", "16_personnes, 2_cuissons; 16_tasters, 2_pots"},
		{"nothing", "", ""},
	} {
		if got := strings.ReplaceAll(kept(row.in), noBreak, "_"); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
	if got := oneLine(" a\n b\u00a0%\t"); got != "a b\u00a0%" {
		t.Errorf("a space that holds together went: %q", got)
	}
}

// TestNoFigureIsTornInDocuments looks at the two forms whose lines a word
// processor or browser breaks.
func TestNoFigureIsTornInDocuments(t *testing.T) {
	m := harbourBook(t, Metric)
	for name, text := range map[string]string{"DOCX": string(unzip(t, written(t, m.WriteDOCX))["word/document.xml"]), "HTML": string(written(t, m.WriteHTML))} {
		text = regexp.MustCompile(`descr="[^"]*"|<(style|script)[\s\S]*?</(style|script)>`).ReplaceAllString(text, "")
		if torn := figureForm.FindString(text); torn != "" {
			t.Errorf("%s: a line may end in %q", name, torn)
		}
		if !strings.Contains(text, "kcal (\u2212") && !strings.Contains(text, "(\u2212") {
			t.Errorf("%s: no fall with a real minus", name)
		}
	}
}
