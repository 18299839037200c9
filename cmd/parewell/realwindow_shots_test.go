//go:build realwindow

package main

import (
	"fmt"
	"os"
	"testing"
	"time"

	"parewell/recipes/words"
)

// shotSizes are the windows that every page must look right in.
var shotSizes = []struct{ width, height int }{{1280, 800}, {1920, 1080}}

// TestShots takes a picture of every page, light and dark, into PAREWELL_SHOTS.
func TestShots(t *testing.T) {
	if os.Getenv("PAREWELL_SHOTS") == "" {
		t.Skip("PAREWELL_SHOTS names no folder: run make shots")
	}
	for _, size := range shotSizes {
		t.Run(fmt.Sprintf("%dx%d", size.width, size.height), func(t *testing.T) {
			home := t.TempDir()
			book := demoWorkbook(t, home)
			s := newScreen(t, size.width, size.height)
			bare := s.launch(home, program(t), nil).find().fill(size.width, size.height)
			bare.settle()
			bare.shot(fmt.Sprintf("start-light-%d", size.width))
			end(bare.cmd)
			w := s.launch(home, program(t), nil, book).find().fill(size.width, size.height)
			w.waitFor("Smoked haddock and leek gratin")
			w.tour("light", size.width)
			w.key("ctrl+shift+d")
			w.tour("dark", size.width)
		})
	}
}

// tour visits every page with the keyboard and takes its picture.
func (w *window) tour(theme string, width int) {
	take := func(name string) {
		w.settle()
		name = fmt.Sprintf("%s-%s-%d", name, theme, width)
		last := w.shot(name)
		w.until("its charts are drawn", func() bool { // they are drawn beside the window's own work
			time.Sleep(250 * time.Millisecond)
			now := w.shot(name)
			still := changed(last, now) < 60 // a cursor blinks
			last = now
			return still
		})
	}
	w.key("ctrl+1")
	take("recipes")
	w.key("ctrl+2")
	take("foods")
	w.key("ctrl+g")
	take("tasters")
	w.key("ctrl+m")
	take("meals")
	w.key("ctrl+h")
	take("book")
	w.key("ctrl+shift+p")
	take("paste")
	w.key("ctrl+1")
	w.openRecipe("Smoked haddock and leek gratin")
	for _, tab := range []struct{ key, name string }{
		{"ctrl+3", "versions"},
		{"ctrl+4", "swaps"},
		{"ctrl+5", "original"},
		{"ctrl+6", "tests"},
		{"ctrl+7", "notebook"},
		{"ctrl+8", "claims"},
		{"ctrl+9", "tastings"},
		{"ctrl+u", "ledger"},
		{"ctrl+k", "printed"},
	} {
		w.key(tab.key)
		take(tab.name)
	}
	w.key("ctrl+9")
	w.click(words.Say("tastings.plan"))
	take("plan")
}

// openRecipe opens a recipe from the list: a click chooses it, Enter opens it.
func (w *window) openRecipe(title string) {
	w.t.Helper()
	w.click(title)
	w.key("Return")
	w.settle()
}

// fill gives the window the whole screen, as there is no window manager to.
func (w *window) fill(width, height int) *window {
	w.t.Helper()
	w.tool("xdotool", "windowmove", w.id, "0", "0", "windowsize", "--sync", w.id, fmt.Sprint(width), fmt.Sprint(height))
	return w
}

// settle waits until what the window shows has been the same for a while.
func (w *window) settle() {
	w.t.Helper()
	last, since := "", time.Now()
	w.until("it stands still", func() bool {
		b, _ := os.ReadFile(w.look)
		if now := string(b); now != last {
			last, since = now, time.Now()
		}
		return last != "" && time.Since(since) > 500*time.Millisecond
	})
}
