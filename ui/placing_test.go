package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/ui/desk"
)

var (
	laptop  = Box{0, 27, 1366, 741} // below a bar
	monitor = Box{1366, 0, 1920, 1080}
	titled  = Edges{1, 24, 1, 5}
)

// A window comes back where it stood if it can be gripped there, on whichever
// monitor, and fits the screen.
func TestPlaceFor(t *testing.T) {
	const w, h = 1000, 700
	system := Box{180, 60, w, h} // where the system has put it
	rows := []struct {
		name    string
		spot    desk.Spot
		inside  Box
		frame   Edges
		screens []Box
		want    Box
	}{
		{"never closed before", desk.Spot{}, system, titled, []Box{laptop}, system},
		{"where it stood", desk.Spot{Known: true, X: 300, Y: 51}, system, titled, []Box{laptop}, Box{300, 51, w, h}},
		{"on the other monitor", desk.Spot{Known: true, X: 1500, Y: 200}, system, titled, []Box{laptop, monitor}, Box{1500, 200, w, h}},
		{"the other monitor is gone", desk.Spot{Known: true, X: 1500, Y: 200}, system, titled, []Box{laptop}, system},
		{"left of the main monitor", desk.Spot{Known: true, X: -1500, Y: 200}, system, titled, []Box{laptop, {-1920, 0, 1920, 1080}}, Box{-1500, 200, w, h}},
		{"half off to the right", desk.Spot{Known: true, X: 1366 - grip, Y: 200}, system, titled, []Box{laptop}, Box{1366 - grip, 200, w, h}},
		{"too far to the right", desk.Spot{Known: true, X: 1366 - grip + 1, Y: 200}, system, titled, []Box{laptop}, system},
		{"too far to the left", desk.Spot{Known: true, X: grip - w - 1, Y: 200}, system, titled, []Box{laptop}, system},
		{"its title above the screen", desk.Spot{Known: true, X: 300, Y: 50}, system, titled, []Box{laptop}, system},
		{"no title in the corner", desk.Spot{Known: true}, system, Edges{}, []Box{{0, 0, 1366, 768}}, Box{0, 0, w, h}},
		{"below the screen", desk.Spot{Known: true, X: 300, Y: 700}, system, titled, []Box{laptop}, system},
		{"larger than the screen", desk.Spot{Known: true, X: 300, Y: 200}, Box{0, 51, 1900, 1000}, titled, []Box{laptop}, Box{1, 51, 1364, 712}},
		{"higher than the screen, never closed", desk.Spot{}, Box{40, 30, 1280, 800}, titled, []Box{laptop}, Box{40, 51, 1280, 712}},
		{"as large as the screen", desk.Spot{Known: true}, Box{0, 0, 1280, 800}, Edges{}, []Box{{0, 0, 1280, 800}}, Box{0, 0, 1280, 800}},
		{"no monitor told", desk.Spot{Known: true, X: 300, Y: 200}, system, titled, nil, system},
	}
	for _, r := range rows {
		if got := placeFor(r.spot, Standing{Inside: r.inside, Frame: r.frame, Screens: r.screens}); got != r.want {
			t.Errorf("%s: %v, want %v", r.name, got, r.want)
		}
	}
}

// someScreen says how a window stands and keeps what it was told.
type someScreen struct {
	now    Standing
	gone   bool
	put    Box
	filled bool
}

func (s *someScreen) Standing(fyne.Window) (Standing, bool) { return s.now, !s.gone }
func (s *someScreen) Put(_ fyne.Window, to Box)             { s.put = to }
func (s *someScreen) Fill(fyne.Window)                      { s.filled = true }

// A window comes back where and as large as it was; one that filled the screen
// fills it again and has its former place to go back to.
func TestTheWindowsPlaceIsRemembered(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1100, 700))
	started := Standing{Inside: Box{200, 100, 1100, 700}, Screens: []Box{monitor, {0, 0, 1366, 1080}}}
	screen := &someScreen{now: started}
	k.PlaceBy(screen)
	if screen.put != (Box{}) || screen.filled {
		t.Fatalf("never closed before, put at %v", screen.put)
	}
	const whole = 1920
	rows := []struct {
		name   string
		size   fyne.Size
		closed Standing
		gone   bool
		put    Box
		filled bool
		width  float64
	}{
		{"filled the first time", fyne.NewSize(whole, 1050), Standing{Inside: Box{1366, 30, whole, 1050}, Filling: true}, false, Box{}, true, 0},
		{"moved", fyne.NewSize(1100, 700), Standing{Inside: Box{40, 60, 1100, 700}}, false, Box{40, 60, 1100, 700}, false, 1100},
		{"fills the screen", fyne.NewSize(whole, 1050), Standing{Inside: Box{1366, 30, whole, 1050}, Filling: true}, false, Box{40, 60, 1100, 700}, true, 1100},
		{"docked to a half", fyne.NewSize(960, 1050), Standing{Inside: Box{1366, 30, 960, 1050}, Filling: true}, false, Box{1366, 30, 1100, 700}, false, 960},
		{"put away", fyne.NewSize(900, 500), Standing{Inside: Box{-32000, -32000, 0, 0}, Hidden: true}, false, Box{1366, 30, 1100, 700}, false, 960},
		{"gone", fyne.NewSize(900, 500), Standing{}, true, Box{1366, 30, 1100, 700}, false, 960},
	}
	for _, r := range rows {
		k.win.Resize(r.size)
		r.closed.Screens = started.Screens
		screen.now, screen.gone = r.closed, r.gone
		k.keepPlace()
		*screen = someScreen{now: started}
		k.PlaceBy(screen)
		if screen.put != r.put || screen.filled != r.filled || k.desk.Prefs().Width != r.width {
			t.Errorf("%s: put at %v, filled %v, width %v; want %v, %v, %v", r.name, screen.put, screen.filled, k.desk.Prefs().Width, r.put, r.filled, r.width)
		}
	}
	filling := &someScreen{now: Standing{Inside: Box{0, 0, 1366, 1080}, Screens: started.Screens, Filling: true}}
	k.PlaceBy(filling)
	if filling.put != (Box{}) || filling.filled {
		t.Errorf("the system lets it fill the screen, it is put at %v", filling.put)
	}
}
