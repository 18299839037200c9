package exchange

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"parewell/recipes"
	"parewell/recipes/food"
)

// recipeLD is a schema.org Recipe (https://schema.org/Recipe).
type recipeLD struct {
	Context      string       `json:"@context"`
	Type         string       `json:"@type"`
	Name         string       `json:"name"`
	Description  string       `json:"description,omitempty"`
	Category     string       `json:"recipeCategory,omitempty"`
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
	Type          string `json:"@type"`
	ServingSize   string `json:"servingSize,omitempty"`
	Calories      string `json:"calories,omitempty"`
	Protein       string `json:"proteinContent,omitempty"`
	Fat           string `json:"fatContent,omitempty"`
	Saturated     string `json:"saturatedFatContent,omitempty"`
	Trans         string `json:"transFatContent,omitempty"`
	Carbohydrate  string `json:"carbohydrateContent,omitempty"`
	Sugar         string `json:"sugarContent,omitempty"`
	Fibre         string `json:"fiberContent,omitempty"`
	Sodium        string `json:"sodiumContent,omitempty"`
	CholesterolMg string `json:"cholesterolContent,omitempty"`
}

// WriteJSONLD writes one version as a schema.org Recipe, indented UTF-8.
// Nutrients are per serving, rounded as a page shows them; one that is not
// wholly known is left out, because the vocabulary has no word for "at least".
// Headings of ingredients are left out for the same reason.
func WriteJSONLD(w io.Writer, c *Column) error {
	d := c.Draft
	r := recipeLD{
		Context: "https://schema.org", Type: "Recipe", Name: title(d), Description: d.Recipe.Headnote,
		Category: d.Recipe.Category, Yield: yieldLD(d), Nutrition: c.nutrition(),
		Ingredients: []string{}, Instructions: []stepLD{},
	}
	for _, l := range lines(d) {
		r.Ingredients = append(r.Ingredients, l.text)
	}
	for _, s := range steps(d) {
		r.Instructions = append(r.Instructions, stepLD{Type: "HowToStep", Text: s})
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(true) // safe inside a page's script element
	e.SetIndent("", "  ")
	return e.Encode(r)
}

// yieldLD is "6 servings" or "14 slices".
func yieldLD(d *recipes.Draft) string {
	noun := pieces(d)
	if noun == "" {
		noun = "servings"
	}
	return rounded(d.Servings, 2) + " " + noun
}

// nutrition gives what is wholly known of one serving; nil if nothing is.
func (c *Column) nutrition() *nutritionLD {
	say := func(n food.Nutrient, decimals int) string {
		if !c.Per[n].whole() {
			return ""
		}
		return rounded(c.Per[n].Amount, decimals) + " " + n.Unit()
	}
	n := nutritionLD{
		Type: "NutritionInformation", Calories: say(food.EnergyKcal, 0), Protein: say(food.Protein, 1),
		Fat: say(food.Fat, 1), Saturated: say(food.SaturatedFat, 1), Trans: say(food.TransFat, 1),
		Carbohydrate: say(food.Carbohydrate, 1), Sugar: say(food.Sugars, 1), Fibre: say(food.Fibre, 1),
		Sodium: say(food.Sodium, 0), CholesterolMg: say(food.Cholesterol, 0),
	}
	if c.Serving.whole() {
		n.ServingSize = rounded(c.Serving.Amount, 0) + " g"
	}
	if n == (nutritionLD{Type: n.Type}) {
		return nil
	}
	return &n
}

// rounded writes a figure with "." whatever the language of the window.
func rounded(v float64, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64)
}
