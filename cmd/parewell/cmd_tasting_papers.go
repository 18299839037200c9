package main

import (
	"io"
	"maps"
	"slices"

	"parewell/analysis/nutrition"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/exchange"
)

// paperFiles are the files of a tasting's papers by name: for each size of paper a
// PDF for the kitchen and one for the tasters, each table for a spreadsheet, and
// the blank ballots that import takes back. What tells dishes apart is in a folder of
// its own, so that the folder of the others can be handed on.
func paperFiles(b *recipes.Book, t *recipes.Tasting) (map[string]func(io.Writer) error, error) {
	p, err := manuscript.PapersOf(b, t, nutrition.In(b), manuscript.PapersAsk{})
	if err != nil {
		return nil, err
	}
	files := map[string]func(io.Writer) error{
		"scores.csv": func(w io.Writer) error { return exchange.WriteBlankBallots(w, b, t) },
	}
	for _, paper := range []manuscript.Paper{manuscript.A4, manuscript.Letter} {
		pdfs, err := manuscript.Papers(p, paper)
		if err != nil {
			return nil, err
		}
		for _, f := range pdfs {
			files[folderOf(f.Reader == manuscript.ForKitchen)+"papers-"+string(f.Reader)+"-"+paper.Key+".pdf"] = func(w io.Writer) error {
				_, err := w.Write(f.PDF)
				return err
			}
		}
	}
	for _, table := range p.Tables() {
		files[folderOf(table.Part.Kitchen())+table.Name+".csv"] = table.WriteCSV
	}
	return files, nil
}

// folderOf is the folder of what only the kitchen may see, or of the rest.
func folderOf(kitchen bool) string {
	if kitchen {
		return manuscript.KitchenFolder
	}
	return ""
}

func sortedNames(files map[string]func(io.Writer) error) []string {
	return slices.Sorted(maps.Keys(files))
}
