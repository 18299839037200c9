// Package cautions finds the risks that belong to a recipe rather than to one
// swap: what must be hot inside, a marinade that touched raw meat, raw egg and
// flour, preserves, potassium salts, polyols. Each is one line with where it comes
// from. What a swap brings of its own stands in recipes/ideas.
package cautions

import (
	"slices"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Kind is a stable code of a caution; words has its line under "caution." and the
// kind, and its source under that and ".from".
type Kind string

// The cautions of a recipe, in the order they are told. Temperatures: US safe
// minimum internal temperatures (foodsafety.gov, 2019).
const (
	Poultry   Kind = "poultry"   // 74 °C (165 °F), minced too
	Minced    Kind = "minced"    // beef, pork, veal, lamb: 71 °C (160 °F)
	Meat      Kind = "meat"      // steaks, chops, roasts: 63 °C (145 °F) and three minutes' rest
	Fish      Kind = "fish"      // 63 °C (145 °F) or opaque
	Shellfish Kind = "shellfish" // pearly and opaque; shells open
	Egg       Kind = "egg"       // egg dishes 71 °C (160 °F)
	Reheated  Kind = "reheated"  // leftovers 74 °C (165 °F)
	Marinade  Kind = "marinade"  // touched raw meat: boil hard or discard
	RawEgg    Kind = "raw egg"   // eaten without being heated
	RawFlour  Kind = "raw flour" // not ready to eat
	Preserved Kind = "preserved" // salt, sugar and acid keep it safe
	Potassium Kind = "potassium" // a potassium salt
	Polyols   Kind = "polyols"   // more than a tenth: may have a laxative effect
)

// Caution is one risk in one line.
type Caution struct {
	Kind  Kind
	Lines []recipes.ID // the ingredients it comes from; none where it is the whole dish's
	Say   words.Phrase // the line itself
	From  words.Phrase // its source
}

// Of returns the cautions of a draft, each once. foods finds the rows that lines
// pin; a line whose food is not known is judged by its name.
func Of(d *recipes.Draft, foods func(food.Ref) *food.Food) []Caution {
	k := kitchen{draft: d, title: padded(d.Recipe.Title + " . " + d.Recipe.Category), method: methodOf(d)}
	k.unheated = k.isUnheated()
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Gone() || l.Line.Kind == recipes.TakenOff || l.Line.Sub != nil {
			continue
		}
		k.line(l, foods(l.Line.Food))
	}
	k.dish()
	slices.SortStableFunc(k.found, func(a, b Caution) int { return rank(a.Kind) - rank(b.Kind) })
	return k.found
}

var order = []Kind{Poultry, Minced, Meat, Fish, Shellfish, Egg, Reheated, Marinade, RawEgg, RawFlour, Preserved, Potassium, Polyols}

func rank(k Kind) int { return slices.Index(order, k) }

// Temperature tells whether a caution says how hot something must be inside.
func (k Kind) Temperature() bool { return rank(k) <= rank(Reheated) }

// kitchen gathers the cautions of one draft.
type kitchen struct {
	draft         *recipes.Draft
	title, method string
	unheated      bool
	rawMeat       []recipes.ID // meat, poultry and fish that go in raw
	polyols       float64      // grams
	polyolLines   []recipes.ID
	weight        float64 // grams going in, of what is known
	found         []Caution
}

// put adds a line to a caution, or the caution itself.
func (k *kitchen) put(kind Kind, lines ...recipes.ID) {
	for i := range k.found {
		if k.found[i].Kind == kind {
			k.found[i].Lines = append(k.found[i].Lines, lines...)
			return
		}
	}
	key := "caution." + string(kind)
	k.found = append(k.found, Caution{Kind: kind, Lines: lines, Say: words.P(key), From: words.P(key + ".from")})
}

// line judges one ingredient.
func (k *kitchen) line(d *recipes.DraftLine, f *food.Food) {
	l := d.Line
	x := thingOf(l, f)
	if g, ok := d.Grams(); ok {
		k.weight += g
		if hasAny(x.name, polyolWords) {
			k.polyols += g
			k.polyolLines = append(k.polyolLines, l.ID)
		}
	}
	kind, ok := x.inside()
	switch {
	case ok && kind == Egg && k.unheated && d.Technique.Method == "":
		k.put(RawEgg, l.ID)
	case ok:
		k.put(kind, l.ID)
		if kind != Egg {
			k.rawMeat = append(k.rawMeat, l.ID)
		}
	}
	if k.unheated && x.flour() {
		k.put(RawFlour, l.ID)
	}
	if hasAny(x.name, potassiumWords) {
		k.put(Potassium, l.ID)
	}
}

// polyolShare is the share of polyols from which the EU asks for the sentence on
// excessive consumption (Regulation (EU) 1169/2011 Annex III, 2.4: more than 10 %
// added).
const polyolShare = 0.10

// dish judges the whole.
func (k *kitchen) dish() {
	if k.weight > 0 && k.polyols/k.weight > polyolShare {
		k.put(Polyols, k.polyolLines...)
	}
	if hasAny(k.method, reheatWords) {
		k.put(Reheated)
	}
	if len(k.rawMeat) > 0 && k.marinates() {
		k.put(Marinade, k.rawMeat...)
	}
	if hasAny(k.title, preserveWords) && !hasAny(k.title, servedWith) {
		k.put(Preserved)
	}
}

// marinates tells whether something raw lies in a marinade or brine.
func (k *kitchen) marinates() bool {
	for i := range k.draft.Lines {
		d := &k.draft.Lines[i]
		if d.Gone() {
			continue
		}
		if hasAny(padded(d.Section+" . "+d.Technique.Method+" . "+d.Line.Text), marinadeWords) {
			return true
		}
	}
	return hasAny(k.method, marinadeWords)
}

// isUnheated tells whether nothing is cooked: the dish says so, or its method
// names no heat at all. A dish without a method is taken as cooked; one that is
// known to hold its egg raw is not.
func (k *kitchen) isUnheated() bool {
	switch {
	case k.draft.Dish.Method != "":
		return k.draft.Dish.Method == "raw"
	case hasAny(k.title, rawDishes):
		return true
	}
	return k.method != " " && !hasAny(k.method, heatWords)
}
