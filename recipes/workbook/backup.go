package workbook

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/jmoiron/sqlx"
	sqlite3 "github.com/mattn/go-sqlite3"
)

// A backup goes page by page, with room for edits in between: so many pages (of
// 4 kB) at a time, then a pause.
const (
	backupPages = 256
	backupPause = time.Millisecond
)

// BackupTo writes the file as it is, uuid and notebook and all, to path; what
// stood there is replaced once the copy is complete. Edits go on meanwhile and
// are in the copy. Unlike CopyTo it never makes do with less than the whole file:
// a file that cannot be read gives an error. It waits for other programs that are
// writing until ctx ends.
func (f *File) BackupTo(ctx context.Context, path string) error {
	if err := f.mayCopyTo(path); err != nil {
		return err
	}
	temp, err := passing(path, rand.Reader)
	if err != nil {
		return explain(path, err)
	}
	defer os.Remove(temp)
	if err := f.copyPages(ctx, temp); err != nil {
		return explain(path, err)
	}
	return explain(path, place(temp, path))
}

// copyPages has SQLite copy the open file into the one at path.
func (f *File) copyPages(ctx context.Context, path string) error {
	db, to, err := dial(ctx, path, "rw")
	if err != nil {
		return err
	}
	defer db.Close()
	defer to.Close()
	return to.Raw(func(target any) error {
		into, ok := target.(*sqlite3.SQLiteConn)
		if !ok {
			return fmt.Errorf("workbook: the driver gives a %T", target)
		}
		var b *sqlite3.SQLiteBackup
		err := f.onDriver(func(from *sqlite3.SQLiteConn) (err error) {
			b, err = into.Backup("main", from, "main")
			return err
		})
		if err != nil {
			return err
		}
		err, closed := f.steps(ctx, b), bare(b.Close())
		if err == nil {
			err = closed
		}
		if err != nil && !isFull(err) && !refusedWriting(err) {
			return explain(f.path, err) // it lies at the file itself
		}
		return err
	})
}

// steps copies until all is copied.
func (f *File) steps(ctx context.Context, b *sqlite3.SQLiteBackup) error {
	for {
		done := false
		var fault error // the driver's own: which of the two files it is of is not yet known
		err := f.onDriver(func(*sqlite3.SQLiteConn) (err error) {
			done, err = b.Step(backupPages)
			fault = bare(err)
			return nil
		})
		if err == nil {
			err = fault
		}
		if err != nil || done {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(backupPause):
		}
	}
}

// onDriver runs act alone on the driver's own connection.
func (f *File) onDriver(act func(*sqlite3.SQLiteConn) error) error {
	return f.use(func(c *sqlx.Conn) error {
		return c.Raw(func(driver any) error {
			conn, ok := driver.(*sqlite3.SQLiteConn)
			if !ok {
				return fmt.Errorf("workbook: the driver gives a %T", driver)
			}
			return act(conn)
		})
	})
}

// bare has the plain result code in Code, where the driver's backup leaves the
// extended one.
func bare(err error) error {
	var s sqlite3.Error
	if errors.As(err, &s) && s.Code > 0xff {
		return sqlite3.Error{Code: s.Code & 0xff, ExtendedCode: sqlite3.ErrNoExtended(s.Code)}
	}
	return err
}

// Mark is a short fingerprint of the state the file is in: the number of its
// commits and the newest entry of its notebook. Two states of a workbook with
// the same Mark are the same state, whichever way the file came here.
func (f *File) Mark(ctx context.Context) (mark string, err error) {
	var m struct {
		Revision int64
		Newest   string
	}
	err = f.use(func(c *sqlx.Conn) error {
		return c.GetContext(ctx, &m, `SELECT revision, coalesce((SELECT seq || at || state || label FROM history
			ORDER BY changed DESC, seq DESC LIMIT 1), made) AS newest FROM meta`)
	})
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%d %s", m.Revision, m.Newest))
	return hex.EncodeToString(sum[:6]), nil
}

// Restore writes the workbook at backup as a new one to path, which must be free,
// under a uuid of its own. The backup is only read.
func Restore(ctx context.Context, backup, path string, o Options) error {
	if err := vacant(path); err != nil {
		return err
	}
	o.ReadOnly = true
	f, err := Open(backup, o)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.CopyTo(ctx, path)
}
