package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Ratio makes an object high as so many of its width: a sheet of paper.
func Ratio(high float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&ratioLayout{high: high}, o)
}

// Sheet is a Ratio no wider than most, in the middle of wider room.
func Sheet(high, most float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&ratioLayout{high: high, most: most}, o)
}

type ratioLayout struct {
	high  float32
	most  float32 // 0: as wide as there is room
	width float32 // the object's, when last laid out
}

func (l *ratioLayout) wide(room float32) float32 {
	if l.most > 0 {
		return min(room, l.most)
	}
	return room
}

func (l *ratioLayout) heightFor(_ []fyne.CanvasObject, width float32) float32 {
	return l.wide(width) * l.high
}

// MinSize is the height for the width it has.
func (l *ratioLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[0].MinSize().Width, max(l.width*l.high, o[0].MinSize().Height))
}

// Layout gives the object all it may have.
func (l *ratioLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	l.width = l.wide(s.Width)
	place(o[0], (s.Width-l.width)/2, 0, l.width, l.width*l.high)
}
