package parts

import (
	"bytes"
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"parewell/assets/icons"
)

// IconResource returns one of our drawings as a resource that follows the theme,
// for Fyne's own menus and windows. An unknown name gives nil.
func IconResource(name string) fyne.Resource {
	b := icons.SVG(name)
	if b == nil {
		return nil
	}
	return theme.NewThemedResource(fyne.NewStaticResource(name+".svg", b))
}

var painted = map[string]fyne.Resource{}

// inColour returns a drawing in one colour. Fyne caches drawings by name, so the
// colour is part of it.
func inColour(name string, c color.Color) fyne.Resource {
	key := fmt.Sprintf("%s-%s.svg", name, css(c)[1:])
	if r, ok := painted[key]; ok {
		return r
	}
	b := drawingOf(name)
	if b == nil {
		return nil
	}
	r := fyne.NewStaticResource(key, bytes.ReplaceAll(b, []byte("#000000"), []byte(css(c))))
	painted[key] = r
	return r
}

func css(c color.Color) string {
	n, _ := color.NRGBAModel.Convert(c).(color.NRGBA)
	return fmt.Sprintf("#%02x%02x%02x", n.R, n.G, n.B)
}

// newIconImage returns an empty picture for setIcon.
func newIconImage() *canvas.Image { return &canvas.Image{FillMode: canvas.ImageFillContain} }

// setIcon shows a drawing in a colour; an empty name shows nothing.
func setIcon(img *canvas.Image, name string, c color.Color) {
	if name == "" {
		show(img, false)
		return
	}
	show(img, true)
	if r := inColour(name, c); r != nil && img.Resource != r {
		img.Resource = r
		img.Refresh()
	}
}

// Icon is one of our drawings in a role of colour.
type Icon struct {
	widget.BaseWidget
	name string
	role fyne.ThemeColorName
	side float32
}

// NewIcon returns a drawing with the side at factor 1, 18 when side is 0.
func NewIcon(name string, role fyne.ThemeColorName, side float32) *Icon {
	if side == 0 {
		side = 18
	}
	i := &Icon{name: name, role: role, side: side}
	i.ExtendBaseWidget(i)
	return i
}

// Set changes the drawing and its role of colour.
func (i *Icon) Set(name string, role fyne.ThemeColorName) {
	if i.name != name || i.role != role {
		i.name, i.role = name, role
		i.Refresh()
	}
}

// CreateRenderer is part of fyne.Widget.
func (i *Icon) CreateRenderer() fyne.WidgetRenderer {
	img := newIconImage()
	d := &drawn{
		objects: []fyne.CanvasObject{img},
		layout:  func(s fyne.Size) { img.Resize(s) },
		min: func() fyne.Size {
			return fyne.NewSquareSize(i.side * factorOf(i.Theme()))
		},
		refresh: func() { setIcon(img, i.name, Colour(i, i.role)) },
	}
	return d.start()
}

func iconNames() []string { return icons.Names() }
