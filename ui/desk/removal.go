package desk

import (
	"context"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// RemovePerson runs the verb that removes a person's details, then rewrites the
// file, so that nothing of them is left in it, and puts one fresh backup in the
// place of all others. then as for Do; an error may mean that the details are
// gone from the file but not from a backup, and then says so.
func (d *Desk) RemovePerson(verb recipes.Verb, then func(error)) {
	d.cleanse(verb, "desk.removed", "backups.renewed", then)
}

// ForgetMeasures takes body measures out of the workbook as RemovePerson takes a
// person out of it: out of the file's free space and of the backups too.
func (d *Desk) ForgetMeasures(then func(error)) {
	forget := recipes.All(words.P("did.forget-body"), "", recipes.Set(recipes.BodyMeasures, ""))
	d.cleanse(forget, "desk.forgotten", "backups.forgotten", then)
}

// cleanse runs a verb that takes something private out, then says it in the words
// of key, or of withBackups where there are backups to be renewed.
func (d *Desk) cleanse(verb recipes.Verb, key, withBackups string, then func(error)) {
	if d.opts.BackupAfter > 0 {
		key = withBackups
	}
	d.edit(then, said(key), func(ctx context.Context, f *workbook.File) (workbook.Applied, error) {
		a, err := f.Apply(ctx, verb, recipes.ByCook)
		if err != nil {
			return a, err
		}
		if err := f.Compact(ctx); err != nil {
			return a, err
		}
		if d.opts.BackupAfter <= 0 {
			return a, nil
		}
		return a, d.renewBackups(ctx, f)
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
