package charts

import (
	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// axisEnd is where the percent axis stops; a bar beyond it is cut and its
// number tells.
const axisEnd = 150

// leastRange is the smallest range of the axis in percent of the original.
const leastRange = 12

// changeView paints the change chart: rows are versions, columns nutrients, all
// on one percent axis so that they compare.
type changeView struct {
	d    ChangeData
	rows []rowLabel
}

// changePlan is what fits on a sheet of this size.
type changePlan struct {
	body            vg.Rectangle // under the title
	gut             gutter
	left, wide      vg.Length // of the first panel
	gap, row        vg.Length // between panels; height of a row
	top, bottom     vg.Length // of the rows
	sub, caption    bool      // second heading line; line under the axis
	how             detail
	across          bool // labels of the shorter side stand across the zero line
	unit, zero      vg.Length
	lowest, highest float64
}

func (v *changeView) paint(s *sheet) {
	p := v.plan(s)
	s.frame(v.d.Title)
	s.rowLines(p.body.Min.X, p.body.Max.X, p.top, p.row, len(v.rows))
	for i := range v.rows {
		p.gut.draw(s, i, p.body.Min.X, p.top-p.row*(vg.Length(i)+0.5), p.row)
	}
	for k := range v.d.Panels {
		v.panel(s, p, k)
	}
	if p.caption {
		text := words.Say("charts.change.axis")
		if s.width(s.smallPen(), text) > p.body.Max.X-p.left {
			text = s.fit(s.smallPen(), words.Say("charts.change.axis.short"), p.body.Max.X-p.left)
		}
		s.write(s.smallPen(), p.left, p.bottom-s.pt(5)-s.lineOf(s.smallPen())*1.5, 0, text)
	}
}

// plan tries text sizes and extras from rich to bare until a row is high enough
// to read; the last try stands.
func (v *changeView) plan(s *sheet) changePlan {
	var p changePlan
	for _, try := range []struct {
		scale        float64
		sub, caption bool
	}{{1, true, true}, {0.9, true, true}, {0.9, false, true}, {0.82, true, true}, {0.82, false, true}, {0.82, false, false}, {0.74, false, false}} {
		s.scale = try.scale
		p = v.heights(s, try.sub, try.caption)
		v.widths(s, &p)
		if p.row >= s.lineOf(s.bodyPen())*1.12 && p.how != noLabel && v.headsFit(s, p) {
			return p
		}
	}
	return p
}

// heights shares the height out: title, headings, rows, axis, caption.
func (v *changeView) heights(s *sheet, sub, caption bool) changePlan {
	p := changePlan{sub: sub, caption: caption}
	p.body = s.room(v.d.Title)
	p.top = p.body.Max.Y - s.lineOf(s.headPen()) - s.pt(4)
	if sub {
		p.top -= s.lineOf(s.smallPen())
	}
	p.bottom = p.body.Min.Y + s.lineOf(s.smallPen()) + s.pt(3)
	if caption {
		p.bottom += s.lineOf(s.smallPen()) + s.pt(2)
	}
	p.row = max((p.top-p.bottom)/vg.Length(len(v.rows)), 1)
	p.row = min(p.row, s.pt(80))
	p.bottom = p.top - p.row*vg.Length(len(v.rows))
	return p
}

// barShare is the part of a panel that bars get at least before labels say less.
var barShare = [...]vg.Length{withPercent: 0.36, withUnit: 0.36, numberOnly: 0.24, terse: 0.2, noLabel: 0}

// widths shares the width out and finds the richest labels that leave the bars
// their share.
func (v *changeView) widths(s *sheet, p *changePlan) {
	n := vg.Length(len(v.d.Panels))
	p.gut = s.gutter(v.rows, p.body.Max.X-p.body.Min.X)
	p.left = p.body.Min.X + p.gut.width() + s.pt(8)
	p.gap = s.pt(16)
	p.wide = max((p.body.Max.X-p.left-p.gap*(n-1))/n, 4)
	p.lowest, p.highest = v.ends()
	for p.how = withPercent; ; p.how++ {
		v.fit(s, p)
		room := p.unit * vg.Length(max(p.highest-p.lowest, leastRange/2))
		if p.how == noLabel || room >= p.wide*barShare[p.how] {
			return
		}
	}
}

// fit scales the axis to the labels. Where that leaves little to the bars, the
// labels of the shorter side change over the zero line if it gains a fifth.
func (v *changeView) fit(s *sheet, p *changePlan) {
	p.across = false
	p.unit, p.zero = fitScale(p.wide, v.reaches(s, p), leastRange)
	if p.unit*vg.Length(p.highest-p.lowest) >= p.wide*0.5 {
		return
	}
	p.across = true
	unit, zero := fitScale(p.wide, v.reaches(s, p), leastRange)
	if p.across = unit > p.unit*1.2; p.across {
		p.unit, p.zero = unit, zero
	}
}

// ends returns how far the bars reach to both sides of zero, in percent.
func (v *changeView) ends() (lowest, highest float64) {
	for _, panel := range v.d.Panels {
		for _, c := range panel.Changes {
			e, _ := c.end()
			lowest, highest = min(lowest, e), max(highest, e)
		}
	}
	return lowest, highest
}

// stub is the length of the open box of a change that is not known.
func (s *sheet) stub() vg.Length { return s.pt(15) }

// labelGap is the distance from a bar to its label.
func (s *sheet) labelGap() vg.Length { return s.pt(4) }

// reaches lists what each bar and its label need.
func (v *changeView) reaches(s *sheet, p *changePlan) []reach {
	rs := []reach{{before: s.pt(3), after: s.pt(3)}}
	for _, panel := range v.d.Panels {
		for _, c := range panel.Changes {
			e, _ := c.end()
			need := s.pt(2)
			if text := c.label(panel.Unit, p.how); text != "" {
				need += s.labelGap() + s.width(s.bodyPen(), text)
			}
			if !c.isKnown() {
				need += s.stub()
			}
			r := reach{lo: min(e, 0), hi: max(e, 0)}
			switch right := p.labelRight(e); {
			case right && e < 0, !right && e > 0: // across the zero line
				r.before, r.after = s.pt(3), s.pt(3)
				rs = append(rs, r)
				r = reach{}
			}
			if p.labelRight(e) {
				r.after = need
			} else {
				r.before = need
			}
			rs = append(rs, r)
		}
	}
	return rs
}

// labelRight says on which side of zero a label stands: its bar's, or when
// labels stand across, that of the longer bars.
func (p *changePlan) labelRight(end float64) bool {
	if p.across {
		end = 0
	}
	return p.right(end)
}

// right says on which side of zero a bar and its label stand; one without
// length goes to the side with more room.
func (p *changePlan) right(end float64) bool {
	return end > 0 || (end == 0 && p.highest > -p.lowest)
}

// end returns where a change's bar ends in percent, and whether it was cut there.
func (c Change) end() (percent float64, cut bool) {
	if !c.isKnown() || !finite(c.Percent) {
		return 0, false
	}
	e := max(-axisEnd, min(axisEnd, c.Percent))
	return e, e != c.Percent
}

// panel draws nutrient k with heading, axis, bars and labels.
func (v *changeView) panel(s *sheet, p changePlan, k int) {
	d := v.d.Panels[k]
	x := p.left + (p.wide+p.gap)*vg.Length(k)
	v.heading(s, p, d, x)
	r := vg.Rectangle{Min: vg.Point{X: x, Y: p.bottom}, Max: vg.Point{X: x + p.wide, Y: p.top}}
	from, to := float64(-p.zero/p.unit), float64((p.wide-p.zero)/p.unit)
	n := float64(len(v.rows))
	pl := s.panel(r, from, to, 0.5-n, 0.5) // row i at -i: the first version on top
	ticks := ticksOver(p.lowest, p.highest, max(from, -axisEnd), min(to, axisEnd), func(ts []float64) bool { return s.labelsFit(pl, ts, p.gap) })
	pl.draw(grid{s, ticks}, bars{s: s, items: v.bars(s, p, d)}, zeroLine{s})
	for i, c := range d.Changes {
		v.label(s, p, pl, i, c, d.Unit)
	}
	s.axisLabels(pl, ticks, p.gap)
}

// head is a panel's heading; it takes the unit when the labels leave it out.
func (p changePlan) head(d ChangePanel) string {
	if p.how >= numberOnly && d.Unit != "" {
		return words.Say("charts.change.head", d.Label, d.Unit)
	}
	return d.Label
}

// headsFit says whether every heading fits over its panel.
func (v *changeView) headsFit(s *sheet, p changePlan) bool {
	for _, d := range v.d.Panels {
		if s.width(s.headPen(), p.head(d)) > p.wide || p.sub && s.width(s.smallPen(), d.original()) > p.wide {
			return false
		}
	}
	return true
}

func (v *changeView) heading(s *sheet, p changePlan, d ChangePanel, x vg.Length) {
	y := p.body.Max.Y - s.lineOf(s.headPen())/2
	head := p.head(d)
	if s.width(s.headPen(), head) > p.wide {
		head = d.Label
	}
	s.write(s.headPen(), x, y, 0, s.fit(s.headPen(), head, p.wide))
	if p.sub {
		y -= (s.lineOf(s.headPen()) + s.lineOf(s.smallPen())) / 2
		s.write(s.smallPen(), x, y, 0, s.fit(s.smallPen(), d.original(), p.wide))
	}
}

// bars turns the changes of one nutrient into bars.
func (v *changeView) bars(s *sheet, p changePlan, d ChangePanel) []bar {
	thick := min(0.6, float64(s.pt(26)/p.row))
	out := make([]bar, 0, len(d.Changes))
	for i, c := range d.Changes {
		b := bar{row: -float64(i), thickness: thick, style: s.inks.versions[v.rows[i].style]}
		b.to, b.cut = c.end()
		switch {
		case !c.isKnown():
			b.kind = notKnown
			b.to = float64(s.stub() / p.unit)
			if !p.right(0) {
				b.to = -b.to
			}
		case c.Bound == "at_least" || c.Bound == "at_most":
			b.kind = bounded
		}
		out = append(out, b)
	}
	return out
}

// label writes a change beyond the end of its bar, on clean ground.
func (v *changeView) label(s *sheet, p changePlan, pl panel, i int, c Change, unit string) {
	text := c.label(unit, p.how)
	if text == "" {
		return
	}
	e, _ := c.end()
	right := p.labelRight(e)
	if right != (e > 0) {
		e = 0
	}
	x, y := pl.x(e), pl.y(-float64(i))
	off, align := s.labelGap(), 0.0
	if !c.isKnown() {
		off += s.stub()
	}
	if !right {
		off, align = -off, 1
	}
	pen := s.bodyPen()
	if !c.isKnown() {
		pen.color = s.inks.muted
	}
	s.writeClean(pen, x+off, y, align, text)
}
