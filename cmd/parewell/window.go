//go:build !nowindow

package main

import (
	"context"
	"errors"
	"io"
	"log"
	"os"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"parewell/assets"
	_ "parewell/cmd/envfix" // before the window library looks at the language
	"parewell/recipes/words"
	"parewell/ui"
	"parewell/ui/crash"
	"parewell/ui/desk"
)

// lastWords is how long edits still on their way to the disk may take when the
// program is told to end by the system rather than by its window.
const lastWords = 10 * time.Second

// backupAfter is how long after the first frame the copy of safety is made: the
// window is not to share the machine with it while it starts.
const backupAfter = 3 * time.Second

// openWindow shows the workbook at path, or the start page for "", and returns
// when the window is closed. The workbook is read while the window is made.
func openWindow(path string) error {
	greeted, err := mustHaveDisplay()
	if err != nil {
		return err
	}
	app.SetMetadata(metadata())
	a := app.NewWithID(programID)
	var kept *crash.Log
	d := desk.New(desk.Options{
		Post: fyne.Do, Starter: starterFoods, BackupAfter: backupAfter, Did: func(key string) { kept.Did(key) },
	})
	last, brokeOff := crash.Collect(d.StateDir(), time.Now())
	kept, _ = crash.Start(d.StateDir(), crash.About{Name: programName, Version: version, Build: build}, time.Now()) // where it cannot, nothing is kept
	if os.Getenv(words.LanguageVariable) == "" {
		words.Choose(d.Prefs().Language)
	}
	var w *ui.Window // made before anything posted runs
	if path != "" {
		d.Open(path, func(err error) {
			if err != nil {
				complain(os.Stderr, err)
			}
			w.Opened(path, err)
			tellFirstFrame()
		})
	}
	if err := unheard(func() error { w = ui.Open(a, d); return mustHaveWindow() }); err != nil {
		kept.End()
		return errors.Join(err, closeDesk(d))
	}
	_ = greeted.Close() // the window has a line of its own now
	w.PrintWith(printApart)
	if p := newPlacer(); p != nil {
		w.PlaceBy(p)
	}
	if brokeOff {
		w.TellCrash(last)
	}
	a.Lifecycle().SetOnStarted(func() {
		startLook()
		if path == "" {
			tellFirstFrame()
		}
	})
	a.Lifecycle().SetOnStopped(func() { stopped(d) })
	a.Run()
	kept.End() // not deferred: a panic would take its own report away
	return nil
}

// stopped ends what outlives the window.
func stopped(d *desk.Desk) {
	if err := closeDesk(d); err != nil {
		complain(os.Stderr, err)
	}
	// The library now rewrites its own preferences and may read them half
	// written; it would tell of that on standard error, and nobody is helped.
	log.SetOutput(io.Discard)
}

// closeDesk waits for what is on its way to the disk.
func closeDesk(d *desk.Desk) error {
	ctx, cancel := context.WithTimeout(context.Background(), lastWords)
	defer cancel()
	return d.CloseWait(ctx)
}

// metadata says of the program what FyneApp.toml says of its package.
func metadata() fyne.AppMetadata {
	return fyne.AppMetadata{
		ID: programID, Name: programName, Version: version, Build: build, Release: true,
		Icon:       fyne.NewStaticResource("parewell.png", assets.Icon),
		Migrations: map[string]bool{"fyneDo": true},
	}
}
