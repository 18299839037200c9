package charts

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// VersionMarkers names the marker shapes of versions A to H, so that tables can
// draw the same ones.
var VersionMarkers = [Versions]string{"circle", "square", "triangle", "diamond", "triangle down", "plus", "hexagon", "cross"}

// styleOf returns the place of a version in the sets of colours, markers and
// hatches: by its letter, so that B stays B when A is not shown, by its position
// where the letter is not one capital.
func styleOf(letter string, position int) int {
	if len(letter) == 1 && letter[0] >= 'A' && letter[0] <= 'Z' {
		return int(letter[0]-'A') % Versions
	}
	return position % Versions
}

// unitShapes are the markers in a square from -1 to 1, of about equal area.
var unitShapes = [Versions][]vg.Point{
	1: {{X: -.85, Y: -.85}, {X: .85, Y: -.85}, {X: .85, Y: .85}, {X: -.85, Y: .85}},
	2: {{X: -1.05, Y: -.85}, {X: 1.05, Y: -.85}, {X: 0, Y: 1.05}},
	3: {{X: -1.15, Y: 0}, {X: 0, Y: -1.15}, {X: 1.15, Y: 0}, {X: 0, Y: 1.15}},
	4: {{X: -1.05, Y: .85}, {X: 0, Y: -1.05}, {X: 1.05, Y: .85}},
	5: plus(0),
	6: polygon(6, 1.05),
	7: plus(math.Pi / 4),
}

func polygon(n int, r float64) []vg.Point {
	pts := make([]vg.Point, n)
	for i := range pts {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		pts[i] = vg.Point{X: vg.Length(r * cos), Y: vg.Length(r * sin)}
	}
	return pts
}

// plus is an upright cross of thick arms, turned by the angle.
func plus(turn float64) []vg.Point {
	const a, b = 0.36, 1.1
	pts := []vg.Point{
		{X: -a, Y: -b},
		{X: a, Y: -b},
		{X: a, Y: -a},
		{X: b, Y: -a},
		{X: b, Y: a},
		{X: a, Y: a},
		{X: a, Y: b},
		{X: -a, Y: b},
		{X: -a, Y: a},
		{X: -b, Y: a},
		{X: -b, Y: -a},
		{X: -a, Y: -a},
	}
	sin, cos := math.Sincos(turn)
	for i, p := range pts {
		pts[i] = vg.Point{X: p.X*vg.Length(cos) - p.Y*vg.Length(sin), Y: p.X*vg.Length(sin) + p.Y*vg.Length(cos)}
	}
	return pts
}

// marker draws the marker of a style, about 2r across, centred at c.
func (s *sheet) marker(style int, c vg.Point, r vg.Length) {
	s.SetColor(s.inks.versions[style].edge)
	s.Fill(shapeAt(style, c, r))
}

// shapeAt is the outline of a marker shape, about 2r across, centred at c.
func shapeAt(style int, c vg.Point, r vg.Length) vg.Path {
	var p vg.Path
	pts := unitShapes[style]
	if pts == nil {
		circle(&p, c, r)
		return p
	}
	for i, q := range pts {
		at := vg.Point{X: c.X + q.X*r, Y: c.Y + q.Y*r}
		if i == 0 {
			p.Move(at)
		} else {
			p.Line(at)
		}
	}
	p.Close()
	return p
}
