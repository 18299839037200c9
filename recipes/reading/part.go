package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Shares of a line that are eaten when only part of it is: from memory, always
// marked. Deep-frying leaves about a tenth of the oil in the food's crust; a
// marinade leaves half in the bowl, a brine nine tenths.
const (
	deepFriedShare = 0.1
	friedShare     = 0.75
	greasedShare   = 0.5
	dustedShare    = 0.5
	marinadeShare  = 0.5
	brineShare     = 0.1
	coatedShare    = 0.6
	// of the salt in a cooking water, by pasta: Food Chem 2019;271:479-487,
	// doi:10.1016/j.foodchem.2018.07.198; for what else is boiled it stands in.
	waterSaltShare = 0.129
)

// purposes are the words that set a part eaten and, where a line has no
// amount, a default amount: grams of a solid or millilitres of an oil.
type purposeRule struct {
	words []string
	share float64
	grams float64 // default amount, 0 none
}

var purposeRules = []purposeRule{
	{words: []string{"deep-frying", "deep frying", "deep-fry", "deep fry", "deep fryer"}, share: deepFriedShare, grams: 900},
	{words: []string{"for frying", "for shallow frying", "for shallow-frying", "for pan-frying", "to fry", "frying"}, share: friedShare, grams: 30},
	{words: []string{"for greasing", "to grease", "greasing", "for the pan", "for the tin", "for the dish", "for pan", "for tin", "for the grill", "for the griddle", "for oiling", "for the baking sheet", "for the bowl"}, share: greasedShare, grams: 5},
	{words: []string{"for dusting", "for rolling", "to dust", "for the work surface", "for work surface", "for kneading", "for flouring"}, share: dustedShare, grams: 10},
	{words: []string{"for dredging", "for coating", "to coat"}, share: coatedShare, grams: 30},
	{words: []string{"for the marinade", "marinade", "for marinating", "to marinate"}, share: marinadeShare},
	{words: []string{"for the brine", "brine", "for brining"}, share: brineShare},
	{words: []string{"for brushing", "to brush", "for glazing", "to glaze", "egg wash", "eggwash", "for the glaze"}, share: greasedShare, grams: 15},
	{words: []string{"for cooking", "for the griddle", "for sauteing"}, share: friedShare, grams: 15},
	{words: []string{"for drizzling", "to drizzle"}, share: 1, grams: 10},
	{words: []string{"for sprinkling", "to sprinkle", "for dusting over"}, share: 1, grams: 5},
}

// purpose finds the rule for what the line is for, nil when there is none.
func (r *lineReader) purpose() *purposeRule {
	text := r.say.purpose
	if text == "" {
		text = fold(r.say.prep)
	}
	for i := range purposeRules {
		if hasAny(text, purposeRules[i].words...) {
			return &purposeRules[i]
		}
	}
	head := fold(r.opt.Section)
	for i := range purposeRules {
		if rule := &purposeRules[i]; rule.share == marinadeShare && rule.grams == 0 || rule.share == brineShare && rule.grams == 0 {
			if head != "" && hasAny(head, rule.words...) {
				return rule
			}
		}
	}
	return nil
}

// weighNothing handles a line without an amount: salt and what is "to taste"
// stay unknown, a stated purpose has a default, a spice a quarter teaspoon.
func (r *lineReader) weighNothing() {
	rule := r.purpose()
	switch {
	case r.food == nil:
		r.doubt(recipes.DoubtAmount)
	case r.byMemory():
	case isSalt(r.food):
		r.doubt(recipes.DoubtToTaste)
	case rule != nil && rule.grams > 0:
		r.set(rule.grams, recipes.GramsDefault, rule.words[0])
		r.doubt(recipes.DoubtDefault, figure(rule.grams))
	case isSpice(r.food):
		r.weighSpice()
	case isWater(r.food):
		r.set(100, recipes.GramsDefault, "")
		r.line.PartEaten = 0
		r.doubt(recipes.DoubtAmount)
	case isGarnish(r.food) && hasAny(r.say.hints, "to serve", "for serving", "to garnish", "for garnish", "garnish", "to finish", "to decorate", "for garnishing"):
		r.set(10, recipes.GramsDefault, "to serve")
		r.doubt(recipes.DoubtDefault, "10")
	case containsWordStart(fold(r.say.name), "spray") || hasWord(fold(r.say.name), "spray"):
		r.set(1, recipes.GramsDefault, "1 spray = 1 g")
		r.doubt(recipes.DoubtDefault, "1")
	case r.say.taste && !strings.Contains(r.say.purpose, "need"):
		r.doubt(recipes.DoubtToTaste)
	default:
		r.doubt(recipes.DoubtAmount)
	}
}

// weighSpice gives a spice or herb without an amount half a gram or, fresh,
// five grams; both move next to nothing.
func (r *lineReader) weighSpice() {
	g := 0.5
	if kcal, ok := r.food.Per100.Get(food.EnergyKcal); ok && kcal < 120 {
		g = 5 // a fresh herb
	}
	r.set(g, recipes.GramsDefault, "")
	if r.say.taste || fold(r.food.Name) == "pepper, black" {
		r.doubt(recipes.DoubtToTaste)
		return
	}
	r.doubt(recipes.DoubtDefault, figure(g))
}

// isGarnish tells foods so light that a wedge or a few leaves move little.
func isGarnish(f *food.Food) bool {
	kcal, ok := f.Per100.Get(food.EnergyKcal)
	return ok && kcal < 60 && (f.Group == "fruit" || f.Group == "vegetables")
}

// isSalt tells foods that are mostly salt, from 15 g sodium in 100 g up.
func isSalt(f *food.Food) bool {
	v, ok := f.Per100.Get(food.Sodium)
	return ok && v >= 15000
}

func isSpice(f *food.Food) bool { return f.Group == "herbs, spices, seasonings" && !isSalt(f) }

// isWater tells foods with neither energy nor salt to speak of.
func isWater(f *food.Food) bool {
	kcal, ok := f.Per100.Get(food.EnergyKcal)
	na, ok2 := f.Per100.Get(food.Sodium)
	return ok && ok2 && kcal < 0.5 && na < 10
}

// inedible parts that "discarded" usually speaks of; the rest is eaten.
var inedible = []string{
	"seeds", "seed", "stems", "stem", "stalks", "stalk", "skin", "skins", "rind", "core", "cores", "peel", "bones", "bone", "ends", "end", "pith", "leaves",
	"shells", "shell", "fat", "liquid", "stones", "pits", "roots", "tops", "fronds", "ribs", "pods", "tails", "heads", "membrane", "outer", "syrup", "husks", "water", "juices", "silk", "wings", "giblets", "excess", "unopened", "woody", "soaking", "brine", "oil",
}

// judgePart sets the part that is eaten where the line says that not all is.
func (r *lineReader) judgePart() {
	l := r.line
	rule := r.purpose()
	switch {
	case l.PartEaten == 0:
	case r.say.extra && r.amt.found:
		r.doubt(recipes.DoubtPartEaten, "extra")
	case r.food != nil && isSalt(r.food) && saltOfWater(l):
		r.setPart(waterSaltShare)
	case rule != nil && rule.share < 1:
		r.setPart(r.fryingShare(rule))
	case hasAny(r.say.hints, "discarded", "discard", "to discard", "and discard") && !hasAny(r.say.hints, inedible...):
		r.setPart(0)
	case hasAny(r.say.hints, "reserve", "reserved", "reserving") && !hasAny(r.say.hints, inedible...):
		r.doubt(recipes.DoubtPartEaten, "reserved")
	case r.food != nil && leftWhole(r.food, r.say.hints):
		r.setPart(0)
	case r.food != nil && isWater(r.food) && hasAny(r.say.hints, "for boiling", "for cooking", "for soaking", "for the pasta", "to cover", "for steaming", "for blanching", "for poaching", "ice"):
		r.setPart(0)
	}
}

func (r *lineReader) setPart(share float64) {
	r.line.PartEaten = share
	r.doubt(recipes.DoubtPartEaten, figure(share*100))
}

// fryingShare lowers the share of frying oil when there is too much of it to
// stay in the food.
func (r *lineReader) fryingShare(rule *purposeRule) float64 {
	if rule.share != friedShare || !r.line.Known() {
		return rule.share
	}
	switch {
	case r.line.Grams >= 200:
		return deepFriedShare
	case r.line.Grams >= 90:
		return 0.3
	}
	return rule.share
}

// leftWhole tells aromatics that are lifted out before serving.
func leftWhole(f *food.Food, hints string) bool {
	name := fold(f.Name)
	switch {
	case containsWordStart(name, "bay leaf"):
		return !hasAny(hints, "ground", "crumbled", "powder")
	case containsWordStart(name, "cinnamon"), containsWordStart(name, "anise"), containsWordStart(name, "cardamom"):
		return hasAny(hints, "stick", "sticks", "star", "pods", "bark")
	}
	return hasAny(hints, "bouquet garni")
}
