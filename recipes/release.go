package recipes

import (
	"sort"
	"time"

	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Release is a published food table that was imported into the workbook. Its
// foods are in a block of their own; the rows that lines use are pinned beside,
// so that taking a Release away changes no number.
type Release struct {
	Source   string    `json:"source"`  // of its foods' Refs: "usda", "fdc"
	Release  string    `json:"release"` // of its foods' Refs: "sr28"
	Name     string    `json:"name"`    // as a person says it
	Foods    int       `json:"foods"`   // how many it has
	Block    string    `json:"block"`   // hash of the block with its foods
	Digest   string    `json:"digest"`  // SHA-256 of the published files, hex
	Content  string    `json:"content"` // SHA-256 of the foods as they are kept, uncompressed, hex
	Imported time.Time `json:"imported"`
}

// Kind of a release.
func (r *Release) Kind() Kind { return KindOfRelease }

// Key of a release.
func (r *Release) Key() string { return r.Source + "/" + r.Release }
func (r *Release) entity()     {}

// Of gives the Ref a food of the number has in this release.
func (r *Release) Of(code string) food.Ref {
	return food.Ref{Source: r.Source, Release: r.Release, Code: code}
}

// Same tells whether two releases hold the same table: made of the same files,
// or of others with the same foods in them. A nil one is the same as none.
func (r *Release) Same(o *Release) bool {
	return r != nil && o != nil && r.Key() == o.Key() && (r.Digest == o.Digest || r.Content == o.Content)
}

// Release returns the imported table of a source and release, nil if it is not
// in the Book.
func (b *Book) Release(source, release string) *Release { return b.releases[source+"/"+release] }

// Releases returns all imported tables, the newest import first.
func (b *Book) Releases() []*Release {
	out := make([]*Release, 0, len(b.releases))
	for _, r := range b.releases {
		out = append(out, r)
	}
	sort.Slice(out, func(i, j int) bool {
		if !out[i].Imported.Equal(out[j].Imported) {
			return out[i].Imported.After(out[j].Imported)
		}
		return out[i].Key() < out[j].Key()
	})
	return out
}

// ImportRelease takes a published table into the Book. The same table again
// changes nothing; another one under a name that is taken is refused, because
// lines and readers rely on a release meaning one thing for ever.
func ImportRelease(r *Release) Verb {
	return func(b *Book) (Change, error) {
		old := b.Release(r.Source, r.Release)
		switch {
		case old == nil:
			e := newEdits(b, "", "did.import-table", r.Foods, r.Name)
			e.put(r)
			return e.done()
		case old.Same(r):
			return Change{}, nil
		}
		return Change{}, problem.New(r.Name, words.Say("error.other-release", r.Release), words.Say("error.other-release.hint"))
	}
}

// RemoveRelease takes an imported table off the search. Lines keep the rows they
// use.
func RemoveRelease(source, release string) Verb {
	return func(b *Book) (Change, error) {
		r := b.Release(source, release)
		if r == nil {
			return Change{}, gone("error.release-gone")
		}
		e := newEdits(b, "", "did.remove-table", r.Name)
		e.drop(r)
		return e.done()
	}
}
