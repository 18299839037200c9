package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Columns puts objects side by side at shares of the width (2, 1 = two thirds
// and one third), each as tall as the whole.
func Columns(gap float32, shares []float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&columnsLayout{gap: gap, shares: shares}, objects...)
}

type columnsLayout struct {
	gap    float32
	shares []float32
	width  float32
}

func (l *columnsLayout) widths(objects []fyne.CanvasObject, width float32) []float32 {
	ws := make([]float32, len(objects))
	var sum float32
	n := 0
	for i, o := range objects {
		if o.Visible() {
			ws[i] = 1
			if i < len(l.shares) {
				ws[i] = l.shares[i]
			}
			sum += ws[i]
			n++
		}
	}
	space := width - l.gap*float32(max(n-1, 0))
	for i := range ws {
		if sum > 0 {
			ws[i] *= space / sum
		}
	}
	return ws
}

func (l *columnsLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	var h float32
	for i, w := range l.widths(objects, width) {
		if objects[i].Visible() {
			h = fyne.Max(h, heightFor(objects[i], w))
		}
	}
	return h
}

func (l *columnsLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	m := (&lineLayout{gap: l.gap}).MinSize(objects)
	if l.width > 0 {
		m.Height = l.heightFor(objects, l.width)
	}
	return m
}

func (l *columnsLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	var x float32
	for i, w := range l.widths(objects, size.Width) {
		if objects[i].Visible() {
			objects[i].Move(fyne.NewPos(x, 0))
			objects[i].Resize(fyne.NewSize(w, size.Height))
			x += w + l.gap
		}
	}
}

// Flow puts small things side by side and starts a new line when one is full.
func Flow(gap float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flowLayout{gap: gap}, objects...)
}

type flowLayout struct {
	gap   float32
	width float32
}

// walk calls put with the place of each visible object and returns the height.
func (l *flowLayout) walk(objects []fyne.CanvasObject, width float32, put func(o fyne.CanvasObject, x, y, w, h float32)) float32 {
	var x, y, line float32
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		w := fyne.Min(naturalWidth(o), width)
		h := heightFor(o, w)
		if x > 0 && x+w > width {
			x, y, line = 0, y+line+l.gap, 0
		}
		put(o, x, y, w, h)
		x += w + l.gap
		line = fyne.Max(line, h)
	}
	return y + line
}

func (l *flowLayout) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return l.walk(objects, width, func(fyne.CanvasObject, float32, float32, float32, float32) {})
}

func (l *flowLayout) naturalWidth(objects []fyne.CanvasObject) float32 {
	return (&lineLayout{gap: l.gap}).naturalWidth(objects)
}

func (l *flowLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var w float32
	for _, o := range objects {
		if o.Visible() {
			w = fyne.Max(w, o.MinSize().Width)
		}
	}
	if l.width == 0 {
		return fyne.NewSize(w, l.heightFor(objects, fyne.Max(w, l.naturalWidth(objects))))
	}
	return fyne.NewSize(w, l.heightFor(objects, l.width))
}

func (l *flowLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.walk(objects, size.Width, func(o fyne.CanvasObject, x, y, w, h float32) { place(o, x, y, w, h) })
}
