package ui

import (
	"encoding/csv"
	"fmt"
	"io"

	"fyne.io/fyne/v2"

	"parewell/charts"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// namedFigure is a chart with the name its file gets.
type namedFigure struct {
	name string
	fig  *charts.Figure
}

// exported is what can be written of results: charts, and their numbers as rows.
type exported struct {
	name    string // of the table's file
	figures []namedFigure
	rows    [][]string
	note    string // said in the dialog
}

// figuresDialog asks where charts and numbers go and as what.
type figuresDialog struct {
	w              *Window
	x              exported
	folder, width  *parts.Entry
	kinds          []*parts.Check
	table          *parts.Check
	atFolder, wide *parts.FormRow
	trouble        *parts.Text
}

// exportFigures asks for a folder and writes charts and numbers of results.
func (w *Window) exportFigures(x exported) {
	d := &figuresDialog{w: w, x: x, trouble: parts.NewCaption("")}
	d.trouble.Role = parts.RoleError
	d.folder = parts.NewEntry(w.startFolder(), "", nil)
	d.width = parts.NewNumberEntry(words.Trim(exportWidth, 0), "", nil)
	form := parts.NewForm()
	d.atFolder = form.Row(words.Say("export.folder"), d.folder, "", words.Say("export.folder.help"))
	d.wide = form.Row(words.Say("export.width"), d.width, "mm", "")
	kinds := parts.Rows(0)
	for i, k := range exportKinds {
		c := parts.NewCheck(words.Say("export."+k.key), len(x.figures) > 0 && i != 1, nil)
		c.SetEnabled(len(x.figures) > 0)
		d.kinds = append(d.kinds, c)
		kinds.Add(c)
		w.pin("export."+k.key, c)
	}
	form.Row(words.Say("export.charts"), kinds, "", x.note)
	d.table = parts.NewCheck(words.Say("results.export.csv"), true, nil)
	form.Row(words.Say("export.table"), d.table, "", "")
	w.pin("export.folder", d.folder)
	w.pin("export.width", d.width)
	w.pin("export.csv", d.table)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("results.export.title"), Content: parts.Rows(parts.GapSmall, form, d.trouble), First: fyne.Focusable(d.folder),
		Confirm: words.Say("recipe.export"), Cancel: words.Say("button.cancel"), Width: 600, OnOK: d.start,
	})
}

// start begins to write, or says in place what is wrong.
func (d *figuresDialog) start() bool {
	d.atFolder.SetError("")
	d.wide.SetError("")
	folder := desk.FullPath(d.folder.Text, d.w.startFolder(), "")
	if !folderThere(folder) {
		d.atFolder.SetError(words.Say("export.no-folder"))
		return false
	}
	width, ok := reading.Number(d.width.Text)
	if !ok || width < exportLeast || width > exportMost {
		d.wide.SetError(words.Say("export.width.wrong", exportLeast, exportMost))
		return false
	}
	files := d.files(width)
	if len(files) == 0 {
		d.trouble.SetText(words.Say("export.nothing"))
		return false
	}
	d.w.export(folder, files)
	return true
}

// files are what the ticks ask for; a chart's words stand beside it.
func (d *figuresDialog) files(width float64) []desk.ExportFile {
	var out []desk.ExportFile
	high := max(width*0.55, 60)
	for _, f := range d.x.figures {
		any, name := false, desk.FileName(f.name)
		for i, k := range exportKinds {
			if d.kinds[i].On() {
				any = true
				out = append(out, desk.ExportFile{Name: name + k.ending, Write: func(w io.Writer) error { return k.write(f.fig, w, width, high) }})
			}
		}
		if any {
			out = append(out, desk.ExportFile{Name: name + ".txt", Write: func(w io.Writer) error { _, err := fmt.Fprintln(w, f.fig.PaperAlt()); return err }})
		}
	}
	if d.table.On() {
		out = append(out, desk.ExportFile{Name: desk.FileName(d.x.name) + ".csv", Write: func(w io.Writer) error {
			c := csv.NewWriter(w)
			c.UseCRLF = true
			return c.WriteAll(d.x.rows)
		}})
	}
	return out
}
