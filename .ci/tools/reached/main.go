// Command reached reads what govulncheck -format json found and says of each
// known vulnerability that the program's code reaches where it is and what mends
// it. It fails when one lies in a module that go.mod chooses. One in Go's own
// library is told but does not fail: it goes with the Go that is installed, and
// a newer one mends it.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
)

// finding is one trace of govulncheck's: its first frame is the faulty one, and
// has a function only when the code reaches it.
type finding struct {
	OSV   string `json:"osv"`
	Fixed string `json:"fixed_version"`
	Trace []struct {
		Module   string `json:"module"`
		Version  string `json:"version"`
		Function string `json:"function"`
	} `json:"trace"`
}

// message is one JSON value of the stream; it holds one of these or another.
type message struct {
	OSV *struct {
		ID      string `json:"id"`
		Summary string `json:"summary"`
	} `json:"osv"`
	Finding *finding `json:"finding"`
}

func main() {
	found, summaries, err := read(os.Stdin)
	if err != nil {
		fmt.Fprintln(os.Stderr, "reached:", err)
		os.Exit(2)
	}
	if tell(found, summaries) > 0 {
		os.Exit(1)
	}
}

func read(r io.Reader) (map[string]finding, map[string]string, error) {
	found, summaries := map[string]finding{}, map[string]string{}
	messages := 0
	for d := json.NewDecoder(r); ; messages++ {
		var m message
		switch err := d.Decode(&m); {
		case errors.Is(err, io.EOF) && messages == 0:
			return nil, nil, errors.New("nothing came to read")
		case errors.Is(err, io.EOF):
			return found, summaries, nil
		case err != nil:
			return nil, nil, err
		}
		if m.OSV != nil {
			summaries[m.OSV.ID] = m.OSV.Summary
		}
		if f := m.Finding; f != nil && len(f.Trace) > 0 && f.Trace[0].Function != "" {
			found[f.OSV] = *f
		}
	}
}

// tell prints a line a vulnerability and returns how many are ours to mend.
func tell(found map[string]finding, summaries map[string]string) int {
	ours := 0
	for _, id := range slices.Sorted(maps.Keys(found)) {
		f := found[id]
		at, verdict := f.Trace[0], "note"
		if at.Module != "stdlib" {
			verdict = "reached"
			ours++
		}
		fmt.Printf("%s: %s in %s %s, mended in %s: %s\n", verdict, id, at.Module, at.Version, f.Fixed, summaries[id])
	}
	fmt.Printf("vulnerabilities: %d reached in modules, %d in the Go that is installed\n", ours, len(found)-ours)
	return ours
}
