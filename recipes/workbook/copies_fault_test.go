package workbook

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
)

// copyWay is a way to write the whole workbook to another place.
type copyWay struct {
	name  string
	write func(ctx context.Context, f *File, path string) error
	fresh bool // the place must be free
	whole bool // the copy has everything
}

var copyWays = []copyWay{
	{"CopyTo", func(ctx context.Context, f *File, path string) error { return f.CopyTo(ctx, path) }, false, true},
	{"EditorCopyTo", func(ctx context.Context, f *File, path string) error { return f.EditorCopyTo(ctx, path) }, false, false},
	{"BackupTo", func(ctx context.Context, f *File, path string) error { return f.BackupTo(ctx, path) }, false, true},
	{"SaveContents", func(ctx context.Context, f *File, path string) error {
		c, err := f.Contents(ctx, true)
		if err != nil {
			return err
		}
		return SaveContents(ctx, path, c, testOptions())
	}, true, true},
	{"Restore", func(ctx context.Context, f *File, path string) error {
		return Restore(ctx, f.Path(), path, testOptions())
	}, true, true},
	{"Recover", func(ctx context.Context, f *File, path string) error {
		_, err := Recover(ctx, f.Path(), path, testOptions())
		return err
	}, true, true},
}

func copyWayOf(name string) copyWay {
	for _, w := range copyWays {
		if w.name == name {
			return w
		}
	}
	panic("no way to copy is called " + name)
}

// laden is a workbook with a tasting and a photo of half a MB.
func laden(t *testing.T) *File {
	t.Helper()
	f := written(t)
	v := f.Book().Versions("r1")[0]
	mustApply(t, f, tasted("r1", v.ID))
	mustApply(t, f, recipes.SetServings("r1", 6.5))
	photo := make([]byte, 1<<19)
	newSeeded(5).Read(photo) //nolint:errcheck // it never fails
	b := NewBlock("photo", photo)
	if _, err := f.Apply(ctx, recipes.AddTest(&recipes.Batch{ID: "p", Recipe: "r1", Date: "2026-03-05", Photos: []string{b.Hash}}), recipes.ByCook, b); err != nil {
		t.Fatal(err)
	}
	return f
}

// wantCopy fails unless path is a sound workbook with what book holds.
func wantCopy(t *testing.T, w copyWay, path string, book *recipes.Book) {
	t.Helper()
	g := mustOpen(t, path)
	defer g.Close()
	wantSound(t, g)
	if w.whole && content(t, g.Book()) != content(t, book) {
		t.Error("the copy differs")
	}
	if len(g.Book().Recipes()) != len(book.Recipes()) {
		t.Errorf("%d recipes in the copy", len(g.Book().Recipes()))
	}
	for _, b := range referredTo(g.Book().Entities()) {
		if _, err := g.Block(ctx, b.Hash); err != nil {
			t.Errorf("a photo: %v", err)
		}
	}
}

// target is where a copy goes: with an older workbook there, unless the place
// must be free.
func target(t *testing.T, w copyWay, dir string) (path, before string) {
	t.Helper()
	path = filepath.Join(dir, "copy.parewell")
	if w.fresh {
		return path, ""
	}
	if err := SaveBook(path, recipes.NewBook([]recipes.Entity{&recipes.Setting{Name: "old", Value: "1"}}), testOptions()); err != nil {
		t.Fatal(err)
	}
	return path, mustRead(t, path)
}

func mustRead(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if os.IsNotExist(err) {
		return ""
	}
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// wantOnlyIn fails if anything but the names stands in a folder.
func wantOnlyIn(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.Contains(" "+strings.Join(names, " ")+" ", " "+e.Name()+" ") {
			t.Errorf("left behind: %s", e.Name())
		}
	}
}

func TestEveryCopyIsWhole(t *testing.T) {
	f := laden(t)
	for _, w := range copyWays {
		t.Run(w.name, func(t *testing.T) {
			dir := t.TempDir()
			path, _ := target(t, w, dir)
			if err := w.write(ctx, f, path); err != nil {
				t.Fatal(err)
			}
			wantCopy(t, w, path, f.Book())
			wantOnlyIn(t, dir, "copy.parewell")
			if err := w.write(ctx, f, path); (err != nil) != w.fresh {
				t.Errorf("a second time: %v", err)
			}
			if err := w.write(ctx, f, f.Path()); err == nil {
				t.Error("the workbook was overwritten by its copy")
			}
			wantUnchanged(t, f, f.Book())
		})
	}
}

// TestACopyToAFullDisk has every way of copying meet a disk that has room for
// none of it, and for half of it.
func TestACopyToAFullDisk(t *testing.T) {
	f := laden(t)
	before := f.Book()
	for _, w := range copyWays {
		for _, room := range []int64{0, 200 << 10} {
			t.Run(fmt.Sprintf("%s with %d kB left", w.name, room>>10), func(t *testing.T) {
				dir := t.TempDir()
				if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=1200k"); err != nil {
					t.Skip("no drive of our own to fill:", err)
				}
				defer syscall.Unmount(dir, 0) //nolint:errcheck // the test is over
				path, old := target(t, w, dir)
				fillBut(t, dir, room)
				err := w.write(ctx, f, path)
				wantSentence(t, err, "workbook.disk-full")
				if said := err.Error(); !strings.HasPrefix(said, "copy.parewell: ") || strings.Contains(said, "\n") {
					t.Errorf("does not name the place in one line: %q", said)
				}
				if mustRead(t, path) != old {
					t.Error("what stood there is changed")
				}
				wantOnlyIn(t, dir, "copy.parewell", "fill")
				wantUnchanged(t, f, before)
				if err := os.Remove(filepath.Join(dir, "fill")); err != nil {
					t.Fatal(err)
				}
				if err := w.write(ctx, f, path); err != nil {
					t.Errorf("with room again: %v", err)
				}
				wantCopy(t, w, path, before)
			})
		}
	}
}

// fillBut fills a drive up to so many bytes.
func fillBut(t *testing.T, dir string, room int64) {
	t.Helper()
	fill, err := os.Create(filepath.Join(dir, "fill"))
	if err != nil {
		t.Fatal(err)
	}
	defer fill.Close()
	n, _ := io.Copy(fill, zeros{}) // it ends when the drive is full
	if err := fill.Truncate(max(0, n-room)); err != nil {
		t.Fatal(err)
	}
}

// TestACopyToAFolderThatMayNotBeWritten copies as another user.
func TestACopyToAFolderThatMayNotBeWritten(t *testing.T) {
	f := laden(t)
	f.Close()
	for _, w := range copyWays {
		t.Run(w.name, func(t *testing.T) {
			shelf := filepath.Join(t.TempDir(), "shelf")
			from := filepath.Join(shelf, "from", "x.parewell")
			dir := filepath.Join(shelf, "to")
			for _, d := range []string{filepath.Dir(from), dir} {
				if err := os.MkdirAll(d, 0o755); err != nil {
					t.Fatal(err)
				}
			}
			if err := copyFile(f.Path(), from); err != nil {
				t.Fatal(err)
			}
			path, old := target(t, w, dir)
			for p, mode := range map[string]os.FileMode{from: 0o444, dir: 0o555, filepath.Dir(shelf): 0o755, filepath.Dir(filepath.Dir(shelf)): 0o755} {
				if err := os.Chmod(p, mode); err != nil {
					t.Fatal(err)
				}
			}
			defer os.Chmod(dir, 0o755) //nolint:errcheck // for the clean-up
			p := startAsNobody(t, "copy "+w.name+" "+path, from)
			out, err := p.CombinedOutput()
			if want := "copy.parewell: " + words.Say("workbook.not-allowed"); err != nil || !strings.Contains(string(out), want) {
				t.Errorf("%v, missing %q in\n%s", err, want, out)
			}
			if mustRead(t, path) != old {
				t.Error("what stood there is changed")
			}
			wantOnlyIn(t, dir, "copy.parewell")
		})
	}
}

func TestACopyToAFolderThatIsGone(t *testing.T) {
	f := laden(t)
	for _, w := range copyWays {
		t.Run(w.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "pulled out")
			wantSentence(t, w.write(ctx, f, filepath.Join(dir, "copy.parewell")), "workbook.folder-gone", dir)
			wantUnchanged(t, f, f.Book())
		})
	}
}

// TestABackupOfAFileThatIsGone gives an error where CopyTo would write what is in
// memory: a backup is the whole file or none.
func TestABackupOfAFileThatIsGone(t *testing.T) {
	f := written(t)
	if err := os.Truncate(f.Path(), 2000); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := f.BackupTo(ctx, filepath.Join(dir, "copy.parewell")); err == nil {
		t.Error("a backup was made of a file that cannot be read")
	}
	wantOnlyIn(t, dir)
}

func TestACopyThatIsCalledOff(t *testing.T) {
	f := laden(t)
	off, cancel := context.WithCancel(ctx)
	cancel()
	for _, name := range []string{"CopyTo", "BackupTo"} {
		t.Run(name, func(t *testing.T) {
			w := copyWayOf(name)
			dir := t.TempDir()
			path, old := target(t, w, dir)
			if err := w.write(off, f, path); err == nil && name == "CopyTo" {
				t.Error("it went on")
			}
			if name == "CopyTo" && mustRead(t, path) != old {
				t.Error("what stood there is changed")
			}
			wantOnlyIn(t, dir, "copy.parewell")
			wantUnchanged(t, f, f.Book())
		})
	}
}

// TestEditsGoOnDuringABackup writes to the workbook while it is copied: the edits
// succeed, and the copy is of one moment.
func TestEditsGoOnDuringABackup(t *testing.T) {
	f := laden(t)
	for i := range 20 {
		big := make([]byte, 1<<20)
		big[0] = byte(i)
		if _, err := f.Apply(ctx, recipes.SetServings("r1", float64(10+i)), recipes.ByCook, NewBlock("photo", big)); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "copy.parewell")
	done := make(chan error)
	go func() { done <- f.BackupTo(ctx, path) }()
	edits, slowest := 0, time.Duration(0)
	for {
		select {
		case err := <-done:
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%d edits during a backup of 21 MB, the slowest took %v", edits, slowest.Round(time.Millisecond))
			g := mustOpen(t, path)
			wantSound(t, g)
			if s := g.Book().Recipe("r1").Servings; s < 29 || s > float64(100+edits) {
				t.Errorf("serves %v", s)
			}
			if g.UUID() != f.UUID() {
				t.Error("a backup has another identity")
			}
			return
		default:
			begun := time.Now()
			mustApply(t, f, recipes.SetServings("r1", float64(100+edits)))
			edits, slowest = edits+1, max(slowest, time.Since(begun))
		}
	}
}

func TestAMarkIsOfAState(t *testing.T) {
	f := written(t)
	mark := func() string {
		t.Helper()
		m, err := f.Mark(ctx)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	first := mark()
	if mark() != first {
		t.Error("two marks of one state")
	}
	mustApply(t, f, recipes.SetServings("r1", 2))
	second := mark()
	if _, err := f.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if third := mark(); second == first || third == first || third == second {
		t.Errorf("marks %s, %s, %s", first, second, third)
	}
	other, err := Open(f.Path(), testOptions())
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if m, err := other.Mark(ctx); err != nil || m != mark() {
		t.Errorf("another program's mark: %s %v", m, err)
	}
}

// TestABackupOfAnOlderProgramIsRestored takes files that earlier formats wrote.
func TestABackupOfAnOlderProgramIsRestored(t *testing.T) {
	for _, name := range []string{"v1", "v2"} {
		t.Run(name, func(t *testing.T) {
			old := filepath.Join(t.TempDir(), "old.parewell")
			if err := copyFile(filepath.Join("..", "..", "testdata", "workbooks", name+".parewell"), old); err != nil {
				t.Fatal(err)
			}
			before := mustRead(t, old)
			path := filepath.Join(t.TempDir(), "again.parewell")
			if err := Restore(ctx, old, path, testOptions()); err != nil {
				t.Fatal(err)
			}
			g := mustOpen(t, path)
			wantSound(t, g)
			if g.ReadOnly() || content(t, g.Book()) != onDisk(t, old) {
				t.Error("it is not what was backed up")
			}
			if mustRead(t, old) != before {
				t.Error("the backup was touched")
			}
		})
	}
}
