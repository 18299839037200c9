package charts

import (
	"image/color"
	"math"
	"testing"
)

// sights are the matrices of full and lacking colour sight, on linear RGB.
// Source: Machado, Oliveira, Fernandes 2009, "A physiologically-based model for
// simulation of color vision deficiency", table of severity 1.0 (from memory).
var sights = map[string][9]float64{
	"full":   {1, 0, 0, 0, 1, 0, 0, 0, 1},
	"protan": {0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998},
	"deutan": {0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881},
	"tritan": {1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.303900},
}

// labOf returns CIE L*a*b* (D65) of a colour as seen by one sight.
func labOf(c color.NRGBA, m [9]float64) [3]float64 {
	lin := func(v uint8) float64 {
		u := float64(v) / 255
		if u <= 0.04045 {
			return u / 12.92
		}
		return math.Pow((u+0.055)/1.055, 2.4)
	}
	in := [3]float64{lin(c.R), lin(c.G), lin(c.B)}
	var v [3]float64
	for i := range v {
		v[i] = min(1, max(0, m[3*i]*in[0]+m[3*i+1]*in[1]+m[3*i+2]*in[2]))
	}
	f := func(t float64) float64 {
		if t > 0.008856 {
			return math.Cbrt(t)
		}
		return 7.787*t + 16.0/116
	}
	x := f((0.4124*v[0] + 0.3576*v[1] + 0.1805*v[2]) / 0.95047)
	y := f(0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2])
	z := f((0.0193*v[0] + 0.1192*v[1] + 0.9505*v[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func TestVersionColoursStayApart(t *testing.T) {
	const apart = 20 // CIE 1976 difference; about 2 is just seen (common practice, no source)
	for _, look := range []Look{ScreenLight, ScreenDark} {
		cs := VersionColours(look)
		for sight, m := range sights {
			for i := range cs {
				for j := range i {
					a, b := labOf(cs[i], m), labOf(cs[j], m)
					if d := math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2]); d < apart {
						t.Errorf("look %d, %s sight: %c and %c are %.0f apart", look, sight, 'A'+j, 'A'+i, d)
					}
				}
			}
		}
	}
}

func TestContrast(t *testing.T) {
	if got := contrast(hex(0), hex(0xFFFFFF)); math.Abs(got-21) > 1e-9 { // WCAG 2.2: black on white
		t.Fatalf("black on white is %v", got)
	}
	for _, look := range []Look{ScreenLight, ScreenDark, Print} {
		k := inksOf(look)
		for name, c := range map[string]color.NRGBA{"text": k.ink, "small text": k.muted} {
			if got := contrast(c, k.ground); got < 4.5 {
				t.Errorf("look %d: %s stands at %.1f:1", look, name, got)
			}
		}
		for i, st := range k.versions {
			if got := contrast(st.edge, k.ground); got < 2.7 {
				t.Errorf("look %d: version %c stands at %.1f:1", look, 'A'+i, got)
			}
		}
	}
}
