package ui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"

	"parewell/ui/desk"
	"parewell/ui/parts"
)

// Widths of the side bar, wide and narrow, at text factor 1.
const (
	sideWide   = 170
	sideNarrow = 56
)

// shellLayout puts the side bar at the left, the status line below and the
// page in what is left, in that order for Tab.
type shellLayout struct {
	w      *Window
	narrow bool
}

// MinSize is small enough for half a laptop screen.
func (l *shellLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(640, 420) }

// Layout places side bar, page and status line, in the order they were given.
func (l *shellLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	side, page, status := o[0], o[1], o[2]
	narrow := s.Width < narrowWidth
	if narrow != l.narrow {
		l.narrow = narrow
		l.w.nav.SetNarrow(narrow)
	}
	width := float32(sideWide)
	if narrow {
		width = sideNarrow
	}
	width *= l.w.factor
	low := status.MinSize().Height
	side.Resize(fyne.NewSize(width, s.Height-low))
	side.Move(fyne.NewPos(0, 0))
	page.Resize(fyne.NewSize(s.Width-width, s.Height-low))
	page.Move(fyne.NewPos(width, 0))
	status.Resize(fyne.NewSize(s.Width, low))
	status.Move(fyne.NewPos(0, s.Height-low))
}

// themeDark and themeLight are the preference's words for the two themes.
const (
	themeDark  = "dark"
	themeLight = "light"
)

// Least and most that text can be scaled.
const (
	leastText = 0.9
	mostText  = 1.6
)

func textFactor(p desk.Prefs) float32 {
	if p.Text == 0 {
		return 1
	}
	return min(max(float32(p.Text), leastText), mostText)
}

// setTheme changes light and dark or the size of text, and remembers it.
func (w *Window) setTheme(dark bool, factor float32) {
	factor = min(max(factor, leastText), mostText)
	if dark == w.dark && factor == w.factor {
		return
	}
	w.dark, w.factor = dark, factor
	w.withContext(func() { w.app.Settings().SetTheme(parts.NewTheme(w.dark, w.factor)) })
	w.desk.SetPrefs(func(p *desk.Prefs) {
		p.Theme, p.Text = themeLight, float64(factor) // kept on another thread: no field of the window
		if dark {
			p.Theme = themeDark
		}
	})
	w.forgetHidden()
	w.win.Content().Refresh()
	w.enter(w.at)
}

// withContext runs f with the window's drawing context current. When the theme
// changes the toolkit (Fyne 2.7.3) gives up the pictures of all words, but makes
// no context current first, and OpenGL ignores what is deleted without one: 5 MB
// a change would stay with the driver for good. Where the driver has no such
// method, as in tests, f just runs.
func (w *Window) withContext(f func()) {
	ran := false
	if c, ok := w.win.(interface{ RunWithContext(func()) }); ok {
		c.RunWithContext(func() { ran = true; f() })
	}
	if !ran { // also of a window that is closing
		f()
	}
}

// forgetHidden drops what was built for pages out of sight: the toolkit repaints
// only what is in the window, so they are built anew in the new colours.
func (w *Window) forgetHidden() {
	w.built = map[string]fyne.CanvasObject{w.at.page: w.built[w.at.page]}
	for name, p := range w.pages {
		if r, ok := p.(*recipePage); ok {
			r.forgetHidden(name == w.at.page)
		}
	}
}

// patience is how long closing waits for edits still on their way to the disk
// before it says so; they go on being written.
const patience = 10 * time.Second

// close keeps the window's size and place, waits for the writer beside the UI and leaves.
func (w *Window) close() {
	w.win.Canvas().Unfocus() // keeps what was being typed
	w.keepPlace()
	go func() {
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		err := w.desk.CloseWait(ctx)
		fyne.Do(func() {
			if err != nil {
				w.problemDialog(err)
				return
			}
			w.win.Close()
		})
	}()
}
