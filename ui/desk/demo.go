package desk

import (
	"crypto/rand"
	"errors"
	"os"
	"path/filepath"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// OpenDemo opens the demo workbook kept in this user's state folder, as she
// left it; the first time it is made there. then as for Open.
func (d *Desk) OpenDemo(then func(error)) {
	path := filepath.Join(d.opts.StateDir, "demo", words.Say("demo.file")+workbook.Extension)
	d.bring(then, func() (*workbook.File, error) {
		if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
			if err := d.makeDemo(path); err != nil {
				return nil, err
			}
		}
		return workbook.Open(path, d.fileOptions())
	})
}

func (d *Desk) makeDemo(path string) error {
	table, err := d.foods.of(&recipes.Book{})
	if err != nil {
		return err
	}
	catalogue, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		return err
	}
	book, err := demo.Book(func() recipes.ID { return recipes.NewID(rand.Reader) }, table, catalogue)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return workbook.SaveBook(path, book, d.fileOptions())
}

// Damaged tells whether err says that a workbook is damaged, so that Recover
// can be offered.
func Damaged(err error) bool { return errors.Is(err, workbook.ErrDamaged) }

// Extension is the ending of a workbook's name.
const Extension = workbook.Extension

// StarterFoods reads the foods that come with the program.
func StarterFoods() ([]*food.Food, error) { return food.ReadStarter(assets.Foods) }

// Rescue is Recover with the entries that were kept and lost counted.
func (d *Desk) Rescue(damaged, to string, then func(kept, lost int, err error)) {
	d.Recover(damaged, to, func(r workbook.Recovered, err error) { then(sum(r.Kept), sum(r.Lost), err) })
}

func sum(kinds map[recipes.Kind]int) int {
	n := 0
	for _, k := range kinds {
		n += k
	}
	return n
}
