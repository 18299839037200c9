package recipes

import (
	"slices"

	"parewell/recipes/food"
)

// The answers a cook gives to a doubtful line. Each returns a changed copy; the
// doubts it answers are gone, others stay.

// WithGrams gives the line the weight she states, in grams as written.
func (l *Line) WithGrams(grams float64) *Line {
	c := l.without(DoubtAmount, DoubtTooMuch, DoubtToTaste, DoubtDefault, DoubtRange, DoubtPack, DoubtMeasure, DoubtDrained)
	c.Grams, c.GramsFrom, c.GramsNote = grams, GramsTyped, ""
	return c
}

// WithFood pins another food; the weight stays as it is.
func (l *Line) WithFood(f *food.Food) *Line {
	c := l.without(DoubtFood, DoubtClose, DoubtNoFood, DoubtState, DoubtCooked, DoubtPoured)
	c.Food, c.Sub = f.Ref, nil
	return c
}

// WithSub makes the line another recipe's version, or another amount of it, that
// weighs so many grams today; title is the recipe's and text the line's.
func (l *Line) WithSub(sub SubRecipe, grams float64, title, text string) *Line {
	c := l.without(DoubtFood, DoubtClose, DoubtNoFood, DoubtState, DoubtAmount, DoubtToTaste, DoubtDefault, DoubtRange, DoubtPack, DoubtMeasure)
	c.Food, c.Sub, c.Name, c.Text = food.Ref{}, &sub, title, text
	c.Grams, c.GramsFrom, c.GramsNote = grams, GramsTyped, ""
	c.Amount, c.High, c.Unit = grams, 0, "g"
	return c
}

// WithPartEaten sets the share that is eaten, 0-1.
func (l *Line) WithPartEaten(share float64) *Line {
	c := l.without(DoubtPartEaten)
	c.PartEaten = share
	return c
}

// WithState says what was weighed.
func (l *Line) WithState(s food.State) *Line {
	c := l.without(DoubtState, DoubtCooked)
	c.State = s
	return c
}

// WithAsBought says whether the weight is with peel, bone or shell.
func (l *Line) WithAsBought(on bool) *Line {
	c := *l
	c.AsBought = on
	return &c
}

// Accepted takes the line as it stands: nothing about it asks any more.
func (l *Line) Accepted() *Line {
	c := *l
	c.Settled = true
	return &c
}

func (l *Line) without(kinds ...DoubtKind) *Line {
	c := *l
	c.Doubts = slices.DeleteFunc(slices.Clone(l.Doubts), func(d Doubt) bool { return slices.Contains(kinds, d.Kind) })
	if len(c.Doubts) == 0 {
		c.Doubts = nil
	}
	return &c
}

// WithTechnique says how the ingredient itself is cooked; the zero Technique is
// as the dish.
func (l *Line) WithTechnique(t Technique) *Line {
	c := l.without(DoubtCooked)
	c.Technique = t
	return c
}

// WithoutPouring no longer asks about fat that is poured off.
func (l *Line) WithoutPouring() *Line { return l.without(DoubtPoured) }

// WithoutSalted no longer asks about the salt of the water it is boiled in.
func (l *Line) WithoutSalted() *Line { return l.without(DoubtSalted) }

// WithUptake says how much of a marinade, brine or cooking water is eaten, by
// part; nil goes back to the part eaten.
func (l *Line) WithUptake(u *Uptake) *Line {
	c := l.without(DoubtPartEaten)
	c.Uptake = u
	return c
}
