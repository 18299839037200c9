package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Panel is a sheet of paper: the card colour, round corners, a hairline and
// space around its content.
type Panel struct {
	widget.BaseWidget
	content fyne.CanvasObject
	pad     float32
	role    fyne.ThemeColorName
	line    fyne.ThemeColorName
	radius  float32
}

// NewPanel returns a sheet of paper around a content, pad units from its edge;
// a table fits flush with 1.
func NewPanel(pad float32, content fyne.CanvasObject) *Panel {
	p := &Panel{content: content, pad: pad, role: RoleCard, line: RoleHairline, radius: 8}
	p.ExtendBaseWidget(p)
	return p
}

// HeightFor returns the height at a width.
func (p *Panel) HeightFor(width float32) float32 {
	return heightFor(p.content, width-2*p.pad) + 2*p.pad
}

// CreateRenderer is part of fyne.Widget.
func (p *Panel) CreateRenderer() fyne.WidgetRenderer {
	ground, edge := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	// The edge lies over the content so that a flush table keeps round corners.
	d := &drawn{objects: []fyne.CanvasObject{ground, p.content, edge}}
	d.min = func() fyne.Size { return p.content.MinSize().AddWidthHeight(2*p.pad, 2*p.pad) }
	d.layout = func(s fyne.Size) {
		ground.Resize(s)
		edge.Resize(s)
		place(p.content, p.pad, p.pad, s.Width-2*p.pad, s.Height-2*p.pad)
	}
	d.refresh = func() {
		ground.CornerRadius, edge.CornerRadius = p.radius, p.radius
		ground.FillColor, edge.FillColor = Colour(p, p.role), color.Transparent
		edge.StrokeColor, edge.StrokeWidth = Colour(p, p.line), 1
		ground.Refresh()
		edge.Refresh()
	}
	return d.start()
}

// NewCard returns a panel with a title row, actions at its right, and a content.
// A caption under the title may be empty.
func NewCard(title, caption string, content fyne.CanvasObject, actions ...fyne.CanvasObject) *Panel {
	return NewPanel(GapLarge, Fill(GapMedium, 1, TitleRow(title, caption, actions...), content))
}

// NewTableCard is a card whose content, a table, reaches its edges.
func NewTableCard(title, caption string, table fyne.CanvasObject, actions ...fyne.CanvasObject) *Panel {
	if title == "" {
		return NewPanel(1, table)
	}
	head := Pad(12, 12, 10, 15, TitleRow(title, caption, actions...))
	return NewPanel(1, Fill(0, 1, head, table))
}

// TitleRow is a subheading with a caption under it and actions at the right.
func TitleRow(title, caption string, actions ...fyne.CanvasObject) fyne.CanvasObject {
	words := Rows(1, NewSubheading(title))
	if caption != "" {
		words.Add(NewCaption(caption))
	}
	return Stretch(GapSmall, 0, append([]fyne.CanvasObject{centred(words)}, actions...)...)
}

// PageHead is the top of a page: heading, caption and actions at the right.
func PageHead(title, caption string, actions ...fyne.CanvasObject) fyne.CanvasObject {
	words := Rows(2, NewHeading(title))
	if caption != "" {
		words.Add(newText(caption, SizeBody, RoleMuted, false))
	}
	return Stretch(GapSmall, 0, append([]fyne.CanvasObject{centred(words)}, actions...)...)
}

// centred keeps a thing at its own height in the middle of the height it gets.
func centred(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(midLayout{}, o)
}

type midLayout struct{}

func (midLayout) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }
func (midLayout) heightFor(o []fyne.CanvasObject, w float32) float32 {
	return heightFor(o[0], w)
}

func (midLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	h := fyne.Min(heightFor(o[0], s.Width), s.Height)
	place(o[0], 0, (s.Height-h)/2, s.Width, h)
}

// Section is a small heading over a group of things, with a hairline beside it.
type Section struct {
	widget.BaseWidget
	text string
}

// NewSection returns a section heading.
func NewSection(text string) *Section {
	s := &Section{text: text}
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer is part of fyne.Widget.
func (x *Section) CreateRenderer() fyne.WidgetRenderer {
	text, line := canvas.NewText("", nil), canvas.NewRectangle(nil)
	size := func() float32 { return SizeCaption.in(x.Theme()) }
	d := &drawn{objects: []fyne.CanvasObject{text, line}}
	d.min = func() fyne.Size {
		return fyne.NewSize(textWidth(x.text, size(), true)+24, lineHeight(size())+6)
	}
	d.layout = func(s fyne.Size) {
		w := textWidth(x.text, size(), true)
		place(text, 0, 3, w, lineHeight(size()))
		place(line, w+10, s.Height/2, fyne.Max(s.Width-w-10, 0), 1)
	}
	d.refresh = func() {
		styleText(text, x.text, size(), true, x, RoleMuted)
		setFill(line, Colour(x, RoleHairline))
	}
	return d.start()
}

// Rule is a hairline across the width.
type Rule struct{ widget.BaseWidget }

// NewRule returns a hairline.
func NewRule() *Rule {
	r := &Rule{}
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer is part of fyne.Widget.
func (r *Rule) CreateRenderer() fyne.WidgetRenderer {
	line := canvas.NewRectangle(nil)
	d := &drawn{objects: []fyne.CanvasObject{line}}
	d.min = func() fyne.Size { return fyne.NewSize(1, 1) }
	d.layout = func(s fyne.Size) { line.Resize(s) }
	d.refresh = func() { setFill(line, Colour(r, RoleHairline)) }
	return d.start()
}

// Side is the ground of the side bar: the header colour with a hairline at its
// right.
func Side(content fyne.CanvasObject) fyne.CanvasObject {
	s := &sideGround{content: content}
	s.ExtendBaseWidget(s)
	return s
}

type sideGround struct {
	widget.BaseWidget
	content fyne.CanvasObject
}

func (x *sideGround) CreateRenderer() fyne.WidgetRenderer {
	ground, line := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	d := &drawn{objects: []fyne.CanvasObject{ground, x.content, line}}
	d.min = func() fyne.Size { return x.content.MinSize() }
	d.layout = func(s fyne.Size) {
		ground.Resize(s)
		x.content.Resize(s)
		place(line, s.Width-1, 0, 1, s.Height)
	}
	d.refresh = func() {
		setFill(ground, Colour(x, RoleHeader))
		setFill(line, Colour(x, RoleHairline))
	}
	return d.start()
}
