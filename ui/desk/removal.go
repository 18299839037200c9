package desk

import (
	"context"

	"parewell/recipes"
	"parewell/recipes/workbook"
)

// RemovePerson runs the verb that removes a person's details and then rewrites
// the file, so that nothing of them is left in it. then as for Do.
func (d *Desk) RemovePerson(verb recipes.Verb, then func(error)) {
	d.edit(then, said("desk.removed"), func(ctx context.Context, f *workbook.File) (workbook.Applied, error) {
		a, err := f.Apply(ctx, verb, recipes.ByCook)
		if err != nil {
			return a, err
		}
		return a, f.Compact(ctx)
	})
}

// SaveEditorCopy writes a copy of the workbook without names, allergens,
// consents, body measures and private notes, and without the notebook. then is
// called on the window's thread.
func (d *Desk) SaveEditorCopy(path string, then func(error)) {
	d.queue.add(job{run: func() {
		f := d.opened()
		if f == nil {
			d.change(nil, calling(then, noWorkbook()))
			return
		}
		err := f.EditorCopyTo(context.Background(), path)
		d.change(nil, calling(then, err))
	}})
}
