package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

func says(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

func mustOpenFolder(t *testing.T, path string) *folder {
	t.Helper()
	f, err := openFolder(path)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func wantFile(t *testing.T, path, text string) {
	t.Helper()
	if b, err := os.ReadFile(path); err != nil || string(b) != text {
		t.Errorf("%s holds %q (%v), want %q", filepath.Base(path), b, err, text)
	}
}

// TestAnExportThatWasKilledIsMadeAgain ends an export without its last act, and
// between putting a file in the list and writing it.
func TestAnExportThatWasKilledIsMadeAgain(t *testing.T) {
	dir := t.TempDir()
	first := mustOpenFolder(t, dir)
	for _, err := range []error{first.put("a.csv", says("old a")), first.put("b.csv", says("old b")), first.close()} {
		if err != nil {
			t.Fatal(err)
		}
	}
	killed := mustOpenFolder(t, dir)
	if err := killed.put("a.csv", says("new a")); err != nil {
		t.Fatal(err)
	}
	if err := killed.intend("b.csv", strings.Repeat("0", 64)); err != nil {
		t.Fatal(err)
	}
	again := mustOpenFolder(t, dir)
	for _, err := range []error{again.put("a.csv", says("newest a")), again.put("b.csv", says("newest b")), again.close()} {
		if err != nil {
			t.Error(err)
		}
	}
	wantFile(t, filepath.Join(dir, "a.csv"), "newest a")
	wantFile(t, filepath.Join(dir, "b.csv"), "newest b")
	list, err := os.ReadFile(filepath.Join(dir, listName))
	if err != nil || strings.Count(string(list), "\n") != 2 {
		t.Errorf("the list: %q %v", list, err)
	}
	if err := os.WriteFile(filepath.Join(dir, "a.csv"), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := mustOpenFolder(t, dir).put("a.csv", says("more")); err == nil {
		t.Error("somebody's own file was overwritten")
	}
	wantFile(t, filepath.Join(dir, "a.csv"), "mine")
}

func TestAnExportThatFailsLeavesWhatWasThere(t *testing.T) {
	for _, row := range []struct {
		name, key string
		spoil     func(t *testing.T, dir string)
		gone      bool
	}{
		{"full disk", "cmd.disk-full", fill, false},
		{"vanished folder", "cmd.folder-gone", func(t *testing.T, dir string) {
			if err := os.RemoveAll(dir); err != nil {
				t.Fatal(err)
			}
		}, true},
		{"a folder in the file's place", "", func(t *testing.T, dir string) {
			if err := os.Mkdir(filepath.Join(dir, "b.csv"), 0o755); err != nil {
				t.Fatal(err)
			}
		}, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			if row.key == "cmd.disk-full" {
				mountSmall(t, dir)
			}
			f := mustOpenFolder(t, dir)
			if err := f.put("a.csv", says("a")); err != nil {
				t.Fatal(err)
			}
			row.spoil(t, dir)
			err := f.put("b.csv", says(strings.Repeat("b", 100_000)))
			var p *problem.Error
			if !errors.As(err, &p) || row.key != "" && p.What != words.Say(row.key) {
				t.Fatalf("got %v, want %s", err, row.key)
			}
			if row.gone {
				return
			}
			wantFile(t, filepath.Join(dir, "a.csv"), "a")
			left, err := filepath.Glob(filepath.Join(dir, ".parewell-*.part"))
			if err != nil || len(left) > 0 {
				t.Errorf("left behind: %q %v", left, err)
			}
		})
	}
}

func mountSmall(t *testing.T, dir string) {
	t.Helper()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=64k"); err != nil {
		t.Skip("no drive of our own to fill:", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, 0) }) //nolint:errcheck // the test is over
}

// fill leaves no room on the drive of a folder.
func fill(t *testing.T, dir string) {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, "fill"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
	}
}
