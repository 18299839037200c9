package desk

import (
	"sync"

	"parewell/assets"
	"parewell/recipes/ideas"
)

// catalogue is the program's own list of swap ideas: one for all desks, because
// it never changes while the program runs.
var catalogue struct {
	mu   sync.Mutex
	read *ideas.Catalogue
}

// Ideas returns the catalogue of swap ideas. The first call reads it, and the
// starter foods if nothing needed them before: make it off the window's thread.
func (d *Desk) Ideas() (*ideas.Catalogue, error) {
	catalogue.mu.Lock()
	defer catalogue.mu.Unlock()
	if catalogue.read != nil {
		return catalogue.read, nil
	}
	table, err := d.Foods()
	if err != nil {
		return nil, err
	}
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		return nil, err
	}
	catalogue.read = c
	return c, nil
}
