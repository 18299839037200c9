package food_test

import (
	"slices"
	"strings"
	"testing"

	"parewell/recipes/food"
)

// TestStarterAllergens spot-checks the account of each kind of food. contains
// and depends are the stable keys, sorted; why is the reason. The two lists are
// FALCPA 2004 with the FASTER Act 2021 and EU 1169/2011 Annex II; what a food is
// made of is common practice, no source, where no other is named.
func TestStarterAllergens(t *testing.T) {
	foods := byCode(t)
	for _, r := range []struct {
		code     string
		recorded bool
		contains string
		depends  string
		why      string
	}{
		{"01001", true, "milk", "", "butter is milk fat"},
		{"01003", true, "milk", "", "clarified butter keeps traces of milk protein"},
		{"01009", true, "milk", "", "cheese"},
		{"01033", true, "milk", "egg", "hard cheese may be made with lysozyme from egg"},
		{"01042", false, "milk", "soybean", "processed: the maker's recipe"},
		{"01069", false, "milk", "soybean", "non-dairy creamers hold caseinate"},
		{"01106", true, "milk", "", "EU and US mean milk of any animal"},
		{"01123", true, "egg", "", "egg"},
		{"01132", false, "egg, milk", "soybean", "scrambled with milk and fat"},
		{"01140", true, "egg", "", "eggs of all birds"},
		{"04053", true, "", "", "olive oil"},
		{"04044", true, "", "soybean", "refined soy oil is exempt, cold-pressed is not"},
		{"04042", true, "peanut", "", "the EU does not exempt peanut oil"},
		{"04058", true, "sesame", "", "sesame oil is not refined"},
		{"04528", true, "tree nut", "", "walnut oil"},
		{"04583", true, "mustard", "", "mustard oil"},
		{"04002", true, "", "", "lard"},
		{"04025", false, "egg", "milk, mustard, soybean, sulphite", "mayonnaise is made with egg; the rest differs"},
		{"43015", false, "egg, fish, milk", "celery, mustard, soybean, sulphite, wheat", "anchovy, cheese and egg make a Caesar dressing"},
		{"02046", true, "mustard", "sulphite, wheat", "some prepared mustards are thickened with flour"},
		{"06971", false, "fish", "other gluten cereal, soybean, sulphite, wheat", "anchovy in it; some with malt vinegar or soy"},
		{"16123", true, "soybean, wheat", "other gluten cereal, sulphite", "brewed from soy and wheat"},
		{"16124", true, "soybean", "sulphite, wheat", "tamari may or may not have wheat"},
		{"06179", true, "fish", "crustacean, soybean, sulphite, wheat", "fermented fish"},
		{"06176", false, "mollusc", "soybean, sulphite, wheat", "oysters are molluscs, a US list leaves them out"},
		{"16158", false, "sesame", "soybean, sulphite", "hummus has tahini in it"},
		{"12166", true, "sesame", "", "tahini"},
		{"02048", true, "", "sulphite", "vinegar of fruit may keep sulphite"},
		{"02053", true, "", "", "distilled vinegar"},
		{"06194", false, "", "celery, fish, milk, soybean, wheat", "broth: the maker's recipe"},
		{"06081", false, "", "celery, egg, fish, milk, mustard, other gluten cereal, soybean, wheat", "stock cubes: the maker's recipe"},
		{"06174", false, "fish", "celery, crustacean, sulphite", "fish stock"},
		{"02047", true, "", "", "salt"},
		{"02007", true, "celery", "", "celery seed is celery"},
		{"02024", true, "mustard", "", "mustard seed"},
		{"02015", false, "", "celery, mustard", "curry powder is a blend"},
		{"02030", true, "", "", "pepper"},
		{"05062", true, "", "", "plain meat"},
		{"23572", true, "", "", "plain meat"},
		{"10123", false, "", "celery, milk, mustard, soybean, sulphite", "cured: the maker's recipe"},
		{"07063", false, "", "celery, egg, milk, mustard, other gluten cereal, soybean, sulphite, wheat", "sausages often have rusk in them"},
		{"15015", true, "fish", "", "fish"},
		{"15077", true, "fish", "", "smoked fish"},
		{"15121", false, "fish", "soybean", "the broth in the tin may be of soy"},
		{"15270", true, "crustacean", "sulphite", "raw shrimp may be dipped in sulphite against black spot"},
		{"15164", true, "mollusc", "", "mussels"},
		{"15175", true, "mollusc", "", "squid is a mollusc"},
		{"15138", false, "fish", "crustacean, egg, milk, mollusc, soybean, wheat", "surimi: the maker's recipe"},
		{"16056", true, "", "", "chickpeas are not lupin"},
		{"16126", true, "soybean", "", "tofu"},
		{"16114", true, "soybean", "other gluten cereal, wheat", "tempeh may have grain in it"},
		{"16087", true, "peanut", "", "peanut is a pulse and its own allergen"},
		{"12061", true, "tree nut", "", "almonds"},
		{"12104", true, "", "", "coconut is no tree nut in the EU, nor in the US since 2025"},
		{"12098", true, "", "tree nut", "chestnut stood on the US list until 2025"},
		{"12036", true, "", "", "sunflower seed"},
		{"11143", true, "celery", "", "celery"},
		{"11141", true, "celery", "", "celeriac is celery"},
		{"11270", true, "mustard", "", "mustard leaves count with mustard"},
		{"11282", true, "", "", "onion"},
		{"11457", true, "", "", "spinach"},
		{"11955", true, "", "sulphite", "dried tomatoes may be sulphited"},
		{"09032", true, "", "sulphite", "bright dried apricots are sulphited"},
		{"09003", true, "", "", "apple"},
		{"20081", true, "wheat", "", "wheat flour"},
		{"20044", true, "", "", "rice"},
		{"20064", true, "other gluten cereal", "", "rye"},
		{"08120", true, "other gluten cereal", "wheat", "oats; wheat where they share a mill"},
		{"20005", true, "other gluten cereal", "", "barley"},
		{"20011", true, "", "", "buckwheat is no wheat"},
		{"20109", true, "egg, wheat", "", "egg noodles"},
		{"20114", true, "", "wheat", "soba may be buckwheat alone"},
		{"18069", false, "wheat", "egg, milk, other gluten cereal, sesame, soybean", "bread: the baker's recipe"},
		{"18217", true, "wheat", "", "plain matzo is flour and water"},
		{"19335", true, "", "", "sugar"},
		{"19352", true, "other gluten cereal", "", "malt syrup is barley"},
		{"19904", false, "", "milk, peanut, soybean, tree nut, wheat", "dark chocolate: the maker's recipe"},
		{"19177", true, "", "fish", "gelatine may be of fish"},
		{"18369", true, "", "wheat", "baking powder may be filled with wheat starch"},
		{"14096", true, "sulphite", "egg, milk", "wine; fined with egg or milk"},
		{"14003", true, "other gluten cereal", "sulphite, wheat", "beer is malted barley"},
		{"14037", true, "", "", "distilled"},
		{"11578", false, "", "celery", "vegetable juice mostly has celery"},
	} {
		f := foods[r.code]
		a := f.Allergens
		if got := sorted(a.Contains); got != r.contains || a.Recorded != r.recorded {
			t.Errorf("%s (%s): contains %q, recorded %v; want %q, %v", f.Name, r.why, got, a.Recorded, r.contains, r.recorded)
		}
		if got := sorted(a.Depends); got != r.depends {
			t.Errorf("%s (%s): depends on product %q, want %q", f.Name, r.why, got, r.depends)
		}
	}
}

func sorted(a food.Allergen) string {
	keys := a.Keys()
	slices.Sort(keys)
	return strings.Join(keys, ", ")
}

// TestAllergenRules holds every food to what its name gives away.
func TestAllergenRules(t *testing.T) {
	for _, f := range starter(t) {
		a := f.Allergens
		if a.Contains&a.Depends != 0 {
			t.Errorf("%s: %v both in it and only perhaps in it", f.Name, (a.Contains & a.Depends).Keys())
		}
		all := a.Contains | a.Depends
		want := food.Allergen(0)
		switch f.Group {
		case "dairy":
			want = food.Milk
		case "eggs":
			want = food.Egg
		case "bread and baked goods":
			if !strings.Contains(f.Name, "corn") {
				want = food.Wheat
			}
		case "fish and shellfish":
			if all&(food.Fish|food.Crustacean|food.Mollusc) == 0 {
				t.Errorf("%s: neither fish, crustacean nor mollusc", f.Name)
			}
		}
		for word, bit := range map[string]food.Allergen{
			"wheat": food.Wheat, "soy sauce": food.Soybean, "almond": food.TreeNut, "hazelnut": food.TreeNut, "peanut": food.Peanut,
			"sesame": food.Sesame, "celery": food.Celery, "mustard": food.Mustard, "barley": food.OtherGluten, "rye": food.OtherGluten,
			"cheese": food.Milk, "yogurt": food.Milk, "tofu": food.Soybean, "oats": food.OtherGluten,
		} {
			if strings.Contains(f.Name, word) && !strings.Contains(f.Name, "buckwheat") && f.Group != "meat" {
				want |= bit
			}
		}
		if missing := want &^ all; missing != 0 {
			t.Errorf("%s: %v is not accounted for", f.Name, missing.Keys())
		}
	}
}

func TestStarterStateAndSwelling(t *testing.T) {
	foods := byCode(t)
	for _, r := range []struct {
		name, code string
		state      food.State
		swells     float64 // protein of the dry over the cooked row, SR28; 0 for none
	}{
		{"white rice", "20044", food.Dry, 7.13 / 2.69},
		{"cooked rice", "20045", food.Cooked, 0},
		{"pasta", "20120", food.Dry, 13.04 / 5.8},
		{"oats", "08120", food.Dry, 13.15 / 2.54},
		{"lentils", "16069", food.Dry, 24.63 / 9.02},
		{"tinned chickpeas", "16359", food.Drained, 0},
		{"chicken breast", "05062", food.Raw, 0},
		{"roast chicken", "05009", food.Cooked, 0},
		{"frozen peas", "11312", food.Frozen, 0},
		{"frozen chips, baked", "11403", food.Cooked, 0},
		{"onion", "11282", food.Raw, 0},
		{"dried thyme", "02042", food.Dry, 0},
		{"butter", "01001", "", 0},
		{"bread", "18069", "", 0},
		{"tuna tin", "15121", food.Drained, 0},
		{"leek", "11246", food.Raw, 0},
	} {
		f := foods[r.code]
		if f.State != r.state || f.Swells-r.swells > 0.01 || r.swells-f.Swells > 0.01 {
			t.Errorf("%s: %q, swells %v; want %q, %.3f", r.name, f.State, f.Swells, r.state, r.swells)
		}
	}
}
