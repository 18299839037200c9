package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"parewell/recipes/food"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// releaseFile writes a table with another value of a food into a folder.
func releaseFile(t *testing.T, rows ...string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sr27")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	text := "NDB_No,Shrt_Desc,Water_(g),Energ_Kcal,Protein_(g),Lipid_Tot_(g),Sodium_(mg),GmWt_1,GmWt_Desc1\n" + strings.Join(rows, "\n") + "\n"
	if err := os.WriteFile(filepath.Join(dir, "ABBREV.csv"), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestImportATableAndTakeItsFigures(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	r, l, f := k.used()
	rows := []string{f.Code + `,"OTHER FIGURES",10,` + "333,10,20,777,100,1 cup"}
	for i := range 30 {
		rows = append(rows, string(rune('0'+i/10))+string(rune('0'+i%10))+`999,"FILLER",10,100,10,1,1,100,1 cup`)
	}
	rows = append(rows, `97001,"BAD ROW",10,lots,10,1,1,100,1 cup`)
	k.pushPin("foods.tables")
	k.picture("tables-1280")
	k.pushPin("tables.import")
	k.picture("tables-file")
	k.escape()
	k.importTable(releaseFile(t, rows...))
	k.until("the table is in", func() bool { return len(k.book().Releases()) == 1 })
	k.settle()
	if k.win.Canvas().Overlays().Top() == nil {
		t.Fatal("what became of the table is not told")
	}
	if wrong := k.table("tables.wrong").Data().Rows; len(wrong) != 1 || !strings.Contains(wrong[0].Cells[0].Text, "line 33") {
		t.Errorf("rows left out: %+v", wrong)
	}
	k.picture("tables-imported")
	k.escape()
	p.table.SelectKey(f.Ref.String())
	k.pushPin("foods.relink")
	if got := k.figure("relink.rows", "energy_kcal", 2); got != "333" {
		t.Fatalf("the other row's energy: %q", got)
	}
	if len(k.table("relink.effect").Data().Rows) == 0 {
		t.Error("no effect is shown")
	}
	k.picture("relink-1280")
	uses := len(sheets.FoodUses(k.book(), f.Ref))
	k.accept()
	other := food.Ref{Source: f.Source, Release: "sr27", Code: f.Code}
	if got := k.book().Recipe(r.ID).Line(l.ID).Food; got != other {
		t.Fatalf("the line is linked to %v", got)
	}
	if got := len(sheets.FoodUses(k.book(), other)); got != uses || len(sheets.FoodUses(k.book(), f.Ref)) != 0 {
		t.Errorf("%d of %d uses followed", got, uses)
	}
	k.undo()
	k.settle()
	if got := k.book().Recipe(r.ID).Line(l.ID).Food; got != f.Ref {
		t.Errorf("undo left %v", got)
	}
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabOriginal})
	k.settle()
	k.lineDetails(k.book().Recipe(r.ID).Line(l.ID), nil)
	k.picture("line-relink")
	k.pushPin("line.relink")
	if got := k.pins["relink.where"].(*parts.Picker).Key(); got == "all" {
		t.Error("a line's own dialog is for all lines")
	}
	k.escape()
	k.openFoods()
	k.pushPin("foods.tables")
	list := k.table("tables.list")
	list.Select(1, 0)
	k.pushPin("tables.remove")
	if len(k.book().Releases()) != 0 || len(list.Data().Rows) != 1 {
		t.Error("the table was not taken off")
	}
}

func TestAFolderWithoutATableIsRefused(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openFoods()
	k.importTable(filepath.Join("..", "recipes"))
	k.until("the fault is told", func() bool { return k.win.Canvas().Overlays().Top() != nil })
	if len(k.book().Releases()) != 0 || k.status.Working() {
		t.Error("a folder without a table was imported, or the work never ends")
	}
}

// buttonsIn finds the buttons that can be pressed in a widget.
func buttonsIn(o fyne.CanvasObject) (out []*parts.Button) {
	switch x := o.(type) {
	case *parts.Button:
		if x.Visible() {
			return []*parts.Button{x}
		}
	case *fyne.Container:
		for _, c := range x.Objects {
			out = append(out, buttonsIn(c)...)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(x).Objects() {
			out = append(out, buttonsIn(c)...)
		}
	}
	return out
}

func TestAnImportCanBeStopped(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openFoods()
	k.importTable(releaseFile(t, `01009,"CHEESE,CHEDDAR",36.75,404,22.87,33.31,653,132,"1 cup, diced"`))
	if !k.status.Working() {
		t.Fatal("the status line shows no work")
	}
	stop := buttonsIn(k.status)
	if len(stop) != 1 {
		t.Fatalf("%d buttons in the status line", len(stop))
	}
	stop[0].Press()
	k.until("it is told", func() bool { return strings.Contains(k.status.Message(), "stopped") })
	k.settle()
	if len(k.book().Releases()) != 0 || k.status.Working() {
		t.Error("the import went on")
	}
}

func TestAnImportIsToldInTheStatusLineElsewhere(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openFoods()
	k.importTable(releaseFile(t, `01009,"CHEESE,CHEDDAR",36.75,404,22.87,33.31,653,132,"1 cup, diced"`))
	k.goTo(place{page: pageRecipes})
	k.until("it is told", func() bool { return strings.Contains(k.status.Message(), "Release 27: 1 food") })
	if k.win.Canvas().Overlays().Top() != nil {
		t.Error("a dialog opened over another page")
	}
	k.status.Act()
	if len(k.table("tables.list").Data().Rows) != 2 {
		t.Error("the line does not lead to the tables")
	}
}

// BenchmarkFoodsKeystroke is one letter typed into the search with the starter
// foods and a published table at hand, until the page shows it.
func BenchmarkFoodsKeystroke(b *testing.B) {
	dir := filepath.Join("..", "..", "shared", "reference", "usda-sr28")
	if _, err := os.Stat(dir); err != nil {
		b.Skip("the reference folder is not here")
	}
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	k.importTable(dir)
	k.until("the table is in", func() bool { return len(k.book().Releases()) == 1 })
	k.settle()
	k.escape()
	typed := []string{"c", "ch", "che", "ched", "chedd", "chedda", "cheddar"}
	k.win.Canvas().Focus(p.search)
	b.ResetTimer()
	for i := 0; b.Loop(); i++ {
		p.search.SetText(typed[i%len(typed)])
	}
}
