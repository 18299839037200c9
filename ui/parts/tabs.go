package parts

import (
	"image/color"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

func startsWith(s string, r rune) bool {
	return strings.HasPrefix(strings.ToLower(s), string(unicode.ToLower(r)))
}

// nextWith is the next of n labels after one that starts with a letter, round
// from the last to the first; -1 when there is none.
func nextWith(n, after int, r rune, label func(int) string) int {
	for k := 1; k <= n; k++ {
		if i := (after + k) % n; startsWith(label(i), r) {
			return i
		}
	}
	return -1
}

// Tab is one tab of a Tabs row.
type Tab struct {
	Key   string
	Icon  string // may be empty
	Label string
	Count string // small figure after the label, may be empty
}

// Tabs is a row of underlined tabs. It is one stop for Tab; Left and Right
// move, letters go to the next that starts so.
type Tabs struct {
	widget.BaseWidget
	OnSelect func(key string)
	tabs     []Tab
	sel      int
	hover    int
	focused  bool
}

// NewTabs returns a row with the first tab selected.
func NewTabs(tabs []Tab, onSelect func(key string)) *Tabs {
	t := &Tabs{tabs: tabs, OnSelect: onSelect, hover: -1}
	t.ExtendBaseWidget(t)
	return t
}

// SetTabs changes the tabs, keeping the selected one by key.
func (t *Tabs) SetTabs(tabs []Tab) {
	key := t.Selected()
	t.tabs = tabs
	t.sel = min(t.sel, max(len(tabs)-1, 0))
	t.SetSelected(key)
	t.Refresh()
}

// Selected returns the key of the selected tab, empty when there are none.
func (t *Tabs) Selected() string {
	if t.sel < len(t.tabs) {
		return t.tabs[t.sel].Key
	}
	return ""
}

// SetSelected shows a tab as selected without calling OnSelect.
func (t *Tabs) SetSelected(key string) {
	for i := range t.tabs {
		if t.tabs[i].Key == key && i != t.sel {
			t.sel = i
			t.Refresh()
		}
	}
}

func (t *Tabs) choose(i int) {
	if i < 0 || i >= len(t.tabs) {
		return
	}
	t.sel = i
	t.Refresh()
	if t.OnSelect != nil {
		t.OnSelect(t.tabs[i].Key)
	}
}

// squeeze is what a row of tabs does without when there is little room: first
// icons, then counts and some of the space, then the size of its words.
type squeeze int

const (
	roomy squeeze = iota
	noIcons
	noCounts
	smallWords
)

// squeezed is the least squeeze at which all tabs are in sight.
func (t *Tabs) squeezed() squeeze {
	for s := roomy; s < smallWords; s++ {
		if t.whole(s) <= t.Size().Width {
			return s
		}
	}
	return smallWords
}

// whole is the width of all tabs.
func (t *Tabs) whole(s squeeze) float32 {
	var w float32
	for i := range t.tabs {
		w += t.width(i, s) + tabGap
	}
	return w
}

const tabGap = 4

// side is the space at either side of a tab.
func (t *Tabs) side(s squeeze) float32 {
	switch s {
	case smallWords:
		return 4 * factorOf(t.Theme())
	case noCounts:
		return 7 * factorOf(t.Theme())
	}
	return 12 * factorOf(t.Theme())
}

// size is that of the words.
func (t *Tabs) size(s squeeze) float32 {
	if s == smallWords {
		return SizeCaption.in(t.Theme())
	}
	return SizeBody.in(t.Theme())
}

// width of tab i, and its parts.
func (t *Tabs) width(i int, s squeeze) float32 {
	tab, th := &t.tabs[i], t.Theme()
	w := textWidth(tab.Label, t.size(s), true) + 2*t.side(s)
	if tab.Icon != "" && s < noIcons {
		w += 24 * factorOf(th)
	}
	if tab.Count != "" && s < noCounts {
		w += textWidth(tab.Count, SizeCaption.in(th), false) + 6
	}
	return w
}

func (t *Tabs) at(x float32) int {
	s := t.squeezed()
	for i := range t.tabs {
		if w := t.width(i, s); x < w {
			if x < 0 {
				return -1
			}
			return i
		} else {
			x -= w + tabGap
		}
	}
	return -1
}

// MouseDown selects a tab at once.
func (t *Tabs) MouseDown(e *desktop.MouseEvent) {
	t.choose(t.at(e.Position.X))
}

// MouseUp is part of desktop.Mouseable.
func (t *Tabs) MouseUp(*desktop.MouseEvent) {}

// MouseIn is part of desktop.Hoverable.
func (t *Tabs) MouseIn(e *desktop.MouseEvent) { t.MouseMoved(e) }

// MouseMoved is part of desktop.Hoverable.
func (t *Tabs) MouseMoved(e *desktop.MouseEvent) {
	if i := t.at(e.Position.X); i != t.hover {
		t.hover = i
		t.Refresh()
	}
}

// MouseOut is part of desktop.Hoverable.
func (t *Tabs) MouseOut() { t.hover = -1; t.Refresh() }

// FocusGained is part of fyne.Focusable.
func (t *Tabs) FocusGained() { t.focused = true; t.Refresh() }

// FocusLost is part of fyne.Focusable.
func (t *Tabs) FocusLost() { t.focused = false; t.Refresh() }

// TypedRune goes to the next tab that starts with the letter.
func (t *Tabs) TypedRune(r rune) {
	t.choose(nextWith(len(t.tabs), t.sel, r, func(i int) string { return t.tabs[i].Label }))
}

// TypedKey moves along the row.
func (t *Tabs) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyLeft:
		t.choose(t.sel - 1)
	case fyne.KeyRight:
		t.choose(t.sel + 1)
	case fyne.KeyHome:
		t.choose(0)
	case fyne.KeyEnd:
		t.choose(len(t.tabs) - 1)
	default:
		passKey(t, k)
	}
}

// CreateRenderer is part of fyne.Widget.
func (t *Tabs) CreateRenderer() fyne.WidgetRenderer {
	r := &tabsRenderer{t: t, base: canvas.NewRectangle(nil), under: canvas.NewRectangle(nil), ring: canvas.NewRectangle(color.Transparent)}
	r.under.CornerRadius, r.ring.CornerRadius, r.ring.StrokeWidth = 1.5, 6, 2
	r.Refresh()
	return r
}

type tabsRenderer struct {
	t                 *Tabs
	base, under, ring *canvas.Rectangle
	labels, counts    []*canvas.Text
	icons             []*canvas.Image
}

func (r *tabsRenderer) Destroy() {}
func (r *tabsRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.base, r.under, r.ring}
	for i := range r.t.tabs {
		objects = append(objects, r.icons[i], r.labels[i], r.counts[i])
	}
	return objects
}

func (r *tabsRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.t.whole(smallWords), lineHeight(SizeBody.in(r.t.Theme()))+20*factorOf(r.t.Theme()))
}

func (r *tabsRenderer) Layout(s fyne.Size) {
	t, f := r.t, factorOf(r.t.Theme())
	tight := t.squeezed()
	body, small := t.size(tight), SizeCaption.in(t.Theme())
	place(r.base, 0, s.Height-1, s.Width, 1)
	var x float32
	for i := range t.tabs {
		w, left := t.width(i, tight), x+t.side(tight)
		if i == t.sel {
			place(r.under, x+4, s.Height-3, w-8, 3)
			place(r.ring, x+1, 3, w-2, s.Height-8)
		}
		show(r.icons[i], tight < noIcons)
		show(r.counts[i], tight < noCounts)
		if t.tabs[i].Icon != "" && tight < noIcons {
			place(r.icons[i], left, (s.Height-18*f)/2, 18*f, 18*f)
			left += 24 * f
		}
		lw := textWidth(t.tabs[i].Label, body, true)
		if r.labels[i].TextSize != body {
			r.labels[i].TextSize = body
			r.labels[i].Refresh()
		}
		place(r.labels[i], left, (s.Height-lineHeight(body))/2, lw, lineHeight(body))
		place(r.counts[i], left+lw+6, (s.Height-lineHeight(small))/2+0.5, w, lineHeight(small))
		x += w + tabGap
	}
}

func (r *tabsRenderer) Refresh() {
	t := r.t
	for len(r.labels) < len(t.tabs) {
		r.labels = append(r.labels, canvas.NewText("", nil))
		r.counts = append(r.counts, canvas.NewText("", nil))
		r.icons = append(r.icons, newIconImage())
	}
	setFill(r.base, Colour(t, RoleHairline))
	setFill(r.under, Colour(t, RoleAccent))
	r.ring.StrokeColor = color.Transparent
	if t.focused {
		r.ring.StrokeColor = Colour(t, RoleAccent)
	}
	for i := range t.tabs {
		role := RoleMuted
		switch i {
		case t.sel:
			role = RoleAccent
		case t.hover:
			role = RoleInk
		}
		styleText(r.labels[i], t.tabs[i].Label, t.size(t.squeezed()), i == t.sel, t, role)
		styleText(r.counts[i], t.tabs[i].Count, SizeCaption.in(t.Theme()), false, t, RoleMuted)
		setIcon(r.icons[i], t.tabs[i].Icon, Colour(t, role))
	}
	r.Layout(t.Size())
	r.ring.Refresh()
}
