//go:build !nowindow

package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// printApart runs this program's print command in a process of its own and tells
// what it complained of.
func printApart(ctx context.Context, args ...string) error {
	program, err := os.Executable()
	if err != nil {
		return problem.Wrap(err, "", words.Say("export.failed"), "")
	}
	var said bytes.Buffer
	cmd := exec.CommandContext(ctx, program, append([]string{"print"}, args...)...)
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		what := words.Say("export.failed")
		if text := strings.TrimSpace(said.String()); text != "" {
			what = text
		}
		return problem.Wrap(err, "", what, "")
	}
	return nil
}
