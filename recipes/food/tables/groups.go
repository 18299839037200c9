package tables

import "strings"

// groups are Parewell's names for the food groups of the USDA tables, by the
// first two digits of their code (FD_GROUP of the standard reference).
var groups = map[string]string{
	"01": "dairy", "02": "herbs, spices, seasonings", "03": "baby foods", "04": "fats and oils", "05": "poultry",
	"06": "condiments and sauces", "07": "sausages and deli", "08": "breakfast cereals", "09": "fruit", "10": "pork",
	"11": "vegetables", "12": "nuts and seeds", "13": "beef", "14": "drinks and alcohol", "15": "fish and shellfish",
	"16": "legumes and soy", "17": "lamb, veal, game", "18": "bread and baked goods", "19": "baking and sweet",
	"20": "grains, pasta, flour", "21": "fast food", "22": "ready meals", "23": "beef", "25": "snacks",
	"35": "American Indian and Alaska Native foods", "36": "restaurant food",
}

// groupOf gives a food's group by the code of the published one, else by that
// one's own name; two published groups are parted by the food's name.
func groupOf(code, published, name string) string {
	nr := first2(code)
	g, ok := groups[nr]
	switch {
	case !ok:
		return strings.ToLower(tidy(published))
	case nr == "01" && strings.HasPrefix(name, "egg") && !strings.HasPrefix(name, "eggnog"):
		return "eggs"
	case nr == "06" && (strings.HasPrefix(name, "soup") || strings.HasPrefix(name, "broth") || strings.HasPrefix(name, "stock")):
		return "soups and stocks"
	}
	return g
}
