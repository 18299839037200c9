package sheets

import (
	"slices"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// measuresField writes household measures for a field, a line each.
func measuresField(all []food.Measure) string {
	var out []string
	for _, m := range all {
		out = append(out, words.Say("label.measure", m.String(), words.Field(m.Grams, 3)))
	}
	return strings.Join(out, "\n")
}

// readMeasures reads "1 tbsp = 15 g" and "½ cup, chopped: 60 g", a line each;
// wrong is the first line that cannot be read.
func readMeasures(text string) (out []food.Measure, wrong string) {
	for _, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		m, ok := readMeasure(line)
		if !ok {
			return out, strings.TrimSpace(line)
		}
		out = append(out, m)
	}
	return out, ""
}

func readMeasure(line string) (food.Measure, bool) {
	at := strings.LastIndexAny(line, "=:")
	if at < 0 {
		return food.Measure{}, false
	}
	left, right := strings.TrimSpace(line[:at]), line[at+1:]
	grams, ok := reading.Grams(right)
	if !ok || !(grams > 0) {
		return food.Measure{}, false
	}
	count := 1.0
	if n, rest, ok := measure.ReadNumber(left); ok {
		if n.High != 0 && n.High != n.Low || !(n.Low > 0) {
			return food.Measure{}, false
		}
		count, left = n.Low, rest
	}
	unit, detail, _ := strings.Cut(left, ",")
	m := food.Measure{Unit: strings.ToLower(strings.TrimSpace(unit)), Detail: strings.TrimSpace(detail), Grams: grams / count}
	return named(m)
}

// ownVolumes are the volumes a food has measures of.
var ownVolumes = []string{"tsp", "tbsp", "fl oz", "cup", "pint", "quart", "ml"}

// named gives a measure the table's own word for its unit: other volumes are
// turned into millilitres; a weight is no measure.
func named(m food.Measure) (food.Measure, bool) {
	u := measure.Lookup(m.Unit)
	switch {
	case m.Unit == "":
		return m, false
	case u == nil:
		return m, true // "bar", "whole": as the cook calls it
	case u.Kind == measure.Mass || u.Kind == measure.Length:
		return m, false
	case u.Kind == measure.Volume && !slices.Contains(ownVolumes, u.Word):
		m.Unit, m.Grams = "ml", m.Grams/float64(u.Millilitres(measure.Metric))
	default:
		m.Unit = u.Word
	}
	return m, true
}
