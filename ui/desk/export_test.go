package desk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"parewell/recipes/problem"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := fmt.Fprint(w, s); return err }
}

// export runs an export and waits for it.
func export(t *testing.T, d *Desk, ctx context.Context, dir string, files ...ExportFile) ([]string, float64, error) {
	t.Helper()
	var written []string
	var err error
	last := 0.0
	done := make(chan struct{})
	d.Export(ctx, dir, files, func(p float64) { last = p }, func(w []string, e error) {
		written, err = w, e
		close(done)
	})
	<-done
	return written, last, err
}

func TestExportWritesWholeFiles(t *testing.T) {
	d := New(Options{StateDir: t.TempDir()})
	dir := t.TempDir()
	old := filepath.Join(dir, "a.txt")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	written, last, err := export(t, d, context.Background(), dir, ExportFile{"a.txt", text("one")}, ExportFile{"b.txt", text("two")})
	if err != nil || len(written) != 2 || last != 1 {
		t.Fatalf("wrote %v, %v, %v", written, err, last)
	}
	if b, _ := os.ReadFile(old); string(b) != "one" {
		t.Errorf("a.txt holds %q", b)
	}
}

func TestExportThatFailsLeavesNothingHalf(t *testing.T) {
	d := New(Options{StateDir: t.TempDir()})
	dir := t.TempDir()
	half := func(w io.Writer) error {
		fmt.Fprint(w, "half")
		return errors.New("no room")
	}
	_, _, err := export(t, d, context.Background(), dir, ExportFile{"a.txt", text("one")}, ExportFile{"b.txt", half}, ExportFile{"c.txt", text("three")})
	var p *problem.Error
	if !errors.As(err, &p) || p.Where != filepath.Join(dir, "b.txt") || p.Hint == "" {
		t.Fatalf("error %v", err)
	}
	files, _ := os.ReadDir(dir)
	if len(files) != 1 || files[0].Name() != "a.txt" {
		t.Errorf("left %v", files)
	}
}

func TestExportStops(t *testing.T) {
	d := New(Options{StateDir: t.TempDir()})
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	stopping := func(w io.Writer) error { stop(); return text("one")(w) }
	written, _, err := export(t, d, ctx, dir, ExportFile{"a.txt", stopping}, ExportFile{"b.txt", text("two")})
	if !errors.Is(err, context.Canceled) || len(written) != 1 {
		t.Errorf("wrote %v, %v", written, err)
	}
}

func TestFileName(t *testing.T) {
	for title, want := range map[string]string{
		"Leek & smoked haddock gratin": "Leek smoked haddock gratin", "../../etc/passwd": "etc passwd", "  ": "recipe",
		"Crème brûlée, lighter": "Crème brûlée lighter", "a/b\\c:d*e?f": "a b c d e f",
	} {
		if got := FileName(title); got != want {
			t.Errorf("%q: %q, want %q", title, got, want)
		}
	}
}
