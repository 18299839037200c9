package cautions

import (
	"slices"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// pantry finds made-up rows by their names.
type pantry map[food.Ref]*food.Food

func (p pantry) get(r food.Ref) *food.Food { return p[r] }

func (p pantry) line(group, name string, state food.State, grams float64) *recipes.Line {
	f := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: name}, Name: name, Group: group, State: state}
	p[f.Ref] = f
	return &recipes.Line{ID: recipes.ID(name), Text: name, Name: name, Grams: grams, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}
}

func dish(title, method string, dish recipes.Technique, lines ...*recipes.Line) *recipes.Recipe {
	r := &recipes.Recipe{ID: "r", Title: title, Servings: 4, Lines: lines, Dish: dish}
	if method != "" {
		r.Steps = []*recipes.Step{{ID: "s", Text: method}}
	}
	return r
}

func kinds(all []Caution) []Kind {
	var out []Kind
	for _, c := range all {
		out = append(out, c.Kind)
	}
	return out
}

// TestCautions: temperatures are those of foodsafety.gov (2019); marinade after
// Iowa State University Extension; preserves after Ohio State University
// Extension HYG-5358; polyols by Regulation (EU) 1169/2011 Annex III; raw egg and
// flour from memory of FDA advice.
func TestCautions(t *testing.T) {
	p := pantry{}
	l := p.line
	rows := []struct {
		name string
		r    *recipes.Recipe
		want []Kind
	}{
		{"vegetables", dish("Soup", "Boil.", recipes.Technique{}, l("vegetables", "leek", "", 500)), nil},
		{"chicken", dish("Stew", "Simmer.", recipes.Technique{}, l("poultry", "chicken thigh, raw", food.Raw, 500)), []Kind{Poultry}},
		{"minced turkey is poultry", dish("Chilli", "Simmer.", recipes.Technique{}, l("poultry", "turkey, ground, raw", food.Raw, 500)), []Kind{Poultry}},
		{"minced beef and a roast", dish("Pie", "Bake.", recipes.Technique{}, l("beef", "beef, ground, 80/20, raw", food.Raw, 300), l("beef", "beef chuck for stew, raw", food.Raw, 300)), []Kind{Minced, Meat}},
		{"cooked and cured meat", dish("Salad", "Cook the rice.", recipes.Technique{}, l("beef", "beef, ground, crumbles, cooked", food.Cooked, 300), l("sausages and deli", "salami, dry", "", 50)), nil},
		{"lean and fat of a steak", dish("Steak", "Grill.", recipes.Technique{}, l("beef", "beef rib-eye steak, lean and fat, raw", food.Raw, 300)), []Kind{Meat}},
		{"beef fat of one's own", dish("Chips", "Fry.", recipes.Technique{}, l("", "beef fat", "", 300)), nil},
		{"raw sausage", dish("Pasta", "Fry.", recipes.Technique{}, l("sausages and deli", "Italian sausage, pork, raw", food.Raw, 300)), []Kind{Minced}},
		{"smoked haddock still cooks", dish("Gratin", "Poach.", recipes.Technique{}, l("fish and shellfish", "haddock, smoked", "", 400)), []Kind{Fish}},
		{"tinned tuna does not", dish("Pasta", "Boil.", recipes.Technique{}, l("fish and shellfish", "tuna, light, canned in water, drained", food.Drained, 100)), nil},
		{"prawns", dish("Curry", "Fry.", recipes.Technique{}, l("fish and shellfish", "shrimp, untreated, raw", food.Raw, 200)), []Kind{Shellfish}},
		{"a baked egg", dish("Cake", "Whisk and bake.", recipes.Technique{}, l("eggs", "egg, whole, raw", food.Raw, 150)), []Kind{Egg}},
		{"a boiled one", dish("Salad", "Boil the beans.", recipes.Technique{}, l("eggs", "egg, hard-boiled", food.Cooked, 150)), nil},
		{"a raw one", dish("Dressing", "Whisk all together.", recipes.Technique{}, l("eggs", "egg yolk, raw", food.Raw, 17)), []Kind{RawEgg}},
		{"a mousse, whatever melts", dish("Chocolate mousse", "Melt the chocolate, fold in the whites, chill.", recipes.Technique{}, l("eggs", "egg white, raw", food.Raw, 90)), []Kind{RawEgg}},
		{"said to be raw", dish("Cream", "Chill on a hot day.", recipes.Technique{Method: "raw"}, l("eggs", "egg, whole, raw", food.Raw, 50)), []Kind{RawEgg}},
		{"raw flour", dish("Cookie dough to eat", "Mix and chill.", recipes.Technique{}, l("grains, pasta, flour", "flour, all-purpose, bleached", "", 200)), []Kind{RawFlour}},
		{"no method yet", dish("Cake", "", recipes.Technique{}, l("grains, pasta, flour", "flour, cake", "", 200)), nil},
		{"a marinade", dish("Kebabs", "Marinate overnight, then grill.", recipes.Technique{}, l("lamb, veal, game", "lamb leg, lean, raw", food.Raw, 500)), []Kind{Meat, Marinade}},
		{"a marinade of vegetables", dish("Peppers", "Marinate overnight, then grill.", recipes.Technique{}, l("vegetables", "sweet pepper", "", 500)), nil},
		{"leftovers", dish("Hash", "Reheat in the pan.", recipes.Technique{}, l("vegetables", "potato, boiled", food.Cooked, 300)), []Kind{Reheated}},
		{"a pickle", dish("Pickled cucumbers", "Boil the vinegar.", recipes.Technique{}, l("vegetables", "cucumber", "", 300)), []Kind{Preserved}},
		{"served with one", dish("Burgers with pickles", "Grill.", recipes.Technique{}, l("vegetables", "lettuce", "", 30)), nil},
		{"a potassium salt", dish("Bread", "Bake.", recipes.Technique{}, l("", "salt substitute", "", 5)), []Kind{Potassium}},
		{"a fifth of xylitol", dish("Sweets", "Boil.", recipes.Technique{}, l("", "xylitol", "", 20), l("vegetables", "pumpkin", "", 80)), []Kind{Polyols}},
		{"a pinch of it", dish("Sweets", "Boil.", recipes.Technique{}, l("", "xylitol", "", 5), l("vegetables", "pumpkin", "", 95)), nil},
		{"an own food by its name", dish("Stew", "Simmer.", recipes.Technique{}, l("", "my butcher's minced pork", "", 400)), []Kind{Minced}},
		{"stock is no raw meat", dish("Soup", "Simmer.", recipes.Technique{}, l("", "chicken stock", "", 400)), nil},
	}
	for _, r := range rows {
		got := Of(recipes.Compose(r.r, nil, nil), p.get)
		if !slices.Equal(kinds(got), r.want) {
			t.Errorf("%s: %v, want %v", r.name, kinds(got), r.want)
		}
		for _, c := range got {
			if s := c.Say.String() + c.From.String(); strings.Contains(s, "[") || c.From.String() == "" {
				t.Errorf("%s: %q from %q", r.name, c.Say, c.From)
			}
		}
	}
}

// TestCautionsOfAVersion: a swap of turkey for beef moves the end point, and each
// caution is told once with all it comes from.
func TestCautionsOfAVersion(t *testing.T) {
	p := pantry{}
	beef := p.line("beef", "beef, ground, 80/20, raw", food.Raw, 500)
	more := p.line("beef", "beef, ground, 95/5, raw", food.Raw, 100)
	turkey := *p.line("poultry", "turkey, ground, raw", food.Raw, 500)
	r := dish("Chilli", "Brown, then simmer.", recipes.Technique{}, beef, more)
	s := &recipes.Swap{ID: "t", Recipe: "r", Ops: []recipes.Op{{Kind: recipes.OpExchange, Line: beef.ID, Share: 1, Lines: []*recipes.Line{&turkey}}}}
	got := Of(recipes.Compose(r, nil, nil), p.get)
	if len(got) != 1 || len(got[0].Lines) != 2 {
		t.Fatalf("the original: %+v", got)
	}
	got = Of(recipes.Compose(r, nil, []*recipes.Swap{s}), p.get)
	if !slices.Equal(kinds(got), []Kind{Poultry, Minced}) || len(got[1].Lines) != 1 || got[1].Lines[0] != more.ID {
		t.Errorf("the version: %+v", got)
	}
	if !Poultry.Temperature() || Marinade.Temperature() {
		t.Error("a marinade has no temperature, poultry has")
	}
}
