package crash

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

var (
	noon  = time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)
	about = About{Name: "Parewell", Version: "9.8.7", Build: 6}
)

// The test binary starts itself again as a program that breaks off, told apart by
// this variable: "how|state folder".
const roleVariable = "PAREWELL_CRASH_ROLE"

func TestMain(m *testing.M) {
	if how, state, ok := strings.Cut(os.Getenv(roleVariable), "|"); ok {
		breakOff(how, state)
		return
	}
	os.Exit(m.Run())
}

// secret is a recipe's text that must be in no report.
const secret = "Zephyrine’s quince soup"

type soup struct{ name string }

func breakOff(how, state string) {
	l, err := Start(state, about, noon)
	if err != nil {
		fmt.Println(err)
		os.Exit(7)
	}
	for i := range 30 {
		l.Did(fmt.Sprintf("did.thing-%d", i))
	}
	l.Did(secret)
	l.Did("did.title")
	switch how {
	case "clean":
		l.End()
		return
	case "killed":
		p, _ := os.FindProcess(os.Getpid())
		p.Kill() //nolint:errcheck // the test waits for its end
		time.Sleep(time.Minute)
	case "window":
		stirThePot(nil, secret)
	case "text":
		panic(secret + "\nwith a second line\ngoroutine of my own")
	case "error":
		panic(fmt.Errorf("reading %q: %w", secret, os.ErrNotExist))
	case "value":
		panic(soup{secret})
	case "map":
		count(nil, secret)
	case "fatal":
		var mu sync.Mutex
		mu.Unlock()
	case "background":
		go stirThePot([]string{secret}, secret)
		time.Sleep(time.Minute)
	}
}

//go:noinline
func count(pots map[string]int, name string) { pots[name]++ }

//go:noinline
func stirThePot(pots []string, name string) { pots[len(name)] = name }

// run has a program break off and returns its state folder and standard error.
func run(t *testing.T, how, state string) string {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(exe, "-test.run=^$")
	c.Env = append(os.Environ(), roleVariable+"="+how+"|"+state)
	out, err := c.CombinedOutput()
	if (err == nil) != (how == "clean") {
		t.Fatalf("%v\n%s", err, out)
	}
	return string(out)
}

func TestAProgramThatBrokeOffLeavesAReport(t *testing.T) {
	const leftOut = "panic (its words are left out"
	for _, row := range []struct{ how, says, in string }{
		{"window", "panic: runtime error: index out of range [25] with length 0", "crash.stirThePot"},
		{"background", "panic: runtime error: index out of range [25] with length 1", "crash.stirThePot"},
		{"text", leftOut, "crash.breakOff"},
		{"error", leftOut, "crash.breakOff"},
		{"value", leftOut, "crash.breakOff"},
		{"map", "panic: assignment to entry in nil map", "crash.count"},
		{"fatal", "internal/sync.fatal", "crash.breakOff"},
	} {
		t.Run(row.how, func(t *testing.T) {
			state := t.TempDir()
			run(t, row.how, state)
			r, ok := Collect(state, time.Now())
			if !ok {
				t.Fatal("no report")
			}
			for _, want := range []string{row.says, row.in, "crash_test.go:", "Parewell 9.8.7 (build 6), ", "\n  did.thing-11\n", "\n  did.title\n"} {
				if !strings.Contains(r.Text, want) {
					t.Errorf("lacks %q:\n%s", want, r.Text)
				}
			}
			for _, secret := range []string{"Zephyrine", "quince", "second line", "goroutine of my own", "did.thing-10\n", "/root", "0x"} {
				if strings.Contains(r.Text, secret) {
					t.Errorf("says %q:\n%s", secret, r.Text)
				}
			}
			if kept, err := os.ReadFile(r.Path); err != nil || string(kept) != r.Text {
				t.Errorf("the file: %v %q", err, kept)
			}
			if _, again := Collect(state, time.Now()); again {
				t.Error("told a second time")
			}
			wantOnly(t, state, filepath.Base(r.Path))
		})
	}
}

func wantOnly(t *testing.T, state string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(state, folderName))
	if err != nil {
		t.Fatal(err)
	}
	var have []string
	for _, e := range entries {
		have = append(have, e.Name())
	}
	if strings.Join(have, " ") != strings.Join(names, " ") {
		t.Errorf("in the folder: %q, want %q", have, names)
	}
}

func TestACleanEndLeavesNothing(t *testing.T) {
	state := t.TempDir()
	run(t, "clean", state)
	if _, ok := Collect(state, time.Now()); ok {
		t.Error("a report of a clean end")
	}
	wantOnly(t, state)
}

// TestAKilledProgramIsNoFaultOfTheProgram leaves its file for a while, as it could
// be that of another window.
func TestAKilledProgramIsNoFaultOfTheProgram(t *testing.T) {
	state := t.TempDir()
	run(t, "killed", state)
	if _, ok := Collect(state, time.Now()); ok {
		t.Error("a report of a kill")
	}
	if _, ok := Collect(state, time.Now().Add(2*longestRun)); ok {
		t.Error("a report of a kill")
	}
	wantOnly(t, state)
}

func TestOnlyTheNewestReportsStay(t *testing.T) {
	state := t.TempDir()
	dir := filepath.Join(state, folderName)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	for i := range 9 {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("2026030%dT120000Z.txt", i+1)), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	Collect(state, noon)
	left, _ := filepath.Glob(filepath.Join(dir, reportPattern))
	if len(left) != reportsKept || filepath.Base(left[0]) != "20260305T120000Z.txt" {
		t.Errorf("%q", left)
	}
}

// TestALongRunKeepsItsFileShort notes more keys than the file takes.
func TestALongRunKeepsItsFileShort(t *testing.T) {
	l, err := Start(t.TempDir(), about, noon)
	if err != nil {
		t.Fatal(err)
	}
	defer l.End()
	for i := range 3 * keysFiled {
		l.Did(fmt.Sprintf("did.thing-%d", i))
	}
	raw, err := os.ReadFile(l.file.Name())
	if err != nil {
		t.Fatal(err)
	}
	head, keys, said := split(string(raw))
	if len(said) > 0 || len(keys) != keysKept || keys[keysKept-1] != fmt.Sprintf("did.thing-%d", 3*keysFiled-1) || !strings.HasPrefix(head, "Parewell 9.8.7") {
		t.Errorf("%q %q %q", head, keys, said)
	}
	if n := strings.Count(string(raw), "\n"); n > keysFiled+keysKept {
		t.Errorf("%d lines", n)
	}
}

func TestWithoutAPlaceNothingIsKeptAndNothingFails(t *testing.T) {
	file := filepath.Join(t.TempDir(), "no folder")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	l, err := Start(file, about, noon)
	if err == nil || l != nil {
		t.Error("began in a place that is none")
	}
	l.Did("did.title")
	l.End()
	if _, ok := Collect(file, noon); ok {
		t.Error("a report from nowhere")
	}
}
