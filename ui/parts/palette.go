package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Roles of colour. A widget asks for a role, never for a colour, so that the
// light and the dark theme can give each its own answer.
const (
	RoleGround     fyne.ThemeColorName = "parewell.ground"     // the window behind the cards
	RoleCard       fyne.ThemeColorName = "parewell.card"       // paper: cards, tables, fields
	RoleInk        fyne.ThemeColorName = "parewell.ink"        // text
	RoleMuted      fyne.ThemeColorName = "parewell.muted"      // second text: units, captions
	RoleHairline   fyne.ThemeColorName = "parewell.hairline"   // thin lines, no text
	RoleOutline    fyne.ThemeColorName = "parewell.outline"    // borders of fields and boxes
	RoleAccent     fyne.ThemeColorName = "parewell.accent"     // the one green
	RoleAccentSoft fyne.ThemeColorName = "parewell.accentSoft" // ground of a chosen thing
	RoleOnAccent   fyne.ThemeColorName = "parewell.onAccent"   // text on the green
	RoleLook       fyne.ThemeColorName = "parewell.look"       // amber: look here
	RoleLookSoft   fyne.ThemeColorName = "parewell.lookSoft"   // ground under amber
	RoleError      fyne.ThemeColorName = "parewell.error"      // red: errors only
	RoleErrorSoft  fyne.ThemeColorName = "parewell.errorSoft"  // ground under red
	RoleOnError    fyne.ThemeColorName = "parewell.onError"    // text on red
	RoleLighter    fyne.ThemeColorName = "parewell.lighter"    // a fall
	RoleHeavier    fyne.ThemeColorName = "parewell.heavier"    // a rise
	RoleZebra      fyne.ThemeColorName = "parewell.zebra"      // every other row, totals
	RoleHeader     fyne.ThemeColorName = "parewell.header"     // header rows, bands, side bar
	RoleSelected   fyne.ThemeColorName = "parewell.selected"   // ground of the selected cell
	RoleHover      fyne.ThemeColorName = "parewell.hover"      // ground under the pointer
	RoleShade      fyne.ThemeColorName = "parewell.shade"      // soft shadow and veil
)

func hex(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xff}
}

func alpha(v uint32, a uint8) color.NRGBA {
	c := hex(v)
	c.A = a
	return c
}

type palette map[fyne.ThemeColorName]color.Color

var light = withFyneNames(palette{
	RoleGround: hex(0xF6F2EA), RoleCard: hex(0xFFFDF9), RoleInk: hex(0x24251F), RoleMuted: hex(0x615C50),
	RoleHairline: hex(0xE5DFD3), RoleOutline: hex(0x8C8677), RoleAccent: hex(0x1E5B43), RoleAccentSoft: hex(0xE2EDE4),
	RoleOnAccent: hex(0xFFFFFF), RoleLook: hex(0x845300), RoleLookSoft: hex(0xFBF0D8), RoleError: hex(0xA3251B),
	RoleErrorSoft: hex(0xFBE7E2), RoleOnError: hex(0xFFFFFF), RoleLighter: hex(0x1B6347), RoleHeavier: hex(0x8A4B05),
	RoleZebra: hex(0xF8F5EC), RoleHeader: hex(0xEFE9DD), RoleSelected: hex(0xE8F1E9), RoleHover: hex(0xF5F1E7),
	RoleShade: alpha(0x2A2416, 0x1c),
})

var dark = withFyneNames(palette{
	RoleGround: hex(0x181A17), RoleCard: hex(0x21241F), RoleInk: hex(0xEDE9DF), RoleMuted: hex(0xB5AF9F),
	RoleHairline: hex(0x383B34), RoleOutline: hex(0x8A887B), RoleAccent: hex(0x86CDA9), RoleAccentSoft: hex(0x263A2F),
	RoleOnAccent: hex(0x0D2117), RoleLook: hex(0xF0BB62), RoleLookSoft: hex(0x3A2F1A), RoleError: hex(0xFF9E90),
	RoleErrorSoft: hex(0x44251F), RoleOnError: hex(0x2B0906), RoleLighter: hex(0x86D3AD), RoleHeavier: hex(0xF2B56E),
	RoleZebra: hex(0x252822), RoleHeader: hex(0x2B2E28), RoleSelected: hex(0x26392E), RoleHover: hex(0x2A2E27),
	RoleShade: alpha(0x000000, 0x66),
})

// withFyneNames answers the names Fyne's own widgets ask for with our roles, so
// that nothing of the default blue shows through.
func withFyneNames(p palette) palette {
	for name, role := range map[fyne.ThemeColorName]fyne.ThemeColorName{
		theme.ColorNameBackground: RoleGround, theme.ColorNameForeground: RoleInk, theme.ColorNamePrimary: RoleAccent,
		theme.ColorNameHyperlink: RoleAccent, theme.ColorNameForegroundOnPrimary: RoleOnAccent,
		theme.ColorNameSeparator: RoleHairline, theme.ColorNameInputBackground: RoleCard,
		theme.ColorNameInputBorder: RoleOutline, theme.ColorNameHeaderBackground: RoleHeader,
		theme.ColorNameOverlayBackground: RoleCard, theme.ColorNameMenuBackground: RoleCard,
		theme.ColorNamePlaceHolder: RoleMuted, theme.ColorNameDisabled: RoleMuted, theme.ColorNameError: RoleError,
		theme.ColorNameWarning: RoleLook, theme.ColorNameSuccess: RoleLighter, theme.ColorNameHover: RoleHover,
		theme.ColorNameButton: RoleHeader, theme.ColorNameDisabledButton: RoleHeader, theme.ColorNamePressed: RoleAccentSoft,
		theme.ColorNameForegroundOnError: RoleOnError, theme.ColorNameForegroundOnWarning: RoleCard,
		theme.ColorNameForegroundOnSuccess: RoleCard, theme.ColorNameShadow: RoleShade,
	} {
		p[name] = p[role]
	}
	accent, _ := p[RoleAccent].(color.NRGBA)
	p[theme.ColorNameFocus] = color.NRGBA{R: accent.R, G: accent.G, B: accent.B, A: 0x40}
	p[theme.ColorNameSelection] = color.NRGBA{R: accent.R, G: accent.G, B: accent.B, A: 0x38}
	ink, _ := p[RoleInk].(color.NRGBA)
	p[theme.ColorNameScrollBar] = color.NRGBA{R: ink.R, G: ink.G, B: ink.B, A: 0x66}
	p[theme.ColorNameScrollBarBackground] = color.NRGBA{}
	return p
}
