package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// MaxSwapsOnLine is the most swaps on one line whose shares are worked out:
// every combination of them is composed.
const MaxSwapsOnLine = 12

// Savings is what each swap of a version takes off, per serving at the
// original's servings, with the row for a change of helping; together they are
// the version's change to 1e-9.
type Savings struct {
	Swaps   []*recipes.Swap
	forms   []form // per serving, version less original: lighter is negative
	helping form
	base    *Account
}

// Of returns one swap's part of the change of a nutrient.
func (s *Savings) Of(i int, n food.Nutrient) Change { return s.change(&s.forms[i], n) }

// Helping returns the part that a change of servings has.
func (s *Savings) Helping(n food.Nutrient) Change { return s.change(&s.helping, n) }

func (s *Savings) change(f *form, n food.Nutrient) Change {
	c := Change{Amount: f.known[n], Percent: math.NaN(), Recipe: math.NaN(), Portion: math.NaN()}
	base := s.base.PerServing(n)
	c.Bound, c.Gaps = bound(f, n, base.Amount)
	if c.Bound != NotSure && !base.AtLeast && base.Amount > 0 {
		c.Percent = 100 * c.Amount / base.Amount
	}
	return c
}

// Account works out what each swap of the version does. A line's nutrients
// depend only on swaps that touch the line or the dish, so each line is a
// small game; a swap's saving is the sum of its exact Shapley values over
// lines (Shapley 1953, A value for n-person games). More than MaxSwapsOnLine
// on one line is refused in words.
func SavingsOf(r *recipes.Recipe, v *recipes.Version, on []*recipes.Swap, foods Foods) (*Savings, error) {
	s := &Savings{Swaps: on, forms: make([]form, len(on)), base: Of(recipes.Compose(r, nil, nil), foods)}
	var err error
	whole := form{}
	for _, l := range r.Lines {
		if err = s.shareLine(r, l, foods); err != nil {
			return nil, err
		}
	}
	for i, sw := range on {
		s.addAdded(i, sw, foods)
	}
	for i := range s.forms {
		scaled := form{}
		scaled.add(&s.forms[i], 1/r.Servings)
		s.forms[i] = scaled
	}
	if v != nil && v.Servings > 0 && v.Servings != r.Servings {
		whole.add(&Of(recipes.Compose(r, v, on), foods).sum, 1/v.Servings-1/r.Servings)
	}
	s.helping = whole
	return s, nil
}

// Alone returns what one swap does to the original by itself, per serving.
func Alone(r *recipes.Recipe, swap *recipes.Swap, foods Foods) (*Savings, error) {
	return SavingsOf(r, nil, []*recipes.Swap{swap}, foods)
}

// addAdded gives a swap what its added lines hold: they belong to it alone.
func (s *Savings) addAdded(i int, sw *recipes.Swap, foods Foods) {
	d := recipes.Compose(&recipes.Recipe{Servings: 1}, nil, []*recipes.Swap{sw})
	for k := range d.Lines {
		la := weigh(&d.Lines[k], foods)
		one := form{}
		one.addLine(&d.Lines[k], &la, takenSign(d.Lines[k].Line))
		s.forms[i].add(&one, 1)
	}
}

func takenSign(l *recipes.Line) float64 {
	if l.Kind == recipes.TakenOff {
		return -1
	}
	return 1
}

// shareLine plays one line's game among the swaps that touch it.
func (s *Savings) shareLine(r *recipes.Recipe, l *recipes.Line, foods Foods) error {
	players := playersOn(l.ID, s.Swaps)
	k := len(players)
	if k == 0 {
		return nil
	}
	if k > MaxSwapsOnLine {
		return problem.New(l.Text, words.Say("nutrition.too-many-swaps", k, MaxSwapsOnLine), words.Say("nutrition.too-many-swaps.hint"))
	}
	values := s.coalitions(r, l, players, foods)
	for p, swap := range players {
		bit := 1 << p
		for set := range values {
			if set&bit != 0 {
				continue
			}
			w := shapleyWeight(popcount(set), k)
			s.forms[swap].add(&values[set|bit], w)
			s.forms[swap].add(&values[set], -w)
		}
	}
	return nil
}

// coalitions composes the line under every subset of its swaps.
func (s *Savings) coalitions(r *recipes.Recipe, l *recipes.Line, players []int, foods Foods) []form {
	mini := &recipes.Recipe{Servings: 1, Lines: []*recipes.Line{l}, Dish: r.Dish}
	values := make([]form, 1<<len(players))
	for set := range values {
		var on []*recipes.Swap
		for p, i := range players {
			if set&(1<<p) != 0 {
				on = append(on, s.Swaps[i])
			}
		}
		d := recipes.Compose(mini, nil, on)
		for i := range d.Lines {
			if d.Lines[i].From != l.ID {
				continue // added lines are counted once, by addAdded
			}
			la := weigh(&d.Lines[i], foods)
			values[set].addLine(&d.Lines[i], &la, takenSign(d.Lines[i].Line))
		}
	}
	return values
}

// playersOn returns the indexes of the swaps that touch the line or the dish.
func playersOn(line recipes.ID, swaps []*recipes.Swap) []int {
	var out []int
	for i, s := range swaps {
		touches := s.TouchesDish()
		for _, id := range s.Touches() {
			touches = touches || id == line
		}
		if touches {
			out = append(out, i)
		}
	}
	return out
}

// shapleyWeight is |S|!(k-|S|-1)!/k!.
func shapleyWeight(size, k int) float64 {
	w := 1 / float64(k)
	for i := 1; i <= size; i++ { // 1/C(k-1, size)
		w *= float64(i) / float64(k-i)
	}
	return w
}

func popcount(x int) int {
	n := 0
	for ; x > 0; x &= x - 1 {
		n++
	}
	return n
}
