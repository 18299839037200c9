package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/ui/parts"
)

func (k *kitchenWindow) printed() *printedPage {
	k.t.Helper()
	p, ok := k.pages[pageRecipe].(*recipePage).inner[tabPrinted].(*printedPage)
	if !ok {
		k.t.Fatal("no printed page")
	}
	return p
}

// fresh is an empty folder.
func (k *kitchenWindow) fresh() string {
	k.t.Helper()
	dir, err := os.MkdirTemp(k.dir, "saved")
	if err != nil {
		k.t.Fatal(err)
	}
	return dir
}

// saved lists the files in a folder, with what is in folders there.
func saved(t testing.TB, dir string) string {
	t.Helper()
	var names []string
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !strings.HasPrefix(d.Name(), ".") { // one that is still being written
			name, _ := filepath.Rel(dir, path)
			names = append(names, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(names, "\n")
}

func TestThePrintedPage(t *testing.T) {
	for _, dark := range []bool{false, true} {
		name, size := "", fyne.NewSize(1280, 800)
		if dark {
			name, size = "-dark", fyne.NewSize(1920, 1080)
		}
		k := openKitchen(t, dark, size)
		r := k.openRecipe(1, tabPrinted)
		p := k.printed()
		k.until("the page is set", func() bool { return p.made != nil })
		k.settle()
		k.picture("printed" + name)
		if p.made.err != nil || len(p.papers) != len(p.made.pages) || len(p.papers) == 0 {
			t.Fatalf("%d sheets in sight of %d: %v", len(p.papers), len(p.made.pages), p.made.err)
		}
		if w := p.papers[0].Size().Width; w > paperMost {
			t.Errorf("the paper is %v wide", w)
		}
		all := k.book().Versions(r.ID)
		if got := p.made.of.Version; got != all[len(all)-1].ID {
			t.Errorf("%s is printed, not the newest", got)
		}
	}
}

// TestWhatIsPrintedIsChosen: version, words and measures are kept, can be undone,
// and the page follows.
func TestWhatIsPrintedIsChosen(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabPrinted)
	p := k.printed()
	says := func(text string) bool {
		var all []string
		for i := range p.made.pages {
			all = append(all, p.made.pages[i].Words())
		}
		return strings.Contains(strings.Join(all, "\n"), text)
	}
	k.until("the page is set", func() bool { return p.made != nil })
	p.choose(func(x *recipes.Print) { x.Version = recipes.PrintOriginal })
	k.until("the original is set", func() bool { return p.made.of.Version == "" })
	if p.version.Key() != string(recipes.PrintOriginal) {
		t.Errorf("the picker says %q", p.version.Key())
	}
	k.Window.undo()
	k.until("the chosen one again", func() bool { return p.made.of.Version != "" })
	k.do(recipes.Set(book.SettingUnits, "us"))
	k.until("US measures", func() bool { return p.made.script.Pages[0].Units == book.US })
	if p.style.units.Key() != "us" || !says("cup") {
		t.Errorf("measures %q", p.style.units.Key())
	}
	k.do(recipes.SetHeadnote(r.ID, "Guilt-free and low in salt."))
	k.until("the words are on the page", func() bool { return says("Guilt-free and low in salt.") })
	found := ""
	for _, x := range p.made.script.Report {
		found += string(x.Kind) + "|"
	}
	if !strings.Contains(found, string(book.OpenHealth)) || !strings.Contains(found, string(book.OpenClaim)) {
		t.Errorf("what is open: %s", found)
	}
	if len(p.words.Objects) < 2 {
		t.Errorf("%d findings under the words", len(p.words.Objects))
	}
	k.picture("printed-words")
}

// TestAPageIsSaved: the forms that are ticked are written; what is there is not
// replaced unasked; a folder that is none is told in its place.
func TestAPageIsSaved(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabPrinted)
	p := k.printed()
	k.until("the page is set", func() bool { return p.made != nil })
	k.settle()
	dir := k.fresh()
	k.pushPin("printed.save")
	k.fill("print.folder", filepath.Join(dir, "nowhere"))
	k.confirm()
	if got := saved(t, dir); got != "" {
		t.Errorf("written without a folder: %s", got)
	}
	k.fill("print.folder", dir)
	k.pins["print.form:jsonld"].(*parts.Check).Set(true)
	k.confirm()
	k.until("the files are there", func() bool { return strings.Count(saved(t, dir), "\n") == 2 })
	k.settle()
	files := saved(t, dir)
	for _, ending := range []string{".docx", ".pdf", ".jsonld"} {
		if !strings.Contains(files, ending) {
			t.Errorf("no %s: %s", ending, files)
		}
	}
	one := filepath.Join(dir, strings.Split(files, "\n")[0])
	if err := os.WriteFile(one, []byte("the editor's own"), 0o600); err != nil {
		t.Fatal(err)
	}
	k.pushPin("printed.save")
	k.fill("print.folder", dir)
	k.confirm()
	k.settle()
	if b, err := os.ReadFile(one); err != nil || string(b) != "the editor's own" {
		t.Errorf("replaced unasked: %v", err)
	}
	k.confirm()
	k.until("it is replaced when asked", func() bool { b, err := os.ReadFile(one); return err == nil && len(b) > 1000 })
	k.settle()
}

// TestChartsOfAPageAreSaved: in inches, with a proof; a width that is none is told
// in its place.
func TestChartsOfAPageAreSaved(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabPrinted)
	p := k.printed()
	k.until("the page is set", func() bool { return p.made != nil })
	k.settle()
	dir := k.fresh()
	k.pushPin("printed.charts")
	k.picture("printed-charts")
	k.fill("print.folder", dir)
	k.pins["print.unit"].(*parts.Segmented).SetKey("in")
	k.fill("print.width", "160")
	k.confirm()
	if got := saved(t, dir); got != "" {
		t.Errorf("a figure of four metres: %s", got)
	}
	k.fill("print.width", "5")
	for _, form := range book.FigureFormats {
		k.pins["print.figure:"+form].(*parts.Check).Set(form == "svg")
	}
	k.confirm()
	k.until("the captions are there", func() bool { return strings.Contains(saved(t, dir), "captions.txt") })
	k.settle()
	if files := saved(t, dir); !strings.Contains(files, ".svg") || strings.Contains(files, ".png") {
		t.Errorf("%s", files)
	}
}

// TestOpenPointsLeadToTheirPlace: a point about a line goes to that line, one
// about words to the words.
func TestOpenPointsLeadToTheirPlace(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabPrinted)
	for kind, tab := range tabOf {
		k.showOpenPoint(&book.Open{Kind: kind, Recipe: r.ID, Line: r.Lines[2].ID})
		k.settle()
		k.closeDialogs()
		if kind != book.OpenAllergen && k.at.tab != tab {
			t.Errorf("%s leads to %s, want %s", kind, k.at.tab, tab)
		}
		if tab == tabOriginal && kind != book.OpenAllergen {
			o := k.pages[pageRecipe].(*recipePage).inner[tabOriginal].(*originalPage)
			if got := o.table.SelectedKey(); got != string(r.Lines[2].ID) {
				t.Errorf("%s: line %q is marked", kind, got)
			}
		}
	}
	for _, x := range []book.OpenKind{
		book.OpenWeight, book.OpenFood, book.OpenDoubt, book.OpenFigure, book.OpenServings, book.OpenCooked, book.OpenStep,
		book.OpenAllergen, book.OpenUntested, book.OpenChanged, book.OpenRounding, book.OpenName, book.OpenUnits, book.OpenClaim, book.OpenTaste, book.OpenHealth,
		book.OpenUnspoken, book.OpenNoMethod, book.OpenNoVersion, book.OpenCaution, book.OpenBrief, book.OpenNotChosen,
	} {
		if tabOf[x] == "" {
			t.Errorf("%s leads nowhere", x)
		}
	}
}

// TestAPageIsMadeOnesOwn: its title, what is told on technique, the chart and the
// cautions are chosen, kept and undone; a caution that is left out leads to its box.
func TestAPageIsMadeOnesOwn(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabPrinted)
	p := k.printed()
	k.until("the page is set", func() bool { return p.made != nil })
	made := func() *book.Page { return p.made.script.Pages[0] }
	notes := len(made().Notes)
	if p.title.Text != r.Title || len(p.notes.boxes) != notes || notes < 2 {
		t.Fatalf("titled %q, %d boxes for %d notes", p.title.Text, len(p.notes.boxes), notes)
	}
	k.fill("printed.title", "Friday gratin")
	k.win.Canvas().Unfocus()
	k.until("its title is on the page", func() bool { return made().Title == "Friday gratin" })
	box := p.notes.boxes[0]
	k.win.Canvas().Focus(box)
	box.TypedRune(' ')
	k.until("a note less", func() bool { return len(made().Notes) == notes-1 })
	k.settle()
	if p.notes.boxes[0] != box || box.On() {
		t.Error("the box is not the one that was cleared")
	}
	k.Window.undo()
	k.until("the note is back", func() bool { return len(made().Notes) == notes })
	change := made().Picture.Caption
	p.style.chart.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	k.until("the other chart", func() bool { return made().Picture.Caption != change })
	p.style.chart.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	k.until("no chart", func() bool { return made().Picture == nil })
	k.do(recipes.Set(book.SettingCaution, book.No))
	k.until("no cautions", func() bool { return len(made().Cautions) == 0 })
	k.settle()
	see := k.pins["printed.open:"+string(book.OpenCaution)]
	bringIntoSight(p.side, see)
	k.settle()
	test.TapCanvas(k.win.Canvas(), fyne.CurrentApp().Driver().AbsolutePositionForObject(see).Add(fyne.NewPos(-80, 10))) // beside its button
	if k.win.Canvas().Focused() != p.style.care {
		t.Errorf("the keyboard is with %T", k.win.Canvas().Focused())
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	if y, top := at(p.style.care).Y, at(p.side).Y; y < top || y+p.style.care.Size().Height > top+p.side.Size().Height {
		t.Errorf("the box at %v is out of sight", y)
	}
	k.picture("printed-own")
}
