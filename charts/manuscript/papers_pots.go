package manuscript

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"parewell/analysis/shopping"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// potName is what the kitchen calls a pot; its number where the version has two.
func (m *maker) potName(p *shopping.Pot) string {
	name := p.Name
	switch v := m.book.Version(m.recipe.ID, p.Version); {
	case p.Dish != "":
	case v != nil:
		name = words.Say("print.version", v.Letter)
	default:
		name = words.Say("original")
	}
	if m.twoPots(p) {
		return say("pot", name, p.Number)
	}
	return name
}

// shortName is the same where there is little room: "A", "orig. 2".
func (m *maker) shortName(p *shopping.Pot) string {
	if m.twoPots(p) {
		return say("pot.short", m.shortest(p), p.Number)
	}
	return m.shortest(p)
}

// shortest leaves out which pot of the version it is.
func (m *maker) shortest(p *shopping.Pot) string {
	if p.Dish == "" && p.Version == "" {
		return words.Say("print.original-mark")
	}
	return p.Name
}

// nameSamples finds each sample's pot and name.
func (m *maker) nameSamples() {
	m.names, m.pot = map[recipes.ID]string{}, map[recipes.ID]int{}
	for i := range m.list.Pots {
		p := &m.list.Pots[i]
		for _, s := range p.Samples {
			m.names[s], m.pot[s] = m.potName(p), i
		}
	}
}

func (m *maker) pots() []PotAmount {
	var out []PotAmount
	for i := range m.list.Pots {
		p := &m.list.Pots[i]
		a := PotAmount{
			Pot: m.potName(p), Cups: p.Cups, Need: words.Grams(p.Grams), Once: words.Grams(p.Once), Times: words.Unknown, Makes: words.Grams(p.Makes()),
			AtLeast: p.AtLeast && p.Known(), CSV: []string{plain(p.Grams), plain(p.Once), plain(p.Times), plain(p.Makes())},
		}
		switch {
		case p.Dish != "":
			a.Once, a.Times, a.Makes, a.NoSheet = "", "", "", true
			a.Unknown = math.IsNaN(p.Grams)
		case !p.Known():
			a.Unknown = true
		default:
			a.Times = say("times", words.Trim(p.Times, 2))
		}
		if p.From != "" && !math.IsNaN(p.Once) {
			a.From = say("from." + string(p.From))
		}
		out = append(out, a)
	}
	return out
}

// shopping puts the list into words.
func (m *maker) shopping() []Bought {
	system, err := measure.ParseSystem(m.recipe.Measures)
	if err != nil {
		system = measure.Metric
	}
	var out []Bought
	for i := range m.list.Items {
		x := &m.list.Items[i]
		row := Bought{Food: stateName(x.Name, x.State), Check: x.Check, Done: x.Done(), CSV: []string{plain(x.Grams), plain(x.Struck()), plain(x.Buy())}}
		buy := x.Buy()
		if row.Done {
			buy = x.Grams
		}
		row.Buy = words.Grams(buy)
		switch {
		case len(x.Check) > 0 && buy < 0.05:
			row.Buy = words.Unknown
		case len(x.Check) > 0:
			row.Buy = say("or-more", row.Buy)
		}
		if len(x.Check) > 0 && x.Grams == 0 {
			row.CSV = []string{"", "", ""}
		}
		if h, ok := x.Household(buy, system); ok && row.Buy != words.Unknown {
			row.About = household(h)
		}
		if x.Stock > 0 {
			row.OnHand = words.Grams(x.Stock)
		}
		var pots []string
		for _, n := range x.Pots {
			if name := m.shortest(&m.list.Pots[n]); !slices.Contains(pots, name) {
				pots = append(pots, name)
			}
		}
		row.For = strings.Join(pots, ", ")
		out = append(out, row)
	}
	return out
}

func household(h shopping.Household) string {
	amount := words.Fraction(h.Amount)
	if h.Unit == "litre" || h.Unit == "ml" {
		amount = words.Trim(h.Amount, 2)
	}
	if words.Current().Has("papers.unit." + h.Unit) {
		return say("unit."+h.Unit, amount)
	}
	return amount + " " + h.Unit
}

func stateName(name string, s food.State) string {
	if s == "" {
		return name
	}
	return say("state."+string(s), name)
}

// plain writes a number for a file: at most four decimals, "." before them, empty
// when it is not known.
func plain(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}

// tests makes a test sheet for each pot, with the recipe as often as it is cooked.
func (m *maker) tests() []TestSheet {
	var out []TestSheet
	for i := range m.list.Pots {
		p := &m.list.Pots[i]
		if p.Dish != "" || p.Cups == 0 {
			continue
		}
		d := m.book.Draft(m.recipe, m.book.Version(m.recipe.ID, p.Version))
		serves := words.Trim(d.Servings, 2)
		line, times := say("serves.unknown", serves), 1.0
		if p.Known() {
			times = p.Times
			line = say("serves", words.Trim(d.Servings*p.Times, 1), words.Trim(p.Times, 2))
		}
		if m.twoPots(p) {
			line = say("serves.pot", line, p.Number)
		}
		s := sheetOf(d, times)
		s.Serves = line
		out = append(out, s)
	}
	return out
}

// twoPots tells whether a version is cooked in more than one pot.
func (m *maker) twoPots(p *shopping.Pot) bool {
	n := 0
	for i := range m.list.Pots {
		if o := &m.list.Pots[i]; o.Version == p.Version && o.Dish == p.Dish {
			n++
		}
	}
	return n > 1
}
