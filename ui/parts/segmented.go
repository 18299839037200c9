package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Segmented chooses one of a few words set side by side. Left and Right move.
type Segmented struct {
	widget.BaseWidget
	OnPick  func(key string)
	items   []Suggestion
	sel     int
	focused bool
}

// NewSegmented returns the row with one chosen by key, the first when none is.
func NewSegmented(items []Suggestion, key string, pick func(key string)) *Segmented {
	s := &Segmented{items: items, OnPick: pick}
	s.ExtendBaseWidget(s)
	s.sel = max(indexOf(items, key), 0)
	return s
}

// Key returns the key chosen.
func (s *Segmented) Key() string {
	if s.sel < len(s.items) {
		return s.items[s.sel].Key
	}
	return ""
}

// SetKey chooses without calling OnPick.
func (s *Segmented) SetKey(key string) {
	s.sel = max(indexOf(s.items, key), 0)
	s.Refresh()
}

func (s *Segmented) choose(i int) {
	if i < 0 || i >= len(s.items) || i == s.sel {
		return
	}
	s.sel = i
	s.Refresh()
	if s.OnPick != nil {
		s.OnPick(s.items[i].Key)
	}
}

func (s *Segmented) width(i int) float32 {
	return textWidth(s.items[i].Text, SizeBody.in(s.Theme()), true) + 26*factorOf(s.Theme())
}

// MouseDown chooses at once.
func (s *Segmented) MouseDown(e *desktop.MouseEvent) {
	focusOn(s)
	x := e.Position.X - 2
	for i := range s.items {
		if w := s.width(i); x < w {
			s.choose(i)
			return
		} else {
			x -= w
		}
	}
}

// MouseUp is part of desktop.Mouseable.
func (s *Segmented) MouseUp(*desktop.MouseEvent) {}

// FocusGained is part of fyne.Focusable.
func (s *Segmented) FocusGained() { s.focused = true; s.Refresh() }

// FocusLost is part of fyne.Focusable.
func (s *Segmented) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune is part of fyne.Focusable.
func (s *Segmented) TypedRune(rune) {}

// TypedKey moves along the row.
func (s *Segmented) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyLeft, fyne.KeyUp:
		s.choose(s.sel - 1)
	case fyne.KeyRight, fyne.KeyDown:
		s.choose(s.sel + 1)
	default:
		passKey(s, k)
	}
}

// CreateRenderer is part of fyne.Widget.
func (s *Segmented) CreateRenderer() fyne.WidgetRenderer {
	r := &segmentedRenderer{s: s, track: canvas.NewRectangle(nil), thumb: canvas.NewRectangle(nil), ring: canvas.NewRectangle(color.Transparent)}
	r.track.CornerRadius, r.thumb.CornerRadius, r.ring.CornerRadius, r.ring.StrokeWidth = 7, 5, 8, 2
	for range s.items {
		t := canvas.NewText("", nil)
		t.Alignment = fyne.TextAlignCenter
		r.texts = append(r.texts, t)
	}
	r.Refresh()
	return r
}

type segmentedRenderer struct {
	s                  *Segmented
	track, thumb, ring *canvas.Rectangle
	texts              []*canvas.Text
}

func (r *segmentedRenderer) Destroy() {}
func (r *segmentedRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.track, r.thumb, r.ring}
	for _, t := range r.texts {
		objects = append(objects, t)
	}
	return objects
}

func (r *segmentedRenderer) MinSize() fyne.Size {
	w := float32(4)
	for i := range r.s.items {
		w += r.s.width(i)
	}
	return fyne.NewSize(w, controlHeight(r.s.Theme()))
}

func (r *segmentedRenderer) Layout(size fyne.Size) {
	s := r.s
	w, h := r.MinSize().Width, lineHeight(SizeBody.in(s.Theme()))
	place(r.track, 0, 0, w, size.Height)
	place(r.ring, -3, -3, w+6, size.Height+6)
	x := float32(2)
	for i, t := range r.texts {
		place(t, x, (size.Height-h)/2, s.width(i), h)
		if i == s.sel {
			place(r.thumb, x, 2, s.width(i), size.Height-4)
		}
		x += s.width(i)
	}
}

func (r *segmentedRenderer) Refresh() {
	s := r.s
	setFill(r.track, Colour(s, RoleHeader))
	r.thumb.FillColor, r.thumb.StrokeColor, r.thumb.StrokeWidth = Colour(s, RoleCard), Colour(s, RoleOutline), 1
	r.ring.StrokeColor = color.Transparent
	if s.focused {
		r.ring.StrokeColor = Colour(s, RoleAccent)
	}
	for i, t := range r.texts {
		role := RoleMuted
		if i == s.sel {
			role = RoleInk
		}
		styleText(t, s.items[i].Text, SizeBody.in(s.Theme()), i == s.sel, s, role)
	}
	r.Layout(s.Size())
	r.thumb.Refresh()
	r.ring.Refresh()
}
