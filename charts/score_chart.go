package charts

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// ScoresData is what the chart of scores shows: the mean of one attribute with
// its interval for every sample of a tasting.
type ScoresData struct {
	Title     string
	Attribute string     // "Liking"
	Scale     [2]float64 // lowest and highest score; both 0 for 1 to 9
	Percent   int        // confidence of the intervals; 0 for 95
	Rows      []ScoreRow // 1 to 12
	// Limit is the most liking that may be lost, in points: a dashed line so far
	// under the original. 0, NaN or no original: no line.
	Limit float64
}

// ScoreRow is one sample: Letter "" for the original and for a benchmark dish.
// Mean NaN: no scores. Low or High NaN: no interval, as with one taster.
type ScoreRow struct {
	Letter, Name    string
	Original        bool
	Mean, Low, High float64
	N               int // scores behind the mean
}

// mostSamples is how many samples a chart of scores holds.
const mostSamples = 12

// ScoresChart prepares the chart of scores from a copy of d, or says in a
// problem.Error what keeps it from being drawn.
func ScoresChart(d ScoresData) (*Figure, error) {
	if d.Scale == [2]float64{} {
		d.Scale = [2]float64{1, 9}
	}
	if d.Percent == 0 {
		d.Percent = 95
	}
	if err := d.check(); err != nil {
		return nil, err
	}
	v := &scoreView{d: d.clone()}
	for i, r := range v.d.Rows {
		v.rows = append(v.rows, sampleLabel(r.Letter, r.Name, r.Original, i))
	}
	return &Figure{title: v.d.Title, alt: v.alt(), paint: v.paint}, nil
}

// sampleLabel names a sample's row; the original says so where it has no name.
func sampleLabel(letter, name string, original bool, position int) rowLabel {
	r := rowLabel{oneLine(letter), oneLine(name), styleOther}
	switch {
	case original:
		r.style = styleOriginal
		if r.name == "" {
			r.name = words.Say("charts.scores.original")
		}
	case r.letter != "":
		r.style = styleOf(r.letter, position)
	}
	return r
}

func (d ScoresData) check() error {
	if err := checkCount(d.Title, "charts.scores.none", "charts.scores.many", len(d.Rows), mostSamples); err != nil {
		return err
	}
	if !(d.Scale[0] < d.Scale[1]) || checkSizes("", "", d.Scale[:]...) != nil {
		return fault(d.Title, "charts.scores.scale", oneLine(d.Attribute))
	}
	if d.Percent < 50 || d.Percent > 99 {
		return fault(d.Title, "charts.scores.percent")
	}
	for _, r := range d.Rows {
		if err := checkInterval(d.Title, r.Letter+" "+r.Name, r.Low, r.Mean, r.High); err != nil {
			return err
		}
		if err := checkCounts(d.Title, r.Name, r.N); err != nil {
			return err
		}
		if r.Mean < d.Scale[0] || r.Mean > d.Scale[1] {
			return fault(d.Title, "charts.scores.outside", sampleName(r.Letter, r.Name), d.Scale[0], d.Scale[1])
		}
	}
	return checkSizes(d.Title, words.Say("charts.scores.limit.name"), d.Limit)
}

// sampleName is letter and name of a sample in one.
func sampleName(letter, name string) string {
	return strings.TrimSpace(words.Say("charts.alt.version", oneLine(letter), oneLine(name)))
}

func (d ScoresData) clone() ScoresData {
	d.Title, d.Attribute = oneLine(d.Title), oneLine(d.Attribute)
	d.Rows = append([]ScoreRow(nil), d.Rows...)
	return d
}

// original is the mean of the original, NaN without one.
func (d ScoresData) original() float64 {
	for _, r := range d.Rows {
		if r.Original {
			return r.Mean
		}
	}
	return math.NaN()
}

// line is where the limit lies, NaN if there is none to draw.
func (d ScoresData) line() float64 {
	if d.Limit > 0 {
		return d.original() - d.Limit
	}
	return math.NaN()
}

// scoreView paints the chart of scores.
type scoreView struct {
	d    ScoresData
	rows []rowLabel
}

func (v *scoreView) alt() string {
	out := titled(v.d.Title, words.Say("charts.scores.alt", v.d.Attribute, v.d.Percent))
	for i, r := range v.d.Rows {
		out = append(out, words.Say("charts.scores.alt.row", sampleName(r.Letter, v.rows[i].name), scoreText(r.Mean, r.Low, r.High), r.N))
	}
	if finite(v.d.line()) {
		out = append(out, words.Say("charts.scores.alt.limit", words.Trim(v.d.Limit, 2), words.Number(v.d.line(), 1)))
	}
	return strings.Join(out, " ")
}

// span is the part of the scale shown: all means and intervals to whole points,
// at least three of them, so that a small difference does not look large.
func (v *scoreView) span() span {
	a := emptySpan()
	for _, r := range v.d.Rows {
		a.take(r.Mean, r.Low, r.High)
	}
	a.take(v.d.line())
	lo, hi := v.d.Scale[0], v.d.Scale[1]
	if a.lo > a.hi {
		a = span{lo, hi}
	}
	a.lo, a.hi = max(lo, math.Floor(a.lo)), min(hi, math.Ceil(a.hi))
	for least := min(3, hi-lo); a.hi-a.lo < least; {
		a.lo, a.hi = max(lo, a.lo-1), min(hi, a.hi+1)
	}
	return a.grown(0.02)
}

func (v *scoreView) keys() []markKey {
	var keys []markKey
	if finite(v.d.original()) {
		keys = append(keys, lineKey(words.Say("charts.scores.key.original"), 1.34))
	}
	if finite(v.d.line()) {
		keys = append(keys, limitKey(words.Say("charts.scores.key.limit", words.Trim(v.d.Limit, 2)), true))
	}
	return keys
}

// figures are the numbers beside a row: with interval, or the mean alone.
func (v *scoreView) figures(i int, short bool) string {
	r := v.d.Rows[i]
	if short {
		return scoreText(r.Mean, math.NaN(), math.NaN())
	}
	return scoreText(r.Mean, r.Low, r.High)
}

// columns returns the widths of the figures and the counts at the right, and
// whether the figures must be short to leave the marks half the width.
func (v *scoreView) columns(s *sheet, body vg.Rectangle) (figures, counts vg.Length, short bool) {
	for _, short = range []bool{false, true} {
		figures, counts = 0, 0
		for i, r := range v.d.Rows {
			figures = max(figures, s.width(s.bodyPen(), v.figures(i, short)))
			counts = max(counts, s.width(s.smallPen(), words.Say("charts.scores.n", r.N)))
		}
		if figures+counts < (body.Max.X-body.Min.X)*0.22 {
			break
		}
	}
	return figures, counts, short
}

func (v *scoreView) paint(s *sheet) {
	g := s.rowStage(rowNeeds{
		title: v.d.Title, rows: v.rows, least: 1.15, most: 60,
		head: func(b vg.Rectangle) vg.Length { return s.markLegend(b, v.keys(), true) + s.pt(3) },
		foot: func(vg.Rectangle) vg.Length { return s.footLine(true) },
		side: func(b vg.Rectangle) vg.Length {
			f, n, _ := v.columns(s, b)
			return f + n + s.pt(22)
		},
	})
	g.drawRows(s, v.d.Title)
	s.markLegend(g.body, v.keys(), false)
	a := v.span()
	pl := g.panel(s, a)
	ax := s.levelAxis(a, g.area.Max.X-g.area.Min.X, 0.5, plainTick)
	pl.draw(grid{s, ax.ticks})
	v.lines(s, pl)
	for i := range g.shown {
		v.row(s, g, pl, i)
	}
	g.drawRest(s)
	ax.under(s, pl, g.area.Min.X-s.pt(8), g.area.Max.X+s.pt(8))
	s.caption(g.area.Min.X, g.area.Min.Y, g.body.Max.X-g.area.Min.X,
		words.Say("charts.scores.axis", v.d.Attribute, v.d.Percent, words.Trim(v.d.Scale[0], 1), words.Trim(v.d.Scale[1], 1)),
		words.Say("charts.scores.axis.short", v.d.Percent))
}

// lines draws the original's mean and the limit from top to bottom.
func (v *scoreView) lines(s *sheet, pl panel) {
	if o := v.d.original(); finite(o) {
		s.rule(s.inks.axis, pl.x(o), pl.area.Min.Y, pl.x(o), pl.area.Max.Y, s.hair(1.34))
	}
	if x := v.d.line(); finite(x) && x >= pl.X.Min && x <= pl.X.Max {
		s.dashLine(s.inks.ink, vg.Point{X: pl.x(x), Y: pl.area.Min.Y}, vg.Point{X: pl.x(x), Y: pl.area.Max.Y}, s.hair(1.6))
	}
}

// row draws mean, interval and figures of row i.
func (v *scoreView) row(s *sheet, g rowStage, pl panel, i int) {
	r, y := v.d.Rows[i], g.y(i)
	if finite(r.Mean) {
		if finite(r.Low) && finite(r.High) {
			s.interval(s.rowInk(v.rows[i].style), pl.x(r.Low), pl.x(r.High), y, min(s.pt(3.4), g.row*0.3), [2]vg.Length{g.area.Min.X, g.area.Max.X})
		}
		s.rowMark(v.rows[i].style, vg.Point{X: pl.x(r.Mean), Y: y}, min(s.pt(4.4), g.row*0.45))
	}
	_, _, short := v.columns(s, g.body)
	pen := s.bodyPen()
	if !finite(r.Mean) {
		pen.color = s.inks.muted
	}
	s.write(pen, g.area.Max.X+s.pt(12), y, 0, v.figures(i, short))
	s.write(s.smallPen(), g.body.Max.X, y, 1, words.Say("charts.scores.n", r.N))
}
