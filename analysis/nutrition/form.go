package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// form is a sum of nutrients as known amounts plus so many times unknown
// quantities: known + Σ times·u. Differences and averages of forms stay exact,
// and an unknown that stands on both sides cancels by itself.
type form struct {
	known  [food.NutrientCount]float64
	blanks []blank
	parts  uint32 // nutrients to which some known amount was added
}

// blank is one unknown quantity in a form. It is either a food's missing value
// (food set: times counts 100 g of it) or a line whose weight or food is not
// known (line set: times counts the line as written).
type blank struct {
	nutrient food.Nutrient
	food     *food.Food
	line     recipes.ID
	times    float64
	most     float64 // the most that one of times can hold; +Inf if nothing bounds it
	at       recipes.ID
}

// sameUnknown tells whether two blanks stand for the same unknown quantity.
func (b *blank) sameUnknown(c *blank) bool {
	return b.nutrient == c.nutrient && b.line == c.line && (b.food == c.food || b.food != nil && c.food != nil && b.food.Ref == c.food.Ref)
}

// addLine adds what a line holds, or takes it off.
func (f *form) addLine(d *recipes.DraftLine, la *LineAccount) {
	switch {
	case d.Scale == 0:
		return
	case la.Sub != nil:
		f.add(&la.Sub.sum, la.sign*la.Parts*d.PartEaten*d.Used())
	case la.Food == nil:
		f.blankLine(d, la.sign, food.AllKnown)
	case !la.Weighed:
		f.blankLine(d, la.sign, contains(&la.Food.Per100))
	case la.kept != nil:
		f.addKept(d.Line.ID, la.Food, la.sign*la.partGrams(d)/100, la.kept)
	default:
		f.addFood(d.Line.ID, la.Food, la.sign*la.Eaten/100)
	}
}

// partGrams is the weight a row's values count for when factors apply: an
// uptake has its shares in the factors, all else in the part eaten.
func (la *LineAccount) partGrams(d *recipes.DraftLine) float64 {
	if d.Line.Uptake != nil {
		return la.Edible * d.Used()
	}
	return la.Eaten
}

// addKept adds hundreds times a food's row with what cooking leaves of it.
func (f *form) addKept(line recipes.ID, x *food.Food, hundreds float64, k *kept) {
	p := &x.Per100
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		v, ok := p.Get(n)
		if ok {
			f.known[n] += hundreds * v * k.times[n]
			f.parts |= 1 << n
			continue
		}
		most, bounded := p.Bound(n)
		if !bounded {
			most = math.Inf(1)
		}
		f.blanks = append(f.blanks, blank{nutrient: n, food: x, times: hundreds * k.times[n], most: most, at: line})
	}
	f.known[food.EnergyKcal] -= hundreds * k.lostKcal
	f.known[food.EnergyKJ] -= hundreds * k.lostKcal * food.KJPerKcal
}

// contains returns the nutrients of which the food has some, or may have.
func contains(p *food.Profile) uint32 {
	mask := food.AllKnown
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		if v, ok := p.Get(n); ok && v == 0 {
			mask &^= 1 << n
		}
	}
	return mask
}

// addFood adds hundreds times a food's row.
func (f *form) addFood(line recipes.ID, x *food.Food, hundreds float64) {
	p := &x.Per100
	for n := range f.known {
		f.known[n] += hundreds * p.Value[n] // an unknown value is stored as 0
	}
	f.parts |= p.Known
	if p.Known == food.AllKnown {
		return
	}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		if p.Known&(1<<n) != 0 {
			continue
		}
		most, ok := p.Bound(n)
		if !ok {
			most = math.Inf(1)
		}
		f.blanks = append(f.blanks, blank{nutrient: n, food: x, times: hundreds, most: most, at: line})
	}
}

// blankLine records a line whose amount is not known, for the nutrients in mask.
func (f *form) blankLine(d *recipes.DraftLine, sign float64, mask uint32) {
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		if mask&(1<<n) == 0 {
			continue
		}
		f.blanks = append(f.blanks, blank{
			nutrient: n, line: d.Line.ID, times: sign * d.Scale * d.PartEaten * d.Used(), most: math.Inf(1), at: d.Line.ID,
		})
	}
}

// add puts times another form onto f; blanks of the same unknown are joined.
func (f *form) add(g *form, times float64) {
	for n := range f.known {
		f.known[n] += times * g.known[n]
	}
	f.parts |= g.parts
	for i := range g.blanks {
		b := g.blanks[i]
		b.times *= times
		f.join(b)
	}
}

func (f *form) join(b blank) {
	for i := range f.blanks {
		if f.blanks[i].sameUnknown(&b) {
			f.blanks[i].times += b.times
			return
		}
	}
	f.blanks = append(f.blanks, b)
}

// Figure is one nutrient of a dish, serving or 100 g. When Nowhere is set not
// one part of it is known and Amount means nothing. AtLeast says that lines
// in Gaps hold more that is not known; Minor lists lines whose blank could not
// move the figure by 1 % or 0.1 g a serving. About says that the figure may be
// off either way: per 100 g of a weight that is not whole, or with something
// taken off whose amount is not known.
type Figure struct {
	Amount  float64
	AtLeast bool
	About   bool
	Nowhere bool
	Gaps    []recipes.ID
	Minor   []recipes.ID
}

// figure reads one nutrient of the dish, times a factor.
func (a *Account) figure(n food.Nutrient, times float64) Figure {
	f := Figure{Amount: a.sum.known[n] * times}
	minor := 0.0
	for i := range a.sum.blanks {
		if b := &a.sum.blanks[i]; b.nutrient == n {
			minor += math.Abs(b.times) * b.most
		}
	}
	small := negligible(minor, a.sum.known[n], a.Draft.Servings)
	for i := range a.sum.blanks {
		b := &a.sum.blanks[i]
		switch {
		case b.nutrient != n || b.times == 0:
		case small:
			f.Minor = append(f.Minor, b.at)
		default:
			f.Gaps = append(f.Gaps, b.at)
			f.About = f.About || b.times < 0
		}
	}
	f.AtLeast = len(f.Gaps) > 0 && !f.About
	f.Nowhere = len(f.Gaps) > 0 && a.sum.parts&(1<<n) == 0
	return f
}

// Limits of a blank that only the details list (DESIGN section 5): it cannot
// move the total by 1 %, or by 0.1 g a serving. All blanks of a nutrient are
// taken together, so that many small ones cannot hide a large one.
const (
	minorShare = 0.01
	minorGrams = 0.1
)

// negligible tells whether unknowns that sum to at most most (grams in the
// whole dish) cannot matter beside the known amount.
func negligible(most, known, servings float64) bool {
	return most < minorShare*math.Abs(known) || most < minorGrams*servings
}
