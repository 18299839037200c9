package charts

import (
	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// frontPainting is the chart of best trade-offs with the options one look shows.
type frontPainting struct {
	d  FrontierData
	os []FrontierOption
	n  planeNeeds
}

func (p *frontPainting) at(g plane, i int) vg.Point {
	return vg.Point{X: g.pl.x(p.os[i].Saving), Y: g.pl.y(p.os[i].Effect)}
}

// tags are the options' names or numbers, the one called out first so that it
// gets the best place and always says why.
func (p *frontPainting) tags(s *sheet, g plane, names bool) []tag {
	var out []tag
	most := (g.area.Max.X - g.area.Min.X) * 0.42
	for i, o := range p.os {
		t := tag{at: p.at(g, i), r: s.markSize(), text: itemNumber(i), pen: s.bodyPen(), must: o.Best, short: o.Letter}
		if names {
			t = s.named(t, sampleName(o.Letter, o.Name), most)
		}
		if o.Best {
			t.r += s.pt(3)
			t.pen.bold = true
			label := words.Say("charts.front.best.label", t.text)
			if most = (g.area.Max.X - g.area.Min.X) * 0.6; s.width(t.pen, label) > most {
				label = s.fit(t.pen, words.Say("charts.front.best.short"), most)
			}
			t.text, t.lines = label, nil
			out = append([]tag{t}, out...)
			continue
		}
		out = append(out, t)
	}
	return out
}

// placer knows where marks, intervals and lines stand.
func (p *frontPainting) placer(s *sheet, g plane) *placer {
	pl := &placer{s: s, room: g.area}
	pl.level(g, 0)
	if at := limitAt(p.d.Limit); finite(at) {
		pl.level(g, at)
	}
	for i, o := range p.os {
		c := p.at(g, i)
		r := s.markSize()
		if o.Best {
			r += s.pt(3)
		}
		pl.taken = append(pl.taken, around(c, r))
		if finite(o.Low) {
			pl.taken = append(pl.taken, vg.Rectangle{Min: vg.Point{X: c.X - s.pt(3), Y: g.pl.y(o.Low)}, Max: c})
		}
	}
	ps := p.edgeLine(g)
	for k := range ps[:max(len(ps)-1, 0)] {
		pl.avoid(ps[k], ps[k+1])
	}
	return pl
}

// level keeps labels off a level line of the values.
func (p *placer) level(g plane, v float64) {
	y := g.pl.y(v)
	p.taken = append(p.taken, vg.Rectangle{Min: vg.Point{X: g.area.Min.X, Y: y - 0.6}, Max: vg.Point{X: g.area.Max.X, Y: y + 0.6}})
}

// edgeLine is the stair through the low ends of the best trade-offs: to save so
// much, this much liking can be counted on.
func (p *frontPainting) edgeLine(g plane) []vg.Point {
	es := edge(p.os)
	if len(es) < 2 {
		return nil
	}
	var out []vg.Point
	for k, i := range es {
		o := p.os[i]
		if k > 0 {
			out = append(out, vg.Point{X: g.pl.x(o.Saving), Y: g.pl.y(p.os[es[k-1]].low())})
		}
		out = append(out, vg.Point{X: g.pl.x(o.Saving), Y: g.pl.y(o.low())})
	}
	return out
}

func (p *frontPainting) edge(s *sheet, g plane) {
	ps := p.edgeLine(g)
	for k := range ps[:max(len(ps)-1, 0)] {
		a, b := ps[k], ps[k+1]
		s.rule(s.inks.axis, min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y), s.hair(2.4))
	}
}

// marks draws the whisker down to each low end, then the marks: versions as
// everywhere, predictions hollow, a ring round the one called out.
func (p *frontPainting) marks(s *sheet, g plane) {
	for i, o := range p.os {
		if c := p.at(g, i); finite(o.Low) {
			s.rule(s.inks.ink, c.X, g.pl.y(o.Low), c.X, c.Y, s.hair(1.34))
			s.rule(s.inks.ink, c.X-s.pt(3), g.pl.y(o.Low), c.X+s.pt(3), g.pl.y(o.Low), s.hair(1.34))
		}
	}
	for i, o := range p.os {
		c := p.at(g, i)
		if o.Best {
			s.shapeMark(0, c, s.markSize()+s.pt(3), s.inks.ground, s.inks.ink)
		}
		if !o.Tasted {
			s.shapeMark(0, c, s.markSize()*0.92, s.inks.ground, s.inks.ink)
			continue
		}
		s.marker(styleOf(o.Letter, i), c, s.markSize())
	}
}

// items are the options by number, for the list.
func (p *frontPainting) items() []listItem {
	items := make([]listItem, len(p.os))
	for i, o := range p.os {
		d := p.d.places(o)
		low := words.Signed(o.Effect, d)
		if finite(o.Low) {
			low = words.Say("charts.front.low", low, words.Signed(o.Low, d))
		}
		items[i] = listItem{sampleName(o.Letter, o.Name), words.Say("charts.list", changeOf(-o.Saving, p.d.Unit), low), changeOf(-o.Saving, p.d.Unit)}
	}
	return items
}

// settle leaves the marks where they lie: lines lead through them.
func (p *frontPainting) settle(*sheet, *plane) {}
