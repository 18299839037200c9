package outcome

import (
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// How far apart samples of one tasting may be in what is no swap before the
// results say so: a warm dish 5 °C cooler, or one that stood a quarter of an hour
// longer, is tasted as another dish (common practice, no source).
const (
	heatApart = 5  // °C as served
	heldApart = 15 // minutes between cooking and serving
)

// uneven says in what the samples of a tasting differed much that is no swap:
// how warm they were served and how long they had stood. What nobody wrote down
// is not compared.
func uneven(b *recipes.Book, t *recipes.Tasting) []string {
	var out []string
	for _, x := range []struct {
		key   string
		apart float64
		of    func(*recipes.Sample) float64
	}{
		{"outcome.uneven.heat", heatApart, func(s *recipes.Sample) float64 { return s.Celsius }},
		{"outcome.uneven.held", heldApart, func(s *recipes.Sample) float64 { return s.Held }},
	} {
		var low, high *recipes.Sample
		for _, s := range tasting.InOrder(b, t.ID) {
			v := x.of(s)
			if !(v > 0) {
				continue
			}
			if low == nil || v < x.of(low) {
				low = s
			}
			if high == nil || v > x.of(high) {
				high = s
			}
		}
		if low != nil && x.of(high)-x.of(low) > x.apart {
			out = append(out, words.Say(x.key, t.Date, tasting.NameOf(b, t, low), words.Trim(x.of(low), 1), tasting.NameOf(b, t, high), words.Trim(x.of(high), 1)))
		}
	}
	return out
}
