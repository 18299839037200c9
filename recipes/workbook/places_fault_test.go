package workbook

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// smallDrive is a drive of its own with so much room.
func smallDrive(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skip("no drive of our own to fill:", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, 0) }) //nolint:errcheck // the test is over
	return dir
}

// TestRecoverWithoutRoomToWork has no room for the copy it works on where passing
// files go: it works beside the new workbook, and where there is none either it says
// so and leaves nothing.
func TestRecoverWithoutRoomToWork(t *testing.T) {
	f := laden(t)
	f.Close()
	work := smallDrive(t, "200k")
	for _, passing := range []string{work, filepath.Join(work, "gone")} {
		t.Setenv("TMPDIR", passing)
		to := filepath.Join(t.TempDir(), "recovered.parewell")
		if _, err := Recover(ctx, f.Path(), to, testOptions()); err != nil {
			t.Fatal(err)
		}
		wantCopy(t, copyWayOf("Recover"), to, f.Book())
		wantOnlyIn(t, filepath.Dir(to), "recovered.parewell")
		_, err := Recover(ctx, f.Path(), filepath.Join(work, "x.parewell"), testOptions())
		wantSentence(t, err, "workbook.disk-full")
		if err != nil && !strings.HasPrefix(err.Error(), "x.parewell: ") {
			t.Errorf("does not name the place: %v", err)
		}
		wantOnlyIn(t, work)
	}
}

// TestAnOldFormatOnAFullDisk opens for looking what cannot be brought up to date.
func TestAnOldFormatOnAFullDisk(t *testing.T) {
	dir := smallDrive(t, "1200k")
	path := filepath.Join(dir, "old.parewell")
	if err := copyFile(filepath.Join(fixtures, "v1.parewell"), path); err != nil {
		t.Fatal(err)
	}
	before := mustRead(t, path)
	fillBut(t, dir, 0)
	f, err := Open(path, testOptions())
	if err != nil {
		t.Fatal("it cannot even be looked at:", err)
	}
	defer f.Close()
	if f.ReadOnlyWhy() != words.Say("workbook.only.full") || len(f.Book().Recipes()) != 1 {
		t.Errorf("read-only: %q, %d recipes", f.ReadOnlyWhy(), len(f.Book().Recipes()))
	}
	if mustRead(t, path) != before {
		t.Error("the file changed")
	}
	wantOnlyIn(t, dir, "old.parewell", "fill")
	if err := f.CopyTo(ctx, filepath.Join(t.TempDir(), "elsewhere.parewell")); err != nil {
		t.Errorf("the way on, a copy elsewhere: %v", err)
	}
	if err := os.Remove(filepath.Join(dir, "fill")); err != nil {
		t.Fatal(err)
	}
	g := mustOpen(t, path)
	if g.ReadOnly() {
		t.Errorf("with room again: %s", g.ReadOnlyWhy())
	}
	wantSound(t, g)
}

// TestCompactingOnAFullDisk: the file cannot be written anew, and is as it was.
func TestCompactingOnAFullDisk(t *testing.T) {
	dir := smallDrive(t, "1200k")
	from := laden(t)
	from.Close()
	path := filepath.Join(dir, "book.parewell")
	if err := copyFile(from.Path(), path); err != nil {
		t.Fatal(err)
	}
	f := mustOpen(t, path)
	before := f.Book()
	fillBut(t, dir, 40<<10)
	wantSentence(t, f.Compact(ctx), "workbook.disk-full")
	wantUnchanged(t, f, before)
	wantOnlyIn(t, dir, "book.parewell", "fill")
	if err := os.Remove(filepath.Join(dir, "fill")); err != nil {
		t.Fatal(err)
	}
	mustApply(t, f, recipes.SetServings("r1", 3))
}

// TestACopyOverAWorkbookThatIsOpen puts a copy where another window has a workbook
// open: that window is told at its next edit, and has what it saw.
func TestACopyOverAWorkbookThatIsOpen(t *testing.T) {
	f := laden(t)
	for _, name := range []string{"CopyTo", "EditorCopyTo", "BackupTo"} {
		t.Run(name, func(t *testing.T) {
			other := written(t)
			mustApply(t, other, recipes.SetTitle("r1", "Another"))
			seen := other.Book()
			if err := copyWayOf(name).write(ctx, f, other.Path()); err != nil {
				t.Fatal(err)
			}
			wantCopy(t, copyWayOf(name), other.Path(), f.Book())
			_, err := other.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
			wantSentence(t, err, "workbook.file-gone")
			if other.Book() != seen {
				t.Error("the Book changed")
			}
			wantCopy(t, copyWayOf(name), other.Path(), f.Book())
			to := filepath.Join(t.TempDir(), "saved.parewell")
			if err := other.CopyTo(ctx, to); err != nil || onDisk(t, to) != content(t, seen) {
				t.Errorf("the way on: %v", err)
			}
		})
	}
}

// TestACopyOfAWorkbookAnotherProgramHolds waits or names the cause; nothing half is
// left, and it succeeds once the other has finished.
func TestACopyOfAWorkbookAnotherProgramHolds(t *testing.T) {
	f := laden(t)
	other := mustOpen(t, f.Path())
	for _, name := range []string{"CopyTo", "BackupTo"} {
		t.Run(name, func(t *testing.T) {
			if _, err := other.conn.ExecContext(ctx, "BEGIN EXCLUSIVE"); err != nil {
				t.Fatal(err)
			}
			dir := t.TempDir()
			w := copyWayOf(name)
			path, old := target(t, w, dir)
			short, cancel := context.WithTimeout(ctx, 300*time.Millisecond)
			err := w.write(short, f, path)
			cancel()
			var p *problem.Error
			if !errors.As(err, &p) || strings.HasPrefix(p.What, "[") {
				t.Errorf("got %v", err)
			}
			if mustRead(t, path) != old {
				t.Error("what stood there is changed")
			}
			wantOnlyIn(t, dir, "copy.parewell")
			if _, err := other.conn.ExecContext(ctx, "ROLLBACK"); err != nil {
				t.Fatal(err)
			}
			if err := w.write(ctx, f, path); err != nil {
				t.Errorf("once it is free: %v", err)
			}
			wantCopy(t, w, path, f.Book())
		})
	}
}

// TestTheClockSetBackwards between edits: what was done last is undone first, and
// another program's edits still arrive.
func TestTheClockSetBackwards(t *testing.T) {
	f := written(t)
	other := mustOpen(t, f.Path())
	now := time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)
	f.opts.Now = func() time.Time { return now }
	for i := range 3 {
		mustApply(t, f, recipes.SetServings("r1", float64(10+i)))
		now = now.AddDate(-20, 0, 0)
	}
	h, err := f.History(ctx, "r1", 0)
	if err != nil || len(h) < 3 || !slices.IsSortedFunc(h, func(a, b recipes.HistoryEntry) int { return int(b.Seq - a.Seq) }) && !slices.IsSortedFunc(h, func(a, b recipes.HistoryEntry) int { return int(a.Seq - b.Seq) }) {
		t.Errorf("the notebook is out of order: %+v %v", h, err)
	}
	if a, err := other.Refresh(ctx); err != nil || len(a.Arrived) != 3 || a.Book.Recipe("r1").Servings != 12 {
		t.Errorf("%d changes arrived, %v", len(a.Arrived), err)
	}
	for _, want := range []float64{11, 10} {
		if _, err := f.Undo(ctx); err != nil || f.Book().Recipe("r1").Servings != want {
			t.Errorf("undone to %v, want %v: %v", f.Book().Recipe("r1").Servings, want, err)
		}
	}
	wantSound(t, f)
}

// TestAFileThatMayNotGrow meets a limit on the size of files, as a stick in an old
// format has one: an edit with a photo and every copy are refused in a sentence, and
// nothing of them stays.
func TestAFileThatMayNotGrow(t *testing.T) {
	f := laden(t)
	before := f.Book()
	var was syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &was); err != nil {
		t.Skip("no limit can be set:", err)
	}
	st, err := os.Stat(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	limited := func(most int64, act func()) {
		tight := syscall.Rlimit{Cur: uint64(most), Max: was.Max}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &tight); err != nil {
			t.Skip("no limit can be set:", err)
		}
		defer syscall.Setrlimit(syscall.RLIMIT_FSIZE, &was) //nolint:errcheck // it was so before
		act()
	}
	refused := func(name string, err error) {
		var p *problem.Error
		if !errors.As(err, &p) || p.What != words.Say("workbook.too-big") && name != "BackupTo" || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err) // SQLite does not tell a backup why it may not write
		}
		if err != nil && name != "an edit" && !strings.HasPrefix(err.Error(), "copy.parewell: ") {
			t.Errorf("%s does not name the place: %v", name, err)
		}
	}
	limited(st.Size()+100<<10, func() {
		_, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook, NewBlock("photo", make([]byte, 2<<20)))
		refused("an edit", err)
	})
	wantUnchanged(t, f, before)
	for _, w := range copyWays {
		dir := t.TempDir()
		path, old := target(t, w, dir)
		limited(300<<10, func() { refused(w.name, w.write(ctx, f, path)) })
		if mustRead(t, path) != old {
			t.Errorf("%s: what stood there is changed", w.name)
		}
		wantOnlyIn(t, dir, "copy.parewell")
	}
	mustApply(t, f, recipes.SetServings("r1", 3))
}
