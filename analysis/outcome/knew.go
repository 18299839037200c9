package outcome

import (
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
)

// Knew is how the last question came out: who said they could tell which was the
// usual recipe, and were right.
type Knew struct {
	Tasting recipes.ID
	Asked   int     // who answered, those who could not tell too
	Named   int     // who named a cup
	Right   int     // and were right
	Chance  float64 // of a right guess
	P       float64 // chance of so many right ones by guessing alone
}

// Told tells whether more knew than guessing explains, at 5 %: then liking is to
// be read with care.
func (k *Knew) Told() bool { return k.Named > 0 && k.P < 0.05 }

// KnewOf reads the last question of a closed tasting; false when nobody answered.
func KnewOf(b *recipes.Book, t *recipes.Tasting) (Knew, bool) {
	choices, err := tasting.Choices(b, t.ID, recipes.AskUsual)
	if err != nil || len(choices) == 0 {
		return Knew{}, false
	}
	k := Knew{Tasting: t.ID, Asked: len(choices)}
	originals, cups := 0, 0
	for _, c := range choices {
		if c.Sample == "" {
			continue
		}
		k.Named++
		if c.Right {
			k.Right++
		}
		for _, cup := range t.SeatOf(c.Panelist).Cups {
			cups++
			if s := b.Sample(t.ID, cup.Sample); s != nil && tasting.Original(s) {
				originals++
			}
		}
	}
	if cups > 0 {
		k.Chance = float64(originals) / float64(cups)
		k.P = sensory.AtLeast(k.Named, k.Right, k.Chance)
	}
	return k, true
}
