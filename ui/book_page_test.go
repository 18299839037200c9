package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

func (k *kitchenWindow) openBook() *bookPage {
	k.t.Helper()
	k.goTo(place{page: pageBook})
	p, ok := k.pages[pageBook].(*bookPage)
	if !ok {
		k.t.Fatal("no page of the book")
	}
	k.until("the book is put together", func() bool { return p.made != nil })
	k.settle()
	return p
}

func TestTheBook(t *testing.T) {
	for _, dark := range []bool{false, true} {
		name, size := "", fyne.NewSize(1280, 800)
		if dark {
			name, size = "-dark", fyne.NewSize(1920, 1080)
		}
		k := openKitchen(t, dark, size)
		p := k.openBook()
		for _, view := range []string{bookRecipes, bookNutrition, bookIndex, bookReport} {
			p.view.SetKey(view)
			p.fill()
			k.settle()
			k.picture("book-" + view + name)
			m := p.other
			if view == bookRecipes {
				m = p.list
			}
			if len(m.Data().Rows) == 0 {
				t.Errorf("%s is empty", view)
			}
		}
	}
}

// TestTheBookIsMade: recipes are taken in and out, moved by the keyboard, printed
// in another version, under a title; all of it can be undone.
func TestTheBookIsMade(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openBook()
	before := k.book().Recipes()
	p.list.Select(0, 1)
	p.list.OnToggle(0, 1)
	k.until("the first is left out", func() bool { return p.made != nil && len(p.made.Pages) == len(before)-1 })
	k.Window.undo()
	k.until("and in again", func() bool { return len(p.made.Pages) == len(before) })
	k.settle()
	p.list.Select(0, 0)
	p.list.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierShortcutDefault})
	k.until("it is second", func() bool { return k.book().Recipes()[1].ID == before[0].ID })
	k.settle()
	if got := p.list.SelectedKey(); got != string(before[0].ID) {
		t.Errorf("%q is marked after the move, want the recipe moved", got)
	}
	p.list.OnEdit(1, 2, "a")
	k.until("version A", func() bool {
		v := book.Printed(k.book(), k.book().Recipe(before[0].ID))
		return v != nil && v.Letter == "A"
	})
	p.list.OnEdit(1, 2, "no such version")
	k.settle()
	if v := book.Printed(k.book(), k.book().Recipe(before[0].ID)); v == nil || v.Letter != "A" {
		t.Error("a version that is not there was chosen")
	}
	k.fill("book.title", "Sunday, lighter")
	k.win.Canvas().Unfocus()
	k.until("the title is kept", func() bool { return k.book().Setting(book.SettingTitle) == "Sunday, lighter" })
	for _, r := range before {
		k.do(recipes.SetPrint(r.ID, recipes.Print{LeftOut: true}))
	}
	k.until("the book is empty", func() bool { return p.made == nil })
	k.settle()
	if !k.pins["book.save"].(*parts.Button).Disabled() {
		t.Error("an empty book can be saved")
	}
	k.picture("book-empty")
}

// TestTheBookIsSaved: one document, and every page with its figures.
func TestTheBookIsSaved(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openBook()
	dir := k.fresh()
	k.pushPin("book.save")
	k.fill("print.folder", dir)
	k.pins["print.form:csv"].(*parts.Check).Set(true)
	k.confirm()
	k.until("the book is there", func() bool { return strings.Contains(saved(t, dir), "nutrition.csv") })
	k.settle()
	files := saved(t, dir)
	if !strings.Contains(files, ".docx") || !strings.Contains(files, ".pdf") || strings.Contains(files, ".html") {
		t.Errorf("%s", files)
	}
	dir = k.fresh()
	k.pushPin("book.pages")
	k.fill("print.folder", dir)
	for _, form := range book.FigureFormats {
		k.pins["print.figure:"+form].(*parts.Check).Set(form == "svg")
	}
	k.confirm()
	k.until("every page is there", func() bool {
		return strings.Count(saved(t, dir), ".jsonld") == len(p.made.Pages) && strings.Count(saved(t, dir), "captions.txt") == len(p.made.Pages)
	})
	k.settle()
}

// TestTheReportLeadsToItsPlace: Enter on a row opens where it is mended.
func TestTheReportLeadsToItsPlace(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openBook()
	p.fill()
	if p.hint.Visible() {
		t.Error("the list of recipes tells of points")
	}
	p.view.SetKey(bookReport)
	p.fill()
	if !p.hint.Visible() {
		t.Error("how to go there is not told")
	}
	for i := range p.made.Report {
		x := p.made.Report[i]
		if x.Kind == book.OpenAllergen {
			continue // a dialog over the page
		}
		k.goTo(place{page: pageBook})
		k.settle()
		p.other.OnActivate(i, 0)
		if k.at.page != pageRecipe || k.at.recipe != x.Recipe {
			t.Errorf("%q leads to %v", x.Text, k.at)
		}
	}
}

// TestAllDataOutAndIn: what is saved from the menu makes the same workbook again.
func TestAllDataOutAndIn(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	dir := k.fresh()
	k.dataOut()
	k.settle()
	k.picture("data-out")
	k.fill("print.folder", dir)
	k.confirm()
	k.until("the data are there", func() bool { return strings.Contains(saved(t, dir), "workbook.json") })
	k.settle()
	titles := ""
	for _, r := range k.book().Recipes() {
		titles += r.Title + "|"
	}
	opened := false
	k.desk.OpenData(t.Context(), dir, dir+"/again.parewell", func(err error) {
		if err != nil {
			t.Error(err)
		}
		opened = true
	})
	k.until("it is open", func() bool { return opened })
	k.settle()
	got := ""
	for _, r := range k.book().Recipes() {
		got += r.Title + "|"
	}
	if got != titles || !strings.HasSuffix(k.view.Path, "again.parewell") {
		t.Errorf("%s in %s, want %s", got, k.view.Path, titles)
	}
	wrong := false
	k.desk.OpenData(t.Context(), k.fresh(), dir+"/none.parewell", func(err error) { wrong = err != nil })
	k.until("an empty folder is refused", func() bool { return wrong })
}

// TestReadingDataIsStopped: nothing comes in, nothing is left, and it is said in
// the status line alone.
func TestReadingDataIsStopped(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	dir := k.fresh()
	before := k.view.Path
	ctx, done := k.dataWork()
	k.status.StopWork()
	ended := false
	k.desk.DataFiles(ctx, false, func(files []desk.ExportFile, err error) {
		if done(err) || len(files) > 0 {
			t.Errorf("%d files of what was stopped", len(files))
		}
		ended = true
	})
	k.until("it is stopped", func() bool { return ended })
	k.dataOut()
	k.settle()
	k.fill("print.folder", dir)
	k.confirm()
	k.until("the data are there", func() bool { return strings.Contains(saved(t, dir), "workbook.json") })
	k.settle()
	ended = false
	ctx, done = k.dataWork()
	k.status.StopWork()
	to := k.fresh()
	k.desk.OpenData(ctx, dir, to+"/again.parewell", func(err error) {
		if done(err) {
			t.Error("what was stopped came in")
		}
		ended = true
	})
	k.until("that is stopped too", func() bool { return ended })
	k.settle()
	if got := saved(t, to); got != "" || k.view.Path != before {
		t.Errorf("left %q, %s is open", got, k.view.Path)
	}
	if got := k.status.Message(); got != words.Say("data.stopped") {
		t.Errorf("said %q", got)
	}
}

// TestTheBookInLargeText: all views can be reached at the largest text.
func TestTheBookInLargeText(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.setTheme(false, 1.6)
	p := k.openBook()
	k.picture("book-large")
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	right := at(p.view).X + max(p.view.Size().Width, p.view.MinSize().Width)
	if side := at(p.side); at(p.view).Y+p.view.Size().Height > side.Y && right > side.X {
		t.Errorf("the views end at %v, under what begins at %v", right, side)
	}
	if right > 1280 {
		t.Errorf("the views end at %v", right)
	}
}
