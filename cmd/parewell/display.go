//go:build !nowindow

package main

import (
	"net"
	"os"
	"runtime"
	"strconv"
	"strings"
	"time"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// mustHaveDisplay says in one line that there is no screen to draw on, which
// the window library would only panic about.
func mustHaveDisplay() error {
	if runtime.GOOS != "linux" {
		return nil
	}
	display := os.Getenv("DISPLAY")
	if display == "" {
		key := "cmd.no-display"
		if os.Getenv("WAYLAND_DISPLAY") != "" {
			key = "cmd.no-xwayland"
		}
		return problem.New("", words.Say(key), words.Say(key+".hint"))
	}
	if !answers(display) {
		return problem.New("", words.Say("cmd.display-silent", display), words.Say("cmd.no-display.hint"))
	}
	return nil
}

// answers tells whether an X server listens at a display's name: HOST:N.SCREEN,
// without host on this machine's sockets (X(7), "Display names").
func answers(display string) bool {
	host, number, ok := strings.Cut(display, ":")
	if !ok {
		return true // a form we do not know: let the library try
	}
	number, _, _ = strings.Cut(number, ".")
	n, err := strconv.Atoi(number)
	if err != nil {
		return true
	}
	if host != "" && host != "unix" {
		return dials("tcp", net.JoinHostPort(host, strconv.Itoa(6000+n)))
	}
	socket := "/tmp/.X11-unix/X" + number
	return dials("unix", "@"+socket) || dials("unix", socket)
}

func dials(network, address string) bool {
	c, err := net.DialTimeout(network, address, 2*time.Second)
	if err != nil {
		return false
	}
	return c.Close() == nil
}
