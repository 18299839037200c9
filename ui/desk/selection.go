package desk

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// Page names a page of the window.
type Page string

// The pages: four in the sidebar, five inside a recipe.
const (
	PageRecipes    Page = "recipes"
	PageFoods      Page = "foods"
	PageTasters    Page = "tasters"
	PageMeals      Page = "meals"
	PageVersions   Page = "versions"
	PageSwaps      Page = "swaps"
	PageTastings   Page = "tastings"
	PageKeepOrDrop Page = "keep or drop"
	PagePrinted    Page = "printed page"
)

// Selection is where the cook is: the page and what is marked on it. Moving
// from page to page is a change of it; pages know nothing of each other.
type Selection struct {
	Page     Page
	Recipe   recipes.ID
	Version  recipes.ID // empty: the original
	Swap     recipes.ID
	Line     recipes.ID
	Tasting  recipes.ID
	Panelist recipes.ID
	Meal     recipes.ID
	Food     food.Ref
}

// within returns the selection without what the Book no longer holds.
func (s Selection) within(b *recipes.Book) Selection {
	if s.Recipe != "" && b.Recipe(s.Recipe) == nil {
		s.Recipe, s.Version, s.Swap, s.Line, s.Tasting = "", "", "", "", ""
		if s.insideRecipe() {
			s.Page = PageRecipes
		}
	}
	if b.Version(s.Recipe, s.Version) == nil {
		s.Version = ""
	}
	if b.Swap(s.Recipe, s.Swap) == nil {
		s.Swap = ""
	}
	return s
}

func (s Selection) insideRecipe() bool {
	switch s.Page {
	case PageVersions, PageSwaps, PageTastings, PageKeepOrDrop, PagePrinted:
		return true
	}
	return false
}

// Select moves to another selection and shows it. What the Book does not hold
// is left out.
func (d *Desk) Select(s Selection) {
	d.change(func(v *View) { v.Selection = s }, nil)
}

// Tell shows a message of the window's own.
func (d *Desk) Tell(message string) {
	d.change(func(v *View) { v.Message = message }, nil)
}
