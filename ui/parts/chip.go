package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Chip is a small pill with a word or two, and a drawing that says its kind
// without colour. Longer words wrap at the width it gets.
type Chip struct {
	widget.BaseWidget
	text  string
	words *Text // what is drawn of text
	icon  string
	tone  Tone
	tip   string
	hint  tipper
}

// NewChip returns a pill; icon may be empty.
func NewChip(tone Tone, icon, text string) *Chip {
	c := &Chip{text: text, words: newText(text, SizeCaption, RoleInk, false), icon: icon, tone: tone}
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

// Room round the words of a chip at text factor 1.
const (
	chipEnd  = 11 // right of the words
	chipHigh = 8  // over and under them together
)

func (c *Chip) side() float32 { return 14 * factorOf(c.Theme()) }

// lead is the room left of the words.
func (c *Chip) lead() float32 {
	if c.icon == "" {
		return 10
	}
	return 8 + c.side() + 5
}

// Natural is the width of the chip with its words on one line.
func (c *Chip) Natural() float32 { return c.lead() + c.words.Natural() + chipEnd }

// HeightFor returns the height the chip takes at a width: where its words do not
// fit on one line they wrap, and nothing is cut off.
func (c *Chip) HeightFor(width float32) float32 {
	return c.words.HeightFor(width-c.lead()-chipEnd) + chipHigh
}

// CreateRenderer is part of fyne.Widget.
func (c *Chip) CreateRenderer() fyne.WidgetRenderer {
	ground, icon := canvas.NewRectangle(nil), newIconImage()
	d := &drawn{objects: []fyne.CanvasObject{ground, icon, c.words}}
	d.min = func() fyne.Size {
		w := c.words.MinSize()
		return fyne.NewSize(c.lead()+w.Width+chipEnd, w.Height+chipHigh)
	}
	d.layout = func(s fyne.Size) {
		ground.Resize(s)
		line := c.words.HeightFor(0)
		ground.CornerRadius = (line + chipHigh) / 2
		place(icon, 8, (line+chipHigh-c.side())/2, c.side(), c.side())
		w := s.Width - c.lead() - chipEnd
		h := c.words.HeightFor(w)
		place(c.words, c.lead(), (s.Height-h)/2, w, h)
	}
	d.refresh = func() {
		fill, ink := c.tone.roles()
		setFill(ground, Colour(c, fill))
		setIcon(icon, c.icon, iconColour(c, c.icon, ink))
		if c.tone == ToneNeutral {
			ink = RoleInk
		}
		c.words.Role, c.words.text = ink, c.text
		c.words.Refresh()
		d.layout(c.Size())
	}
	return d.start()
}
