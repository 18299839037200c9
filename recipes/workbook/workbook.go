// Package workbook keeps a Book in one file: it opens it, runs verbs against
// its newest state and has them on disk before they count, undoes, copies,
// checks and recovers. It is the only package that speaks SQL.
package workbook

import (
	"context"
	"crypto/rand"
	"io"
	"sync"
	"sync/atomic"
	"time"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Options are what a File takes from outside. The zero Options are those of
// the program: the clock, the system's randomness, five seconds' patience.
type Options struct {
	Now      func() time.Time // for the notebook's dates
	Random   io.Reader        // for a new workbook's uuid
	Patience time.Duration    // how long to try again while another program writes
	ReadOnly bool             // open for looking only
}

func (o Options) filled() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Random == nil {
		o.Random = rand.Reader
	}
	if o.Patience <= 0 {
		o.Patience = 5 * time.Second
	}
	return o
}

// File is an open workbook. Its methods may be called from any goroutine; they
// run one at a time. Book never waits.
type File struct {
	path     string
	opts     Options
	uuid     string
	readOnly string // why the file is only looked at, "" when it can be written

	mu   sync.Mutex // held during every act on db
	db   *sqlx.DB
	conn *sqlx.Conn // nil once closed
	now  atomic.Pointer[state]
}

// state is what the File knows of its file: replaced whole after each act.
type state struct {
	book       *recipes.Book
	revision   int64
	undo, redo *recipes.HistoryEntry // what Undo and Redo would take; nil for nothing
}

// Book returns the newest Book this File has seen. It never waits and the Book
// never changes.
func (f *File) Book() *recipes.Book { return f.now.Load().book }

// Path returns where the file is, as given to Open or Create.
func (f *File) Path() string { return f.path }

// UUID returns the workbook's identity; every copy has one of its own.
func (f *File) UUID() string { return f.uuid }

// Revision returns the number of commits the newest Book stands for.
func (f *File) Revision() int64 { return f.now.Load().revision }

// ReadOnly tells whether the file can only be looked at.
func (f *File) ReadOnly() bool { return f.readOnly != "" }

// ReadOnlyWhy says in a sentence why the file can only be looked at; "" when
// it can be written.
func (f *File) ReadOnlyWhy() string { return f.readOnly }

// UndoLabel returns what Undo would take back; false if there is nothing.
func (f *File) UndoLabel() (words.Phrase, bool) { return labelOf(f.now.Load().undo) }

// UndoSeq returns the number of that change in the history; 0 if there is none.
func (f *File) UndoSeq() int64 {
	if e := f.now.Load().undo; e != nil {
		return e.Seq
	}
	return 0
}

// RedoLabel returns what Redo would do again; false if there is nothing.
func (f *File) RedoLabel() (words.Phrase, bool) { return labelOf(f.now.Load().redo) }

func labelOf(e *recipes.HistoryEntry) (words.Phrase, bool) {
	if e == nil {
		return words.Phrase{}, false
	}
	return e.Label, true
}

// Close lets the file go. Everything that was confirmed is on disk already.
// Closing twice does nothing.
func (f *File) Close() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.conn == nil {
		return nil
	}
	err := f.conn.Close()
	f.conn = nil
	if e := f.db.Close(); err == nil {
		err = e
	}
	return explain(f.path, err)
}

// use runs act alone on the connection; an error says so when the File is closed.
func (f *File) use(act func(c *sqlx.Conn) error) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.conn == nil {
		return say(nil, f.path, "workbook.closed")
	}
	descriptors.RLock()
	defer descriptors.RUnlock()
	return explain(f.path, act(f.conn))
}

// reading runs act inside one read transaction: every table as of one moment.
func reading(ctx context.Context, c *sqlx.Conn, act func() error) error {
	ctx = context.WithoutCancel(ctx)
	if _, err := c.ExecContext(ctx, "BEGIN"); err != nil {
		return err
	}
	err := act()
	if _, e := c.ExecContext(ctx, "ROLLBACK"); err == nil {
		err = e
	}
	return err
}
