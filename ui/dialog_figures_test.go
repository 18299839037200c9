package ui

import (
	"io"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tastedLedger is Keep or drop of a recipe that was tasted.
func (k *kitchenWindow) tastedLedger() *ledgerPage {
	k.t.Helper()
	r := k.setTable(tasterCodes(16)...)
	k.held(r, nil, k.liked(r))
	return k.atLedger(r)
}

func (k *kitchenWindow) ticks() (names []string) {
	k.t.Helper()
	for _, r := range k.pins["figures.list"].(*parts.Matrix).Data().Rows {
		if r.Cells[1].Tick == parts.TickOn {
			names = append(names, r.Cells[0].Text)
		}
	}
	return names
}

// onlyForms ticks some forms of figures.
func (k *kitchenWindow) onlyForms(forms string) {
	k.t.Helper()
	for _, f := range book.FigureFormats {
		k.pins["print.figure:"+f].(*parts.Check).Set(strings.Contains(forms, f))
	}
}

// TestTheChartInSightIsSavedForPrint: which swap cost flavour, as EPS and TIFF, in
// inches; only the chart in sight is ticked, by the score in sight. How it was saved
// is how the next is, and the status line says where the files are.
func TestTheChartInSightIsSavedForPrint(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.tastedLedger()
	p.ask.Attribute = "Flavour"
	p.lay()
	k.settle()
	dir := filepath.Join(k.fresh(), "art")
	k.pushPin("ledger.export")
	k.picture("figures-ledger")
	if got := k.ticks(); len(got) != 1 || !strings.Contains(got[0], "Flavour") {
		t.Errorf("ticked %q", got)
	}
	k.fill("print.folder", dir)
	k.pins["print.unit"].(*parts.Segmented).SetKey("in")
	k.fill("print.width", "5")
	k.fill("print.dpi", "120")
	k.onlyForms("eps tiff")
	k.confirm()
	k.picture("figures-make-folder")
	k.confirm()
	k.until("the chart is there", func() bool { return strings.Count(saved(t, dir), "\n") == 4 })
	k.settle()
	got := saved(t, dir)
	if !strings.Contains(got, "flavour-and-energy.eps") || !strings.Contains(got, "flavour-and-energy.tiff") {
		t.Errorf("%s", got)
	}
	in := filepath.Join(dir, filepath.Dir(strings.Split(got, "\n")[0]))
	if said := k.status.Message(); said != words.Say("export.done", 5, in) {
		t.Errorf("said %q, want %s", said, in)
	}
	p.chart.kind.SetKey(chartFall)
	p.chart.show()
	k.pushPin("ledger.export")
	last := k.figuresLast()
	if k.pins["print.folder"].(*parts.Entry).Text != dir || k.pins["print.width"].(*parts.Entry).Text != "5" || !last.Inches || last.DPI != 120 || strings.Join(last.Forms, " ") != "tiff eps" {
		t.Errorf("forgotten: %+v, %s", last, k.pins["print.folder"].(*parts.Entry).Text)
	}
	if got := k.ticks(); len(got) != 1 || !strings.HasPrefix(got[0], p.l.Falls()[len(p.l.Falls())-1].Letter) {
		t.Errorf("ticked %q", got)
	}
	k.pins["figures.no"].(*parts.Button).Press()
	k.pins["figures.table"].(*parts.Check).Set(false)
	k.confirm()
	if k.win.Canvas().Overlays().Top() == nil || !strings.Contains(k.reads(), words.Say("figures.tick")) {
		t.Error("nothing is ticked, and nothing says so")
	}
	k.closeDialogs()
	k.exportRecipe()
	if got := k.ticks(); len(got) < 3 || !strings.Contains(got[0], "Flavour") {
		t.Errorf("Export over Keep or drop has ticked %q", got)
	}
	k.closeDialogs()
}

// TestFiguresOfTheWindowInAnotherLanguage: what is in sight is asked for by name.
func TestFiguresOfTheWindowInAnotherLanguage(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.tastedLedger()
	x := &prints{names: []string{"Gratin garder ou laisser/carte.svg"}}
	k.PrintWith(x.print)
	dir := k.fresh()
	k.pushPin("ledger.export")
	k.fill("print.folder", dir)
	k.pins["print.language"].(*parts.Segmented).SetKey("fr")
	k.confirm()
	k.until("it is printed, with the numbers", func() bool { return strings.Count(saved(t, dir), "\n") == 1 })
	k.settle()
	asked := strings.Join(x.args, " ")
	for _, want := range []string{"--language fr", "--recipe " + string(p.recipe), "--figures-of " + sheets.FiguresOfLedger, "--nutrient energy_kcal", "--attribute " + words.Say("plan.overall"), "--only 1"} {
		if !strings.Contains(asked, want) {
			t.Errorf("%q is not asked for: %s", want, asked)
		}
	}
}

// TestAFolderIsChosen: rows are walked into, and what is listed is taken.
func TestAFolderIsChosen(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openBook()
	p.saveBook()
	dir := k.fresh()
	k.fill("print.folder", filepath.Join(dir, "not", "yet"))
	k.pushPin("print.browse")
	k.picture("folder-browse")
	k.fill("file.name", "art")
	k.confirm()
	k.settle()
	if got := k.pins["print.folder"].(*parts.Entry).Text; got != filepath.Join(dir, "art") {
		t.Errorf("%s is taken", got)
	}
	k.pushPin("print.browse")
	k.confirm()
	k.settle()
	if got := k.pins["print.folder"].(*parts.Entry).Text; got != dir {
		t.Errorf("%s is taken, want what is listed", got)
	}
	k.closeDialogs()
}

// TestChartsOfTheBookAlone: of some recipes, without their pages.
func TestChartsOfTheBookAlone(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openBook()
	dir := k.fresh()
	k.pushPin("book.pages")
	k.picture("figures-book")
	if len(k.ticks()) != len(p.made.Pages) {
		t.Errorf("ticked %q", k.ticks())
	}
	k.fill("print.folder", dir)
	k.onlyForms("svg")
	k.pins["figures.list"].(*parts.Matrix).OnToggle(0, 1)
	k.pins["figures.alone"].(*parts.Check).Set(true)
	k.confirm()
	k.until("the charts are there", func() bool { return strings.Count(saved(t, dir), "captions.txt") == len(p.made.Pages)-1 })
	k.settle()
	if got := saved(t, dir); strings.Contains(got, ".docx") || !strings.Contains(got, ".svg") {
		t.Errorf("%s", got)
	}
}

// TestSavingIsStopped: it is said in the status line, with what was written before and
// where, and no dialog stands in the way.
func TestSavingIsStopped(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	dir, begun, on := k.fresh(), make(chan bool), make(chan bool)
	k.export(dir, []desk.ExportFile{
		{Name: "figures/a.txt", Write: func(w io.Writer) error { close(begun); <-on; _, err := io.WriteString(w, "a"); return err }},
		{Name: "figures/b.txt", Write: func(w io.Writer) error { _, err := io.WriteString(w, "b"); return err }},
	})
	<-begun
	if !k.status.Working() {
		t.Error("nothing shows that it goes on")
	}
	k.status.StopWork()
	close(on)
	k.until("it is stopped", func() bool { return !k.status.Working() })
	k.settle()
	if got, want := k.status.Message(), words.Say("export.stopped.said", 1, filepath.Join(dir, "figures")); got != want || saved(t, dir) != "figures/a.txt" {
		t.Errorf("said %q, want %q; left %s", got, want, saved(t, dir))
	}
	if k.win.Canvas().Overlays().Top() != nil {
		t.Error("a dialog stands in the way")
	}
}

// TestWhereFilesAre: in the one folder they are all in, else with the folders in it.
func TestWhereFilesAre(t *testing.T) {
	for _, row := range []struct {
		name, want string
		written    []string
	}{
		{"none", "/a", nil},
		{"all in it", "/a", []string{"/a/1", "/a/2"}},
		{"all in one folder of it", "/a/b", []string{"/a/b/1", "/a/b/2"}},
		{"in it and in a folder", words.Say("export.folders", 1, "/a"), []string{"/a/1", "/a/b/2"}},
		{"in folders only", words.Say("export.folders.only", 2, "/a"), []string{"/a/b/1", "/a/c/2"}},
	} {
		if got := folderOf("/a/", row.written); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}
