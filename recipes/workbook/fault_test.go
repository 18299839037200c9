package workbook

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	sqlite3 "github.com/mattn/go-sqlite3"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// wantSentence fails unless err is one clear sentence of the key.
func wantSentence(tb testing.TB, err error, key string, args ...any) {
	tb.Helper()
	var p *problem.Error
	if !errors.As(err, &p) {
		tb.Fatalf("got %v, want the sentence of %s", err, key)
	}
	if p.What != words.Say(key, args...) {
		tb.Errorf("got %q, want %q", p.What, words.Say(key, args...))
	}
}

// wantUnchanged fails unless Book and file are as they were and the file works.
func wantUnchanged(t *testing.T, f *File, before *recipes.Book) {
	t.Helper()
	if f.Book() != before {
		t.Error("the Book changed")
	}
	if onDisk(t, f.Path()) != content(t, before) {
		t.Error("the file changed")
	}
	wantSound(t, f)
}

// written is a workbook with something in it.
func written(t *testing.T) *File {
	t.Helper()
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	return f
}

func TestOpenSaysWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		p := filepath.Join(dir, name)
		if err := os.WriteFile(p, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return p
	}
	other := filepath.Join(dir, "other.sqlite")
	func() {
		f := mustCreate(t)
		f.Close()
		raw(t, f.Path(), "PRAGMA application_id = 7")
		if err := os.Rename(f.Path(), other); err != nil {
			t.Fatal(err)
		}
	}()
	for _, row := range []struct{ name, path, key string }{
		{"missing file", filepath.Join(dir, "none.parewell"), "workbook.missing"},
		{"missing folder", filepath.Join(dir, "none", "none.parewell"), "workbook.missing"},
		{"folder", dir, "workbook.folder"},
		{"zero bytes", write("zero.parewell", ""), "workbook.empty"},
		{"text", write("text.parewell", strings.Repeat("hello", 500)), "workbook.not-one"},
		{"a few bytes", write("few.parewell", magic), "workbook.not-one"},
		{"another program's database", other, "workbook.other-program"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := Open(row.path, testOptions())
			wantSentence(t, err, row.key)
			if !strings.HasPrefix(err.Error(), filepath.Base(row.path)+": ") {
				t.Errorf("does not name the file: %v", err)
			}
		})
	}
	if names, _ := os.ReadDir(dir); len(names) != 4 {
		t.Errorf("opening made files: %v", names)
	}
}

func TestANewerFormatIsReadOnlyOrRefused(t *testing.T) {
	f := written(t)
	f.Close()
	raw(t, f.Path(), "UPDATE meta SET format = 9", "PRAGMA user_version = 9")
	g := mustOpen(t, f.Path())
	if g.ReadOnlyWhy() != words.Say("workbook.only.newer") || g.Book().Recipe("r1") == nil {
		t.Errorf("read-only: %q", g.ReadOnlyWhy())
	}
	_, err := g.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
	wantSentence(t, err, "workbook.read-only", words.Say("workbook.only.newer"))
	if _, err := g.Undo(ctx); err == nil {
		t.Error("undo wrote to a newer format")
	}
	g.Close()
	raw(t, f.Path(), "UPDATE meta SET min_reader = 9")
	_, err = Open(f.Path(), testOptions())
	wantSentence(t, err, "workbook.too-new")
}

func TestReadOnlyOpeningLeavesNoTrace(t *testing.T) {
	f := written(t)
	f.Close()
	before, err := os.ReadFile(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	g, err := Open(f.Path(), Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	if names, _ := os.ReadDir(filepath.Dir(f.Path())); len(names) != 1 {
		t.Errorf("beside it: %v", names)
	}
	_, err = g.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
	wantSentence(t, err, "workbook.read-only", words.Say("workbook.only.asked"))
	if err := g.CopyTo(ctx, filepath.Join(t.TempDir(), "copy.parewell")); err != nil {
		t.Errorf("a read-only workbook could not be copied: %v", err)
	}
	if after, _ := os.ReadFile(f.Path()); string(after) != string(before) {
		t.Error("the file changed")
	}
}

// TestAFailureHalfWayTakesAllBack has each statement of an edit fail in turn.
func TestAFailureHalfWayTakesAllBack(t *testing.T) {
	for _, row := range []struct{ name, trigger string }{
		{"first row", "BEFORE INSERT ON swap"},
		{"second row", "BEFORE UPDATE ON version"},
		{"kept table", "BEFORE INSERT ON version_swap"},
		{"revision", "BEFORE UPDATE ON meta"},
		{"notebook", "BEFORE INSERT ON history"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := written(t)
			before := f.Book()
			if _, err := f.conn.ExecContext(ctx, "CREATE TEMP TRIGGER fault "+row.trigger+" BEGIN SELECT RAISE(ABORT, 'planted'); END"); err != nil {
				t.Fatal(err)
			}
			_, err := f.Apply(ctx, recipes.AddSwap(lessButter("s", "r1", 0.5), nil, "a"), recipes.ByCook, NewBlock("photo", []byte("x")))
			if err == nil || !strings.Contains(err.Error(), "planted") {
				t.Fatalf("got %v", err)
			}
			wantUnchanged(t, f, before)
			if _, err := f.conn.ExecContext(ctx, "DROP TRIGGER fault"); err != nil {
				t.Fatal(err)
			}
			mustApply(t, f, recipes.AddSwap(lessButter("s", "r1", 0.5), nil, "a"))
		})
	}
}

func TestAFullDiskLosesNothing(t *testing.T) {
	f := written(t)
	before := f.Book()
	if _, err := f.conn.ExecContext(ctx, "PRAGMA max_page_count = 1"); err != nil { // SQLite takes the present size
		t.Fatal(err)
	}
	big := NewBlock("photo", make([]byte, 1<<20))
	_, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook, big)
	wantSentence(t, err, "workbook.disk-full")
	wantUnchanged(t, f, before)
	if _, err := f.conn.ExecContext(ctx, "PRAGMA max_page_count = 100000"); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook, big); err != nil {
		t.Errorf("with room again: %v", err)
	}
}

// TestARealFullDisk fills a small drive of its own; it needs the right to
// mount one.
func TestARealFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=400k"); err != nil {
		t.Skip("no drive of our own to fill:", err)
	}
	defer syscall.Unmount(dir, 0) //nolint:errcheck // the test is over
	f, err := Create(filepath.Join(dir, "small.parewell"), testOptions())
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	mustApply(t, f, addGratin("r1"))
	before := f.Book()
	_, err = f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook, NewBlock("photo", make([]byte, 1<<20)))
	wantSentence(t, err, "workbook.disk-full")
	wantUnchanged(t, f, before)
	fill, err := os.Create(filepath.Join(dir, "fill"))
	if err != nil {
		t.Fatal(err)
	}
	io.Copy(fill, zeros{}) //nolint:errcheck // it ends when the drive is full
	fill.Close()
	_, err = f.Apply(ctx, recipes.SetServings("r1", 3), recipes.ByCook)
	wantSentence(t, err, "workbook.disk-full")
	if f.Book() != before {
		t.Error("the Book changed")
	}
	err = f.CopyTo(ctx, filepath.Join(dir, "copy.parewell"))
	wantSentence(t, err, "workbook.disk-full")
	if err := f.CopyTo(ctx, filepath.Join(t.TempDir(), "elsewhere.parewell")); err != nil {
		t.Errorf("the way on, a copy elsewhere: %v", err)
	}
	g := mustOpen(t, f.Path()) // opens although full, and not as read-only
	if g.ReadOnly() {
		t.Errorf("a full disk made it read-only: %s", g.ReadOnlyWhy())
	}
	g.Close()
	if err := os.Remove(filepath.Join(dir, "fill")); err != nil {
		t.Fatal(err)
	}
	wantUnchanged(t, f, before)
	mustApply(t, f, recipes.SetServings("r1", 3))
	if names, _ := os.ReadDir(dir); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
}

type zeros struct{}

func (zeros) Read(b []byte) (int, error) { return len(b), nil }

// TestAFolderThatMayNotBeWrittenOpensReadOnly looks at a workbook as another
// user, because the superuser may write anywhere.
func TestAFolderThatMayNotBeWrittenOpensReadOnly(t *testing.T) {
	f := written(t)
	f.Close()
	for _, row := range []struct {
		name         string
		folder, file os.FileMode
	}{{"folder", 0o555, 0o666}, {"file", 0o777, 0o444}, {"both", 0o555, 0o444}} {
		t.Run(row.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "shelf")
			path := filepath.Join(dir, "x.parewell")
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			if err := copyFile(f.Path(), path); err != nil {
				t.Fatal(err)
			}
			for p, mode := range map[string]os.FileMode{path: row.file, dir: row.folder, filepath.Dir(dir): 0o755, filepath.Dir(filepath.Dir(dir)): 0o755} {
				if err := os.Chmod(p, mode); err != nil {
					t.Fatal(err)
				}
			}
			defer os.Chmod(dir, 0o755) //nolint:errcheck // for the clean-up
			said := lookAsNobody(t, path)
			why := words.Say("workbook.only.not-allowed")
			for _, want := range []string{
				"read-only: " + why, "recipes: 1", "files: 1 1",
				"edit: x.parewell: " + words.Say("workbook.read-only", why),
			} {
				if !strings.Contains(said, want) {
					t.Errorf("missing %q in\n%s", want, said)
				}
			}
		})
	}
}

// lookAsNobody runs the test binary as a user without rights.
func lookAsNobody(t *testing.T, path string) string {
	t.Helper()
	p := startAsNobody(t, "look", path)
	out, err := p.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return string(out)
}

func TestAFileDeletedUnderneathIsNoticed(t *testing.T) {
	for _, row := range []struct {
		name, key string
		lose      func(path string) error
	}{
		{"file", "workbook.file-gone", os.Remove},
		{"moved", "workbook.file-gone", func(p string) error { return os.Rename(p, p+".moved") }},
		{"folder", "workbook.file-gone", func(p string) error { return os.RemoveAll(filepath.Dir(p)) }},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := written(t)
			before := f.Book()
			if err := row.lose(f.Path()); err != nil {
				t.Fatal(err)
			}
			_, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook)
			wantSentence(t, err, row.key)
			if f.Book() != before {
				t.Error("the Book changed")
			}
			to := filepath.Join(t.TempDir(), "saved.parewell")
			if err := f.CopyTo(ctx, to); err != nil {
				t.Fatalf("the way on: %v", err)
			}
			if onDisk(t, to) != content(t, before) {
				t.Error("the copy differs")
			}
		})
	}
}

func TestCopyToSaysWhatIsWrong(t *testing.T) {
	f := written(t)
	dir := t.TempDir()
	err := f.CopyTo(ctx, filepath.Join(dir, "none", "copy.parewell"))
	wantSentence(t, err, "workbook.folder-gone", filepath.Join(dir, "none"))
	wantSentence(t, f.CopyTo(ctx, dir), "workbook.folder")
	f.Close()
	wantSentence(t, f.CopyTo(ctx, filepath.Join(dir, "x.parewell")), "workbook.closed")
	if _, err := f.Apply(ctx, recipes.SetServings("r1", 2), recipes.ByCook); err == nil {
		t.Error("a closed workbook took an edit")
	}
	if names, _ := os.ReadDir(dir); len(names) != 0 {
		t.Errorf("left behind: %v", names)
	}
}

// TestACopyIsSavedWhenTheDriveIsGone has the file unreadable under the open
// workbook: the copy is written from memory.
func TestACopyIsSavedWhenTheDriveIsGone(t *testing.T) {
	f := written(t)
	before := f.Book()
	if err := os.Truncate(f.Path(), 2000); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "saved.parewell")
	if err := f.CopyTo(ctx, to); err != nil {
		t.Fatal(err)
	}
	if onDisk(t, to) != content(t, before) {
		t.Error("the copy differs")
	}
}

func TestCreateSaysWhatIsWrong(t *testing.T) {
	f := written(t)
	_, err := Create(f.Path(), testOptions())
	wantSentence(t, err, "workbook.exists")
	wantUnchanged(t, f, f.Book())
	dir := t.TempDir()
	_, err = Create(filepath.Join(dir, "none", "x.parewell"), testOptions())
	wantSentence(t, err, "workbook.folder-gone", filepath.Join(dir, "none"))
	_, err = Create(dir, testOptions())
	wantSentence(t, err, "workbook.folder")
	zero := filepath.Join(dir, "zero.parewell") // as a file dialog leaves it
	if err := os.WriteFile(zero, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	g, err := Create(zero, testOptions())
	if err != nil {
		t.Fatal(err)
	}
	g.Close()
}

func TestEveryFaultHasASentence(t *testing.T) {
	for code := sqlite3.ErrNo(1); code <= 26; code++ {
		err := explain("/home/cook/x.parewell", sqlite3.Error{Code: code})
		var p *problem.Error
		if !errors.As(err, &p) || p.Where != "x.parewell" || p.What == "" || strings.HasPrefix(p.What, "[") {
			t.Errorf("code %d: %v", code, err)
		}
	}
	for _, err := range []error{syscall.ENOSPC, os.ErrPermission, os.ErrNotExist, syscall.EROFS, errors.New("odd"), &os.PathError{Err: syscall.EDQUOT}} {
		var p *problem.Error
		if !errors.As(explain("x", fmt.Errorf("in between: %w", err)), &p) || strings.HasPrefix(p.What, "[") {
			t.Errorf("%v: %v", err, p)
		}
	}
}
