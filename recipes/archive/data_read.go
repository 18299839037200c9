package archive

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// The most that is read: of DataName, and of a photo or table beside it, bytes.
// A workbook of 1,000 recipes and 100,000 scores takes about 40 million.
const (
	mostData  = 512 << 20
	mostBlock = 512 << 20
)

// Read reads an archive's folder for workbook.SaveContents. It refuses what
// Files would not have written, an entry this program does not know in full and
// entries that do not fit together, with the file and line of the first fault.
// Every photo and table is held against its hash before anything is returned.
func Read(ctx context.Context, folder fs.FS) (workbook.Contents, error) {
	data, err := slurp(folder, DataName, mostData)
	if err != nil {
		return workbook.Contents{}, err
	}
	r := &reader{data: data, at: map[recipes.Entity]int64{}, seen: map[string]bool{}}
	if err := r.all(); err != nil {
		return workbook.Contents{}, err
	}
	c := workbook.Contents{Entities: r.entities, Notebook: r.notebook}
	names := map[string]string{}
	for _, f := range r.files {
		names[f.Hash] = f.Name
		c.Blocks = append(c.Blocks, workbook.BlockInfo{Hash: f.Hash, Kind: f.Kind})
	}
	c.Read = func(_ context.Context, hash string) ([]byte, error) { return readBlock(folder, names[hash], hash) }
	for _, b := range c.Blocks {
		if ctx.Err() != nil {
			return workbook.Contents{}, ctx.Err()
		}
		if _, err := c.Read(ctx, b.Hash); err != nil {
			return workbook.Contents{}, err
		}
	}
	return c, nil
}

// readBlock reads a photo or table and holds it against its hash.
func readBlock(folder fs.FS, name, hash string) ([]byte, error) {
	b, err := slurp(folder, name, mostBlock)
	if err != nil {
		return nil, err
	}
	if sum := sha256.Sum256(b); hex.EncodeToString(sum[:]) != hash {
		return nil, bad(nil, name, "archive.changed-file")
	}
	return b, nil
}

// slurp reads a file that is no longer than most.
func slurp(folder fs.FS, name string, most int64) ([]byte, error) {
	f, err := folder.Open(name)
	if err != nil {
		key := "archive.unreadable"
		if errors.Is(err, fs.ErrNotExist) {
			key = "archive.missing"
		}
		return nil, bad(err, name, key)
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, bad(err, name, "archive.unreadable")
	}
	if int64(len(b)) > most {
		return nil, bad(nil, name, "archive.long")
	}
	return b, nil
}

// reader reads DataName.
type reader struct {
	data     []byte
	dec      *json.Decoder
	at       map[recipes.Entity]int64 // where each entity begins
	seen     map[string]bool          // lists, and entities by kind and key
	entities []recipes.Entity
	notebook []recipes.HistoryEntry
	files    []blockFile
	seals    []sealAt
	form     int
	marked   bool
}

// fault is an error at an offset of DataName, told by its line.
func (r *reader) fault(err error, at int64, key string, args ...any) error {
	at = min(max(at, 0), int64(len(r.data)))
	line := 1 + bytes.Count(r.data[:at], []byte("\n"))
	return bad(err, words.Say("archive.place", DataName, line), key, args...)
}

// all reads the file, then holds its entries against each other.
func (r *reader) all() error {
	var whole json.RawMessage
	if err := json.Unmarshal(r.data, &whole); err != nil {
		var s *json.SyntaxError
		if errors.As(err, &s) {
			return r.fault(err, s.Offset-1, "archive.syntax")
		}
		return r.fault(err, 0, "archive.syntax")
	}
	r.dec = json.NewDecoder(bytes.NewReader(r.data))
	if t, err := r.dec.Token(); err != nil || t != json.Delim('{') {
		return r.fault(err, 0, "archive.not-one")
	}
	for r.dec.More() {
		if err := r.member(); err != nil {
			return err
		}
	}
	if !r.marked || r.form == 0 {
		return r.fault(nil, 0, "archive.not-one")
	}
	if err := r.unseal(); err != nil {
		return err
	}
	r.sort()
	return r.together()
}

// here is where the next value begins.
func (r *reader) here() int64 {
	at := r.dec.InputOffset()
	for at < int64(len(r.data)) && strings.IndexByte(" \t\r\n,:", r.data[at]) >= 0 {
		at++
	}
	return at
}

// member reads one name of the outermost object and what belongs to it.
func (r *reader) member() error {
	at := r.here()
	t, err := r.dec.Token()
	name, ok := t.(string)
	if err != nil || !ok {
		return r.fault(err, at, "archive.syntax")
	}
	if r.seen[name] {
		return r.fault(nil, at, "archive.twice", name)
	}
	r.seen[name] = true
	switch {
	case name == "parewell", name == "form", name == "people":
		return r.head(name)
	case !r.marked || r.form == 0:
		return r.fault(nil, at, "archive.not-one")
	case name == "notebook":
		return r.list(r.entry)
	case name == "sealed" && r.form == form:
		return r.list(r.seal)
	case name == "files":
		return r.list(r.file)
	case slices.Contains(kinds, recipes.Kind(name)):
		return r.list(func(at int64, raw json.RawMessage) error { return r.entity(recipes.Kind(name), at, raw) })
	}
	return r.fault(nil, at, "archive.unknown-list", name)
}

// head reads what the file says of itself.
func (r *reader) head(name string) error {
	at := r.here()
	var says string
	var people bool
	var err error
	switch name {
	case "parewell":
		err = r.dec.Decode(&says)
		r.marked = err == nil && says == mark
		if !r.marked {
			return r.fault(err, at, "archive.not-one")
		}
	case "form":
		if err = r.dec.Decode(&r.form); err != nil || r.form < 1 {
			return r.fault(err, at, "archive.not-one")
		}
		if r.form > form {
			return r.fault(nil, at, "archive.newer")
		}
	case "people":
		if err = r.dec.Decode(&people); err != nil {
			return r.fault(err, at, "archive.field", name)
		}
	}
	return nil
}

// list reads a list, an item at a time.
func (r *reader) list(item func(at int64, raw json.RawMessage) error) error {
	at := r.here()
	if t, err := r.dec.Token(); err != nil || t != json.Delim('[') {
		return r.fault(err, at, "archive.no-list")
	}
	for r.dec.More() {
		at := r.here()
		var raw json.RawMessage
		if err := r.dec.Decode(&raw); err != nil {
			return r.fault(err, at, "archive.syntax")
		}
		if err := item(at, raw); err != nil {
			return err
		}
	}
	_, err := r.dec.Token()
	return err
}

// strictly reads raw into v and refuses what v has no place for.
func (r *reader) strictly(at int64, raw json.RawMessage, v any) error {
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	err := d.Decode(v)
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kind):
		return r.fault(err, at+kind.Offset-1, "archive.field", kind.Field)
	case err != nil:
		return r.fault(err, at, "archive.unknown", strings.TrimPrefix(err.Error(), "json: "))
	case raw[0] != '{' || hollow(raw):
		return r.fault(nil, at, "archive.hollow")
	}
	return nil
}

// hollow tells whether a list in raw has a place with nothing in it, which no
// list of ours has.
func hollow(raw json.RawMessage) bool {
	d := json.NewDecoder(bytes.NewReader(raw))
	var open []json.Delim
	for {
		t, err := d.Token()
		if err != nil {
			return false
		}
		switch x := t.(type) {
		case json.Delim:
			if x == '[' || x == '{' {
				open = append(open, x)
			} else {
				open = open[:len(open)-1]
			}
		case nil:
			if open[len(open)-1] == '[' {
				return true
			}
		}
	}
}

// entity reads one entity of a kind.
func (r *reader) entity(k recipes.Kind, at int64, raw json.RawMessage) error {
	e, err := recipes.DecodeEntity(k, []byte("{}"))
	if err != nil {
		return r.fault(err, at, "archive.unknown-list", string(k))
	}
	if err := r.strictly(at, raw, e); err != nil {
		return err
	}
	name := string(k) + "/" + e.Key()
	switch {
	case strings.Trim(e.Key(), "/") == "":
		return r.fault(nil, at, "archive.nameless")
	case r.seen[name]:
		return r.fault(nil, at, "archive.twice", e.Key())
	}
	r.seen[name] = true
	r.at[e] = at
	r.entities = append(r.entities, e)
	return nil
}

// entry reads one entry of the notebook; they stand in the order they were made.
func (r *reader) entry(at int64, raw json.RawMessage) error {
	var e entry
	if err := r.strictly(at, raw, &e); err != nil {
		return err
	}
	when, err := time.Parse(time.RFC3339, e.At)
	last := int64(0)
	if n := len(r.notebook); n > 0 {
		last = r.notebook[n-1].Seq
	}
	known := []recipes.Origin{recipes.ByCook, recipes.ByPanelist, recipes.ByImport, recipes.ByOther}
	switch {
	case err != nil:
		return r.fault(err, at, "archive.field", "at")
	case e.Seq <= last:
		return r.fault(nil, at, "archive.field", "seq")
	case !slices.Contains(known, e.Origin):
		return r.fault(nil, at, "archive.field", "origin")
	}
	state := recipes.HistoryKept
	if e.Undone {
		state = recipes.HistoryUndone
	}
	r.notebook = append(r.notebook, recipes.HistoryEntry{Seq: e.Seq, At: when, Origin: e.Origin, State: state, Recipe: e.Recipe, Label: e.Label})
	return nil
}

// file reads the name of a photo or table. It may lead nowhere but to a file in
// the folder itself.
func (r *reader) file(at int64, raw json.RawMessage) error {
	var f blockFile
	if err := r.strictly(at, raw, &f); err != nil {
		return err
	}
	digest, err := hex.DecodeString(f.Hash)
	switch {
	case err != nil || len(digest) != sha256.Size || f.Hash != strings.ToLower(f.Hash):
		return r.fault(err, at, "archive.field", "hash")
	case !fs.ValidPath(f.Name) || f.Name != path.Base(f.Name) || f.Name == "." || strings.ContainsAny(f.Name, `\:`):
		return r.fault(nil, at, "archive.field", "name")
	case f.Kind != "photo" && f.Kind != "table":
		return r.fault(nil, at, "archive.field", "kind")
	case r.seen["block/"+f.Hash]:
		return r.fault(nil, at, "archive.twice", f.Name)
	}
	r.seen["block/"+f.Hash] = true
	r.files = append(r.files, f)
	return nil
}
