//go:build realwindow

package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// TestRealWindowPlace moves the window, makes it smaller and closes it: the next
// one stands there as large, and one whose place the screen has not got stays in
// reach and fits.
func TestRealWindowPlace(t *testing.T) {
	home := t.TempDir()
	book := demoWorkbook(t, home)
	wide := newScreen(t, 1600, 1000)
	rows := []struct {
		name   string
		screen *screen
		want   string // as tools tell it
		move   bool
	}{
		{"first", wide, "X=0 Y=0 WIDTH=1280 HEIGHT=800", true},
		{"again", wide, "X=550 Y=150 WIDTH=1000 HEIGHT=700", false},
		{"a screen it is off", newScreen(t, 560, 800), "X=0 Y=0 WIDTH=640 HEIGHT=700", false}, // no window is narrower
		{"back on the large one", wide, "X=0 Y=0 WIDTH=640 HEIGHT=700", false},
	}
	for _, r := range rows {
		w := r.screen.launch(home, program(t), nil, book).find()
		w.waitFor("Recipes")
		w.standsAt(r.name, r.want)
		if r.move {
			w.tool("xdotool", "windowsize", "--sync", w.id, "1000", "700", "windowmove", "--sync", w.id, "550", "150")
		}
		w.leave()
	}
}

// TestRealWindowPlaceFramed does so where a window manager draws a frame around the
// window: its place does not creep by the frame from start to start, and a window
// that filled the screen fills it again and goes back to that place.
func TestRealWindowPlaceFramed(t *testing.T) {
	if _, err := exec.LookPath("openbox"); err != nil {
		t.Skip("openbox is not installed")
	}
	home := t.TempDir()
	book := demoWorkbook(t, home)
	s := newScreen(t, 1600, 1000)
	s.manage(home)
	start := func() *window {
		w := s.launch(home, program(t), nil, book).find()
		w.waitFor("Recipes")
		return w
	}
	w := start()
	w.tool("xdotool", "windowsize", "--sync", w.id, "1000", "700", "windowmove", "--sync", w.id, "550", "150")
	w.until("it was moved", func() bool { return strings.Contains(w.place(), "WIDTH=1000 HEIGHT=700") && !w.moving() })
	put := w.place()
	w.leave()
	for range 3 {
		w = start()
		w.standsAt("again", put)
		if w.moving() {
			t.Errorf("it went on from %s to %s", put, w.place())
		}
		w.leave()
	}
	w = start()
	w.standsAt("before it fills the screen", put)
	w.key("super+f") // see manage
	w.until("it fills the screen", func() bool { return w.fills() })
	w.leave()
	w = start()
	w.until("it fills the screen again", func() bool { return w.fills() })
	w.key("super+f")
	w.standsAt("after it filled the screen", put)
	w.leave()
}

// manage starts a window manager that lets a window fill the screen by a key.
func (s *screen) manage(home string) {
	s.t.Helper()
	const settings = `<?xml version="1.0"?><openbox_config xmlns="http://openbox.org/3.4/rc"><keyboard>
<keybind key="W-f"><action name="ToggleMaximize"/></keybind></keyboard></openbox_config>`
	file := home + "/rc.xml"
	if err := os.WriteFile(file, []byte(settings), 0o600); err != nil {
		s.t.Fatal(err)
	}
	cmd := exec.Command("openbox", "--sm-disable", "--config-file", file)
	cmd.Env = append(ownEnvironment(), "DISPLAY="+s.display, "HOME="+home)
	if err := cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { end(cmd) })
	for until := time.Now().Add(patience); ; time.Sleep(40 * time.Millisecond) {
		if _, err := s.try("xdotool", "get_desktop"); err == nil { // only a manager knows
			return
		}
		if time.Now().After(until) {
			s.t.Fatal("openbox does not answer")
		}
	}
}

// place is where the window stands and how large it is, as tools tell it.
func (w *window) place() string {
	w.t.Helper()
	var parts []string
	for line := range strings.Lines(w.tool("xdotool", "getwindowgeometry", "--shell", w.id)) {
		if line = strings.TrimSpace(line); !strings.HasPrefix(line, "WINDOW") && !strings.HasPrefix(line, "SCREEN") {
			parts = append(parts, line)
		}
	}
	return strings.Join(parts, " ")
}

func (w *window) standsAt(when, want string) {
	w.t.Helper()
	w.until(when+": it stands at "+want, func() bool { return w.place() == want })
}

// fills tells whether the window takes the whole width and nearly the height.
func (w *window) fills() bool {
	return strings.Contains(w.place(), " WIDTH=1600 HEIGHT=9")
}

// moving tells whether the window stands elsewhere a moment later.
func (w *window) moving() bool {
	before := w.place()
	time.Sleep(300 * time.Millisecond)
	return w.place() != before
}
