// Package reference reads the check values of ../shared/reference beside the module,
// for tests: what was expected, how it was made, and how near ours must come. Where
// the folder is absent a test is skipped.
package reference

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

// File is one file of the reference folder: expected values, how they were
// made (library and version) and how near ours must come.
type File struct {
	Name, Source, Method string
	Input                json.RawMessage
	Expected             any
	Tolerance            struct {
		Default   allowance
		Overrides map[string]allowance
	}
}

type allowance struct{ Rel, Abs float64 }

// Object is a JSON object as it is read.
type Object = map[string]any

// Sensory opens a check file of ../shared/reference/sensory beside the module, and
// its input; the test is skipped where the folder is absent.
func Sensory(t *testing.T, name string, input any) *File {
	t.Helper()
	b := Bytes(t, "sensory", name+".json")
	var f File
	if err := json.Unmarshal(b, &f); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(f.Input, input); err != nil {
		t.Fatal(err)
	}
	return &f
}

// Bytes are those of a file of ../shared/reference.
func Bytes(t *testing.T, parts ...string) []byte {
	t.Helper()
	path := filepath.Join(append([]string{Root(t), "..", "shared", "reference"}, parts...)...)
	b, err := os.ReadFile(path)
	if err != nil {
		t.Skipf("no reference folder: %v", err)
	}
	return b
}

// Root is the folder of the module.
func Root(t *testing.T) string {
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

// Hold compares what we got (any value that turns into JSON) with what the file
// expects, key by key. "note" and "error" are prose; a key of leave is left out,
// for the reason the test gives.
func (f *File) Hold(t *testing.T, got any, leave ...string) {
	t.Helper()
	compared := f.walk(t, f.Expected, Plain(t, got), nil, leave)
	if compared == 0 {
		t.Errorf("%s: nothing was compared", f.Name)
	}
	t.Logf("%s: %d values held against %s", f.Name, compared, f.Source)
}

// Plain turns a value into what json.Unmarshal makes.
func Plain(t *testing.T, v any) any {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var out any
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func (f *File) walk(t *testing.T, want, got any, path, leave []string) int {
	t.Helper()
	bad := func() {
		t.Errorf("%s %s: got %v, want %v (%s)", f.Name, strings.Join(path, "."), got, want, f.Source)
	}
	switch w := want.(type) {
	case Object:
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

func (f *File) walkObject(t *testing.T, want Object, got any, path, leave []string) int {
	t.Helper()
	g, ok := got.(Object)
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
func (f *File) allowed(path []string) allowance {
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
