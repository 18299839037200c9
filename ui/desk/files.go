package desk

import (
	"context"
	"path/filepath"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// Open opens the workbook at path in place of the one that is open, after the
// edits already made are on disk. When it fails the open one stays. then as
// for Do.
func (d *Desk) Open(path string, then func(error)) {
	d.bring(then, func() (*workbook.File, error) { return workbook.Open(path, d.fileOptions()) })
}

// Create makes a new workbook at path and opens it, like Open.
func (d *Desk) Create(path string, then func(error)) {
	d.bring(then, func() (*workbook.File, error) { return workbook.Create(path, d.fileOptions()) })
}

// Recover reads what it can of a damaged workbook into a new one at to and
// opens that, like Open. then also gets what was kept and lost.
func (d *Desk) Recover(damaged, to string, then func(workbook.Recovered, error)) {
	var what workbook.Recovered
	d.bring(func(err error) {
		if then != nil {
			then(what, err)
		}
	}, func() (*workbook.File, error) {
		var err error
		if what, err = workbook.Recover(context.Background(), damaged, to, d.fileOptions()); err != nil {
			return nil, err
		}
		return workbook.Open(to, d.fileOptions())
	})
}

// SaveCopy writes the whole workbook to path under an identity of its own and
// goes on with the one that is open. then as for Do.
func (d *Desk) SaveCopy(path string, then func(error)) {
	d.with(then, func(f *workbook.File) error { return f.CopyTo(context.Background(), path) })
}

// History has the notebook of a recipe read (of the whole workbook for an empty
// ID): the newest limit entries, oldest first. then is called on the window's
// thread.
func (d *Desk) History(recipe recipes.ID, limit int, then func([]recipes.HistoryEntry, error)) {
	var entries []recipes.HistoryEntry
	d.with(func(err error) { then(entries, err) }, func(f *workbook.File) (err error) {
		entries, err = f.History(context.Background(), recipe, limit)
		return err
	})
}

// Block has the bytes of a block read; then is called on the window's thread.
func (d *Desk) Block(hash string, then func([]byte, error)) {
	var bytes []byte
	d.with(func(err error) { then(bytes, err) }, func(f *workbook.File) (err error) {
		bytes, err = f.Block(context.Background(), hash)
		return err
	})
}

// Check has the whole file looked through; then is called on the window's
// thread with what is wrong, nothing if it is sound.
func (d *Desk) Check(then func([]*problem.Error, error)) {
	var found []*problem.Error
	d.with(func(err error) { then(found, err) }, func(f *workbook.File) (err error) {
		found, err = f.Check(context.Background())
		return err
	})
}

// CloseWait takes no further edits, waits until those already made are on disk
// and closes the workbook. If ctx ends first it says how many are still being
// written; they go on, and CloseWait may be called again.
func (d *Desk) CloseWait(ctx context.Context) error {
	d.mu.Lock()
	first := !d.closing
	d.closing = true
	d.mu.Unlock()
	if first {
		d.slow.stop()
		d.queue.add(job{run: d.closeFile})
		d.queue.close()
	}
	select {
	case <-d.queue.done:
		return nil
	case <-ctx.Done():
		return problem.Wrap(ctx.Err(), "", words.Say("desk.close-late", max(1, d.queue.waiting())), words.Say("desk.close-late.hint"))
	}
}

// closeFile closes the open file, on the queue. What a closing file could still
// complain of has no bearing on edits, which are on disk.
func (d *Desk) closeFile() {
	d.safety.stop()
	if f := d.opened(); f != nil {
		f.Close() //nolint:errcheck // see above
		d.mu.Lock()
		d.file = nil
		d.mu.Unlock()
	}
}

func (d *Desk) fileOptions() workbook.Options {
	return workbook.Options{Now: d.opts.Now, Random: d.opts.Random, Patience: d.opts.Patience}
}

// bring replaces the open file by the one that open gives.
func (d *Desk) bring(then func(error), open func() (*workbook.File, error)) {
	d.orClosing(then, func() {
		f, err := open()
		if err != nil {
			d.change(nil, calling(then, err))
			return
		}
		d.closeFile()
		d.mu.Lock()
		d.file = f
		d.mu.Unlock()
		d.prefs.opened(f.Path(), d.opts.Now())
		undo, redo := ends(f)
		message := ""
		if f.ReadOnly() {
			message = words.Say("desk.read-only", f.ReadOnlyWhy())
		}
		d.change(func(v *View) {
			*v = View{Book: f.Book(), Path: full(f.Path()), ReadOnly: f.ReadOnlyWhy(), Undo: undo, UndoSeq: f.UndoSeq(), Redo: redo, Message: message}
		}, calling(then, nil))
		d.backUp(f)
		if d.opts.Opened != nil {
			d.opts.Opened(context.Background(), f)
		}
	})
}

// with runs act on the open file, on the queue.
func (d *Desk) with(then func(error), act func(*workbook.File) error) {
	d.orClosing(then, func() {
		err := noWorkbook()
		if f := d.opened(); f != nil {
			err = act(f)
		}
		d.change(nil, calling(then, err))
	})
}

// orClosing queues run, or tells that the desk is closing.
func (d *Desk) orClosing(then func(error), run func()) {
	if !d.queue.add(job{run: run}) {
		d.change(nil, calling(then, problem.New("", words.Say("desk.closing"), "")))
	}
}

func full(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}
