//go:build !nowindow && wayland

package main

import "parewell/ui"

// newPlacer is nil where windows are placed by the system alone.
func newPlacer() ui.Placer { return nil }
