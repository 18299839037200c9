package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// The three gaps of the window.
const (
	GapSmall  float32 = 8
	GapMedium float32 = 12
	GapLarge  float32 = 16
)

// tall is what a thing implements whose height depends on the width it gets, so
// that wrapped text is laid out right in one pass.
type tall interface{ HeightFor(width float32) float32 }

type tallLayout interface {
	heightFor(objects []fyne.CanvasObject, width float32) float32
}

func heightFor(o fyne.CanvasObject, width float32) float32 {
	switch x := o.(type) {
	case tall:
		return x.HeightFor(width)
	case *fyne.Container:
		if l, ok := x.Layout.(tallLayout); ok {
			return l.heightFor(x.Objects, width)
		}
	}
	return o.MinSize().Height
}

// Rows stacks objects from top to bottom with a gap, each as wide as the whole.
func Rows(gap float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&rowsLayout{gap: gap}, objects...)
}

// Fill is Rows whose object number grow (from 0) takes the height left over.
func Fill(gap float32, grow int, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&rowsLayout{gap: gap, grower: objects[grow]}, objects...)
}

type rowsLayout struct {
	gap    float32
	grower fyne.CanvasObject
	width  float32 // last width laid out for, 0 before the first
}

func (l *rowsLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	var h float32
	n := 0
	for _, o := range objects {
		if o.Visible() {
			h += heightFor(o, width)
			n++
		}
	}
	return h + l.gap*float32(max(n-1, 0))
}

func (l *rowsLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var w float32
	for _, o := range objects {
		if o.Visible() {
			w = fyne.Max(w, o.MinSize().Width)
		}
	}
	return fyne.NewSize(w, l.heightFor(objects, fyne.Max(w, l.width)))
}

func (l *rowsLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	spare := size.Height - l.heightFor(objects, size.Width)
	var y float32
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		h := heightFor(o, size.Width)
		if o == l.grower && h+spare > 0 {
			h += spare
		}
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h + l.gap
	}
}

// Line puts objects side by side with a gap, each at its own width and centred
// in the height. A Spring takes the width left over.
func Line(gap float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&lineLayout{gap: gap}, objects...)
}

// Spring is the space that grows in a Line or a Fill.
func Spring() fyne.CanvasObject { return layout.NewSpacer() }

// Stretch is Line whose object number grow takes the width left over.
func Stretch(gap float32, grow int, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&lineLayout{gap: gap, grower: objects[grow]}, objects...)
}

type lineLayout struct {
	gap    float32
	grower fyne.CanvasObject
}

func (l *lineLayout) grows(o fyne.CanvasObject) bool {
	if o == l.grower {
		return true
	}
	s, ok := o.(layout.SpacerObject)
	return ok && s.ExpandHorizontal()
}

func (l *lineLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	n := 0
	for _, o := range objects {
		if o.Visible() {
			s := o.MinSize()
			m = fyne.NewSize(m.Width+s.Width, fyne.Max(m.Height, s.Height))
			n++
		}
	}
	m.Width += l.gap * float32(max(n-1, 0))
	return m
}

// widths gives each object its least width, then what text would like to have,
// and the growing ones an equal share of what is left.
func (l *lineLayout) widths(objects []fyne.CanvasObject, width float32) []float32 {
	spare := width - l.MinSize(objects).Width
	growers := 0
	ws := make([]float32, len(objects))
	for i, o := range objects {
		ws[i] = o.MinSize().Width
		switch {
		case !o.Visible():
		case l.grows(o):
			growers++
		default:
			add := fyne.Max(0, fyne.Min(naturalWidth(o)-ws[i], spare))
			ws[i] += add
			spare -= add
		}
	}
	for i, o := range objects {
		if spare > 0 && o.Visible() && l.grows(o) {
			ws[i] += spare / float32(growers)
		}
	}
	return ws
}

// naturalWidth is the width at which text in an object would not wrap; other
// things want their least width.
func naturalWidth(o fyne.CanvasObject) float32 {
	switch x := o.(type) {
	case *Text:
		return x.Natural() + 1
	case *Chip:
		return x.Natural() + 1
	case *fyne.Container:
		if l, ok := x.Layout.(interface {
			naturalWidth([]fyne.CanvasObject) float32
		}); ok {
			return l.naturalWidth(x.Objects)
		}
	}
	return o.MinSize().Width
}

func widest(objects []fyne.CanvasObject) float32 {
	var w float32
	for _, o := range objects {
		if o.Visible() {
			w = fyne.Max(w, naturalWidth(o))
		}
	}
	return w
}

func (l *rowsLayout) naturalWidth(o []fyne.CanvasObject) float32 { return widest(o) }
func (l *padLayout) naturalWidth(o []fyne.CanvasObject) float32  { return widest(o) + l.left + l.right }
func (midLayout) naturalWidth(o []fyne.CanvasObject) float32     { return widest(o) }

func (l *lineLayout) naturalWidth(objects []fyne.CanvasObject) float32 {
	w, n := float32(0), 0
	for _, o := range objects {
		if o.Visible() {
			w += naturalWidth(o)
			n++
		}
	}
	return w + l.gap*float32(max(n-1, 0))
}

func (l *lineLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	var h float32
	for i, w := range l.widths(objects, width) {
		if objects[i].Visible() {
			h = fyne.Max(h, heightFor(objects[i], w))
		}
	}
	return h
}

func (l *lineLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	var x float32
	for i, w := range l.widths(objects, size.Width) {
		o := objects[i]
		if !o.Visible() {
			continue
		}
		h := fyne.Min(size.Height, heightFor(o, w))
		if o == l.grower {
			h = size.Height
		}
		o.Move(fyne.NewPos(x, (size.Height-h)/2))
		o.Resize(fyne.NewSize(w, h))
		x += w + l.gap
	}
}

// Pad puts space around an object: top, right, bottom, left.
func Pad(top, right, bottom, left float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&padLayout{top, right, bottom, left}, o)
}

// PadAll puts the same space on all four sides.
func PadAll(space float32, o fyne.CanvasObject) *fyne.Container {
	return Pad(space, space, space, space, o)
}

type padLayout struct{ top, right, bottom, left float32 }

func (l *padLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	var h float32
	for _, o := range objects {
		h = fyne.Max(h, heightFor(o, width-l.left-l.right))
	}
	return h + l.top + l.bottom
}

func (l *padLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range objects {
		m = m.Max(o.MinSize())
	}
	return m.AddWidthHeight(l.left+l.right, l.top+l.bottom)
}

func (l *padLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewPos(l.left, l.top))
		o.Resize(size.SubtractWidthHeight(l.left+l.right, l.top+l.bottom))
	}
}

// Frame is a border layout whose parts are met by Tab in reading order: top,
// left, centre, right, bottom. Top and bottom take the whole width. Parts that
// are nil are left out; there are no gaps, so Pad what needs them.
func Frame(top, left, centre, right, bottom fyne.CanvasObject) *fyne.Container {
	var objects []fyne.CanvasObject
	for _, o := range []fyne.CanvasObject{top, left, centre, right, bottom} {
		if o != nil {
			objects = append(objects, o)
		}
	}
	return container.New(&frameLayout{top, left, centre, right, bottom}, objects...)
}

type frameLayout struct{ top, left, centre, right, bottom fyne.CanvasObject }

func shown(o fyne.CanvasObject) bool { return o != nil && o.Visible() }

func (l *frameLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range []fyne.CanvasObject{l.left, l.centre, l.right} {
		if shown(o) {
			s := o.MinSize()
			m = fyne.NewSize(m.Width+s.Width, fyne.Max(m.Height, s.Height))
		}
	}
	for _, o := range []fyne.CanvasObject{l.top, l.bottom} {
		if shown(o) {
			s := o.MinSize()
			m = fyne.NewSize(fyne.Max(m.Width, s.Width), m.Height+s.Height)
		}
	}
	return m
}

func (l *frameLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	x, y, w, h := float32(0), float32(0), size.Width, size.Height
	if shown(l.top) {
		th := heightFor(l.top, w)
		place(l.top, 0, 0, w, th)
		y, h = th, h-th
	}
	if shown(l.bottom) {
		bh := heightFor(l.bottom, w)
		h -= bh
		place(l.bottom, 0, y+h, w, bh)
	}
	if shown(l.left) {
		lw := l.left.MinSize().Width
		place(l.left, 0, y, lw, h)
		x, w = lw, w-lw
	}
	if shown(l.right) {
		rw := l.right.MinSize().Width
		w -= rw
		place(l.right, x+w, y, rw, h)
	}
	if shown(l.centre) {
		place(l.centre, x, y, w, h)
	}
}

// Scrolled puts a column of things in a vertical scroll whose content follows
// the width of the window.
func Scrolled(o fyne.CanvasObject) *container.Scroll {
	s := container.NewVScroll(o)
	s.OnScrolled = func(fyne.Position) { closeTip(s) }
	return s
}

// Limit keeps an object at most width wide, at the left of the space it gets, so
// that lines of text and forms stay readable in a wide window.
func Limit(width float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&limitLayout{width}, o)
}

type limitLayout struct{ width float32 }

func (l *limitLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return heightFor(objects[0], fyne.Min(width, l.width))
}
func (l *limitLayout) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }
func (l *limitLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(fyne.Min(size.Width, l.width), size.Height))
}

// Sized gives an object at least the width and height; 0 leaves one as it is.
func Sized(width, height float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&sizedLayout{fyne.NewSize(width, height)}, o)
}

type sizedLayout struct{ least fyne.Size }

func (l *sizedLayout) heightFor(o []fyne.CanvasObject, w float32) float32 {
	return fyne.Max(heightFor(o[0], w), l.least.Height)
}

func (l *sizedLayout) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize().Max(l.least) }

func (l *sizedLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	place(o[0], 0, 0, s.Width, s.Height)
}

// middle keeps an object at its own width in the middle of a row.
func middle(o fyne.CanvasObject) fyne.CanvasObject { return Line(0, Spring(), o, Spring()) }

// centreBox puts an object at a width in the middle of the space it gets.
func centreBox(width float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&centreLayout{width}, o)
}

type centreLayout struct{ width float32 }

func (l *centreLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return heightFor(objects[0], fyne.Min(width, l.width)) + 2*GapLarge
}

func (l *centreLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	m := objects[0].MinSize()
	return fyne.NewSize(m.Width, l.heightFor(objects, l.width))
}

func (l *centreLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	w := fyne.Min(size.Width, fyne.Max(l.width, objects[0].MinSize().Width))
	h := fyne.Min(heightFor(objects[0], w), size.Height)
	place(objects[0], (size.Width-w)/2, (size.Height-h)*0.42, w, h)
}
