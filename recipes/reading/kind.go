package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// tinnedPulse takes the cooked row for a tin of pulses the table knows dry
// only: a tin holds cooked ones.
func (r *lineReader) tinnedPulse() {
	if r.food == nil || r.food.State != food.Dry || r.food.Group != "legumes and soy" || !r.canned() {
		return
	}
	if f := cookedRow(r.opt.Foods, r.food); f != nil {
		r.setFood(f)
		r.undoubt(recipes.DoubtFood, recipes.DoubtClose)
		r.doubt(recipes.DoubtClose, "boiled without salt: a tin has salt in it", f.Name)
	}
}

// notTinned says so when a tin is taken for a food of which the table has no
// tinned row: tins have salt, syrup or oil in them and their contents are cooked.
func (r *lineReader) notTinned() {
	if r.food == nil || !r.canned() || hasAny(fold(r.food.Name+" "+r.food.Published), "canned", "cnd", "condensed", "evaporated", "ready to serve", "jarred") {
		return
	}
	head, _, _ := strings.Cut(r.food.Name, ",")
	if best, _, _ := r.opt.Foods.Match("canned " + head); best.Food != nil && !best.Close && best.Food.Group == r.food.Group && hasAny(fold(best.Food.Name), "canned") {
		r.setFood(best.Food)
		r.undoubt(recipes.DoubtFood, recipes.DoubtClose)
		r.doubt(recipes.DoubtFood, best.Food.Name)
		return
	}
	switch r.food.Group {
	case "vegetables", "fruit", "legumes and soy", "fish and shellfish", "poultry", "pork", "beef":
		r.doubt(recipes.DoubtClose, "the table has it fresh, dry or frozen only; a tin differs in salt, syrup or oil", r.food.Name)
	}
}

// herb matches a herb, fresh or dried.
func (r *lineReader) herb(key, hints string) bool {
	h, ok := herbIn(key)
	if !ok {
		return false
	}
	name, sure := herbFood(h, hints, &r.amt)
	if name == "" || !r.take(name) {
		return false
	}
	if !sure {
		r.doubt(recipes.DoubtFood, r.food.Name, "fresh or dried")
	}
	return true
}

// bySeason sorts out words that the unit decides: pepper by the spoon is the
// spice, by the piece the vegetable; ginger by the teaspoon may be ground.
func (r *lineReader) bySeason(key string) bool {
	spoon := r.amt.unit != nil && (r.amt.unit.Word == "tsp" || r.amt.unit.Word == "pinch" || r.amt.unit.Word == "dash")
	counted := r.amt.found && r.amt.unit == nil && r.amt.grams == 0
	switch key {
	case "pepper":
		if counted && !hasAny(r.say.hints, "ground", "cracked", "milled") {
			r.doubt(recipes.DoubtFood, "bell pepper, red, raw", "red or green")
			return r.take("bell pepper, red, raw")
		}
	case "red pepper", "green pepper", "yellow pepper", "orange pepper":
		if spoon {
			return r.take("pepper, red or cayenne")
		}
		colour, _, _ := strings.Cut(key, " ")
		if colour == "orange" {
			colour = "yellow"
		}
		return r.take("bell pepper, " + colour + ", raw")
	case "ginger":
		if hasAny(r.say.hints, "ground", "powder", "powdered", "dried") {
			return r.take("ginger, ground")
		}
		if spoon && !hasAny(r.say.hints, "fresh", "grated", "minced", "chopped", "root", "peeled", "finely") {
			r.doubt(recipes.DoubtFood, "ginger, ground", "ground or fresh")
			return r.take("ginger, ground")
		}
	case "clove":
		return r.take("cloves, ground")
	case "corn", "sweetcorn", "corn cob", "corn on the cob":
		if counted || r.amt.unit != nil && r.amt.unit.Word == "ear" {
			return r.take("sweet corn, yellow, raw")
		}
	case "chicken":
		if heavy := r.amt.grams >= 1000 && r.amt.unit != nil && !soldRaw(strings.ReplaceAll(r.say.hints, "whole", "")); heavy {
			return r.take("chicken, whole, meat and skin, raw")
		}
		if n := r.amt.num.Value(); hasAny(r.say.hints, "cut up", "jointed", "cut into 8", "whole") || counted && n > 0 || r.amt.per > 900 || counted && r.amt.grams > 900*n {
			return r.take("chicken, whole, meat and skin, raw")
		}
	}
	return false
}

// canned tells whether the line is about a tinned food.
func (r *lineReader) canned() bool {
	u := r.amt.unit
	return u != nil && (u.Word == "can" || u.Word == "tin") || hasAny(r.say.hints, "canned", "tinned", "can", "tin", "from a can", "from a tin")
}

// tryCanned looks for the canned row first; false when the food's own name is
// the better match (condensed milk, coconut milk).
func (r *lineReader) tryCanned() bool {
	query := "canned " + plainLiquid(r.say.full)
	if hasAny(r.say.hints, "drained", "rinsed") {
		query += " drained"
	}
	best, confident, others := r.opt.Foods.Match(query)
	for i, h := range append([]food.Hit{best}, others...) {
		if h.Food != nil && hasAny(fold(h.Food.Name+" "+h.Food.Published), "canned", "cnd") && (i == 0 && confident || covers(h, beforeIn(r.say.name))) {
			r.setFood(h.Food)
			if h.Close {
				r.doubt(recipes.DoubtClose, h.Differs, h.Food.Name)
			}
			return true
		}
	}
	return false
}

// plainLiquid names what a tin is filled with as the tables do: oil, water.
func plainLiquid(name string) string {
	low := fold(name)
	i := wordIndex(low, "in")
	if i <= 0 || len(low) != len(name) {
		return name
	}
	switch liquid := low[i:]; {
	case hasWord(liquid, "oil"):
		return name[:i] + "in oil"
	case hasAny(liquid, "brine", "water", "spring water", "salt water"):
		return name[:i] + "in water"
	}
	return name
}

// cookedRow is the cooked row of a dry rice, pasta, grain or pulse, nil if the
// table has none; any white rice is the same once cooked.
func cookedRow(foods Foods, f *food.Food) *food.Food {
	if f.State != food.Dry || !strings.HasSuffix(f.Name, ", dry") {
		return nil
	}
	base := strings.TrimSuffix(f.Name, ", dry")
	kind, _, _ := strings.Cut(base, ",")
	names := []string{base + ", cooked", base + ", cooked, no salt", kind + ", cooked"}
	if strings.HasPrefix(base, "rice, white") {
		names = append(names, "rice, white, long-grain, cooked")
	}
	for _, n := range names {
		if c := foods.Named(n); c != nil && c.State == food.Cooked {
			return c
		}
	}
	return nil
}

// beforeIn cuts the liquid off a tinned food's name: "tuna in olive oil".
func beforeIn(name string) string {
	if i := wordIndex(strings.ToLower(name), "in"); i > 0 && i < len(name) {
		return name[:i]
	}
	return name
}

// inState changes to a row of the same food in the state the text says:
// leftover turkey to roasted turkey, fresh fettuccine to fresh pasta.
func (r *lineReader) inState() {
	if r.food == nil {
		return
	}
	if hasWord(fold(r.food.Name), "pasta") && r.food.State == food.Dry && hasWord(r.say.hints, "fresh") && !hasAny(r.say.hints, "dried", "dry") {
		r.take("pasta, fresh, plain")
		return
	}
	if statedIn(fold(r.say.full)) != food.Cooked || r.food.State == food.Cooked || !asksState(r.food) {
		return
	}
	if f := cookedRow(r.opt.Foods, r.food); f != nil {
		r.setFood(f)
		r.undoubt(recipes.DoubtFood, recipes.DoubtClose)
		r.doubt(recipes.DoubtFood, f.Name)
		return
	}
	for _, how := range []string{"cooked", "roasted", "boiled", "grilled"} {
		best, _, others := r.opt.Foods.Match(how + " " + r.say.name)
		for _, h := range append([]food.Hit{best}, others...) {
			if h.Food != nil && h.Food.State == food.Cooked && h.Food.Group == r.food.Group && covers(h, r.say.name) {
				r.setFood(h.Food)
				r.undoubt(recipes.DoubtFood)
				r.doubt(recipes.DoubtFood, h.Food.Name)
				return
			}
		}
	}
}
