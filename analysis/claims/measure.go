package claims

import (
	"math"

	"parewell/recipes/food"
)

// side returns the dish a test is about.
func (f *Facts) side(original bool) *Side {
	if original {
		return &f.Original
	}
	return &f.Version
}

// grams returns the weight of food that a basis stands for, for one side;
// false where the amount itself is one serving.
func (f *Facts) grams(s *Side, b Basis) (Value, bool) {
	switch b {
	case PerServing:
		return s.Serving, false
	case Per50g:
		return Exactly(50), true
	case PerReference:
		if f.Category.Grams > 0 {
			return Exactly(f.Category.Grams), true
		}
		return volume(f.Category.ML, s), true
	case Per100:
		if f.Liquid {
			return volume(100, s), true
		}
	}
	return Exactly(100), true
}

// volume is the weight of so many ml; anything where the density or the volume
// is not known.
func volume(ml float64, s *Side) Value {
	if ml > 0 && s.GramsPerML > 0 {
		return Exactly(ml * s.GramsPerML)
	}
	return Anything
}

// amount returns one nutrient for the amount of food a basis stands for.
func (f *Facts) amount(s *Side, n food.Nutrient, b Basis) Value {
	if !s.Known {
		return Anything
	}
	grams, scaled := f.grams(s, b)
	if !scaled {
		return s.PerServing[n]
	}
	return s.PerServing[n].over(s.Serving).product(grams)
}

// sumOf returns saturated and trans fat of a serving together: at least each
// and at most all the fat.
func sumOf(s *Side) Value {
	v := s.PerServing[food.SaturatedFat].plus(s.PerServing[food.TransFat])
	v.High = max(v.Low, min(v.High, s.PerServing[food.Fat].High))
	return v
}

// kcalPerGram are the general factors by which a share of the energy is
// counted (21 CFR 101.9(c)(1)(i)(B); Regulation (EU) 1169/2011 Annex XIV).
var kcalPerGram = map[food.Nutrient]float64{food.Fat: 9, food.SaturatedFat: 9, food.Protein: 4}

// shareOf returns the per cent of the energy that so many kcal are.
func shareOf(kcal, energy Value) Value {
	if kcal.High == 0 {
		return Exactly(0)
	}
	return kcal.over(energy).times(100)
}

// sameAmount is the ratio that brings the version's serving to the same amount
// of food as the original's: by weight, or by volume where the basis is one.
func (f *Facts) sameAmount(b Basis) Value {
	if b == PerServing {
		return Exactly(1)
	}
	byVolume := b == PerReference && f.Category.Grams == 0 || b == Per100 && f.Liquid
	if !byVolume {
		return f.WeightRatio
	}
	if !(f.Original.GramsPerML > 0) || !(f.Version.GramsPerML > 0) {
		return Anything
	}
	return f.WeightRatio.times(f.Version.GramsPerML / f.Original.GramsPerML)
}

// measure takes what a test is about from the facts.
func (f *Facts) measure(t *Test) Value {
	s := f.side(t.OnOriginal)
	if !s.Known && t.Measure != Asked {
		return anySign
	}
	switch t.Measure {
	case Amount:
		return f.amount(s, t.Nutrient, t.Basis)
	case Sum:
		grams, _ := f.grams(s, t.Basis)
		return sumOf(s).over(s.Serving).product(grams)
	case EnergyShare:
		return shareOf(s.PerServing[t.Nutrient].times(kcalPerGram[t.Nutrient]), s.PerServing[food.EnergyKcal])
	case SumShare:
		return shareOf(sumOf(s).times(kcalPerGram[food.SaturatedFat]), s.PerServing[food.EnergyKcal])
	case Per100kcal:
		return shareOf(s.PerServing[t.Nutrient], s.PerServing[food.EnergyKcal])
	case Weight:
		return s.Serving
	case DailyShare:
		return f.daily(s, t)
	}
	return f.compared(t)
}

// compared takes the measures that need both sides.
func (f *Facts) compared(t *Test) Value {
	if !f.Original.Known || !f.Version.Known {
		return anySign
	}
	before, after := &f.Original, &f.Version
	switch t.Measure {
	case Reduction:
		return reduction(before.PerServing[t.Nutrient], after.PerServing[t.Nutrient], f.sameAmount(t.Basis))
	case SumReduction:
		return reduction(sumOf(before), sumOf(after), f.sameAmount(t.Basis))
	case Difference:
		return f.amount(before, t.Nutrient, t.Basis).minus(f.amount(after, t.Nutrient, t.Basis))
	case DailyGain:
		return f.daily(after, t).minus(f.daily(before, t))
	}
	return anySign
}

// daily returns the per cent of the daily value. Protein counts only after
// correction for its quality (21 CFR 101.9(c)(7)); while that is not known the
// whole amount is the most it can be.
func (f *Facts) daily(s *Side, t *Test) Value {
	v := f.amount(s, t.Nutrient, t.Basis).times(100 / dailyValues[t.Nutrient])
	if t.Nutrient != food.Protein {
		return v
	}
	if s.Quality > 0 {
		return v.times(s.Quality)
	}
	return Value{0, v.High}
}

// limit returns the figure a test asks for.
func (f *Facts) limit(t *Test) float64 {
	if f.Liquid && t.LiquidLimit > 0 && t.Basis == Per100 {
		return t.LiquidLimit
	}
	return t.Limit
}

// applies tells whether the test counts for the dish: the rule of 50 g is for
// small reference amounts.
func (f *Facts) applies(t *Test) bool {
	return t.Basis != Per50g || f.Category.Small()
}

// check carries out one test.
func (f *Facts) check(t Test) Check {
	c := Check{Test: t, Limit: f.limit(&t), Value: anySign, Grams: math.NaN()}
	if t.Measure == Asked {
		c.outcome = answered(f.Answers[t.Question])
		if c.outcome == open {
			c.Missing = f.missing(&t)
		}
		return c
	}
	c.Value = f.measure(&t)
	c.outcome = c.Value.holds(t.Op, c.Limit)
	if grams, _ := f.grams(f.side(t.OnOriginal), t.Basis); t.Basis != OfItself {
		c.Grams = grams.Number()
	}
	if c.outcome == open {
		c.Missing = f.missing(&t)
	}
	return c
}

func answered(a Answer) truth {
	switch a {
	case Yes:
		return yes
	case No:
		return no
	}
	return open
}
