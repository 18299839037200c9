package outcome

import (
	"cmp"
	"math"
	"slices"

	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// EvidenceOf makes the ledger's evidence of one attribute: what every swap of the
// recipe takes off, by itself on the original, beside what the pool's swap
// effects say. Without a pool (nothing tasted yet) only savings are there.
func EvidenceOf(b *recipes.Book, r *recipes.Recipe, p *Pool, res *ratings.Result) (*ledger.Evidence, error) {
	g := gathering{b: b, r: r, p: p, res: res, k: nutrition.In(b), e: &ledger.Evidence{ResidualSD: math.NaN(), PotSD: math.NaN(), LackOfFit: math.NaN()}}
	g.all = b.Swaps(r.ID)
	if err := g.swaps(); err != nil {
		return nil, err
	}
	if err := g.together(); err != nil {
		return nil, err
	}
	g.versions()
	if p != nil {
		g.e.Peeked = p.Peeked
		if res == nil || p.Overall(res.Attribute) { // the limit is about how much the dish is liked
			g.e.Limit = p.Limit
		}
		g.e.Panelists = p.Panelists()
		if n := Askable(b); n > 0 {
			g.e.Panelists = n
		}
		g.fit()
	}
	return g.e, nil
}

type gathering struct {
	b   *recipes.Book
	r   *recipes.Recipe
	p   *Pool
	res *ratings.Result
	k   nutrition.Kitchen
	all []*recipes.Swap
	e   *ledger.Evidence

	saved map[recipes.ID]map[string]ledger.Saving
}

// swaps lists every swap with what it takes off, and what it cannot stand beside.
func (g *gathering) swaps() error {
	g.saved = map[recipes.ID]map[string]ledger.Saving{}
	name := LineNames(g.b, g.r)
	for _, s := range g.all {
		saving, err := g.k.Alone(g.r, s)
		if err != nil {
			return err
		}
		fact := ledger.SwapFact{ID: string(s.ID), Name: s.Name, Savings: savingsOf(name, func(n food.Nutrient) nutrition.Change { return saving.Of(0, n) })}
		g.saved[s.ID] = fact.Savings
		for _, t := range g.all {
			if t != s && recipes.Alternatives(s, t) != recipes.NoClash {
				fact.Alternatives = append(fact.Alternatives, string(t.ID))
			}
		}
		g.e.Swaps = append(g.e.Swaps, fact)
	}
	return nil
}

// LineNames names the ingredients of a recipe, of its swaps and of recipes inside
// it; one that is gone is called by its ID.
func LineNames(b *recipes.Book, r *recipes.Recipe) func(recipes.ID) string {
	return func(id recipes.ID) string {
		for _, x := range append([]*recipes.Recipe{r}, b.Recipes()...) {
			if l := x.Line(id); l != nil {
				return cmp.Or(l.Name, l.Text)
			}
			for _, s := range b.Swaps(x.ID) {
				for _, o := range s.Ops {
					for _, l := range o.Lines {
						if l.ID == id {
							return cmp.Or(l.Name, l.Text)
						}
					}
				}
			}
		}
		return string(id)
	}
}

// SavingOf turns a change into a saving, lighter positive, with its bound and the
// ingredients that lack a figure where it is not exact. name is of LineNames.
func SavingOf(c nutrition.Change, name func(recipes.ID) string) ledger.Saving {
	s := ledger.Saving{Amount: 0 - c.Amount, Known: c.Bound == nutrition.Exact}
	if s.Known {
		return s
	}
	switch c.Bound {
	case nutrition.AtLeast:
		s.Bound = ledger.AtLeast
	case nutrition.AtMost:
		s.Bound = ledger.AtMost
	}
	var all []string
	for _, id := range c.Gaps {
		if n := name(id); !slices.Contains(all, n) {
			all = append(all, n)
		}
	}
	s.Lacks = words.Join(all)
	return s
}

// savingsOf turns changes into savings by nutrient.
func savingsOf(name func(recipes.ID) string, of func(food.Nutrient) nutrition.Change) map[string]ledger.Saving {
	out := map[string]ledger.Saving{}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		out[n.Key()] = SavingOf(of(n), name)
	}
	return out
}

// together corrects the sums of swaps that touch one another: pairs first, then
// whatever a version's larger groups still leave.
func (g *gathering) together() error {
	var groups [][]*recipes.Swap
	for i, s := range g.all {
		for _, t := range g.all[:i] {
			if recipes.Alternatives(s, t) == recipes.NoClash && touch(s, t) {
				groups = append(groups, []*recipes.Swap{t, s})
			}
		}
	}
	versions := g.b.Versions(g.r.ID)
	slices.SortStableFunc(versions, func(x, y *recipes.Version) int { return len(x.Swaps) - len(y.Swaps) })
	for _, v := range versions {
		if on := g.b.On(v); len(on) > 2 {
			groups = append(groups, on)
		}
	}
	for _, on := range groups {
		if err := g.group(on); err != nil {
			return err
		}
	}
	return nil
}

// touch tells whether two swaps have a line in common, or one of them changes
// the dish.
func touch(s, t *recipes.Swap) bool {
	dish := func(x *recipes.Swap) bool {
		return slices.ContainsFunc(x.Ops, func(o recipes.Op) bool { return o.Kind == recipes.OpDish })
	}
	if dish(s) || dish(t) {
		return true
	}
	for _, id := range s.Touches() {
		if slices.Contains(t.Touches(), id) {
			return true
		}
	}
	return false
}

// group adds what swaps save together beyond their parts.
func (g *gathering) group(on []*recipes.Swap) error {
	v := &recipes.Version{ID: "together", Recipe: g.r.ID}
	ids := make([]string, len(on))
	for i, s := range on {
		v.Swaps = append(v.Swaps, s.ID)
		ids[i] = string(s.ID)
	}
	slices.Sort(v.Swaps)
	savings, err := g.k.SavingsOf(g.r, v, on)
	if err != nil {
		return err
	}
	t := ledger.Together{Swaps: ids, Savings: map[string]ledger.Saving{}}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		key := n.Key()
		sum := ledger.Saving{Known: true}
		for i := range on {
			c := savings.Of(i, n)
			sum.Amount -= c.Amount
			sum.Known = sum.Known && c.Bound == nutrition.Exact
		}
		for _, s := range on {
			sum.Amount -= g.saved[s.ID][key].Amount
		}
		for _, smaller := range g.e.Together {
			if within(smaller.Swaps, ids) {
				sum.Amount -= smaller.Savings[key].Amount
			}
		}
		if sum.Known && math.Abs(sum.Amount) > 1e-6 {
			t.Savings[key] = sum
		}
	}
	if len(t.Savings) > 0 {
		g.e.Together = append(g.e.Together, t)
	}
	return nil
}

func within(part, whole []string) bool {
	return !slices.ContainsFunc(part, func(s string) bool { return !slices.Contains(whole, s) })
}

// versions lists the original and every version with what was done with it.
func (g *gathering) versions() {
	fact := func(v *recipes.Version) ledger.VersionFact {
		f := ledger.VersionFact{Name: Original(), On: make([]bool, len(g.all))}
		id := recipes.ID("")
		if v != nil {
			id, f.Name = v.ID, v.Letter
			for i, s := range g.all {
				f.On[i] = v.Has(s.ID)
			}
		}
		f.ID = string(id)
		f.Cooked = len(g.b.TestsOf(g.r.ID, id)) > 0
		return f
	}
	g.e.Versions = append(g.e.Versions, fact(nil))
	for _, v := range g.b.Versions(g.r.ID) {
		g.e.Versions = append(g.e.Versions, fact(v))
	}
}

// fit takes over what the tastings say, from the pool's order of swaps to the
// recipe's.
func (g *gathering) fit() {
	if g.res == nil {
		return
	}
	for i := range g.e.Versions {
		f := &g.e.Versions[i]
		for _, s := range g.res.Samples {
			if s.Name == f.Name {
				f.Servings = s.N
			}
		}
		f.Pots = g.pots(f.Name)
		g.direct(f)
	}
	g.blocks()
	if g.res.SwapPart == nil || g.res.Effects == nil || math.IsNaN(g.res.Effects.ResidualSD) {
		return // without scatter nothing can be judged
	}
	g.spread(g.res.Effects)
	if l := g.res.LackOfFit; l != nil {
		g.e.LackOfFit = float64(l.P)
	}
}

// direct is a version's own difference from the original, pots in its error.
func (g *gathering) direct(f *ledger.VersionFact) {
	original := g.p.Original()
	if original == "" || f.Name == original || f.Servings == 0 || g.res.SwapPart == nil || g.res.Effects == nil {
		return
	}
	if effect, se, _, ok := g.res.Effects.Direct(f.Name, original); ok && !math.IsNaN(se) {
		f.Direct = &ledger.Estimate{Effect: effect, SE: se}
	}
}

// pots counts the pots of a sample that was scored.
func (g *gathering) pots(name string) int {
	seen := map[string]bool{}
	for i := range g.p.Table.Scores {
		if s := &g.p.Table.Scores[i]; s.Sample == name {
			seen[s.Pot] = true
		}
	}
	return len(seen)
}

// spread puts effects of the swaps that were served at the places of all swaps.
// One that was never served has no scores, so nothing depends on its effect.
func (g *gathering) spread(x *ratings.Effects) {
	at := make([]int, len(g.p.Swaps))
	for i, s := range g.p.Swaps {
		at[i] = slices.Index(g.all, s)
	}
	n := len(g.all)
	g.e.Beta, g.e.Cov = make([]float64, n), make([][]float64, n)
	for i := range g.e.Cov {
		g.e.Cov[i] = make([]float64, n)
	}
	for i, to := range at {
		g.e.Beta[to] = x.Beta[i]
		for j, other := range at {
			g.e.Cov[to][other] = x.Cov[i][j]
		}
	}
	g.e.DF, g.e.ResidualSD, g.e.PotSD = x.DF, x.ResidualSD, x.PotSD
}

// blocks lists the sets of versions that one taster scored in one tasting.
func (g *gathering) blocks() {
	place := map[string]int{}
	for i, v := range g.e.Versions {
		place[v.Name] = i
	}
	sets := map[string][]int{}
	for i := range g.p.Table.Scores {
		s := &g.p.Table.Scores[i]
		v, ok := place[s.Sample]
		if !ok || s.Attribute != g.res.Attribute {
			continue
		}
		key := s.Tasting + "/" + s.Panelist
		if !slices.Contains(sets[key], v) {
			sets[key] = append(sets[key], v)
		}
	}
	for _, set := range sets {
		slices.Sort(set)
		if !slices.ContainsFunc(g.e.Blocks, func(b []int) bool { return slices.Equal(b, set) }) {
			g.e.Blocks = append(g.e.Blocks, set)
		}
	}
	slices.SortFunc(g.e.Blocks, slices.Compare)
}
