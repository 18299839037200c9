package parts

import (
	"time"

	"fyne.io/fyne/v2"
)

// Timing is where delays, the clock and the way back to the window's goroutine
// come from. Tests replace it; the window uses the default.
type Timing struct {
	Do    func(func())                                    // run on the window's goroutine
	After func(d time.Duration, f func()) (cancel func()) // run f on the window's goroutine after d
	Go    func(func())                                    // run in the background
	Now   func() time.Time                                // the clock
}

var timing = realTiming()

func realTiming() Timing {
	return Timing{
		Do: fyne.Do,
		After: func(d time.Duration, f func()) func() {
			t := time.AfterFunc(d, func() { fyne.Do(f) })
			return func() { t.Stop() }
		},
		Go:  func(f func()) { go f() },
		Now: time.Now,
	}
}

// UseTiming replaces the timing of every widget of the package and returns a
// function that puts the old one back. For tests.
func UseTiming(t Timing) (restore func()) {
	old := timing
	timing = t
	return func() { timing = old }
}

// InstantTiming runs everything at once on the calling goroutine, with a clock
// that stands still: the timing for tests that do not look at delays.
func InstantTiming(now time.Time) Timing {
	return Timing{
		Do:    func(f func()) { f() },
		After: func(_ time.Duration, f func()) func() { f(); return func() {} },
		Go:    func(f func()) { f() },
		Now:   func() time.Time { return now },
	}
}
