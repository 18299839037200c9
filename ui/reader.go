package ui

import (
	"context"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
)

// readText is what came of reading pasted text: a recipe with IDs and the
// foods its lines use, or why not.
type readText struct {
	draft  *reading.Draft
	recipe *recipes.Recipe
	foods  []*food.Food
	more   int // further recipes found in the same text
	err    error
}

// read has text read beside the window; a newer call drops an older one's
// answer. done runs on the UI goroutine.
func (w *Window) read(text string, sys measure.System, done func(readText)) {
	desk.Background(w.desk, "read", func(_ context.Context, b *recipes.Book) readText {
		table, err := w.desk.Foods()
		if err != nil {
			return readText{err: err}
		}
		drafts, err := reading.Read([]byte(text), "", reading.Options{System: sys, Foods: table, Memory: b})
		if err != nil {
			return readText{err: err}
		}
		r := drafts[0].Recipe(w.newID)
		if r.Title == "" {
			r.Title = words.Say("preview.untitled")
		}
		return readText{draft: drafts[0], recipe: r, foods: desk.FoodsOf(r.Lines, table), more: len(drafts) - 1}
	}, done)
}

// readLine reads one ingredient line as the recipe in sight measures.
func (w *Window) readLine(text, section string) (*recipes.Line, []*food.Food, error) {
	table, err := w.desk.Foods()
	if err != nil {
		return nil, nil, err
	}
	l := reading.ReadLine(text, w.readingOptions(table, section))
	l.Section = section
	return l, desk.FoodsOf([]*recipes.Line{l}, table), nil
}

func (w *Window) readingOptions(table *food.Table, section string) reading.Options {
	opt := reading.Options{Foods: table, Memory: w.book(), Section: section}
	if r := w.recipe(); r != nil {
		if sys, err := measure.ParseSystem(r.Measures); err == nil {
			opt.System = sys
		}
	}
	return opt
}

// oneChoice is a memory that knows one more answer than the Book.
type oneChoice struct {
	reading.Memory
	choice *recipes.Choice
}

// Choice returns the new answer for its name, else what the Book remembers.
func (m oneChoice) Choice(name string) *recipes.Choice {
	if name == m.choice.Name {
		return m.choice
	}
	return m.Memory.Choice(name)
}

// choiceOf is what picking a food for a line teaches of its name.
func (w *Window) choiceOf(l *recipes.Line, f *food.Food) *recipes.Choice {
	c := &recipes.Choice{Name: reading.Key(l.Name), Food: f.Ref}
	if old := w.book().Choice(c.Name); old != nil {
		c.Grams = old.Grams
	}
	return c
}

// refood reads a line again with the food the cook chose, so that a cup or a
// clove is weighed as that food's; a line whose text no longer leads there
// keeps its weight.
func (w *Window) refood(l *recipes.Line, f *food.Food) *recipes.Line {
	table, err := w.desk.Foods()
	if err != nil || l.GramsFrom == recipes.GramsTyped {
		return l.WithFood(f)
	}
	opt := w.readingOptions(table, l.Section)
	opt.Memory = oneChoice{Memory: w.book(), choice: w.choiceOf(l, f)}
	again := reading.ReadLine(l.Text, opt)
	if again.Food != f.Ref {
		return l.WithFood(f)
	}
	again.ID, again.Section, again.PartEaten, again.Note = l.ID, l.Section, l.PartEaten, l.Note
	return again
}
