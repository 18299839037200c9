package reading

import (
	"strings"

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
	hints := r.say.hints
	key := Key(r.say.name)
	switch {
	case r.say.part != "" && citrusIn(fold(r.say.name)) != "":
		r.take(partName(citrusIn(fold(r.say.name)), r.say.part))
	case r.meatByFat(key, hints):
	case r.herb(key, hints):
	case r.bySeason(key):
	case r.canned() && r.tryCanned():
	default:
		r.byName()
	}
	r.choices()
}

// notedFood takes the food a bracket names.
func (r *lineReader) notedFood() bool {
	if r.notes.food == "" {
		return false
	}
	best, _, _ := r.opt.Foods.Match(r.notes.food)
	if best.Food == nil {
		r.doubt(recipes.DoubtNoFood, r.notes.food)
		return true
	}
	r.setFood(best.Food)
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
	best, confident, others := r.opt.Foods.Match(name)
	if best.Food == nil {
		return false
	}
	for _, h := range others {
		if h.Food.Name == name {
			best, confident = h, true
			break
		}
	}
	r.setFood(best.Food)
	if !confident && best.Food.Name != name {
		r.doubt(recipes.DoubtFood, best.Food.Name)
	}
	return true
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
				r.doubt(recipes.DoubtClose, h.Food.Name, h.Differs)
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

// beforeIn cuts the liquid off a tinned food's name: "tuna in olive oil".
func beforeIn(name string) string {
	if i := wordIndex(strings.ToLower(name), "in"); i > 0 && i < len(name) {
		return name[:i]
	}
	return name
}

// byName matches the name: what kitchens mean by a bare word first, then the
// table's own search with all the words, then without those that only prepare.
func (r *lineReader) byName() {
	refined := r.refined()
	for _, name := range []string{r.say.full, r.say.name} {
		if p, ok := plainFood(Key(name), r.opt.System); ok && refined == "" && r.take(p.to) {
			if p.ask != "" {
				r.doubt(recipes.DoubtFood, r.food.Name, p.ask)
			}
			return
		}
	}
	queries := []string{r.say.full, r.say.name}
	if refined != "" {
		queries = append([]string{refined + " " + r.say.name}, queries...)
	}
	if bare := unadorned(r.say.name); bare != r.say.name {
		queries = append(queries, bare)
	}
	var first food.Hit
	var others []food.Hit
	for _, q := range queries {
		best, confident, more := r.opt.Foods.Match(q)
		if confident {
			r.setFood(best.Food)
			return
		}
		if first.Food == nil {
			first, others = best, more
		}
	}
	r.accept(first, others)
}

// adorning words tell how a food is sold or cut and never which food it is.
var adorning = set(`creamy crunchy ready-rolled ready-made ready-to-eat ready-to-use pre-cooked elbow short long thick-cut thick thin medium
large small unsmoked rindless chunky smooth-style full-bodied robust fruity runny shop-bought store-bought baking floury all-rounder vine-ripened vine
firm-fleshed pure natural traditional classic regular standard british american english italian spanish flavoured unflavoured loose-leaf jumbo king tiger
white-paste paste-style premium authentic lightly heaped freeze-dried sustainably sustainable cold-pressed deli thick-sliced thinly-sliced hand-picked ripened
on-the-vine mild-flavoured light-flavoured skin-on toasted roasted new-season spring winter summer day-old stale crusty good fresh cooking`)

// unadorned leaves adorning words out of a name.
func unadorned(name string) string {
	var out []string
	for _, w := range strings.Fields(name) {
		if !adorning[fold(strings.Trim(w, ",."))] {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return name
	}
	return strings.Join(out, " ")
}

// accept takes a match that is not sure and says what else may be meant.
func (r *lineReader) accept(h food.Hit, others []food.Hit) {
	if h.Food == nil {
		r.doubt(recipes.DoubtNoFood, r.line.Name)
		return
	}
	r.setFood(h.Food)
	if h.Close {
		r.doubt(recipes.DoubtClose, h.Food.Name, h.Differs)
		return
	}
	args := []string{h.Food.Name}
	for _, o := range others[:min(3, len(others))] {
		args = append(args, o.Food.Name)
	}
	r.doubt(recipes.DoubtFood, args...)
}

// covers tells whether every word of the query that names something stands in
// the food's name or one of its aliases.
func covers(h food.Hit, query string) bool {
	have := map[string]bool{}
	add := func(s string) {
		for _, w := range keyWords(s) {
			have[sameWord(w)] = true
		}
	}
	add(h.Food.Name)
	for _, a := range h.Food.Aliases {
		add(a.Name)
	}
	for _, w := range keyWords(query) {
		if !have[sameWord(w)] && !isDescriptor(w) && !neutral[w] && !describing[w] {
			return false
		}
	}
	return true
}

// neutral words in a query need no answer in a food's name.
var neutral = set(`fresh large small medium raw ripe whole half piece fillet leaf clove stalk stick head bulb bunch sprig slice can tin jar
packet ground cold warm hot unpeeled baby cherry plum vine cooking eating free range good quality kosher fine sea flaky coarse extra virgin
boneless skinless floret rasher knob handful all purpose plain 1 2 3 and with in kernel nut seed cut freshly store bought light frozen
cooked uncooked dry dried drained canned tinned rinsed root spear cube crumb powder granulated pure style mature strong mild`)

// sameWord joins British and American words and spellings for one thing.
func sameWord(w string) string {
	if s, ok := spelled[w]; ok {
		return s
	}
	return w
}

var spelled = map[string]string{
	"yoghurt": "yogurt", "chilli": "chili", "chile": "chili", "chily": "chili", "mince": "ground", "minced": "ground", "tinned": "canned",
	"tin": "canned", "can": "canned", "prawn": "shrimp", "courgette": "zucchini", "aubergine": "eggplant", "rocket": "arugula",
	"scallion": "onion", "wholemeal": "wholewheat", "wholegrain": "whole", "skimmed": "skim", "soya": "soy", "pitta": "pita",
	"filo": "phyllo", "raising": "rising", "parmigiano": "parmesan", "swede": "rutabaga", "beetroot": "beet", "gelatine": "gelatin",
	"chickpeas": "chickpea", "garbanzo": "chickpea", "capsicum": "pepper", "flavour": "flavor", "fibre": "fiber", "ketchup": "catsup",
}
