package workbook

import (
	"context"

	"github.com/jmoiron/sqlx"
	sqlite3 "github.com/mattn/go-sqlite3"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Applied is what an act came to.
type Applied struct {
	Book    *recipes.Book
	Seq     int64                  // its place in the notebook; 0 if nothing needed writing
	Label   words.Phrase           // what was done, undone or done again
	Arrived []recipes.HistoryEntry // what other programs had written meanwhile
}

// Apply runs the verb against the newest state of the file, writes the change
// it means, with the blocks it refers to, in one transaction, and returns once
// that is on disk. If another program wrote meanwhile the Book is read again
// first and Arrived tells what came. When it fails nothing is written and the
// file is as before; Applied.Book is then still the newest Book, with what
// arrived. ctx bounds the waiting for other programs, never a write half done.
func (f *File) Apply(ctx context.Context, verb recipes.Verb, origin recipes.Origin, blocks ...Block) (Applied, error) {
	return f.write(ctx, func(t *turn) error {
		change, err := verb(t.book)
		if err != nil {
			return err
		}
		t.out.Label = change.Label
		if change.Empty() {
			return nil
		}
		if err := putBlocks(t.ctx, t.conn, blocks); err != nil {
			return err
		}
		return t.do(change, origin)
	})
}

// Refresh reads what other programs have written since; Arrived is empty if
// they wrote nothing.
func (f *File) Refresh(ctx context.Context) (Applied, error) {
	out := Applied{Book: f.Book()}
	err := f.use(func(c *sqlx.Conn) error {
		ctx, cancel := context.WithTimeout(ctx, f.opts.Patience)
		defer cancel()
		return patiently(ctx, func() error {
			t := &turn{ctx: context.WithoutCancel(ctx), conn: c, file: f, state: *f.now.Load()}
			err := reading(ctx, c, t.catchUp)
			if err == nil {
				f.now.Store(&t.state)
				out = t.out
				out.Book = t.book
			}
			return err
		})
	})
	return out, err
}

// turn is one attempt at an act: a transaction and the state it would lead to.
type turn struct {
	state
	ctx   context.Context // cannot be cancelled: a turn is short and all or nothing
	conn  *sqlx.Conn
	file  *File
	out   Applied
	wrote bool
}

// write gives act a turn in a write transaction, again while other programs are
// busy, and makes its outcome the File's state once it is on disk.
func (f *File) write(ctx context.Context, act func(*turn) error) (Applied, error) {
	out := Applied{Book: f.Book()}
	err := f.use(func(c *sqlx.Conn) error {
		if f.ReadOnly() {
			return say(nil, f.path, "workbook.read-only", f.readOnly)
		}
		ctx, cancel := context.WithTimeout(ctx, f.opts.Patience)
		defer cancel()
		var arrived []recipes.HistoryEntry // kept over attempts
		return patiently(ctx, func() error {
			t := &turn{ctx: context.WithoutCancel(ctx), conn: c, file: f, state: *f.now.Load()}
			err := t.take(act)
			arrived = append(arrived, t.out.Arrived...)
			out = Applied{Book: f.Book(), Arrived: arrived}
			if err == nil {
				out.Seq, out.Label = t.out.Seq, t.out.Label
			}
			return err
		})
	})
	return out, err
}

// take begins, catches up, acts and commits; on any error it takes all back but
// keeps what other programs had committed.
func (t *turn) take(act func(*turn) error) error {
	if _, err := t.conn.ExecContext(t.ctx, "BEGIN IMMEDIATE"); err != nil {
		return err
	}
	err := t.catchUp()
	if err == nil {
		caught := t.state
		t.file.now.Store(&caught)
		err = act(t)
	}
	if err == nil && t.wrote {
		err = t.readEnds(t.ctx, t.conn)
	}
	if err == nil && t.wrote {
		_, err = t.conn.ExecContext(t.ctx, "COMMIT")
	}
	if err != nil || !t.wrote {
		t.conn.ExecContext(t.ctx, "ROLLBACK") //nolint:errcheck // a failed COMMIT may have ended it already
		t.settleFile(err)
		return err
	}
	done := t.state
	t.file.now.Store(&done)
	return nil
}

// settleFile has SQLite put the file right at once after a write that the drive
// refused: it leaves that to the next reader, and until then the file is whole only
// together with the journal beside it.
func (t *turn) settleFile(cause error) {
	if c := resultCode(cause); c != sqlite3.ErrIoErr && c != sqlite3.ErrFull {
		return
	}
	var revision int64
	t.conn.GetContext(t.ctx, &revision, "SELECT revision FROM meta") //nolint:errcheck // the cause is told
}

// catchUp reads the file again if another program committed since this state.
func (t *turn) catchUp() error {
	var revision int64
	if err := t.conn.GetContext(t.ctx, &revision, "SELECT revision FROM meta"); err != nil {
		return err
	}
	if revision == t.revision {
		return nil
	}
	arrived, err := entries(t.ctx, t.conn, "WHERE changed > ? ORDER BY changed, seq", t.revision)
	if err != nil {
		return err
	}
	s, err := load(t.ctx, t.conn)
	if err != nil {
		return err
	}
	t.state, t.out.Arrived = *s, arrived
	return nil
}

// do writes a change and its entry in the notebook.
func (t *turn) do(c recipes.Change, origin recipes.Origin) error {
	before := t.book
	if err := t.edit(c); err != nil {
		return err
	}
	seq, err := t.record(c, origin, touches(before, t.book, c))
	t.out.Seq = seq
	if err != nil {
		return err
	}
	return t.forget(c)
}

// edit writes a change's entities and moves to the Book and revision after it.
func (t *turn) edit(c recipes.Change) error {
	next, err := t.book.With(c)
	if err != nil {
		return err
	}
	for _, e := range c.Edits {
		if err := t.writeEdit(e); err != nil {
			return err
		}
	}
	if _, err := t.conn.ExecContext(t.ctx, "UPDATE meta SET revision = revision + 1"); err != nil {
		return err
	}
	t.book, t.wrote = next, true
	t.revision++
	return nil
}

func (t *turn) writeEdit(e recipes.Edit) error {
	if e.After == nil {
		if e.Before == nil {
			return nil
		}
		return tableOf(e.Before.Kind()).drop(t.ctx, t.conn, e.Before.Key())
	}
	body, err := recipes.EncodeEntity(e.After)
	if err != nil {
		return err
	}
	return tableOf(e.After.Kind()).put(t.ctx, t.conn, e.After.Key(), body)
}
