package workbook

import (
	"context"
	"fmt"
	"net/url"
	"path/filepath"
	"strconv"

	"github.com/jmoiron/sqlx"
	_ "github.com/mattn/go-sqlite3" // the driver
)

// busyWait is the longest that SQLite itself waits for another program, ms;
// beyond that the writer tries again, so that it can still be told to stop.
const busyWait = 250

// dsn is the address of a file with what every connection to it must keep to:
// links checked, every commit on disk before it counts, a rollback journal
// (between edits the workbook is one complete file), writers one at a time, and
// what is deleted overwritten, so that a removed person is gone.
// The path is escaped: "#", "?" and "%" are ordinary in a file's name.
func dsn(path, mode string) string {
	q := url.Values{
		"mode":             {mode},
		"_foreign_keys":    {"on"},
		"_busy_timeout":    {strconv.Itoa(busyWait)},
		"_synchronous":     {"FULL"},
		"_txlock":          {"immediate"},
		"_secure_delete":   {"on"},
		"_stmt_cache_size": {"40"},
	}
	if mode != "ro" {
		q.Set("_journal_mode", "DELETE")
	}
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	return "file:" + (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath() + "?" + q.Encode()
}

// dial opens a file with one connection, the only one it will ever have: all
// acts on a workbook go one after another.
func dial(ctx context.Context, path, mode string) (*sqlx.DB, *sqlx.Conn, error) {
	db, err := sqlx.Open("sqlite3", dsn(path, mode))
	if err != nil {
		return nil, nil, err
	}
	db.SetMaxOpenConns(1)
	conn, err := db.Connx(ctx)
	if err != nil {
		db.Close()
		return nil, nil, err
	}
	return db, conn, nil
}

// execAll runs statements one after another and stops at the first error.
func execAll(ctx context.Context, c *sqlx.Conn, statements ...string) error {
	for _, s := range statements {
		if _, err := c.ExecContext(ctx, s); err != nil {
			return err
		}
	}
	return nil
}

// identityPragmas name the file's program and format in its header.
func identityPragmas() []string {
	return []string{
		fmt.Sprintf("PRAGMA application_id = %d", ApplicationID),
		fmt.Sprintf("PRAGMA user_version = %d", Format),
	}
}
