package desk

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// TestAnExportMeetsABadFolder has the window's export meet a full disk and a
// folder that is gone: what was there stays, nothing half is left.
func TestAnExportMeetsABadFolder(t *testing.T) {
	for _, row := range []struct {
		name  string
		spoil func(t *testing.T, dir string)
		gone  bool
	}{
		{"full disk", fullDrive, false},
		{"vanished folder", func(t *testing.T, dir string) { must(t, os.RemoveAll(dir)) }, true},
		{"a folder in the file's place", func(t *testing.T, dir string) {
			must(t, os.Remove(filepath.Join(dir, "b.txt")))
			must(t, os.Mkdir(filepath.Join(dir, "b.txt"), 0o755))
		}, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := New(Options{StateDir: t.TempDir()})
			dir := filepath.Join(t.TempDir(), "out")
			must(t, os.Mkdir(dir, 0o755))
			must(t, os.WriteFile(filepath.Join(dir, "b.txt"), []byte("old"), 0o600))
			row.spoil(t, dir)
			_, _, err := export(t, d, ctx, dir, ExportFile{"b.txt", text(strings.Repeat("b", 3<<20))})
			var p *problem.Error
			if !errors.As(err, &p) || p.What != words.Say("export.failed") || p.Where != filepath.Join(dir, "b.txt") {
				t.Fatalf("got %v", err)
			}
			if row.gone {
				return
			}
			if b, err := os.ReadFile(filepath.Join(dir, "b.txt")); err == nil && string(b) != "old" {
				t.Errorf("b.txt holds %d bytes", len(b))
			}
			if left, _ := filepath.Glob(filepath.Join(dir, ".parewell-*")); len(left) > 0 {
				t.Errorf("left behind: %q", left)
			}
		})
	}
}
