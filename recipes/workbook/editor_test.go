package workbook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

func TestAnEditorsCopySaysNothingPrivate(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("gratin"))
	mustApply(t, f, tasting.PutTaster(&recipes.Panelist{
		ID: "person1", Code: "Zephyrine", Asked: true, Allergens: 1, DoesNotEat: []string{"quincejelly"}, Consent: "2026-03-01", Note: "a neighbour",
	}))
	mustApply(t, f, recipes.Set(recipes.BodyMeasures, `{"height":171}`))
	mustApply(t, f, recipes.Set("money", "EUR"))
	photo := NewBlock("photo", []byte("not really a photo"))
	test := &recipes.Batch{ID: "b1", Recipe: "gratin", Date: "2026-03-04", Cook: "Ottoline", Photos: []string{photo.Hash}}
	if _, err := f.Apply(ctx, recipes.AddTest(test), recipes.ByCook, photo); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "for the editor.parewell")
	if err := os.WriteFile(path, []byte("something old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := f.EditorCopyTo(ctx, path); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{"Zephyrine", "quincejelly", "neighbour", "height", "2026-03-01", "Ottoline", "something old"} {
		if strings.Contains(string(raw), secret) {
			t.Errorf("the copy says %q", secret)
		}
	}
	g := mustOpen(t, path)
	if p := g.Book().Panelist("person1"); p == nil || p.Code != "Taster 1" || p.Asked {
		t.Errorf("%+v", p)
	}
	if b, err := g.Block(ctx, photo.Hash); err != nil || string(b) != "not really a photo" {
		t.Error("the photo:", err)
	}
	if g.Book().Setting("money") != "EUR" || g.UUID() == f.UUID() {
		t.Error("the copy is not a workbook of its own with everything else in it")
	}
	if h, _ := g.History(ctx, "", 0); len(h) != 0 {
		t.Error("the copy has a notebook")
	}
	wantSound(t, g)
}
