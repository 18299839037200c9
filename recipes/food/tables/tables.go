// Package tables reads published food tables as foods: the USDA standard
// reference in its relational and abbreviated layouts, and FoodData Central as
// a folder of CSV files. A row that cannot be read is named and left out; a
// table with more than a tenth of such rows is refused.
package tables

import (
	"context"
	"io/fs"
	"slices"

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
	all, err := ReadAll(ctx, []string{path}, o)
	if err != nil {
		return nil, err
	}
	return all[0], nil
}

// ReadAll reads the tables at several paths, all or none. Several files of one
// table count once. Release in o is for one table only.
func ReadAll(ctx context.Context, paths []string, o Options) ([]*Import, error) {
	var places []*place
	defer func() {
		for _, at := range places {
			at.close()
		}
	}()
	for _, path := range paths {
		at, err := locate(path)
		if err != nil {
			return nil, err
		}
		places = append(places, at)
	}
	apart := apart(places)
	if o.Release != "" && len(apart) > 1 {
		return nil, fault(nil, o.Release, "tables.one-release")
	}
	out := make([]*Import, len(apart))
	for i, at := range apart {
		var err error
		part := Options{Release: o.Release, Progress: ofSeveral(i, len(apart), o.Progress)}
		if out[i], err = at.read(ctx, part); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// apart leaves out places that are only another file of a table that is there,
// or the abbreviated file beside the whole one.
func apart(places []*place) []*place {
	whole := map[string]bool{}
	for _, at := range places {
		if at.layout == relational || at.layout == central {
			whole[at.folder] = true
		}
	}
	seen := map[string]bool{}
	var out []*place
	for _, at := range places {
		key := at.folder
		if !whole[key] {
			key += "/" + at.main
		}
		if !seen[key] {
			seen[key] = true
			out = append(out, at)
		}
	}
	for i, at := range out { // the whole table, whichever of its files came first
		if whole[at.folder] && at.layout != relational && at.layout != central {
			out[i] = places[slices.IndexFunc(places, func(p *place) bool {
				return p.folder == at.folder && (p.layout == relational || p.layout == central)
			})]
		}
	}
	return out
}

// parts is how finely the progress of several tables is told.
const parts = 1000

// ofSeveral makes one progress of those of several tables.
func ofSeveral(i, of int, progress func(done, total int)) func(done, total int) {
	if progress == nil || of == 1 {
		return progress
	}
	return func(done, total int) { progress(i*parts+done*parts/max(total, 1), of*parts) }
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
