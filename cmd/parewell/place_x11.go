//go:build !nowindow && linux && !wayland

package main

/*
#cgo LDFLAGS: -lX11
#include <string.h>
#include <X11/Xlib.h>
#include <X11/Xatom.h>

typedef struct { int x, y, width, screenWidth, screenHeight, filling; } spot;

// A window may be gone by the time we ask; Xlib would end the program for that.
static int unheard(Display *d, XErrorEvent *e) { return 0; }

static int filling(Display *d, Window w) {
	Atom state = XInternAtom(d, "_NET_WM_STATE", False), wide = XInternAtom(d, "_NET_WM_STATE_MAXIMIZED_HORZ", False);
	Atom type; int format; unsigned long n = 0, left; unsigned char *data = NULL; int found = 0;
	if (XGetWindowProperty(d, w, state, 0, 64, False, XA_ATOM, &type, &format, &n, &left, &data) == Success && data && format == 32)
		for (unsigned long i = 0; i < n; i++) found |= ((Atom *)data)[i] == wide;
	if (data) XFree(data);
	return found;
}

static int spotOf(Window w, spot *s) {
	Display *d = XOpenDisplay(NULL);
	if (!d) return 0;
	int (*before)(Display *, XErrorEvent *) = XSetErrorHandler(unheard);
	XWindowAttributes a; Window child;
	int ok = XGetWindowAttributes(d, w, &a) && XTranslateCoordinates(d, w, a.root, 0, 0, &s->x, &s->y, &child);
	if (ok) {
		s->width = a.width;
		s->screenWidth = WidthOfScreen(a.screen);
		s->screenHeight = HeightOfScreen(a.screen);
		s->filling = filling(d, w);
	}
	XSync(d, False);
	XSetErrorHandler(before);
	XCloseDisplay(d);
	return ok;
}

// fill asks the window manager, as EWMH 1.5 has it under _NET_WM_STATE: 1 adds
// two states, the second 1 says that an application asks.
static void fill(Display *d, Window w) {
	XEvent e;
	memset(&e, 0, sizeof e);
	e.xclient.type = ClientMessage;
	e.xclient.window = w;
	e.xclient.message_type = XInternAtom(d, "_NET_WM_STATE", False);
	e.xclient.format = 32;
	e.xclient.data.l[0] = 1;
	e.xclient.data.l[1] = XInternAtom(d, "_NET_WM_STATE_MAXIMIZED_HORZ", False);
	e.xclient.data.l[2] = XInternAtom(d, "_NET_WM_STATE_MAXIMIZED_VERT", False);
	e.xclient.data.l[3] = 1;
	XSendEvent(d, DefaultRootWindow(d), False, SubstructureNotifyMask | SubstructureRedirectMask, &e);
}

static void put(Window w, int move, int x, int y, int filled) {
	Display *d = XOpenDisplay(NULL);
	if (!d) return;
	int (*before)(Display *, XErrorEvent *) = XSetErrorHandler(unheard);
	if (move) XMoveWindow(d, w, x, y);
	if (filled) fill(d, w);
	XSync(d, False);
	XSetErrorHandler(before);
	XCloseDisplay(d);
}
*/
import "C"

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver"

	"parewell/ui"
	"parewell/ui/desk"
)

// onX11 asks the X server and its window manager through a connection of its own:
// the toolkit's is out of reach.
type onX11 struct{}

func newPlacer() ui.Placer { return onX11{} }

// Spot tells where the inside of the window stands.
func (onX11) Spot(w fyne.Window) desk.Spot {
	s, ok := asked(w)
	return desk.Spot{Known: ok, X: int(s.x), Y: int(s.y), Filling: s.filling != 0}
}

// Put moves the window, unless its upper edge would be where no mouse reaches
// because a screen is gone or smaller, and lets it fill the screen if it did.
func (onX11) Put(w fyne.Window, to desk.Spot) {
	s, ok := asked(w)
	if !ok {
		return
	}
	move := C.int(0)
	if to.Known && inReach(to.X+int(s.width)/2, to.Y, int(s.screenWidth), int(s.screenHeight)) {
		move = 1
	}
	filled := C.int(0)
	if to.Filling {
		filled = 1
	}
	C.put(C.Window(handle(w)), move, C.int(to.X), C.int(to.Y), filled)
}

// asked is what the server says of a window; false when there is none.
func asked(w fyne.Window) (s C.spot, ok bool) {
	h := handle(w)
	ok = h != 0 && C.spotOf(C.Window(h), &s) != 0
	return s, ok
}

// handle is the window's number at the server, 0 when it has none.
func handle(w fyne.Window) (h uintptr) {
	n, ok := w.(driver.NativeWindow)
	if !ok {
		return 0
	}
	n.RunNative(func(context any) {
		if c, ok := context.(driver.X11WindowContext); ok {
			h = c.WindowHandle
		}
	})
	return h
}

// edgeInReach is how much of a window's upper part must be on the screen to be
// dragged by, in pixels.
const edgeInReach = 48

// inReach tells whether the middle of a window's upper edge is on a screen.
func inReach(middle, top, width, height int) bool {
	return middle >= edgeInReach && middle <= width-edgeInReach && top >= 0 && top <= height-edgeInReach
}
