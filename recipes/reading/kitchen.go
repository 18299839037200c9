package reading

import (
	"strings"

	"parewell/recipes/measure"
)

// plain says what a bare kitchen word is taken for. To is a name in the table
// of foods; Ask is what is not said ("salted or unsalted"), "" when the word is
// clear enough. Common practice, no source.
type plain struct {
	to, ask string
}

// plainFoods are bare words, by Key, that the line's own words and unit say
// more about than the table's search can know.
var plainFoods = map[string]plain{
	"pepper":                {"pepper, black", ""},
	"peppercorn":            {"pepper, black", ""},
	"black peppercorn":      {"pepper, black", ""},
	"salt":                  {"salt, table", ""},
	"ice":                   {"water, tap", ""},
	"ice water":             {"water, tap", ""},
	"iced water":            {"water, tap", ""},
	"pasta water":           {"water, tap", ""},
	"egg":                   {"egg, whole, raw", ""},
	"ginger":                {"ginger root, raw", ""},
	"lemon":                 {"lemon, peeled, raw", ""},
	"lime":                  {"lime, raw", ""},
	"orange":                {"orange, raw", ""},
	"flour":                 {"flour, all-purpose, bleached", ""},
	"plain flour":           {"flour, all-purpose, bleached", ""},
	"whole chicken":         {"chicken, whole, meat and skin, raw", ""},
	"roasting chicken":      {"chicken, whole, meat and skin, raw", ""},
	"mushroom":              {"mushrooms, white, raw", ""},
	"bacon":                 {"bacon, raw", ""},
	"vanilla":               {"vanilla extract", ""},
	"egg pasta":             {"pasta, fresh, plain", ""},
	"fresh egg pasta":       {"pasta, fresh, plain", ""},
	"rib eye steak":         {"beef rib-eye steak, lean and fat, raw", ""},
	"ribeye steak":          {"beef rib-eye steak, lean and fat, raw", ""},
	"rib eye":               {"beef rib-eye steak, lean and fat, raw", ""},
	"ribeye":                {"beef rib-eye steak, lean and fat, raw", ""},
	"lardon":                {"bacon, raw", ""},
	"bacon lardon":          {"bacon, raw", ""},
	"smoked lardon":         {"bacon, raw", ""},
	"bacon bit":             {"bacon, raw", ""},
	"smoked bacon":          {"bacon, raw", ""},
	"smoked bacon lardon":   {"bacon, raw", ""},
	"whipped cream":         {"heavy whipping cream", "sweetened or not"},
	"arrowroot":             {"arrowroot flour", ""},
	"romaine heart":         {"romaine lettuce", ""},
	"heart romaine":         {"romaine lettuce", ""},
	"heart romaine lettuce": {"romaine lettuce", ""},
	"mixed mushroom":        {"mushrooms, white, raw", "which mushrooms"},
	"wild mushroom":         {"mushrooms, white, raw", "which mushrooms"},
	"vanilla pod":           {"vanilla extract", "a pod stands for about a teaspoon of extract"},
	"vanilla bean":          {"vanilla extract", "a pod stands for about a teaspoon of extract"},
	"sesame seed":           {"sesame seeds, whole", ""},
	"tahini":                {"tahini", ""},
	"salsa":                 {"salsa, ready to serve", ""},
}

// britishFoods are words that mean another food in metric or imperial recipes.
var britishFoods = map[string]plain{
	"tomato puree":  {"tomato paste, no salt", "tomato paste in Britain, thinner in the US"},
	"chilli powder": {"pepper, red or cayenne", "pure chilli in Britain, a blend in the US"},
	"chili powder":  {"pepper, red or cayenne", "pure chilli in Britain, a blend in the US"},
	"cornflour":     {"cornstarch", "starch in Britain, fine cornmeal in the US"},
	"corn flour":    {"cornstarch", "starch in Britain, fine cornmeal in the US"},
}

// americanFoods are the same words in US recipes.
var americanFoods = map[string]plain{
	"tomato puree":  {"tomato puree, no salt", "tomato paste in Britain, thinner in the US"},
	"chilli powder": {"chili powder", "pure chilli in Britain, a blend in the US"},
	"chili powder":  {"chili powder", ""},
	"cornflour":     {"cornstarch", "starch in Britain, fine cornmeal in the US"},
	"corn flour":    {"corn masa flour, yellow", "starch in Britain, fine cornmeal in the US"},
}

// plainFood returns what a key is taken for in the system's kitchen.
func plainFood(key string, sys measure.System) (plain, bool) {
	local := americanFoods
	if sys != measure.US {
		local = britishFoods
	}
	if p, ok := local[key]; ok {
		return p, true
	}
	p, ok := plainFoods[key]
	return p, ok
}

// herbs come fresh or dried: fresh when counted in sprigs, bunches or
// handfuls, when chopped or in cups; dried by the teaspoon; the words decide
// first. The value is the table's fresh and dried row.
var herbs = map[string][2]string{
	"basil":     {"basil, fresh", "basil, dried"},
	"parsley":   {"parsley, fresh", "parsley, dried"},
	"coriander": {"cilantro (coriander leaf), fresh", "coriander seed"},
	"cilantro":  {"cilantro (coriander leaf), fresh", "coriander leaf, dried"},
	"dill":      {"dill weed, fresh", "dill weed, dried"},
	"rosemary":  {"rosemary, fresh", "rosemary, dried"},
	"thyme":     {"thyme, fresh", "thyme, dried"},
	"mint":      {"spearmint, fresh", "spearmint, dried"},
	"oregano":   {"", "oregano, dried"},
	"sage":      {"", "sage, ground"},
	"tarragon":  {"", "tarragon, dried"},
	"marjoram":  {"", "marjoram, dried"},
	"chervil":   {"", "chervil, dried"},
}

// freshUsually are herbs that a tablespoon means fresh of.
var freshUsually = set("basil parsley coriander cilantro dill mint chives tarragon chervil")

// herbIn returns the herb a key is about: "fresh basil leaf" is basil.
func herbIn(key string) (string, bool) {
	name := ""
	for _, w := range strings.Fields(key) {
		switch w {
		case "fresh", "dried", "dry", "leaf", "leave", "flat", "curly", "italian", "chopped", "ground", "sprig", "bunch", "freeze", "rubbed", "of", "stalk", "stem", "frond", "picked", "seed", "thai", "continental", "handful", "tender", "and", "large", "small":
		default:
			if name != "" {
				return "", false
			}
			name = w
		}
	}
	_, ok := herbs[name]
	return name, ok
}

// herbFood picks the fresh or dried row of a herb from the words and the unit;
// sure is false when neither says.
func herbFood(herb, hints string, a *amount) (name string, sure bool) {
	rows := herbs[herb]
	seed := herb == "coriander" && hasAny(hints, "seed", "seeds", "ground", "powder", "powdered")
	dried := seed || hasAny(hints, "dried", "dry", "ground", "rubbed", "powdered", "freeze-dried")
	fresh := hasAny(hints, "fresh", "freshly", "chopped", "leaves", "leaf", "sprig", "sprigs", "bunch", "torn", "picked", "stalks", "stems", "handful", "minced", "shredded", "garnish", "flat-leaf", "snipped", "sliced") && !dried
	sure = true
	if !dried && !fresh {
		fresh, sure = herbByUnit(herb, a)
	}
	if fresh && rows[0] == "" {
		return rows[1], false
	}
	if fresh {
		return rows[0], sure
	}
	if dried && herb == "coriander" && hasAny(hints, "leaf", "leaves") {
		return "coriander leaf, dried", sure
	}
	return rows[1], sure
}

// herbByUnit guesses from the unit: spoons of strong herbs are dried.
func herbByUnit(herb string, a *amount) (fresh, sure bool) {
	if !a.found || a.unit == nil {
		return true, true
	}
	switch a.unit.Word {
	case "tsp", "pinch", "dash", "smidgen":
		return false, true
	case "tbsp", "dessertspoon":
		return freshUsually[herb], false
	}
	return true, true
}
