package main

import (
	"bytes"
	"encoding/csv"
	"strings"
)

// encode writes the table as CSV; several aliases or measures in one cell are
// parted by a bar.
func encode(rows []row) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	head := []string{"code", "name", "published", "group", "core", "state", "density", "edible", "swells", "allergens", "aliases", "measures"}
	for _, c := range valueColumns {
		head = append(head, c.key)
	}
	if err := w.Write(head); err != nil {
		return nil, err
	}
	for _, r := range rows {
		core := ""
		if r.Core {
			core = "core"
		}
		line := []string{
			r.Code, r.Name, r.Published, r.Group, core, r.State, r.Density, r.Edible, r.Swells,
			r.Allergens, strings.Join(r.Aliases, "|"), strings.Join(r.Measures, "|"),
		}
		if err := w.Write(append(line, r.Values...)); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}
