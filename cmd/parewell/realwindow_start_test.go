//go:build realwindow

package main

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// BenchmarkRealWindowStart starts a bare window and Parewell with its demo
// workbook by turns. One op is one start of both; the figures are the medians of
// the time to the first painted frame and of the memory resident then (DESIGN
// section 13: 1.5 times a bare window, or 250 ms more for the frame).
func BenchmarkRealWindowStart(b *testing.B) {
	floor := os.Getenv("PAREWELL_FLOOR")
	if floor == "" {
		b.Skip("PAREWELL_FLOOR names no bare window: run make bench")
	}
	home := b.TempDir()
	book := demoWorkbook(b, home)
	s := newScreen(b, 1280, 800)
	s.start(home, floor) // the first of each fills caches and is left out
	s.start(home, program(b), book)
	var bare, ours started
	for b.Loop() {
		bare.add(s.start(home, floor))
		ours.add(s.start(home, program(b), book))
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(median(bare.ms), "bare-ms")
	b.ReportMetric(median(ours.ms), "parewell-ms")
	b.ReportMetric(median(bare.mb), "bare-MB")
	b.ReportMetric(median(ours.mb), "parewell-MB")
}

// TestRealWindowDamaged names a damaged workbook on the command line: the window
// offers to recover it, by its keys, and opens what was recovered.
func TestRealWindowDamaged(t *testing.T) {
	home := t.TempDir()
	bad := filepath.Join(home, "supper.parewell")
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "workbooks", "v2-damaged.parewell"))
	if err == nil {
		err = os.WriteFile(bad, raw, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	w := newScreen(t, 1280, 800).launch(home, program(t), nil, bad).find()
	w.waitFor("Recover into a new workbook")
	w.key("Return")
	w.waitFor("supper recovered")
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
