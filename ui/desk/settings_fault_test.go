package desk

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestSettingsMeetABadPlace has the state file meet a full disk, a folder that is
// gone and one that cannot be: what is set holds while the program runs, nothing is
// refused, the old file stays whole and no half one is left.
func TestSettingsMeetABadPlace(t *testing.T) {
	for _, row := range []struct {
		name  string
		spoil func(t *testing.T, dir string)
		kept  string // theme at the next start
	}{
		{"full disk", fullDrive, "light"},
		{"the folder is gone", func(t *testing.T, dir string) { must(t, os.RemoveAll(dir)) }, "dark"}, // it is made again
		{"a file where the folder was", func(t *testing.T, dir string) {
			must(t, os.RemoveAll(dir))
			must(t, os.WriteFile(dir, []byte("mine"), 0o600))
		}, ""},
		{"a folder in the file's place", func(t *testing.T, dir string) {
			must(t, os.Remove(filepath.Join(dir, stateName)))
			must(t, os.Mkdir(filepath.Join(dir, stateName), 0o700))
		}, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "state")
			first := New(Options{StateDir: dir})
			first.SetPrefs(func(p *Prefs) { p.Theme = "light" })
			must(t, first.CloseWait(context.Background()))
			d := New(Options{StateDir: dir})
			row.spoil(t, dir)
			d.SetPrefs(func(p *Prefs) { p.Theme = "dark" })
			if d.Prefs().Theme != "dark" {
				t.Error("it does not hold while the program runs")
			}
			must(t, d.CloseWait(context.Background()))
			if p, _ := readState(filepath.Join(dir, stateName)); p.Theme != row.kept {
				t.Errorf("kept %q, want %q", p.Theme, row.kept)
			}
			entries, _ := os.ReadDir(dir)
			for _, e := range entries {
				if strings.HasPrefix(e.Name(), ".") {
					t.Errorf("left behind: %s", e.Name())
				}
			}
		})
	}
}
