package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Share is one row of a ShareList: a name, a share of the whole from 0 to 1, the
// value in words, and perhaps a second value.
type Share struct {
	Key   string
	Name  string
	Share float64
	Value string
	Note  string // muted, after the value
	Loud  bool   // worth a look: drawn in amber with a mark
}

// ShareList shows what something is made of, the largest first or as given. Up
// and Down move, Enter or a double press picks a row.
type ShareList struct {
	widget.BaseWidget
	OnSelect func(key string)
	OnPick   func(key string)
	rows     []Share
	sel      int
	focused  bool
	views    []*shareView
}

// NewShareList returns a list of shares.
func NewShareList(rows []Share) *ShareList {
	s := &ShareList{rows: rows, sel: -1}
	s.ExtendBaseWidget(s)
	return s
}

// SetRows changes the rows, keeping the selected one by key.
func (s *ShareList) SetRows(rows []Share) {
	key := s.Selected()
	s.rows, s.sel = rows, -1
	for i := range rows {
		if key != "" && rows[i].Key == key {
			s.sel = i
		}
	}
	s.Refresh()
}

// Selected returns the key of the selected row, empty when there is none.
func (s *ShareList) Selected() string {
	if s.sel >= 0 && s.sel < len(s.rows) {
		return s.rows[s.sel].Key
	}
	return ""
}

func (s *ShareList) choose(i int) {
	i = max(0, min(i, len(s.rows)-1))
	if len(s.rows) == 0 || i == s.sel {
		return
	}
	s.sel = i
	s.Refresh()
	if s.OnSelect != nil {
		s.OnSelect(s.rows[i].Key)
	}
}

func (s *ShareList) rowHeight() float32 { return 32 * factorOf(s.Theme()) }

// MouseDown selects a row.
func (s *ShareList) MouseDown(e *desktop.MouseEvent) {
	focusOn(s)
	s.choose(int(e.Position.Y / s.rowHeight()))
}

// MouseUp is part of desktop.Mouseable.
func (s *ShareList) MouseUp(*desktop.MouseEvent) {}

// FocusGained is part of fyne.Focusable.
func (s *ShareList) FocusGained() {
	s.focused = true
	s.choose(max(s.sel, 0))
	s.Refresh()
}

// FocusLost is part of fyne.Focusable.
func (s *ShareList) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune goes to the next row that starts with the letter.
func (s *ShareList) TypedRune(r rune) {
	if n := len(s.rows); n > 0 {
		if i := nextWith(n, max(s.sel, -1), r, func(i int) string { return s.rows[i].Name }); i >= 0 {
			s.choose(i)
		}
	}
}

// TypedKey moves through the rows.
func (s *ShareList) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp:
		s.choose(s.sel - 1)
	case fyne.KeyDown:
		s.choose(s.sel + 1)
	case fyne.KeyHome:
		s.choose(0)
	case fyne.KeyEnd:
		s.choose(len(s.rows) - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if s.OnPick != nil && s.sel >= 0 {
			s.OnPick(s.rows[s.sel].Key)
			return
		}
		passKey(s, k)
	default:
		passKey(s, k)
	}
}

type shareView struct {
	ground, track, bar *canvas.Rectangle
	name, value, note  *canvas.Text
}

// CreateRenderer is part of fyne.Widget.
func (s *ShareList) CreateRenderer() fyne.WidgetRenderer {
	r := &shareRenderer{s: s}
	r.Refresh()
	return r
}

type shareRenderer struct{ s *ShareList }

func (r *shareRenderer) Destroy() {}
func (r *shareRenderer) Objects() []fyne.CanvasObject {
	var objects []fyne.CanvasObject
	for _, v := range r.s.views[:len(r.s.rows)] {
		objects = append(objects, v.ground, v.track, v.bar, v.name, v.value, v.note)
	}
	return objects
}

func (r *shareRenderer) MinSize() fyne.Size {
	return fyne.NewSize(300*factorOf(r.s.Theme()), r.s.rowHeight()*float32(len(r.s.rows)))
}

// widths of the value and the note columns.
func (r *shareRenderer) columns() (value, note float32) {
	th := r.s.Theme()
	for i := range r.s.rows {
		value = fyne.Max(value, textWidth(r.s.rows[i].Value, SizeBody.in(th), false))
		note = fyne.Max(note, textWidth(r.s.rows[i].Note, SizeCaption.in(th), false))
	}
	return value + 1, note + 1
}

func (r *shareRenderer) Layout(size fyne.Size) {
	s, h := r.s, r.s.rowHeight()
	th := s.Theme()
	body, small := SizeBody.in(th), SizeCaption.in(th)
	value, note := r.columns()
	right := size.Width - 8
	if note > 1 {
		right -= note + 10
	}
	name := (right - value) * 0.46
	barX := 8 + name + 10
	barW := fyne.Max(right-value-12-barX, 10)
	for i, v := range s.views[:len(s.rows)] {
		y := float32(i) * h
		place(v.ground, 0, y+1, size.Width, h-2)
		styleText(v.name, cut(s.rows[i].Name, name, body, false), body, false, s, RoleInk)
		place(v.name, 8, y+(h-lineHeight(body))/2, name, lineHeight(body))
		place(v.track, barX, y+h/2-4, barW, 8)
		place(v.bar, barX, y+h/2-4, fyne.Max(2, barW*float32(max(0, min(1, s.rows[i].Share)))), 8)
		place(v.value, right-value, y+(h-lineHeight(body))/2, value, lineHeight(body))
		place(v.note, size.Width-8-note, y+(h-lineHeight(small))/2+0.5, note, lineHeight(small))
	}
}

func (r *shareRenderer) Refresh() {
	s := r.s
	for len(s.views) < len(s.rows) {
		v := &shareView{name: canvas.NewText("", nil), value: canvas.NewText("", nil), note: canvas.NewText("", nil)}
		v.ground, v.track, v.bar = canvas.NewRectangle(nil), canvas.NewRectangle(nil), canvas.NewRectangle(nil)
		v.ground.CornerRadius, v.track.CornerRadius, v.bar.CornerRadius = 6, 4, 4
		v.value.Alignment, v.note.Alignment = fyne.TextAlignTrailing, fyne.TextAlignTrailing
		s.views = append(s.views, v)
	}
	th := s.Theme()
	for i := range s.rows {
		v, row := s.views[i], &s.rows[i]
		fill, line := color.Color(color.Transparent), color.Color(color.Transparent)
		if i == s.sel {
			fill = Colour(s, RoleSelected)
			if s.focused {
				line = Colour(s, RoleAccent)
			}
		}
		v.ground.FillColor, v.ground.StrokeColor, v.ground.StrokeWidth = fill, line, 2
		v.ground.Refresh()
		bar := RoleAccent
		if row.Loud {
			bar = RoleLook
		}
		setFill(v.track, Colour(s, RoleHeader))
		setFill(v.bar, Colour(s, bar))
		styleText(v.value, row.Value, SizeBody.in(th), row.Loud, s, RoleInk)
		styleText(v.note, row.Note, SizeCaption.in(th), false, s, RoleMuted)
	}
	r.Layout(s.Size())
}
