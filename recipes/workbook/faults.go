package workbook

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"syscall"

	sqlite3 "github.com/mattn/go-sqlite3"

	"parewell/recipes/problem"
)

// ErrDamaged is the cause of every error that says the file is damaged: the
// one fault that Recover mends.
var ErrDamaged = errors.New("damaged workbook")

// placeOf names a file the way a person does: without its folders.
func placeOf(path string) string {
	if path == "" {
		return ""
	}
	return filepath.Base(path)
}

// explain turns what SQLite and the system report into one sentence with a way
// on. An error that is a sentence already passes unchanged; nil stays nil.
func explain(path string, err error) error {
	var p *problem.Error
	if err == nil || errors.As(err, &p) {
		return err
	}
	var s sqlite3.Error
	if errors.As(err, &s) {
		return explainSQLite(path, s, err)
	}
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return say(err, path, "workbook.disk-full")
	case errors.Is(err, syscall.EFBIG):
		return say(err, path, "workbook.too-big")
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return say(err, path, "workbook.not-allowed")
	case errors.Is(err, fs.ErrNotExist):
		return say(err, path, "workbook.folder-gone", filepath.Dir(path))
	case isJSON(err), errors.Is(err, ErrDamaged):
		return damaged(path, err)
	}
	return say(err, path, "workbook.fault", err.Error())
}

// explainAt is explain for what was written under a passing name: the sentence
// names the file it was to be.
func explainAt(path string, err error) error {
	err = explain(path, err)
	var p *problem.Error
	if !errors.As(err, &p) {
		return err
	}
	q := *p
	q.Where = placeOf(path)
	return &q
}

// damaged keeps ErrDamaged and the cause, so that a caller can offer Recover.
func damaged(path string, err error) error {
	return say(errors.Join(ErrDamaged, err), path, "workbook.damaged")
}

func isJSON(err error) bool {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	return errors.As(err, &syntax) || errors.As(err, &kind)
}

// explainSQLite sorts SQLite's result codes (sqlite.org/rescode.html).
func explainSQLite(path string, s sqlite3.Error, err error) error {
	switch s.ExtendedCode {
	case sqlite3.ErrReadonlyDbMoved:
		return say(err, path, "workbook.file-gone")
	case sqlite3.ErrReadonlyRecovery, sqlite3.ErrReadonlyRollback:
		return say(err, path, "workbook.unfinished")
	case sqlite3.ErrConstraintForeignKey:
		return say(err, path, "workbook.still-used")
	}
	switch s.Code {
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return say(err, path, "workbook.busy")
	case sqlite3.ErrFull:
		return say(err, path, "workbook.disk-full")
	case sqlite3.ErrReadonly, sqlite3.ErrPerm, sqlite3.ErrAuth:
		return say(err, path, "workbook.not-allowed")
	case sqlite3.ErrCorrupt, sqlite3.ErrNotADB:
		return damaged(path, err)
	case sqlite3.ErrCantOpen:
		return cannotOpen(path, err)
	case sqlite3.ErrIoErr:
		return ioFault(path, s, err)
	}
	return say(err, path, "workbook.fault", s.Error())
}

// cannotOpen looks why a file or its journal cannot be opened.
func cannotOpen(path string, err error) error {
	if _, e := os.Stat(filepath.Dir(path)); e != nil {
		return say(err, path, "workbook.folder-gone", filepath.Dir(path))
	}
	if _, e := os.Stat(path); errors.Is(e, fs.ErrNotExist) {
		return say(err, path, "workbook.file-gone")
	}
	return say(err, path, "workbook.not-allowed")
}

// ioFault is the drive's own refusal; a full disk can come this way too.
func ioFault(path string, s sqlite3.Error, err error) error {
	switch s.SystemErrno {
	case syscall.ENOSPC, syscall.EDQUOT:
		return say(err, path, "workbook.disk-full")
	case syscall.EFBIG:
		return say(err, path, "workbook.too-big")
	}
	return say(err, path, "workbook.drive", s.Error())
}

// resultCode returns SQLite's result code of err, 0 if it has none (or is nil).
func resultCode(err error) sqlite3.ErrNo {
	var s sqlite3.Error
	if errors.As(err, &s) {
		return s.Code
	}
	return 0
}

// busy tells whether err only means that another program is writing just now.
func busy(err error) bool {
	c := resultCode(err)
	return c == sqlite3.ErrBusy || c == sqlite3.ErrLocked
}

// isFull tells whether err means that a disk has no room for a file: none at all,
// or none for one so large.
func isFull(err error) bool {
	var s sqlite3.Error
	if errors.As(err, &s) {
		return s.Code == sqlite3.ErrFull || slices.Contains(noRoom, s.SystemErrno)
	}
	return slices.ContainsFunc(noRoom, func(e syscall.Errno) bool { return errors.Is(err, e) })
}

var noRoom = []syscall.Errno{syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG}

// refusedWriting tells whether err is of a drive that would not take what was
// written: of a copy that is never the file it is made from.
func refusedWriting(err error) bool {
	var s sqlite3.Error
	return errors.As(err, &s) && slices.Contains([]sqlite3.ErrNoExtended{
		sqlite3.ErrIoErrWrite, sqlite3.ErrIoErrFsync, sqlite3.ErrIoErrDirFsync, sqlite3.ErrIoErrTruncate, sqlite3.ErrIoErrClose,
	}, s.ExtendedCode)
}
