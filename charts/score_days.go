package charts

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// DaysData is what the chart of days shows: what a day holds before and after,
// nutrient by nutrient, against a target.
type DaysData struct {
	Title         string
	Before, After string // what the two days are, as "with the original"
	Absolute      bool   // bars are amounts, each nutrient to its own scale, not per cent of targets
	Nutrients     []DayNutrient
}

// DayNutrient is one nutrient of a day: amounts before and after (NaN: not
// known) and the day's target (NaN or 0: none). AtMost says that the target is a
// ceiling, else it is a floor.
type DayNutrient struct {
	Label, Unit           string
	Before, After, Target float64
	AtMost                bool
}

// hasTarget says whether there is one to measure against.
func (n DayNutrient) hasTarget() bool { return n.Target > 0 && finite(n.Target) }

// DaysChart prepares the chart of days from a copy of d, or says in a
// problem.Error what keeps it from being drawn.
func DaysChart(d DaysData) (*Figure, error) {
	if err := checkCount(d.Title, "charts.days.none", "charts.days.many", len(d.Nutrients), mostItems); err != nil {
		return nil, err
	}
	d.Title, d.Before, d.After = oneLine(d.Title), oneLine(d.Before), oneLine(d.After)
	d.Nutrients = append([]DayNutrient(nil), d.Nutrients...)
	v := &daysView{d: d}
	for i := range d.Nutrients {
		n := &d.Nutrients[i]
		n.Label, n.Unit = oneLine(n.Label), oneLine(n.Unit)
		if err := checkSizes(d.Title, n.Label, n.Before, n.After, n.Target); err != nil {
			return nil, err
		}
		if n.Before < 0 || n.After < 0 || n.Target < 0 {
			return nil, fault(d.Title, "charts.days.negative", n.Label)
		}
		v.rows = append(v.rows, rowLabel{name: n.Label, style: styleNone})
	}
	return &Figure{title: d.Title, alt: v.alt(), paint: v.paint}, nil
}

// dayEnd is where the axis of per cent stops; a bar beyond it is cut and its
// number tells.
const dayEnd = 250

// daysView paints the chart of days.
type daysView struct {
	d    DaysData
	rows []rowLabel
}

// share is an amount of nutrient n on the axis: per cent of its target, or of
// the larger of its two amounts. NaN where there is nothing to measure with.
func (v *daysView) share(n DayNutrient, amount float64) float64 {
	if !v.d.Absolute {
		if !n.hasTarget() {
			return math.NaN()
		}
		return 100 * amount / n.Target
	}
	largest := 0.0
	for _, a := range []float64{n.Before, n.After} {
		if a > largest {
			largest = a
		}
	}
	if largest == 0 {
		return 0 * amount // unknown stays unknown
	}
	return 100 * amount / largest
}

// text says an amount, in per cent of the target where it has one, and whether
// it is over a ceiling or short of a floor.
func (v *daysView) text(n DayNutrient, amount float64, short bool) string {
	out := amountOf(amount, n.Unit)
	if !finite(amount) || !n.hasTarget() {
		return out
	}
	share := words.Number(100*amount/n.Target, 0) + " %"
	switch {
	case short:
		out = share
	case !v.d.Absolute:
		out = words.Say("charts.days.share", out, share)
	}
	switch {
	case n.AtMost && amount > n.Target*(1+1e-9):
		return words.Say("charts.days.over", out)
	case !n.AtMost && amount < n.Target*(1-1e-9):
		return words.Say("charts.days.under", out)
	}
	return out
}

// target says a nutrient's target.
func (n DayNutrient) target() string {
	amount := amountOf(n.Target, n.Unit)
	switch {
	case !n.hasTarget():
		return words.Say("charts.days.free")
	case n.AtMost:
		return words.Say("charts.at_most", amount)
	}
	return words.Say("charts.at_least", amount)
}

func (v *daysView) alt() string {
	out := titled(v.d.Title, words.Say("charts.days.alt", v.d.Before, v.d.After))
	for _, n := range v.d.Nutrients {
		out = append(out, words.Say("charts.days.alt.row", n.Label, n.target(), v.text(n, n.Before, false), v.text(n, n.After, false)))
	}
	return strings.Join(out, " ")
}

// fills are the two days': pale before, dark after.
func (v *daysView) fills(k *inks) [2]swatch {
	before := k.original
	after := k.versions[0]
	after.hatch = solid
	return [2]swatch{before, after}
}

func (v *daysView) keys(k *inks) []markKey {
	f := v.fills(k)
	keys := []markKey{fillKey(v.d.Before, f[0]), fillKey(v.d.After, f[1])}
	if !v.d.Absolute {
		keys = append(keys, lineKey(words.Say("charts.days.key.target"), 2))
	}
	return keys
}

func (v *daysView) paint(s *sheet) {
	g := s.rowStage(rowNeeds{
		title: v.d.Title, rows: v.rows, least: 1.9, floor: 1.75, most: 56,
		head: func(b vg.Rectangle) vg.Length { return s.markLegend(b, v.keys(s.inks), true) + s.pt(3) },
		foot: func(vg.Rectangle) vg.Length {
			if v.d.Absolute {
				return s.lineOf(s.smallPen()) + s.pt(2)
			}
			return s.footLine(true)
		},
		side: func(b vg.Rectangle) vg.Length {
			var w vg.Length
			for _, n := range v.d.Nutrients {
				w = max(w, s.width(s.smallPen(), n.target()))
			}
			if w = w + s.pt(10); w > (b.Max.X-b.Min.X)*0.2 {
				return s.pt(2)
			}
			return w
		},
	})
	g.drawRows(s, v.d.Title)
	s.markLegend(g.body, v.keys(s.inks), false)
	if g.body.Max.X-g.area.Max.X > s.pt(8) {
		for i, n := range v.d.Nutrients[:g.shown] {
			s.write(s.smallPen(), g.body.Max.X, g.y(i), 1, n.target())
		}
	}
	v.bars(s, g)
}

// scale finds the fullest labels that leave the bars half the width.
func (v *daysView) scale(s *sheet, g rowStage) (pl panel, short bool) {
	w := g.area.Max.X - g.area.Min.X
	for _, short = range []bool{false, true} {
		rs := []reach{{hi: 100, after: s.pt(4)}}
		for _, n := range v.d.Nutrients {
			for _, a := range []float64{n.Before, n.After} {
				hi, cut := v.end(n, a)
				r := reach{hi: hi, after: s.width(s.smallPen(), v.text(n, a, short)) + s.labelGap() + s.pt(3)}
				if cut {
					r.after += s.pt(2)
				}
				if !v.d.Absolute && hi < 100 { // it may have to move over the line of the target
					rs = append(rs, reach{hi: 100, after: r.after})
				}
				if !finite(a) {
					r.after += s.stub()
				}
				rs = append(rs, r)
			}
		}
		unit, _ := fitScale(w, rs, 20)
		unit = max(unit, 1e-6)
		pl = g.panel(s, span{0, float64(w / unit)})
		if unit*100 >= w*0.36 {
			break
		}
	}
	return pl, short
}

// end is where a bar ends on the axis, and whether it was cut there.
func (v *daysView) end(n DayNutrient, amount float64) (float64, bool) {
	share := v.share(n, amount)
	if !finite(share) {
		return 0, false
	}
	return min(share, dayEnd), share > dayEnd
}

// bars draws the pair of bars of every nutrient, and the line of the target.
func (v *daysView) bars(s *sheet, g rowStage) {
	pl, short := v.scale(s, g)
	fills := v.fills(s.inks)
	if !v.d.Absolute {
		a := span{0, min(pl.X.Max, dayEnd)}
		ax := s.levelAxis(a, pl.x(a.hi)-pl.x(0), 10, plainTick)
		pl.draw(grid{s, ax.ticks})
		ax.under(s, pl, g.area.Min.X-s.pt(8), g.body.Max.X)
		s.caption(g.area.Min.X, g.area.Min.Y, g.body.Max.X-g.area.Min.X, words.Say("charts.days.axis"), words.Say("charts.days.axis.short"))
	} else {
		text := s.fit(s.smallPen(), words.Say("charts.days.absolute"), g.body.Max.X-g.area.Min.X)
		s.write(s.smallPen(), g.area.Min.X, g.area.Min.Y-s.pt(2)-s.lineOf(s.smallPen())/2, 0, text)
	}
	thick := min(0.36, float64(s.pt(13)/g.row))
	for i, n := range v.d.Nutrients[:g.shown] {
		moved := v.crosses(s, pl, n, short)
		for k, amount := range []float64{n.Before, n.After} {
			row := -float64(i) + (0.5-float64(k))*thick*1.12
			v.one(s, pl, v.text(n, amount, short), n, amount, moved, bar{row: row, thickness: thick, style: fills[k]})
		}
	}
	zeroLine{s}.Plot(pl.area, pl.Plot)
	if !v.d.Absolute {
		s.rule(s.inks.ink, pl.x(100), g.area.Min.Y, pl.x(100), g.area.Max.Y, s.hair(2))
	}
	g.drawRest(s)
}

// one draws a bar and its label; without anything to measure with, the label
// alone. Labels that are moved stand beyond the line of the target.
func (v *daysView) one(s *sheet, pl panel, text string, n DayNutrient, amount float64, moved bool, b bar) {
	b.to, b.cut = v.end(n, amount)
	switch {
	case !finite(amount):
		b.kind, b.to = notKnown, (pl.X.Max-pl.X.Min)*float64(s.stub()/(pl.area.Max.X-pl.area.Min.X))
		pl.draw(bars{s: s, items: []bar{b}})
	case finite(v.share(n, amount)):
		pl.draw(bars{s: s, items: []bar{b}})
	}
	if vg.Length(b.thickness)*(pl.y(0)-pl.y(-1)) < s.pt(s.smallPen().size)*0.72 {
		return
	}
	x := v.labelAt(s, pl, n, amount)
	if moved {
		x = max(x, pl.x(100)+s.pt(4))
	}
	pen := s.smallPen()
	pen.color = s.inks.ink
	s.writeClean(pen, x, pl.y(b.row), 0, text)
}

// labelAt is where the label of a bar begins.
func (v *daysView) labelAt(s *sheet, pl panel, n DayNutrient, amount float64) vg.Length {
	to, _ := v.end(n, amount)
	x := pl.x(to) + s.labelGap()
	if !finite(amount) {
		x += s.stub()
	}
	return x
}

// crosses says whether a label of nutrient n would lie across the line of the
// target; then both of the pair stand beyond it, in line.
func (v *daysView) crosses(s *sheet, pl panel, n DayNutrient, short bool) bool {
	if v.d.Absolute {
		return false
	}
	line := pl.x(100)
	for _, amount := range []float64{n.Before, n.After} {
		x := v.labelAt(s, pl, n, amount)
		if x <= line+s.pt(3) && x+s.width(s.smallPen(), v.text(n, amount, short)) >= line-s.pt(3) {
			return true
		}
	}
	return false
}
