package desk

import (
	"context"
	"errors"
	"sync/atomic"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/food/tables"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// ImportedTable is what became of one published table.
type ImportedTable struct {
	Release *recipes.Release // as it is in the workbook
	Count   tables.Count     // rows read and left out
	Bad     []*problem.Error // the rows left out, with file and line; at most tables.MostBad
	Already bool             // it was in the workbook before: nothing was changed
}

// ImportTable reads published tables, each path a file, a folder or a zip file
// of one, and takes them into the workbook in one change, or none of them if one
// cannot be read. progress and then are called on the window's thread; progress
// may be nil. cancel calls the import off: nothing is changed then and then gets
// context.Canceled, as when another workbook was opened meanwhile. Another import
// takes the place of one that is still reading, whose then is not called.
func (d *Desk) ImportTable(paths []string, progress func(done, total int), then func([]ImportedTable, error)) (cancel func()) {
	ctx, cancel := context.WithCancel(context.Background())
	tell, into := d.telling(progress), d.View().Path
	Background(d, "import table", func(newer context.Context, b *recipes.Book) readTables {
		stop := context.AfterFunc(newer, cancel)
		defer stop()
		return readTablesAt(ctx, paths, b, d.opts.Now(), tell)
	}, func(r readTables) {
		if err := ctx.Err(); err != nil {
			r.err = err
		} else if d.View().Path != into {
			r.err = context.Canceled
		}
		if r.err != nil {
			then(nil, r.err)
			return
		}
		d.DoAs(recipes.ByImport, r.verb(), func(err error) {
			if err != nil {
				then(nil, err)
				return
			}
			then(r.done, nil)
		}, r.blocks...)
	})
	return cancel
}

// telling posts progress to the window's thread, never more than one call at a
// time: a window that is busy is told less often.
func (d *Desk) telling(progress func(done, total int)) func(done, total int) {
	if progress == nil {
		return nil
	}
	var posted atomic.Bool
	return func(done, total int) {
		if done < total && !posted.CompareAndSwap(false, true) {
			return
		}
		d.opts.Post(func() {
			posted.Store(false)
			progress(done, total)
		})
	}
}

// readTables is what was read of published tables.
type readTables struct {
	done   []ImportedTable
	blocks []workbook.Block
	err    error
}

// verb takes all of them in.
func (r readTables) verb() recipes.Verb {
	verbs := make([]recipes.Verb, len(r.done))
	for i, t := range r.done {
		verbs[i] = recipes.ImportRelease(t.Release)
	}
	if len(verbs) == 1 {
		return verbs[0]
	}
	return recipes.All(words.P("did.import-tables", len(verbs)), "", verbs...)
}

func readTablesAt(ctx context.Context, paths []string, b *recipes.Book, now time.Time, progress func(done, total int)) (out readTables) {
	all, err := tables.ReadAll(ctx, paths, tables.Options{Progress: progress})
	if err != nil {
		return readTables{err: err}
	}
	for _, im := range all {
		r, block, err := workbook.NewRelease(im.Name, im.Digest, im.Foods, now)
		if err != nil {
			return readTables{err: err}
		}
		t := ImportedTable{Release: r, Count: im.Count, Bad: im.Bad}
		if old := b.Release(r.Source, r.Release); old.Same(r) {
			t.Release, t.Already = old, true
		}
		out.done, out.blocks = append(out.done, t), append(out.blocks, block)
	}
	return out
}

// Releases returns the published tables of the workbook, the newest import
// first.
func (d *Desk) Releases() []*recipes.Release { return d.Book().Releases() }

// Relink is one line's food in the table it is linked to and in another.
type Relink struct {
	From *food.Food // the row the line uses now
	To   *food.Food // the row of the same number in the other table
}

// Before and After give a nutrient per 100 g of the two rows; ok is false where
// it is not known.
func (r Relink) Before(n food.Nutrient) (v float64, ok bool) { return r.From.Per100.Get(n) }

// After is the new row's; see Before.
func (r Relink) After(n food.Nutrient) (v float64, ok bool) { return r.To.Per100.Get(n) }

// RelinkPreview finds what a line's food is in another release of its table, to
// be looked at before the line is linked to it (recipes.SetLine with To's Ref
// and To to be pinned, which can be undone). It may read the release from the
// workbook: call it off the window's thread.
func (d *Desk) RelinkPreview(line *recipes.Line, other *recipes.Release) (Relink, error) {
	table, err := d.Foods()
	if err != nil {
		return Relink{}, err
	}
	from := d.Book().Food(line.Food)
	if from == nil {
		from = table.Get(line.Food)
	}
	if from == nil {
		return Relink{}, problem.New(line.Text, words.Say("desk.relink.no-food"), "")
	}
	to := table.Get(other.Of(line.Food.Code))
	if to == nil || from.Source != other.Source {
		return Relink{}, problem.New(from.Name, words.Say("desk.relink.none", other.Name), words.Say("desk.relink.none.hint"))
	}
	return Relink{From: from, To: to}, nil
}

// importedFoods reads the foods of every release in the workbook, past those
// that cannot be read.
func (d *Desk) importedFoods(releases []*recipes.Release) (all [][]*food.Food, err error) {
	f := d.opened()
	if f == nil || len(releases) == 0 {
		return nil, nil
	}
	var faults []error
	for _, r := range releases {
		foods, err := f.Release(context.Background(), r)
		if err != nil {
			faults = append(faults, problem.At(r.Name, err))
			continue
		}
		all = append(all, foods)
	}
	return all, errors.Join(faults...)
}
