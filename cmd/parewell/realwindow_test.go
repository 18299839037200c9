//go:build realwindow

package main

import (
	"os"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/workbook"
)

// pasted is what the cook pastes: two lines of it are in doubt.
const pasted = `Cheddar soup
Serves 4

Ingredients
40 g unsalted butter
200 g onions, chopped
500 ml whole milk
150 g cheddar, grated
salt to taste

Method
1. Soften the onions in the butter.
2. Add the milk, then the cheese.`

// workedOn is the demo's recipe that the test works on: one that was not tasted,
// so that nothing of it is frozen.
const workedOn = "Beef and bean chilli"

// TestRealWindow does with mouse and keyboard, in a real window, what a cook
// does of an evening; a second program writes to the same workbook meanwhile.
// What happened is read from the file and from the screen.
func TestRealWindow(t *testing.T) {
	home := t.TempDir()
	book := demoWorkbook(t, home)
	s := newScreen(t, 1920, 1080)
	w := s.launch(home, program(t), nil, book).find().fill(1920, 1080)
	w.waitFor(workedOn)
	w.paste(book)
	w.resolve(book)
	w.key("ctrl+1")
	w.openRecipe(workedOn)
	w.tickASwap(book)
	w.typeOver(book)
	w.takeBack(book)
	w.printsAPage(home, book)
	w.otherProgram(book)
	before := bookAt(t, book)
	w.leave()
	again := s.launch(home, program(t), nil, book).find().fill(1920, 1080)
	for _, title := range []string{"Cheddar soup", "Bean pot", workedOn} {
		again.waitFor(title)
	}
	if got := bookAt(t, book); digest(got) != digest(before) {
		t.Error("the workbook was not as it was left")
	}
	again.leave()
}

// bookAt reads the workbook as it is on disk now.
func bookAt(t testing.TB, path string) *recipes.Book {
	t.Helper()
	f, err := workbook.Open(path, workbook.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	return f.Book()
}

// digest is the whole Book as text, to tell two apart.
func digest(b *recipes.Book) string {
	var out strings.Builder
	for _, e := range b.Entities() {
		text, err := recipes.EncodeEntity(e)
		if err != nil {
			return err.Error()
		}
		out.WriteString(string(e.Kind()) + e.Key() + string(text) + "\n")
	}
	return out.String()
}

// recipeCalled finds a recipe by its title.
func recipeCalled(t testing.TB, b *recipes.Book, title string) *recipes.Recipe {
	t.Helper()
	for _, r := range b.Recipes() {
		if r.Title == title {
			return r
		}
	}
	t.Fatalf("no recipe is called %q", title)
	return nil
}

// leave closes by the menu's own key and holds the program to a clean end.
func (w *window) leave() {
	w.t.Helper()
	w.key("ctrl+q")
	done := make(chan error, 1)
	go func() { done <- w.cmd.Wait() }()
	select {
	case err := <-done:
		if err != nil {
			w.t.Errorf("the program ended with %v", err)
		}
	case <-time.After(patience):
		w.t.Fatal("the window did not close")
	}
	said, err := os.ReadFile(w.log)
	if err != nil || len(said) > 0 {
		w.t.Errorf("on standard error: %q %v", said, err)
	}
}
