//go:build !nowindow

package main

import (
	"bytes"
	"errors"
	"io"
	"log"
	"os"
	"runtime"

	"fyne.io/fyne/v2"

	"parewell/cmd/xserver"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// mustHaveDisplay says in one line that there is no screen to draw on, which
// the window library would only panic about. What it returns is to be closed when
// the window is there.
func mustHaveDisplay() (io.Closer, error) {
	if runtime.GOOS != "linux" {
		return io.NopCloser(nil), nil // there is no such server
	}
	display := os.Getenv("DISPLAY")
	if display == "" {
		key := "cmd.no-display"
		if os.Getenv("WAYLAND_DISPLAY") != "" {
			key = "cmd.no-xwayland"
		}
		return nil, problem.New("", words.Say(key), words.Say(key+".hint"))
	}
	hold, err := xserver.Greet(display)
	var refused *xserver.Refused
	switch {
	case err == nil:
		return hold, nil
	case errors.As(err, &refused):
		return nil, problem.New("", words.Say("cmd.display-refuses", display, refused.Reason), words.Say("cmd.display-refuses.hint"))
	}
	return nil, problem.New("", words.Say("cmd.display-silent", display), words.Say("cmd.no-display.hint"))
}

// mustHaveWindow says in one line that the window could not be made, which the
// window library would wait on for ever.
func mustHaveWindow() error {
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if inContext(w, func() {}) {
			return nil
		}
	}
	return problem.New("", words.Say("cmd.no-opengl", os.Getenv("DISPLAY")), words.Say("cmd.no-opengl.hint"))
}

// inContext runs f with a window's drawing context current; false when the window
// was not made or is gone.
func inContext(w fyne.Window, f func()) (ran bool) {
	if c, ok := w.(interface{ RunWithContext(func()) }); ok {
		c.RunWithContext(func() { ran = true; f() })
	}
	return ran
}

// unheard keeps back what the window library writes to standard error while f
// runs, and drops it when f fails: f then says it better.
func unheard(f func() error) error {
	var said bytes.Buffer
	log.SetOutput(&said)
	err := f()
	log.SetOutput(os.Stderr)
	if err == nil {
		_, _ = os.Stderr.Write(said.Bytes())
	}
	return err
}
