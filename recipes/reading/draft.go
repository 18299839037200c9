package reading

import (
	"parewell/recipes"
	"parewell/recipes/measure"
)

// Draft is a recipe as it was read, before the cook has looked at it.
type Draft struct {
	Title    string
	Headnote string
	Source   string // where it came from, as given
	Category string

	Servings     float64 // that divide the dish; above 0
	ServingsHigh float64 // upper end of a range, 0 for none
	ServingsFrom recipes.ServingsFrom
	Makes        string // "12 muffins", as written

	Measures measure.System
	Lines    []*recipes.Line // in order, without IDs
	Steps    []string
	Skipped  []Skipped  // text that is part of no recipe
	Doubts   []DoubtRow // unsettled lines, what could move most first
}

// Skipped is a line of text that was left out, and why (a code: "times",
// "page furniture", "notes", "nutrition", "picture").
type Skipped struct {
	At     int // line number from 1, 0 when the source has none
	Text   string
	Reason string
}

// Recipe turns the draft into the first edition of a recipe; newID gives the
// recipe, every line and every step its ID.
func (d *Draft) Recipe(newID func() recipes.ID) *recipes.Recipe {
	r := &recipes.Recipe{
		ID: newID(), Title: d.Title, Headnote: d.Headnote, Edition: 1,
		Servings: d.Servings, ServingsHigh: d.ServingsHigh, ServingsFrom: d.ServingsFrom, Makes: d.Makes,
		Measures: d.Measures.String(), Category: d.Category, Source: d.Source,
	}
	for _, l := range d.Lines {
		c := *l
		c.ID = newID()
		r.Lines = append(r.Lines, &c)
	}
	for _, s := range d.Steps {
		r.Steps = append(r.Steps, &recipes.Step{ID: newID(), Text: s})
	}
	return r
}

// settle fills what every draft must have: servings, what the method tells of its
// ingredients, and the doubt list.
func (d *Draft) settle(opt Options) {
	d.Measures = opt.System
	if d.Servings <= 0 {
		d.Servings, d.ServingsHigh, d.ServingsFrom = 1, 0, recipes.ServingsAssumed
	}
	d.askBoiled(opt.Foods)
	d.Doubts = Doubtful(d.Lines, opt.Foods)
}
