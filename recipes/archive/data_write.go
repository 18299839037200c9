package archive

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// What DataName says of itself. form rises when an older reader could not read
// what is written any more: 2 has a list of what is sealed.
const (
	mark     = "workbook data"
	formOpen = 1
	form     = 2
)

// entry is an entry of the notebook: what was done, as a key with its arguments,
// so that it can be said in another language.
type entry struct {
	Seq    int64          `json:"seq"`
	At     string         `json:"at"` // RFC 3339 with offset
	Origin recipes.Origin `json:"origin"`
	Recipe recipes.ID     `json:"recipe,omitempty"`
	Label  words.Phrase   `json:"label"`
	Undone bool           `json:"undone,omitempty"`
}

func entryOf(e recipes.HistoryEntry) entry {
	return entry{
		Seq: e.Seq, At: e.At.Format(time.RFC3339), Origin: e.Origin, Recipe: e.Recipe, Label: e.Label,
		Undone: e.State == recipes.HistoryUndone,
	}
}

// writeData writes everything as one JSON object, an entity a line, what is sealed
// in a list of its own.
func writeData(w io.Writer, c workbook.Contents, blocks []blockFile, people bool) error {
	entities, seals := sealed(c.Entities)
	out := &dataWriter{w: bufio.NewWriter(w)}
	least := formOpen
	if len(seals) > 0 {
		least = form
	}
	out.printf("{\n\"parewell\": %q,\n\"form\": %d,\n\"people\": %t", mark, least, people)
	for _, k := range kinds {
		out.begin(string(k))
		for _, e := range entities {
			if e.Kind() == k {
				body, err := recipes.EncodeEntity(e)
				out.item(body, err)
			}
		}
		out.end()
	}
	if len(seals) > 0 {
		out.begin("sealed")
		for _, s := range seals {
			body, err := json.Marshal(s)
			out.item(body, err)
		}
		out.end()
	}
	out.begin("notebook")
	for _, e := range c.Notebook {
		body, err := json.Marshal(entryOf(e))
		out.item(body, err)
	}
	out.end()
	out.begin("files")
	for _, b := range blocks {
		body, err := json.Marshal(b)
		out.item(body, err)
	}
	out.end()
	out.printf("\n}\n")
	if out.err != nil {
		return out.err
	}
	return out.w.Flush()
}

// dataWriter writes lists of one item a line and keeps the first error.
type dataWriter struct {
	w     *bufio.Writer
	err   error
	items int
}

func (d *dataWriter) printf(format string, args ...any) {
	if d.err == nil {
		_, d.err = fmt.Fprintf(d.w, format, args...)
	}
}

func (d *dataWriter) begin(name string) {
	d.items = 0
	d.printf(",\n%q: [", name)
}

func (d *dataWriter) item(body []byte, err error) {
	if d.err == nil {
		d.err = err
	}
	comma := ","
	if d.items == 0 {
		comma = ""
	}
	d.items++
	d.printf("%s\n%s", comma, body)
}

func (d *dataWriter) end() { d.printf("]") }
