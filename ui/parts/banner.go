package parts

import (
	"fyne.io/fyne/v2"
)

// Tone says what a banner or a chip is about.
type Tone int

// The tones. ToneLook is amber, ToneError red, ToneGood green.
const (
	ToneNeutral Tone = iota
	ToneLook
	ToneError
	ToneGood
)

func (t Tone) roles() (ground, ink fyne.ThemeColorName) {
	switch t {
	case ToneLook:
		return RoleLookSoft, RoleLook
	case ToneError:
		return RoleErrorSoft, RoleError
	case ToneGood:
		return RoleAccentSoft, RoleLighter
	}
	return RoleHeader, RoleMuted
}

func (t Tone) icon() string {
	switch t {
	case ToneLook:
		return "look"
	case ToneError:
		return "error"
	case ToneGood:
		return "met"
	}
	return "info"
}

// NewBanner returns a line that says one thing about the page, with a drawing,
// and actions at its right.
func NewBanner(tone Tone, text string, actions ...fyne.CanvasObject) *Panel {
	ground, ink := tone.roles()
	icon := Pad(1, 0, 0, 0, NewIcon(tone.icon(), ink, 18))
	row := append([]fyne.CanvasObject{icon, NewText(text)}, actions...)
	p := NewPanel(0, Pad(9, 12, 9, 12, Stretch(10, 1, centreEach(row)...)))
	p.role, p.line = ground, ground
	return p
}

// centreEach keeps each object at its own height.
func centreEach(objects []fyne.CanvasObject) []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(objects))
	for i, o := range objects {
		out[i] = centred(o)
	}
	return out
}
