package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
	"parewell/ui/desk"
)

var importFlags = []flagSpec{{"measures", true}}

// runImport reads recipe files into a workbook, which is made if it is not
// there: all recipes in one change, or none if one of the files is no recipe.
func runImport(c *call) (int, error) {
	g, err := parse(c.args, importFlags)
	if err != nil {
		return exitBad, err
	}
	if len(g.operands) < 2 {
		return exitBad, problem.New(c.name, words.Say("cmd.import.what"), words.Say("cmd.see-help-of", c.name))
	}
	system, err := systemOf(g)
	if err != nil {
		return exitBad, err
	}
	im := &importing{call: c, opt: reading.Options{System: system}, files: g.operands[1:]}
	name := g.operands[0]
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return exitWell, im.intoNew(name)
	}
	return exitWell, withWorkbook(name, workbook.Options{}, im.into)
}

// importing is one import on its way: what was asked, then what was read.
type importing struct {
	*call
	opt    reading.Options
	files  []string
	table  *food.Table
	drafts []*reading.Draft
	verbs  []recipes.Verb
}

// intoNew makes the workbook once all recipes have been read; a workbook that
// then cannot be filled is taken away again.
func (im *importing) intoNew(name string) error {
	if err := im.read(recipes.NewBook(nil), nil); err != nil {
		return err
	}
	f, err := workbook.Create(name, workbook.Options{})
	if err != nil {
		return named(name, err)
	}
	if err = im.write(f); err == nil {
		err = f.Close()
	}
	if err != nil {
		f.Close()       //nolint:errcheck // the first error tells more
		os.Remove(name) //nolint:errcheck // likewise; it is ours, and empty
		return named(name, err)
	}
	return im.report(name)
}

func (im *importing) into(f *workbook.File) error {
	if err := im.read(f.Book(), func(t *food.Table) (*food.Table, error) { return withImported(f, t) }); err != nil {
		return err
	}
	if err := im.write(f); err != nil {
		return named(f.Path(), err)
	}
	return im.report(f.Path())
}

// read reads every file, with the workbook's foods and what its cook has
// settled before, and makes the verbs that add the recipes. beside adds the foods
// of imported tables; nil for none.
func (im *importing) read(b *recipes.Book, beside func(*food.Table) (*food.Table, error)) error {
	table, err := foodTable(b)
	if err == nil && beside != nil {
		table, err = beside(table)
	}
	if err != nil {
		return err
	}
	im.table, im.opt.Foods, im.opt.Memory = table, table, b
	for _, name := range im.files {
		drafts, err := readRecipes(name, im.in, im.opt)
		if err != nil {
			return err
		}
		for _, d := range drafts {
			d.Title = titleOf(d, name)
			r := d.Recipe(func() recipes.ID { return recipes.NewID(rand.Reader) })
			im.drafts = append(im.drafts, d)
			im.verbs = append(im.verbs, recipes.AddRecipe(r, desk.FoodsOf(r.Lines, table)))
		}
	}
	return nil
}

func (im *importing) write(f *workbook.File) error {
	verb := recipes.All(words.P("did.import", len(im.verbs)), "", im.verbs...)
	_, err := f.Apply(context.Background(), verb, recipes.ByImport)
	return err
}

// report says what came in and what of it wants looking at.
func (im *importing) report(name string) error {
	for _, d := range im.drafts {
		line := words.Say("cmd.import.did", d.Title, len(d.Lines), name)
		if _, err := fmt.Fprintln(im.out, line); err != nil {
			return err
		}
	}
	for _, d := range im.drafts {
		if err := writeDoubtsOf(im.out, d.Title, d, im.table); err != nil {
			return err
		}
	}
	return nil
}
