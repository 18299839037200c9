package workbook

import (
	"context"
	"crypto/rand"
	"errors"
	"os"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// CopyTo writes the whole workbook, notebook and undo included, to path under
// a uuid of its own; what stood there is replaced once the copy is complete,
// never before. If the file itself can no longer be read (a vanished drive)
// the Book in memory is written instead, so that nothing seen is lost; only
// the notebook and the blocks are then missing.
func (f *File) CopyTo(ctx context.Context, path string) error {
	if err := f.mayCopyTo(path); err != nil {
		return err
	}
	temp, err := passing(path, rand.Reader)
	if err != nil {
		return explain(path, err)
	}
	defer os.Remove(temp)
	var fault error
	err = f.use(func(c *sqlx.Conn) error {
		_, fault = c.ExecContext(ctx, "VACUUM INTO ?", temp)
		return nil
	})
	if err == nil && fault != nil {
		err = f.copyBook(ctx, temp, fault)
	}
	if err != nil {
		return explain(path, err)
	}
	if err := f.rename(ctx, temp); err != nil {
		return explain(path, err)
	}
	return explain(path, place(temp, path))
}

// mayCopyTo refuses a folder and the workbook itself.
func (f *File) mayCopyTo(path string) error {
	to, err := os.Stat(path)
	if err != nil {
		return nil // nothing there: the copy itself will tell what is wrong
	}
	if to.IsDir() {
		return say(nil, path, "workbook.folder")
	}
	if from, err := os.Stat(f.path); err == nil && os.SameFile(from, to) {
		return say(nil, path, "workbook.copy-onto-itself")
	}
	return nil
}

// copyBook writes the Book in memory to path, when cause kept the file from
// being copied. A cause that lies at the target is not tried a second time.
func (f *File) copyBook(ctx context.Context, path string, cause error) error {
	if code := resultCode(cause); code == 0 || busy(cause) || isFull(cause) || refusedWriting(cause) || errors.Is(cause, context.Canceled) {
		return cause
	}
	book := f.Book()
	if err := os.Truncate(path, 0); err != nil {
		return errors.Join(cause, err)
	}
	built, err := build(path, f.opts, func(ctx context.Context, c *sqlx.Conn) error {
		return putAll(ctx, c, withBlocks(book.Entities(), nil))
	})
	if err != nil {
		return errors.Join(cause, err)
	}
	return os.Rename(built, path)
}

// rename gives a copy its own uuid.
func (f *File) rename(ctx context.Context, path string) error {
	db, conn, err := dial(ctx, path, "rw")
	if err != nil {
		return err
	}
	defer db.Close()
	defer conn.Close()
	_, err = conn.ExecContext(ctx, "UPDATE meta SET uuid = ?", newUUID(f.opts.Random))
	return err
}

// SaveBook writes entities of a Book as a new workbook at path, which must be
// free: for exports, the demo and copies that leave something out. The
// notebook starts empty.
func SaveBook(path string, b *recipes.Book, o Options) error {
	f, err := createWith(path, o, func(ctx context.Context, c *sqlx.Conn) error {
		return putAll(ctx, c, withBlocks(b.Entities(), nil))
	})
	if err != nil {
		return err
	}
	return f.Close()
}
