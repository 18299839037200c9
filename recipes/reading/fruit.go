package reading

import (
	"strings"
)

// partLeads name a part of a fruit before the fruit itself; longer ones first.
var partLeads = []struct{ text, part string }{
	{"grated zest and juice of", "zest and juice"},
	{"finely grated zest and juice of", "zest and juice"},
	{"finely grated zest of", "zest"},
	{"finely grated rind of", "zest"},
	{"freshly squeezed juice of", "juice"},
	{"freshly squeezed juice from", "juice"},
	{"zest and juice of", "zest and juice"},
	{"zest and juice from", "zest and juice"},
	{"juice and zest of", "zest and juice"},
	{"juice and zest from", "zest and juice"},
	{"juice and rind of", "zest and juice"},
	{"rind and juice of", "zest and juice"},
	{"zest & juice of", "zest and juice"},
	{"juice & zest of", "zest and juice"},
	{"zest + juice of", "zest and juice"},
	{"strained juice of", "juice"},
	{"fresh juice of", "juice"},
	{"the juice of", "juice"},
	{"the juice from", "juice"},
	{"juice of", "juice"},
	{"juice from", "juice"},
	{"a squeeze of", "squeeze"},
	{"grated zest of", "zest"},
	{"grated rind of", "zest"},
	{"grated peel of", "zest"},
	{"the zest of", "zest"},
	{"zest of", "zest"},
	{"zest from", "zest"},
	{"rind of", "zest"},
	{"peel of", "zest"},
}

// bitLeads name a part that weighs next to nothing apart from the whole.
var bitLeads = []string{"seeds of", "seeds from", "the seeds of", "the seeds from", "leaves from", "leaves of", "the leaves from", "the leaves of", "flesh of", "pulp of", "pulp from", "meat from", "kernels from"}

// cutPart reads "juice of", "zest and juice of" before the amount.
func cutPart(s string) (string, string) {
	if rest, w := cutAny(s, bitLeads...); w != "" {
		return rest, ""
	}
	for _, l := range partLeads {
		if rest, ok := cut(s, l.text); ok && l.part != "squeeze" {
			return rest, l.part
		}
	}
	for _, l := range []struct{ text, part string }{{"zest and juice", "zest and juice"}, {"juice and zest", "zest and juice"}, {"juice", "juice"}, {"grated zest", "zest"}, {"zest", "zest"}} {
		if rest, ok := cut(s, l.text); ok && (startsDigit(rest) || strings.HasPrefix(rest, "a ") || strings.HasPrefix(rest, "half ")) { // "juice 2 lemons"
			return rest, l.part
		}
	}
	return s, ""
}

var citrus = []string{"lemon", "lime", "orange", "grapefruit", "clementine", "tangerine", "mandarin", "satsuma", "bergamot", "yuzu"}

// citrusIn returns the citrus fruit a folded name is about, "" for none.
func citrusIn(name string) string {
	for _, c := range citrus {
		if hasWord(name, c) || hasWord(name, c+"s") {
			return c
		}
	}
	return ""
}

// readPart finds which part of a counted citrus fruit is used when the line
// says so after the name: "1 lemon, juiced", "2 limes, zest and juice".
func (p *phrase) readPart(counted bool) {
	if p.part != "" || !counted {
		return
	}
	name := fold(p.name)
	if citrusIn(name) == "" || hasAny(name, "juice", "zest", "peel", "curd", "marmalade", "rind") {
		return
	}
	rest := fold(p.prep + " " + p.purpose)
	zest := hasAny(rest, "zest", "zested", "rind", "grated zest")
	juice := hasAny(rest, "juice", "juiced", "squeezed", "juice only")
	switch {
	case zest && juice:
		p.part = "zest and juice"
	case zest:
		p.part = "zest"
	case juice:
		p.part = "juice"
	}
}

// juiceGrams and zestGrams are what one fruit gives: juice from USDA SR26
// weights (1 lemon yields 48 g, 1 lime 44 g, 1 orange 86 g), zest 6 g of a
// lemon (1 tbsp, same table); the others from memory.
var juiceGrams = map[string]float64{
	"lemon": 48, "lime": 44, "orange": 86, "grapefruit": 196, "clementine": 35, "tangerine": 43, "mandarin": 43, "satsuma": 43, "bergamot": 45, "yuzu": 15,
}

var zestGrams = map[string]float64{
	"lemon": 6, "lime": 4, "orange": 9, "grapefruit": 12, "clementine": 4, "tangerine": 5, "mandarin": 5, "satsuma": 5, "bergamot": 6, "yuzu": 4,
}

// partName names the food a part of a fruit is: "lemon juice", "lemon zest".
func partName(fruit, part string) string {
	if part == "zest" {
		return fruit + " zest"
	}
	return fruit + " juice"
}

// partGrams returns what n fruits of a size give.
func partGrams(fruit, part, size string, n float64) float64 {
	g := juiceGrams[fruit]
	if part == "zest" {
		g = zestGrams[fruit]
	}
	switch size {
	case "large", "extra large", "jumbo":
		g *= 1.25
	case "small":
		g *= 0.75
	}
	return g * n
}

// partNote says the arithmetic: "juice of 1 lemon = 48 g".
func partNote(fruit, part string) string {
	g := juiceGrams[fruit]
	if part == "zest" {
		return "zest of 1 " + fruit + " = " + figure(zestGrams[fruit]) + " g"
	}
	return "juice of 1 " + fruit + " = " + figure(g) + " g"
}

// splitsZest tells whether a line is about both zest and juice, which are two
// foods.
func splitsZest(part string) bool { return strings.Contains(part, "and") }
