package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// listItem is one item of a numbered list beside or under a plane: its name, the
// figures under it, and the one figure that stays when there is no room for them.
type listItem struct{ name, figures, short string }

// mostLines is how many lines the name of an item takes.
const mostLines = 4

// listPlan is a numbered list laid out in columns of a width.
type listPlan struct {
	items []listItem
	cols  int
	two   bool      // figures stand under the names, else the short one behind them
	wide  vg.Length // of a column
	high  vg.Length // of the list
	whole bool      // no name is cut
}

// planList lays items out in columns over the width w.
func (s *sheet) planList(items []listItem, w vg.Length, cols int, two bool) listPlan {
	l := listPlan{items: items, cols: cols, two: two, wide: (w - s.pt(14)*vg.Length(cols-1)) / vg.Length(cols), whole: true}
	var all, tallest vg.Length
	for i, it := range items {
		name, _ := s.itemLines(l, i)
		l.whole = l.whole && strings.Join(name, " ") == l.text(it)
		all, tallest = all+s.itemHigh(l, i), max(tallest, s.itemHigh(l, i))
	}
	for l.high = max(all/vg.Length(cols), tallest); len(s.columns(l, l.high)) > cols; {
		l.high += s.pt(2)
	}
	return l
}

// text is what stands at an item's number.
func (l listPlan) text(it listItem) string {
	if l.two {
		return it.name
	}
	return words.Say("charts.list", it.name, it.short)
}

// indent is the room of an item's number.
func (s *sheet) indent() vg.Length { return s.width(s.bodyPen(), "00") + s.pt(6) }

// itemLines are the lines of an item: its name's and its figures'.
func (s *sheet) itemLines(l listPlan, i int) (name, figures []string) {
	name = s.wrap(s.bodyPen(), l.text(l.items[i]), l.wide-s.indent(), mostLines)
	if l.two {
		figures = s.wrap(s.smallPen(), l.items[i].figures, l.wide-s.indent(), 2)
	}
	return name, figures
}

func (s *sheet) itemHigh(l listPlan, i int) vg.Length {
	name, figures := s.itemLines(l, i)
	return s.lineOf(s.bodyPen())*0.92*vg.Length(len(name)) + s.lineOf(s.smallPen())*0.92*vg.Length(len(figures)) + s.pt(2.5)
}

// columns are how many items stand in each column of a height, as many columns as
// it takes.
func (s *sheet) columns(l listPlan, high vg.Length) []int {
	out, used := []int{0}, vg.Length(0)
	for i := range l.items {
		h := s.itemHigh(l, i)
		if used += h; used > high+s.pt(0.5) && out[len(out)-1] > 0 {
			out, used = append(out, 0), h
		}
		out[len(out)-1]++
	}
	return out
}

// numbered writes a list into r and, under it, how many items had no room.
func (s *sheet) numbered(r vg.Rectangle, l listPlan) {
	small := s.lineOf(s.smallPen())
	per := s.columns(l, r.Max.Y-r.Min.Y)
	if len(per) > l.cols {
		per = s.columns(l, r.Max.Y-r.Min.Y-small)
	}
	i := 0
	for c := 0; c < min(len(per), l.cols); c++ {
		y := r.Max.Y
		for range per[c] {
			if h := s.itemHigh(l, i); y-h < r.Min.Y-s.pt(1) {
				break // one item is higher than the room
			}
			y = s.numberedItem(l, i, r.Min.X+vg.Length(c)*(l.wide+s.pt(14)), y)
			i++
		}
	}
	if i < len(l.items) {
		s.left = true
		text := s.fit(s.smallPen(), words.Say("charts.rows.more", len(l.items)-i), r.Max.X-r.Min.X)
		s.write(s.smallPen(), r.Min.X, r.Min.Y+small*0.4, 0, text)
	}
}

// numberedItem writes item i from its top on and returns where it ends.
func (s *sheet) numberedItem(l listPlan, i int, left, top vg.Length) vg.Length {
	name, figures := s.itemLines(l, i)
	end, x := top-s.itemHigh(l, i), left+s.indent()
	h := s.lineOf(s.bodyPen()) * 0.92
	s.write(s.bodyPen(), x-s.pt(6), top-h/2, 1, itemNumber(i))
	for _, line := range name {
		s.write(s.bodyPen(), x, top-h/2, 0, line)
		top -= h
	}
	h = s.lineOf(s.smallPen()) * 0.92
	for _, line := range figures {
		s.write(s.smallPen(), x, top-h/2, 0, line)
		top -= h
	}
	return end
}

// leastPlane is the height that is left to the values over a list, in points.
const leastPlane = 105

// withList finds room for the list of a plane: beside the values, else under
// them, in the fullest form that is whole. Where none is and the sheet is wide it
// stands beside them, as far as it goes. right and bottom are where the values
// end; what is left of them is returned.
func (s *sheet) withList(g *plane, items []listItem, top, right, bottom vg.Length) (vg.Length, vg.Length) {
	w := right - g.body.Min.X
	beside := func(two bool) bool {
		l := s.planList(items, w*0.36, 1, two)
		if !l.whole || l.high > top-g.body.Min.Y {
			return false
		}
		g.listed, g.whole = l, true
		return true
	}
	under := func(two bool) bool {
		l := s.planList(items, w, max(1, min(3, int(w/s.pt(165)))), two)
		if !l.whole || top-bottom-l.high-s.pt(8) < s.pt(leastPlane) {
			return false
		}
		g.listed, g.whole = l, true
		g.list = vg.Rectangle{Min: g.body.Min, Max: vg.Point{X: right, Y: g.body.Min.Y + l.high}}
		return true
	}
	wide := w >= s.pt(330)
	switch {
	case wide && beside(true), wide && beside(false):
	case under(true), under(false):
		return right, bottom + g.listed.high + s.pt(8)
	case wide:
		g.listed = s.planList(items, w*0.36, 1, false)
	default:
		return right, bottom
	}
	g.list = vg.Rectangle{Min: vg.Point{X: right - w*0.36, Y: g.body.Min.Y}, Max: vg.Point{X: right, Y: top}}
	return right - w*0.36 - s.pt(14), bottom
}
