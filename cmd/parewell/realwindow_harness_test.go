//go:build realwindow

package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	_ "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// screen is an X server of our own without a monitor.
type screen struct {
	t       testing.TB
	display string // ":7"
}

// newScreen starts a server on a display number it finds free itself, with further
// options; it ends with the test.
func newScreen(t testing.TB, width, height int, more ...string) *screen {
	t.Helper()
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("Xvfb", append([]string{"-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-nolisten", "tcp", "-noreset"}, more...)...)
	cmd.ExtraFiles = []*os.File{write}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { end(cmd) })
	write.Close()
	number, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Fatalf("Xvfb gave no display: %v", err)
	}
	return &screen{t: t, display: ":" + strings.TrimSpace(number)}
}

// end asks a process to go and waits for it.
func end(cmd *exec.Cmd) {
	_ = cmd.Process.Signal(syscall.SIGTERM)
	done := make(chan struct{})
	go func() { _ = cmd.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(5 * time.Second):
		_ = cmd.Process.Kill()
		<-done
	}
}

// tool runs an X program on the screen and returns what it printed.
func (s *screen) tool(name string, args ...string) string {
	s.t.Helper()
	out, err := s.try(name, args...)
	if err != nil {
		s.t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return out
}

func (s *screen) try(name string, args ...string) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := cmd.CombinedOutput()
	return strings.TrimSpace(string(out)), err
}

// window is a running program with its window.
type window struct {
	*screen
	cmd   *exec.Cmd
	id    string
	look  string
	log   string
	lines chan string // of its standard output
}

// launch starts a program on the screen with a home of its own.
func (s *screen) launch(home, program string, env []string, args ...string) *window {
	s.t.Helper()
	dir := s.t.TempDir()
	w := &window{screen: s, look: filepath.Join(dir, "look.json"), log: filepath.Join(dir, "log"), lines: make(chan string, 16)}
	log, err := os.Create(w.log)
	if err != nil {
		s.t.Fatal(err)
	}
	defer log.Close()
	w.cmd = exec.Command(program, args...)
	w.cmd.Env = append(ownEnvironment(), "DISPLAY="+s.display, "HOME="+home, "PAREWELL_LOOK="+w.look)
	w.cmd.Env = append(w.cmd.Env, env...)
	w.cmd.Stderr = log
	out, err := w.cmd.StdoutPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	if err := w.cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	go func() {
		for sc := bufio.NewScanner(out); sc.Scan(); {
			w.lines <- sc.Text()
		}
		close(w.lines)
	}()
	s.t.Cleanup(w.kill)
	return w
}

// ownEnvironment is this process's without what would send a program to
// another home or screen.
func ownEnvironment() []string {
	return slices.DeleteFunc(os.Environ(), func(e string) bool {
		return strings.HasPrefix(e, "XDG_") || strings.HasPrefix(e, "WAYLAND_") || strings.HasPrefix(e, "PAREWELL_")
	})
}

func (w *window) kill() {
	if w.cmd.ProcessState == nil {
		end(w.cmd)
	}
	if b, _ := os.ReadFile(w.log); len(b) > 0 && w.t.Failed() {
		w.t.Logf("the program's log:\n%s", b)
	}
}

// find waits for the window and gives it the keyboard (no window manager does).
func (w *window) find() *window {
	w.t.Helper()
	w.until("its window is there", func() bool {
		out, err := w.try("xdotool", "search", "--onlyvisible", "--pid", strconv.Itoa(w.cmd.Process.Pid))
		w.id, _, _ = strings.Cut(out, "\n")
		return err == nil && w.id != ""
	})
	w.tool("xdotool", "windowfocus", "--sync", w.id)
	return w
}

// patience is how long the window may take over one act on a slow machine.
const patience = 30 * time.Second

// until waits for cond and fails the test with a picture when it does not come.
func (w *window) until(what string, cond func() bool) {
	w.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(40 * time.Millisecond) {
		if cond() {
			return
		}
	}
	w.shot("failed-" + filepath.Base(w.t.Name()))
	w.t.Fatalf("waited %v in vain until %s\nthe window shows: %s", patience, what, strings.Join(w.texts(), " | "))
}

// seen is one thing on the screen, as a program built with the tag look tells it.
type seen struct {
	Kind, Text, Hint string
	X, Y, W, H       float64
}

// view is what the window shows.
type view struct {
	Title   string
	Overlay bool
	Focus   *seen
	Objects []seen
}

func (w *window) view() view {
	var v view
	b, err := os.ReadFile(w.look)
	if err == nil {
		_ = json.Unmarshal(b, &v) // an empty view is what until waits on
	}
	return v
}

func (w *window) texts() []string {
	var out []string
	for _, o := range w.view().Objects {
		if o.Text != "" {
			out = append(out, o.Text)
		}
	}
	return out
}

// object finds the first thing whose text, else hint, is part, else holds it.
func (w *window) object(part string) (seen, bool) {
	all := w.view().Objects
	for _, match := range []func(seen) bool{
		func(o seen) bool { return o.Text == part },
		func(o seen) bool { return strings.Contains(o.Text, part) },
		func(o seen) bool { return o.Hint != "" && strings.Contains(o.Hint, part) },
	} {
		for _, o := range all {
			if match(o) {
				return o, true
			}
		}
	}
	return seen{}, false
}

// waitFor waits until part is on the screen and returns where.
func (w *window) waitFor(part string) seen {
	w.t.Helper()
	var at seen
	w.until(strconv.Quote(part)+" is shown", func() bool {
		o, ok := w.object(part)
		at = o
		return ok
	})
	return at
}

// atRest waits until find tells a place twice in a row: what is still being laid
// out moves under the mouse.
func (w *window) atRest(what string, find func() (seen, bool)) seen {
	w.t.Helper()
	var at seen
	was, fresh := seen{}, false
	w.until(what, func() bool {
		o, ok := find()
		rests := ok && fresh && o == was
		was, fresh, at = o, ok, o
		if !rests {
			time.Sleep(100 * time.Millisecond) // longer than between two looks
		}
		return rests
	})
	return at
}

// clickAt presses the left button at a place in the window.
func (w *window) clickAt(x, y float64) {
	w.t.Helper()
	w.tool("xdotool", "mousemove", "--window", w.id, strconv.Itoa(int(x)), strconv.Itoa(int(y)), "sleep", "0.12", "click", "1")
	time.Sleep(120 * time.Millisecond)
}

// click waits for a text and presses its middle.
func (w *window) click(part string) {
	w.t.Helper()
	o := w.atRest(strconv.Quote(part)+" is shown", func() (seen, bool) { return w.object(part) })
	w.clickAt(o.X+o.W/2, o.Y+o.H/2)
}

// cell finds the text that stands on the row of one text under another: a
// table's cell by its row and its column.
func (w *window) cell(row, column string) (seen, bool) {
	r, ok := w.object(row)
	c, ok2 := w.object(column)
	if !ok || !ok2 {
		return seen{}, false
	}
	for _, o := range w.view().Objects { // a column's head stands above what is in it
		if o.Text == column && o.Y < c.Y {
			c = o
		}
	}
	return seen{X: c.X, Y: r.Y, W: c.W, H: r.H}, true
}

// clickCell presses the cell of a row and a column of the table.
func (w *window) clickCell(row, column string) {
	w.t.Helper()
	at := w.atRest(fmt.Sprintf("row %q and column %q are shown", row, column), func() (seen, bool) { return w.cell(row, column) })
	w.clickAt(at.X+at.W/2, at.Y+at.H/2)
}

// key presses keys by their X names: "ctrl+z", "Return".
func (w *window) key(names ...string) {
	w.t.Helper()
	for _, n := range names {
		w.tool("xdotool", "key", "--clearmodifiers", "--delay", "40", n)
		time.Sleep(60 * time.Millisecond)
	}
}

// typeText types as a person does, Return at the end of each line but the last.
func (w *window) typeText(text string) {
	w.t.Helper()
	for i, line := range strings.Split(text, "\n") {
		if i > 0 {
			w.tool("xdotool", "key", "--clearmodifiers", "Return")
		}
		if line != "" {
			w.tool("xdotool", "type", "--clearmodifiers", "--delay", "15", line)
		}
	}
	time.Sleep(80 * time.Millisecond)
}

// shot takes a picture of the window; it is kept in PAREWELL_SHOTS, else in a
// folder that goes with the test.
func (w *window) shot(name string) image.Image {
	w.t.Helper()
	dir := os.Getenv("PAREWELL_SHOTS")
	if dir == "" {
		dir = w.t.TempDir()
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		w.t.Fatal(err)
	}
	file := filepath.Join(dir, name+".png")
	w.tool("import", "-window", w.id, file)
	f, err := os.Open(file)
	if err != nil {
		w.t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		w.t.Fatal(err)
	}
	return img
}

// changed counts the pixels in which two pictures of one size differ.
func changed(a, b image.Image) int {
	x, y := pixels(a), pixels(b)
	if len(x) != len(y) {
		return max(len(x), len(y)) / 4
	}
	n := 0
	for i := 0; i < len(x); i += 4 {
		if x[i] != y[i] || x[i+1] != y[i+1] || x[i+2] != y[i+2] {
			n++
		}
	}
	return n
}

// pixels is a picture as red, green, blue and alpha bytes.
func pixels(img image.Image) []uint8 {
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out.Pix
}

// program returns the built program, which make hands over.
func program(t testing.TB) string {
	t.Helper()
	p := os.Getenv("PAREWELL_BINARY")
	if p == "" {
		t.Fatal("PAREWELL_BINARY names no program: run make window-test")
	}
	return p
}

// under reads the text right below a column's head.
func (w *window) under(column string) string {
	w.t.Helper()
	head := w.waitFor(column)
	return w.nearest(head.X+head.W/2, head.Y+head.H*1.5)
}

// inCell reads the text in the cell of a row and a column.
func (w *window) inCell(row, column string) string {
	w.t.Helper()
	r, c := w.waitFor(row), w.waitFor(column)
	return w.nearest(c.X+c.W/2, r.Y+r.H/2)
}

// nearest reads the text whose middle is nearest to a place.
func (w *window) nearest(x, y float64) string {
	best, least := "", math.Inf(1)
	for _, o := range w.view().Objects {
		if o.Text == "" {
			continue
		}
		if d := math.Hypot(o.X+o.W/2-x, 4*(o.Y+o.H/2-y)); d < least { // a row counts for more than a column
			best, least = o.Text, d
		}
	}
	return best
}
