package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Ratio makes an object high as so many of its width: a sheet of paper.
func Ratio(high float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&ratioLayout{high: high}, o)
}

type ratioLayout struct {
	high  float32
	width float32 // last width laid out for
}

func (l *ratioLayout) heightFor(_ []fyne.CanvasObject, width float32) float32 {
	return width * l.high
}

// MinSize is the height for the width it has.
func (l *ratioLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[0].MinSize().Width, max(l.width*l.high, o[0].MinSize().Height))
}

// Layout gives the object all.
func (l *ratioLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	l.width = s.Width
	place(o[0], 0, 0, s.Width, s.Width*l.high)
}
