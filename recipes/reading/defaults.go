package reading

import "parewell/recipes/food"

// piece is a stated default for a counted thing the table has no measure of.
type piece struct {
	unit  string // "" for a bare count
	in    string // start of a word of the food's name, or "" for any food
	hint  string // a word of the line that must stand there, "" for none
	grams float64
}

// pieces: weights from USDA SR26 WEIGHT where it has the food under another
// number, otherwise common practice, from memory.
var pieces = []piece{
	{"bunch", "parsley", "", 60},
	{"bunch", "cilantro", "", 60},
	{"bunch", "basil", "", 40},
	{"bunch", "mint", "", 40},
	{"bunch", "spearmint", "", 40},
	{"bunch", "dill", "", 30},
	{"bunch", "thyme", "", 20},
	{"bunch", "rosemary", "", 25},
	{"bunch", "chives", "", 25},
	{"bunch", "scallion", "", 100},
	{"bunch", "spring", "", 100},
	{"bunch", "spinach", "", 340},
	{"bunch", "kale", "", 250},
	{"bunch", "chard", "", 250},
	{"bunch", "watercress", "", 85},
	{"bunch", "asparagus", "", 250},
	{"bunch", "radish", "", 180},
	{"bunch", "beet", "", 450},
	{"bunch", "carrot", "", 450},
	{"bunch", "celery", "", 500},
	{"bunch", "broccoli", "", 600},
	{"bunch", "grape", "", 400},
	{"bunch", "collard", "", 350},
	{"bunch", "bok", "", 300},
	{"bunch", "", "", 60},
	{"sprig", "parsley", "", 1},
	{"sprig", "thyme", "", 0.8},
	{"sprig", "rosemary", "", 1.5},
	{"sprig", "basil", "", 2},
	{"sprig", "mint", "", 1.5},
	{"sprig", "spearmint", "", 1.5},
	{"sprig", "", "", 1},
	{"leaf", "basil", "", 0.5},
	{"leaf", "sage", "", 0.3},
	{"leaf", "bay", "", 0.2},
	{"leaf", "mint", "", 0.1},
	{"leaf", "gelatin", "", 2},
	{"leaf", "lime", "", 0.3},
	{"", "bay", "", 0.2},
	{"", "cinnamon", "", 2.6},
	{"", "nutmeg", "", 7},
	{"stick", "cinnamon", "", 2.6},
	{"", "cloves", "", 0.1},
	{"", "anise", "", 1},
	{"pod", "cardamom", "", 0.2},
	{"", "cardamom", "", 0.2},
	{"pod", "vanilla", "", 3},
	{"", "vanilla", "", 3},
	{"", "pepper, black", "", 0.03},
	{"strand", "saffron", "", 0.002},
	{"pinch", "saffron", "", 0.1},
	{"head", "garlic", "", 45},
	{"bulb", "garlic", "", 45},
	{"", "garlic", "", 3},
	{"piece", "ginger root", "", 15},
	{"knob", "ginger root", "", 15},
	{"", "ginger root", "", 15},
	{"head", "broccoli", "", 350},
	{"head", "cauliflower", "", 575},
	{"head", "lettuce", "", 360},
	{"head", "cabbage", "", 900},
	{"head", "celery", "", 500},
	{"head", "fennel", "", 234},
	{"stalk", "lemon", "", 15},
	{"", "lemongrass", "", 15},
	{"stalk", "celery", "", 40},
	{"stick", "celery", "", 40},
	{"stalk", "rhubarb", "", 51},
	{"slice", "bread", "", 30},
	{"slice", "bacon", "", 28},
	{"slice", "ham", "", 28},
	{"slice", "cheese", "", 28},
	{"slice", "", "lemon", 8},
	{"", "bacon", "", 28},
	{"", "pork sausage", "", 57},
	{"", "sausage", "", 75},
	{"link", "sausage", "", 75},
	{"", "frankfurter", "", 45},
	{"", "chorizo", "", 60},
	{"fillet", "salmon", "", 150},
	{"fillet", "cod", "", 150},
	{"fillet", "haddock", "", 150},
	{"fillet", "trout", "", 80},
	{"fillet", "anchov", "", 4},
	{"", "anchov", "", 4},
	{"fillet", "mackerel", "", 110},
	{"fillet", "", "", 150},
	{"", "salmon", "", 150},
	{"", "cod", "", 150},
	{"", "haddock", "", 150},
	{"", "trout", "", 150},
	{"", "tuna", "steak", 150},
	{"", "shrimp", "", 12},
	{"", "scallops", "", 15},
	{"", "mussels", "", 4},
	{"", "clams", "", 10},
	{"", "oysters", "", 15},
	{"", "squid", "", 120},
	{"", "lobster", "", 150},
	{"", "chicken breast", "", 174},
	{"", "chicken thigh", "", 115},
	{"", "chicken drumstick", "", 90},
	{"", "chicken leg", "", 200},
	{"", "chicken wing", "", 50},
	{"", "chicken, whole", "", 1000},
	{"", "chicken, meat", "", 174},
	{"", "turkey, whole", "", 3600},
	{"", "turkey breast", "", 700},
	{"", "duck", "", 1100},
	{"", "quail", "", 110},
	{"", "pork loin chop", "", 150},
	{"", "pork chop", "", 150},
	{"", "pork tenderloin", "", 450},
	{"", "lamb", "shank", 350},
	{"", "lamb", "chop", 90},
	{"", "lamb", "", 150},
	{"", "beef", "steak", 225},
	{"", "beef", "", 225},
	{"", "egg", "", 50},
	{"sheet", "puff pastry", "", 245},
	{"", "puff pastry", "", 320},
	{"sheet", "phyllo", "", 19},
	{"sheet", "pasta", "", 18},
	{"", "pasta", "sheets", 18},
	{"sheet", "pie crust", "", 215},
	{"", "pie crust", "", 215},
	{"sheet", "gelatin", "", 2},
	{"sheet", "laver", "", 2.6},
	{"ball", "mozzarella", "", 125},
	{"", "mozzarella", "", 125},
	{"cube", "bouillon", "", 4},
	{"", "bouillon", "", 4},
	{"square", "chocolate", "", 28},
	{"", "tortilla", "", 45},
	{"", "baguette", "", 250},
	{"loaf", "bread", "", 450},
	{"", "ciabatta", "", 270},
	{"", "roll", "", 57},
	{"", "bun", "", 50},
	{"", "avocado", "", 150},
	{"", "mango", "", 207},
	{"", "eggplant", "", 458},
	{"", "zucchini", "", 196},
	{"", "butternut", "", 900},
	{"", "pumpkin", "", 1800},
	{"", "cabbage", "", 900},
	{"", "cauliflower", "", 575},
	{"", "broccoli", "", 350},
	{"", "celeriac", "", 450},
	{"", "celery", "", 40},
	{"", "leek", "", 89},
	{"", "shallot", "", 25},
	{"", "fennel bulb", "", 234},
	{"", "parsnip", "", 120},
	{"", "turnip", "", 122},
	{"", "rutabaga", "", 386},
	{"", "hot chili", "", 45},
	{"", "hot chile", "", 1},
	{"", "jalapeno", "", 14},
	{"", "serrano", "", 6},
	{"", "ancho", "", 17},
	{"", "tomatillo", "", 34},
	{"", "artichoke", "", 120},
	{"", "endive", "", 150},
	{"", "bok choy", "", 200},
	{"", "mushrooms, portobello", "", 84},
	{"", "mushroom", "", 18},
	{"", "olives", "", 4},
	{"", "date", "", 8},
	{"", "fig", "", 50},
	{"", "prune", "", 9},
	{"", "apricot", "", 35},
	{"", "cherries", "", 8},
	{"", "grape", "", 5},
	{"", "strawberr", "", 12},
	{"", "almond", "", 1.2},
	{"", "walnut", "", 4},
	{"", "pecan", "", 2},
	{"", "sun-dried", "", 3},
	{"", "dill pickle", "", 65},
	{"", "marshmallow", "", 7},
	{"", "graham", "", 15},
	{"", "ladyfinger", "", 11},
	{"", "baking chocolate", "", 28},
	{"", "romaine", "hearts", 180},
	{"", "romaine", "heart", 180},
	{"", "canola oil", "spray", 1},
	{"", "chili sauce", "chipotle", 10},
	{"", "allspice", "juniper", 0.1},
	{"", "olive oil", "spray", 1},
	{"", "tofu", "", 350},
}

// pieceDefault returns a stated default for one of a food by unit word.
func pieceDefault(f *food.Food, unit, hints string) (float64, bool) {
	name := fold(f.Name)
	for i := range pieces {
		p := &pieces[i]
		if p.unit == unit && (p.in == "" || containsWordStart(name, p.in)) && (p.hint == "" || hasWord(hints, p.hint)) {
			return p.grams, true
		}
	}
	return 0, false
}

// cmDefault is what a centimetre of a root or stick weighs, from memory; 0 for
// foods that are not measured by length.
func cmDefault(f *food.Food) float64 {
	name := fold(f.Name)
	switch {
	case containsWordStart(name, "ginger"), containsWordStart(name, "turmeric"):
		return 5
	case containsWordStart(name, "cinnamon"):
		return 0.35
	case containsWordStart(name, "cucumber"):
		return 12
	case containsWordStart(name, "daikon"):
		return 20
	case containsWordStart(name, "chorizo"), containsWordStart(name, "salami"):
		return 10
	}
	return 0
}
