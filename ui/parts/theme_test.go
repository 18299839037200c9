package parts

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

func linear(c uint8) float64 {
	v := float64(c) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func rgb(c color.Color) [3]float64 {
	n, _ := color.NRGBAModel.Convert(c).(color.NRGBA)
	return [3]float64{linear(n.R), linear(n.G), linear(n.B)}
}

// contrast is the ratio of WCAG 2.2, success criterion 1.4.3.
func contrast(a, b color.Color) float64 {
	lum := func(c color.Color) float64 {
		v := rgb(c)
		return 0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2]
	}
	x, y := lum(a), lum(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

func TestContrastFormula(t *testing.T) {
	// Black on white is 21:1 by definition; #767676 on white is the well-known
	// 4.54:1 grey (WCAG 2.2, understanding 1.4.3).
	if c := contrast(color.Black, color.White); math.Abs(c-21) > 0.01 {
		t.Errorf("black on white %v", c)
	}
	if c := contrast(hex(0x767676), color.White); math.Abs(c-4.54) > 0.01 {
		t.Errorf("#767676 on white %v", c)
	}
}

func TestTextContrast(t *testing.T) {
	paper := []fyne.ThemeColorName{RoleGround, RoleCard, RoleZebra, RoleHeader, RoleSelected, RoleHover, RoleAccentSoft}
	pairs := map[fyne.ThemeColorName][]fyne.ThemeColorName{
		RoleInk:      append([]fyne.ThemeColorName{RoleLookSoft, RoleErrorSoft}, paper...),
		RoleMuted:    paper,
		RoleAccent:   paper,
		RoleLighter:  paper,
		RoleHeavier:  paper,
		RoleLook:     append([]fyne.ThemeColorName{RoleLookSoft}, paper...),
		RoleError:    append([]fyne.ThemeColorName{RoleErrorSoft}, paper...),
		RoleOnAccent: {RoleAccent},
		RoleOnError:  {RoleError},
	}
	fyneNames := map[fyne.ThemeColorName][]fyne.ThemeColorName{
		theme.ColorNameForeground:          {theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameMenuBackground, theme.ColorNameButton, theme.ColorNameOverlayBackground},
		theme.ColorNamePlaceHolder:         {theme.ColorNameInputBackground, theme.ColorNameBackground},
		theme.ColorNameDisabled:            {theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameMenuBackground},
		theme.ColorNameForegroundOnPrimary: {theme.ColorNamePrimary},
		theme.ColorNameHyperlink:           {theme.ColorNameBackground, RoleCard},
	}
	for name, grounds := range fyneNames {
		pairs[name] = grounds
	}
	for _, isDark := range []bool{false, true} {
		th := NewTheme(isDark, 1)
		for text, grounds := range pairs {
			for _, ground := range grounds {
				if c := contrast(th.Color(text, 0), th.Color(ground, 0)); c < 4.5 {
					t.Errorf("dark %v: %s on %s is %.2f:1, under 4.5", isDark, text, ground, c)
				}
			}
		}
	}
}

func TestGraphicContrast(t *testing.T) {
	// WCAG 2.2, 1.4.11: 3:1 for what a control is told by.
	for _, isDark := range []bool{false, true} {
		th := NewTheme(isDark, 1)
		for _, ground := range []fyne.ThemeColorName{RoleCard, RoleGround, RoleHeader} {
			for _, role := range []fyne.ThemeColorName{RoleOutline, RoleAccent} {
				if c := contrast(th.Color(role, 0), th.Color(ground, 0)); c < 3 && !(role == RoleOutline && ground == RoleHeader) {
					t.Errorf("dark %v: %s on %s is %.2f:1, under 3", isDark, role, ground, c)
				}
			}
			least := 3.0
			if ground != RoleCard {
				least = 2.5 // elsewhere the letter in ink beside it says the same
			}
			for i := range 8 {
				if c := contrast(VersionColour(i, isDark), th.Color(ground, 0)); c < least {
					t.Errorf("dark %v: version %s on %s is %.2f:1", isDark, VersionLetter(i), ground, c)
				}
			}
		}
	}
}

// How each kind of colour blindness sees linear RGB, at full severity (Machado,
// Oliveira, Fernandes, "A Physiologically-based Model for Simulation of Color
// Vision Deficiency", IEEE TVCG 15(6), 2009).
var sights = map[string][3][3]float64{
	"normal":       {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// lab converts linear RGB as seen to CIE L*a*b* under D65.
func lab(c color.Color, sight [3][3]float64) [3]float64 {
	v := rgb(c)
	var l [3]float64
	for i := range 3 {
		l[i] = math.Max(0, math.Min(1, sight[i][0]*v[0]+sight[i][1]*v[1]+sight[i][2]*v[2]))
	}
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	x := f((0.4124*l[0] + 0.3576*l[1] + 0.1805*l[2]) / 0.95047)
	y := f(0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2])
	z := f((0.0193*l[0] + 0.1192*l[1] + 0.9505*l[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func TestVersionColoursApart(t *testing.T) {
	for _, isDark := range []bool{false, true} {
		for name, sight := range sights {
			for i := range 8 {
				for j := range i {
					a, b := lab(VersionColour(i, isDark), sight), lab(VersionColour(j, isDark), sight)
					d := math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
					if d < 20 {
						t.Errorf("dark %v, %s: %s and %s are %.1f apart, want 20", isDark, name, VersionLetter(j), VersionLetter(i), d)
					}
				}
			}
		}
	}
}

func TestMarkersDiffer(t *testing.T) {
	seen := map[string]int{}
	for i := -1; i < 8; i++ {
		svg := string(MarkerSVG(i, false))
		_, shape, _ := strings.Cut(svg, ` d="`)
		if k, ok := seen[shape]; ok {
			t.Errorf("versions %d and %d have one shape", k, i)
		}
		seen[shape] = i
	}
	for i, want := range map[int]string{-1: "", 0: "A", 7: "H", 25: "Z", 26: "AA", 51: "AZ", 52: "BA"} {
		if got := VersionLetter(i); got != want {
			t.Errorf("letter of %d is %q, want %q", i, got, want)
		}
	}
}

func TestThemeSizes(t *testing.T) {
	tests := []struct {
		name   string
		factor float32
		want   [4]float32
	}{
		{"normal", 1, [4]float32{14, 12, 17, 24}},
		{"zero means normal", 0, [4]float32{14, 12, 17, 24}},
		{"large", 1.5, [4]float32{21, 18, 25.5, 36}},
		{"kept to the most", 9, [4]float32{22.4, 19.2, 27.2, 38.4}},
		{"kept to the least", 0.1, [4]float32{12.6, 10.8, 15.3, 21.6}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			th := NewTheme(false, tt.factor)
			for i, s := range []TextSize{SizeBody, SizeCaption, SizeSubheading, SizeHeading} {
				if got := s.in(th); math.Abs(float64(got-tt.want[i])) > 0.01 {
					t.Errorf("size %d is %v, want %v", i, got, tt.want[i])
				}
			}
		})
	}
}

func TestThemeIgnoresTheMachine(t *testing.T) {
	th := NewTheme(false, 1)
	if th.Color(RoleInk, theme.VariantDark) != th.Color(RoleInk, theme.VariantLight) {
		t.Error("the variant passed in changed a colour")
	}
	if IsDark(th) || !IsDark(NewTheme(true, 1)) {
		t.Error("IsDark does not tell the themes apart")
	}
}

func TestEveryColourOfTheWindowIsOurs(t *testing.T) {
	// The user's own blue must show nowhere.
	for _, name := range []fyne.ThemeColorName{theme.ColorNamePrimary, theme.ColorNameFocus, theme.ColorNameSelection, theme.ColorNameHyperlink, theme.ColorNameForegroundOnPrimary} {
		for p, set := range map[string]palette{"light": light, "dark": dark} {
			if set[name] == nil {
				t.Errorf("%s has no %s", p, name)
			}
		}
	}
	for role := range light {
		if dark[role] == nil {
			t.Errorf("dark has no %s", role)
		}
	}
}

func TestTextMeasure(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(NewTheme(false, 1))
	for _, s := range []string{"1,234.5", "–143 (–21 %)", "Strained yogurt for half the cream", "½ tsp crème fraîche"} {
		for _, bold := range []bool{false, true} {
			want := fyne.MeasureText(s, 14, fyne.TextStyle{Bold: bold}).Width
			if got := textWidth(s, 14, bold); math.Abs(float64(got-want)) > 1 {
				t.Errorf("%q bold %v measures %v, shaped %v", s, bold, got, want)
			}
		}
	}
	if d := textWidth("111", 14, false) - textWidth("888", 14, true); math.Abs(float64(d)) > 0.01 {
		t.Errorf("digits are not all of one width: %v", d)
	}
}

func TestCutAndWrap(t *testing.T) {
	test.NewTempApp(t)
	full := textWidth("Mature cheddar", 14, false)
	tests := []struct {
		name  string
		width float32
		check func(string) bool
	}{
		{"fits", full, func(s string) bool { return s == "Mature cheddar" }},
		{"cut", full / 2, func(s string) bool { return len(s) > 4 && s[len(s)-3:] == "…" && textWidth(s, 14, false) <= full/2 }},
		{"no room", 2, func(s string) bool { return s == "" }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if s := cut("Mature cheddar", tt.width, 14, false); !tt.check(s) {
				t.Errorf("cut to %q", s)
			}
		})
	}
	for _, w := range []float32{30, 80, 200} {
		for _, line := range wrap("Sweat the leeks in butter, then unbelievablylongword on", w, 14, false) {
			if textWidth(line, 14, false) > w+1 {
				t.Errorf("%q is wider than %v", line, w)
			}
		}
	}
	for width := textWidth("88 %)", 14, false) + 1; width < 200; width += 3 {
		for _, line := range wrap("about 67 % of people (90 % range 12 to 88 %) had 300 g, held 20 min.", width, 14, false) {
			if line == "%" || strings.HasPrefix(line, "% ") || strings.HasPrefix(line, "%)") || strings.HasPrefix(line, "g,") && width > textWidth("300 g,", 14, false) {
				t.Errorf("at %v a unit begins the line %q", width, line)
			}
		}
	}
	if n := len(wrap("", 100, 14, false)); n != 1 {
		t.Errorf("no text has %d lines, want 1", n)
	}
	if got := wrap("a\nb", 100, 14, false); len(got) != 2 {
		t.Errorf("a line break gives %q", got)
	}
}
