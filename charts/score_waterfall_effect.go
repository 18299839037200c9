package charts

import (
	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// fallEffect is one effect in the column of effects: of one row, or of rows that
// share it.
type fallEffect struct {
	row  fallRow
	at   float64 // row it stands at, between two where they share it
	last int     // the last of its rows
	text string
	bare string // the number alone, where there is no room for more; "" for words
}

// effects are the effects of the rows, each once.
func (v *fallView) effects(rows []fallRow) []fallEffect {
	var out []fallEffect
	for i := 0; i < len(rows); i++ {
		first := i
		for rows[first].group > 0 && i+1 < len(rows) && rows[i+1].group == rows[first].group {
			i++
		}
		if r := rows[first]; r.hasEffect {
			e := fallEffect{row: r, at: float64(first+i) / 2, last: i, text: v.effect(r, i > first)}
			if finite(r.effect[0]) {
				e.bare = v.effect(r, false)
			}
			out = append(out, e)
		}
	}
	return out
}

// effect says an effect in short, to the digits it has everywhere, or why there
// is none.
func (v *fallView) effect(r fallRow, together bool) string {
	n := words.Signed(r.effect[0], v.d.places())
	switch {
	case finite(r.effect[0]) && together:
		return words.Say("charts.fall.together", n)
	case finite(r.effect[0]):
		return n
	case r.verdict == Tied, r.verdict == AlwaysOn, r.verdict == NotTasted:
		return words.Say("charts.fall." + string(r.verdict))
	}
	return words.Unknown
}

// fallColumn is how the column of effects is laid out in a width.
type fallColumn struct {
	wide    vg.Length // of the column
	numbers vg.Length // of what stands right of the axis
	bare    bool      // effects that swaps share are written as the number alone
	plot    bool      // there is room for an axis with intervals
}

// column plans the column of effects in the width of body. Where it is short,
// what is written gets less of it before the axis does: words of what has no
// effect stand over the axis, and the brace alone says that swaps share one.
func (v *fallView) column(s *sheet, body vg.Rectangle) fallColumn {
	if v.d.Attribute == "" {
		return fallColumn{wide: s.pt(2)}
	}
	w := body.Max.X - body.Min.X
	rows, _ := v.fallRows(v.d.Steps)
	var all, full, bare vg.Length
	for _, e := range v.effects(rows) {
		all = max(all, s.width(s.bodyPen(), e.text)+signRoom(s, e))
		if finite(e.row.effect[0]) {
			full, bare = max(full, s.width(s.bodyPen(), e.text)), max(bare, s.width(s.bodyPen(), e.bare))
		}
	}
	round := s.pt(26) // left of the axis and between it and the numbers
	for _, c := range []fallColumn{{numbers: all}, {numbers: full}, {numbers: bare, bare: true}} {
		if c.wide = max(w*0.3, c.numbers+round+s.pt(70)); c.wide <= w*0.42 {
			c.plot = true
			return c
		}
	}
	c := fallColumn{wide: min(bare+round+s.pt(70), w*0.46), numbers: bare, bare: true}
	if c.plot = c.wide-bare-round >= s.pt(26); !c.plot {
		c.wide, c.bare = w*0.3, false
	}
	return c
}

// liking draws the column of effects: mark and interval of each swap on an axis
// of points, and the number at the right. What has no effect is said in words and
// has no place on the axis.
func (v *fallView) liking(s *sheet, g rowStage, rows []fallRow) {
	es, c := v.effects(rows), v.column(s, g.body)
	left := g.area.Max.X + s.pt(16)
	right := g.body.Max.X - c.numbers - s.pt(10)
	head := words.Say("charts.fall.effect", words.Capital(v.d.Attribute))
	if s.width(s.headPen(), head) > g.body.Max.X-left {
		head = words.Capital(v.d.Attribute)
	}
	s.write(s.headPen(), left, g.area.Max.Y+s.lineOf(s.headPen())/2, 0, s.fit(s.headPen(), head, g.body.Max.X-left))
	col := g
	col.area.Min.X, col.area.Max.X = left, max(right, left+1)
	for _, e := range es {
		if y := g.row * vg.Length(e.at-float64(e.last)) * 0.9; y < 0 { // no line between rows that share an effect
			s.fillRect(s.inks.ground, vg.Rectangle{Min: vg.Point{X: left - s.pt(4), Y: v.middle(g, e) + y}, Max: vg.Point{X: g.body.Max.X, Y: v.middle(g, e) - y}})
		}
	}
	a := v.span(rows)
	pl := col.panel(s, a)
	if c.plot {
		v.likingAxis(s, col, pl, a)
	}
	for _, e := range es {
		if c.bare && e.bare != "" {
			e.text = e.bare
		}
		v.mark(s, col, pl, e, c.plot)
	}
}

// likingAxis draws what the effects are read against.
func (v *fallView) likingAxis(s *sheet, col rowStage, pl panel, a span) {
	left, right := col.area.Min.X, col.area.Max.X
	ax := s.levelAxis(a, right-left, 0.1, signedTick)
	pl.draw(grid{s, ax.ticks}, zeroLine{s})
	ax.under(s, pl, left-s.pt(8), right+s.pt(8))
	if at := limitAt(v.d.Limit); finite(at) {
		s.dashLine(s.inks.ink, vg.Point{X: pl.x(at), Y: col.area.Min.Y}, vg.Point{X: pl.x(at), Y: col.area.Max.Y}, s.hair(1.34))
	}
}

// span is the range of the effects.
func (v *fallView) span(rows []fallRow) span {
	a := span{}
	for _, r := range rows {
		if finite(r.effect[0]) {
			a.take(r.effect[:]...)
		}
	}
	a.take(limitAt(v.d.Limit))
	a.atLeast(1)
	return a.grown(0.06)
}

// middle is the height an effect stands at.
func (v *fallView) middle(g rowStage, e fallEffect) vg.Length {
	return g.area.Max.Y - g.row*(vg.Length(e.at)+0.5)
}

// signRoom is the room left of the words of what has no place on the axis.
func signRoom(s *sheet, e fallEffect) vg.Length {
	if finite(e.row.effect[0]) {
		return 0
	}
	return s.pt(13)
}

// mark draws verdict, interval and number of an effect. Without a plot, and where
// there is no effect, the sign of the verdict stands by the words.
func (v *fallView) mark(s *sheet, g rowStage, pl panel, e fallEffect, plot bool) {
	y, size := v.middle(g, e), min(s.pt(4), g.row*0.42)
	_, edge := s.inks.verdictInks(e.row.verdict)
	pen, mid := s.bodyPen(), e.row.effect[0]
	room := g.body.Max.X - g.area.Min.X - signRoom(s, e)
	if !plot {
		room = g.body.Max.X - g.area.Min.X - s.pt(13)
	}
	if e.bare != "" && s.width(pen, e.text) > room {
		e.text = e.bare
	}
	if s.width(pen, e.text) > room {
		e.text = "" // the sign alone: the legend has its words
	}
	switch {
	case !finite(mid):
		pen.color = s.inks.muted
		x := g.body.Max.X - s.width(pen, e.text) - s.pt(8)
		s.fillRect(s.inks.ground, vg.Rectangle{Min: vg.Point{X: x - s.pt(6), Y: y - size - s.pt(1)}, Max: vg.Point{X: g.body.Max.X, Y: y + size + s.pt(1)}})
		s.verdictMark(e.row.verdict, vg.Point{X: x, Y: y}, size)
	case plot:
		if lo, hi := e.row.effect[1], e.row.effect[2]; finite(lo) && finite(hi) {
			s.interval(edge, pl.x(lo), pl.x(hi), y, min(s.pt(2.6), g.row*0.28), [2]vg.Length{g.area.Min.X, g.area.Max.X})
		}
		s.verdictMark(e.row.verdict, vg.Point{X: pl.x(mid), Y: y}, size)
	default:
		s.verdictMark(e.row.verdict, vg.Point{X: g.area.Min.X + s.pt(5), Y: y}, size)
	}
	v.brace(s, g, e, plot)
	s.write(pen, g.body.Max.X, y, 1, e.text)
}

// brace joins the rows that share an effect, at the right of the axis; without a
// plot at the left of the sign, which stands where the axis would be.
func (v *fallView) brace(s *sheet, g rowStage, e fallEffect, plot bool) {
	half := g.row * vg.Length(float64(e.last)-e.at)
	if half <= 0 {
		return
	}
	x, end, y := g.area.Max.X+s.pt(5), -s.pt(3), v.middle(g, e)
	if !plot {
		x, end = g.area.Min.X-s.pt(3), s.pt(3)
	}
	half += g.row * 0.25
	s.rule(s.inks.muted, x, y-half, x, y+half, s.hair(1.34))
	for _, at := range []vg.Length{y - half, y + half} {
		s.rule(s.inks.muted, min(x, x+end), at, max(x, x+end), at, s.hair(1.34))
	}
}
