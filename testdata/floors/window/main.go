// Command window is the floor that Parewell's start is measured against: a bare
// window with one line of text. It prints "first frame" when its first frame is
// painted, and stays open until it is ended.
package main

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	a := app.NewWithID("org.parewell.Floor")
	w := a.NewWindow("Bare window")
	w.SetContent(widget.NewLabel("A bare window"))
	w.Resize(fyne.NewSize(1280, 800))
	a.Lifecycle().SetOnStarted(func() { afterFrame(func() { fmt.Println("first frame") }) })
	w.ShowAndRun()
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
