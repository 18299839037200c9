package manuscript

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// TestSheet is what one version is cooked from, with blanks for what is weighed
// and noted on the way.
type TestSheet struct {
	Title       string // of the recipe
	Letter      string // of the version, "" for the original
	Name        string // of the version, may be empty
	Serves      string
	Ingredients []Ingredient
	Steps       []string
}

// Ingredient is one line to weigh; a Heading has no weight.
type Ingredient struct {
	Text    string
	Grams   string // as written, "?" when not known
	Heading bool
}

// TestSheetOf takes a version of the Book as it stands; a nil version gives the
// original. What was left out of the version is not on the sheet, what is taken
// off the dish is: it is weighed too.
func TestSheetOf(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) TestSheet {
	return sheetOf(b.Draft(r, v), 1)
}

// sheetOf writes down a draft that is cooked so many times over, in one pot.
func sheetOf(d *recipes.Draft, times float64) TestSheet {
	v := d.Version
	s := TestSheet{Steps: stepsOf(d, times), Title: d.Recipe.Title, Serves: words.Say("print.serves", words.Trim(d.Servings, 2))}
	if v != nil {
		s.Letter, s.Name = v.Letter, v.Name
	}
	section := ""
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Gone() {
			continue
		}
		if l.Line.Section != section {
			if section = l.Line.Section; section != "" {
				s.Ingredients = append(s.Ingredients, Ingredient{Text: section, Heading: true})
			}
		}
		many := *l
		many.Scale *= times
		s.Ingredients = append(s.Ingredients, ingredientOf(&many))
	}
	return s
}

// stepsOf is the method with its amounts as they are cooked; an amount that no
// ingredient is found for is told beside its step.
func stepsOf(d *recipes.Draft, times float64) []string {
	system, err := measure.ParseSystem(d.Recipe.Measures)
	if err != nil {
		system = measure.Metric
	}
	var out []string
	for _, st := range reading.DraftSteps(d, times, system) {
		text := st.Texts[0]
		for _, more := range st.Texts[1:] { // two swaps rewrite the step, and nobody has joined them
			text = words.Say("print.step-too", text, more)
		}
		if note := st.Note(); note != "" {
			text = words.Say("print.step-note", text, note)
		}
		out = append(out, text)
	}
	return out
}

// ingredientOf writes a line as it was written where no swap changed its
// amount, else by its name, so that an old amount never stands beside new grams.
func ingredientOf(d *recipes.DraftLine) Ingredient {
	out := Ingredient{Text: d.Line.Text, Grams: words.Unknown}
	g, known := d.Grams()
	if known {
		out.Grams = words.Grams(g)
	}
	if math.Abs(d.Scale-1) > 1e-9 {
		switch name := d.Line.Name; {
		case !known || name == "":
			out.Text = words.Say("print.part-of", words.Share(d.Scale), d.Line.Text)
		case d.Line.Prep != "":
			out.Text = words.Say("print.prepared", name, d.Line.Prep)
		default:
			out.Text = name
		}
	}
	return out
}

// TestSheets sets each sheet on pages of its own: one, unless the recipe is so
// long that it could not be read on one.
func TestSheets(paper Paper, sheets []TestSheet) *Document {
	d := &Document{Title: words.Say("print.tests.title", "")}
	for i := range sheets {
		if i == 0 {
			d.Title = words.Say("print.tests.title", sheets[i].Title)
		}
		d.Pages = append(d.Pages, setSheet(paper, &sheets[i])...)
	}
	return d
}
