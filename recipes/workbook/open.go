package workbook

import (
	"context"
	"crypto/rand"
	"database/sql"
	_ "embed"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/jmoiron/sqlx"
	sqlite3 "github.com/mattn/go-sqlite3"

	"parewell/recipes"
	"parewell/recipes/words"
)

//go:embed schema.sql
var schema string

//go:embed schema_serving.sql
var servingSchema string

// Open opens the workbook at path and reads its Book. A file that cannot be
// written (its own or its folder's permission, a newer format, an older one that
// a full disk has no room to bring up to date) opens for looking only and ReadOnlyWhy says why. Every failure is one *problem.Error;
// a damaged file's has ErrDamaged as its cause.
func Open(path string, o Options) (*File, error) {
	if err := identify(path); err != nil {
		return nil, err
	}
	f := &File{path: path, opts: o.filled()}
	mode := "rw"
	if o.ReadOnly {
		mode, f.readOnly = "ro", words.Say("workbook.only.asked")
	}
	ctx, cancel := context.WithTimeout(context.Background(), f.opts.Patience)
	defer cancel()
	if err := f.openAs(ctx, mode); err != nil {
		return nil, explain(path, err)
	}
	return f, nil
}

// openAs dials, looks at what the file says of itself and reads the Book.
func (f *File) openAs(ctx context.Context, mode string) error {
	descriptors.RLock()
	defer descriptors.RUnlock()
	return patiently(ctx, func() error {
		db, conn, err := dial(context.WithoutCancel(ctx), f.path, mode)
		if err != nil {
			return err
		}
		f.db, f.conn = db, conn
		err = f.settle(context.WithoutCancel(ctx))
		if err != nil {
			conn.Close()
			db.Close()
		}
		return err
	})
}

// settle decides how the file may be used and reads it.
func (f *File) settle(ctx context.Context) error {
	m, err := readMeta(ctx, f.conn)
	if err != nil {
		return err
	}
	if m.MinReader > Format {
		return say(nil, f.path, "workbook.too-new")
	}
	f.uuid = m.UUID
	if m.Format > Format && f.readOnly == "" {
		f.readOnly = words.Say("workbook.only.newer")
	}
	if f.readOnly == "" {
		if err := f.probe(ctx); err != nil {
			return err
		}
	}
	if m.Format < Format && f.readOnly == "" {
		err := upgrade(ctx, f.conn)
		if isFull(err) {
			f.readOnly, err = words.Say("workbook.only.full"), nil
		}
		if err != nil {
			return err
		}
	}
	return reading(ctx, f.conn, func() error {
		s, err := load(ctx, f.conn)
		if err == nil {
			f.now.Store(s)
		}
		return err
	})
}

// meta is the file's one row about itself.
type meta struct {
	UUID      string `db:"uuid"`
	Format    int    `db:"format"`
	MinReader int    `db:"min_reader"`
	Revision  int64  `db:"revision"`
}

func readMeta(ctx context.Context, c *sqlx.Conn) (meta, error) {
	var m meta
	err := c.GetContext(ctx, &m, "SELECT uuid, format, min_reader, revision FROM meta")
	if resultCode(err) == sqlite3.ErrError || errors.Is(err, sql.ErrNoRows) {
		err = errors.Join(ErrDamaged, err)
	}
	return m, err
}

// probe finds out whether an edit could be written by starting one and taking
// it back: the file's and the folder's permission, a read-only drive and a full
// one all answer the same way as they would later.
func (f *File) probe(ctx context.Context) error {
	if _, err := f.conn.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
		if busy(err) {
			return nil // another program is writing, so writing is possible
		}
		return f.probed(err)
	}
	_, err := f.conn.ExecContext(ctx, "UPDATE meta SET revision = revision + 1")
	f.conn.ExecContext(ctx, "ROLLBACK") //nolint:errcheck // nothing was changed that could fail to go back
	return f.probed(err)
}

// probed keeps a refusal as the reason for looking only. A disk that is full
// now may have room later, so it is no reason.
func (f *File) probed(err error) error {
	switch resultCode(err) {
	case 0, sqlite3.ErrFull:
		return nil
	case sqlite3.ErrReadonly, sqlite3.ErrCantOpen, sqlite3.ErrPerm:
		f.readOnly = words.Say("workbook.only.not-allowed")
		return nil
	}
	return err
}

// Create makes a new, empty workbook at path and opens it. A file that is
// already there is never overwritten, unless it is empty. A Create that is
// killed leaves no half workbook under that name.
func Create(path string, o Options) (*File, error) {
	return createWith(path, o, nil)
}

// createWith is Create with rows that fill sees to before the file gets its name.
func createWith(path string, o Options, fill func(ctx context.Context, c *sqlx.Conn) error) (*File, error) {
	if err := vacant(path); err != nil {
		return nil, err
	}
	o = o.filled()
	temp, err := build(path, o, fill)
	if err != nil {
		return nil, explain(path, err)
	}
	defer os.Remove(temp)
	if err := place(temp, path); err != nil {
		return nil, explain(path, err)
	}
	return Open(path, o)
}

// vacant refuses a path where something is already.
func vacant(path string) error {
	st, err := os.Stat(path)
	switch {
	case err == nil && st.IsDir():
		return say(nil, path, "workbook.folder")
	case err == nil && st.Size() > 0:
		return say(nil, path, "workbook.exists")
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return explain(path, err)
	}
	return nil
}

// build writes a complete workbook under a passing name beside path.
func build(path string, o Options, fill func(ctx context.Context, c *sqlx.Conn) error) (temp string, err error) {
	temp, err = passing(path, rand.Reader)
	if err != nil {
		return "", err
	}
	defer func() {
		if err != nil {
			os.Remove(temp)
		}
	}()
	ctx := context.Background()
	db, conn, err := dial(ctx, temp, "rw")
	if err != nil {
		return temp, err
	}
	defer db.Close()
	defer conn.Close()
	if err = execAll(ctx, conn, identityPragmas()...); err != nil {
		return temp, err
	}
	return temp, inOne(ctx, conn, func() error {
		if _, err := conn.ExecContext(ctx, schema+servingSchema); err != nil {
			return err
		}
		_, err := conn.ExecContext(ctx, "INSERT INTO meta VALUES (1, ?, ?, ?, 0, ?)",
			newUUID(o.Random), Format, MinReader, o.Now().Format(time.RFC3339))
		if err == nil && fill != nil {
			err = fill(ctx, conn)
		}
		return err
	})
}

// inOne runs act inside one write transaction: all of it or nothing.
func inOne(ctx context.Context, c *sqlx.Conn, act func() error) error {
	if _, err := c.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
		return err
	}
	err := act()
	if err == nil {
		_, err = c.ExecContext(ctx, "COMMIT")
	}
	if err != nil {
		c.ExecContext(ctx, "ROLLBACK") //nolint:errcheck // a failed COMMIT may have ended it already
	}
	return err
}

// passing makes an empty file of a passing name in path's folder, with the
// permissions an ordinary new file gets there.
func passing(path string, random io.Reader) (string, error) {
	name := filepath.Join(filepath.Dir(path), "."+string(recipes.NewID(random))+".part")
	t, err := os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return "", err
	}
	return name, t.Close()
}

// place gives a finished file its name, once its bytes are on disk.
func place(temp, path string) error {
	if err := syncFile(temp); err != nil {
		return err
	}
	if err := os.Rename(temp, path); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// syncFolder has a rename on disk; a system that cannot do it to a folder is
// no reason to fail, the file itself is there.
func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	d.Sync() //nolint:errcheck // see above
	return nil
}

// newUUID draws a random UUID (RFC 9562, version 4); it panics if random fails,
// as recipes.NewID does.
func newUUID(random io.Reader) string {
	var b [16]byte
	if _, err := io.ReadFull(random, b[:]); err != nil {
		panic("workbook: no randomness for a uuid: " + err.Error())
	}
	b[6] = b[6]&0x0f | 0x40
	b[8] = b[8]&0x3f | 0x80
	h := hex.EncodeToString(b[:])
	return h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:]
}

// patiently runs act again while another program keeps the file busy, until
// ctx ends.
func patiently(ctx context.Context, act func() error) error {
	for {
		err := act()
		if !busy(err) {
			return err
		}
		pause := time.NewTimer(10 * time.Millisecond)
		select {
		case <-ctx.Done():
			pause.Stop()
			return err
		case <-pause.C:
		}
	}
}
