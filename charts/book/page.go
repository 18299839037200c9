package book

import (
	"slices"

	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// Page is the printed page of one version of a recipe: a plain value that every
// writer works from. Nothing that was only predicted is in it.
type Page struct {
	Recipe    recipes.ID            `json:"recipe"`
	Version   recipes.ID            `json:"version,omitempty"` // empty: the original
	Title     string                `json:"title"`
	Letter    string                `json:"letter,omitempty"`
	Name      string                `json:"name,omitempty"` // of the version
	Headnote  string                `json:"headnote,omitempty"`
	Category  string                `json:"category,omitempty"`
	Servings  float64               `json:"servings"`
	Yield     string                `json:"yield"`             // "Serves 6", "Makes 12 slices"
	Weight    string                `json:"weight,omitempty"`  // what a serving weighs, and by what
	Units     Units                 `json:"units"`             // of the amounts
	Rule      claims.Authority      `json:"rule"`              // of the nutrition
	Sections  []Section             `json:"sections"`          // of ingredients
	Steps     []Step                `json:"steps"`             // of the method
	Notes     []Note                `json:"notes"`             // on technique, from the swaps
	Nutrition []Nutrition           `json:"nutrition"`         // one for each system of measures
	Energy    nutrition.EnergyBasis `json:"energy_basis"`      // how energy is counted
	Change    *Change               `json:"change,omitempty"`  // nil for the original
	Cautions  []Caution             `json:"cautions"`          // what is to be told for safety
	Allergens Allergens             `json:"allergens"`         // of all that is in it
	Tested    Tested                `json:"tested"`            // how it was tested
	Editor    []Open                `json:"editor"`            // notes to the editor on the amounts
	Open      []Open                `json:"open"`              // what is not known or not done
	Picture   *Picture              `json:"picture,omitempty"` // the chart of the change, or of where the calories are
	Moved     *Moved                `json:"-"`                 // why its energy is not the workbook's; nil where not wholly known

	options Options
	beside  bool               // another version of the recipe is in the same book
	pieces  string             // what the recipe counts in
	account *nutrition.Account // as printed in the first system
	base    *nutrition.Account // the original likewise
}

// Step is one step of the method.
type Step struct {
	ID   recipes.ID `json:"id"`
	Text string     `json:"text"`
}

// Note is what a swap says to whoever cooks it.
type Note struct {
	Swap recipes.ID `json:"swap"`
	Name string     `json:"name"`
	Text string     `json:"text"`
}

// Picture is a figure with what stands under it and what it says in words, as
// wide as the text.
type Picture struct {
	Figure  *charts.Figure `json:"-"`
	HighMM  float64        `json:"high_mm"`
	Caption string         `json:"caption"`
	Alt     string         `json:"alt"`
}

// System returns the page's n-th system of measures.
func (p *Page) System(n int) measure.System { return p.options.systems()[n] }

// Paper returns the paper the page is set for.
func (p *Page) Paper() manuscript.Paper { return p.options.Paper }

// PageOf makes the page of a version of a recipe; an empty version is the
// original. Errors: the recipe or version is not in the Book.
func PageOf(b *recipes.Book, recipe, version recipes.ID, o Options) (*Page, error) {
	r := b.Recipe(recipe)
	if r == nil {
		return nil, problem.New("", words.Say("error.recipe-gone"), words.Say("error.gone.hint"))
	}
	v := b.Version(recipe, version)
	if version != "" && v == nil {
		return nil, problem.New(r.Title, words.Say("book.no-version"), words.Say("error.gone.hint"))
	}
	m := &maker{book: b, recipe: r, version: v, o: o.settled()}
	return m.page(), nil
}

// maker puts one page together.
type maker struct {
	book    *recipes.Book
	recipe  *recipes.Recipe
	version *recipes.Version
	o       Options
	draft   *recipes.Draft
	out     *Page

	uncautioned int // cautions that are left out
}

func (m *maker) page() *Page {
	m.draft = m.book.Draft(m.recipe, m.version)
	r, d := m.recipe, m.draft
	p := &Page{
		Recipe: r.ID, Title: TitleOf(r), Headnote: r.Headnote, Category: r.Category, Servings: d.Servings,
		Yield: yieldOf(d), Units: m.o.Units, Rule: m.o.Rule, Notes: []Note{}, Cautions: []Caution{}, Editor: []Open{}, Open: []Open{},
		options: m.o, pieces: piecesOf(d),
	}
	m.out = p
	if v := m.version; v != nil {
		p.Version, p.Letter, p.Name = v.ID, v.Letter, v.Name
	}
	p.Sections = sections(d, m.book.Food, m.houses())
	p.Steps = stepsOf(d)
	for _, n := range NotesOf(m.book, m.version) {
		if !slices.Contains(r.Print.Untold, n.Swap) {
			p.Notes = append(p.Notes, n)
		}
	}
	m.nutrition()
	if p.Cautions = append(p.Cautions, cautionsOf(d, m.book.Food)...); m.o.NoCautions {
		m.uncautioned, p.Cautions = len(p.Cautions), []Caution{}
	}
	p.Allergens = allergensOf(m.book, r, m.version)
	p.Tested = testedOf(m.book, r, m.version)
	p.Open = append(p.Open, m.open()...)
	p.Editor = append(p.Editor, looked(m.book, p)...)
	return p
}

// houses are the house styles of the page's systems.
func (m *maker) houses() []house {
	from, _ := measure.ParseSystem(m.recipe.Measures)
	var out []house
	for _, s := range m.o.systems() {
		out = append(out, house{to: s, from: from, written: m.o.RoundWritten})
	}
	return out
}

// yieldOf says what divides the dish: "Serves 6", or "Makes 12 slices" where the
// recipe counts in pieces.
func yieldOf(d *recipes.Draft) string {
	if noun := piecesOf(d); noun != "" {
		return words.Say("book.makes", d.Servings, noun)
	}
	return words.Say("book.serves", d.Servings)
}

// weightOf says what a serving weighs and by what; "" where nothing is known.
func weightOf(a *nutrition.Account, u Units) string {
	g, whole := a.ServingGrams()
	if g <= 0 {
		return ""
	}
	text := weight(houseGrams(g))
	if u != Metric {
		text = words.Say("book.weight.both", text, ounces(g).Text)
	}
	if !whole {
		text = words.Say("book.at-least", text)
	}
	return words.Say("book.weight."+string(a.CookedBy), text)
}

// stepsOf is the method as it reads, with the amounts of the version; where two
// swaps rewrite a step and nobody has joined them both texts stand in it.
func stepsOf(d *recipes.Draft) []Step {
	out := []Step{}
	for _, s := range methodOf(d) {
		text := s.Texts[0]
		for _, more := range s.Texts[1:] {
			text = words.Say("book.step-too", text, more)
		}
		out = append(out, Step{ID: s.ID, Text: text})
	}
	return out
}

// methodOf is the draft's method with its amounts told anew.
func methodOf(d *recipes.Draft) []reading.ScaledStep {
	from, _ := measure.ParseSystem(d.Recipe.Measures)
	return reading.DraftSteps(d, 1, from)
}

// NotesOf are what the swaps of a version say of themselves to whoever cooks it,
// those that the cook keeps from the page too; none for the original.
func NotesOf(b *recipes.Book, v *recipes.Version) []Note {
	var out []Note
	for _, s := range b.On(v) {
		text := s.Note
		if s.FailsWhen != "" {
			text = joined(text, words.Say("book.fails", s.FailsWhen))
		}
		if text != "" {
			out = append(out, Note{Swap: s.ID, Name: s.Name, Text: text})
		}
	}
	return out
}

func joined(a, b string) string {
	if a == "" {
		return b
	}
	return a + " " + b
}
