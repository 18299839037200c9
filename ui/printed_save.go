package ui

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes"
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

// list are the keys that are ticked, in their order.
func (t *formTicks) list() []string {
	var out []string
	for i, k := range t.keys {
		if t.boxes[i].On() {
			out = append(out, k)
		}
	}
	return out
}

// newFormTicks puts a box a form into view, with the name it goes by; those of usual
// are ticked.
func newFormTicks(w *Window, pin string, view *fyne.Container, name func(key string) string, keys []string, usual ...string) *formTicks {
	t := &formTicks{keys: keys}
	for _, k := range keys {
		c := parts.NewCheck(name(k), slices.Contains(usual, k), nil)
		t.boxes = append(t.boxes, c)
		view.Add(c)
		w.pin(pin+k, c)
	}
	return t
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
	usual := w.desk.Prefs().Forms
	if len(usual) == 0 {
		usual = []string{"docx", "pdf"}
	}
	view := parts.Rows(0)
	ticks := newFormTicks(w, "print.form:", view, func(k string) string { return words.Say("printed.form." + k) }, forms, usual...)
	atForms := form.Row(words.Say("printed.save.forms"), view, "", "")
	tongue := w.tongue(form)
	dialog := parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: form, First: folder.entry, Confirm: words.Say("printed.save.ok"), Cancel: words.Say("button.cancel"), Width: 580,
		OnOK: func() bool {
			atForms.SetError("")
			chosen := withEndings(files, ticks.chosen())
			if len(chosen) == 0 {
				atForms.SetError(words.Say("export.nothing"))
				return false
			}
			to := folder.where()
			if to == "" {
				return false
			}
			w.desk.SetPrefs(func(p *desk.Prefs) { p.Forms = ticks.list() })
			if code := foreign(tongue); code != "" {
				args := append(w.printArgs(code, page), "--formats", "svg")
				if page == nil {
					args = append(args, "--book")
				}
				w.exportApart(to, [][]string{args}, func(name string) bool { return keep(name) && hasEnding(name, ticks.chosen()) }, nil)
				return true
			}
			w.export(to, chosen)
			return true
		},
	})
	folder.again = dialog.Confirm
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

// saveCharts asks how the figures of the page are saved.
func (p *printedPage) saveCharts() {
	if p.made == nil || p.made.err != nil {
		return
	}
	page, w := p.made.script.Pages[0], p.w
	type found struct {
		figures []book.Figure
		err     error
	}
	desk.Background(w.desk, "figures of the page", func(_ context.Context, b *recipes.Book) (x found) {
		x.figures, x.err = book.FiguresOf(b, page.Recipe, page.Version, book.OptionsOf(b), exportWidth)
		return x
	}, func(x found) {
		if x.err != nil {
			w.problemDialog(x.err)
			return
		}
		w.saveFigures(figuresOfPage(w, page, x.figures))
	})
}

// figuresOfPage are the figures of a printed page to choose from.
func figuresOfPage(w *Window, page *book.Page, figures []book.Figure) figureChoice {
	of := figureChoice{title: words.Say("printed.charts.title"), list: words.Say("figures.list"), marked: -1, keep: inFolder}
	for i := range figures {
		of.names = append(of.names, figures[i].Name)
	}
	of.make = func(b *recipes.Book, wide float64, o book.FigureOptions, chosen []int) ([]book.File, error) {
		o.Only = chosen
		files, err := page.RecipeFigures(b, wide, o)
		folder := words.Say("book.file.figures", desk.FileName(page.FileName()))
		for i := range files {
			files[i].Name = folder + "/" + files[i].Name
		}
		return files, err
	}
	of.apart = func(language string, chosen []int) [][]string {
		return [][]string{append(w.printArgs(language, page), onlyArgs(chosen)...)}
	}
	return of
}
