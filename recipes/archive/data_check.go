package archive

import (
	"errors"
	"slices"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/workbook"
)

// sort has parents before children, whatever order the lists came in.
func (r *reader) sort() {
	slices.SortStableFunc(r.entities, func(a, b recipes.Entity) int {
		return slices.Index(kinds, a.Kind()) - slices.Index(kinds, b.Kind())
	})
}

// together holds the entries against each other.
func (r *reader) together() error {
	faults := workbook.Faults(r.entities)
	have := map[string]bool{}
	for _, f := range r.files {
		have[f.Hash] = f.Kind == "table"
	}
	for _, e := range r.entities {
		if err := faults[e]; err != nil {
			return r.fault(err, r.at[e], "archive.rule", said(err))
		}
		if x, is := e.(*recipes.Release); is && !have[x.Block] {
			return r.fault(nil, r.at[e], "archive.no-table", x.Name)
		}
		if lost := r.dangling(e); lost != "" {
			return r.fault(nil, r.at[e], "archive.dangling", lost)
		}
	}
	return nil
}

// dangling names what an entity refers to and the file has not; "" when all is
// there. The file's links (a workbook refuses a broken one).
func (r *reader) dangling(e recipes.Entity) string {
	type link struct {
		kind recipes.Kind
		id   recipes.ID
	}
	var links []link
	switch x := e.(type) {
	case *recipes.Swap:
		links = []link{{recipes.KindOfRecipe, x.Recipe}}
	case *recipes.Version:
		links = []link{{recipes.KindOfRecipe, x.Recipe}}
		for _, s := range x.Swaps {
			links = append(links, link{recipes.KindOfSwap, s})
		}
	case *recipes.Batch:
		links = []link{{recipes.KindOfRecipe, x.Recipe}, {recipes.KindOfVersion, x.Version}}
	case *recipes.Tasting:
		links = []link{{recipes.KindOfRecipe, x.Recipe}}
	case *recipes.Sample:
		links = []link{{recipes.KindOfTasting, x.Tasting}, {recipes.KindOfBatch, x.Batch}, {recipes.KindOfVersion, x.Version}}
	case *recipes.Serving:
		links = []link{{recipes.KindOfTasting, x.Tasting}, {recipes.KindOfSample, x.Sample}, {recipes.KindOfPanelist, x.Panelist}}
	}
	for _, l := range links {
		if l.id != "" && !r.seen[string(l.kind)+"/"+string(l.id)] {
			return string(l.kind) + " " + string(l.id)
		}
	}
	return ""
}

// said is what an error says, without the mend.
func said(err error) string {
	var p *problem.Error
	if errors.As(err, &p) {
		return p.What
	}
	return err.Error()
}
