package reading

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// cookingWords are what a line says of how its own ingredient is cooked, with
// the way of cooking taken for it; the more telling first. "Boiled" alone is
// taken as drained: common practice, no source. Each is asked about.
var cookingWords = []struct {
	words  []string
	method string
}{
	{[]string{"boiled and drained", "boiled, drained", "boiled then drained", "blanched", "parboiled", "par-boiled", "boiled"}, "boiled, drained"},
	{[]string{"steamed"}, "steamed"},
	{[]string{"simmered", "stewed"}, "simmered"},
	{[]string{"poached"}, "poached"},
	{[]string{"braised"}, "braised"},
	{[]string{"deep-fried", "deep fried"}, "deep-fried"},
	{[]string{"grilled", "griddled", "barbecued", "broiled"}, "grilled"},
	{[]string{"roasted"}, "roasted"},
	{[]string{"baked"}, "baked"},
	{[]string{"microwaved"}, "microwaved"},
	{[]string{"browned", "fried", "pan-fried", "sauteed", "stir-fried", "softened in butter", "softened in oil"}, "pan-fried"},
}

// cookedFirst tells whether the words after the name cook the ingredient; "" for
// no way that is told apart.
func (r *lineReader) cookedFirst() (method string, ok bool) {
	prep := fold(r.say.prep)
	if hasAny(prep, "uncooked", "to be cooked", "if desired", "until", "not cooked") {
		return "", false
	}
	for _, c := range cookingWords {
		if hasAny(prep, c.words...) {
			return c.method, true
		}
	}
	return "", hasWord(prep, "cooked")
}

// pourings are words for fat that leaves the pan.
var pourings = []string{
	"fat poured off", "fat poured away", "fat drained", "fat drained off", "drained of fat", "drained of its fat", "drained of excess fat", "fat discarded",
	"fat skimmed off", "fat skimmed", "fat spooned off", "fat tipped away", "fat rendered", "rendered", "drippings discarded", "excess fat removed after", "grease drained", "drained of grease", "poured off",
}

// poursOff tells whether fat of the ingredient is poured off and not eaten, by
// its words or because meat that was fried is drained.
func (r *lineReader) poursOff(fried bool) bool {
	fat, known := r.food.Per100.Get(food.Fat)
	if r.food.State == food.Cooked || known && fat < 3 {
		return false
	}
	said := hasAny(r.say.hints, pourings...)
	meat := isMeat(r.food) || hasAny(fold(r.food.Name), "bacon", "sausage", "chorizo", "pancetta")
	return said || meat && fried && !r.canned() && hasAny(r.say.hints, "drained", "and drain")
}

// judgeCooking takes the way of cooking that a line says of its own ingredient,
// and asks about it: whether it was weighed before or after, and what left with
// the fat that was poured off. A note in square brackets is her own word and is
// not asked about.
func (r *lineReader) judgeCooking() {
	if r.food == nil || r.notes.technique.Method != "" || r.notes.state != "" {
		return
	}
	method, cooked := r.cookedFirst()
	if r.poursOff(cooked) {
		r.doubt(recipes.DoubtPoured, r.food.Name)
	}
	if !cooked || r.canned() || r.food.State != food.Raw && r.food.State != food.Dry {
		return
	}
	if method == "" || r.line.State == food.Cooked {
		r.doubt(recipes.DoubtState, string(r.food.State))
		return
	}
	r.line.Technique.Method = method
	r.doubt(recipes.DoubtCooked, method)
}
