package main

import (
	"io"
	"sync"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
)

// readRecipes reads the recipes of a file, of whatever form it is in; "-" is
// standard input.
func readRecipes(name string, in io.Reader, opt reading.Options) ([]*reading.Draft, error) {
	b, err := readSource(name, in)
	if err != nil {
		return nil, err
	}
	opt.Where = placeName(name)
	return reading.Read(b, name, opt)
}

// starterFoods are the foods that come with the program, read once.
var starterFoods = sync.OnceValues(func() ([]*food.Food, error) { return food.ReadStarter(assets.Foods) })

// foodTable is the foods that come with the program and those a Book has
// beside them; the Book may be nil.
func foodTable(b *recipes.Book) (*food.Table, error) {
	starter, err := starterFoods()
	if err != nil {
		return nil, err
	}
	all := append([]*food.Food(nil), starter...)
	if b == nil {
		return food.NewTable(all), nil
	}
	known := make(map[food.Ref]bool, len(starter))
	for _, f := range starter {
		known[f.Ref] = true
	}
	for _, f := range b.Foods() {
		if !known[f.Ref] {
			all = append(all, f)
		}
	}
	return food.NewTable(all), nil
}
