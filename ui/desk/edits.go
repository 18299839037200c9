package desk

import (
	"context"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// Do has the verb run in its turn against the newest Book and written. then is
// called on the window's thread after the new View was shown, with nil once
// the edit is on disk, or with why nothing was changed; it may be nil.
func (d *Desk) Do(verb recipes.Verb, then func(error)) {
	d.DoAs(recipes.ByCook, verb, then)
}

// DoAs is Do for another origin, with blocks (photos, tables) that the change
// refers to.
func (d *Desk) DoAs(origin recipes.Origin, verb recipes.Verb, then func(error), blocks ...workbook.Block) {
	d.edit(then, nil, func(ctx context.Context, f *workbook.File) (workbook.Applied, error) {
		return f.Apply(ctx, verb, origin, blocks...)
	})
}

// Undo takes back the newest change that can be; then as for Do.
func (d *Desk) Undo(then func(error)) {
	d.edit(then, said("desk.undone"), func(ctx context.Context, f *workbook.File) (workbook.Applied, error) { return f.Undo(ctx) })
}

// Redo does again what Undo took back last; then as for Do.
func (d *Desk) Redo(then func(error)) {
	d.edit(then, said("desk.redone"), func(ctx context.Context, f *workbook.File) (workbook.Applied, error) { return f.Redo(ctx) })
}

// Refresh brings in what other programs have written to the workbook: for when
// the window comes to the front.
func (d *Desk) Refresh() {
	d.queue.add(job{run: func() {
		f := d.opened()
		if f == nil {
			return
		}
		a, err := f.Refresh(context.Background())
		if err != nil || a.Book != d.Book() {
			d.outcome(f, a, nil, err, nil)
		}
	}})
}

// Apply is DoAs for a goroutine that has to know before it goes on: it waits
// until the edit is on disk or ctx ends. Never call it on the window's thread.
func (d *Desk) Apply(ctx context.Context, origin recipes.Origin, verb recipes.Verb, blocks ...workbook.Block) error {
	written := make(chan error, 1)
	d.submit(func(err error) { written <- err }, nil, nil, func(_ context.Context, f *workbook.File) (workbook.Applied, error) {
		return f.Apply(ctx, verb, origin, blocks...)
	})
	select {
	case err := <-written:
		return err
	case <-ctx.Done():
		return ctx.Err()
	}
}

// act is an edit of a file.
type act func(ctx context.Context, f *workbook.File) (workbook.Applied, error)

// said makes a message of a phrase about what was done.
func said(key string) func(workbook.Applied) string {
	return func(a workbook.Applied) string { return words.Say(key, a.Label.String()) }
}

func (d *Desk) edit(then func(error), message func(workbook.Applied) string, run act) {
	d.submit(nil, then, message, run)
}

// submit queues an edit. at is called on the queue's goroutine as soon as the
// outcome is known, then on the window's thread after it was shown.
func (d *Desk) submit(at, then func(error), message func(workbook.Applied) string, run act) {
	answer := func(err error) {
		if at != nil {
			at(err)
		}
	}
	ok := d.queue.add(job{counts: true, run: func() {
		d.untold.Add(1) // before it is no longer pending
		defer d.untold.Add(-1)
		f := d.opened()
		if f == nil {
			d.queue.settled()
			err := noWorkbook()
			answer(err)
			d.change(nil, calling(then, err))
			return
		}
		a, err := run(context.Background(), f)
		d.queue.settled()
		answer(err)
		d.outcome(f, a, message, err, then)
	}})
	if !ok {
		err := problem.New("", words.Say("desk.closing"), "")
		answer(err)
		d.change(nil, calling(then, err))
	}
}

// outcome shows what an edit came to. A refused one leaves the View alone
// unless something arrived from another program.
func (d *Desk) outcome(f *workbook.File, a workbook.Applied, message func(workbook.Applied) string, err error, then func(error)) {
	if err == nil && a.Label.Key != "" && d.opts.Did != nil {
		d.opts.Did(a.Label.Key)
	}
	tell := arrived(a.Arrived)
	switch {
	case err != nil && then == nil: // nobody else would tell
		tell = err.Error()
	case err == nil && message != nil && tell == "":
		tell = message(a)
	}
	d.change(func(v *View) {
		if a.Book != nil {
			v.Book = a.Book
		}
		v.Undo, v.Redo = ends(f)
		v.UndoSeq = f.UndoSeq()
		if tell != "" {
			v.Message = tell
		} else if err == nil && a.Seq != 0 {
			v.Message = ""
		}
	}, calling(then, err))
}

// ends says what undo and redo would take.
func ends(f *workbook.File) (undo, redo string) {
	if l, ok := f.UndoLabel(); ok {
		undo = l.String()
	}
	if l, ok := f.RedoLabel(); ok {
		redo = l.String()
	}
	return undo, redo
}

// arrived says what other programs did: the newest of it, and how much more.
func arrived(entries []recipes.HistoryEntry) string {
	switch n := len(entries); n {
	case 0:
		return ""
	case 1:
		return words.Say("desk.arrived", entries[0].Label.String())
	default:
		return words.Say("desk.arrived.more", entries[n-1].Label.String(), n-1)
	}
}

func calling(then func(error), err error) func() {
	if then == nil {
		return nil
	}
	return func() { then(err) }
}

func noWorkbook() error {
	return problem.New("", words.Say("desk.no-workbook"), words.Say("desk.no-workbook.hint"))
}
