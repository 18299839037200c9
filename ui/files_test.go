package ui

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// TestWhatOpeningCameTo opens files as the command line does: a damaged one can
// be recovered on the spot, another says why it cannot be opened.
func TestWhatOpeningCameTo(t *testing.T) {
	a := test.NewTempApp(t)
	t.Cleanup(parts.UseTiming(parts.InstantTiming(time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC))))
	dir := t.TempDir()
	k := &kitchenWindow{t: t, posts: make(chan func(), 1000), dir: dir}
	d := desk.New(desk.Options{Post: func(f func()) { k.posts <- f }, Starter: desk.StarterFoods, StateDir: dir})
	k.closeAtEnd(d)
	k.Window = Open(a, d)
	k.win.Resize(fyne.NewSize(1280, 800))
	k.settle()
	bad := filepath.Join(dir, "supper.parewell")
	raw, err := os.ReadFile(newestDamaged(t))
	if err == nil {
		err = os.WriteFile(bad, raw, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	d.Open(filepath.Join(dir, "none.parewell"), func(err error) { k.Opened("none.parewell", err) })
	told := func() bool { return k.win.Canvas().Overlays().Top() != nil }
	k.until("a file that is not there is told of", told)
	k.closeDialogs()
	d.Open(bad, func(err error) { k.Opened(bad, err) })
	k.until("a damaged file is told of", told)
	k.confirm()
	want := filepath.Join(dir, words.Say("file.recovered.name", "supper")+desk.Extension)
	k.until("what was recovered is open", func() bool { return k.view.Path == want })
}

// newestDamaged is the damaged workbook among those kept of every format.
func newestDamaged(t *testing.T) string {
	t.Helper()
	all, err := filepath.Glob("../testdata/workbooks/*-damaged.parewell")
	if err != nil || len(all) == 0 {
		t.Fatal("no damaged workbook is kept", err)
	}
	slices.Sort(all)
	return all[len(all)-1]
}
