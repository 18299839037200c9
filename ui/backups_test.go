package ui

import (
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// openBackedUp is the window on a new workbook with one recipe, of which there
// is a copy of safety.
func openBackedUp(t *testing.T, did func(key string)) *kitchenWindow {
	t.Helper()
	a := test.NewTempApp(t)
	t.Cleanup(parts.UseTiming(parts.InstantTiming(time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC))))
	k := &kitchenWindow{t: t, posts: make(chan func(), 1000), dir: t.TempDir()}
	d := desk.New(desk.Options{Post: func(f func()) { k.posts <- f }, StateDir: filepath.Join(k.dir, "state"), BackupAfter: time.Nanosecond, Did: did})
	k.closeAtEnd(d)
	path := filepath.Join(k.dir, "supper.parewell")
	done := false
	tell := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
		done = true
	}
	d.Create(path, tell)
	k.until("it is made", func() bool { return done })
	k.copies(d, 1)
	done = false
	d.Do(recipes.AddRecipe(&recipes.Recipe{ID: "r", Title: "Lemon loaf", Servings: 8}, nil), tell)
	k.until("a recipe is in", func() bool { return done })
	k.Window = Open(a, d)
	k.setTheme(false, 1)
	k.win.Resize(fyne.NewSize(1280, 800))
	k.settle()
	return k
}

// copies waits until there are so many copies.
func (k *kitchenWindow) copies(d *desk.Desk, n int) {
	k.t.Helper()
	for range 1000 {
		have, answered := 0, false
		d.Backups(func(all []desk.Backup, err error) { have, answered = len(all), true })
		k.until("backups are listed", func() bool { return answered })
		if have == n {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	k.t.Fatalf("never %d backups", n)
}

// backedUp waits until there are so many copies and opens their list.
func (k *kitchenWindow) backedUp(n int) *parts.Matrix {
	k.t.Helper()
	k.copies(k.desk, n)
	k.showBackups()
	k.until("the list is open", func() bool { return k.win.Canvas().Overlays().Top() != nil })
	k.settle()
	return k.table("backups.list")
}

func TestACopyOfABackupIsOpened(t *testing.T) {
	k := openBackedUp(t, nil)
	did := false
	k.desk.Open(k.view.Path, func(error) { did = true }) // opened again, with a recipe more
	k.until("it is open again", func() bool { return did })
	list := k.backedUp(2)
	if n := len(list.Data().Rows); n != 2 {
		t.Fatalf("%d rows", n)
	}
	k.picture("backups")
	list.Select(1, 0)
	k.pushPin("backups.open")
	k.settle()
	k.picture("backups-where")
	k.fill("file.name", filepath.Join(k.dir, "before"))
	k.accept()
	k.until("the copy is open", func() bool { return k.view.Name() == "before" })
	if len(k.book().Recipes()) != 0 {
		t.Error("the copy is not of the state before")
	}
	k.desk.Open(filepath.Join(k.dir, "supper.parewell"), nil)
	k.until("the workbook is open", func() bool { return k.view.Name() == "supper" })
	if k.book().Recipe("r") == nil {
		t.Error("the workbook was touched")
	}
}

func TestBackupsOfNothing(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800)) // a desk that makes none
	k.showBackups()
	k.until("the list is open", func() bool { return k.win.Canvas().Overlays().Top() != nil })
	if d := k.table("backups.list").Data(); len(d.Rows) != 0 || d.Empty != words.Say("backups.none") {
		t.Errorf("%+v", d)
	}
	k.picture("backups-none")
	k.escape()
}
