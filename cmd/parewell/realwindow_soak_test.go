//go:build realwindow

package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"
)

// soakedFlat is how much more the window may hold in the last third of the run
// than in the first (DESIGN section 13).
const soakedFlat = 0.03

// keysOfSoak are what a cook does in an open recipe without the mouse, as keys by
// their X names, and how often: pages, tabs, undo, looks.
var keysOfSoak = []struct {
	often int
	keys  []string
}{
	{8, []string{"ctrl+3"}},
	{8, []string{"ctrl+4"}},
	{6, []string{"ctrl+5"}},
	{4, []string{"ctrl+6"}},
	{4, []string{"ctrl+7"}},
	{3, []string{"ctrl+8"}},
	{3, []string{"ctrl+9"}},
	{5, []string{"ctrl+2"}},
	{3, []string{"ctrl+m"}},
	{8, []string{"Right", "Down", "Down"}},
	{10, []string{"ctrl+z"}},
	{4, []string{"ctrl+y"}},
	{3, []string{"ctrl+r", "Escape"}},
	{2, []string{"ctrl+shift+d"}},
	{2, []string{"ctrl+equal", "ctrl+minus"}},
}

// TestRealWindowSoak works the window by its keys, PAREWELL_SOAK_KEYS of them,
// and holds its resident memory level. Samples are by thirds of the run, the
// first tenth left out, while pages are built for the first time.
func TestRealWindowSoak(t *testing.T) {
	n, err := strconv.Atoi(os.Getenv("PAREWELL_SOAK_KEYS"))
	if err != nil || n < 1000 {
		t.Skip("PAREWELL_SOAK_KEYS says no number of keys: run make soak-window")
	}
	home := t.TempDir()
	book := demoWorkbook(t, home)
	before, err := os.ReadFile(book)
	if err != nil {
		t.Fatal(err)
	}
	w := newScreen(t, 1280, 800).launch(home, program(t), []string{"PAREWELL_FIRST_FRAME=1", "PAREWELL_LOOK=", "LANG=en_US.UTF-8"}, book)
	<-w.lines
	w.find()
	began := time.Now()
	samples := w.soak(n)
	took := time.Since(began)
	tenth := len(samples) / 10
	for i := range 10 {
		t.Logf("after %3d %% of it: %.0f MB", 10*(i+1), median(samples[i*tenth:(i+1)*tenth]))
	}
	samples = samples[tenth:]
	third := len(samples) / 3
	first, middle, last := median(samples[:third]), median(samples[third:2*third]), median(samples[len(samples)-third:])
	t.Logf("%d keys in %v: resident memory %.1f, %.1f, %.1f MB by thirds (medians of %d): %+.1f %%", n, took.Round(time.Second), first, middle, last, third, 100*(last/first-1))
	if last > first*(1+soakedFlat) {
		t.Errorf("the window holds %.1f %% more at the end", 100*(last/first-1))
	}
	w.key("Escape")
	w.leave()
	if after, err := os.ReadFile(book); err != nil || bytes.Equal(after, before) {
		t.Error("the keys changed nothing in the workbook")
	}
}

// soak presses n keys or a few more and returns resident memory along the way.
func (w *window) soak(n int) (samples []float64) {
	dice := rand.New(rand.NewPCG(20261125, 8))
	sum := 0
	for _, k := range keysOfSoak {
		sum += k.often
	}
	var keys []string
	for pressed := 0; pressed < n; {
		at := dice.IntN(sum)
		for _, k := range keysOfSoak {
			if at -= k.often; at < 0 {
				keys = append(keys, k.keys...)
				break
			}
		}
		if len(keys) < 20 {
			continue
		}
		w.openAny(dice)
		w.tool("xdotool", append([]string{"key", "--clearmodifiers", "--delay", "45"}, keys...)...)
		pressed += len(keys)
		keys = keys[:0]
		samples = append(samples, resident(w.t, w.cmd.Process.Pid))
	}
	return samples
}

// openAny opens one of the demo's recipes and edits it: an amount typed over an
// ingredient of version A, or a swap ticked in it. The places are those of
// a window of 1280 by 800.
func (w *window) openAny(dice *rand.Rand) {
	w.key("Escape", "ctrl+1")
	w.clickAt(300, 174+30*float64(dice.IntN(3)))
	w.key("Return")
	if dice.IntN(2) == 0 {
		w.key("ctrl+4")
		w.clickAt(500, 270)
		return
	}
	w.key("ctrl+3")
	w.clickAt(680, 314) // version A's fat; ingredients stand below the numbers
	keys := []string{"key", "--clearmodifiers", "--delay", "45"}
	for range 8 + dice.IntN(10) {
		keys = append(keys, "Down")
	}
	w.tool("xdotool", append(keys, "2", strconv.Itoa(dice.IntN(10)), "space", "g", "Return")...)
}
