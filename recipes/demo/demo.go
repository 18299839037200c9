// Package demo builds The Harbour Kitchen, the invented supper book that shows
// what the program does: three recipes with briefs, swaps and versions. It
// reads the embedded texts with the program's own readers and makes every
// entity by the verbs a cook would use; no number stands in its code.
package demo

import (
	"io/fs"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// dishes are the demo's recipes, in the book's order; each has a text and a plan.
var dishes = []string{"gratin", "chilli", "loaf"}

// Build returns the verbs that write the demo into an empty workbook, in
// order. The same source of IDs gives the same demo. An error can only mean
// that the embedded texts do not fit the table or the catalogue.
func Build(newID func() recipes.ID, table *food.Table, c *ideas.Catalogue) ([]recipes.Verb, error) {
	return build(assets.Demo, newID, table, c)
}

// Book returns the demo as a Book.
func Book(newID func() recipes.ID, table *food.Table, c *ideas.Catalogue) (*recipes.Book, error) {
	verbs, err := Build(newID, table, c)
	if err != nil {
		return nil, err
	}
	b := &recipes.Book{}
	for _, v := range verbs {
		change, err := v(b)
		if err != nil {
			return nil, err
		}
		if b, err = b.With(change); err != nil {
			return nil, err
		}
	}
	return b, nil
}

// kitchen is what the dishes are built with.
type kitchen struct {
	texts    fs.FS
	newID    func() recipes.ID
	foods    *food.Table // the starter table with the kitchen's own foods
	ideas    *ideas.Catalogue
	verbs    []recipes.Verb
	versions map[string]dishID // "title, letter"
}

// dishID names a version of a recipe.
type dishID struct{ recipe, version recipes.ID }

func build(texts fs.FS, newID func() recipes.ID, table *food.Table, c *ideas.Catalogue) ([]recipes.Verb, error) {
	k := &kitchen{texts: texts, newID: newID, ideas: c, versions: map[string]dishID{}}
	text, err := k.text("foods.txt")
	if err != nil {
		return nil, err
	}
	own, err := readFoods("foods.txt", text)
	if err != nil {
		return nil, err
	}
	for _, f := range own {
		k.verbs = append(k.verbs, recipes.PutFood(f))
	}
	k.foods = food.NewTable(append(table.Foods(), own...))
	for _, name := range dishes {
		if err := k.dish(name); err != nil {
			return nil, err
		}
	}
	if err := k.meals("meals.txt"); err != nil {
		return nil, err
	}
	return k.verbs, k.sittings("gratin-tastings.txt", "Smoked haddock and leek gratin")
}

func (k *kitchen) text(name string) (string, error) {
	b, err := fs.ReadFile(k.texts, "demo/"+name)
	return string(b), problem.At(name, err)
}

// options read as the demo's kitchen measures.
func (k *kitchen) options(where string) reading.Options {
	return reading.Options{System: measure.Metric, Foods: k.foods, Where: where}
}

// dish reads one recipe and its plan.
func (k *kitchen) dish(name string) error {
	text, err := k.text(name + ".txt")
	if err != nil {
		return err
	}
	draft, err := reading.ReadText(text, k.options(name+".txt"))
	if err != nil {
		return err
	}
	text, err = k.text(name + "-plan.txt")
	if err != nil {
		return err
	}
	p, err := readPlan(name+"-plan.txt", text)
	if err != nil {
		return err
	}
	r := draft.Recipe(k.newID)
	r.Source = words.Say("demo.source")
	all := make([]recipes.ID, 0, len(r.Lines))
	for _, l := range r.Lines {
		all = append(all, l.ID)
	}
	k.verbs = append(k.verbs, recipes.AddRecipe(r, k.pins(r.Lines)), recipes.SetBrief(r.ID, p.brief),
		recipes.SetTechnique(r.ID, p.cooked), recipes.SetSays(r.ID, p.says), recipes.SettleLines(r.ID, all))
	if err := k.work(name+"-plan.txt", r, p); err != nil {
		return err
	}
	if v := k.versions[r.Title+", "+p.print].version; v != "" {
		k.verbs = append(k.verbs, recipes.SetPrint(r.ID, recipes.Print{Version: v}))
	}
	return nil
}

// pins returns the foods lines name.
func (k *kitchen) pins(lines []*recipes.Line) []*food.Food {
	var out []*food.Food
	for _, l := range lines {
		if f := k.foods.Get(l.Food); f != nil {
			out = append(out, f)
		}
	}
	return out
}
