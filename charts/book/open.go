package book

import (
	"strings"

	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/words"
)

// OpenKind is a stable code of something that is not known, not done or does
// not hold together.
type OpenKind string

// Kinds of open points. OpenName comes from the report on the whole book.
const (
	OpenWeight    OpenKind = "no weight"        // of an ingredient
	OpenFood      OpenKind = "no food"          // of an ingredient
	OpenDoubt     OpenKind = "doubt"            // a reading nobody has accepted
	OpenFigure    OpenKind = "figure"           // a nutrient that is not wholly known
	OpenServings  OpenKind = "servings"         // assumed, or a range
	OpenCooked    OpenKind = "no cooked weight" // no kept test was weighed
	OpenStep      OpenKind = "step"             // two swaps rewrite it and nobody has joined them
	OpenAllergen  OpenKind = "allergen"         // not recorded
	OpenUntested  OpenKind = "untested"         // not cooked, or not tasted
	OpenChanged   OpenKind = "changed"          // since it was tasted
	OpenRounding  OpenKind = "rounding"         // the printed amounts move a figure
	OpenName      OpenKind = "name"             // one food under several names
	OpenUnits     OpenKind = "units"            // measures of several systems
	OpenClaim     OpenKind = "claim"            // the numbers do not support it
	OpenTaste     OpenKind = "taste"            // no tasting supports it
	OpenHealth    OpenKind = "health word"      // no number here supports it
	OpenUnspoken  OpenKind = "allergen unsaid"  // the line does not say what is in it
	OpenBrief     OpenKind = "brief"            // the version misses the recipe's own brief
	OpenNotChosen OpenKind = "not chosen"       // the newest version is printed since none was chosen
	OpenNoMethod  OpenKind = "no method"        // a recipe without steps
	OpenNoVersion OpenKind = "no version"       // the original itself is printed
	OpenCaution   OpenKind = "caution"          // left out
)

// Open is one open point with the place where it can be mended.
type Open struct {
	Kind    OpenKind   `json:"kind"`
	Recipe  recipes.ID `json:"recipe,omitempty"`
	Version recipes.ID `json:"version,omitempty"` // empty: the original
	Line    recipes.ID `json:"line,omitempty"`
	Step    recipes.ID `json:"step,omitempty"`
	Title   string     `json:"title,omitempty"` // of the recipe
	Letter  string     `json:"letter,omitempty"`
	Text    string     `json:"text"`
}

// open lists what keeps the page from being finished.
func (m *maker) open() []Open {
	var out []Open
	put := func(k OpenKind, line, step recipes.ID, text string) {
		out = append(out, Open{Kind: k, Line: line, Step: step, Text: text})
	}
	if m.recipe.ServingsFrom != recipes.ServingsStated {
		put(OpenServings, "", "", words.Say("book.open.servings", m.draft.Servings))
	}
	m.openLines(put)
	m.openFigures(put)
	for _, s := range methodOf(m.draft) {
		if len(s.Texts) > 1 {
			put(OpenStep, "", s.ID, words.Say("book.open.step", s.Texts[0]))
		}
		if len(s.Loose) > 0 {
			put(OpenStep, "", s.ID, words.Say("book.open.step-amount", words.Join(s.Loose), s.Texts[0]))
		}
	}
	t := &m.out.Tested
	if t.Weighed == 0 {
		put(OpenCooked, "", "", words.Say("book.open.cooked"))
	}
	for _, name := range m.out.Allergens.NotRecorded {
		put(OpenAllergen, m.lineNamed(name), "", words.Say("book.open.allergen", name))
	}
	if m.uncautioned > 0 {
		put(OpenCaution, "", "", words.Say("book.open.caution", m.uncautioned))
	}
	switch {
	case t.Cooked == 0:
		put(OpenUntested, "", "", words.Say("book.tested.never"))
	case len(t.Tastings) == 0 && m.version != nil:
		put(OpenUntested, "", "", words.Say("book.tested.not-tasted"))
	case t.Changed:
		put(OpenChanged, "", "", words.Say("book.tested.changed"))
	}
	return out
}

// openLines are ingredients whose weight or food is not known, and readings
// that nobody has accepted.
func (m *maker) openLines(put func(OpenKind, recipes.ID, recipes.ID, string)) {
	for i := range m.draft.Lines {
		d := &m.draft.Lines[i]
		l := d.Line
		if d.Gone() || l.Kind == recipes.TakenOff {
			continue
		}
		text := wholeText(d)
		switch {
		case l.Food.Zero() && l.Sub == nil:
			put(OpenFood, l.ID, "", words.Say("book.open.food", text))
		case !l.Known() && l.Sub == nil:
			put(OpenWeight, l.ID, "", words.Say("book.open.weight", text))
		case len(l.Doubts) > 0 && !l.Settled:
			put(OpenDoubt, l.ID, "", words.Say("book.open.doubt", text))
		}
	}
}

// openFigures names the rows that are not wholly known, and whose fault that is.
func (m *maker) openFigures(put func(OpenKind, recipes.ID, recipes.ID, string)) {
	a := kitchenOf(m.book, m.o.Rule).Of(m.draft)
	for _, r := range m.out.Nutrition[0].Rows {
		f := a.PerServing(r.nutrient)
		if len(f.Gaps) == 0 {
			continue
		}
		put(OpenFigure, f.Gaps[0], "", words.Say("book.open.figure", words.Say("nutrient."+r.nutrient.Key()), m.lineTexts(a, f.Gaps)))
	}
}

// lineTexts names lines; those of a recipe inside by that recipe's line.
func (m *maker) lineTexts(a *nutrition.Account, ids []recipes.ID) string {
	var out []string
	seen := map[string]bool{}
	for _, id := range ids {
		name := m.printedLine(id)
		if name == "" {
			name = lineText(a, id)
		}
		if !seen[name] {
			seen[name] = true
			out = append(out, name)
		}
	}
	if len(out) > 4 {
		out = append(out[:4], words.Say("book.more", len(out)-4))
	}
	return charts.Semicolons(out)
}

// printedLine is a line as it stands on the page, "" where it does not.
func (m *maker) printedLine(id recipes.ID) string {
	for _, s := range m.out.Sections {
		for i := range s.Lines {
			if s.Lines[i].Line == id {
				return s.Lines[i].In(0)
			}
		}
	}
	return ""
}

func lineText(a *nutrition.Account, id recipes.ID) string {
	for i := range a.Lines {
		d := &a.Draft.Lines[i]
		if d.Line.ID == id {
			return wholeText(d)
		}
		if sub := a.Lines[i].Sub; sub != nil {
			if t := lineText(sub, id); t != words.Say("book.unnamed") {
				return t
			}
		}
	}
	return words.Say("book.unnamed")
}

// lineNamed finds the line of an ingredient's name, empty where it stands in a
// recipe inside this one.
func (m *maker) lineNamed(name string) recipes.ID {
	for i := range m.draft.Lines {
		l := m.draft.Lines[i].Line
		f := m.book.Food(l.Food)
		if !m.draft.Lines[i].Gone() && (l.Name == name || l.Name == "" && f != nil && f.Name == name) {
			return l.ID
		}
	}
	return ""
}

// piecesOf is what the recipe counts in ("slices"), "" for servings.
func piecesOf(d *recipes.Draft) string {
	_, noun, _ := strings.Cut(d.Recipe.Makes, " ")
	return noun
}
