package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/desk"
)

// Placer tells and changes where a window stands on the screen, which the toolkit
// leaves to the system.
type Placer interface {
	Standing(fyne.Window) (Standing, bool) // false when it cannot be told
	Put(fyne.Window, Box)                  // to where its inside is to be
	Fill(fyne.Window)                      // the screen, until its user makes it smaller
}

// Standing is how a window stands.
type Standing struct {
	Inside  Box   // what the window itself draws
	Frame   Edges // what the system draws around it
	Screens []Box // what each monitor has for windows, the main one first
	Filling bool  // it fills the screen, or is at least docked to its edges
	Hidden  bool  // it is put away, and where it stands means nothing
}

// Box is a part of the screen, in pixels; X and Y are its left upper corner.
type Box struct{ X, Y, Width, Height int }

// Edges are widths of a frame, in pixels.
type Edges struct{ Left, Top, Right, Bottom int }

// PlaceBy puts the window where it stood when it was closed last, and remembers
// its place from now on.
func (w *Window) PlaceBy(p Placer) {
	w.placer = p
	spot := w.desk.Prefs().Spot
	now, ok := p.Standing(w.win)
	if !ok || now.Filling || now.Hidden { // the system knows better
		return
	}
	if to := placeFor(spot, now); to != now.Inside {
		p.Put(w.win, to)
	}
	if spot.Filling {
		p.Fill(w.win)
	}
}

// keepPlace remembers size and place. A window that fills the screen keeps the
// ones it had before: it goes back to them. One that is put away keeps all.
func (w *Window) keepPlace() {
	size, spot, filling := w.win.Canvas().Size(), desk.Spot{}, false
	if w.placer != nil {
		now, ok := w.placer.Standing(w.win)
		if !ok || now.Hidden {
			return
		}
		spot, filling = desk.Spot{Known: true, X: now.Inside.X, Y: now.Inside.Y}, fills(now)
	}
	w.desk.SetPrefs(func(p *desk.Prefs) {
		if filling {
			p.Spot.Filling = true
			return
		}
		p.Width, p.Height, p.Spot = float64(size.Width), float64(size.Height), spot
	})
}

// grip is how much of a window's upper edge must be on a screen to drag it by, in
// pixels.
const grip = 96

// placeFor is where a window goes that stood at spot and that the system has put
// where it stands now. It stays there when the spot is out of reach, its monitor
// gone or smaller, and is made to fit when it is larger than the screen.
func placeFor(spot desk.Spot, now Standing) Box {
	to := now.Inside
	to.X, to.Y = spot.X, spot.Y
	home, ok := screenOf(to, now)
	if !spot.Known || !ok {
		to = now.Inside
		if home, ok = screenOf(to, now); !ok && len(now.Screens) > 0 {
			home, ok = now.Screens[0], true
		}
	}
	if !ok {
		return to
	}
	f := now.Frame
	if most := home.Width - f.Left - f.Right; to.Width > most {
		to.X, to.Width = home.X+f.Left, most
	}
	if most := home.Height - f.Top - f.Bottom; to.Height > most {
		to.Y, to.Height = home.Y+f.Top, most
	}
	return to
}

// screenOf finds the screen on which the upper edge of a place can be gripped,
// its frame and all.
func screenOf(b Box, now Standing) (Box, bool) {
	for _, s := range now.Screens {
		seen := min(b.X+b.Width, s.X+s.Width) - max(b.X, s.X)
		if seen >= min(grip, b.Width) && b.Y-now.Frame.Top >= s.Y && b.Y <= s.Y+s.Height-grip {
			return s, true
		}
	}
	return Box{}, false
}

// fills tells a window that fills its screen from one that is docked to a half of
// it, for which the systems have the same word.
func fills(now Standing) bool {
	s, ok := screenOf(now.Inside, now)
	return now.Filling && (!ok || 4*now.Inside.Width >= 3*s.Width && 4*now.Inside.Height >= 3*s.Height)
}
