package ui

import (
	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// Bounds of a saved figure: what a column takes at the least, a wall at the most.
const (
	exportWidth = 160 // millimetres, what a page's column takes
	exportLeast = 60
	exportMost  = 400

	leastDPI, mostDPI = 72, 1200
	mmAnInch          = 25.4 // exactly, by definition
	usualDPI          = 300
)

// figureForm asks how figures are saved: how wide, in which forms, how fine. It
// begins with how they were saved last.
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

// figuresLast is how figures were saved last, else as is usual.
func (w *Window) figuresLast() desk.FigurePrefs {
	last := w.desk.Prefs().Figures
	if _, ok := reading.Number(last.Wide); !ok {
		last.Wide, last.Inches = words.Trim(exportWidth, 0), false
	}
	if last.DPI == 0 {
		last.DPI = usualDPI
	}
	if len(last.Forms) == 0 {
		last.Forms = []string{"png", "svg", "pdf"}
	}
	return last
}

// newFigureForm returns the form and what to show of it.
func newFigureForm(w *Window) (*figureForm, *parts.Form) {
	f, form, last := &figureForm{w: w}, parts.NewForm(), w.figuresLast()
	f.folder = newFolderField(w, form)
	f.wide = parts.NewNumberEntry(last.Wide, "", nil)
	f.wide.Width = 90
	unit := "mm"
	if last.Inches {
		unit = "in"
	}
	f.unit = parts.NewSegmented([]parts.Suggestion{{Key: "mm", Text: words.Say("printed.charts.mm")}, {Key: "in", Text: words.Say("printed.charts.inch")}}, unit, f.turnWidth)
	f.atWide = form.Row(words.Say("printed.charts.width"), parts.Line(parts.GapSmall, f.wide, f.unit, parts.Spring()), "", "")
	view := parts.Flow(parts.GapMedium)
	f.ticks = newFormTicks(w, "print.figure:", view, func(k string) string { return words.Say("printed.figure." + k) }, book.FigureFormats, last.Forms...)
	f.atIn = form.Row(words.Say("printed.save.forms"), view, "", words.Say("printed.charts.help"))
	f.dpi = parts.NewNumberEntry(words.Trim(float64(last.DPI), 0), "", nil)
	f.dpi.Width = 90
	f.atDPI = form.Row(words.Say("printed.charts.dpi"), parts.Line(0, f.dpi, parts.Spring()), "", words.Say("printed.charts.dpi.help"))
	f.proof = parts.NewCheck(words.Say("printed.charts.proof"), last.Proof, nil)
	form.Row("", f.proof, "", words.Say("figures.grey"))
	f.tongue = w.tongue(form)
	for name, o := range map[string]fyne.CanvasObject{"print.width": f.wide, "print.unit": f.unit, "print.dpi": f.dpi, "print.proof": f.proof} {
		w.pin(name, o)
	}
	return f, form
}

// turnWidth keeps the width the same when its unit is changed.
func (f *figureForm) turnWidth(unit string) {
	wide, ok := reading.Number(f.wide.Text)
	switch {
	case !ok:
	case unit == "in" && wide > exportMost/mmAnInch: // it was in millimetres
		f.wide.Set(words.Trim(wide/mmAnInch, 2))
	case unit == "mm" && wide < exportLeast:
		f.wide.Set(words.Trim(wide*mmAnInch, 0))
	}
}

// read is what the form says, or says in place what is wrong. Without figures no
// form has to be ticked.
func (f *figureForm) read(figures bool) (wideMM float64, o book.FigureOptions, ok bool) {
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
	o.DPI, o.Proof, o.Formats = int(dpi), f.proof.On(), f.ticks.list()
	if figures && len(o.Formats) == 0 {
		f.atIn.SetError(words.Say("export.nothing"))
		ok = false
	}
	return wideMM, o, ok
}

// remember keeps what the form says for the next time.
func (f *figureForm) remember() {
	dpi, _ := reading.Number(f.dpi.Text)
	last := desk.FigurePrefs{Wide: f.wide.Text, Inches: f.unit.Key() == "in", DPI: int(dpi), Forms: f.ticks.list(), Proof: f.proof.On()}
	f.w.desk.SetPrefs(func(p *desk.Prefs) { p.Figures = last })
}
