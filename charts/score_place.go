package charts

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// tag is a label that wants to stand by a mark of radius r.
type tag struct {
	at    vg.Point
	r     vg.Length
	text  string
	pen   pen
	lines []string // the text in lines, where it takes more than one
	cut   bool     // it does not say all of the name
	must  bool     // stands off rather than not at all
	short string   // what stands where the text does not fit, on a narrow sheet
}

// written are the lines of a tag.
func (t tag) written() []string {
	if len(t.lines) > 0 {
		return t.lines
	}
	return []string{t.text}
}

// named gives a tag a name in at most two lines of a width.
func (s *sheet) named(t tag, name string, w vg.Length) tag {
	t.text = name
	if s.width(t.pen, name) > w*0.6 {
		t.lines = s.wrap(t.pen, name, w*0.6, 2)
		if t.cut = strings.Join(t.lines, " ") != name; t.cut {
			t.lines = s.wrap(t.pen, name, w, 2)
			t.cut = strings.Join(t.lines, " ") != name
		}
	}
	return t
}

// writeLines writes a tag's lines in its box, against the side the mark is on.
func (s *sheet) writeLines(t tag, b vg.Rectangle) {
	lines := t.written()
	x, align := (b.Min.X+b.Max.X)/2, 0.5
	if pad := s.pt(1.5); len(lines) > 1 && b.Min.X >= t.at.X {
		x, align = b.Min.X+pad, 0
	} else if len(lines) > 1 && b.Max.X <= t.at.X {
		x, align = b.Max.X-pad, 1
	}
	step := s.pt(t.pen.size * 1.2)
	y := (b.Min.Y+b.Max.Y)/2 + step*vg.Length(len(lines)-1)/2
	for k, line := range lines {
		s.write(t.pen, x, y-step*vg.Length(k), align, line)
	}
}

// placer finds room for tags where nothing else stands.
type placer struct {
	s     *sheet
	room  vg.Rectangle
	taken []vg.Rectangle
}

// avoid keeps labels off the line from a to b.
func (p *placer) avoid(a, b vg.Point) {
	const parts = 24
	for k := range parts {
		f := (vg.Length(k) + 0.5) / parts
		c := vg.Point{X: a.X + (b.X-a.X)*f, Y: a.Y + (b.Y-a.Y)*f}
		w := max(b.X-a.X, a.X-b.X)/parts + p.s.pt(2)
		h := max(b.Y-a.Y, a.Y-b.Y)/parts + p.s.pt(2)
		p.taken = append(p.taken, boxOf(c, w, h))
	}
}

// around is the square of radius r round a point.
func around(c vg.Point, r vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: c.X - r, Y: c.Y - r}, Max: vg.Point{X: c.X + r, Y: c.Y + r}}
}

func (p *placer) free(b vg.Rectangle) bool {
	if b.Min.X < p.room.Min.X || b.Max.X > p.room.Max.X || b.Min.Y < p.room.Min.Y || b.Max.Y > p.room.Max.Y {
		return false
	}
	for _, t := range p.taken {
		if b.Min.X < t.Max.X && t.Min.X < b.Max.X && b.Min.Y < t.Max.Y && t.Min.Y < b.Max.Y {
			return false
		}
	}
	return true
}

// sides are the eight places round a mark, the most usual first.
var sides = [][2]float64{{1, 0}, {-1, 0}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}, {0, 1}, {0, -1}}

// place returns a box for each tag, empty where there is none, and whether all
// found one. Only near marks unless far, when a tag may stand off by a distance
// that a thin line then bridges.
func (p *placer) place(tags []tag, far bool) (boxes []vg.Rectangle, all bool) {
	all = true
	for _, t := range tags {
		box, ok := p.near(t)
		if !ok && (far || t.must) {
			box, ok = p.off(t)
		}
		if ok {
			p.taken = append(p.taken, box)
		}
		boxes, all = append(boxes, box), all && ok && !t.cut
	}
	return boxes, all
}

// squeeze is place for a sheet without room for a list: what does not fit takes
// its short text, in the tags too.
func (p *placer) squeeze(tags []tag) []vg.Rectangle {
	boxes, _ := p.place(tags, false)
	for i := range tags {
		if boxes[i] != (vg.Rectangle{}) || tags[i].short == "" {
			continue
		}
		tags[i].text, tags[i].lines = tags[i].short, nil
		if b, ok := p.near(tags[i]); ok {
			boxes[i] = b
			p.taken = append(p.taken, b)
		}
	}
	return boxes
}

func (p *placer) size(t tag) (w, h vg.Length) {
	lines := t.written()
	for _, line := range lines {
		w = max(w, p.s.width(t.pen, line))
	}
	return w + p.s.pt(3), p.s.pt(t.pen.size * (1.12 + 1.2*float64(len(lines)-1)))
}

func (p *placer) near(t tag) (vg.Rectangle, bool) {
	w, h := p.size(t)
	for _, d := range sides {
		gap := t.r + p.s.pt(2)
		if d[0] != 0 && d[1] != 0 {
			gap *= 0.7
		}
		c := vg.Point{X: t.at.X + vg.Length(d[0])*(gap+w/2), Y: t.at.Y + vg.Length(d[1])*(gap+h/2)}
		if b := boxOf(c, w, h); p.free(b) {
			return b, true
		}
	}
	return vg.Rectangle{}, false
}

// off looks on growing rings round the mark.
func (p *placer) off(t tag) (vg.Rectangle, bool) {
	w, h := p.size(t)
	for ring := 1; ring <= 14; ring++ {
		d := t.r + p.s.pt(7*float64(ring))
		for k := range 16 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 8)
			c := vg.Point{X: t.at.X + vg.Length(cos)*(d+w/2), Y: t.at.Y + vg.Length(sin)*(d+h/2)}
			if b := boxOf(c, w, h); p.free(b) {
				return b, true
			}
		}
	}
	return vg.Rectangle{}, false
}

func boxOf(c vg.Point, w, h vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: c.X - w/2, Y: c.Y - h/2}, Max: vg.Point{X: c.X + w/2, Y: c.Y + h/2}}
}

// drawTags writes the tags in their boxes, with a line to the mark where they
// stand off.
func (s *sheet) drawTags(tags []tag, boxes []vg.Rectangle) {
	for i, t := range tags {
		b := boxes[i]
		if b == (vg.Rectangle{}) {
			continue
		}
		near := vg.Point{X: max(b.Min.X, min(b.Max.X, t.at.X)), Y: max(b.Min.Y, min(b.Max.Y, t.at.Y))}
		if gap := vg.Length(math.Hypot(float64(near.X-t.at.X), float64(near.Y-t.at.Y))); gap > t.r+s.pt(3.6) {
			k := t.r / gap
			s.slant(s.inks.axis, vg.Point{X: t.at.X + (near.X-t.at.X)*k, Y: t.at.Y + (near.Y-t.at.Y)*k}, near, s.hair(1))
		}
		s.writeLines(t, b)
	}
}
