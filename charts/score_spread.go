package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// SpreadData is what the chart of distributions shows: how many tasters gave
// each score from 1 to 9 to each sample.
type SpreadData struct {
	Title     string
	Attribute string    // "Liking"
	Ends      [2]string // what the lowest and highest score mean, may be empty
	Rows      []SpreadRow
}

// SpreadRow is one sample: Letter "" for the original and for a benchmark dish;
// Counts[0] is how many gave a 1.
type SpreadRow struct {
	Letter, Name string
	Original     bool
	Counts       [9]int
}

// SpreadChart prepares the chart of distributions from a copy of d, or says in a
// problem.Error what keeps it from being drawn.
func SpreadChart(d SpreadData) (*Figure, error) {
	if err := checkCount(d.Title, "charts.scores.none", "charts.scores.many", len(d.Rows), mostSamples); err != nil {
		return nil, err
	}
	v := &spreadView{d: SpreadData{oneLine(d.Title), oneLine(d.Attribute), [2]string{oneLine(d.Ends[0]), oneLine(d.Ends[1])}, append([]SpreadRow(nil), d.Rows...)}}
	for i, r := range v.d.Rows {
		if err := checkCounts(d.Title, r.Name, r.Counts[:]...); err != nil {
			return nil, err
		}
		v.rows = append(v.rows, sampleLabel(r.Letter, r.Name, r.Original, i))
		for _, c := range r.Counts {
			v.most = max(v.most, c)
		}
	}
	return &Figure{title: v.d.Title, alt: v.alt(), paint: v.paint}, nil
}

// mean is the mean score of a row and of how many; 0 scores give NaN.
func (r SpreadRow) mean() (float64, int) {
	total, n := 0, sum(r.Counts[:])
	for i, c := range r.Counts {
		total += c * (i + 1)
	}
	return float64(total) / float64(n), n
}

// spreadView paints the chart of distributions.
type spreadView struct {
	d    SpreadData
	rows []rowLabel
	most int // greatest count of any score
}

func (v *spreadView) alt() string {
	out := titled(v.d.Title, words.Say("charts.spread.alt", v.d.Attribute))
	for i, r := range v.d.Rows {
		var each []string
		for k := len(r.Counts) - 1; k >= 0; k-- {
			if r.Counts[k] > 0 {
				each = append(each, words.Say("charts.alt.value", k+1, r.Counts[k]))
			}
		}
		mean, n := r.mean()
		if n == 0 {
			each = []string{words.Say("charts.spread.nobody")}
		}
		out = append(out, words.Say("charts.spread.alt.row", sampleName(r.Letter, v.rows[i].name), words.Number(mean, 1), n, Semicolons(each)))
	}
	return strings.Join(out, " ")
}

// side says mean and count of row i.
func (v *spreadView) side(i int) (mean, n string) {
	m, k := v.d.Rows[i].mean()
	return words.Number(m, 1), words.Say("charts.scores.n", k)
}

func (v *spreadView) sideWidth(s *sheet) vg.Length {
	var mean, n vg.Length
	for i := range v.rows {
		a, b := v.side(i)
		mean, n = max(mean, s.width(s.headPen(), a)), max(n, s.width(s.smallPen(), b))
	}
	return max(mean+n+s.pt(20), s.width(s.smallPen(), words.Say("charts.spread.mean"))+s.pt(8))
}

func (v *spreadView) paint(s *sheet) {
	n := rowNeeds{
		title: v.d.Title, rows: v.rows, least: 2.35, most: 90,
		head: func(vg.Rectangle) vg.Length { return s.lineOf(s.smallPen()) },
		foot: func(vg.Rectangle) vg.Length { return s.footLine(true) },
		side: func(vg.Rectangle) vg.Length { return v.sideWidth(s) },
	}
	g := s.rowStage(n)
	high := g.row >= s.lineOf(s.smallPen())*2.55
	if !high { // too low for columns in any size of text: then in one to read
		n.least = 1.3
		g = s.rowStage(n)
	}
	g.drawRows(s, v.d.Title)
	s.write(s.smallPen(), g.area.Max.X+s.pt(8), g.area.Max.Y+s.lineOf(s.smallPen())/2, 0, s.fit(s.smallPen(), words.Say("charts.spread.mean"), g.body.Max.X-g.area.Max.X-s.pt(8)))
	pl := g.panel(s, span{0.5, 9.5})
	for i := range g.shown {
		if high {
			v.columns(s, g, pl, i)
		} else {
			v.cells(s, g, pl, i)
		}
		mean, n := v.side(i)
		s.write(s.headPen(), g.area.Max.X+s.pt(8), g.y(i), 0, mean)
		s.write(s.smallPen(), g.body.Max.X, g.y(i), 1, n)
	}
	g.drawRest(s)
	ax := axis{[]float64{1, 2, 3, 4, 5, 6, 7, 8, 9}, plainTick(0)}
	ax.under(s, pl, g.area.Min.X, g.area.Max.X)
	s.caption(g.area.Min.X, g.area.Min.Y, g.body.Max.X-g.area.Min.X, v.captions(high)...)
}

// captions are what can stand under the scores, the fullest first; high rows
// have columns and a notch, low ones only tones.
func (v *spreadView) captions(high bool) []string {
	how := words.Say("charts.spread.tone")
	if high {
		how = words.Say("charts.spread.notch")
	}
	out := []string{words.Say("charts.spread.axis", v.d.Attribute, how), words.Say("charts.spread.axis.short", v.d.Attribute)}
	if v.d.Ends[0] == "" || v.d.Ends[1] == "" {
		return out
	}
	return append([]string{words.Say("charts.spread.axis.ends", v.d.Attribute, v.d.Ends[0], v.d.Ends[1], how)}, out...)
}

// columns draws row i as small columns with their counts and the mean as a
// notch under the line they stand on.
func (v *spreadView) columns(s *sheet, g rowStage, pl panel, i int) {
	st := s.rowFill(v.rows[i].style)
	foot := g.y(i) - g.row/2 + s.pt(6)
	high := g.row - s.pt(9)
	half := min(s.pt(17), (pl.x(2)-pl.x(1))*0.4)
	for k, c := range v.d.Rows[i].Counts {
		if c == 0 {
			continue
		}
		x, top := pl.x(float64(k+1)), foot+high*vg.Length(c)/vg.Length(v.most)
		top = max(top, foot+s.hair(2))
		s.bar(vg.Rectangle{Min: vg.Point{X: x - half, Y: foot}, Max: vg.Point{X: x + half, Y: top}}, bar{style: st})
		v.count(s, st, x, foot, top, c, pl.x(2)-pl.x(1))
	}
	s.rule(s.inks.axis, g.area.Min.X, foot, g.area.Max.X, foot, s.hair(1))
	if m, n := v.d.Rows[i].mean(); n > 0 {
		s.shapeMark(2, vg.Point{X: pl.x(m), Y: foot - s.pt(3)}, s.pt(2.5), s.inks.ink, s.inks.ink)
	}
}

// count writes how many a column is: in its top where it is high enough, else
// over it.
func (v *spreadView) count(s *sheet, st swatch, x, foot, top vg.Length, c int, wide vg.Length) {
	pen, text := s.smallPen(), words.Number(float64(c), 0)
	pen.color = s.inks.ink
	line := s.lineOf(pen)
	switch {
	case s.width(pen, text) > wide-s.pt(2):
		return
	case top-foot >= line*0.95:
		s.writePatch(pen, x, top-line*0.52, text, st)
	default:
		s.write(pen, x, top+line*0.46, 0.5, text)
	}
}

// cells draws row i, where it is too low for columns, as counts on a ground
// that darkens with them.
func (v *spreadView) cells(s *sheet, g rowStage, pl panel, i int) {
	half := (pl.x(2) - pl.x(1)) * 0.46
	for k, c := range v.d.Rows[i].Counts {
		if c == 0 {
			continue
		}
		x, y, h := pl.x(float64(k+1)), g.y(i), g.row*0.44
		fill := mix(s.inks.ground, s.inks.ink, 0.08+0.6*float64(c)/float64(v.most))
		s.bar(vg.Rectangle{Min: vg.Point{X: x - half, Y: y - h}, Max: vg.Point{X: x + half, Y: y + h}}, bar{style: swatch{fill: fill, edge: fill}})
		if text := words.Number(float64(c), 0); s.width(s.smallPen(), text) < 2*half {
			s.writePatch(s.smallPen(), x, y, text, swatch{fill: fill})
		}
	}
}
