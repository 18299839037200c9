package charts

import (
	"sort"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// mapView paints the keep-or-drop map.
type mapView struct{ d SwapMapData }

// needs says how the map is laid out.
func (v *mapView) needs() planeNeeds {
	d := v.d
	n := planeNeeds{title: d.Title}
	x, y := span{0, 0}, span{0, 0}
	var vs []Verdict
	joined, tied := false, false
	for i, m := range d.Swaps {
		x.take(m.Saving)
		y.take(m.Effect, m.Low, m.High)
		vs = append(vs, m.Verdict)
		n.strip = n.strip || !m.tasted()
		tied = tied || m.Verdict == Tied
		joined = joined || len(d.partners(i)) > 0
	}
	y.take(limitAt(d.Limit), limitAt(d.Limit)*1.15)
	x.atLeast(1)
	y.atLeast(1)
	n.x, n.y = x.grown(0.07), y.grown(0.05)
	n.keys = verdictKeys(vs)
	if joined && !tied {
		n.keys = append(n.keys, markKey{words.Say("charts.map.key.joined"), func(s *sheet, at vg.Point, r vg.Length) {
			s.rule(s.inks.muted, at.X-r, at.Y, at.X+r, at.Y, s.hair(3))
		}})
	}
	if finite(limitAt(d.Limit)) {
		n.keys = append(n.keys, limitKey(words.Say("charts.map.key.limit", words.Trim(d.Limit, 2)), false))
	}
	unit := d.Nutrient
	if d.Unit != "" {
		unit = words.Say("charts.change.head", d.Nutrient, d.Unit)
	}
	n.xText = []string{words.Say("charts.map.x", unit), words.Say("charts.map.x.short", unit)}
	n.yText = []string{words.Say("charts.map.y", d.Attribute, d.Percent), words.Say("charts.map.y.short", d.Attribute)}
	return n
}

func (v *mapView) paint(s *sheet) {
	n := v.needs()
	g, tags, boxes := s.labelled(&n, v)
	s.drawPlane(g, n)
	s.levelLimit(g, limitAt(v.d.Limit))
	if n.strip {
		s.rule(s.inks.axis, g.strip.Min.X, g.strip.Min.Y, g.strip.Max.X, g.strip.Min.Y, s.hair(1))
		s.rule(s.inks.axis, g.strip.Min.X, g.strip.Max.Y, g.strip.Max.X, g.strip.Max.Y, s.hair(1))
	}
	v.joins(s, g)
	v.marks(s, g)
	s.drawTags(tags, boxes)
	if g.list != (vg.Rectangle{}) {
		s.numbered(g.list, g.listed)
	}
}

// labelledMarks is a figure whose marks want names.
type labelledMarks interface {
	settle(s *sheet, g *plane)
	tags(s *sheet, g plane, names bool) []tag
	items() []listItem
	placer(s *sheet, g plane) *placer
}

// labelled lays a plane out with the whole names at the marks. Where they do not
// all fit it takes numbers and a list of names beside or under the values; a sheet
// too small for a list keeps the names that fit, shortened, letters for some, and
// says how many are left out.
func (s *sheet) labelled(n *planeNeeds, m labelledMarks) (plane, []tag, []vg.Rectangle) {
	lay := func() (plane, *placer) {
		g := s.plane(*n)
		m.settle(s, &g)
		return g, m.placer(s, g)
	}
	g, p := lay()
	tags := m.tags(s, g, true)
	boxes, all := p.place(tags, false)
	if all {
		return g, tags, boxes
	}
	n.list = m.items()
	if g, p = lay(); g.list != (vg.Rectangle{}) {
		tags = m.tags(s, g, false)
		boxes, _ = p.place(tags, true)
		return g, tags, boxes
	}
	n.list = nil
	g, p = lay()
	tags = m.tags(s, g, true)
	boxes = p.squeeze(tags)
	left := 0
	s.left = true
	for _, b := range boxes {
		if b == (vg.Rectangle{}) {
			left++
		}
	}
	n.xText = []string{words.Say("charts.map.unnamed", left, n.xText[len(n.xText)-1]), words.Say("charts.map.unnamed.short", left)}
	return g, tags, boxes
}

// at is where the mark of swap i stands: where it lies, or aside of that.
func (v *mapView) at(g plane, i int) vg.Point {
	if g.spots != nil {
		return g.spots[i]
	}
	return v.lies(g, i)
}

// lies is where swap i lies: on the strip if it was not tasted, at nothing saved
// if that is not known.
func (v *mapView) lies(g plane, i int) vg.Point {
	m := v.d.Swaps[i]
	saving := m.Saving
	if !finite(saving) {
		saving = 0
	}
	if !m.tasted() {
		return vg.Point{X: g.pl.x(saving), Y: (g.strip.Min.Y + g.strip.Max.Y) / 2}
	}
	return vg.Point{X: g.pl.x(saving), Y: g.pl.y(m.Effect)}
}

// settle moves marks aside that would lie on one another, and those whose
// intervals would.
func (v *mapView) settle(s *sheet, g *plane) {
	at := make([]vg.Point, len(v.d.Swaps))
	for i := range at {
		at[i] = v.lies(*g, i)
	}
	r := s.markSize()
	g.spots = spread(at, func(i, j int) vg.Length {
		a, b := v.d.Swaps[i], v.d.Swaps[j]
		switch {
		case a.tasted() != b.tasted():
			return 0
		case max(at[i].Y-at[j].Y, at[j].Y-at[i].Y) < 2*r:
			return 2*r + s.pt(1.5)
		case a.Low <= b.High && b.Low <= a.High && len(v.d.partners(i))+len(v.d.partners(j)) == 0:
			return s.pt(7)
		}
		return 0
	}, g.area.Min.X+r, g.area.Max.X-r)
}

func (s *sheet) markSize() vg.Length { return s.pt(4.6) }

// tags are the labels of the marks: names in at most two lines, or numbers.
func (v *mapView) tags(s *sheet, g plane, names bool) []tag {
	out := make([]tag, len(v.d.Swaps))
	for i, m := range v.d.Swaps {
		out[i] = tag{at: v.at(g, i), r: s.markSize(), text: itemNumber(i), pen: s.bodyPen()}
		if names {
			out[i] = s.named(out[i], m.Name, (g.area.Max.X-g.area.Min.X)*0.42)
		}
	}
	return out
}

// placer knows where marks and intervals stand.
func (v *mapView) placer(s *sheet, g plane) *placer {
	p := &placer{s: s, room: vg.Rectangle{Min: vg.Point{X: g.area.Min.X, Y: g.area.Min.Y}, Max: g.area.Max}}
	if g.strip.Max.Y > g.strip.Min.Y {
		p.room.Min.Y = g.strip.Min.Y
		p.taken = append(p.taken, vg.Rectangle{Min: vg.Point{X: g.strip.Min.X, Y: g.strip.Max.Y - 0.5}, Max: vg.Point{X: g.strip.Max.X, Y: g.strip.Max.Y + 0.5}})
	}
	p.level(g, 0)
	if at := limitAt(v.d.Limit); finite(at) {
		p.level(g, at)
	}
	for i := range v.d.Swaps {
		c := v.at(g, i)
		p.taken = append(p.taken, around(c, s.markSize()))
		if x, lo, hi, ok := v.whisker(g, i); ok {
			p.taken = append(p.taken, vg.Rectangle{Min: vg.Point{X: x - s.pt(2), Y: lo}, Max: vg.Point{X: x + s.pt(2), Y: hi}})
		}
	}
	for _, group := range v.groups() {
		ms := v.members(group)
		for k := range ms[1:] {
			p.avoid(v.at(g, ms[k]), v.at(g, ms[k+1]))
		}
	}
	return p
}

// whisker is where the interval of swap i stands; joined swaps have one, in
// the middle of their line, given with the first of them.
func (v *mapView) whisker(g plane, i int) (x, lo, hi vg.Length, ok bool) {
	m := v.d.Swaps[i]
	if !m.tasted() || !finite(m.Low) || !finite(m.High) {
		return 0, 0, 0, false
	}
	x = v.at(g, i).X
	if ms := v.members(m.Group); len(ms) > 1 {
		if ms[0] != i {
			return 0, 0, 0, false
		}
		x = (v.at(g, ms[0]).X + v.at(g, ms[len(ms)-1]).X) / 2
	}
	return x, max(g.pl.y(m.Low), g.area.Min.Y), min(g.pl.y(m.High), g.area.Max.Y), true
}

// members are the swaps of a group, the largest saving first.
func (v *mapView) members(group int) []int {
	var out []int
	for i, m := range v.d.Swaps {
		if group > 0 && m.Group == group {
			out = append(out, i)
		}
	}
	return out
}

// groups are the numbers of all groups of two and more, in order.
func (v *mapView) groups() []int {
	seen := map[int]bool{}
	var out []int
	for _, m := range v.d.Swaps {
		if !seen[m.Group] && len(v.members(m.Group)) > 1 {
			out = append(out, m.Group)
		}
		seen[m.Group] = true
	}
	sort.Ints(out)
	return out
}

// joins draws a thick line through the swaps that were always served together.
func (v *mapView) joins(s *sheet, g plane) {
	for _, group := range v.groups() {
		ms := v.members(group)
		for k := range ms[1:] {
			a, b := v.at(g, ms[k]), v.at(g, ms[k+1])
			s.slant(s.inks.muted, a, b, s.hair(3))
		}
	}
}

func (v *mapView) marks(s *sheet, g plane) {
	for i := range v.d.Swaps {
		s.leader(v.lies(g, i), v.at(g, i), s.markSize())
	}
	for i := range v.d.Swaps {
		if x, lo, hi, ok := v.whisker(g, i); ok {
			_, edge := s.inks.verdictInks(v.d.Swaps[i].Verdict)
			s.uprightInterval(edge, x, lo, hi, s.pt(3), g.within())
		}
	}
	for i, m := range v.d.Swaps {
		s.verdictMark(m.Verdict, v.at(g, i), s.markSize())
	}
}

// items are the swaps by number, for the list.
func (v *mapView) items() []listItem {
	items := make([]listItem, len(v.d.Swaps))
	for i, m := range v.d.Swaps {
		items[i] = listItem{m.Name, v.d.figures(i), changeOf(-m.Saving, v.d.Unit)}
	}
	return items
}
