package ui

import (
	"encoding/csv"
	"fmt"
	"io"

	"parewell/charts"
	"parewell/recipes/words"
	"parewell/ui/desk"
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

// figuresDialog asks where charts and numbers of results go and as what.
type figuresDialog struct {
	exportForm
	x exported
}

// exportFigures asks for a folder and writes charts and numbers of results.
func (w *Window) exportFigures(x exported) {
	d := &figuresDialog{exportForm{w: w}, x}
	d.show(words.Say("results.export.title"), words.Say("results.export.csv"), x.note, len(x.figures) > 0, d.start)
}

// start begins to write, or says in place what is wrong.
func (d *figuresDialog) start() bool {
	folder, width, ok := d.where()
	if !ok {
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
