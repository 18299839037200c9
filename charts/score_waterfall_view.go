package charts

import (
	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// fallRow is one row of the waterfall: an end, which starts at nothing, or a
// step, which starts where the one before it ended.
type fallRow struct {
	from, to  float64
	end       bool
	style     int
	text      string
	effect    [3]float64 // effect, low and high end
	verdict   Verdict
	hasEffect bool // it could have one: a swap or a version
	group     int  // rows of one above 0 share an effect
}

// fallRows are the rows of original, steps and version.
func (v *fallView) fallRows(steps []WaterfallStep) ([]fallRow, []rowLabel) {
	d := v.d
	rows := []fallRow{{to: d.Original, end: true, style: styleOriginal, text: amountOf(d.Original, d.Unit), verdict: noVerdict}}
	labels := []rowLabel{sampleLabel("", "", true, 0)}
	at := d.Original
	for _, st := range steps {
		rows = append(rows, fallRow{at, at + st.Change, false, styleNone, changeOf(st.Change, d.Unit), [3]float64{st.Effect, st.Low, st.High}, st.Verdict, st.Verdict != noVerdict, st.Group})
		labels = append(labels, rowLabel{name: st.Name, style: styleNone})
		at += st.Change
	}
	last := d.Version
	label := sampleLabel(last.Letter, last.Name, false, 0)
	rows = append(rows, fallRow{0, last.Amount, true, label.style, amountOf(last.Amount, d.Unit), [3]float64{last.Effect, last.Low, last.High}, last.Verdict, true, 0})
	return rows, append(labels, label)
}

// needs says how the waterfall is laid out with these labels.
func (v *fallView) needs(s *sheet, labels []rowLabel) rowNeeds {
	return rowNeeds{
		title: v.d.Title, rows: labels, least: 1.1, most: 38, breadth: 110,
		head: func(b vg.Rectangle) vg.Length {
			return s.markLegend(b, v.keys(v.column(s, b)), true) + s.lineOf(s.headPen()) + s.pt(3)
		},
		foot: func(vg.Rectangle) vg.Length { return s.footLine(false) },
		side: func(b vg.Rectangle) vg.Length { return v.column(s, b).wide },
	}
}

// keys explain what is drawn: the limit only where the effects have an axis.
func (v *fallView) keys(c fallColumn) []markKey {
	if v.d.Attribute == "" {
		return nil
	}
	vs := []Verdict{v.d.Version.Verdict}
	for _, st := range v.d.Steps {
		if st.Verdict != noVerdict {
			vs = append(vs, st.Verdict)
		}
	}
	keys := verdictKeys(vs)
	if c.plot && finite(limitAt(v.d.Limit)) {
		keys = append(keys, limitKey(words.Say("charts.map.key.limit", words.Trim(v.d.Limit, 2)), true))
	}
	return keys
}

// layout joins the smallest steps until all rows fit.
func (v *fallView) layout(s *sheet) (rowStage, []fallRow) {
	steps := v.d.Steps
	for {
		rows, labels := v.fallRows(steps)
		g := s.rowStage(v.needs(s, labels))
		if g.shown == len(rows) || len(steps) <= 1 {
			return g, rows[:g.shown]
		}
		steps = v.d.most(len(steps) - max(1, len(rows)-g.shown-1))
	}
}

func (v *fallView) paint(s *sheet) {
	g, rows := v.layout(s)
	g.drawRows(s, v.d.Title)
	s.markLegend(g.body, v.keys(v.column(s, g.body)), false)
	y := g.area.Max.Y + s.lineOf(s.headPen())/2
	head := words.Say("charts.fall.head", v.d.Nutrient)
	if s.width(s.headPen(), head) > g.area.Max.X-g.area.Min.X {
		head = s.fit(s.headPen(), v.d.Nutrient, g.area.Max.X-g.area.Min.X)
	}
	s.write(s.headPen(), g.area.Min.X, y, 0, head)
	v.fall(s, g, rows)
	if v.d.Attribute != "" {
		v.liking(s, g, rows)
	}
	g.drawRest(s)
}

// fall draws the bars with their labels and the lines that lead from one to the next.
func (v *fallView) fall(s *sheet, g rowStage, rows []fallRow) {
	rs := []reach{{after: s.pt(3)}}
	for _, r := range rows {
		rs = append(rs, reach{min(r.from, r.to, 0), max(r.from, r.to, 0), 0, s.width(s.bodyPen(), r.text) + s.pt(7)})
	}
	w := g.area.Max.X - g.area.Min.X
	unit, zero := fitScale(w, rs, 1e-6)
	if unit <= 0 {
		return
	}
	pl := g.panel(s, span{-float64(zero / unit), float64((w - zero) / unit)})
	items := make([]bar, len(rows))
	for i, r := range rows {
		items[i] = bar{from: r.from, to: r.to, row: -float64(i), thickness: min(0.64, float64(s.pt(20)/g.row)), style: v.style(s, r)}
	}
	v.leads(s, g, pl, rows)
	pl.draw(bars{s: s, items: items}, zeroLine{s})
	for i, r := range rows {
		v.label(s, g, pl, i, r)
	}
	s.write(s.smallPen(), pl.x(0), g.area.Min.Y-s.pt(3)-s.lineOf(s.smallPen())/2, 0.5, words.Number(0, 0))
}

// style is the fill of a row: what an end has, or one for falls and a hatched
// one for rises.
func (v *fallView) style(s *sheet, r fallRow) swatch {
	switch {
	case r.end:
		return s.rowFill(r.style)
	case r.to > r.from:
		st := s.inks.part(1)
		st.hatch, st.line, st.edge = crossed, s.inks.ink, s.inks.ink
		return st
	}
	st := s.inks.part(2)
	st.hatch, st.edge = solid, mix(s.inks.ink, s.inks.ground, 0.35)
	return st
}

// leads draws thin upright lines from the end of each bar to the next one.
func (v *fallView) leads(s *sheet, g rowStage, pl panel, rows []fallRow) {
	for i := range rows[:max(len(rows)-1, 0)] {
		x := pl.x(rows[i].to)
		s.rule(s.inks.axis, x, g.y(i+1), x, g.y(i), s.hair(1))
	}
}

// label writes the amount left of a step where there is room, else right of it;
// an end's stands at its right.
func (v *fallView) label(s *sheet, g rowStage, pl panel, i int, r fallRow) {
	pen := s.bodyPen()
	if r.end {
		pen = s.headPen()
		pen.size = s.bodyPen().size
	}
	lo, hi := pl.x(min(r.from, r.to)), pl.x(max(r.from, r.to))
	if left := lo - s.labelGap() - s.width(pen, r.text); !r.end && left >= pl.x(0)+s.pt(3) {
		s.writeClean(pen, lo-s.labelGap(), g.y(i), 1, r.text)
		return
	}
	s.writeClean(pen, hi+s.labelGap(), g.y(i), 0, r.text)
}
