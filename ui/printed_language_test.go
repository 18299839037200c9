package ui

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// prints is a printer that keeps what it was asked and writes some files.
type prints struct {
	args   []string
	folder string
	names  []string
	err    error
}

func (p *prints) print(_ context.Context, args ...string) error {
	p.args, p.folder = args, args[slices.Index(args, "--to")+1]
	for _, n := range p.names {
		at := filepath.Join(p.folder, filepath.FromSlash(n))
		if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o700), os.WriteFile(at, []byte(n), 0o600)); err != nil {
			return err
		}
	}
	return p.err
}

func (p *prints) gone() bool {
	_, err := os.Stat(p.folder)
	return errors.Is(err, os.ErrNotExist)
}

// TestChartsInAnotherLanguage: they are printed apart from the window, and of what
// is printed only the figures are taken; what was made on the way is gone.
func TestChartsInAnotherLanguage(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabPrinted)
	p := k.printed()
	k.until("the page is set", func() bool { return p.made != nil })
	k.settle()
	x := &prints{names: []string{"Gratin.pdf", ".list", "Gratin - figures/change.svg", "Gratin - figures/captions.txt"}}
	k.PrintWith(x.print)
	save := func(dir string) {
		k.pushPin("printed.charts")
		k.fill("print.folder", dir)
		k.fill("print.width", "84")
		for _, form := range book.FigureFormats {
			k.pins["print.figure:"+form].(*parts.Check).Set(form == "svg")
		}
		k.pins["print.language"].(*parts.Segmented).SetKey("fr")
		k.confirm()
	}
	dialog := func() bool { return k.win.Canvas().Overlays().Top() != nil }
	dir := k.fresh()
	save(dir)
	k.until("the figures are there", func() bool { return strings.Count(saved(t, dir), "\n") == 1 })
	k.settle()
	if got := saved(t, dir); strings.Contains(got, "pdf") || strings.Contains(got, "list") {
		t.Errorf("%s", got)
	}
	asked := strings.Join(x.args, " ")
	for _, want := range []string{k.view.Path, "--language fr", "--recipe " + string(r.ID), "--version " + made(p).Letter, "--width 84", "--dpi 300", "--formats svg"} {
		if !strings.Contains(asked, want) {
			t.Errorf("%q is not asked for: %s", want, asked)
		}
	}
	if !x.gone() {
		t.Errorf("%s is left", x.folder)
	}
	save(dir) // again: what is there is kept, as nobody agrees
	k.until("it asks", dialog)
	k.closeDialogs()
	k.until("what was made is gone", x.gone)
	x.err = problem.New("", "no room", "")
	save(k.fresh())
	k.until("the trouble is told", dialog)
	if !x.gone() {
		t.Errorf("%s is left", x.folder)
	}
	k.closeDialogs()
}

// TestAPageInTheWindowsLanguage: nothing is printed apart.
func TestAPageInTheWindowsLanguage(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabPrinted)
	p := k.printed()
	k.until("the page is set", func() bool { return p.made != nil })
	k.settle()
	x := &prints{names: []string{"Gratin.docx", "Gratin.pdf", "Gratin.md", "Gratin - figures/change.pdf"}}
	k.PrintWith(x.print)
	dir := k.fresh()
	k.pushPin("printed.save")
	if got := k.pins["print.language"].(*parts.Segmented).Key(); got != words.Current().Code {
		t.Errorf("%q is chosen", got)
	}
	k.fill("print.folder", dir)
	k.confirm()
	k.until("the page is there", func() bool { return strings.Count(saved(t, dir), "\n") == 1 })
	k.settle()
	if x.args != nil {
		t.Errorf("asked for %v", x.args)
	}
	dir = k.fresh()
	k.pushPin("printed.save")
	k.fill("print.folder", dir)
	k.pins["print.language"].(*parts.Segmented).SetKey("fr")
	k.confirm()
	k.until("the French page is there", func() bool { return saved(t, dir) == "Gratin.docx\nGratin.pdf" })
	k.settle()
}

// made is the page in sight.
func made(p *printedPage) *book.Page { return p.made.script.Pages[0] }
