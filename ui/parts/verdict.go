package parts

import (
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/assets/icons"
	"parewell/charts"
)

// verdictIcon is how names of drawings begin that are a verdict's mark.
const verdictIcon = "verdict-"

// VerdictIcon names the drawing of a verdict's mark: the one its figures have.
func VerdictIcon(v charts.Verdict) string { return verdictIcon + string(v) }

// markVerdict is the mark of the first verdict; the others follow.
const markVerdict Mark = 100

// VerdictMark is the mark of a verdict in a table: the one its figures have.
func VerdictMark(v charts.Verdict) Mark {
	at := slices.Index(charts.Verdicts, v)
	if at < 0 {
		return MarkNone
	}
	return markVerdict + Mark(at)
}

// markIcon is the drawing of a mark and its colour where w is shown.
func markIcon(w fyne.CanvasObject, m Mark) (name string, c color.Color) {
	if m >= markVerdict {
		name = VerdictIcon(charts.Verdicts[m-markVerdict])
		return name, iconColour(w, name, RoleMuted)
	}
	i := markIcons[m]
	return i.name, Colour(w, i.role)
}

// iconColour is a role's colour, or a verdict's own.
func iconColour(w fyne.CanvasObject, name string, role fyne.ThemeColorName) color.Color {
	v, ok := strings.CutPrefix(name, verdictIcon)
	if !ok {
		return Colour(w, role)
	}
	look := charts.ScreenLight
	if IsDark(themeOf(w)) {
		look = charts.ScreenDark
	}
	return charts.VerdictColour(charts.Verdict(v), look)
}

// drawingOf is one of our drawings by name, nil when there is none.
func drawingOf(name string) []byte {
	if v, ok := strings.CutPrefix(name, verdictIcon); ok {
		return charts.VerdictSVG(charts.Verdict(v))
	}
	return icons.SVG(name)
}
