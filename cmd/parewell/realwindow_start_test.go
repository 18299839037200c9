//go:build realwindow

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// starts is how often each program is started, one after the other in turn
// (DESIGN section 13).
const starts = 15

// TestRealWindowStart measures the first painted frame and the memory of
// Parewell with its demo workbook beside those of a bare window, and holds the
// budget: 1.5 times a bare window, or 250 ms more for the frame.
func TestRealWindowStart(t *testing.T) {
	floor := os.Getenv("PAREWELL_FLOOR")
	if floor == "" {
		t.Skip("PAREWELL_FLOOR names no bare window: run make bench")
	}
	home := t.TempDir()
	book := demoWorkbook(t, home)
	s := newScreen(t, 1280, 800)
	var bare, ours started
	for i := range starts + 1 { // the first of each fills caches and is left out
		b, o := s.start(home, floor), s.start(home, program(t), book)
		if i > 0 {
			bare.add(b)
			ours.add(o)
		}
	}
	fmt.Printf("\n| %d starts, median | bare window | Parewell, demo open | ratio | budget |\n|---|---|---|---|---|\n", starts)
	fmt.Printf("| first painted frame, ms | %.0f | %.0f | %.2f | 1.5 or +250 ms |\n", median(bare.ms), median(ours.ms), median(ours.ms)/median(bare.ms))
	fmt.Printf("| resident memory, MB | %.0f | %.0f | %.2f | 1.5 |\n\n", median(bare.mb), median(ours.mb), median(ours.mb)/median(bare.mb))
	if f, o := median(bare.ms), median(ours.ms); o > 1.5*f && o > f+250 {
		t.Errorf("first frame %.0f ms, bare window %.0f ms", o, f)
	}
	if f, o := median(bare.mb), median(ours.mb); o > 1.5*f {
		t.Errorf("resident memory %.0f MB, bare window %.0f MB", o, f)
	}
}

// started gathers milliseconds to the first frame and megabytes resident.
type started struct{ ms, mb []float64 }

func (s *started) add(o started) {
	s.ms, s.mb = append(s.ms, o.ms...), append(s.mb, o.mb...)
}

// start runs a program until it says "first frame", lets it settle and ends it.
func (s *screen) start(home, program string, args ...string) started {
	s.t.Helper()
	began := time.Now()
	w := s.launch(home, program, []string{"PAREWELL_FIRST_FRAME=1", "PAREWELL_LOOK=", "LANG=en_US.UTF-8"}, args...)
	defer end(w.cmd)
	select {
	case line := <-w.lines:
		took := time.Since(began)
		if line != "first frame" {
			s.t.Fatalf("%s said %q", program, line)
		}
		time.Sleep(700 * time.Millisecond)
		return started{[]float64{float64(took.Microseconds()) / 1000}, []float64{resident(s.t, w.cmd.Process.Pid)}}
	case <-time.After(patience):
		s.t.Fatalf("%s painted nothing in %v", program, patience)
	}
	return started{}
}

// resident reads a process's resident memory in megabytes (proc(5), VmRSS).
func resident(t testing.TB, pid int) float64 {
	t.Helper()
	b, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/status")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(b)) {
		if f := strings.Fields(line); len(f) == 3 && f[0] == "VmRSS:" {
			kb, err := strconv.ParseFloat(f[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			return kb / 1024
		}
	}
	t.Fatal("no VmRSS")
	return 0
}

func median(v []float64) float64 {
	s := slices.Sorted(slices.Values(v))
	return s[len(s)/2]
}

// demoWorkbook writes the demo into a folder and returns its path.
func demoWorkbook(t testing.TB, dir string) string {
	t.Helper()
	name := filepath.Join(dir, "harbour.parewell")
	var out, errOut strings.Builder
	if code := run([]string{"demo", name}, strings.NewReader(""), &out, &errOut); code != exitWell {
		t.Fatalf("demo: %d %s", code, errOut.String())
	}
	return name
}
