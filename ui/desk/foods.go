package desk

import (
	"reflect"
	"slices"
	"sync"

	"parewell/recipes"
	"parewell/recipes/food"
)

// foods is the table ingredients are matched with: the foods that come with
// the program and those of the workbook, and beside them those of the published
// tables that were imported. Each part is made on first need and again when
// what it is made of changes.
type foods struct {
	mu      sync.Mutex
	starter func() ([]*food.Food, error)
	read    []*food.Food // the starter's, once read
	extra   []*food.Food // the workbook's that the table was made with
	own     *food.Table

	releases []*recipes.Release // that imported was made of
	partly   bool               // some of them could not be read
	imported *food.Table        // nil for none

	table *food.Table // own beside imported
}

// Foods returns the table of all foods at hand. The first call takes as long
// as reading the starter foods does, and the first after an import or the
// opening of a workbook with tables as long as reading those: make it off the
// window's thread.
func (d *Desk) Foods() (*food.Table, error) {
	book := d.Book()
	table, lost, err := d.foods.at(d, book)
	if lost != nil && d.Book() == book {
		d.Tell(lost.Error())
	}
	return table, err
}

// at makes the table for a Book of the desk's. lost tells which imported tables
// could not be read just now: the others still serve.
func (t *foods) at(d *Desk, book *recipes.Book) (table *food.Table, lost, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if err := t.readStarter(); err != nil {
		return nil, nil, err
	}
	changed, lost := t.readImported(d, book.Releases())
	if extra := t.beside(book.Foods()); t.own == nil || !slices.Equal(extra, t.extra) {
		t.extra, changed = extra, true
		t.own = food.NewTable(append(slices.Clone(t.read), extra...))
	}
	if changed {
		t.table = t.own.Beside(t.imported)
	}
	return t.table, lost, nil
}

// of makes a table of the starter foods and those of a Book that is not open.
func (t *foods) of(b *recipes.Book) (*food.Table, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if err := t.readStarter(); err != nil {
		return nil, err
	}
	return food.NewTable(append(slices.Clone(t.read), b.Foods()...)), nil
}

func (t *foods) readStarter() error {
	if t.read != nil || t.starter == nil {
		return nil
	}
	read, err := t.starter()
	t.read = read
	return err
}

// readImported makes the table of the imported foods when there are others than
// before, and tells whether it did. Rows that the starter has stay its own.
func (t *foods) readImported(d *Desk, releases []*recipes.Release) (changed bool, lost error) {
	if slices.EqualFunc(releases, t.releases, t.sameRelease) {
		return false, nil
	}
	all, lost := d.importedFoods(releases)
	known := make(map[food.Ref]bool, len(t.read))
	for _, f := range t.read {
		known[f.Ref] = true
	}
	var foods []*food.Food
	for _, f := range slices.Concat(all...) {
		if !known[f.Ref] {
			foods = append(foods, f)
		}
	}
	t.releases, t.partly, t.imported = releases, lost != nil, nil
	if len(foods) > 0 {
		t.imported = food.NewTable(foods)
	}
	return true, lost
}

// sameRelease tells whether a release need not be read again: one with the same
// block has the same foods, in whichever workbook, if all could be read.
func (t *foods) sameRelease(a, b *recipes.Release) bool {
	return a == b || !t.partly && a.Key() == b.Key() && a.Block == b.Block
}

// beside returns the workbook's foods that are not among the starter's, nor the
// very rows of an imported table: pinning one of those changes no search.
func (t *foods) beside(all []*food.Food) []*food.Food {
	known := make(map[food.Ref]bool, len(t.read))
	for _, f := range t.read {
		known[f.Ref] = true
	}
	var out []*food.Food
	for _, f := range all {
		if known[f.Ref] {
			continue
		}
		if t.imported != nil && reflect.DeepEqual(t.imported.Get(f.Ref), f) {
			continue
		}
		out = append(out, f)
	}
	return out
}
