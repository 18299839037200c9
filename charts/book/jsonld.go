package book

import (
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// recipeLD is a schema.org Recipe (https://schema.org/Recipe).
type recipeLD struct {
	Context      string       `json:"@context"`
	Type         string       `json:"@type"`
	Name         string       `json:"name"`
	Description  string       `json:"description,omitempty"`
	Category     string       `json:"recipeCategory,omitempty"`
	Version      string       `json:"version,omitempty"`
	Language     string       `json:"inLanguage"`
	Yield        string       `json:"recipeYield"`
	Ingredients  []string     `json:"recipeIngredient"`
	Instructions []stepLD     `json:"recipeInstructions"`
	Nutrition    *nutritionLD `json:"nutrition,omitempty"`
}

type stepLD struct {
	Type string `json:"@type"`
	Text string `json:"text"`
}

// nutritionLD is a schema.org NutritionInformation, per serving.
type nutritionLD struct {
	Type         string `json:"@type"`
	ServingSize  string `json:"servingSize,omitempty"`
	Calories     string `json:"calories,omitempty"`
	Protein      string `json:"proteinContent,omitempty"`
	Fat          string `json:"fatContent,omitempty"`
	Saturated    string `json:"saturatedFatContent,omitempty"`
	Trans        string `json:"transFatContent,omitempty"`
	Carbohydrate string `json:"carbohydrateContent,omitempty"`
	Sugar        string `json:"sugarContent,omitempty"`
	Fibre        string `json:"fiberContent,omitempty"`
	Sodium       string `json:"sodiumContent,omitempty"`
	Cholesterol  string `json:"cholesterolContent,omitempty"`
}

// WriteJSONLD writes the page as a schema.org Recipe: the ingredients as they
// are printed and one serving's figures of those amounts. A figure that is not
// wholly known is left out, because the vocabulary has no word for "at least";
// so are headings of ingredients. Safe inside a page's script element.
func (p *Page) WriteJSONLD(w io.Writer) error {
	r := recipeLD{
		Context: "https://schema.org", Type: "Recipe", Name: p.Title, Description: p.Headnote, Category: p.Category, Version: p.Letter,
		Language: words.Current().Code, Yield: p.yieldLD(), Ingredients: []string{}, Instructions: []stepLD{}, Nutrition: p.nutritionLD(),
	}
	for _, s := range p.Sections {
		for i := range s.Lines {
			r.Ingredients = append(r.Ingredients, s.Lines[i].In(0))
		}
	}
	for _, s := range p.Steps {
		r.Instructions = append(r.Instructions, stepLD{Type: "HowToStep", Text: s.Text})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(r)
}

// yieldLD is "6 servings" or "12 slices".
func (p *Page) yieldLD() string {
	if p.pieces == "" {
		return plain(p.Servings, 2) + " servings"
	}
	return plain(p.Servings, 2) + " " + p.pieces
}

// nutritionLD gives what is wholly known of one serving; nil if nothing is.
func (p *Page) nutritionLD() *nutritionLD {
	a := p.account
	say := func(n food.Nutrient, decimals int) string {
		f := a.PerServing(n)
		if f.Nowhere || f.AtLeast || f.About {
			return ""
		}
		return plain(f.Amount, decimals) + " " + n.Unit()
	}
	n := nutritionLD{
		Type: "NutritionInformation", Calories: say(food.EnergyKcal, 0), Protein: say(food.Protein, 1),
		Fat: say(food.Fat, 1), Saturated: say(food.SaturatedFat, 1), Trans: say(food.TransFat, 1),
		Carbohydrate: say(food.Carbohydrate, 1), Sugar: say(food.Sugars, 1), Fibre: say(food.Fibre, 1),
		Sodium: say(food.Sodium, 0), Cholesterol: say(food.Cholesterol, 0),
	}
	if g, whole := a.ServingGrams(); g > 0 && whole && a.CookedBy != nutrition.CookedRaw {
		n.ServingSize = plain(g, 0) + " g"
	}
	if n == (nutritionLD{Type: n.Type}) {
		return nil
	}
	return &n
}

// plain writes a figure with "." whatever the language of the window.
func plain(v float64, decimals int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if v < 0 && strings.Trim(s, "0.") != "" {
		return "-" + s
	}
	return s
}
