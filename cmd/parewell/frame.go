//go:build !nowindow

package main

import (
	"fmt"
	"os"
	"time"

	"fyne.io/fyne/v2"
)

// tellFirstFrame prints "first frame" once the page that has just been shown is
// painted, for whoever measures the start (PAREWELL_FIRST_FRAME=1).
func tellFirstFrame() {
	if os.Getenv("PAREWELL_FIRST_FRAME") == "1" {
		afterFrame(func() { fmt.Println("first frame") })
	}
}

// afterFrame calls done once the next frame has been painted: animations tick
// before each painting, so at the second tick one lies behind.
func afterFrame(done func()) {
	ticks := 0
	var a *fyne.Animation
	a = fyne.NewAnimation(time.Hour, func(float32) {
		if ticks++; ticks == 2 {
			a.Stop()
			done()
		}
	})
	a.Start()
}
