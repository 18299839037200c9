package main

import (
	"crypto/rand"
	"fmt"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// runDemo writes the demo workbook to a file that is not there yet.
func runDemo(c *call) (int, error) {
	g, err := parse(c.args, nil)
	if err != nil {
		return exitBad, err
	}
	if err := oneFile(c, g); err != nil {
		return exitBad, err
	}
	name := g.operands[0]
	b, err := demoBook()
	if err != nil {
		return exitBad, err
	}
	if err := workbook.SaveBook(name, b, workbook.Options{}); err != nil {
		return exitBad, named(name, err)
	}
	_, err = fmt.Fprintln(c.out, words.Say("cmd.demo.did", name))
	return exitWell, err
}

// demoBook is the demo with IDs of its own.
func demoBook() (*recipes.Book, error) {
	table, err := foodTable(nil)
	if err != nil {
		return nil, err
	}
	catalogue, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		return nil, err
	}
	return demo.Book(func() recipes.ID { return recipes.NewID(rand.Reader) }, table, catalogue)
}
