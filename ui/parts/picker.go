package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Picker is a field that chooses one of a list. Up and Down change it, Enter or
// Space opens the list, letters go to the next that starts so.
type Picker struct {
	widget.BaseWidget
	OnPick   func(Suggestion)
	Width    float32 // least width at factor 1, 0: 140
	items    []Suggestion
	sel      int
	hint     string
	list     *popList
	focused  bool
	hovered  bool
	disabled bool
}

// NewPicker returns a field with the row whose key is selected chosen, or none
// and the hint shown.
func NewPicker(items []Suggestion, key, hint string, pick func(Suggestion)) *Picker {
	p := &Picker{items: items, sel: -1, hint: hint, OnPick: pick}
	p.ExtendBaseWidget(p)
	p.sel = indexOf(items, key)
	return p
}

// Key returns the key chosen, empty when none is.
func (p *Picker) Key() string {
	if p.sel < 0 || p.sel >= len(p.items) {
		return ""
	}
	return p.items[p.sel].Key
}

// SetKey chooses a row without calling OnPick.
func (p *Picker) SetKey(key string) {
	p.sel = indexOf(p.items, key)
	p.Refresh()
}

// indexOf returns the row with a key, -1 when there is none.
func indexOf(items []Suggestion, key string) int {
	for i := range items {
		if items[i].Key == key {
			return i
		}
	}
	return -1
}

// SetItems changes the rows, keeping the chosen key.
func (p *Picker) SetItems(items []Suggestion) {
	key := p.Key()
	p.items = items
	p.SetKey(key)
}

// SetEnabled switches whether it can be changed.
func (p *Picker) SetEnabled(on bool) { p.disabled = !on; p.Refresh() }

// Disabled is part of fyne.Disableable.
func (p *Picker) Disabled() bool { return p.disabled }

// Enable is part of fyne.Disableable.
func (p *Picker) Enable() { p.SetEnabled(true) }

// Disable is part of fyne.Disableable.
func (p *Picker) Disable() { p.SetEnabled(false) }

func (p *Picker) open() {
	if p.list == nil && !p.disabled {
		p.list = openList(p, p.items, p.sel, p.take)
	}
}

func (p *Picker) close() {
	if p.list != nil {
		p.list.close()
		p.list = nil
	}
}

func (p *Picker) take(i int) {
	p.close()
	timing.Do(func() { focusOn(p) })
	p.choose(i)
}

func (p *Picker) choose(i int) {
	if i < 0 || i >= len(p.items) || i == p.sel {
		return
	}
	p.sel = i
	p.Refresh()
	if p.OnPick != nil {
		p.OnPick(p.items[i])
	}
}

// MouseDown opens or closes the list.
func (p *Picker) MouseDown(*desktop.MouseEvent) {
	if p.disabled {
		return
	}
	focusOn(p)
	if p.list != nil {
		p.close()
	} else {
		p.open()
	}
}

// MouseUp is part of desktop.Mouseable.
func (p *Picker) MouseUp(*desktop.MouseEvent) {}

// MouseIn is part of desktop.Hoverable.
func (p *Picker) MouseIn(*desktop.MouseEvent) { p.hovered = true; p.Refresh() }

// MouseMoved is part of desktop.Hoverable.
func (p *Picker) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (p *Picker) MouseOut() { p.hovered = false; p.Refresh() }

// FocusGained is part of fyne.Focusable.
func (p *Picker) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost closes the list.
func (p *Picker) FocusLost() { p.focused = false; p.close(); p.Refresh() }

// TypedRune goes to the next row that starts with the letter.
func (p *Picker) TypedRune(r rune) {
	if r == ' ' {
		return
	}
	from := p.sel
	if p.list != nil {
		from = p.list.sel
	}
	for k := 1; k <= len(p.items); k++ {
		i := (max(from, -1) + k) % len(p.items)
		if startsWith(p.items[i].Text, r) {
			if p.list != nil {
				p.list.choose(i)
			} else {
				p.choose(i)
			}
			return
		}
	}
}

// TypedKey opens the list, moves in it, takes a row, or closes it.
func (p *Picker) TypedKey(k *fyne.KeyEvent) {
	if p.list != nil {
		switch k.Name {
		case fyne.KeyUp:
			p.list.move(-1)
		case fyne.KeyDown:
			p.list.move(1)
		case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
			if p.list.sel >= 0 {
				p.take(p.list.sel)
			}
		case fyne.KeyEscape:
			p.close()
		}
		return
	}
	switch k.Name {
	case fyne.KeyUp:
		p.choose(max(p.sel-1, 0))
	case fyne.KeyDown:
		p.choose(p.sel + 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		p.open()
	default:
		passKey(p, k)
	}
}

// CreateRenderer is part of fyne.Widget.
func (p *Picker) CreateRenderer() fyne.WidgetRenderer {
	box, text, arrow := canvas.NewRectangle(nil), canvas.NewText("", nil), newIconImage()
	box.CornerRadius = 6
	d := &drawn{objects: []fyne.CanvasObject{box, text, arrow}}
	f := func() float32 { return factorOf(p.Theme()) }
	size := func() float32 { return SizeBody.in(p.Theme()) }
	d.min = func() fyne.Size {
		w := p.Width
		if w == 0 {
			w = 140
		}
		return fyne.NewSize(w*f(), controlHeight(p.Theme()))
	}
	d.layout = func(s fyne.Size) {
		box.Resize(s)
		h := lineHeight(size())
		place(text, 10*f(), (s.Height-h)/2, s.Width-36*f(), h)
		place(arrow, s.Width-25*f(), (s.Height-16*f())/2, 16*f(), 16*f())
		d.refresh()
	}
	d.refresh = func() {
		words, ink := p.hint, RoleMuted
		if p.sel >= 0 && p.sel < len(p.items) {
			words, ink = p.items[p.sel].Text, RoleInk
		}
		fill, line, width := RoleCard, RoleOutline, float32(1)
		switch {
		case p.disabled:
			fill, line, ink = RoleHeader, RoleHairline, RoleMuted
		case p.focused:
			line, width = RoleAccent, 2
		case p.hovered:
			fill = RoleHover
		}
		box.FillColor, box.StrokeColor, box.StrokeWidth = Colour(p, fill), Colour(p, line), width
		box.Refresh()
		styleText(text, cut(words, p.Size().Width-36*f(), size(), false), size(), false, p, ink)
		setIcon(arrow, "down", Colour(p, RoleMuted))
	}
	return d.start()
}
