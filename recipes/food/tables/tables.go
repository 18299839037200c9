// Package tables reads published food tables as foods: the USDA standard
// reference in its relational and abbreviated layouts, and FoodData Central as
// a folder of CSV files. A row that cannot be read is named and left out; a
// table with more than a tenth of such rows is refused.
package tables

import (
	"context"
	"io/fs"

	"parewell/recipes/food"
	"parewell/recipes/problem"
)

// Options are what a reading takes beside the table. The zero Options are ready.
type Options struct {
	Release  string                // what the release is called; "": what the table itself tells
	Progress func(done, total int) // bytes read of those there are; nil for none
}

// Import is a table as it was read.
type Import struct {
	Source  string // "usda" or "fdc", of every food's Ref
	Release string // "sr28", of every food's Ref
	Name    string // as a person says it
	Digest  string // SHA-256 of the bytes read, hex: the same files have the same
	Foods   []*food.Food
	Bad     []*problem.Error // rows left out with file and line, at most MostBad
	Count   Count
}

// Count is how many rows there were, in all files together.
type Count struct {
	Rows int // read, bad ones included
	Bad  int // left out
	Left int // foods left out whole because they are of a sort no cook uses
}

// MostBad is how many bad rows are kept by name; all are counted.
const MostBad = 1000

// layout is one of the forms a published table comes in.
type layout int

const (
	relational layout = iota + 1
	abbreviatedText
	abbreviatedCSV
	central
)

// Read reads the table at path: a file, a folder or a zip file of a folder.
// Errors are *problem.Error; ctx ends the reading with ctx.Err().
func Read(ctx context.Context, path string, o Options) (*Import, error) {
	at, err := locate(path)
	if err != nil {
		return nil, err
	}
	defer at.close()
	return at.read(ctx, o)
}

// ReadFS reads the table called name in fsys; "." is fsys itself as a folder.
func ReadFS(ctx context.Context, fsys fs.FS, name string, o Options) (*Import, error) {
	at, err := locateIn(fsys, name, name)
	if err != nil {
		return nil, err
	}
	return at.read(ctx, o)
}

// read reads what was found.
func (at *place) read(ctx context.Context, o Options) (*Import, error) {
	w := &work{ctx: ctx, place: at, progress: o.Progress}
	if err := w.measure(); err != nil {
		return nil, err
	}
	var err error
	switch at.layout {
	case relational:
		err = w.readRelational()
	case abbreviatedText, abbreviatedCSV:
		err = w.readAbbreviated()
	case central:
		err = w.readCentral()
	}
	if err != nil {
		return nil, err
	}
	return w.finish(o)
}
