package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/ui/desk"
)

// someScreen says where a window stands and keeps where it was put.
type someScreen struct{ now, put desk.Spot }

func (s *someScreen) Spot(fyne.Window) desk.Spot      { return s.now }
func (s *someScreen) Put(_ fyne.Window, to desk.Spot) { s.put = to }

// A window comes back where and as large as it was; one that filled the screen
// fills it again and has its former place to go back to.
func TestTheWindowsPlaceIsRemembered(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1100, 700))
	screen := &someScreen{}
	k.PlaceBy(screen)
	if screen.put != (desk.Spot{}) {
		t.Fatalf("never closed before, put at %v", screen.put)
	}
	rows := []struct {
		name      string
		size      fyne.Size
		now, want desk.Spot
		width     float64
	}{
		{"fills the screen the first time", fyne.NewSize(1920, 1000), desk.Spot{Known: true, Y: 38, Filling: true}, desk.Spot{Filling: true}, 0},
		{"moved", fyne.NewSize(1100, 700), desk.Spot{Known: true, X: 40, Y: 60}, desk.Spot{Known: true, X: 40, Y: 60}, 1100},
		{"fills the screen", fyne.NewSize(1920, 1000), desk.Spot{Known: true, Y: 38, Filling: true}, desk.Spot{Known: true, X: 40, Y: 60, Filling: true}, 1100},
		{"cannot be told", fyne.NewSize(1000, 720), desk.Spot{}, desk.Spot{}, 1000},
	}
	for _, r := range rows {
		k.win.Resize(r.size)
		screen.now, screen.put = r.now, desk.Spot{}
		k.keepPlace()
		k.PlaceBy(screen)
		if screen.put != r.want || k.desk.Prefs().Width != r.width {
			t.Errorf("%s: put at %+v, width %v; want %+v, %v", r.name, screen.put, k.desk.Prefs().Width, r.want, r.width)
		}
	}
}
