package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// PressArea is content all of which can be pressed with the mouse, for a row whose
// button says what it does: the button is what the keyboard reaches.
type PressArea struct {
	widget.BaseWidget
	content fyne.CanvasObject
	ground  *canvas.Rectangle
	button  *Button
	hovered bool
}

// NewPressArea returns the content as an area that presses button.
func NewPressArea(content fyne.CanvasObject, button *Button) *PressArea {
	a := &PressArea{content: content, ground: canvas.NewRectangle(nil), button: button}
	a.ground.CornerRadius = 4
	a.ExtendBaseWidget(a)
	return a
}

// CreateRenderer is part of fyne.Widget.
func (a *PressArea) CreateRenderer() fyne.WidgetRenderer {
	a.paint()
	return widget.NewSimpleRenderer(container.NewStack(a.ground, a.content))
}

func (a *PressArea) paint() {
	a.ground.FillColor = Colour(a, RoleHover)
	a.ground.Hidden = !a.hovered
}

// Refresh draws it again, in the colours of the theme.
func (a *PressArea) Refresh() {
	a.paint()
	a.BaseWidget.Refresh()
}

// Tapped presses the button.
func (a *PressArea) Tapped(*fyne.PointEvent) { a.button.Press() }

// Cursor shows that it can be pressed.
func (a *PressArea) Cursor() desktop.Cursor { return desktop.PointerCursor }

// MouseIn is part of desktop.Hoverable.
func (a *PressArea) MouseIn(*desktop.MouseEvent) { a.hover(true) }

// MouseMoved is part of desktop.Hoverable.
func (a *PressArea) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (a *PressArea) MouseOut() { a.hover(false) }

func (a *PressArea) hover(on bool) {
	a.hovered = on
	a.paint()
	a.ground.Refresh()
}
