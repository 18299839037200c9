package charts

import (
	"fmt"
	"image/color"
	"strings"
)

// VerdictColour is the colour of a verdict's mark in a look.
func VerdictColour(v Verdict, l Look) color.NRGBA {
	_, edge := inksOf(l).verdictInks(v)
	return edge
}

// VerdictSVG is the mark of a verdict, with the shape and the filling figures
// draw it with, as a black drawing of 24 by 24 that a caller recolours for its
// table; nil for what is no verdict.
func VerdictSVG(v Verdict) []byte {
	shape, ok := verdictShapes[v]
	if !ok {
		return nil
	}
	paint := map[tone]string{
		fullTone: `fill="#000000"`, halfTone: `fill="#000000" fill-opacity="0.4" stroke="#000000" stroke-width="2"`,
		hollowTone: `fill="none" stroke="#000000" stroke-width="2"`,
	}[verdictTone(v)]
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24"><path %s d="%s"/></svg>`, paint, shapePath(shape, 9.2))
}

// shapePath is the outline of a marker shape, about 2r across, in a box of 24.
func shapePath(shape int, r float64) string {
	pts := unitShapes[shape]
	if pts == nil {
		return fmt.Sprintf("M12 %.2fA%.2f %.2f 0 0 1 12 %.2fA%.2f %.2f 0 0 1 12 %.2fZ", 12-r, r, r, 12+r, r, r, 12-r)
	}
	var b strings.Builder
	for i, p := range pts {
		fmt.Fprintf(&b, "%c%.2f %.2f", "ML"[min(i, 1)], 12+r*float64(p.X), 12-r*float64(p.Y))
	}
	return b.String() + "Z"
}
