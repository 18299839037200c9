package book

import (
	"bytes"
	"slices"

	"parewell/charts/manuscript"
)

// sheetPlan is one way to share the parts of a page out: between the two columns
// and the full width under them. High is the share of its height that the picture
// is drawn with.
type sheetPlan struct {
	left, right, under []string
	high               float64
	moved              int // parts that stand elsewhere than they usually do
}

// Room under the columns, and how much lower a picture may be drawn.
const (
	underGap   = 4.0
	lowPicture = 0.8
)

// The places of a page: its two columns and the full width under them.
const (
	leftColumn = iota
	rightColumn
	underBoth
)

// movable are the parts that need not stand where they usually do, in their order
// on the page, with all their places, the usual one first.
var movable = []struct {
	key    string
	places []int
}{
	{"notes", []int{rightColumn, underBoth}},
	{"tested", []int{rightColumn, leftColumn, underBoth}},
	{"allergens", []int{leftColumn, rightColumn, underBoth}},
	{"change", []int{underBoth, rightColumn}},
}

// sheetPlans are all there are, the usual one first.
func sheetPlans() []sheetPlan {
	n := 2
	for _, x := range movable {
		n *= len(x.places)
	}
	var out []sheetPlan
	for i := range n {
		p := sheetPlan{left: []string{"ingredients", "nutrition"}, right: []string{"method"}, high: 1}
		to := []*[]string{leftColumn: &p.left, rightColumn: &p.right, underBoth: &p.under}
		for _, x := range movable {
			choice := i % len(x.places)
			i /= len(x.places)
			*to[x.places[choice]] = append(*to[x.places[choice]], x.key)
			if choice > 0 {
				p.moved++
			}
		}
		if i > 0 {
			p.high = lowPicture
		}
		p.under = append(p.under, "cautions", "open")
		out = append(out, p)
	}
	return out
}

// layDesk has the parts of one page ready to be laid, each set once for a width.
type layDesk struct {
	s                   *pdfSetter
	p                   *Page
	leftWide, rightWide float64
	parts               map[string]part
	set                 map[layKey][]strip
	png                 []byte // of the picture
}

// layKey is a part in a width; high is the share of its height that a picture has.
type layKey struct {
	part       string
	wide, high float64
}

func (s *pdfSetter) newDesk(p *Page) *layDesk {
	d := &layDesk{s: s, p: p, parts: map[string]part{}, set: map[layKey][]strip{}}
	d.leftWide = (s.wide() - pdfGap) * 0.40
	if len(p.Nutrition) > 1 {
		d.leftWide = (s.wide() - pdfGap) * 0.54
	}
	d.rightWide = s.wide() - pdfGap - d.leftWide
	for _, x := range p.parts() {
		d.parts[x.key] = x
	}
	return d
}

// strips of a part, nil where the page has no such part; the change stays with its
// picture.
func (d *layDesk) strips(at layKey) []strip {
	x, ok := d.parts[at.part]
	if !ok {
		return nil
	}
	if _, done := d.set[at]; !done {
		out := d.s.part(x, at.wide)
		if at.part == "change" && d.p.Picture != nil {
			out = append(out, d.picture(at)...)
			for i := range out[:len(out)-1] {
				out[i].keep = true
			}
		}
		d.set[at] = out
	}
	return d.set[at]
}

// column is the strips of some parts, one under another.
func (d *layDesk) column(keys []string, wide, high float64) []strip {
	var out []strip
	for _, k := range keys {
		out = append(out, d.strips(layKey{k, wide, high})...)
	}
	return out
}

// best is the plan that takes the fewest pages, parts the fewest columns, and ends
// highest up; the usual one of those that are as good.
func (d *layDesk) best(at spot) sheetPlan {
	var best sheetPlan
	least := -1.0
	for _, x := range sheetPlans() {
		if x.high < 1 && d.p.Picture == nil {
			continue
		}
		if c := d.cost(x, at); least < 0 || c < least-1e-6 {
			best, least = x, c
		}
	}
	return best
}

// What counts against a plan, in points of paper: a page more, a column that runs
// over to the next page, a part that is moved, a picture drawn lower.
const (
	costPage   = 10000
	costParted = 2000
	costMoved  = 25
	costLow    = 60
)

func (d *layDesk) cost(x sheetPlan, at spot) float64 {
	_, left := d.s.place(d.column(x.left, d.leftWide, x.high), at)
	_, right := d.s.place(d.column(x.right, d.rightWide, x.high), at)
	_, end := d.s.place(d.under(x, later(left, right)), later(left, right).down(underGap))
	c := float64(end.page-at.page)*costPage + end.y + float64(x.moved)*costMoved
	for _, end := range []spot{left, right} {
		if end.page > at.page {
			c += costParted
		}
	}
	if x.high < 1 {
		c += costLow
	}
	return c
}

// under is what stands under the columns, from where they end: what does not fit
// on the page lets a later part go first that does. What is for the editor stays
// last.
func (d *layDesk) under(x sheetPlan, from spot) []strip {
	at := from.down(underGap)
	var out []strip
	for left := slices.Clone(x.under); len(left) > 0; {
		next := 0
		for i, key := range left {
			if key != "open" && at.y+tall(d.wide(key, x)) <= d.s.bottom() {
				next = i
				break
			}
		}
		part := d.wide(left[next], x)
		left = slices.Delete(left, next, next+1)
		_, at = d.s.place(part, at)
		out = append(out, part...)
	}
	return out
}

// wide is a part in the full width.
func (d *layDesk) wide(key string, x sheetPlan) []strip {
	return d.strips(layKey{key, d.s.wide(), x.high})
}

func tall(all []strip) float64 {
	high := 0.0
	for _, x := range all {
		high += x.high
	}
	return high
}

// picture is the chart with its caption; it is drawn once its size is settled.
func (d *layDesk) picture(at layKey) []strip {
	high := d.pictureHigh(at.high)
	pic := strip{high: high + 4, keep: true, draw: func(sheet *manuscript.Page, x, y float64) {
		sheet.Pictures = append(sheet.Pictures, manuscript.Picture{X: x, Y: y, Width: at.wide, Height: high, PNG: d.png})
	}}
	return append([]strip{pic}, d.s.lines(d.p.Picture.Caption, sized(styleCaption), false, true, at.wide, 0, 4)...)
}

// pictureHigh is the height of the picture in points.
func (d *layDesk) pictureHigh(share float64) float64 {
	return d.s.wide() * d.p.Picture.HighMM / figureWide * share
}

// drawn draws the picture, if there is one, for where the plan has it. Errors: it
// cannot be drawn.
func (d *layDesk) drawn(x sheetPlan) error {
	if d.p.Picture == nil || d.p.Change == nil {
		return nil
	}
	wide := d.s.wide()
	if slices.Contains(x.right, "change") {
		wide = d.rightWide
	}
	var png bytes.Buffer
	const mm = 25.4 / 72
	if err := d.p.Picture.Figure.WritePNG(&png, wide*mm, d.pictureHigh(x.high)*mm, pictureDPI); err != nil {
		return err
	}
	d.png = png.Bytes()
	return nil
}
