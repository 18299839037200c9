package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/desk"
)

// Placer tells and sets where a window stands on the screen, which the toolkit
// leaves to the system.
type Placer interface {
	Spot(fyne.Window) desk.Spot // the zero Spot when it cannot be told
	Put(fyne.Window, desk.Spot) // leaves the window where it is when the place is out of reach
}

// PlaceBy puts the window where it stood when it was closed last, and remembers
// its place from now on.
func (w *Window) PlaceBy(p Placer) {
	w.placer = p
	if spot := w.desk.Prefs().Spot; spot != (desk.Spot{}) {
		p.Put(w.win, spot)
	}
}

// keepPlace remembers size and place. A window that fills the screen keeps the
// ones it had before: it goes back to them.
func (w *Window) keepPlace() {
	size, spot := w.win.Canvas().Size(), desk.Spot{}
	if w.placer != nil {
		spot = w.placer.Spot(w.win)
	}
	w.desk.SetPrefs(func(p *desk.Prefs) {
		if spot.Filling {
			p.Spot.Filling = true
			return
		}
		p.Width, p.Height, p.Spot = float64(size.Width), float64(size.Height), spot
	})
}
