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
	kitchen Kitchen
}

// Of returns one swap's part of the change of a nutrient.
func (s *Savings) Of(i int, n food.Nutrient) Change { return s.change(&s.forms[i], n) }

// Helping returns the part that a change of servings has.
func (s *Savings) Helping(n food.Nutrient) Change { return s.change(&s.helping, n) }

func (s *Savings) change(f *form, n food.Nutrient) Change {
	c := Change{Amount: f.known[n], Percent: math.NaN(), Recipe: math.NaN(), Portion: math.NaN()}
	base := s.base.PerServing(n)
	c.Bound, c.Gaps = bound(f, n, base.Amount)
	if c.Bound != NotSure && !base.AtLeast && !base.About && base.Amount > 0 {
		c.Percent = 100 * c.Amount / base.Amount
	}
	return c
}

// SavingsOf works out what each swap of the version does by the plain rules.
func SavingsOf(r *recipes.Recipe, v *recipes.Version, on []*recipes.Swap, foods Foods) (*Savings, error) {
	return Kitchen{Foods: foods}.SavingsOf(r, v, on)
}

// SavingsOf works out what each swap of the version does. A line's nutrients
// depend only on swaps that touch the line, what is taken off it, or the dish,
// so each line is a small game; a swap's saving is the sum of its exact Shapley
// values over lines (Shapley 1953, A value for n-person games). More than
// MaxSwapsOnLine on one line is refused in words.
func (k Kitchen) SavingsOf(r *recipes.Recipe, v *recipes.Version, on []*recipes.Swap) (*Savings, error) {
	s := &Savings{Swaps: on, forms: make([]form, len(on)), base: k.Of(recipes.Compose(r, nil, nil)), kitchen: k}
	for _, l := range r.Lines {
		if l.OffOf != "" && r.Line(l.OffOf) != nil {
			continue // it is in the game of the line it comes off
		}
		if err := s.shareLine(r, l); err != nil {
			return nil, err
		}
	}
	for i, sw := range on {
		s.addAdded(r, i, sw)
	}
	for i := range s.forms {
		scaled := form{}
		scaled.add(&s.forms[i], 1/r.Servings)
		s.forms[i] = scaled
	}
	if v != nil && v.Servings > 0 && v.Servings != r.Servings {
		s.helping.add(&k.Of(recipes.Compose(r, v, on)).sum, 1/v.Servings-1/r.Servings)
	}
	return s, nil
}

// Alone returns what one swap does to the original by itself, per serving.
func Alone(r *recipes.Recipe, swap *recipes.Swap, foods Foods) (*Savings, error) {
	return SavingsOf(r, nil, []*recipes.Swap{swap}, foods)
}

// Alone returns what one swap does to the original by itself, per serving.
func (k Kitchen) Alone(r *recipes.Recipe, swap *recipes.Swap) (*Savings, error) {
	return k.SavingsOf(r, nil, []*recipes.Swap{swap})
}

// addAdded plays the game of the lines a swap adds: it alone brings them, but a
// swap of the dish's technique changes what cooking leaves of them.
func (s *Savings) addAdded(r *recipes.Recipe, i int, sw *recipes.Swap) {
	players := []int{i}
	for j, other := range s.Swaps {
		if j != i && other.TouchesDish() {
			players = append(players, j)
		}
	}
	mini := &recipes.Recipe{Servings: 1, Dish: r.Dish, Sections: r.Sections}
	s.play(players, s.values(mini, players, func(d *recipes.DraftLine) bool { return d.From == "" && d.Swap == sw.ID }))
}

// shareLine plays one line's game among the swaps that touch it.
func (s *Savings) shareLine(r *recipes.Recipe, l *recipes.Line) error {
	mini := &recipes.Recipe{Servings: 1, Dish: r.Dish, Sections: r.Sections, Lines: []*recipes.Line{l}}
	for _, off := range r.Lines {
		if off.OffOf == l.ID {
			mini.Lines = append(mini.Lines, off)
		}
	}
	players := playersOn(mini.Lines, s.Swaps)
	k := len(players)
	if k == 0 {
		return nil
	}
	if k > MaxSwapsOnLine {
		return problem.New(l.Text, words.Say("nutrition.too-many-swaps", k, MaxSwapsOnLine), words.Say("nutrition.too-many-swaps.hint"))
	}
	s.play(players, s.values(mini, players, func(d *recipes.DraftLine) bool { return d.From != "" }))
	return nil
}

// play gives each player its Shapley value of a game.
func (s *Savings) play(players []int, values []form) {
	for p, swap := range players {
		bit := 1 << p
		for set := range values {
			if set&bit != 0 {
				continue
			}
			w := shapleyWeight(popcount(set), len(players))
			s.forms[swap].add(&values[set|bit], w)
			s.forms[swap].add(&values[set], -w)
		}
	}
}

// values reckons the little recipe under every subset of its swaps, counting
// the lines that are asked for.
func (s *Savings) values(mini *recipes.Recipe, players []int, count func(*recipes.DraftLine) bool) []form {
	values := make([]form, 1<<len(players))
	for set := range values {
		var on []*recipes.Swap
		for p, i := range players {
			if set&(1<<p) != 0 {
				on = append(on, s.Swaps[i])
			}
		}
		d := recipes.Compose(mini, nil, on)
		lines := d.Lines[:0]
		for i := range d.Lines {
			if count(&d.Lines[i]) {
				lines = append(lines, d.Lines[i])
			}
		}
		d.Lines = lines
		values[set] = s.kitchen.Of(d).sum
	}
	return values
}

// playersOn returns the indexes of the swaps that touch any of the lines or the
// dish.
func playersOn(lines []*recipes.Line, swaps []*recipes.Swap) []int {
	var out []int
	for i, s := range swaps {
		touches := s.TouchesDish()
		for _, id := range s.Touches() {
			for _, l := range lines {
				touches = touches || id == l.ID
			}
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
