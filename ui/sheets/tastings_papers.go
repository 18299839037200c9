package sheets

import (
	"strings"

	"parewell/charts/manuscript"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// PapersFields is what the papers of a tasting need to know, as typed.
type PapersFields struct {
	Vessel                               string
	Heat, Preheat, Rest, PerCup, PerWave string
	OnHand                               string // a line a food: "200 g butter"
	Whole                                bool
}

// Fields of the papers that can be wrong.
const (
	PapersHeatField    = "heat"
	PapersPreheatField = "preheat"
	PapersRestField    = "rest"
	PapersPerCupField  = "per-cup"
	PapersWaveField    = "wave"
	PapersHandField    = "hand"
)

// ReadPapers takes the form; faults name the fields that are wrong.
func ReadPapers(f PapersFields) (manuscript.PapersAsk, Faults) {
	faults := Faults{}
	read := func(field, text string, most float64) float64 { return faults.number(field, text, 0, most) }
	ask := manuscript.PapersAsk{
		Whole: f.Whole, Vessel: strings.TrimSpace(f.Vessel), Heat: read(PapersHeatField, f.Heat, 500), Preheat: read(PapersPreheatField, f.Preheat, 240),
		Rest: read(PapersRestField, f.Rest, 24*60), PerCup: read(PapersPerCupField, f.PerCup, 60), PerWave: int(read(PapersWaveField, f.PerWave, 500)),
	}
	ask.NoRest = ask.Rest == 0 && strings.TrimSpace(f.Rest) != ""
	hand, wrong := readOnHand(f.OnHand)
	if wrong != "" {
		faults[PapersHandField] = words.Say("tastings.papers.hand.wrong", wrong)
	}
	ask.OnHand = hand
	return ask, faults
}

// readOnHand reads what is in the house, a line a food: weight, then name.
func readOnHand(text string) (map[string]float64, string) {
	out := map[string]float64{}
	for _, line := range strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == ';' }) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		n, rest, ok := measure.ReadNumber(line)
		unit, name, named := strings.Cut(strings.TrimSpace(rest), " ")
		grams := map[string]float64{"g": 1, "kg": 1000}[strings.ToLower(unit)]
		if !ok || grams == 0 || !named || !(n.Low >= 0) || strings.TrimSpace(name) == "" {
			return out, line
		}
		out[strings.TrimSpace(name)] += n.Low * grams
	}
	return out, ""
}

// Shopping lays a shopping list out; what is all on hand is struck off.
func Shopping(list []manuscript.Bought) Sheet {
	s := Sheet{Corner: words.Say("papers.col.food"), Columns: []Column{
		{Key: "buy", Title: words.Say("papers.col.buy"), Index: -1, Tight: true},
		{Key: "on-hand", Title: words.Say("papers.col.on-hand"), Index: -1, Tight: true},
		{Key: "for", Title: words.Say("papers.col.for"), Index: -1},
	}}
	for i := range list {
		x := &list[i]
		cell := func(text string, number bool) Cell {
			return Cell{Text: text, Number: number, Struck: x.Done, Muted: x.Done, Bar: noBar()}
		}
		food := cell(x.FoodText(), false)
		food.Wrap = true
		buy := cell(x.Buy, true)
		buy.Tip = x.About
		s.Rows = append(s.Rows, Row{Key: x.Food, Label: food, Cells: []Cell{buy, cell(x.OnHand, true), cell(x.For, false)}})
	}
	return s
}
