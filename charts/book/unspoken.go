package book

import (
	"slices"
	"strings"
	"unicode"

	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// telling are the words in which a reader finds an allergen in a line of
// ingredients. Kitchen words, from memory.
var telling = map[food.Allergen][]string{
	food.Milk: {
		"milk", "cream", "butter", "buttermilk", "ghee", "yogurt", "yoghurt", "cheese", "cheddar", "parmesan", "mozzarella", "gruyère", "gruyere",
		"feta", "ricotta", "mascarpone", "halloumi", "crème", "creme", "custard", "whey", "curd", "quark", "paneer", "kefir",
	},
	food.Egg:         {"egg", "eggs", "yolk", "yolks", "meringue", "meringues", "mayonnaise"},
	food.Fish:        {"fish", "cod", "haddock", "salmon", "tuna", "trout", "mackerel", "anchovy", "anchovies", "sardine", "sardines", "hake", "halibut", "plaice", "sole", "bass", "pollock", "coley", "herring", "kipper", "kippers"},
	food.Crustacean:  {"prawn", "prawns", "shrimp", "shrimps", "crab", "lobster", "crayfish", "langoustine", "langoustines"},
	food.Mollusc:     {"mussel", "mussels", "clam", "clams", "oyster", "oysters", "squid", "octopus", "scallop", "scallops", "cockle", "cockles"},
	food.TreeNut:     {"nut", "nuts", "almond", "almonds", "walnut", "walnuts", "hazelnut", "hazelnuts", "pecan", "pecans", "cashew", "cashews", "pistachio", "pistachios", "macadamia", "macadamias", "praline", "marzipan"},
	food.Peanut:      {"peanut", "peanuts", "groundnut", "groundnuts"},
	food.Wheat:       {"wheat", "flour", "bread", "breadcrumbs", "crumbs", "pasta", "spaghetti", "macaroni", "penne", "lasagne", "noodles", "couscous", "bulgur", "semolina", "spelt", "tortilla", "tortillas", "pastry", "filo", "biscuits", "crackers", "baguette", "bun", "buns", "pitta", "naan", "panko", "seitan"},
	food.OtherGluten: {"rye", "barley", "oat", "oats", "oatmeal", "malt", "beer"},
	food.Soybean:     {"soy", "soya", "tofu", "miso", "edamame", "tempeh", "tamari"},
	food.Sesame:      {"sesame", "tahini", "hummus"},
	food.Celery:      {"celery", "celeriac"},
	food.Mustard:     {"mustard"},
	food.Lupin:       {"lupin"},
	food.Sulphite:    {"sulphite", "sulphites", "sulphur", "wine"},
}

// unspoken finds ingredients that hold an allergen their line does not tell of.
func (c *checker) unspoken() {
	d := c.book.Draft(c.recipe, c.version)
	for i := range d.Lines {
		l := &d.Lines[i]
		f := c.book.Food(l.Line.Food)
		if l.Gone() || f == nil {
			continue
		}
		text := wholeText(l)
		said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
		for _, e := range food.EachAllergen {
			if f.Allergens.Contains&e.Bit == 0 || slices.ContainsFunc(telling[e.Bit], func(w string) bool { return slices.Contains(said, w) }) {
				continue
			}
			c.put(OpenUnspoken, l.Line.ID, "", words.Say("book.report.unspoken", text, tasting.AllergenNames(e.Bit)))
		}
	}
}
