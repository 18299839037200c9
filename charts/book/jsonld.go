package book

import (
	"io"
	"math"
	"strconv"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes/exchange"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// WriteJSONLD writes the page as a schema.org Recipe: the ingredients as they
// are printed and one serving's figures of those amounts. A figure that is not
// wholly known is left out, because the vocabulary has no word for "at least";
// so are headings of ingredients. Safe inside a page's script element.
func (p *Page) WriteJSONLD(w io.Writer) error {
	r := exchange.RecipeLD{
		Context: "https://schema.org", Type: "Recipe", Name: p.Title, Description: p.Headnote, Category: p.Category, Version: p.Letter,
		Language: words.Current().Code, Yield: p.yieldLD(), Ingredients: []string{}, Instructions: []exchange.StepLD{}, Nutrition: p.nutritionLD(),
	}
	for _, s := range p.Sections {
		for i := range s.Lines {
			r.Ingredients = append(r.Ingredients, s.Lines[i].In(0))
		}
	}
	for _, s := range p.Steps {
		r.Instructions = append(r.Instructions, exchange.StepLD{Type: "HowToStep", Text: s.Text})
	}
	return r.Write(w)
}

// yieldLD is "6 servings" or "12 slices".
func (p *Page) yieldLD() string {
	if p.pieces == "" {
		return plain(p.Servings, 2) + " servings"
	}
	return plain(p.Servings, 2) + " " + p.pieces
}

// nutritionLD gives what is wholly known of one serving; nil if nothing is.
func (p *Page) nutritionLD() *exchange.NutritionLD {
	a := p.account
	say := func(n food.Nutrient, decimals int) string {
		f := a.PerServing(n)
		if f.Nowhere || f.AtLeast || f.About {
			return ""
		}
		return plain(f.Amount, decimals) + " " + n.Unit()
	}
	size := ""
	if g, whole := a.ServingGrams(); g > 0 && whole && a.CookedBy != nutrition.CookedRaw {
		size = plain(houseGrams(g), 0) + " g" // no finer than the page says it
	}
	return exchange.NutritionOf(say, size)
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
