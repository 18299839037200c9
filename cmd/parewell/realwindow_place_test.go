//go:build realwindow

package main

import (
	"strings"
	"testing"
)

// TestRealWindowPlace moves the window, makes it smaller and closes it: the next
// one stands there as large, and one whose place the screen has not got stays in
// reach.
func TestRealWindowPlace(t *testing.T) {
	home := t.TempDir()
	book := demoWorkbook(t, home)
	wide := newScreen(t, 1600, 1000)
	rows := []struct {
		name   string
		screen *screen
		want   []string
		move   []string
	}{
		{"first", wide, []string{"X=0", "Y=0", "WIDTH=1280", "HEIGHT=800"}, []string{"900", "150"}},
		{"again", wide, []string{"X=900", "Y=150", "WIDTH=1000", "HEIGHT=700"}, nil},
		{"a smaller screen", newScreen(t, 1280, 800), []string{"X=0", "Y=0", "WIDTH=1000", "HEIGHT=700"}, nil},
	}
	for _, r := range rows {
		w := r.screen.launch(home, program(t), nil, book).find()
		w.waitFor("Recipes")
		var at string
		w.until(r.name+": it stands at "+strings.Join(r.want, " "), func() bool {
			at = w.tool("xdotool", "getwindowgeometry", "--shell", w.id)
			for _, part := range r.want {
				if !strings.Contains(at+"\n", "\n"+part+"\n") {
					return false
				}
			}
			return true
		})
		if r.move != nil {
			w.tool("xdotool", "windowsize", "--sync", w.id, "1000", "700", "windowmove", "--sync", w.id, r.move[0], r.move[1])
		}
		w.leave()
	}
}
