package tasting

import (
	"slices"

	"parewell/recipes"
)

// Ready returns the tasting as it is served: each taster's tray without the
// samples she does not eat. Order and codes of the others stay.
func Ready(b *recipes.Book, t *recipes.Tasting) *recipes.Tasting {
	s := Check(b, t, b.Samples(t.ID))
	n := *t
	n.Seats = slices.Clone(t.Seats)
	for i := range n.Seats {
		seat := &n.Seats[i]
		if without := s.Of(seat.Number).Without; len(without) > 0 {
			seat.Cups = slices.DeleteFunc(slices.Clone(seat.Cups), func(c recipes.Cup) bool { return slices.Contains(without, c.Sample) })
		}
	}
	return &n
}

// Amount is how much of a sample a tasting needs.
type Amount struct {
	Sample *recipes.Sample
	Cups   int     // on all trays, the open ones too
	Grams  float64 // cups x portion, with the spare
}

// Amounts returns what to cook of each sample, in the plan's order. A seat whose
// taster stayed away is not cooked for; an empty one is.
func Amounts(b *recipes.Book, t *recipes.Tasting) []Amount {
	samples := InOrder(b, t.ID)
	out := make([]Amount, len(samples))
	for i, s := range samples {
		out[i].Sample = s
		for _, seat := range t.Seats {
			if seat.Away != "" {
				continue
			}
			for _, c := range seat.Cups {
				if c.Sample == s.ID {
					out[i].Cups++
				}
			}
			if seat.Reference == s.ID {
				out[i].Cups++
			}
		}
		out[i].Grams = float64(out[i].Cups) * t.Portion * (1 + t.Spare)
	}
	return out
}

// InOrder returns a tasting's samples in the order they were planned. It tells
// versions apart by place: for the plan and the run sheet only.
func InOrder(b *recipes.Book, id recipes.ID) []*recipes.Sample {
	out := b.Samples(id)
	slices.SortStableFunc(out, func(x, y *recipes.Sample) int { return x.Place - y.Place })
	return out
}

// Waves cuts the seats into rounds of so many cups that every sample of a round
// can be served before it is too old; perWave 0 serves all at once.
func Waves(t *recipes.Tasting, perWave int) [][]int {
	var out [][]int
	for _, s := range t.Seats {
		if s.Away != "" {
			continue
		}
		last := len(out) - 1
		if last < 0 || perWave > 0 && len(out[last]) >= perWave {
			out = append(out, nil)
			last++
		}
		out[last] = append(out[last], s.Number)
	}
	return out
}
