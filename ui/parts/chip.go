package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Chip is a small pill with a word or two, and a drawing that says its kind
// without colour.
type Chip struct {
	widget.BaseWidget
	text string
	icon string
	tone Tone
	tip  string
	hint tipper
}

// NewChip returns a pill; icon may be empty.
func NewChip(tone Tone, icon, text string) *Chip {
	c := &Chip{text: text, icon: icon, tone: tone}
	c.ExtendBaseWidget(c)
	return c
}

// NewMetChip says that a target is met or missed.
func NewMetChip(met bool, text string) *Chip {
	if met {
		return NewChip(ToneGood, "met", text)
	}
	return NewChip(ToneLook, "missed", text)
}

// NewAssumedChip says that a value is assumed rather than known.
func NewAssumedChip(text string) *Chip { return NewChip(ToneNeutral, "assumed", text) }

// Set changes what the chip says.
func (c *Chip) Set(tone Tone, icon, text string) {
	c.tone, c.icon, c.text = tone, icon, text
	c.Refresh()
}

// SetTip sets the words shown when the pointer rests on the chip.
func (c *Chip) SetTip(tip string) { c.tip = tip }

// MouseIn is part of desktop.Hoverable.
func (c *Chip) MouseIn(*desktop.MouseEvent) { c.hint.rest(c, c.tip) }

// MouseMoved is part of desktop.Hoverable.
func (c *Chip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (c *Chip) MouseOut() { c.hint.hide() }

// CreateRenderer is part of fyne.Widget.
func (c *Chip) CreateRenderer() fyne.WidgetRenderer {
	ground, text, icon := canvas.NewRectangle(nil), canvas.NewText("", nil), newIconImage()
	size := func() float32 { return SizeCaption.in(c.Theme()) }
	side := func() float32 { return 14 * factorOf(c.Theme()) }
	lead := func() float32 {
		if c.icon == "" {
			return 10
		}
		return 8 + side() + 5
	}
	d := &drawn{objects: []fyne.CanvasObject{ground, icon, text}}
	d.min = func() fyne.Size {
		return fyne.NewSize(lead()+textWidth(c.text, size(), false)+11, lineHeight(size())+8)
	}
	d.layout = func(s fyne.Size) {
		ground.Resize(s)
		ground.CornerRadius = s.Height / 2
		place(icon, 8, (s.Height-side())/2, side(), side())
		h := lineHeight(size())
		place(text, lead(), (s.Height-h)/2, s.Width-lead(), h)
	}
	d.refresh = func() {
		fill, ink := c.tone.roles()
		setFill(ground, Colour(c, fill))
		setIcon(icon, c.icon, Colour(c, ink))
		if c.tone == ToneNeutral {
			ink = RoleInk
		}
		styleText(text, c.text, size(), false, c, ink)
		d.layout(c.Size())
	}
	return d.start()
}
