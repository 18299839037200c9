package sheets

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Wrongly is the sentence for something typed that cannot be read: the key's
// words with the text, and what to write instead.
func Wrongly(key, text string) error {
	return problem.New("", words.Say(key, text), words.Say(key+".hint"))
}

// Steps lays out the original's method, a row a step, to be typed over.
func Steps(r *recipes.Recipe) Sheet {
	s := Sheet{Corner: words.Say("original.step"), Columns: []Column{{Key: "text", Title: words.Say("original.method"), Index: -1}}}
	for i, x := range r.Steps {
		s.Rows = append(s.Rows, Row{
			Key: string(x.ID), Label: Cell{Text: words.Say("versions.step", i+1), Muted: true, Bar: noBar()},
			Cells: []Cell{{Text: x.Text, Wrap: true, Editable: true, Bar: noBar()}},
		})
	}
	return s
}

// Names lists the ingredients of the given lines.
func Names(r *recipes.Recipe, ids []recipes.ID) string {
	var out []string
	for _, id := range ids {
		if l := r.Line(id); l != nil {
			out = append(out, LineName(l))
		}
	}
	return words.Join(out)
}

// Taken says what a line was taken for: "double cream, 285 g".
func Taken(l *recipes.Line, f *food.Food) string {
	if f == nil {
		return words.Say("doubts.taken-nothing")
	}
	return words.Say("doubts.taken", f.Name, gramsText(l, l.Grams))
}

// FoodLine is a food's figures in few words, for lists to choose from.
func FoodLine(f *food.Food) string {
	kcal, ok := f.Per100.Get(food.EnergyKcal)
	if !ok {
		return f.Group
	}
	return words.Say("food.line", words.Number(kcal, 0), f.Group)
}

// FoodAnswer offers a food as an answer to a doubt.
func FoodAnswer(f *food.Food) string {
	kcal, _ := f.Per100.Get(food.EnergyKcal)
	return words.Say("food.answer", f.Name, words.Number(kcal, 0))
}

// Asks tells whether the line still has a doubt of the kind.
func Asks(l *recipes.Line, kind recipes.DoubtKind) bool {
	for _, d := range l.Doubts {
		if d.Kind == kind && !l.Settled {
			return true
		}
	}
	return false
}

// StatesOf are the states a food may have been weighed in: dry or cooked for
// staples that swell, else raw or cooked.
func StatesOf(f *food.Food) []food.State {
	if f != nil && (f.Swells > 0 || f.State == food.Dry) {
		return []food.State{food.Dry, food.Cooked}
	}
	return []food.State{food.Raw, food.Cooked}
}
