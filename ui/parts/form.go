package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Form is a column of rows: label at the left, field, unit after it, help and
// error under it. Labels share one width.
type Form struct {
	widget.BaseWidget
	layout  *formLayout
	objects []fyne.CanvasObject
}

// FormRow is one row of a Form.
type FormRow struct {
	label, unit, help, problem *Text
	field                      fyne.CanvasObject
	form                       *Form
}

// NewForm returns an empty form.
func NewForm() *Form {
	f := &Form{layout: &formLayout{}}
	f.ExtendBaseWidget(f)
	return f
}

// Row adds a row. A unit or help that is empty takes no room.
func (f *Form) Row(label string, field fyne.CanvasObject, unit, help string) *FormRow {
	r := &FormRow{
		label: newText(label, SizeBody, RoleInk, false), unit: newText(unit, SizeBody, RoleMuted, false),
		help: NewCaption(help), problem: newText("", SizeCaption, RoleError, false), field: field, form: f,
	}
	r.unit.OneLine = true
	show(r.unit, unit != "")
	show(r.help, help != "")
	r.problem.Hide()
	f.layout.rows = append(f.layout.rows, r)
	f.objects = append(f.objects, r.label, r.field, r.unit, r.help, r.problem)
	f.Refresh()
	return r
}

// HeightFor returns the height at a width.
func (f *Form) HeightFor(width float32) float32 { return f.layout.heightFor(nil, width) }

// CreateRenderer is part of fyne.Widget.
func (f *Form) CreateRenderer() fyne.WidgetRenderer { return formRenderer{f} }

type formRenderer struct{ f *Form }

func (r formRenderer) Destroy()                     {}
func (r formRenderer) Objects() []fyne.CanvasObject { return r.f.objects }
func (r formRenderer) MinSize() fyne.Size           { return r.f.layout.MinSize(nil) }
func (r formRenderer) Layout(s fyne.Size)           { r.f.layout.Layout(nil, s) }
func (r formRenderer) Refresh() {
	for _, o := range r.f.objects {
		o.Refresh()
	}
	r.Layout(r.f.Size())
}

// changed lays the form out again, and the dialog it is in, which may have to grow.
func (f *Form) changed() {
	f.Refresh()
	if d := dialogOn(fyne.CurrentApp().Driver().CanvasForObject(f)); d != nil {
		d.Fit()
	}
}

// SetError shows what is wrong with the field, or nothing when empty.
func (r *FormRow) SetError(text string) {
	r.problem.SetText(text)
	if (text != "") != r.problem.Visible() {
		show(r.problem, text != "")
		r.form.changed()
	}
}

// SetLabel changes the words before the field.
func (r *FormRow) SetLabel(text string) {
	r.label.SetText(text)
	r.form.changed()
}

// SetHelp changes the words under the field.
func (r *FormRow) SetHelp(text string) {
	r.help.SetText(text)
	show(r.help, text != "")
	r.form.changed()
}

// SetUnit changes the unit after the field.
func (r *FormRow) SetUnit(text string) {
	r.unit.SetText(text)
	show(r.unit, text != "")
	r.form.changed()
}

// Show and Hide take the whole row in or out.
func (r *FormRow) Show() { r.setVisible(true) }

// Hide takes the row out of the form.
func (r *FormRow) Hide() { r.setVisible(false) }

func (r *FormRow) setVisible(on bool) {
	show(r.label, on)
	show(r.field, on)
	show(r.unit, on && r.unit.text != "")
	show(r.help, on && r.help.text != "")
	show(r.problem, on && r.problem.text != "")
	r.form.changed()
}

type formLayout struct {
	rows  []*FormRow
	width float32
}

const (
	formGap   float32 = 14
	labelGap  float32 = 16
	labelMost float32 = 190
)

// labels is the width of the label column.
func (l *formLayout) labels() float32 {
	var w float32
	for _, r := range l.rows {
		if r.label.Visible() {
			w = fyne.Max(w, fyne.Min(r.label.Natural()+1, labelMost*factorOf(r.label.Theme())))
		}
	}
	return w
}

// columns returns label width, field start and field width of a row.
func (l *formLayout) columns(r *FormRow, width float32) (label, x, field float32) {
	label = l.labels()
	x = label + labelGap
	field = width - x
	if r.unit.Visible() {
		field -= r.unit.Natural() + 9
	}
	if r.narrow() {
		field = fyne.Min(field, r.field.MinSize().Width)
	}
	return label, x, field
}

// narrow fields keep their own width: numbers, choices, checkboxes.
func (r *FormRow) narrow() bool {
	switch f := r.field.(type) {
	case *Entry:
		return f.Width > 0
	case *Picker, *Segmented:
		return true
	}
	return false
}

func (l *formLayout) rowHeight(r *FormRow, width float32) float32 {
	label, x, field := l.columns(r, width)
	h := fyne.Max(heightFor(r.field, field), r.label.HeightFor(label))
	for _, t := range []*Text{r.help, r.problem} {
		if t.Visible() {
			h += 3 + t.HeightFor(width-x)
		}
	}
	return h
}

func (l *formLayout) heightFor(_ []fyne.CanvasObject, width float32) float32 {
	var h float32
	for _, r := range l.rows {
		if r.field.Visible() {
			if h > 0 {
				h += formGap
			}
			h += l.rowHeight(r, width)
		}
	}
	return h
}

// MinSize is wide enough for the labels and the widest field.
func (l *formLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var w float32
	for _, r := range l.rows {
		if r.field.Visible() {
			u := float32(0)
			if r.unit.Visible() {
				u = r.unit.Natural() + 9
			}
			w = fyne.Max(w, r.field.MinSize().Width+u)
		}
	}
	w += l.labels() + labelGap
	return fyne.NewSize(w, l.heightFor(objects, fyne.Max(w, l.width)))
}

// Layout puts the rows under one another.
func (l *formLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	var y float32
	for _, r := range l.rows {
		if !r.field.Visible() {
			continue
		}
		label, x, field := l.columns(r, size.Width)
		h := heightFor(r.field, field)
		line := lineHeight(r.label.size())
		first := fyne.Min(h, controlHeight(r.label.Theme())) // labels sit on the field's first line
		place(r.label, 0, y+fyne.Max((first-line)/2, 0), label, r.label.HeightFor(label))
		place(r.field, x, y, field, h)
		place(r.unit, x+field+9, y+fyne.Max((first-line)/2, 0), r.unit.Natural()+1, line)
		down := y + h
		for _, t := range []*Text{r.help, r.problem} {
			if t.Visible() {
				th := t.HeightFor(size.Width - x)
				place(t, x, down+3, size.Width-x, th)
				down += 3 + th
			}
		}
		y = fyne.Max(down, y+r.label.HeightFor(label)) + formGap
	}
}
