package charts

import (
	"math"
	"sort"
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// FrontierData is what the chart of best trade-offs shows: saving against the
// predicted effect on liking, for versions tasted and combinations that are not.
type FrontierData struct {
	Title          string
	Nutrient, Unit string
	Attribute      string
	Limit          float64 // the most liking that may be lost; 0 or NaN: no line
	Considered     int     // of how many combinations the predicted ones were picked
	Options        []FrontierOption
}

// FrontierOption is a version or a combination of swaps: what it takes off a
// serving (lighter is positive), its effect on the score against the original,
// and the ends of its interval (NaN: none), the low one drawn. Best marks the one
// called out.
type FrontierOption struct {
	Letter, Name   string
	Saving, Effect float64
	Low, High      float64
	Tasted, Best   bool
}

// FrontierChart prepares the chart of best trade-offs from a copy of d, or says
// in a problem.Error what keeps it from being drawn. What was only predicted is
// drawn hollow on the screen and never in a file.
func FrontierChart(d FrontierData) (*Figure, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	v := &frontView{d.clone()}
	return &Figure{title: v.d.Title, alt: v.alt(v.d.Options), paper: v.alt(v.d.tasted()), paint: v.paint}, nil
}

func (d FrontierData) check() error {
	if err := checkCount(d.Title, "charts.front.none", "charts.front.many", len(d.Options), mostItems); err != nil {
		return err
	}
	best := 0
	for _, o := range d.Options {
		if o.Best {
			best++
		}
		if !finite(o.Effect) || !finite(o.Saving) {
			return fault(d.Title, "charts.front.unknown", sampleName(o.Letter, o.Name))
		}
		if err := checkInterval(d.Title, o.Name, o.Low, o.Effect, o.Effect); err != nil {
			return err
		}
		if err := checkSizes(d.Title, o.Name, o.Saving, d.Limit); err != nil {
			return err
		}
	}
	if best > 1 {
		return fault(d.Title, "charts.front.best")
	}
	return checkCounts(d.Title, d.Title, min(d.Considered, mostPeople))
}

// clone copies d with the options by saving, the largest first.
func (d FrontierData) clone() FrontierData {
	d.Title, d.Nutrient, d.Unit, d.Attribute = ofScore(d.Title, d.Attribute), oneLine(d.Nutrient), oneLine(d.Unit), oneLine(d.Attribute)
	d.Options = append([]FrontierOption(nil), d.Options...)
	for i := range d.Options {
		o := &d.Options[i]
		o.Letter, o.Name = oneLine(o.Letter), oneLine(o.Name)
	}
	sort.SliceStable(d.Options, func(i, j int) bool { return d.Options[i].Saving > d.Options[j].Saving })
	return d
}

// tasted are the options that may be printed.
func (d FrontierData) tasted() []FrontierOption {
	var out []FrontierOption
	for _, o := range d.Options {
		if o.Tasted {
			out = append(out, o)
		}
	}
	return out
}

// places are the decimals of an option's effect.
func (d FrontierData) places(o FrontierOption) int { return EffectPlaces(o.Low, o.High, d.Limit) }

// low is the end an option is judged by.
func (o FrontierOption) low() float64 {
	if finite(o.Low) {
		return o.Low
	}
	return o.Effect
}

// edge are the places of the options that no other one beats in both saving and
// low end, the largest saving first.
func edge(os []FrontierOption) []int {
	var out []int
	best := math.Inf(-1)
	for i, o := range os {
		if o.low() > best {
			if len(out) > 0 && os[out[len(out)-1]].Saving == o.Saving {
				out = out[:len(out)-1]
			}
			best = o.low()
			out = append(out, i)
		}
	}
	return out
}

// frontView paints the chart of best trade-offs.
type frontView struct{ d FrontierData }

func (v *frontView) alt(os []FrontierOption) string {
	d := v.d
	out := titled(d.Title, words.Say("charts.front.alt", d.Nutrient, d.Attribute))
	if finite(limitAt(d.Limit)) {
		out = append(out, words.Say("charts.map.alt.limit", words.Trim(d.Limit, 2)))
	}
	for _, o := range os {
		low := words.Say("charts.not_known")
		if finite(o.Low) {
			low = words.Signed(o.Low, d.places(o))
		}
		text := words.Say("charts.front.alt.option", sampleName(o.Letter, o.Name), changeOf(-o.Saving, d.Unit), words.Signed(o.Effect, d.places(o)), low, v.standing(o))
		if o.Best {
			text += " " + words.Say("charts.front.alt.best")
		}
		out = append(out, text)
	}
	if len(os) == 0 {
		out = append(out, words.Say("charts.front.paper"))
	}
	return strings.Join(out, " ")
}

// standing says whether an option was tasted or only predicted.
func (v *frontView) standing(o FrontierOption) string {
	switch {
	case o.Tasted:
		return words.Say("charts.front.tasted")
	case v.d.Considered > 1:
		return words.Say("charts.front.predicted.of", v.d.Considered)
	}
	return words.Say("charts.front.predicted")
}

func (v *frontView) paint(s *sheet) {
	os := v.d.Options
	if s.inks.file {
		os = v.d.tasted()
	}
	p := &frontPainting{v.d, os, v.needs(os)}
	n := p.n
	g, tags, boxes := s.labelled(&n, p)
	s.drawPlane(g, n)
	s.levelLimit(g, limitAt(v.d.Limit))
	p.edge(s, g)
	p.marks(s, g)
	s.drawTags(tags, boxes)
	if g.list != (vg.Rectangle{}) {
		s.numbered(g.list, g.listed)
	}
	if len(os) == 0 {
		pen := s.bodyPen()
		pen.color = s.inks.muted
		text := s.fit(pen, words.Say("charts.front.paper"), g.area.Max.X-g.area.Min.X-s.pt(8))
		s.writeClean(pen, (g.area.Min.X+g.area.Max.X)/2, g.area.Min.Y+(g.area.Max.Y-g.area.Min.Y)*0.14, 0.5, text)
	}
}

// needs says how the chart is laid out.
func (v *frontView) needs(os []FrontierOption) planeNeeds {
	d := v.d
	n := planeNeeds{title: d.Title, keys: v.keys(os)}
	x, y := span{}, span{}
	for _, o := range os {
		x.take(o.Saving)
		y.take(o.Effect, o.Low)
	}
	y.take(limitAt(d.Limit), limitAt(d.Limit)*1.15)
	x.atLeast(1)
	y.atLeast(1)
	n.x, n.y = x.grown(0.07), y.grown(0.05)
	unit := d.Nutrient
	if d.Unit != "" {
		unit = words.Say("charts.change.head", d.Nutrient, d.Unit)
	}
	n.xText = []string{words.Say("charts.map.x", unit), words.Say("charts.map.x.short", unit)}
	n.yText = []string{words.Say("charts.front.y", d.Attribute), words.Say("charts.map.y.short", d.Attribute)}
	return n
}

func (v *frontView) keys(os []FrontierOption) []markKey {
	var keys []markKey
	tasted, predicted := false, false
	for _, o := range os {
		tasted, predicted = tasted || o.Tasted, predicted || !o.Tasted
	}
	if tasted {
		keys = append(keys, markKey{words.Say("charts.front.tasted"), func(s *sheet, at vg.Point, r vg.Length) {
			s.shapeMark(0, at, r, s.inks.ink, s.inks.ink)
		}})
	}
	if predicted {
		keys = append(keys, markKey{v.standing(FrontierOption{}), func(s *sheet, at vg.Point, r vg.Length) {
			s.shapeMark(0, at, r*0.95, s.inks.ground, s.inks.ink)
		}})
	}
	if len(edge(os)) > 1 {
		keys = append(keys, markKey{words.Say("charts.front.edge"), func(s *sheet, at vg.Point, r vg.Length) {
			s.rule(s.inks.axis, at.X-r*1.2, at.Y, at.X+r*1.2, at.Y, s.hair(2.4))
		}})
	}
	if finite(limitAt(v.d.Limit)) {
		keys = append(keys, limitKey(words.Say("charts.map.key.limit", words.Trim(v.d.Limit, 2)), false))
	}
	return keys
}
