package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Theme is the look of the window: paper, ink and one green. It keeps its own
// variant, because the one Fyne passes depends on the machine, and its own text
// factor. The zero value is the light theme at factor 1.
type Theme struct {
	Variant fyne.ThemeVariant // theme.VariantDark (0) or theme.VariantLight (1); use NewTheme
	Factor  float32           // text size, 0.9 to 1.6; 0 means 1
}

// Smallest and largest text factor.
const (
	MinFactor float32 = 0.9
	MaxFactor float32 = 1.6
)

// NewTheme returns the light or the dark theme with the text factor kept between
// MinFactor and MaxFactor; 0 means 1.
func NewTheme(isDark bool, factor float32) Theme {
	t := Theme{Variant: theme.VariantLight, Factor: clampFactor(factor)}
	if isDark {
		t.Variant = theme.VariantDark
	}
	return t
}

func clampFactor(f float32) float32 {
	if f <= 0 {
		return 1
	}
	return fyne.Max(MinFactor, fyne.Min(MaxFactor, f))
}

// Color returns the colour of a role or of one of Fyne's own names; the variant
// passed in is ignored in favour of the theme's own.
func (t Theme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	p := light
	if t.Variant == theme.VariantDark {
		p = dark
	}
	if c, ok := p[n]; ok {
		return c
	}
	return theme.DefaultTheme().Color(n, t.Variant)
}

// Font returns the embedded Noto Sans, whose digits are all of one width.
func (t Theme) Font(s fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(s) }

// Icon returns Fyne's own icon of that name; our drawings come from Icon.
func (t Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size returns a text size times the factor, or a distance in Fyne's units.
func (t Theme) Size(n fyne.ThemeSizeName) float32 {
	f := clampFactor(t.Factor)
	switch n {
	case theme.SizeNameText:
		return 14 * f
	case theme.SizeNameCaptionText:
		return 12 * f
	case theme.SizeNameSubHeadingText:
		return 17 * f
	case theme.SizeNameHeadingText:
		return 24 * f
	case theme.SizeNameInnerPadding:
		return 8 * f
	case theme.SizeNameInlineIcon:
		return 18 * f
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 6
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameScrollBarSmall:
		return 4
	}
	return theme.DefaultTheme().Size(n)
}

// IsDark says whether a theme paints light text on a dark ground, by looking at
// its card colour, so that it holds for any override.
func IsDark(th fyne.Theme) bool {
	r, g, b, _ := roleIn(th, RoleCard).RGBA()
	return (299*r+587*g+114*b)/1000 < 0x8000
}

// Colour returns the colour of a role in the theme an object is shown in.
func Colour(o fyne.CanvasObject, role fyne.ThemeColorName) color.Color {
	return roleIn(themeOf(o), role)
}

// roleIn falls back on the light theme where another theme is set, which does
// not know our roles.
func roleIn(th fyne.Theme, role fyne.ThemeColorName) color.Color {
	if c := th.Color(role, fyne.CurrentApp().Settings().ThemeVariant()); c != nil {
		return c
	}
	return light[role]
}

// themeOf returns the theme of a widget (an override included) or the app's.
func themeOf(o fyne.CanvasObject) fyne.Theme {
	if w, ok := o.(interface{ Theme() fyne.Theme }); ok {
		return w.Theme()
	}
	return fyne.CurrentApp().Settings().Theme()
}

// TextSize names the four sizes of text.
type TextSize int

// The four sizes: 14, 12, 17 and 24 at factor 1.
const (
	SizeBody TextSize = iota
	SizeCaption
	SizeSubheading
	SizeHeading
)

func (s TextSize) in(th fyne.Theme) float32 {
	switch s {
	case SizeCaption:
		return th.Size(theme.SizeNameCaptionText)
	case SizeSubheading:
		return th.Size(theme.SizeNameSubHeadingText)
	case SizeHeading:
		return th.Size(theme.SizeNameHeadingText)
	}
	return th.Size(theme.SizeNameText)
}

// factorOf returns how much larger than normal a theme's text is.
func factorOf(th fyne.Theme) float32 { return th.Size(theme.SizeNameText) / 14 }

// Factor returns how much larger than normal text is where an object is shown.
func Factor(o fyne.CanvasObject) float32 { return factorOf(themeOf(o)) }

// compact is a theme with a smaller padding inside fields, for editing in a cell.
type compact struct {
	fyne.Theme
	inner float32
}

func (c compact) Size(n fyne.ThemeSizeName) float32 {
	if n == theme.SizeNameInnerPadding {
		return c.inner
	}
	return c.Theme.Size(n)
}
