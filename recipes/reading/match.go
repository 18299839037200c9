package reading

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// matchFood finds the food of the line and says how sure that is.
func (r *lineReader) matchFood() {
	if r.opt.Foods == nil {
		r.doubt(recipes.DoubtNoFood)
		return
	}
	if r.notedFood() || r.rememberedFood() {
		return
	}
	r.takeNotedState()
	hints := r.say.hints
	key := Key(r.say.name)
	switch {
	case r.say.part != "" && citrusIn(fold(r.say.name)) != "":
		r.take(partName(citrusIn(fold(r.say.name)), r.say.part))
	case r.meatByFat(key, hints):
	case r.herb(key, hints):
	case r.bySeason(key):
	case r.canned() && !r.localWord() && r.tryCanned():
	default:
		r.byName()
	}
	r.tinnedPulse()
	r.notTinned()
	r.choices()
}

// takeNotedState lets a bracketed state choose the row as the same word before
// the name would: "[cooked]", "[dry]", "[raw]", "[drained]".
func (r *lineReader) takeNotedState() {
	state := string(r.notes.state)
	if state == "" || hasWord(r.say.hints, state) {
		return
	}
	r.say.full = state + " " + r.say.full
	r.say.hints += " " + state
}

// notedFood takes the food a bracket names.
func (r *lineReader) notedFood() bool {
	if r.notes.food == "" {
		return false
	}
	f := r.opt.Foods.Named(r.notes.food)
	if f == nil {
		best, _, _ := r.opt.Foods.Match(r.notes.food)
		f = best.Food
	}
	if f == nil {
		r.doubt(recipes.DoubtNoFood, r.notes.food)
		return true
	}
	r.setFood(f)
	return true
}

// rememberedFood takes what the cook decided of this name before.
func (r *lineReader) rememberedFood() bool {
	c := r.choice()
	if c == nil || c.Food.Zero() {
		return false
	}
	f := r.opt.Foods.Get(c.Food)
	if f == nil {
		return false
	}
	r.setFood(f)
	return true
}

// choice is what the cook decided of the line's name, nil if nothing.
func (r *lineReader) choice() *recipes.Choice {
	if r.opt.Memory == nil {
		return nil
	}
	for _, name := range []string{r.say.full, r.say.name} {
		if c := r.opt.Memory.Choice(Key(name)); c != nil {
			return c
		}
	}
	return nil
}

func (r *lineReader) setFood(f *food.Food) {
	r.food = f
	r.line.Food = f.Ref
}

// take sets the food of a table's own name; false when the table lacks it.
func (r *lineReader) take(name string) bool {
	if f := r.opt.Foods.Named(name); f != nil {
		r.setFood(f)
		return true
	}
	best, confident, _ := r.opt.Foods.Match(name)
	if best.Food == nil {
		return false
	}
	r.setFood(best.Food)
	if !confident {
		r.doubt(recipes.DoubtFood, best.Food.Name)
	}
	return true
}

// byName matches the name: what kitchens mean by a bare word first, then the
// table's own search with all the words, then without those that only prepare.
func (r *lineReader) byName() {
	refined := r.refined()
	if refined == "" && r.byPlainWord() || r.byNeighbour() {
		return
	}
	var first food.Hit
	var others, parts []food.Hit
	for _, q := range r.queries(refined) {
		best, confident, more := r.opt.Foods.Match(q)
		if confident {
			r.setFood(best.Food)
			r.inState()
			return
		}
		if r.byLightness(q) {
			return
		}
		if first.Food == nil {
			first, others = best, more
		}
		if parts == nil {
			parts = more
		}
	}
	lost := first.Food == nil || r.strange(first.Food)
	switch {
	case lost && (r.byRemark() || r.byPowder() || r.byHead() || first.Food == nil && (r.byTail() || r.byOrdinary() || r.byWhole(parts))):
	case lost:
		r.doubt(recipes.DoubtNoFood, append([]string{r.line.Name}, hitNames(parts)...)...)
	default:
		r.accept(first, others)
		r.inState()
	}
}

// localWord tells a name that means another food in Britain than in the US.
func (r *lineReader) localWord() bool {
	for _, name := range []string{r.say.full, r.say.name} {
		if _, ok := britishFoods[Key(name)]; ok {
			return true
		}
	}
	return false
}

// byPlainWord takes what kitchens mean by a bare word.
func (r *lineReader) byPlainWord() bool {
	for _, name := range []string{r.say.full, r.say.name} {
		if p, ok := plainFood(Key(name), r.opt.System); ok && r.take(p.to) {
			if p.ask != "" {
				r.doubt(recipes.DoubtFood, r.food.Name, p.ask)
			}
			return true
		}
	}
	return false
}

// queries are the names to look up, most telling first.
func (r *lineReader) queries(refined string) []string {
	out := []string{r.say.full, r.say.name}
	if refined != "" {
		out = append([]string{refined + " " + r.say.name}, out...)
	}
	if bare := unadorned(r.say.name); bare != r.say.name {
		out = append(out, bare)
	}
	return out
}

// accept takes a match that is not sure and says what else may be meant.
func (r *lineReader) accept(h food.Hit, others []food.Hit) {
	r.setFood(h.Food)
	if h.Close {
		r.doubt(recipes.DoubtClose, h.Differs, h.Food.Name)
		return
	}
	r.doubt(recipes.DoubtFood, append([]string{h.Food.Name}, hitNames(others)...)...)
}

// hitNames are the names of the first three foods to choose from.
func hitNames(hits []food.Hit) []string {
	var out []string
	for _, h := range hits[:min(3, len(hits))] {
		out = append(out, h.Food.Name)
	}
	return out
}
