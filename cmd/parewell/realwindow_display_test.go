//go:build realwindow

package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestRealWindowNoDisplay starts the program where there is a display it cannot
// use: one line says why and what to do, and the program ends.
func TestRealWindowNoDisplay(t *testing.T) {
	home := t.TempDir()
	book := demoWorkbook(t, home)
	key := filepath.Join(home, "key") // one entry for any machine and display (Xau(3))
	entry := "\xff\xff\x00\x00\x00\x00\x00\x12MIT-MAGIC-COOKIE-1\x00\x100123456789abcdef"
	if err := os.WriteFile(key, []byte(entry), 0o600); err != nil {
		t.Fatal(err)
	}
	wrong := filepath.Join(home, "wrong")
	if err := os.WriteFile(wrong, []byte(strings.ReplaceAll(entry, "0123", "3210")), 0o600); err != nil {
		t.Fatal(err)
	}
	locked := newScreen(t, 1280, 800, "-auth", key)
	rows := []struct {
		name   string
		screen *screen
		env    []string
		want   string
	}{
		{"a wrong key", locked, []string{"XAUTHORITY=" + wrong}, "does not let this program in"},
		{"no key", locked, []string{"XAUTHORITY=" + filepath.Join(home, "none")}, "does not let this program in"},
		{"no OpenGL", newScreen(t, 1280, 800, "-extension", "GLX"), nil, "it has no OpenGL"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			ctx, cancel := context.WithTimeout(context.Background(), patience)
			defer cancel()
			cmd := exec.CommandContext(ctx, program(t), book)
			cmd.Env = append(append(ownEnvironment(), "DISPLAY="+r.screen.display, "HOME="+home), r.env...)
			said, err := cmd.CombinedOutput()
			var exit *exec.ExitError
			if !errors.As(err, &exit) || exit.ExitCode() != exitBad {
				t.Fatalf("%v\n%s", err, said)
			}
			if s := string(said); strings.Count(s, "\n") != 1 || !strings.HasPrefix(s, "parewell: ") || !strings.Contains(s, r.want) {
				t.Errorf("it says %q", s)
			}
		})
	}
	left, err := filepath.Glob(filepath.Join(home, ".local", "state", "*", "crash", "*"))
	if err != nil || len(left) > 0 {
		t.Errorf("it left %v behind (%v)", left, err)
	}
	w := locked.launch(home, program(t), []string{"XAUTHORITY=" + key}, book)
	w.until("a program with the key has a window", func() bool { return len(w.texts()) > 0 })
}
