package parts

import (
	"image"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// canvasTries is how often a chart that is in no window yet looks again.
const canvasTries = 20

// chartDelay gathers the sizes of a window being dragged into one drawing.
const chartDelay = 90 * time.Millisecond

// DrawChart draws a chart at a size in device pixels; scale is device pixels per
// unit of the window. It runs in the background and must not touch widgets.
type DrawChart func(pxW, pxH int, scale float32, dark bool) image.Image

// ChartView shows a chart at exact device pixels. It draws in the background,
// once when a size has settled, and drops a drawing that a newer one overtook.
type ChartView struct {
	widget.BaseWidget
	OnMenu func(at fyne.Position) // secondary click, or the Menu key: export
	Alt    string                 // the chart in words, shown when the pointer rests

	draw    DrawChart
	least   fyne.Size
	img     *canvas.Image
	want    drawing
	have    drawing
	wait    func()
	renders atomic.Int64
	tries   int
	hint    tipper
}

// drawing is what one picture was or is to be drawn for.
type drawing struct {
	gen  uint64
	w, h int
	dark bool
}

// NewChartView returns a view with a least size in units of the window.
func NewChartView(least fyne.Size, draw DrawChart) *ChartView {
	v := &ChartView{draw: draw, least: least, img: &canvas.Image{FillMode: canvas.ImageFillStretch}}
	v.ExtendBaseWidget(v)
	return v
}

// SetDraw changes what is drawn and draws it at once.
func (v *ChartView) SetDraw(draw DrawChart) {
	v.draw = draw
	v.Invalidate()
}

// Invalidate draws again because the data changed.
func (v *ChartView) Invalidate() {
	v.tries = 0
	v.have = drawing{}
	v.schedule(0)
}

// Renders counts the pictures drawn, for tests.
func (v *ChartView) Renders() int64 { return v.renders.Load() }

// schedule asks for a drawing after a delay; a later request replaces it.
func (v *ChartView) schedule(after time.Duration) {
	v.want.gen++
	gen := v.want.gen
	if v.wait != nil {
		v.wait()
	}
	v.wait = timing.After(after, func() {
		if gen == v.want.gen {
			v.begin(gen)
		}
	})
}

// begin reads the size on the window's goroutine and draws in the background.
func (v *ChartView) begin(gen uint64) {
	c := fyne.CurrentApp().Driver().CanvasForObject(v)
	if c == nil && v.draw != nil && v.tries < canvasTries {
		v.tries++ // built anew and not painted yet: the driver knows its window only then
		v.schedule(chartDelay)
		return
	}
	if c == nil || v.draw == nil || v.Size().Width < 1 || v.Size().Height < 1 {
		return
	}
	v.tries = 0
	w, h := c.PixelCoordinateForPosition(fyne.NewPos(v.Size().Width, v.Size().Height))
	to := drawing{gen: gen, w: w, h: h, dark: IsDark(v.Theme())}
	if w <= 0 || h <= 0 || (v.have.w == w && v.have.h == h && v.have.dark == to.dark) {
		return
	}
	draw, scale := v.draw, float32(w)/v.Size().Width
	timing.Go(func() {
		v.renders.Add(1)
		picture := draw(w, h, scale, to.dark)
		timing.Do(func() { v.finish(to, picture) })
	})
}

func (v *ChartView) finish(d drawing, picture image.Image) {
	if d.gen != v.want.gen || picture == nil {
		return
	}
	v.have = d
	v.img.Image = picture
	v.img.Refresh()
}

// MouseDown opens the menu on a secondary click.
func (v *ChartView) MouseDown(e *desktop.MouseEvent) {
	v.hint.hide()
	if e.Button == desktop.MouseButtonSecondary && v.OnMenu != nil {
		v.OnMenu(e.AbsolutePosition)
	}
}

// MouseUp is part of desktop.Mouseable.
func (v *ChartView) MouseUp(*desktop.MouseEvent) {}

// MouseIn is part of desktop.Hoverable.
func (v *ChartView) MouseIn(*desktop.MouseEvent) { v.hint.rest(v, v.Alt) }

// MouseMoved is part of desktop.Hoverable.
func (v *ChartView) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (v *ChartView) MouseOut() { v.hint.hide() }

// CreateRenderer is part of fyne.Widget.
func (v *ChartView) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{objects: []fyne.CanvasObject{v.img}}
	d.min = func() fyne.Size { return v.least }
	d.layout = func(s fyne.Size) {
		v.img.Resize(s)
		after := chartDelay
		if v.img.Image == nil {
			after = 0
		}
		v.schedule(after)
	}
	d.refresh = func() { v.schedule(0) }
	return d
}
