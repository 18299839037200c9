//go:build !nowindow && !wayland

package main

import (
	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"

	"parewell/ui"
)

// byGLFW asks the library below the toolkit, which knows of places. It is reached
// by way of the drawing context, which belongs to its window.
type byGLFW struct{}

func newPlacer() ui.Placer { return byGLFW{} }

// Standing is how the window stands now; false when it is gone.
func (byGLFW) Standing(w fyne.Window) (s ui.Standing, ok bool) {
	ok = inContext(w, func() {
		g := glfw.GetCurrentContext()
		s.Inside.X, s.Inside.Y = g.GetPos()
		s.Inside.Width, s.Inside.Height = g.GetSize()
		s.Frame.Left, s.Frame.Top, s.Frame.Right, s.Frame.Bottom = g.GetFrameSize()
		s.Filling = g.GetAttrib(glfw.Maximized) == glfw.True
		s.Hidden = g.GetAttrib(glfw.Iconified) == glfw.True
		for _, m := range glfw.GetMonitors() {
			var b ui.Box
			b.X, b.Y, b.Width, b.Height = m.GetWorkarea()
			s.Screens = append(s.Screens, b)
		}
	})
	return s, ok
}

// Put moves the window and gives it a size.
func (byGLFW) Put(w fyne.Window, to ui.Box) {
	inContext(w, func() {
		g := glfw.GetCurrentContext()
		if width, height := g.GetSize(); width != to.Width || height != to.Height {
			g.SetSize(to.Width, to.Height)
		}
		if x, y := g.GetPos(); x != to.X || y != to.Y {
			g.SetPos(to.X, to.Y)
		}
	})
}

// Fill asks the system to let the window fill the screen.
func (byGLFW) Fill(w fyne.Window) {
	inContext(w, func() { glfw.GetCurrentContext().Maximize() })
}
