package ui

import (
	"context"
	"fmt"
	"io"
	"path/filepath"

	"fyne.io/fyne/v2"

	"parewell/analysis/sheet"
	"parewell/charts"
	"parewell/recipes/exchange"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// Widths of an exported chart in millimetres: what a page's column takes, and
// the least and most that can be asked for.
const (
	exportWidth = 160
	exportLeast = 60
	exportMost  = 400
)

// exportHeight is the height of a chart for its width: wide enough for eight
// versions beside three nutrients.
func exportHeight(widthMM float64) float64 { return max(widthMM*0.45, 50) }

// exportKinds are the files a chart can be written as.
var exportKinds = []struct {
	key, ending string
	write       func(fig *charts.Figure, w io.Writer, wide, high float64) error
}{
	{"png300", ".png", func(f *charts.Figure, w io.Writer, wide, high float64) error { return f.WritePNG(w, wide, high, 300) }},
	{"png600", "-600dpi.png", func(f *charts.Figure, w io.Writer, wide, high float64) error { return f.WritePNG(w, wide, high, 600) }},
	{"svg", ".svg", func(f *charts.Figure, w io.Writer, wide, high float64) error { return f.WriteSVG(w, wide, high) }},
	{"pdf", ".pdf", func(f *charts.Figure, w io.Writer, wide, high float64) error { return f.WritePDF(w, wide, high) }},
}

// exportForm asks where charts and a table go and as what.
type exportForm struct {
	w              *Window
	folder, width  *parts.Entry
	kinds          []*parts.Check
	table          *parts.Check
	atFolder, wide *parts.FormRow
	trouble        *parts.Text
}

// show opens the form. Without charts (some is false) their kinds cannot be
// ticked; note is said under them, table names the box of the table.
func (d *exportForm) show(title, table, note string, some bool, start func() bool) {
	w := d.w
	d.folder = parts.NewEntry(w.startFolder(), "", nil)
	d.width = parts.NewNumberEntry(words.Trim(exportWidth, 0), "", nil)
	d.trouble = parts.NewCaption("")
	d.trouble.Role = parts.RoleError
	form := parts.NewForm()
	d.atFolder = form.Row(words.Say("export.folder"), d.folder, "", words.Say("export.folder.help"))
	d.wide = form.Row(words.Say("export.width"), d.width, "mm", "")
	kinds := parts.Rows(0)
	for i, k := range exportKinds {
		c := parts.NewCheck(words.Say("export."+k.key), some && i != 1, nil)
		c.SetEnabled(some)
		d.kinds = append(d.kinds, c)
		kinds.Add(c)
		w.pin("export."+k.key, c)
	}
	form.Row(words.Say("export.charts"), kinds, "", note)
	d.table = parts.NewCheck(table, true, nil)
	form.Row(words.Say("export.table"), d.table, "", "")
	w.pin("export.folder", d.folder)
	w.pin("export.width", d.width)
	w.pin("export.csv", d.table)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: parts.Rows(parts.GapSmall, form, d.trouble), First: fyne.Focusable(d.folder),
		Confirm: words.Say("recipe.export"), Cancel: words.Say("button.cancel"), Width: 600, OnOK: start,
	})
}

// where returns the folder and the width, or says in place what is wrong.
func (d *exportForm) where() (folder string, width float64, ok bool) {
	d.atFolder.SetError("")
	d.wide.SetError("")
	folder = desk.FullPath(d.folder.Text, d.w.startFolder(), "")
	if !folderThere(folder) {
		d.atFolder.SetError(words.Say("export.no-folder"))
		return "", 0, false
	}
	width, ok = reading.Number(d.width.Text)
	if !ok || width < exportLeast || width > exportMost {
		d.wide.SetError(words.Say("export.width.wrong", exportLeast, exportMost))
		return "", 0, false
	}
	return folder, width, true
}

// exportDialog asks where charts and table of a recipe go and as what.
type exportDialog struct {
	exportForm
	bench *sheets.Bench
}

// exportRecipe writes the charts and the side-by-side table of the recipe in
// sight.
func (w *Window) exportRecipe() {
	if w.at.page != pageRecipe || w.recipe() == nil {
		return
	}
	d := &exportDialog{exportForm: exportForm{w: w}, bench: sheets.NewBench(w.book(), w.recipe())}
	some, note := len(d.bench.Versions) > 1, ""
	if !some {
		note = words.Say("export.no-versions")
	}
	d.show(words.Say("export.title"), words.Say("export.csv"), note, some, d.start)
}

// start begins to write, or says in place what is wrong.
func (d *exportDialog) start() bool {
	d.trouble.SetText("")
	folder, width, ok := d.where()
	if !ok {
		return false
	}
	files, err := d.files(width)
	if err != nil {
		d.trouble.SetText(err.Error())
		return false
	}
	if len(files) == 0 {
		d.trouble.SetText(words.Say("export.nothing"))
		return false
	}
	d.w.export(folder, files)
	return true
}

// files are what the ticks ask for; a chart's words stand beside it.
func (d *exportDialog) files(width float64) ([]desk.ExportFile, error) {
	name := desk.FileName(d.bench.Recipe.Title)
	var out []desk.ExportFile
	height := exportHeight(width)
	for _, c := range []struct {
		name   string
		figure func() (*charts.Figure, error)
	}{
		{words.Say("export.name.change", name), func() (*charts.Figure, error) {
			return charts.ChangeChart(d.bench.ChangeData(words.Say("export.title.change", d.bench.Recipe.Title)))
		}},
		{words.Say("export.name.share", name), func() (*charts.Figure, error) {
			return charts.ShareChart(d.bench.ShareData(words.Say("export.title.share", d.bench.Recipe.Title)))
		}},
	} {
		if !d.anyKind() {
			break
		}
		fig, err := c.figure()
		if err != nil {
			return nil, err
		}
		for i, k := range exportKinds {
			if d.kinds[i].On() {
				out = append(out, desk.ExportFile{Name: c.name + k.ending, Write: func(w io.Writer) error { return k.write(fig, w, width, height) }})
			}
		}
		out = append(out, desk.ExportFile{Name: c.name + ".txt", Write: func(w io.Writer) error { _, err := fmt.Fprintln(w, fig.Alt()); return err }})
	}
	if d.table.On() {
		side := sheet.Of(d.w.book(), d.bench.Recipe)
		out = append(out, desk.ExportFile{Name: words.Say("export.name.table", name) + ".csv", Write: func(w io.Writer) error { return exchange.WriteCSV(w, side) }})
	}
	return out, nil
}

func (d *exportDialog) anyKind() bool {
	for _, c := range d.kinds {
		if c.On() {
			return true
		}
	}
	return false
}

// export writes files beside the window, with progress and a way to stop it. What
// is there already under one of the names is replaced only when the cook says so.
func (w *Window) export(folder string, files []desk.ExportFile) {
	w.exportThen(folder, files, func() {})
}

// exportThen is export with what is to be done afterwards, however it ends.
func (w *Window) exportThen(folder string, files []desk.ExportFile, then func()) {
	var there []string
	for _, f := range files {
		if is, _ := desk.Exists(filepath.Join(folder, filepath.FromSlash(f.Name))); is {
			there = append(there, f.Name)
		}
	}
	if len(there) == 0 {
		w.exportNow(folder, files, then)
		return
	}
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("export.replace"), Content: parts.NewText(words.Say("export.replace.text", len(there), there[0])), Width: 440,
		Confirm: words.Say("export.replace.ok"), Cancel: words.Say("button.cancel"),
		OnOK:     func() bool { w.exportNow(folder, files, then); return true },
		OnClosed: then,
	})
}

func (w *Window) exportNow(folder string, files []desk.ExportFile, then func()) {
	ctx, stop := context.WithCancel(context.Background())
	work := w.status.StartWork(words.Say("export.working"), words.Say("export.stop"), stop)
	w.desk.Export(ctx, folder, files, work.Progress, func(written []string, err error) {
		stop()
		work.Done()
		then()
		if err != nil {
			w.problemDialog(err)
			return
		}
		w.status.SetMessage(words.Say("export.done", len(written), filepath.Clean(folder)))
	})
}
