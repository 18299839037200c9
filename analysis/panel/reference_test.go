package panel

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

// checkFile is one file of the reference folder: expected values, how they were
// made (library and version) and how near ours must come.
type checkFile struct {
	Name, Source, Method string
	Input                json.RawMessage
	Expected             any
	Tolerance            struct {
		Default   allowance
		Overrides map[string]allowance
	}
}

type allowance struct{ Rel, Abs float64 }

type object = map[string]any

// read opens a check file of ../shared/reference/sensory beside the module, and
// its input; the test is skipped where the folder is absent.
func read(t *testing.T, name string, input any) *checkFile {
	t.Helper()
	b := referenceFile(t, "sensory", name+".json")
	var f checkFile
	if err := json.Unmarshal(b, &f); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(f.Input, input); err != nil {
		t.Fatal(err)
	}
	return &f
}

func referenceFile(t *testing.T, parts ...string) []byte {
	t.Helper()
	path := filepath.Join(append([]string{moduleRoot(t), "..", "shared", "reference"}, parts...)...)
	b, err := os.ReadFile(path)
	if err != nil {
		t.Skipf("no reference folder: %v", err)
	}
	return b
}

func moduleRoot(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		if dir == filepath.Dir(dir) {
			t.Fatal("no go.mod above")
		}
		dir = filepath.Dir(dir)
	}
}

// hold compares what we got (any value that turns into JSON) with what the file
// expects, key by key. "note" and "error" are prose; a key of leave is left out,
// for the reason the test gives.
func (f *checkFile) hold(t *testing.T, got any, leave ...string) {
	t.Helper()
	b, err := json.Marshal(got)
	if err != nil {
		t.Fatal(err)
	}
	var plain any
	if err := json.Unmarshal(b, &plain); err != nil {
		t.Fatal(err)
	}
	compared := f.walk(t, f.Expected, plain, nil, leave)
	if compared == 0 {
		t.Errorf("%s: nothing was compared", f.Name)
	}
	t.Logf("%s: %d values held against %s", f.Name, compared, f.Source)
}

func (f *checkFile) walk(t *testing.T, want, got any, path, leave []string) int {
	t.Helper()
	bad := func() {
		t.Errorf("%s %s: got %v, want %v (%s)", f.Name, strings.Join(path, "."), got, want, f.Source)
	}
	switch w := want.(type) {
	case object:
		return f.walkObject(t, w, got, path, leave)
	case []any:
		g, ok := got.([]any)
		if !ok || len(g) != len(w) {
			bad()
			return 1
		}
		n := 0
		for i := range w {
			n += f.walk(t, w[i], g[i], append(path[:len(path):len(path)], fmt.Sprint(i)), leave)
		}
		return n
	case float64:
		g, ok := got.(float64)
		l := f.allowed(path)
		if !ok || math.Abs(g-w) > math.Max(l.Abs, l.Rel*math.Abs(w)) {
			bad()
		}
	default:
		if got != want {
			bad()
		}
	}
	return 1
}

func (f *checkFile) walkObject(t *testing.T, want object, got any, path, leave []string) int {
	t.Helper()
	g, ok := got.(object)
	if !ok {
		t.Errorf("%s %s: got %v, want an object", f.Name, strings.Join(path, "."), got)
		return 0
	}
	left := map[string]bool{"note": true, "error": true}
	for _, k := range leave {
		left[k] = true
	}
	keys := make([]string, 0, len(want))
	for k := range want {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	n := 0
	for _, k := range keys {
		if left[k] {
			continue
		}
		if _, ok := g[k]; !ok {
			t.Errorf("%s %s.%s is missing", f.Name, strings.Join(path, "."), k)
			continue
		}
		n += f.walk(t, want[k], g[k], append(path[:len(path):len(path)], k), leave)
	}
	return n
}

// allowed is the tolerance of a value: the override whose names occur in its
// path in that order, the one with most names; else the default.
func (f *checkFile) allowed(path []string) allowance {
	best, most := f.Tolerance.Default, -1
	for key, l := range f.Tolerance.Overrides {
		names := strings.Split(key, ".")
		at := 0
		for _, p := range path {
			if at < len(names) && names[at] == p {
				at++
			}
		}
		if at == len(names) && at > most {
			best, most = l, at
		}
	}
	return best
}
