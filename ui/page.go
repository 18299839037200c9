// Package ui is the window: a shell with a side bar, and one page_*.go a page.
// Pages show what sheets lay out and hand what the cook does to the desk.
package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
)

// page is one thing the window can show. build is called once, on the first
// visit; show puts the newest Book into what build made, and is called again
// after every edit while the page is in sight.
type page interface {
	build() fyne.CanvasObject
	show()
}

// place is where the cook is: a page of the side bar, and inside a recipe a
// tab of it.
type place struct {
	page   string
	recipe recipes.ID
	tab    string
}

// Pages of the side bar and tabs of a recipe.
const (
	pageStart   = "start"
	pageRecipes = "recipes"
	pageRecipe  = "recipe"
	pagePaste   = "paste"
	pageFoods   = "foods"
	pageMeals   = "meals"
	pageTasters = "tasters"
	pagePlan    = "plan"
	pageBook    = "book"

	tabVersions = "versions"
	tabSwaps    = "swaps"
	tabOriginal = "original"
	tabTests    = "tests"
	tabNotebook = "notebook"
	tabClaims   = "claims"
	tabTastings = "tastings"
	tabLedger   = "ledger"
	tabPrinted  = "printed"
)
