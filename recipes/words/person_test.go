package words

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// A cook or taster is anybody: no sentence calls them she or he.
func TestNobodyIsCalledSheOrHe(t *testing.T) {
	someone := regexp.MustCompile(`(?i)(^|[^\pL])(she|her|hers|herself|he|him|his|himself)([^\pL]|$)`)
	files, err := filepath.Glob(filepath.Join("en", "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range someone.FindAllIndex(text, -1) {
			t.Errorf("%s: …%s…", name, text[max(0, at[0]-40):min(len(text), at[1]+20)])
		}
	}
}
