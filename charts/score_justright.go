package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// JustRightData is what the just-about-right chart shows: who found something
// too little, just right or too much, for each sample or each attribute.
type JustRightData struct {
	Title string
	Rows  []JustRightRow // 1 to 12
}

// JustRightRow is one sample of one attribute, or one attribute of one sample
// with Letter "" and Plain true. Counts are much too little, a little too
// little, just right, a little too much, much too much.
type JustRightRow struct {
	Letter, Name    string
	Original, Plain bool
	Counts          [5]int
}

// JustRightChart prepares the just-about-right chart from a copy of d, or says
// in a problem.Error what keeps it from being drawn.
func JustRightChart(d JustRightData) (*Figure, error) {
	if err := checkCount(d.Title, "charts.scores.none", "charts.scores.many", len(d.Rows), mostSamples); err != nil {
		return nil, err
	}
	v := &justView{title: oneLine(d.Title), data: append([]JustRightRow(nil), d.Rows...)}
	for i, r := range v.data {
		if err := checkCounts(d.Title, r.Name, r.Counts[:]...); err != nil {
			return nil, err
		}
		row := sampleLabel(r.Letter, r.Name, r.Original, i)
		if r.Plain {
			row = rowLabel{name: oneLine(r.Name), style: styleNone}
		}
		v.rows = append(v.rows, row)
	}
	return &Figure{title: v.title, alt: v.alt(), paint: v.paint}, nil
}

// justView paints the just-about-right chart: just right lies round the middle,
// too little to its left, too much to its right.
type justView struct {
	title string
	rows  []rowLabel
	data  []JustRightRow
}

// justWords are the answers' names in the order of the counts.
func justWords() [5]string {
	return [5]string{words.Say("charts.just.less2"), words.Say("charts.just.less1"), words.Say("charts.just.right"), words.Say("charts.just.more1"), words.Say("charts.just.more2")}
}

func (v *justView) alt() string {
	out := titled(v.title, words.Say("charts.just.alt"))
	for i, r := range v.data {
		var each []string
		for k, name := range justWords() {
			each = append(each, words.Say("charts.alt.value", name, r.Counts[k]))
		}
		out = append(out, words.Say("charts.just.alt.row", sampleName(r.Letter, v.rows[i].name), sum(r.Counts[:]), Semicolons(each)))
	}
	return strings.Join(out, " ")
}

// part returns where part k of the row lies, in per cent of its answers with
// the middle of just right at 0.
func (r JustRightRow) part(k int) (from, to float64) {
	n := float64(max(sum(r.Counts[:]), 1))
	at := -(float64(r.Counts[0]+r.Counts[1]) + float64(r.Counts[2])/2)
	for i := range k {
		at += float64(r.Counts[i])
	}
	return 100 * at / n, 100 * (at + float64(r.Counts[k])) / n
}

// justFills are the fills of the five answers, by look: darker the further from
// just right, rising lines on one side and dots on the other.
func (k *inks) justFills() [5]swatch {
	set := [5]uint32{0x3F5578, 0xA9B8D3, 0xEFE8DA, 0xE6BE9F, 0x8C4A26}
	switch {
	case k.paper():
		set = [5]uint32{0x4A4A4A, 0xB4B4B4, 0xFFFFFF, 0xDADADA, 0x6E6E6E}
	case k.dark():
		set = [5]uint32{0xA9BDE2, 0x51648C, 0x3A3D36, 0x80532F, 0xE9A878}
	}
	var out [5]swatch
	for i, h := range [5]hatch{falling, rising, solid, dotted, crossed} {
		f := hex(set[i])
		out[i] = swatch{fill: f, line: mix(f, k.ground, 0.4), edge: mix(k.ink, k.ground, 0.35), hatch: h}
		if i == 1 || i == 3 {
			out[i].line = mix(f, k.ink, 0.4)
		}
		if k.paper() {
			out[i].line = printLine(f)
		}
	}
	return out
}

func (v *justView) keys(s *sheet) []markKey {
	var keys []markKey
	for i, name := range justWords() {
		keys = append(keys, fillKey(name, s.inks.justFills()[i]))
	}
	return keys
}

// ends are the shares of too little and too much of row i.
func (v *justView) ends(i int) (less, more string) {
	c := v.data[i].Counts
	n := sum(c[:])
	return shareText(c[0]+c[1], n), shareText(c[3]+c[4], n)
}

func (v *justView) paint(s *sheet) {
	g := s.rowStage(rowNeeds{
		title: v.title, rows: v.rows, least: 1.3, most: 60,
		head: func(b vg.Rectangle) vg.Length {
			return s.markLegend(b, v.keys(s), true) + s.lineOf(s.smallPen()) + s.pt(4)
		},
		foot: func(vg.Rectangle) vg.Length { return 0 },
		side: func(vg.Rectangle) vg.Length {
			var w vg.Length
			for _, r := range v.data {
				w = max(w, s.width(s.smallPen(), words.Say("charts.scores.n", sum(r.Counts[:]))))
			}
			return w + s.pt(8)
		},
	})
	g.drawRows(s, v.title)
	s.markLegend(g.body, v.keys(s), false)
	pl, zero := v.panel(s, g)
	v.heads(s, g, pl)
	s.rule(s.inks.grid, zero, g.area.Min.Y, zero, g.area.Max.Y, s.hair(1.34))
	for i := range g.shown {
		v.row(s, g, pl, i)
		s.write(s.smallPen(), g.body.Max.X, g.y(i), 1, words.Say("charts.scores.n", sum(v.data[i].Counts[:])))
	}
	g.drawRest(s)
}

// panel scales the rows so that the shares at both ends have room.
func (v *justView) panel(s *sheet, g rowStage) (panel, vg.Length) {
	var rs []reach
	for i, r := range v.data {
		lo, _ := r.part(0)
		_, hi := r.part(4)
		less, more := v.ends(i)
		rs = append(rs, reach{lo, hi, s.width(s.bodyPen(), less) + s.pt(8), s.width(s.bodyPen(), more) + s.pt(8)})
	}
	w := g.area.Max.X - g.area.Min.X
	unit, zero := fitScale(w, rs, 60)
	unit = max(unit, 1e-6)
	pl := g.panel(s, span{-float64(zero / unit), float64((w - zero) / unit)})
	return pl, pl.x(0)
}

// heads says over the rows which side is which.
func (v *justView) heads(s *sheet, g rowStage, pl panel) {
	y := g.area.Max.Y + s.lineOf(s.smallPen())*0.5 + s.pt(1)
	less, more := words.Say("charts.just.less"), words.Say("charts.just.more")
	gap := s.pt(10)
	if w := s.width(s.smallPen(), less); pl.x(0)-gap-w >= g.body.Min.X {
		s.write(s.smallPen(), pl.x(0)-gap, y, 1, less)
	}
	if w := s.width(s.smallPen(), more); pl.x(0)+gap+w <= g.body.Max.X {
		s.write(s.smallPen(), pl.x(0)+gap, y, 0, more)
	}
}

// row draws the five parts of row i with counts inside and shares at the ends.
func (v *justView) row(s *sheet, g rowStage, pl panel, i int) {
	r, y := v.data[i], g.y(i)
	if sum(r.Counts[:]) == 0 {
		pen := s.bodyPen()
		pen.color = s.inks.muted
		s.writeClean(pen, pl.x(0), y, 0.5, s.fit(pen, words.Say("charts.spread.nobody"), g.area.Max.X-g.area.Min.X))
		return
	}
	half := min(s.pt(16), g.row*0.36)
	fills := s.inks.justFills()
	for k, c := range r.Counts {
		from, to := r.part(k)
		x0, x1 := pl.x(from), pl.x(to)
		if c == 0 {
			continue
		}
		s.bar(vg.Rectangle{Min: vg.Point{X: x0, Y: y - half}, Max: vg.Point{X: x1, Y: y + half}}, bar{style: fills[k]})
		text := words.Number(float64(c), 0)
		if k == 2 { // the share is what is asked of it, as at the ends
			text = shareText(c, sum(r.Counts[:]))
		}
		if half >= s.pt(4.5) && x1-x0 > s.width(s.smallPen(), text)+s.pt(5) {
			s.writePatch(s.smallPen(), (x0+x1)/2, y, text, fills[k])
		}
	}
	less, more := v.ends(i)
	lo, _ := r.part(0)
	_, hi := r.part(4)
	s.writeClean(s.bodyPen(), pl.x(lo)-s.pt(4), y, 1, less)
	s.writeClean(s.bodyPen(), pl.x(hi)+s.pt(4), y, 0, more)
}
