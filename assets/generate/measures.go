package main

import (
	"math"
	"slices"
	"strconv"

	"parewell/recipes/food/portions"
)

// measure is one household measure as it is written out: grams of ONE.
type measure struct {
	Unit, Detail string
	Grams        float64
}

// measuresOf gives a food's measures: first what the hand-kept list says, then
// SR28, then SR26; of two with the same words the earlier stands. SR28 and SR26
// are not told apart on a measure: the weight of a cup has no release in use.
func (s *sources) measuresOf(f record) []measure {
	var out []measure
	add := func(m measure) {
		same := func(o measure) bool { return o.Unit == m.Unit && o.Detail == m.Detail }
		if m.Unit != "" && m.Grams > 0 && !slices.ContainsFunc(out, same) {
			out = append(out, m)
		}
	}
	ours := map[string]bool{}
	for _, r := range s.Measures {
		if r["code"] == f["ndb"] {
			g, _ := strconv.ParseFloat(r["grams"], 64)
			add(measure{r["unit"], r["detail"], g})
			ours[r["unit"]] = true
		}
	}
	names := portions.NamesOf(f["plain_name"], f["aliases"])
	var p portions.Parser
	for _, w := range append(sr28Weights(s.SR28[f["ndb"]]), s.SR26[f["ndb"]]...) {
		m, count, ok := p.Parse(w.What, names)
		if ok && !ours[m.Unit] {
			add(measure{m.Unit, m.Detail, math.Round(w.Grams/w.Amount/count*1000) / 1000})
		}
	}
	return out
}

// millilitres of the units a density can be taken from; cups and spoons of the
// USDA tables are US ones.
var millilitres = map[string]float64{
	"tsp": 4.92892159375, "tbsp": 14.78676478125, "fl oz": 29.5735295625, "cup": 236.5882365,
	"pint": 473.176473, "quart": 946.352946, "litre": 1000,
}

// density gives g/ml from the largest plain volume measure up to a cup, empty
// if there is none. Larger ones add nothing but rounding of bigger vessels.
func density(measures []measure) string {
	best, from := 0.0, 0.0
	for _, m := range measures {
		ml := millilitres[m.Unit]
		if m.Detail == "" && ml > from && ml <= millilitres["cup"] {
			best, from = m.Grams/ml, ml
		}
	}
	if best == 0 {
		return ""
	}
	return number(best)
}

// spell writes measures as "unit=grams" or "unit;detail=grams".
func spell(measures []measure) []string {
	var out []string
	for _, m := range measures {
		s := m.Unit
		if m.Detail != "" {
			s += ";" + m.Detail
		}
		out = append(out, s+"="+number(m.Grams))
	}
	return out
}
