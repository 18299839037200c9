package main

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// measure is one household measure as it is written out: grams of ONE.
type measure struct {
	Unit, Detail string
	Grams        float64
}

// units maps the words of the published tables to the unit a cook writes.
var units = map[string]string{
	"cup": "cup", "cups": "cup", "tbsp": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
	"tsp": "tsp", "teaspoon": "tsp", "fl oz": "fl oz", "fluid ounce": "fl oz", "pint": "pint",
	"quart": "quart", "liter": "litre", "dash": "dash", "pat": "pat", "stick": "stick", "drop": "drop",
	"clove": "clove", "cloves": "clove", "slice": "slice", "slices": "slice", "leaf": "leaf", "leaves": "leaf",
	"stalk": "stalk", "stalks": "stalk", "sprig": "sprig", "sprigs": "sprig", "bunch": "bunch", "head": "head",
	"ear": "ear", "spear": "spear", "spears": "spear", "fillet": "fillet", "breast": "breast", "thigh": "thigh",
	"drumstick": "drumstick", "wing": "wing", "leg": "leg", "steak": "steak", "chop": "chop", "roast": "roast",
	"rack": "rack", "shank": "shank", "can": "can", "package": "package", "pack": "package", "packet": "packet",
	"envelope": "envelope", "container": "container", "bottle": "bottle", "jar": "jar", "box": "box",
	"sheet": "sheet", "sheets": "sheet", "cube": "cube", "cubes": "cube", "block": "block", "bulb": "bulb",
	"wedge": "wedge", "strip": "strip", "strips": "strip", "rasher": "rasher", "link": "link", "floweret": "floret",
	"piece": "piece", "pieces": "piece", "bar": "bar", "loaf": "loaf", "half": "half", "ring": "ring",
	"jigger": "jigger", "glass": "glass", "crown": "crown", "kernel": "kernel", "shell": "shell",
	"wrapper": "wrapper", "root": "root", "pod": "pod", "pods": "pod", "crust": "crust", "heart": "heart",
	"extra small": "extra small", "small": "small", "medium": "medium", "large": "large",
	"extra large": "extra large", "jumbo": "jumbo",
}

// sizes are units that tell how big a counted one is.
var sizes = []string{"extra small", "small", "medium", "large", "extra large", "jumbo"}

// wholeWords are nouns of the tables for one whole of the food itself.
var wholeWords = []string{"fruit", "bird", "each", "whole", "pepper", "potato", "melon", "nuts", "berries", "roll"}

// unwanted are descriptions a cook would not write on a line, or that belong
// to a brand or to a whole carcass.
var unwanted = regexp.MustCompile(`(?i)serving|nlea|cubic inch|^oz\b|^lb\b|ounce|^unit\b|yield from|portion|patty|brand|dannon|hershey|bakers|brownulated|treat|with refuse|as purchased|with pits|ns as to|bone removed|reconstituted|cooked from|miniature box|enchilada|crust not eaten`)

// brackets finds notes in brackets and lengths like 2-1/2" that no cook writes.
var brackets = regexp.MustCompile(`\(([^)]*)\)`)

// plainNote are the bracketed notes worth keeping as a measure's detail.
var plainNote = regexp.MustCompile(`^\s*(not packed|packed|sifted|unsifted|drained|large curd|small curd|melted)`)

// packSize finds the size of a can or pack, "(10 oz)" or "14.5 oz".
var packSize = regexp.MustCompile(`[0-9.\-/]+ (fl )?(oz|lb|g|kg|ml)\b`)

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
	names := nameWords(f)
	for _, w := range append(sr28Weights(s.SR28[f["ndb"]]), s.SR26[f["ndb"]]...) {
		m := parseMeasure(w.What, names)
		m.Grams = math.Round(w.Grams/w.Amount/m.Grams*1000) / 1000
		if !ours[m.Unit] {
			add(m)
		}
	}
	return out
}

// nameWords are the single words a food goes by, for "1 olive" of green olives.
func nameWords(f record) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(f["plain_name"]+" "+f["aliases"]), notLetter) {
		out[w] = true
		out[strings.TrimSuffix(w, "s")] = true
		out[strings.TrimSuffix(w, "es")] = true
	}
	return out
}

// servingOf finds the volume a serving is said to be: "serving, 1/2 cup".
var servingOf = regexp.MustCompile(`(?i)serving\W+([0-9./]+) (cup|tbsp|tsp|fl oz)`)

// parseMeasure turns "cup, chopped (1/2\" pieces)" into cup and chopped. Grams
// holds how many of the unit the description means, 1 for nearly all. The unit
// is empty when no cook would write it.
func parseMeasure(what string, names map[string]bool) measure {
	if m := servingOf.FindStringSubmatch(what); m != nil {
		top, bottom, _ := strings.Cut(m[1], "/")
		n, _ := strconv.ParseFloat(top, 64)
		if d, err := strconv.ParseFloat(bottom, 64); err == nil {
			n /= d
		}
		if n > 0 {
			return measure{Unit: strings.ToLower(m[2]), Grams: n}
		}
	}
	if unwanted.MatchString(what) {
		return measure{Grams: 1}
	}
	s := strings.ToLower(strings.Join(strings.Fields(what), " "))
	pack := packSize.FindString(s)
	s = brackets.ReplaceAllStringFunc(s, func(b string) string {
		if m := plainNote.FindStringSubmatch(strings.Trim(b, "()")); m != nil {
			return " " + m[1]
		}
		return " "
	})
	s = strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' }), " ")
	unit, rest := splitUnit(s, names)
	rest = cleanDetail(unit, rest, names)
	switch unit {
	case "can", "package", "container", "bottle", "packet", "jar", "box", "bar":
		if pack != "" {
			rest = pack
		}
	}
	return measure{Unit: unit, Detail: rest, Grams: 1}
}

// splitUnit takes the unit off the front of a description. A noun that names
// the food itself is a "whole", or the size that follows it.
func splitUnit(s string, names map[string]bool) (unit, rest string) {
	words := strings.Fields(s)
	for n := min(2, len(words)); n > 0; n-- {
		if u, ok := units[strings.Join(words[:n], " ")]; ok {
			return u, strings.Join(words[n:], " ")
		}
	}
	if len(words) == 0 {
		return "", ""
	}
	one := strings.TrimSuffix(words[0], "s")
	if !names[words[0]] && !names[one] && !slices.Contains(wholeWords, words[0]) {
		return "", ""
	}
	rest = strings.Join(words[1:], " ")
	for i := len(sizes) - 1; i >= 0; i-- {
		if after, ok := strings.CutPrefix(rest, sizes[i]); ok {
			return sizes[i], strings.TrimSpace(after)
		}
	}
	for n := min(2, len(words)-1); n > 0; n-- { // "thigh with skin" came above; "lemon wedge" here
		if u, ok := units[strings.Join(words[1:1+n], " ")]; ok {
			return u, strings.Join(words[1+n:], " ")
		}
	}
	return "whole", rest
}

// cleanDetail leaves the words a cook might write too and drops measurements.
func cleanDetail(unit, s string, names map[string]bool) string {
	var out []string
	for _, w := range strings.Fields(s) {
		if strings.ContainsAny(w, `"0123456789`) {
			continue
		}
		if (unit == "whole" || unit == "piece") && w == "whole" {
			continue
		}
		if (unit == "whole" || slices.Contains(sizes, unit)) && names[w] { // "large bagel" of a bagel
			continue
		}
		switch w {
		case "pieces", "the", "yields", "yield", "about", "approx", "long", "dia", "x", "or", "to", "one", "of", "refuse", "without", "thick", "single", "diameter", "high", "wide", "oz", "fl", "lb", "inch", "drained":
			if !(w == "drained" && unit == "can") && !(w == "or" && len(out) > 0) {
				continue
			}
		}
		out = append(out, strings.Trim(w, ".;"))
	}
	return strings.TrimSuffix(strings.Join(out, " "), " or")
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
