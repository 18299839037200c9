package exchange

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"parewell/recipes"
	"parewell/recipes/food"
)

// RecipeLD is a schema.org Recipe (https://schema.org/Recipe).
type RecipeLD struct {
	Context      string       `json:"@context"`
	Type         string       `json:"@type"`
	Name         string       `json:"name"`
	Description  string       `json:"description,omitempty"`
	Category     string       `json:"recipeCategory,omitempty"`
	Version      string       `json:"version,omitempty"`
	Language     string       `json:"inLanguage,omitempty"`
	Yield        string       `json:"recipeYield"`
	Ingredients  []string     `json:"recipeIngredient"`
	Instructions []StepLD     `json:"recipeInstructions"`
	Nutrition    *NutritionLD `json:"nutrition,omitempty"`
}

// StepLD is a schema.org HowToStep.
type StepLD struct {
	Type string `json:"@type"`
	Text string `json:"text"`
}

// NutritionLD is a schema.org NutritionInformation, per serving.
type NutritionLD struct {
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

// WriteJSONLD writes one version as a schema.org Recipe, indented UTF-8.
// Nutrients are per serving, rounded as a page shows them; one that is not
// wholly known is left out, because the vocabulary has no word for "at least".
// Headings of ingredients are left out for the same reason.
func WriteJSONLD(w io.Writer, c *Column) error {
	d := c.Draft
	r := RecipeLD{
		Context: "https://schema.org", Type: "Recipe", Name: title(d), Description: d.Recipe.Headnote,
		Category: d.Recipe.Category, Yield: yieldLD(d), Nutrition: c.nutrition(),
		Ingredients: []string{}, Instructions: []StepLD{},
	}
	for _, l := range lines(d) {
		r.Ingredients = append(r.Ingredients, l.text)
	}
	for _, s := range steps(d) {
		r.Instructions = append(r.Instructions, StepLD{Type: "HowToStep", Text: s})
	}
	return r.Write(w)
}

// Write writes the recipe as indented UTF-8.
func (r *RecipeLD) Write(w io.Writer) error {
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
func (c *Column) nutrition() *NutritionLD {
	say := func(n food.Nutrient, decimals int) string {
		if !c.Per[n].whole() {
			return ""
		}
		return rounded(c.Per[n].Amount, decimals) + " " + n.Unit()
	}
	size := ""
	if c.Serving.whole() {
		size = rounded(c.Serving.Amount, 0) + " g"
	}
	return NutritionOf(say, size)
}

// NutritionOf gives one serving's figures, each as say words it with so many
// decimals ("" leaves it out); nil when there is nothing to say.
func NutritionOf(say func(n food.Nutrient, decimals int) string, size string) *NutritionLD {
	n := NutritionLD{
		Type: "NutritionInformation", Calories: say(food.EnergyKcal, 0), Protein: say(food.Protein, 1),
		Fat: say(food.Fat, 1), Saturated: say(food.SaturatedFat, 1), Trans: say(food.TransFat, 1),
		Carbohydrate: say(food.Carbohydrate, 1), Sugar: say(food.Sugars, 1), Fibre: say(food.Fibre, 1),
		Sodium: say(food.Sodium, 0), Cholesterol: say(food.Cholesterol, 0), ServingSize: size,
	}
	if n == (NutritionLD{Type: n.Type}) {
		return nil
	}
	return &n
}

// rounded writes a figure with "." whatever the language of the window.
func rounded(v float64, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64)
}
