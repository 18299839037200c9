package cautions

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// thing is an ingredient as far as a risk goes: the words for it, its group in
// the tables and the state it goes in.
type thing struct {
	name  string // padded words of line and food
	group string
	state food.State
}

func thingOf(l *recipes.Line, f *food.Food) thing {
	x := thing{name: padded(l.Name), state: l.State}
	if l.Name == "" {
		x.name = padded(l.Text)
	}
	if f != nil {
		x.name += padded(f.Name)
		x.group = f.Group
		if f.State != "" {
			x.state = f.State
		}
	}
	return x
}

// Groups of the tables that must be hot inside.
var meats = map[string]bool{"beef": true, "pork": true, "lamb, veal, game": true}

// inside says which temperature holds for a thing that goes in raw; false for
// what is cooked, canned or cured already.
func (x thing) inside() (Kind, bool) {
	switch x.state {
	case food.Cooked, food.Drained, food.Dry:
		return "", false
	}
	if x.state != food.Raw && hasAny(x.name, readyWords) {
		return "", false
	}
	switch {
	case x.group == "eggs":
		return Egg, true
	case x.group == "poultry", x.group == "" && hasAny(x.name, poultryWords), x.group == "sausages and deli" && x.raw() && hasAny(x.name, poultryWords):
		return Poultry, true
	case x.group == "fish and shellfish" && hasAny(x.name, shellWords):
		return Shellfish, true
	case x.group == "fish and shellfish":
		return Fish, true
	case x.group == "sausages and deli" && x.raw():
		return Minced, true
	case meats[x.group] && hasAny(x.name, mincedWords):
		return Minced, true
	case meats[x.group]:
		return Meat, true
	case x.group == "" && hasAny(x.name, meatWords) && hasAny(x.name, mincedWords):
		return Minced, true
	case x.group == "" && hasAny(x.name, meatWords) && !hasAny(x.name, phrases("fat")):
		return Meat, true
	}
	return "", false
}

func (x thing) raw() bool { return x.state == food.Raw || hasAny(x.name, phrases("raw")) }

// flour tells whether it is flour of a grain, as milled.
func (x thing) flour() bool {
	return strings.Contains(x.name, " flour ") && (x.group == "grains, pasta, flour" || x.group == "") && !hasAny(x.name, phrases("tortilla", "heat treated"))
}

// The words that tell. Kitchen words, from memory.
var (
	readyWords = phrases("canned", "tinned", "tin", "cooked", "roasted", "deli", "smoked salmon", "gravadlax", "pickled", "kippered",
		"imitation", "surimi", "juice", "stock", "broth", "bouillon", "dripping", "lard", "tallow", "fat", "suet", "gelatin", "gelatine",
		"ham", "prosciutto", "pancetta", "salami", "pepperoni", "chorizo", "frankfurter", "dried", "jerky", "corned", "pate", "sauce", "substitute")
	poultryWords   = phrases("chicken", "turkey", "duck", "goose", "quail", "poussin", "pheasant", "guinea fowl")
	meatWords      = phrases("beef", "pork", "veal", "lamb", "mutton", "venison", "rabbit", "goat")
	mincedWords    = phrases("ground", "mince", "minced", "patty", "patties", "burger", "sausage")
	shellWords     = phrases("shrimp", "prawn", "prawns", "crab", "lobster", "crayfish", "clams", "clam", "mussels", "mussel", "oysters", "oyster", "scallops", "scallop")
	polyolWords    = phrases("xylitol", "sorbitol", "maltitol", "mannitol", "isomalt", "lactitol", "erythritol", "polyol", "polyols")
	potassiumWords = phrases("potassium chloride", "potassium salt", "salt substitute", "low sodium salt", "reduced sodium salt", "lo salt", "lite salt")
	reheatWords    = phrases("reheat", "reheated", "reheating", "warm it up again", "warm up again", "leftover", "leftovers")
	marinadeWords  = phrases("marinade", "marinate", "marinated", "marinating", "brine", "brined", "brining")
	preserveWords  = phrases("jam", "marmalade", "chutney", "pickle", "pickles", "pickled", "ferment", "fermented", "sauerkraut", "kimchi",
		"cured", "gravadlax", "piccalilli", "relish", "canning", "preserve", "preserves", "preserved", "jelly preserve", "cordial")
	servedWith = phrases("with pickle", "with pickles", "and pickle", "with jam", "and jam", "with chutney", "with relish", "jam tart", "jam roly poly", "jam sponge", "preserved lemon")
	rawDishes  = phrases("mayonnaise", "aioli", "mousse", "tiramisu", "steak tartare", "tartare", "eggnog", "cookie dough", "royal icing")
	heatWords  = phrases("heat", "heated", "oven", "bake", "baked", "boil", "boiled", "boiling", "simmer", "simmered", "fry", "fried", "frying",
		"roast", "roasted", "grill", "grilled", "broil", "braise", "poach", "poached", "steam", "steamed", "scramble", "toast", "saute", "sweat",
		"cook", "cooked", "cooking", "microwave", "barbecue", "griddle", "bain marie", "hot", "melt", "brown", "caramelise", "caramelize", "stew", "scald", "warm")
)

// phrases pads a list of phrases, so that they are found as whole words.
func phrases(list ...string) []string {
	out := make([]string, len(list))
	for i, w := range list {
		out[i] = padded(w)
	}
	return out
}

func hasAny(text string, list []string) bool {
	return slices.ContainsFunc(list, func(w string) bool { return strings.Contains(text, w) })
}

// padded lowers text to words parted and framed by single spaces.
func padded(s string) string {
	s = strings.NewReplacer("é", "e", "è", "e", "ï", "i", "û", "u", "â", "a").Replace(strings.ToLower(s))
	fields := strings.FieldsFunc(s, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') })
	return " " + strings.Join(append(fields, ""), " ")
}

// methodOf is the method as a version tells it.
func methodOf(d *recipes.Draft) string {
	var b strings.Builder
	for i := range d.Steps {
		if !d.Steps[i].Dropped {
			b.WriteString(strings.Join(d.Steps[i].Texts, " . "))
			b.WriteString(" . ")
		}
	}
	return padded(b.String())
}
