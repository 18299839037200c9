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
	if r.notes.state == food.Cooked && !hasWord(r.say.hints, "cooked") {
		r.say.full = "cooked " + r.say.full
		r.say.hints += " cooked"
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
	r.tinnedPulse()
	r.choices()
}

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
	if r.byNeighbour() {
		return
	}
	var first food.Hit
	var others, parts []food.Hit
	for _, q := range queries {
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
	if (first.Food == nil || r.strange(first.Food)) && r.byHead() {
		return
	}
	if first.Food == nil && r.byTail() {
		return
	}
	if first.Food == nil || r.strange(first.Food) {
		r.doubt(recipes.DoubtNoFood, append([]string{r.line.Name}, hitNames(parts)...)...)
		return
	}
	r.accept(first, others)
	r.inState()
}

// byHead takes the last words alone where they surely name a food ("dry stout"
// of any make is stout); always a doubt.
func (r *lineReader) byHead() bool {
	list := strings.Fields(r.say.name)
	for i := 1; i < len(list); i++ {
		head := strings.Join(list[i:], " ")
		best, confident, _ := r.opt.Foods.Match(head)
		if best.Close && saysLight(fold(strings.Join(list[:i], " "))) {
			r.accept(best, nil)
			return true
		}
		if confident && best.Food.Group != "grains, pasta, flour" && !products[Key(list[len(list)-1])] {
			r.setFood(best.Food)
			r.doubt(recipes.DoubtFood, best.Food.Name)
			return true
		}
	}
	return false
}

// saysLight tells whether words only say that a food is made with less.
func saysLight(low string) bool {
	for _, alike := range lightWords {
		for _, w := range alike {
			if low == w {
				return true
			}
		}
	}
	return false
}

// cutWords are last words that only say how a food is cut or that it is one.
var cutWords = set("steak joint piece chunk strip cube half cheese meat fillet slice crumb flake round ball")

// byTail leaves a last word that only says how the food is cut.
func (r *lineReader) byTail() bool {
	list := strings.Fields(r.say.name)
	if len(list) < 2 || !cutWords[Key(list[len(list)-1])] {
		return false
	}
	best, confident, others := r.opt.Foods.Match(strings.Join(list[:len(list)-1], " "))
	if best.Food == nil {
		return false
	}
	if confident {
		others = nil
	}
	r.accept(best, others)
	return true
}

// lightWords are ways to say that a food is made with less, which tables say
// in one of them only.
var lightWords = [][]string{
	{"low-fat", "reduced-fat", "half-fat", "lower-fat", "light", "lite", "lighter", "reduced-calorie", "low fat", "reduced fat", "half fat", "lower fat"},
	{"fat-free", "nonfat", "non-fat", "0% fat", "zero-fat", "fat free", "0%"},
	{"low-sodium", "reduced-sodium", "low-salt", "reduced-salt", "lower-salt", "lower-sodium", "no-salt-added", "no-salt", "low salt", "reduced salt", "low sodium", "reduced sodium"},
}

// byLightness tries the other ways to say "light", "fat-free" and "low-salt";
// the food then differs in how much less, so it is a doubt.
func (r *lineReader) byLightness(name string) bool {
	low := fold(name)
	for _, alike := range lightWords {
		for _, said := range alike {
			if !hasWord(low, said) {
				continue
			}
			for _, other := range alike {
				f := r.opt.Foods.Named(squeeze(strings.Replace(low, said, other, 1)))
				if other != said && f != nil {
					r.setFood(f)
					r.doubt(recipes.DoubtFood, f.Name)
					return true
				}
			}
		}
	}
	return false
}

// products are last words that name a made food: a match without them is
// another food ("cream of mushroom soup" is no cream).
var products = set(`soup sauce seasoning mix syrup paste dressing spread curd pudding pie cake cookie biscuit cracker chip crisp drink cereal
gravy liqueur extract relish chutney pesto jelly candy sweet bar roll dumpling fritter stuffing granola muesli essence leaf powder crumb blossom
stew curry casserole salad sandwich pizza custard mousse`)

// strange tells that the food lacks the word that says what the thing is.
func (r *lineReader) strange(f *food.Food) bool {
	list := keyWords(r.say.name)
	if len(list) < 2 || !products[list[len(list)-1]] {
		return false
	}
	return !covers(food.Hit{Food: f}, list[len(list)-1])
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

// adorning words tell how a food is sold or cut and never which food it is.
var adorning = set(`creamy crunchy ready-rolled ready-made ready-to-eat ready-to-use pre-cooked elbow short long thick-cut thick thin medium
large small baby unsmoked rindless chunky smooth-style full-bodied robust fruity runny shop-bought store-bought baking floury all-rounder vine-ripened vine
firm-fleshed pure natural traditional classic regular standard british american english italian spanish flavoured unflavoured loose-leaf jumbo king tiger
white-paste paste-style premium authentic lightly heaped freeze-dried sustainably sustainable cold-pressed deli thick-sliced thinly-sliced hand-picked ripened
on-the-vine mild-flavoured light-flavoured skin-on new-season spring winter summer day-old stale crusty good fresh cooking`)

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
cooked uncooked dry dried drained canned tinned rinsed root meat spear cube crumb powder granulated pure style mature strong mild`)

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
