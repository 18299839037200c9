package desk

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
)

// ReadText reads pasted text, a saved page's or a recipe file's, into drafts,
// with the foods at hand and what the cook has decided before. It takes a while
// the first time: call it in Background.
func (d *Desk) ReadText(text string, system measure.System) ([]*reading.Draft, error) {
	opt, err := d.reading(system)
	if err != nil {
		return nil, err
	}
	return reading.Read([]byte(text), "", opt)
}

// ReadLine reads what was typed as one ingredient of a recipe, in the measures
// that recipe is written in. The line has no ID yet.
func (d *Desk) ReadLine(recipe recipes.ID, text string) (*recipes.Line, error) {
	system := measure.US
	if r := d.Book().Recipe(recipe); r != nil {
		if s, err := measure.ParseSystem(r.Measures); err == nil {
			system = s
		}
	}
	opt, err := d.reading(system)
	if err != nil {
		return nil, err
	}
	return reading.ReadLine(text, opt), nil
}

// FoodsFor finds the rows that lines use, to be pinned with them.
func (d *Desk) FoodsFor(lines ...*recipes.Line) ([]*food.Food, error) {
	table, err := d.Foods()
	if err != nil {
		return nil, err
	}
	return FoodsOf(lines, table), nil
}

func (d *Desk) reading(system measure.System) (reading.Options, error) {
	table, err := d.Foods()
	return reading.Options{System: system, Foods: table, Memory: d.Book()}, err
}
