package reading

import "parewell/recipes"

// neighbour is a food of the table that stands in for one it lacks; differs
// says what is not the same. Such a match is always a doubt.
type neighbour struct{ to, differs string }

// neighbours are by Key. Only foods whose figures are near, or that are used
// by the pinch, have one; common practice, no source.
var neighbours = map[string]neighbour{
	"cooking spray":                  {"canola oil", "a spray of a second leaves about a gram of oil"},
	"nonstick cooking spray":         {"canola oil", "a spray of a second leaves about a gram of oil"},
	"non stick cooking spray":        {"canola oil", "a spray of a second leaves about a gram of oil"},
	"nonstick spray":                 {"canola oil", "a spray of a second leaves about a gram of oil"},
	"oil spray":                      {"canola oil", "a spray of a second leaves about a gram of oil"},
	"spray oil":                      {"canola oil", "a spray of a second leaves about a gram of oil"},
	"olive oil spray":                {"olive oil", "a spray of a second leaves about a gram of oil"},
	"olive oil cooking spray":        {"olive oil", "a spray of a second leaves about a gram of oil"},
	"vegetable oil spray":            {"canola oil", "a spray of a second leaves about a gram of oil"},
	"low calorie cooking spray":      {"canola oil", "a low-calorie spray is mostly water"},
	"cajun seasoning":                {"chili powder", "seasoning blends differ in salt"},
	"creole seasoning":               {"chili powder", "seasoning blends differ in salt"},
	"jerk seasoning":                 {"chili powder", "seasoning blends differ in salt"},
	"fajita seasoning":               {"chili seasoning mix, dry", "seasoning blends differ in salt"},
	"chipotle powder":                {"chili powder", "chipotle is a smoked chilli alone"},
	"ancho chili powder":             {"chili powder", "ancho is a chilli alone"},
	"fresh turmeric":                 {"turmeric, ground", "fresh turmeric is a wet root: about a fifth as strong"},
	"turmeric root":                  {"turmeric, ground", "fresh turmeric is a wet root: about a fifth as strong"},
	"fresh turmeric root":            {"turmeric, ground", "fresh turmeric is a wet root: about a fifth as strong"},
	"sumac":                          {"paprika", "sumac is a sour berry; the figures are not known"},
	"za'atar":                        {"oregano, dried", "za'atar has sesame and salt in it"},
	"zaatar":                         {"oregano, dried", "za'atar has sesame and salt in it"},
	"curd":                           {"yogurt, plain, whole milk", "curd in an Indian kitchen is yogurt"},
	"hing":                           {"garlic powder", "asafoetida is a resin with flour; a pinch counts for nothing"},
	"asafetida":                      {"garlic powder", "asafoetida is a resin with flour; a pinch counts for nothing"},
	"asafoetida":                     {"garlic powder", "asafoetida is a resin with flour; a pinch counts for nothing"},
	"ras el hanout":                  {"curry powder", "another blend of spices"},
	"baharat":                        {"curry powder", "another blend of spices"},
	"berbere":                        {"chili powder", "another blend of spices"},
	"five spice":                     {"pumpkin pie spice", "another blend of spices"},
	"five spice powder":              {"pumpkin pie spice", "another blend of spices"},
	"chinese five spice":             {"pumpkin pie spice", "another blend of spices"},
	"chinese five spice powder":      {"pumpkin pie spice", "another blend of spices"},
	"tandoori masala":                {"curry powder", "another blend of spices"},
	"herbes de provence":             {"thyme, dried", "a blend of dried herbs"},
	"herb de provence":               {"thyme, dried", "a blend of dried herbs"},
	"mixed herb":                     {"oregano, dried", "a blend of dried herbs"},
	"dried mixed herb":               {"oregano, dried", "a blend of dried herbs"},
	"italian herb":                   {"oregano, dried", "a blend of dried herbs"},
	"juniper berry":                  {"allspice, ground", "juniper is another berry; the figures are not known"},
	"nigella seed":                   {"caraway seed", "nigella is another seed of much the same kind"},
	"black onion seed":               {"caraway seed", "nigella is another seed of much the same kind"},
	"gochugaru":                      {"pepper, red or cayenne", "gochugaru is milder and coarser"},
	"aleppo pepper":                  {"pepper, red or cayenne", "aleppo pepper is milder and has some salt"},
	"pul biber":                      {"pepper, red or cayenne", "pul biber is milder and has some salt"},
	"red pepper flake":               {"pepper, red or cayenne", "flakes are coarser; a spoon weighs less"},
	"crushed red pepper":             {"pepper, red or cayenne", "flakes are coarser; a spoon weighs less"},
	"crushed red pepper flake":       {"pepper, red or cayenne", "flakes are coarser; a spoon weighs less"},
	"graham cracker crumb":           {"graham crackers", "weighed as whole crackers"},
	"digestive biscuit crumb":        {"graham crackers", "digestive biscuits have more fat"},
	"cauliflower rice":               {"cauliflower, raw", "cauliflower cut as small as rice"},
	"riced cauliflower":              {"cauliflower, raw", "cauliflower cut as small as rice"},
	"zucchini noodle":                {"zucchini, raw", "zucchini cut into strands"},
	"courgetti":                      {"zucchini, raw", "zucchini cut into strands"},
	"mixed berry":                    {"strawberries, raw", "which berries is not said"},
	"frozen mixed berry":             {"strawberries, raw", "which berries is not said"},
	"frozen berry":                   {"strawberries, raw", "which berries is not said"},
	"berry":                          {"strawberries, raw", "which berries is not said"},
	"summer fruit":                   {"strawberries, raw", "which berries is not said"},
	"gelatin powder":                 {"gelatin, unsweetened, dry", "powder and leaf weigh differently"},
	"gelatine powder":                {"gelatin, unsweetened, dry", "powder and leaf weigh differently"},
	"mixed salad leaf":               {"green leaf lettuce", "which leaves is not said"},
	"salad leaf":                     {"green leaf lettuce", "which leaves is not said"},
	"mixed leaf":                     {"green leaf lettuce", "which leaves is not said"},
	"mixed green":                    {"green leaf lettuce", "which leaves is not said"},
	"spring mix":                     {"green leaf lettuce", "which leaves is not said"},
	"lime leaf":                      {"bay leaf", "lime leaves are another leaf; they are taken out"},
	"kaffir lime leaf":               {"bay leaf", "lime leaves are another leaf; they are taken out"},
	"makrut lime leaf":               {"bay leaf", "lime leaves are another leaf; they are taken out"},
	"curry leaf":                     {"bay leaf", "curry leaves are another leaf"},
	"bouquet garni":                  {"bay leaf", "a bunch of herbs that is taken out"},
	"garlic salt":                    {"salt, table", "garlic salt is about three quarters salt"},
	"celery salt":                    {"salt, table", "celery salt is about three quarters salt"},
	"seasoned salt":                  {"salt, table", "seasoned salt has sugar and spices in it"},
	"lemon pepper":                   {"pepper, black", "lemon pepper often has salt in it"},
	"almond extract":                 {"vanilla extract", "almond extract is about as strong"},
	"almond essence":                 {"vanilla extract", "almond extract is about as strong"},
	"chipotle in adobo":              {"chili sauce, red hot peppers", "chipotles in adobo are sweeter and saltier"},
	"chipotle chile in adobo":        {"chili sauce, red hot peppers", "chipotles in adobo are sweeter and saltier"},
	"chipotle pepper in adobo":       {"chili sauce, red hot peppers", "chipotles in adobo are sweeter and saltier"},
	"chipotle pepper in adobo sauce": {"chili sauce, red hot peppers", "chipotles in adobo are sweeter and saltier"},
	"chipotle chile in adobo sauce":  {"chili sauce, red hot peppers", "chipotles in adobo are sweeter and saltier"},
	"canned chipotle chile":          {"chili sauce, red hot peppers", "chipotles in adobo are sweeter and saltier"},
	"chipotle paste":                 {"chili sauce, red hot peppers", "chipotle paste is sweeter and saltier"},
	"crumpet":                        {"English muffin, plain", "crumpets are wetter"},
	"baby corn":                      {"sweet corn, yellow, raw", "baby corn has less starch and sugar"},
	"stem ginger":                    {"candied fruit", "stem ginger lies in syrup"},
	"crystallised ginger":            {"candied fruit", "crystallised ginger is candied root"},
	"crystallized ginger":            {"candied fruit", "crystallised ginger is candied root"},
}

// byNeighbour takes the stand-in of a name the table lacks.
func (r *lineReader) byNeighbour() bool {
	if hasWord(fold(r.say.name), "spray") && r.take("canola oil") {
		r.undoubt(recipes.DoubtFood)
		r.doubt(recipes.DoubtClose, neighbours["cooking spray"].differs, r.food.Name)
		return true
	}
	for _, name := range []string{r.say.full, r.say.name, unadorned(r.say.name)} {
		n, ok := neighbours[Key(name)]
		if ok && r.take(n.to) {
			r.undoubt(recipes.DoubtFood)
			r.doubt(recipes.DoubtClose, n.differs, r.food.Name)
			return true
		}
	}
	return false
}
