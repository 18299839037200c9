package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Suggestion is one row of a completion list or of a choice: main words, a grey
// detail at the right, and a key that means something to the caller only.
type Suggestion struct {
	Text   string
	Detail string
	Key    string
}

const popRows = 9

// A list that scrolls is clipped at its bounds, so the bounds leave a margin for
// the soft edge; rows start a little further in.
const (
	popMargin float32 = 4
	popTop            = popMargin + 4
)

// popList is a list floating on the layer. The keyboard stays with its owner,
// which sends it the keys; the mouse picks on the press.
type popList struct {
	widget.BaseWidget
	owner fyne.CanvasObject
	layer *Layer
	items []Suggestion
	sel   int // -1 when none is chosen
	top   int // first row shown
	pick  func(int)
	on    fyne.CanvasObject // what the list hangs under, when that lies on the layer itself
}

// openList shows items under owner; nil when there is no layer or nothing to show.
func openList(owner fyne.CanvasObject, items []Suggestion, sel int, pick func(int)) *popList {
	return openListOn(layerFor(owner), owner, nil, items, sel, pick)
}

func openListOn(l *Layer, owner, on fyne.CanvasObject, items []Suggestion, sel int, pick func(int)) *popList {
	if l == nil || len(items) == 0 {
		return nil
	}
	p := &popList{owner: owner, layer: l, items: items, sel: sel, pick: pick, on: on}
	p.ExtendBaseWidget(p)
	l.add(p)
	p.reveal()
	p.fit()
	return p
}

func (p *popList) rowHeight() float32 { return lineHeight(SizeBody.in(themeOf(p.owner))) + 10 }

func (p *popList) shown() int { return min(len(p.items), popRows) }

// fit sizes and places the list beside its owner.
func (p *popList) fit() {
	body, small := SizeBody.in(themeOf(p.owner)), SizeCaption.in(themeOf(p.owner))
	w := p.owner.Size().Width
	for _, it := range p.items {
		n := textWidth(it.Text, body, false) + 28
		if it.Detail != "" {
			n += textWidth(it.Detail, small, false) + 20
		}
		w = fyne.Max(w, fyne.Min(n, 560))
	}
	at := fyne.Position{}
	if p.on != nil {
		at = p.on.Position()
	} else {
		at = p.layer.at(p.owner)
	}
	size := fyne.NewSize(w+2*popMargin, float32(p.shown())*p.rowHeight()+2*popTop)
	placeBeside(p.layer, p, at.SubtractXY(popMargin, popMargin), p.owner.Size().AddWidthHeight(0, popMargin), size)
}

func (p *popList) set(items []Suggestion) {
	p.items, p.sel, p.top = items, -1, 0
	p.fit()
	p.Refresh()
}

func (p *popList) close() { p.layer.remove(p) }

// move chooses the next or the previous row, round the ends.
func (p *popList) move(d int) {
	n := len(p.items)
	if p.sel < 0 && d < 0 {
		p.sel = 0
	}
	p.choose(((p.sel+d)%n + n) % n)
}

func (p *popList) choose(i int) {
	p.sel = i
	p.reveal()
	p.Refresh()
}

func (p *popList) reveal() {
	if p.sel < 0 {
		return
	}
	p.top = min(p.top, p.sel)
	p.top = max(p.top, p.sel-p.shown()+1)
}

func (p *popList) rowAt(y float32) int {
	i := p.top + int((y-popTop)/p.rowHeight())
	if y < popTop || i >= len(p.items) {
		return -1
	}
	return i
}

// MouseDown picks at once, before the driver takes the keyboard from the owner.
func (p *popList) MouseDown(e *desktop.MouseEvent) {
	if i := p.rowAt(e.Position.Y); i >= 0 {
		p.pick(i)
	}
}

func (p *popList) MouseUp(*desktop.MouseEvent) {}

func (p *popList) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

func (p *popList) MouseMoved(e *desktop.MouseEvent) {
	if i := p.rowAt(e.Position.Y); i >= 0 && i != p.sel {
		p.sel = i
		p.Refresh()
	}
}

func (p *popList) MouseOut() {}

// Scrolled moves through a list that is longer than it can show.
func (p *popList) Scrolled(e *fyne.ScrollEvent) {
	step := 1
	if e.Scrolled.DY > 0 {
		step = -1
	}
	p.top = max(0, min(p.top+step, len(p.items)-p.shown()))
	p.Refresh()
}

func (p *popList) CreateRenderer() fyne.WidgetRenderer {
	r := &popRenderer{p: p}
	r.ground = raised(p.owner)
	r.mark = canvas.NewRectangle(color.Transparent)
	r.mark.CornerRadius = 5
	r.thumb = canvas.NewRectangle(color.Transparent)
	r.thumb.CornerRadius = 2
	for range popRows {
		r.rows = append(r.rows, [2]*canvas.Text{canvas.NewText("", nil), canvas.NewText("", nil)})
	}
	r.Refresh()
	return r
}

type popRenderer struct {
	p           *popList
	ground      *fyne.Container
	mark, thumb *canvas.Rectangle
	rows        [][2]*canvas.Text
}

func (r *popRenderer) Destroy()           {}
func (r *popRenderer) MinSize() fyne.Size { return r.p.Size() }
func (r *popRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.ground, r.mark}
	for _, row := range r.rows[:r.p.shown()] {
		objects = append(objects, row[0], row[1])
	}
	return append(objects, r.thumb)
}

func (r *popRenderer) Layout(s fyne.Size) {
	place(r.ground, popMargin, popMargin, s.Width-2*popMargin, s.Height-2*popMargin)
	r.Refresh()
}

func (r *popRenderer) Refresh() {
	p, w := r.p, r.p.Size().Width
	body, small, h := SizeBody.in(themeOf(p.owner)), SizeCaption.in(themeOf(p.owner)), p.rowHeight()
	show(r.mark, p.sel >= p.top && p.sel < p.top+p.shown())
	r.mark.FillColor = Colour(p.owner, RoleAccentSoft)
	place(r.mark, popTop, popTop+float32(p.sel-p.top)*h, w-2*popTop, h)
	for i := range p.shown() {
		it, y := p.items[p.top+i], popTop+float32(i)*h
		dw := fyne.Min(textWidth(it.Detail, small, false), w*0.6)
		name, detail := r.rows[i][0], r.rows[i][1]
		styleText(name, cut(it.Text, w-2*popMargin-28-dw, body, false), body, false, p.owner, RoleInk)
		styleText(detail, cut(it.Detail, dw, small, false), small, false, p.owner, RoleMuted)
		detail.Alignment = fyne.TextAlignTrailing
		place(name, popMargin+14, y, w-2*popMargin-28-dw, h)
		place(detail, w-popMargin-14-dw, y, dw, h)
	}
	n := float32(len(p.items))
	show(r.thumb, len(p.items) > p.shown())
	r.thumb.FillColor = Colour(p.owner, RoleOutline)
	track := float32(p.shown()) * h
	place(r.thumb, w-popMargin-7, popTop+track*float32(p.top)/n, 3, track*float32(p.shown())/n)
	r.mark.Refresh()
}

// completer keeps a completion list in step with what is typed into a field.
type completer struct {
	owner  fyne.CanvasObject
	source func(string) []Suggestion
	pick   func(Suggestion)
	list   *popList
	layer  *Layer            // of an owner that floats on the layer, else nil
	on     fyne.CanvasObject // its holder there
}

func (c *completer) update(text string) {
	if c.source == nil {
		return
	}
	items := c.source(text)
	switch {
	case len(items) == 0:
		c.close()
	case c.list == nil:
		l := c.layer
		if l == nil {
			l = layerFor(c.owner)
		}
		c.list = openListOn(l, c.owner, c.on, items, -1, c.take)
	default:
		c.list.set(items)
	}
}

func (c *completer) take(i int) {
	s := c.list.items[i]
	c.close()
	c.pick(s)
}

func (c *completer) close() {
	if c.list != nil {
		c.list.close()
		c.list = nil
	}
}

// key handles a key meant for the list and says whether it did.
func (c *completer) key(k *fyne.KeyEvent) bool {
	if c.list == nil {
		return false
	}
	switch k.Name {
	case fyne.KeyDown:
		c.list.move(1)
	case fyne.KeyUp:
		c.list.move(-1)
	case fyne.KeyEscape:
		c.close()
	case fyne.KeyReturn, fyne.KeyEnter:
		if c.list.sel < 0 {
			return false
		}
		c.take(c.list.sel)
	default:
		return false
	}
	return true
}
