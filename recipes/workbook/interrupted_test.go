package workbook

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"parewell/recipes"
)

func TestAnotherProgramWritingIsWaitedForThenNamed(t *testing.T) {
	f := written(t)
	before := f.Book()
	other := mustOpen(t, f.Path())
	if _, err := other.conn.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
		t.Fatal(err)
	}
	f.opts.Patience = 300 * time.Millisecond
	_, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
	wantSentence(t, err, "workbook.busy")
	if f.Book() != before {
		t.Error("the Book changed")
	}
	done := make(chan error)
	f.opts.Patience = time.Minute
	go func() {
		_, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
		done <- err
	}()
	if _, err := other.conn.ExecContext(ctx, "ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	if err := <-done; err != nil {
		t.Errorf("after the other had finished: %v", err)
	}
}

func TestAReaderHoldsUpTheCommitOnly(t *testing.T) {
	f := written(t)
	before := f.Book()
	other := mustOpen(t, f.Path())
	if err := execAll(ctx, other.conn, "BEGIN"); err != nil {
		t.Fatal(err)
	}
	if _, err := readMeta(ctx, other.conn); err != nil {
		t.Fatal(err)
	}
	f.opts.Patience = 300 * time.Millisecond
	_, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
	wantSentence(t, err, "workbook.busy")
	if err := execAll(ctx, other.conn, "ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	wantUnchanged(t, f, before)
	mustApply(t, f, recipes.SetServings("r1", 2))
}

// interrupted is a workbook as a program leaves it that was killed in the
// middle of writing: pages half new, the journal beside it.
func interrupted(t *testing.T) (path string, before *recipes.Book) {
	t.Helper()
	from, before := shelf(t)
	f := mustOpen(t, from)
	if err := execAll(ctx, f.conn, "PRAGMA cache_size = 1", "BEGIN IMMEDIATE",
		`UPDATE recipe SET body = json_set(body, '$.title', 'half an edit')`); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "interrupted.parewell")
	if err := copyWithJournal(from, path); err != nil {
		t.Fatal(err)
	}
	if st, err := os.Stat(path + "-journal"); err != nil || st.Size() == 0 {
		t.Fatal("no journal was left", err)
	}
	return path, before
}

func TestAnInterruptedEditIsTakenBackOnOpening(t *testing.T) {
	path, before := interrupted(t)
	f := mustOpen(t, path)
	wantSound(t, f)
	if content(t, f.Book()) != content(t, before) {
		t.Error("half an edit stayed")
	}
	if names, _ := os.ReadDir(filepath.Dir(path)); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
}

func TestAnInterruptedEditCannotBeTakenBackByLooking(t *testing.T) {
	path, _ := interrupted(t)
	_, err := Open(path, Options{ReadOnly: true})
	wantSentence(t, err, "workbook.unfinished")
	if _, err := os.Stat(path + "-journal"); err != nil {
		t.Error("the journal is gone:", err)
	}
}

func TestRecoverTakesAnInterruptedEditBack(t *testing.T) {
	path, before := interrupted(t)
	g, r := mustRecover(t, path)
	if content(t, g.Book()) != content(t, before) || r.TotalLost() != 0 {
		t.Errorf("%+v", r)
	}
	if _, err := os.Stat(path + "-journal"); err != nil {
		t.Error("the damaged file's journal was touched:", err)
	}
}

func TestAnImpatientCallerIsNotKeptWaiting(t *testing.T) {
	f := written(t)
	other := mustOpen(t, f.Path())
	if err := execAll(ctx, other.conn, "BEGIN IMMEDIATE"); err != nil {
		t.Fatal(err)
	}
	f.opts.Patience = time.Hour
	soon, cancel := context.WithCancel(ctx)
	cancel()
	_, err := f.Apply(soon, recipes.SetServings("r1", 2), recipes.ByCook)
	wantSentence(t, err, "workbook.busy")
	if err := execAll(ctx, other.conn, "ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Apply(soon, recipes.SetServings("r1", 2), recipes.ByCook); err != nil {
		t.Errorf("a free workbook was not written to: %v", err)
	}
}

// TestNoPlainFileIsClosedDuringAnAct holds the rule that keeps SQLite's locks:
// while a workbook is worked on nothing opens one as plain bytes.
func TestNoPlainFileIsClosedDuringAnAct(t *testing.T) {
	f := written(t)
	_, err := f.Apply(ctx, func(b *recipes.Book) (recipes.Change, error) {
		if descriptors.TryLock() {
			descriptors.Unlock()
			t.Error("a file could be opened past SQLite in the middle of an edit")
		}
		return recipes.SetServings("r1", 2)(b)
	}, recipes.ByCook)
	if err != nil {
		t.Fatal(err)
	}
	if !descriptors.TryLock() {
		t.Fatal("an edit that is over still keeps files from being opened")
	}
	descriptors.Unlock()
}
