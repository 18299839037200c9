package ui

import (
	"context"
	"image/png"
	"os"
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

// kitchenWindow is the window on the demo, with what the desk posts run by the
// test.
type kitchenWindow struct {
	*Window
	t     testing.TB
	posts chan func()
	dir   string
}

func openKitchen(t testing.TB, dark bool, size fyne.Size) *kitchenWindow {
	t.Helper()
	a := test.NewTempApp(t)
	t.Cleanup(parts.UseTiming(parts.InstantTiming(time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC))))
	k := &kitchenWindow{t: t, posts: make(chan func(), 1000), dir: t.TempDir()}
	d := desk.New(desk.Options{Post: func(f func()) { k.posts <- f }, Starter: desk.StarterFoods, StateDir: k.dir})
	k.closeAtEnd(d)
	opened := false
	d.OpenDemo(func(err error) {
		if err != nil {
			t.Error(err)
		}
		opened = true
	})
	k.until("the workbook is open", func() bool { return opened })
	k.clear(d)
	k.Window = Open(a, d)
	k.setTheme(dark, 1)
	k.win.Resize(size)
	k.settle()
	return k
}

// closeAtEnd closes the desk when the test is over, before its folder goes: what is
// remembered of the window is still on its way to the disk.
func (k *kitchenWindow) closeAtEnd(d *desk.Desk) {
	k.t.Cleanup(func() {
		over := make(chan struct{})
		defer close(over)
		go func() {
			for {
				select {
				case <-k.posts: // nobody answers any more
				case <-over:
					return
				}
			}
		}()
		d.CloseWait(context.Background()) //nolint:errcheck // the test is over
	})
}

// clear takes the demo's kitchen tests and meals out, so that a test starts
// with its own.
func (k *kitchenWindow) clear(d *desk.Desk) {
	k.t.Helper()
	var verbs []recipes.Verb
	for _, m := range d.Book().Meals() {
		if m.Day {
			verbs = append(verbs, recipes.RemoveMeal(m.ID))
		}
	}
	for _, m := range d.Book().Meals() {
		if !m.Day {
			verbs = append(verbs, recipes.RemoveMeal(m.ID))
		}
	}
	for _, r := range d.Book().Recipes() {
		for _, b := range d.Book().Batches(r.ID) {
			verbs = append(verbs, recipes.RemoveTest(r.ID, b.ID))
		}
	}
	verbs = append(verbs, noTastings)
	done := false
	d.DoAs(recipes.ByOther, recipes.All(words.P("did.nothing"), "", verbs...), func(err error) {
		if err != nil {
			k.t.Error(err)
		}
		done = true
	})
	k.until("the demo is cleared", func() bool { return done })
}

// noTastings takes the demo's tastings and tasters out, and with them what they
// froze.
func noTastings(b *recipes.Book) (recipes.Change, error) {
	var c recipes.Change
	drop := func(e recipes.Entity) { c.Edits = append(c.Edits, recipes.Edit{Before: e}) }
	for _, t := range b.Tastings() {
		for _, s := range b.Servings(t.ID) {
			drop(s)
		}
		for _, s := range b.Samples(t.ID) {
			drop(s)
		}
		drop(t)
	}
	for _, p := range b.Panelists() {
		drop(p)
	}
	return c, nil
}

// until runs what the desk posts until a condition holds.
func (k *kitchenWindow) until(what string, cond func() bool) {
	k.t.Helper()
	late := time.After(20 * time.Second)
	for !cond() {
		select {
		case f := <-k.posts:
			f()
		case <-late:
			k.t.Fatalf("never: %s", what)
		}
	}
}

// settle runs what the desk posts until nothing is pending, and slow work has
// shown its result; work that goes on for ever (phones are looked at again and
// again) is waited for a while only.
func (k *kitchenWindow) settle() {
	k.t.Helper()
	enough := time.Now().Add(1500 * time.Millisecond)
	for {
		select {
		case f := <-k.posts:
			f()
		case <-time.After(30 * time.Millisecond):
			if k.desk.View().Pending > 0 || k.desk.Working() > 0 && time.Now().Before(enough) {
				continue
			}
			if len(k.posts) == 0 { // told between the wait and the look
				return
			}
		}
	}
}

// openRecipe opens the recipe whose title starts so, at its versions.
func (k *kitchenWindow) openRecipe(n int, tab string) *recipes.Recipe {
	k.t.Helper()
	r := k.book().Recipes()[n]
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tab})
	k.settle()
	return r
}

// picture writes what the window shows to the folder PAREWELL_LOOK names.
func (k *kitchenWindow) picture(name string) {
	k.t.Helper()
	dir := os.Getenv("PAREWELL_LOOK")
	if dir == "" {
		return
	}
	img := k.win.Canvas().Capture()
	f, err := os.Create(filepath.Join(dir, name+".png"))
	if err != nil {
		k.t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		k.t.Fatal(err)
	}
}
