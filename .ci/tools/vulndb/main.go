// Command vulndb lays a folder of OSV reports out as a vulnerability database
// that govulncheck reads from disk: vulndb OSV-FOLDER OUT-FOLDER.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"time"
)

// report is what the index needs of an OSV entry.
type report struct {
	ID       string    `json:"id"`
	Modified time.Time `json:"modified"`
	Affected []struct {
		Package struct {
			Name string `json:"name"`
		} `json:"package"`
		Ranges []struct {
			Events []struct {
				Fixed string `json:"fixed"`
			} `json:"events"`
		} `json:"ranges"`
	} `json:"affected"`
}

// vuln and module are the rows of index/modules.json (layout: the Go
// vulnerability database's API, version 1).
type vuln struct {
	ID       string    `json:"id"`
	Modified time.Time `json:"modified"`
	Fixed    string    `json:"fixed,omitempty"`
}

type module struct {
	Path  string `json:"path"`
	Vulns []vuln `json:"vulns"`
}

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "vulndb: want OSV-FOLDER OUT-FOLDER")
		os.Exit(2)
	}
	if err := layOut(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "vulndb:", err)
		os.Exit(1)
	}
}

func layOut(from, to string) error {
	names, err := filepath.Glob(filepath.Join(from, "*.json"))
	if err != nil {
		return err
	}
	if len(names) == 0 {
		return errors.New("no reports in " + from)
	}
	for _, dir := range []string{"ID", "index"} {
		if err := os.MkdirAll(filepath.Join(to, dir), 0o755); err != nil {
			return err
		}
	}
	modules := map[string][]vuln{}
	for _, name := range names {
		if err := add(modules, name, to); err != nil {
			return fmt.Errorf("%s: %w", filepath.Base(name), err)
		}
	}
	return writeIndex(modules, to)
}

// add copies one report into the database and notes the modules it affects.
func add(modules map[string][]vuln, name, to string) error {
	b, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	var r report
	if err := json.Unmarshal(b, &r); err != nil {
		return err
	}
	for _, a := range r.Affected {
		v := vuln{ID: r.ID, Modified: r.Modified}
		for _, ranges := range a.Ranges {
			for _, e := range ranges.Events {
				v.Fixed = last(e.Fixed, v.Fixed)
			}
		}
		modules[a.Package.Name] = append(modules[a.Package.Name], v)
	}
	return os.WriteFile(filepath.Join(to, "ID", r.ID+".json"), b, 0o644)
}

// last keeps the newest fix that a report names: events stand in order.
func last(now, before string) string {
	if now == "" {
		return before
	}
	return now
}

func writeIndex(modules map[string][]vuln, to string) error {
	rows := make([]module, 0, len(modules))
	for path, vulns := range modules {
		rows = append(rows, module{path, vulns})
	}
	sort.Slice(rows, func(i, j int) bool { return rows[i].Path < rows[j].Path })
	if err := write(filepath.Join(to, "index", "modules.json"), rows); err != nil {
		return err
	}
	return write(filepath.Join(to, "index", "db.json"), map[string]any{"modified": time.Time{}})
}

func write(name string, v any) error {
	b, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return os.WriteFile(name, b, 0o644)
}
