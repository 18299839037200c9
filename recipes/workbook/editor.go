package workbook

import (
	"context"
	"crypto/rand"
	"os"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// EditorCopyTo writes the workbook for somebody else to read: the Book without
// what is private (recipes.ForEditor), the blocks it refers to, and an empty
// notebook, under a uuid of its own. What stood at path is replaced once the copy
// is complete.
func (f *File) EditorCopyTo(ctx context.Context, path string) error {
	if err := f.mayCopyTo(path); err != nil {
		return err
	}
	temp, err := passing(path, rand.Reader)
	if err != nil {
		return explain(path, err)
	}
	os.Remove(temp)
	defer os.Remove(temp)
	entities := recipes.ForEditor(f.Book())
	blocks := f.referred(ctx, entities)
	copied, err := createWith(temp, f.opts, func(ctx context.Context, c *sqlx.Conn) error {
		if err := putBlocks(ctx, c, blocks); err != nil {
			return err
		}
		return putAll(ctx, c, withBlocks(entities, blocks))
	})
	if err != nil {
		return explainAt(path, err)
	}
	if err := copied.Close(); err != nil {
		return explain(path, err)
	}
	return explain(path, place(temp, path))
}

// referred reads the blocks that entities refer to. One that is gone or damaged
// is left behind: the copy is to be read, and says so where it is missing.
func (f *File) referred(ctx context.Context, entities []recipes.Entity) []Block {
	var out []Block
	take := func(hash, kind string) {
		if b, err := f.Block(ctx, hash); err == nil {
			out = append(out, Block{Hash: hash, Kind: kind, Bytes: b})
		}
	}
	for _, e := range entities {
		switch x := e.(type) {
		case *recipes.Batch:
			for _, hash := range x.Photos {
				take(hash, photoKind)
			}
		case *recipes.Release:
			take(x.Block, tableKind)
		}
	}
	return out
}

// photoKind is the Kind of a photo's block.
const photoKind = "photo"
