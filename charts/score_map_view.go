package charts

import (
	"sort"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// mapView paints the keep-or-drop map.
type mapView struct{ d SwapMapData }

// needs says how the map is laid out, with a list of names at the right or none.
func (v *mapView) needs(list bool) planeNeeds {
	d := v.d
	n := planeNeeds{title: d.Title, list: list}
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
	n := v.needs(false)
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
		v.list(s, g)
	}
}

// labelledMarks is a figure whose marks want names.
type labelledMarks interface {
	tags(s *sheet, g plane, names bool) []tag
	placer(s *sheet, g plane) *placer
}

// labelled lays a plane out with the names at the marks. Where they do not all
// fit it takes numbers and a list at the right; a sheet too narrow for a list
// keeps the names that fit, letters for some, and says how many are left out.
func (s *sheet) labelled(n *planeNeeds, m labelledMarks) (plane, []tag, []vg.Rectangle) {
	g := s.plane(*n)
	tags := m.tags(s, g, true)
	boxes, all := m.placer(s, g).place(tags, false)
	if all {
		return g, tags, boxes
	}
	n.list = true
	if g = s.plane(*n); g.list != (vg.Rectangle{}) {
		tags = m.tags(s, g, false)
		boxes, _ = m.placer(s, g).place(tags, true)
		return g, tags, boxes
	}
	tags = m.tags(s, g, true)
	boxes = m.placer(s, g).squeeze(tags)
	left := 0
	for _, b := range boxes {
		if b == (vg.Rectangle{}) {
			left++
		}
	}
	n.xText = []string{words.Say("charts.map.unnamed", left, n.xText[len(n.xText)-1]), words.Say("charts.map.unnamed.short", left)}
	return g, tags, boxes
}

// at is where swap i lies: on the strip if it was not tasted, at nothing saved
// if that is not known.
func (v *mapView) at(g plane, i int) vg.Point {
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

func (s *sheet) markSize() vg.Length { return s.pt(4.6) }

// tags are the labels of the marks: names, shortened to a third of the width,
// or numbers.
func (v *mapView) tags(s *sheet, g plane, names bool) []tag {
	out := make([]tag, len(v.d.Swaps))
	for i, m := range v.d.Swaps {
		out[i] = tag{at: v.at(g, i), r: s.markSize(), text: itemNumber(i), pen: s.bodyPen()}
		if names {
			out[i].text = s.fit(s.bodyPen(), m.Name, (g.area.Max.X-g.area.Min.X)*0.42)
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
		if x, lo, hi, ok := v.whisker(g, i); ok {
			_, edge := s.inks.verdictInks(v.d.Swaps[i].Verdict)
			s.uprightInterval(edge, x, lo, hi, s.pt(3), g.within())
		}
	}
	for i, m := range v.d.Swaps {
		s.verdictMark(m.Verdict, v.at(g, i), s.markSize())
	}
}

// list writes the swaps by number beside the map.
func (v *mapView) list(s *sheet, g plane) {
	items := make([]listItem, len(v.d.Swaps))
	for i, m := range v.d.Swaps {
		items[i] = listItem{m.Name, v.d.figures(i), changeOf(-m.Saving, v.d.Unit)}
	}
	s.numbered(g.list, items)
}
