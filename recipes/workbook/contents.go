package workbook

import (
	"context"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"time"

	"github.com/jmoiron/sqlx"
	sqlite3 "github.com/mattn/go-sqlite3"

	"parewell/recipes"
)

// Contents is all that can leave a workbook and come into another one: its
// entities, the notebook by label and the blocks that entities refer to. What
// undo needs stays behind. Contents are a value; nothing in them changes.
type Contents struct {
	Entities []recipes.Entity       // parents before children, in the Book's order
	Notebook []recipes.HistoryEntry // oldest first
	Blocks   []BlockInfo            // photos and tables that entities refer to, by hash, each once
	Lost     []string               // hashes that are referred to and cannot be read, in order
	// Read gives the bytes of one of Blocks.
	Read func(ctx context.Context, hash string) ([]byte, error)
}

// BlockInfo names a Block without its bytes.
type BlockInfo struct {
	Hash string
	Kind string // "table", "photo"
}

// Contents returns what the workbook holds. Without people it leaves out what
// recipes.ForEditor does. A table whose foods cannot be read is left out, as it
// is better imported again; a photo that cannot be read is named in Lost.
func (f *File) Contents(ctx context.Context, people bool) (Contents, error) {
	c := Contents{Entities: f.Book().Entities(), Read: f.Block}
	if !people {
		c.Entities = recipes.ForEditor(f.Book())
	}
	var err error
	if c.Notebook, err = f.History(ctx, "", 0); err != nil {
		return Contents{}, err
	}
	seen := map[string]bool{}
	var there []Block
	for _, b := range referredTo(c.Entities) {
		if seen[b.Hash] {
			continue
		}
		seen[b.Hash] = true
		if _, err := f.Block(ctx, b.Hash); err != nil {
			c.Lost = append(c.Lost, b.Hash)
			continue
		}
		c.Blocks = append(c.Blocks, b)
		there = append(there, Block{Hash: b.Hash})
	}
	slices.SortFunc(c.Blocks, func(a, b BlockInfo) int { return strings.Compare(a.Hash, b.Hash) })
	slices.Sort(c.Lost)
	c.Entities = withBlocks(c.Entities, there)
	return c, nil
}

// referredTo lists the blocks that entities refer to, as often as they do.
func referredTo(entities []recipes.Entity) []BlockInfo {
	var out []BlockInfo
	for _, e := range entities {
		switch x := e.(type) {
		case *recipes.Batch:
			for _, hash := range x.Photos {
				out = append(out, BlockInfo{hash, photoKind})
			}
		case *recipes.Release:
			out = append(out, BlockInfo{x.Block, tableKind})
		}
	}
	return out
}

// SaveContents writes contents as a new workbook at path, which must be free,
// under a uuid of its own. The entities must pass Faults. The notebook comes in
// by label: nothing in it can be undone. All of it is there or nothing.
func SaveContents(ctx context.Context, path string, c Contents, o Options) error {
	f, err := createWith(path, o, func(_ context.Context, conn *sqlx.Conn) error {
		for _, b := range c.Blocks {
			bytes, err := c.Read(ctx, b.Hash)
			if err == nil {
				err = putBlocks(ctx, conn, []Block{{Hash: b.Hash, Kind: b.Kind, Bytes: bytes}})
			}
			if err != nil {
				return err
			}
		}
		if err := putAll(ctx, conn, c.Entities); err != nil {
			return unfit(path, err)
		}
		rows, err := notebookRows(c.Notebook)
		if err != nil {
			return err
		}
		return putNotebook(ctx, conn, rows)
	})
	if err != nil {
		return unfit(path, err)
	}
	return f.Close()
}

// unfit says of entities that the file's own rules refuse that they do not fit
// together; other errors pass.
func unfit(path string, err error) error {
	var s sqlite3.Error
	if errors.As(err, &s) && s.Code == sqlite3.ErrConstraint {
		return say(err, path, "workbook.unfit", s.Error())
	}
	return err
}

// notebookRows turns entries back into rows.
func notebookRows(entries []recipes.HistoryEntry) ([]entryRow, error) {
	rows := make([]entryRow, len(entries))
	for i, e := range entries {
		label, err := json.Marshal(e.Label)
		if err != nil {
			return nil, err
		}
		rows[i] = entryRow{Seq: e.Seq, At: e.At.Format(time.RFC3339), Origin: e.Origin, State: e.State, Label: string(label)}
		if e.Recipe != "" {
			id := string(e.Recipe)
			rows[i].Recipe = &id
		}
	}
	return rows, nil
}
