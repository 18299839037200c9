package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// NavItem is one place to go to. Gap sets it apart from the one above.
type NavItem struct {
	Key   string
	Icon  string
	Label string
	Count string
	Gap   bool
}

// Nav is the side bar. It is one stop for Tab; Up and Down go from place to
// place, letters to the next that starts so.
type Nav struct {
	widget.BaseWidget
	OnSelect func(key string)
	items    []NavItem
	sel      int
	hover    int
	focused  bool
	narrow   bool
	hint     tipper
}

// NewNav returns a side bar with the first place selected.
func NewNav(items []NavItem, onSelect func(key string)) *Nav {
	n := &Nav{items: items, OnSelect: onSelect, hover: -1}
	n.ExtendBaseWidget(n)
	return n
}

// SetItems changes the places, keeping the selected one by key.
func (n *Nav) SetItems(items []NavItem) {
	key := n.Selected()
	n.items = items
	n.sel = min(n.sel, max(len(items)-1, 0))
	n.SetSelected(key)
	n.Refresh()
}

// SetNarrow shows drawings only, for narrow windows.
func (n *Nav) SetNarrow(narrow bool) {
	if n.narrow != narrow {
		n.narrow = narrow
		n.Refresh()
	}
}

// Selected returns the key of the selected place, empty when there are none.
func (n *Nav) Selected() string {
	if n.sel < len(n.items) {
		return n.items[n.sel].Key
	}
	return ""
}

// SetSelected shows a place as selected without calling OnSelect.
func (n *Nav) SetSelected(key string) {
	for i := range n.items {
		if n.items[i].Key == key && i != n.sel {
			n.sel = i
			n.Refresh()
		}
	}
}

func (n *Nav) choose(i int) {
	if i < 0 || i >= len(n.items) {
		return
	}
	n.sel = i
	n.Refresh()
	if n.OnSelect != nil {
		n.OnSelect(n.items[i].Key)
	}
}

func (n *Nav) rowHeight() float32 { return 38 * factorOf(n.Theme()) }

func (n *Nav) top(i int) float32 {
	y := float32(0)
	for k := range i + 1 {
		if n.items[k].Gap {
			y += 16
		}
		if k < i {
			y += n.rowHeight() + 2
		}
	}
	return y
}

func (n *Nav) at(y float32) int {
	for i := range n.items {
		if t := n.top(i); y >= t && y < t+n.rowHeight() {
			return i
		}
	}
	return -1
}

// MouseDown goes to a place at once.
func (n *Nav) MouseDown(e *desktop.MouseEvent) {
	n.choose(n.at(e.Position.Y))
}

// MouseUp is part of desktop.Mouseable.
func (n *Nav) MouseUp(*desktop.MouseEvent) {}

// MouseIn is part of desktop.Hoverable.
func (n *Nav) MouseIn(e *desktop.MouseEvent) { n.MouseMoved(e) }

// MouseMoved is part of desktop.Hoverable.
func (n *Nav) MouseMoved(e *desktop.MouseEvent) {
	i := n.at(e.Position.Y)
	if i == n.hover {
		return
	}
	n.hover = i
	n.hint.hide()
	if i >= 0 && n.narrow {
		n.hint.restAt(n, n.items[i].Label, func() (fyne.Position, fyne.Size) {
			return fyne.NewPos(8, n.top(i)), fyne.NewSize(1, n.rowHeight())
		})
	}
	n.Refresh()
}

// MouseOut is part of desktop.Hoverable.
func (n *Nav) MouseOut() { n.hover = -1; n.hint.hide(); n.Refresh() }

// FocusGained is part of fyne.Focusable.
func (n *Nav) FocusGained() { n.focused = true; n.Refresh() }

// FocusLost is part of fyne.Focusable.
func (n *Nav) FocusLost() { n.focused = false; n.Refresh() }

// TypedRune goes to the next place that starts with the letter.
func (n *Nav) TypedRune(r rune) {
	n.choose(nextWith(len(n.items), n.sel, r, func(i int) string { return n.items[i].Label }))
}

// TypedKey moves through the places.
func (n *Nav) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp:
		n.choose(n.sel - 1)
	case fyne.KeyDown:
		n.choose(n.sel + 1)
	case fyne.KeyHome:
		n.choose(0)
	case fyne.KeyEnd:
		n.choose(len(n.items) - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		n.choose(n.sel)
	default:
		passKey(n, k)
	}
}

// CreateRenderer is part of fyne.Widget.
func (n *Nav) CreateRenderer() fyne.WidgetRenderer {
	r := &navRenderer{n: n}
	r.Refresh()
	return r
}

type navRow struct {
	ground, bar, ring *canvas.Rectangle
	icon              *canvas.Image
	label, count      *canvas.Text
}

type navRenderer struct {
	n    *Nav
	rows []*navRow
}

func (r *navRenderer) Destroy() {}
func (r *navRenderer) Objects() []fyne.CanvasObject {
	var objects []fyne.CanvasObject
	for _, w := range r.rows[:len(r.n.items)] {
		objects = append(objects, w.ground, w.bar, w.icon, w.label, w.count, w.ring)
	}
	return objects
}

func (r *navRenderer) MinSize() fyne.Size {
	f := factorOf(r.n.Theme())
	h := float32(0)
	if k := len(r.n.items); k > 0 {
		h = r.n.top(k-1) + r.n.rowHeight()
	}
	if r.n.narrow {
		return fyne.NewSize(44*f, h)
	}
	w := 150 * f
	for i := range r.n.items {
		it := &r.n.items[i]
		w = fyne.Max(w, 42*f+textWidth(it.Label, SizeBody.in(r.n.Theme()), true)+24*f+textWidth(it.Count, SizeCaption.in(r.n.Theme()), false))
	}
	return fyne.NewSize(w, h)
}

func (r *navRenderer) Layout(s fyne.Size) {
	f, h := factorOf(r.n.Theme()), r.n.rowHeight()
	side, body, small := 20*f, lineHeight(SizeBody.in(r.n.Theme())), lineHeight(SizeCaption.in(r.n.Theme()))
	for i, w := range r.rows[:len(r.n.items)] {
		y := r.n.top(i)
		place(w.ground, 0, y, s.Width, h)
		place(w.ring, 1, y+1, s.Width-2, h-2)
		place(w.bar, 0, y+h*0.22, 3, h*0.56)
		place(w.icon, 12*f, y+(h-side)/2, side, side)
		place(w.label, 42*f, y+(h-body)/2, s.Width-42*f, body)
		place(w.count, 42*f, y+(h-small)/2, s.Width-54*f, small)
	}
}

func (r *navRenderer) Refresh() {
	n := r.n
	for len(r.rows) < len(n.items) {
		w := &navRow{icon: newIconImage(), label: canvas.NewText("", nil), count: canvas.NewText("", nil)}
		w.ground, w.bar, w.ring = canvas.NewRectangle(nil), canvas.NewRectangle(nil), canvas.NewRectangle(color.Transparent)
		w.ground.CornerRadius, w.bar.CornerRadius, w.ring.CornerRadius = 7, 1.5, 7
		w.count.Alignment = fyne.TextAlignTrailing
		r.rows = append(r.rows, w)
	}
	for i := range n.items {
		r.style(r.rows[i], i)
	}
	r.Layout(n.Size())
}

func (r *navRenderer) style(w *navRow, i int) {
	n, it, on := r.n, &r.n.items[i], i == r.n.sel
	fill, ink := color.Color(color.Transparent), RoleMuted
	switch {
	case on:
		fill, ink = Colour(n, RoleAccentSoft), RoleAccent
	case i == n.hover:
		fill, ink = mix(Colour(n, RoleHeader), Colour(n, RoleInk), 0.06), RoleInk
	}
	setFill(w.ground, fill)
	show(w.bar, on)
	setFill(w.bar, Colour(n, RoleAccent))
	w.ring.StrokeWidth, w.ring.StrokeColor = 2, color.Transparent
	if on && n.focused {
		w.ring.StrokeColor = Colour(n, RoleAccent)
	}
	w.ring.Refresh()
	setIcon(w.icon, it.Icon, Colour(n, ink))
	label := RoleInk
	if on {
		label = RoleAccent
	}
	styleText(w.label, it.Label, SizeBody.in(n.Theme()), on, n, label)
	styleText(w.count, it.Count, SizeCaption.in(n.Theme()), false, n, RoleMuted)
	show(w.label, !n.narrow)
	show(w.count, !n.narrow)
}
