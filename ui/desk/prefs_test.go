package desk

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

func TestPrefsAreKeptWholeAndByRecency(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not yet", "parewell")
	b := newBench(t, Options{StateDir: dir})
	var paths []string
	for i := range recents + 2 {
		p := filepath.Join(t.TempDir(), string(rune('a'+i))+".parewell")
		paths = append([]string{p}, paths...)
		b.must(t, func(then func(error)) { b.Create(p, then) })
	}
	b.must(t, func(then func(error)) { b.Open(paths[3], then) })
	b.SetPrefs(func(p *Prefs) { p.Theme, p.Width, p.Text = "dark", 1200, 1.25 })
	b.ForgetRecent(paths[0])
	if got := b.Prefs(); got.Theme != "dark" || len(got.Recent) != recents-1 || got.Recent[0].Path != paths[3] {
		t.Errorf("at once: %+v", got)
	}
	if err := b.CloseWait(context.Background()); err != nil {
		t.Fatal(err)
	}
	again := New(Options{StateDir: dir})
	defer again.CloseWait(context.Background())
	if got, want := again.Prefs(), b.Prefs(); !same(got, want) {
		t.Errorf("kept %+v, want %+v", got, want)
	}
	if names, _ := os.ReadDir(dir); len(names) != 1 {
		t.Errorf("left in the folder: %v", names)
	}
}

func same(a, b Prefs) bool {
	x, _ := json.Marshal(a)
	y, _ := json.Marshal(b)
	return string(x) == string(y)
}

func TestTwoWindowsKeepEachOthersPrefs(t *testing.T) {
	dir := t.TempDir()
	a, b := New(Options{StateDir: dir}), New(Options{StateDir: dir})
	a.SetPrefs(func(p *Prefs) { p.Theme = "dark" })
	a.CloseWait(context.Background())
	b.SetPrefs(func(p *Prefs) { p.Text = 1.5 })
	b.CloseWait(context.Background())
	c := New(Options{StateDir: dir})
	defer c.CloseWait(context.Background())
	if p := c.Prefs(); p.Theme != "dark" || p.Text != 1.5 {
		t.Errorf("%+v", p)
	}
}

func TestADamagedStateFileIsForgotten(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, stateName), []byte(`{"theme": "da`), 0o600); err != nil {
		t.Fatal(err)
	}
	d := New(Options{StateDir: dir})
	if p := d.Prefs(); p.Theme != "" || len(p.Recent) != 0 {
		t.Errorf("%+v", p)
	}
	d.SetPrefs(func(p *Prefs) { p.Theme = "light" })
	d.CloseWait(context.Background())
	if p, err := readState(filepath.Join(dir, stateName)); err != nil || p.Theme != "light" {
		t.Errorf("%+v %v", p, err)
	}
}

func TestStateDirFollowsTheDesktop(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", "/somewhere/state")
	if got := stateDir(); got != filepath.FromSlash("/somewhere/state/parewell") {
		t.Error(got)
	}
	t.Setenv("XDG_STATE_HOME", "relative") // the specification has it ignored
	t.Setenv("HOME", "/home/cook")
	if got := stateDir(); got != filepath.FromSlash("/home/cook/.local/state/parewell") {
		t.Error(got)
	}
}
