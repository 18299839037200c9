package desk

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// mostBytes is the largest recipe file that is read.
const mostBytes = 4 << 20

// Import reads recipe files and adds all their recipes in one change, or none
// if one of them is no recipe. then is called on the window's thread with the
// new recipes' IDs.
func (d *Desk) Import(paths []string, system measure.System, newID func() recipes.ID, then func([]recipes.ID, error)) {
	Background(d, "import", func(_ context.Context, b *recipes.Book) imported {
		return d.readFiles(paths, reading.Options{System: system, Memory: b}, newID)
	}, func(i imported) {
		if i.err != nil {
			then(nil, i.err)
			return
		}
		verb := recipes.All(words.P("did.import", len(i.verbs)), "", i.verbs...)
		d.DoAs(recipes.ByImport, verb, func(err error) { then(i.ids, err) })
	})
}

// imported is what was read of recipe files.
type imported struct {
	ids   []recipes.ID
	verbs []recipes.Verb
	err   error
}

func (d *Desk) readFiles(paths []string, opt reading.Options, newID func() recipes.ID) (out imported) {
	table, err := d.Foods()
	if err != nil {
		return imported{err: err}
	}
	opt.Foods = table
	for _, path := range paths {
		data, err := recipeFile(path)
		if err != nil {
			return imported{err: err}
		}
		drafts, err := reading.Read(data, filepath.Base(path), opt)
		if err != nil {
			return imported{err: err}
		}
		for _, draft := range drafts {
			r := draft.Recipe(newID)
			if r.Title == "" {
				r.Title = filepath.Base(path)
			}
			out.ids = append(out.ids, r.ID)
			out.verbs = append(out.verbs, recipes.AddRecipe(r, FoodsOf(r.Lines, table)))
		}
	}
	return out
}

// recipeFile reads one file; a folder, a missing file and one too large for any
// recipe get a sentence each.
func recipeFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, problem.Wrap(err, path, words.Say("desk.import.missing"), "")
	case err != nil:
		return nil, problem.Wrap(err, path, words.Say("desk.import.unreadable"), "")
	case info.IsDir():
		return nil, problem.New(path, words.Say("desk.import.folder"), words.Say("desk.import.folder.hint"))
	case info.Size() > mostBytes:
		return nil, problem.New(path, words.Say("desk.import.large"), words.Say("desk.import.large.hint"))
	}
	data, err := os.ReadFile(path)
	return data, problem.Wrap(err, path, words.Say("desk.import.unreadable"), "")
}

// FoodsOf finds the rows that lines use, to be pinned with them.
func FoodsOf(lines []*recipes.Line, table *food.Table) []*food.Food {
	var out []*food.Food
	for _, l := range lines {
		if f := table.Get(l.Food); f != nil {
			out = append(out, f)
		}
	}
	return out
}
