package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// printForms are the forms a page or a book can be saved in, by their ending.
var printForms = []string{"docx", "pdf", "html", "md", "txt", "jsonld"}

// formTicks are boxes for forms.
type formTicks struct {
	keys  []string
	boxes []*parts.Check
}

// newFormTicks makes a box a form, with the name it goes by; those of usual are
// ticked.
func newFormTicks(w *Window, pin string, name func(key string) string, keys []string, usual ...string) (*formTicks, *fyne.Container) {
	t, view := &formTicks{keys: keys}, parts.Rows(0)
	for _, k := range keys {
		c := parts.NewCheck(name(k), slices.Contains(usual, k), nil)
		t.boxes = append(t.boxes, c)
		view.Add(c)
		w.pin(pin+k, c)
	}
	return t, view
}

// chosen are the keys that are ticked.
func (t *formTicks) chosen() map[string]bool {
	out := map[string]bool{}
	for i, k := range t.keys {
		if t.boxes[i].On() {
			out[k] = true
		}
	}
	return out
}

// folderField asks for a folder that is there.
type folderField struct {
	w     *Window
	entry *parts.Entry
	row   *parts.FormRow
}

func newFolderField(w *Window, form *parts.Form) *folderField {
	f := &folderField{w: w, entry: parts.NewEntry(w.startFolder(), "", nil)}
	f.row = form.Row(words.Say("export.folder"), f.entry, "", words.Say("export.folder.help"))
	w.pin("print.folder", f.entry)
	return f
}

// where is the folder, "" when there is none and that is said.
func (f *folderField) where() string {
	f.row.SetError("")
	folder := desk.FullPath(f.entry.Text, f.w.startFolder(), "")
	if !folderThere(folder) {
		f.row.SetError(words.Say("export.no-folder"))
		return ""
	}
	return folder
}

// savePage asks where the page goes and in which forms.
func (p *printedPage) savePage() {
	if p.made == nil || p.made.err != nil {
		return
	}
	page := p.made.script.Pages[0]
	files := exportFiles(page.Files(desk.FileName(page.FileName()), p.made.script))
	p.w.saveForms(words.Say("printed.save.title"), printForms, files, page, func(name string) bool { return !inFolder(name) })
}

// saveForms asks for a folder, forms and a language, and writes those of the files
// that have their endings. In another language they are printed anew, of the page
// or with nil of the whole book, and are those whose names keep takes.
func (w *Window) saveForms(title string, forms []string, files []desk.ExportFile, page *book.Page, keep func(name string) bool) {
	form := parts.NewForm()
	folder := newFolderField(w, form)
	ticks, view := newFormTicks(w, "print.form:", func(k string) string { return words.Say("printed.form." + k) }, forms, "docx", "pdf")
	atForms := form.Row(words.Say("printed.save.forms"), view, "", "")
	tongue := w.tongue(form)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: form, First: folder.entry, Confirm: words.Say("printed.save.ok"), Cancel: words.Say("button.cancel"), Width: 580,
		OnOK: func() bool {
			atForms.SetError("")
			to := folder.where()
			chosen := withEndings(files, ticks.chosen())
			if len(chosen) == 0 {
				atForms.SetError(words.Say("export.nothing"))
			}
			if to == "" || len(chosen) == 0 {
				return false
			}
			if code := foreign(tongue); code != "" {
				args := append(w.printArgs(code, page), "--formats", "svg")
				if page == nil {
					args = append(args, "--book")
				}
				w.exportApart(to, args, func(name string) bool { return keep(name) && hasEnding(name, ticks.chosen()) })
				return true
			}
			w.export(to, chosen)
			return true
		},
	})
}

// withEndings are the files with one of the endings.
func withEndings(files []desk.ExportFile, endings map[string]bool) []desk.ExportFile {
	var out []desk.ExportFile
	for _, f := range files {
		if hasEnding(f.Name, endings) {
			out = append(out, f)
		}
	}
	return out
}

func hasEnding(name string, endings map[string]bool) bool {
	return endings[name[strings.LastIndex(name, ".")+1:]]
}

func exportFiles(files []book.File) []desk.ExportFile {
	var out []desk.ExportFile
	for _, f := range files {
		out = append(out, desk.ExportFile{Name: f.Name, Write: f.Write})
	}
	return out
}

// Bounds of a saved figure: what a column takes at the least, a wall at the most.
const (
	leastDPI, mostDPI = 72, 1200
	mmAnInch          = 25.4 // exactly, by definition
	usualDPI          = 300
)

// figureForm asks how figures are saved: how wide, in which forms, how fine.
type figureForm struct {
	w           *Window
	folder      *folderField
	wide, dpi   *parts.Entry
	unit        *parts.Segmented
	ticks       *formTicks
	proof       *parts.Check
	tongue      *parts.Segmented // nil: no choice
	atWide      *parts.FormRow
	atDPI, atIn *parts.FormRow
}

// newFigureForm returns the form and what to show of it.
func newFigureForm(w *Window) (*figureForm, *parts.Form) {
	f, form := &figureForm{w: w}, parts.NewForm()
	f.folder = newFolderField(w, form)
	f.wide = parts.NewNumberEntry(words.Trim(exportWidth, 0), "", nil)
	f.wide.Width = 90
	f.unit = parts.NewSegmented([]parts.Suggestion{{Key: "mm", Text: words.Say("printed.charts.mm")}, {Key: "in", Text: words.Say("printed.charts.inch")}}, "mm", nil)
	f.atWide = form.Row(words.Say("printed.charts.width"), parts.Line(parts.GapSmall, f.wide, f.unit, parts.Spring()), "", "")
	var view *fyne.Container
	f.ticks, view = newFormTicks(w, "print.figure:", func(k string) string { return words.Say("printed.figure." + k) }, book.FigureFormats, "png", "svg", "pdf")
	f.atIn = form.Row(words.Say("printed.save.forms"), view, "", words.Say("printed.charts.help"))
	f.dpi = parts.NewNumberEntry(words.Trim(usualDPI, 0), "", nil)
	f.dpi.Width = 90
	f.atDPI = form.Row(words.Say("printed.charts.dpi"), parts.Line(0, f.dpi, parts.Spring()), "", words.Say("printed.charts.dpi.help"))
	f.proof = parts.NewCheck(words.Say("printed.charts.proof"), false, nil)
	form.Row("", f.proof, "", "")
	f.tongue = w.tongue(form)
	for name, o := range map[string]fyne.CanvasObject{"print.width": f.wide, "print.unit": f.unit, "print.dpi": f.dpi, "print.proof": f.proof} {
		w.pin(name, o)
	}
	return f, form
}

// read is what the form says, or says in place what is wrong.
func (f *figureForm) read() (wideMM float64, o book.FigureOptions, ok bool) {
	for _, r := range []*parts.FormRow{f.atWide, f.atDPI, f.atIn} {
		r.SetError("")
	}
	ok = true
	perUnit, unit := 1.0, words.Say("printed.charts.mm")
	if f.unit.Key() == "in" {
		perUnit, unit = mmAnInch, words.Say("printed.charts.inch")
	}
	wide, good := reading.Number(f.wide.Text)
	if wideMM = wide * perUnit; !good || wideMM < exportLeast || wideMM > exportMost {
		f.atWide.SetError(words.Say("printed.charts.width.wrong", words.Trim(exportLeast/perUnit, 1), words.Trim(exportMost/perUnit, 1), unit))
		ok = false
	}
	dpi, good := reading.Number(f.dpi.Text)
	if !good || dpi < leastDPI || dpi > mostDPI {
		f.atDPI.SetError(words.Say("printed.charts.dpi.wrong"))
		ok = false
	}
	o.DPI, o.Proof = int(dpi), f.proof.On()
	chosen := f.ticks.chosen()
	for _, k := range book.FigureFormats {
		if chosen[k] {
			o.Formats = append(o.Formats, k)
		}
	}
	if len(o.Formats) == 0 {
		f.atIn.SetError(words.Say("export.nothing"))
		ok = false
	}
	return wideMM, o, ok
}

// saveCharts asks how the figures of the page are saved.
func (p *printedPage) saveCharts() {
	if p.made == nil || p.made.err != nil {
		return
	}
	page, b := p.made.script.Pages[0], p.w.book()
	p.w.saveFigures(words.Say("printed.charts.title"), page, func(wide float64, o book.FigureOptions) ([]book.File, error) {
		figures, err := book.FiguresOf(b, page.Recipe, page.Version, book.OptionsOf(b), wide)
		if err != nil {
			return nil, err
		}
		files, err := book.FigureFiles(figures, o)
		folder := words.Say("book.file.figures", desk.FileName(page.FileName()))
		for i := range files {
			files[i].Name = folder + "/" + files[i].Name
		}
		return files, err
	})
}

// saveFigures asks how figures are saved and writes what make makes of it. In
// another language they are printed anew: the figures of the page, or with nil
// every page and its figures.
func (w *Window) saveFigures(title string, page *book.Page, make func(wide float64, o book.FigureOptions) ([]book.File, error)) {
	f, form := newFigureForm(w)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: form, First: f.folder.entry, Confirm: words.Say("printed.save.ok"), Cancel: words.Say("button.cancel"), Width: 580,
		OnOK: func() bool {
			to := f.folder.where()
			wide, o, ok := f.read()
			if to == "" || !ok {
				return false
			}
			if code := foreign(f.tongue); code != "" {
				w.exportApart(to, append(w.printArgs(code, page), figureArgs(wide, o)...), func(name string) bool { return page == nil || inFolder(name) })
				return true
			}
			files, err := make(wide, o)
			if err != nil {
				w.problemDialog(err)
				return false
			}
			w.export(to, exportFiles(files))
			return true
		},
	})
}
