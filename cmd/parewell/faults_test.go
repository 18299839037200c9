package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"parewell/recipes/words"
)

// writers are the commands that write, each into a folder: BOOK is a workbook that
// is there, DATA what data made of it, OUT the folder.
var writers = []struct {
	name string
	args []string
}{
	{"demo", []string{"demo", "OUT/new.parewell"}},
	{"data out", []string{"data", "BOOK", "--to", "OUT"}},
	{"data in", []string{"data", "--from", "DATA", "OUT/new.parewell"}},
	{"print", []string{"print", "BOOK", "--to", "OUT", "--recipe", "Lemon and almond loaf", "--formats", "svg"}},
	{"print the book", []string{"print", "BOOK", "--to", "OUT", "--book", "--formats", "svg"}},
	{"export", []string{"export", "BOOK", "--to", "OUT", "--recipe", "Lemon and almond loaf"}},
	{"scores", []string{"tasting", "scores", "BOOK", "--to", "OUT", "--tasting", "2026-02-28"}},
	{"import", []string{"import", "OUT/new.parewell", "RECIPE"}},
}

// shelf is a folder all may read with the demo, its data and a recipe.
func shelf(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, args := range [][]string{{"demo", dir + "/book.parewell"}, {"data", dir + "/book.parewell", "--to", dir + "/data"}} {
		if code, said := told(args); code != exitWell {
			t.Fatal(said)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "recipe.txt"), []byte("Soup\nServes 2\n200 g leeks\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, p := range []string{dir, filepath.Dir(dir)} {
		if err := os.Chmod(p, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// told runs a command and returns its exit code and what it complains of.
func told(args []string) (int, string) {
	var out, errOut bytes.Buffer
	code := run(args, strings.NewReader(""), &out, &errOut)
	return code, errOut.String()
}

func placed(args []string, shelf, out string) []string {
	places := strings.NewReplacer("BOOK", shelf+"/book.parewell", "DATA", shelf+"/data", "RECIPE", shelf+"/recipe.txt", "OUT", out)
	var set []string
	for _, a := range args {
		set = append(set, places.Replace(a))
	}
	return set
}

// wantOneSentence holds a complaint to one line about one place, with what is
// wrong and how to go on.
func wantOneSentence(t *testing.T, code int, said, out string, keys ...string) {
	t.Helper()
	if code != exitBad || strings.Count(said, "\n") != 1 || !strings.HasPrefix(said, "parewell: ") || strings.Contains(said, "[") {
		t.Fatalf("exit code %d, said %q", code, said)
	}
	if strings.Count(said, out) < 1 {
		t.Errorf("the place is not named: %q", said)
	}
	found := 0
	for _, key := range keys {
		found = max(found, strings.Count(said, words.Say(key)))
	}
	if found != 1 || !strings.Contains(said, ";") {
		t.Errorf("%q says %d times what it should say once of %v", said, found, keys)
	}
}

// filesOf are the files below a folder with what is in them, but for the list of
// what was written.
func filesOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == listName {
			return err
		}
		b, err := os.ReadFile(path)
		all[strings.TrimPrefix(path, dir)] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// TestEveryCommandMeetsAFullDisk writes to drives with room for nothing and for
// some of it: one sentence, no half file, and all is well once there is room.
func TestEveryCommandMeetsAFullDisk(t *testing.T) {
	from := shelf(t)
	for _, w := range writers {
		whole := t.TempDir()
		if code, said := told(placed(w.args, from, whole)); code != exitWell {
			t.Fatal(said)
		}
		want := filesOf(t, whole)
		for _, room := range []int64{0, 100 << 10} {
			t.Run(fmt.Sprintf("%s with %d kB left", w.name, room>>10), func(t *testing.T) {
				dir := t.TempDir()
				if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=32m"); err != nil {
					t.Skip("no drive of our own to fill:", err)
				}
				t.Cleanup(func() { syscall.Unmount(dir, 0) }) //nolint:errcheck // the test is over
				fill(t, dir)
				if st, err := os.Stat(filepath.Join(dir, "fill")); err != nil || os.Truncate(filepath.Join(dir, "fill"), st.Size()-room) != nil {
					t.Fatal(err)
				}
				code, said := told(placed(w.args, from, dir))
				if code == exitWell && room > 0 {
					return // there was room enough
				}
				wantOneSentence(t, code, said, dir, "cmd.disk-full", "workbook.disk-full")
				wantNothingHalf(t, dir, want)
				if err := os.Remove(filepath.Join(dir, "fill")); err != nil {
					t.Fatal(err)
				}
				if code, said := told(placed(w.args, from, dir)); code != exitWell {
					t.Error("with room again:", said)
				}
			})
		}
	}
}

// wantNothingHalf wants no file but those of a whole run, and each as long.
func wantNothingHalf(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	for name, text := range filesOf(t, dir) {
		whole, known := want[name]
		if name == "/fill" {
			continue
		}
		if !known || len(text) < len(whole)*9/10 { // days and IDs differ
			t.Errorf("%s stands there with %d bytes of %d", name, len(text), len(whole))
		}
	}
}

// asNobody does something with the rights of nobody in particular: the thread's
// rights to files change, and the thread ends with the act.
func asNobody(t *testing.T, act func()) {
	t.Helper()
	done := make(chan error)
	go func() {
		runtime.LockOSThread() // and never unlocked: nothing else runs on this thread
		if os.Getuid() == 0 {
			if err := syscall.Setfsgid(65534); err != nil {
				done <- err
				return
			}
			if err := syscall.Setfsuid(65534); err != nil {
				done <- err
				return
			}
		}
		act()
		done <- nil
	}()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
}

// TestEveryCommandMeetsAFolderItMayNotWriteTo and one that cannot be made.
func TestEveryCommandMeetsAFolderItMayNotWriteTo(t *testing.T) {
	from := shelf(t)
	for _, w := range writers {
		for _, inside := range []string{"", "/not yet"} {
			if inside != "" && strings.HasSuffix(w.args[len(w.args)-1], ".parewell") || inside != "" && w.name == "import" {
				continue // a workbook's folder is not made
			}
			t.Run(w.name+inside, func(t *testing.T) {
				dir := t.TempDir()
				for p, mode := range map[string]os.FileMode{dir: 0o555, filepath.Dir(dir): 0o755} {
					if err := os.Chmod(p, mode); err != nil {
						t.Fatal(err)
					}
				}
				defer os.Chmod(dir, 0o755) //nolint:errcheck // for the clean-up
				var code int
				var said string
				asNobody(t, func() { code, said = told(placed(w.args, from, dir+inside)) })
				wantOneSentence(t, code, said, dir, "cmd.not-written", "workbook.not-allowed")
				if left := filesOf(t, dir); len(left) > 0 {
					t.Errorf("left behind: %d files", len(left))
				}
			})
		}
	}
}

// TestEveryCommandMeetsAPlaceThatIsNone has a file where a folder should be, and a
// workbook's folder gone.
func TestEveryCommandMeetsAPlaceThatIsNone(t *testing.T) {
	from := shelf(t)
	for _, w := range writers {
		t.Run(w.name, func(t *testing.T) {
			dir := t.TempDir()
			out := filepath.Join(dir, "gone")
			key, args := "workbook.folder-gone", []any{out}
			if strings.HasSuffix(strings.Join(w.args, " "), "--to OUT") || strings.Contains(strings.Join(w.args, " "), "--to OUT ") {
				key, args = "cmd.export.not-folder", nil
				if err := os.WriteFile(out, []byte("mine"), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			code, said := told(placed(w.args, from, out))
			if code != exitBad || strings.Count(said, "\n") != 1 || strings.Count(said, words.Say(key, args...)) != 1 {
				t.Errorf("exit code %d, said %q", code, said)
			}
			if key == "cmd.export.not-folder" {
				wantFile(t, out, "mine")
			}
		})
	}
}
