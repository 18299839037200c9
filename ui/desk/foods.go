package desk

import (
	"slices"
	"sync"

	"parewell/recipes"
	"parewell/recipes/food"
)

// foods is the table ingredients are matched with: the foods that come with
// the program and those of the workbook. It is made on first need and again
// when the workbook's own change.
type foods struct {
	mu      sync.Mutex
	starter func() ([]*food.Food, error)
	read    []*food.Food // the starter's, once read
	extra   []*food.Food // the workbook's that the table was made with
	table   *food.Table
}

// Foods returns the table of all foods at hand. The first call takes as long
// as reading the starter foods does: make it off the window's thread.
func (d *Desk) Foods() (*food.Table, error) { return d.foods.of(d.Book()) }

func (t *foods) of(b *recipes.Book) (*food.Table, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.read == nil && t.starter != nil {
		read, err := t.starter()
		if err != nil {
			return nil, err
		}
		t.read = read
	}
	extra := t.beside(b.Foods())
	if t.table != nil && slices.Equal(extra, t.extra) {
		return t.table, nil
	}
	t.extra = extra
	t.table = food.NewTable(append(slices.Clone(t.read), extra...))
	return t.table, nil
}

// beside returns the workbook's foods that are not among the starter's.
func (t *foods) beside(all []*food.Food) []*food.Food {
	known := make(map[food.Ref]bool, len(t.read))
	for _, f := range t.read {
		known[f.Ref] = true
	}
	var out []*food.Food
	for _, f := range all {
		if !known[f.Ref] {
			out = append(out, f)
		}
	}
	return out
}
