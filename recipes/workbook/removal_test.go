package workbook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// A removed person's details are nowhere in the file, and neither are forgotten
// body measures.
func TestARemovedPersonIsGoneFromTheFile(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("gratin"))
	p := &recipes.Panelist{ID: "person1", Code: "Zephyrine", Asked: true, DoesNotEat: []string{"quincejelly"}, Consent: "2026-03-01", Note: "sister of the neighbour"}
	mustApply(t, f, tasting.PutTaster(p))
	q := *p
	q.Note = "moved to the lighthouse"
	mustApply(t, f, tasting.PutTaster(&q))
	mustApply(t, f, recipes.Set(recipes.BodyMeasures, `{"height":171}`))
	mustApply(t, f, recipes.Set(recipes.BodyMeasures, ""))
	mustApply(t, f, tasting.RemoveTaster("person1"))
	if err := f.Compact(ctx); err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(t.TempDir(), "copy.parewell")
	if err := f.CopyTo(ctx, copied); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{f.Path(), copied} {
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, secret := range []string{"Zephyrine", "quincejelly", "neighbour", "lighthouse", "height"} {
			if strings.Contains(string(raw), secret) {
				t.Errorf("%s still says %q", filepath.Base(path), secret)
			}
		}
	}
	if _, err := f.Undo(ctx); err == nil {
		if f.Book().Panelist("person1") != nil {
			t.Error("undo brought her back")
		}
	}
	wantSound(t, f)
}
