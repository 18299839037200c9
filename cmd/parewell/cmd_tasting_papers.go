package main

import (
	"io"
	"maps"
	"slices"

	"parewell/recipes"
	"parewell/recipes/exchange"
)

// paperFiles are the files of a tasting's papers by name.
func paperFiles(b *recipes.Book, t *recipes.Tasting) (map[string]func(io.Writer) error, error) {
	return map[string]func(io.Writer) error{
		"ballots.csv": func(w io.Writer) error { return exchange.WriteBlankBallots(w, b, t) },
	}, nil
}

func sortedNames(files map[string]func(io.Writer) error) []string {
	return slices.Sorted(maps.Keys(files))
}
