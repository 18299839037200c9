// Package desk is what the window works at: the open workbook, what is
// selected in it, the one queue that every edit goes through, and slow work
// beside it. It knows nothing of windows.
package desk

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/workbook"
)

// Options are what a Desk takes from outside. The zero Options work without a
// window: calls come back on the goroutine that did the work.
type Options struct {
	Post     func(func())     // runs a call on the window's thread, in order; nil: at once
	Now      func() time.Time // nil: the clock
	Random   io.Reader        // nil: the system's
	Patience time.Duration    // how long an edit waits for another program; 0: five seconds
	StateDir string           // where recent files and preferences are kept; "": this user's place

	// Starter reads the foods that come with the program, on first need; nil
	// for none.
	Starter func() ([]*food.Food, error)

	// BackupAfter is how long after a workbook was shown a copy of safety of it is
	// made in the state folder; 0: none is made.
	BackupAfter time.Duration

	// Did is called on the queue's goroutine with the key of each label, without
	// its arguments, once what it says is on disk: for reports of the program's
	// own faults. It may be nil.
	Did func(key string)

	// Opened is called on the queue's goroutine once a workbook is open and
	// shown. It may be nil.
	Opened func(ctx context.Context, f *workbook.File)
}

// View is what the window shows: one moment of the workbook and of the work on
// it. It is a value; nothing in it changes.
type View struct {
	Book      *recipes.Book // empty when no workbook is open, never nil
	Selection Selection
	Path      string // "" when no workbook is open
	ReadOnly  string // why nothing can be changed, "" when it can
	Undo      string // what undo would take back, "" for nothing
	UndoSeq   int64  // which change that is, 0 for none
	Redo      string // what redo would do again, "" for nothing
	Pending   int    // edits asked for and not yet on disk
	Message   string // the last thing worth telling, "" for nothing
}

// Name returns the workbook's name as a person says it.
func (v View) Name() string {
	return strings.TrimSuffix(filepath.Base(v.Path), workbook.Extension)
}

// Desk holds the open workbook. All methods may be called from any goroutine
// and none waits for the disk, but for those whose comment says so.
type Desk struct {
	opts  Options
	queue *queue
	prefs *prefsFile
	slow  slowWork
	foods foods

	safety safety

	untold atomic.Int32 // edits that are done and whose outcome is not posted yet

	mu      sync.Mutex // guards what follows
	watch   func(View)
	file    *workbook.File // nil when none is open; used on the queue only
	view    View
	closing bool
}

// New makes a desk with no workbook open and starts its queue. Preferences are
// read at once; a missing or damaged state file means the usual ones.
func New(o Options) *Desk {
	if o.Post == nil {
		o.Post = func(f func()) { f() }
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.StateDir == "" {
		o.StateDir = stateDir()
	}
	d := &Desk{opts: o, queue: newQueue(), prefs: readPrefs(o.StateDir)}
	d.view.Book = recipes.NewBook(nil)
	d.foods.starter = o.Starter
	return d
}

// Watch has show called on the window's thread with every new View, in order.
// There is one watcher; a second takes the first one's place.
func (d *Desk) Watch(show func(View)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.watch = show
}

// View returns the newest View.
func (d *Desk) View() View {
	d.mu.Lock()
	defer d.mu.Unlock()
	v := d.view
	v.Pending = d.queue.waiting()
	return v
}

// Book returns the newest Book, never nil.
func (d *Desk) Book() *recipes.Book { return d.View().Book }

// change alters the view and posts it, with what is to follow on the window's
// thread; then may be nil.
func (d *Desk) change(alter func(*View), then func()) {
	d.mu.Lock()
	if alter != nil {
		alter(&d.view)
		d.view.Selection = d.view.Selection.within(d.view.Book)
	}
	show := d.watch
	d.mu.Unlock()
	d.opts.Post(func() {
		if show != nil && alter != nil {
			show(d.View())
		}
		if then != nil {
			then()
		}
	})
}

// opened returns the open file, nil if there is none. For the queue only.
func (d *Desk) opened() *workbook.File {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.file
}
