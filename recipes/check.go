package recipes

import (
	"math"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// check refuses what one edit would leave wrong in the Book as it now stands:
// the one gate for window, command line, import and undo.
func (b *Book) check(e Edit) error {
	switch x := e.entityOf().(type) {
	case *Recipe:
		if e.After == nil {
			return b.checkRecipeGone(x)
		}
		return b.checkRecipe(x)
	case *Swap:
		if e.After == nil {
			return b.checkSwapGone(x)
		}
		if err := b.checkSwap(x); err != nil {
			return err
		}
		return b.checkVersionsOf(x)
	case *Version:
		if e.After != nil {
			return b.checkVersion(x)
		}
		if len(b.TestsOf(x.Recipe, x.ID)) > 0 {
			return refuse(x.Letter, "error.version-tests")
		}
		if b.tastedAs(x.Recipe, func(s *Sample) bool { return s.Version == x.ID }) {
			return refuse(x.Letter, "error.version-tasted")
		}
		return b.checkVersionGone(x)
	case *Meal:
		if e.After == nil {
			return b.checkMealGone(x)
		}
		return b.checkMeal(x)
	case *Batch:
		if e.After != nil {
			return b.checkTest(x)
		}
		if b.tastedAs(x.Recipe, func(s *Sample) bool { return s.Batch == x.ID }) {
			return refuse("", "error.test-tasted", x.Number)
		}
	case *PinnedFood:
		if e.After == nil {
			return b.checkFoodGone(x)
		}
	}
	return b.checkSitting(e)
}

func refuse(where, key string, args ...any) error {
	return problem.New(where, words.Say(key, args...), "")
}

func (b *Book) checkRecipe(r *Recipe) error {
	if strings.TrimSpace(r.Title) == "" {
		return refuse("", "error.no-title")
	}
	if !(r.Servings > 0) || math.IsInf(r.Servings, 0) {
		return refuse(r.Title, "error.servings")
	}
	for _, l := range r.Lines {
		if err := b.checkLine(r.Title, l); err != nil {
			return err
		}
	}
	for _, s := range r.Sections {
		if !(s.ShareUsed > 0 && s.ShareUsed <= 1) || !(s.CookedGrams >= 0) || math.IsInf(s.CookedGrams, 0) {
			return refuse(r.Title, "error.section", s.Name)
		}
	}
	for _, s := range b.Swaps(r.ID) {
		if err := b.checkSwap(s); err != nil {
			return err
		}
	}
	return b.checkLoops(r)
}

// checkLine wants sensible numbers and a food the Book has pinned.
func (b *Book) checkLine(where string, l *Line) error {
	if l.Known() && (l.Grams < 0 || math.IsNaN(l.Grams) || math.IsInf(l.Grams, 0)) {
		return refuse(where, "error.grams", l.Text)
	}
	if l.PartEaten < 0 || l.PartEaten > 1 || math.IsNaN(l.PartEaten) {
		return refuse(where, "error.part-eaten", l.Text)
	}
	if l.Uptake != nil {
		for _, v := range []float64{l.Uptake.Water, l.Uptake.Salt, l.Uptake.Fat} {
			if !(v >= 0 && v <= 1) {
				return refuse(where, "error.part-eaten", l.Text)
			}
		}
	}
	if m := l.Technique.Minutes; m < 0 || math.IsNaN(m) || math.IsInf(m, 0) {
		return refuse(where, "error.minutes")
	}
	if !l.Food.Zero() && b.Food(l.Food) == nil {
		return refuse(where, "error.food-not-pinned", l.Text)
	}
	if l.Sub != nil && b.Recipe(l.Sub.Recipe) == nil {
		return refuse(where, "error.sub-missing", l.Text)
	}
	return nil
}

func (b *Book) checkSwap(s *Swap) error {
	r := b.Recipe(s.Recipe)
	if r == nil {
		return refuse(s.Name, "error.swap-no-recipe")
	}
	for i := range s.Ops {
		if err := b.checkOp(r, s, &s.Ops[i]); err != nil {
			return err
		}
	}
	return nil
}

func (b *Book) checkOp(r *Recipe, s *Swap, o *Op) error {
	if o.Line != "" && r.Line(o.Line) == nil {
		return refuse(s.Name, "error.swap-line-missing")
	}
	if o.Step != "" && r.Step(o.Step) == nil {
		return refuse(s.Name, "error.swap-step-missing")
	}
	bad := func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) || v < 0 }
	switch {
	case o.Kind == OpExchange && (bad(o.Share) || o.Share > 1):
		return refuse(s.Name, "error.share")
	case o.Kind == OpMultiply && bad(o.Factor):
		return refuse(s.Name, "error.factor")
	case o.Kind == OpPartEaten && (bad(o.Part) || o.Part > 1):
		return refuse(s.Name, "error.part-eaten", s.Name)
	}
	for _, l := range o.Lines {
		if err := b.checkLine(s.Name, l); err != nil {
			return err
		}
	}
	return nil
}

func (b *Book) checkVersion(v *Version) error {
	r := b.Recipe(v.Recipe)
	if r == nil {
		return refuse(v.Letter, "error.version-no-recipe")
	}
	if v.Servings < 0 || math.IsNaN(v.Servings) || math.IsInf(v.Servings, 0) {
		return refuse(r.Title, "error.servings")
	}
	for _, id := range v.Swaps {
		if b.Swap(v.Recipe, id) == nil {
			return refuse(r.Title, "error.version-swap-missing", v.Letter)
		}
	}
	on := b.On(v)
	for i, s := range on {
		for _, t := range on[:i] {
			if Alternatives(s, t) != NoClash {
				return refuse(r.Title, "error.either-or", v.Letter, t.Name, s.Name)
			}
		}
	}
	if id := CombinedShareTooLarge(on); id != "" {
		return refuse(r.Title, "error.shares", v.Letter, r.Line(id).Text)
	}
	return nil
}

// checkVersionsOf holds every version that has a changed swap on to what may be
// on together.
func (b *Book) checkVersionsOf(s *Swap) error {
	for _, v := range b.Versions(s.Recipe) {
		if v.Has(s.ID) {
			if err := b.checkVersion(v); err != nil {
				return err
			}
		}
	}
	return nil
}

func (b *Book) checkSwapGone(s *Swap) error {
	for _, v := range b.Versions(s.Recipe) {
		if v.Has(s.ID) {
			return refuse(s.Name, "error.swap-in-use", v.Letter)
		}
	}
	return nil
}

func (b *Book) checkRecipeGone(r *Recipe) error {
	if d := b.recipes[r.ID]; d != nil {
		return refuse(r.Title, "error.recipe-children")
	}
	if len(b.TastingsOf(r.ID)) > 0 {
		return refuse(r.Title, "error.recipe-tasted")
	}
	if users := b.usersOf(r.ID); len(users) > 0 {
		return refuse(r.Title, "error.recipe-in-use", words.Join(users))
	}
	return nil
}

// usersOf names the recipes and meals that use a recipe.
func (b *Book) usersOf(id ID) []string {
	var out []string
	for _, r := range b.Recipes() {
		for _, sub := range b.subsOf(r) {
			if sub == id {
				out = append(out, r.Title)
				break
			}
		}
	}
	for _, m := range b.Meals() {
		for _, d := range m.Dishes {
			if d.Recipe == id {
				out = append(out, m.Name)
				break
			}
		}
	}
	return out
}

// subsOf returns the recipes that a recipe or any of its swaps uses.
func (b *Book) subsOf(r *Recipe) []ID {
	var out []ID
	each := func(lines []*Line) {
		for _, l := range lines {
			if l.Sub != nil {
				out = append(out, l.Sub.Recipe)
			}
		}
	}
	each(r.Lines)
	for _, s := range b.Swaps(r.ID) {
		for i := range s.Ops {
			each(s.Ops[i].Lines)
		}
	}
	return out
}

// checkLoops refuses a recipe that would come to contain itself.
func (b *Book) checkLoops(r *Recipe) error {
	seen := map[ID]bool{}
	var walk func(id ID) bool
	walk = func(id ID) bool {
		if id == r.ID {
			return true
		}
		if seen[id] {
			return false
		}
		seen[id] = true
		if sub := b.Recipe(id); sub != nil {
			for _, next := range b.subsOf(sub) {
				if walk(next) {
					return true
				}
			}
		}
		return false
	}
	for _, id := range b.subsOf(r) {
		if walk(id) {
			return refuse(r.Title, "error.loop")
		}
	}
	return nil
}

func (b *Book) checkFoodGone(f *PinnedFood) error {
	for _, r := range b.Recipes() {
		for _, l := range r.Lines {
			if l.Food == f.Ref {
				return refuse(f.Name, "error.food-in-use", r.Title)
			}
		}
		for _, s := range b.Swaps(r.ID) {
			for i := range s.Ops {
				for _, l := range s.Ops[i].Lines {
					if l.Food == f.Ref {
						return refuse(f.Name, "error.food-in-use", r.Title)
					}
				}
			}
		}
	}
	return nil
}
