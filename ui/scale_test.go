package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/ui/parts"
)

func TestMakingMore(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(2, tabOriginal)
	press(k, "original.more")
	k.picture("original-more")
	k.press(fyne.KeyEscape)
	k.originalItems()[0].Do()
	setEntry(k, "scale.servings", "0")
	if d := k.pins["scale.list"].(*parts.Matrix).Data(); len(d.Rows) != 0 {
		t.Error("none should have no list")
	}
	setEntry(k, "scale.servings", "20")
	k.picture("dialog-scale")
	list := k.pins["scale.list"].(*parts.Matrix).Data()
	if len(list.Rows) < len(r.Lines) {
		t.Fatalf("%d rows for %d ingredients", len(list.Rows), len(r.Lines))
	}
	press(k, "scale.copy")
	if got := k.app.Clipboard().Content(); !strings.HasPrefix(got, r.Title) || !strings.Contains(got, list.Rows[len(list.Rows)-1].Cells[0].Text) {
		t.Errorf("copied %q", got)
	}
	press(k, "scale.save")
	path := filepath.Join(k.dir, "twenty.txt")
	setEntry(k, "file.name", path)
	k.confirm()
	k.until("the list is written", func() bool { _, err := os.Stat(path); return err == nil })
	k.settle()
	if b, err := os.ReadFile(path); err != nil || !strings.HasPrefix(string(b), r.Title) {
		t.Errorf("%v: %q", err, b)
	}
	if k.book().Recipe(r.ID).Lines[0] != r.Lines[0] {
		t.Error("a list changed the recipe")
	}
	k.pins["scale.by"].(*parts.Segmented).TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	k.pins["scale.by"].(*parts.Segmented).TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	setEntry(k, "scale.from.a", "20")
	setEntry(k, "scale.to.a", "26")
	k.picture("dialog-scale-pan")
	k.press(fyne.KeyEscape)
}

func TestMakingMoreTheOriginal(t *testing.T) {
	k := openKitchen(t, true, fyne.NewSize(1280, 800))
	var r *recipes.Recipe
	for i, x := range k.book().Recipes() {
		if len(k.book().Batches(x.ID)) == 0 {
			r = k.openRecipe(i, tabVersions)
		}
	}
	if r == nil {
		r = k.openRecipe(0, tabVersions)
		for _, b := range k.book().Batches(r.ID) {
			k.do(recipes.RemoveTest(r.ID, b.ID))
			k.settle()
		}
	}
	k.scaleShown()
	setEntry(k, "scale.servings", "30")
	press(k, "scale.keep")
	k.settle()
	now := k.book().Recipe(r.ID)
	if now.Servings != 30 || now.Lines[0].Grams == r.Lines[0].Grams {
		t.Errorf("serves %v (%s)", now.Servings, k.status.Message())
	}
	k.undo()
	k.settle()
	if k.book().Recipe(r.ID).Servings != r.Servings {
		t.Error("undo should take it back")
	}
}
