//go:build nowindow

package main

import (
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// openWindow says that this build has none.
func openWindow(string) error {
	return problem.New("", words.Say("cmd.no-window"), words.Say("cmd.no-window.hint"))
}
