package book

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
)

// seeded gives bytes from a seeded generator, so that IDs repeat run to run.
type seeded struct{ r *rand.Rand }

func (s seeded) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(s.r.UintN(256))
	}
	return len(p), nil
}

// harbour is the demo's Book, built once.
var harbour = sync.OnceValues(func() (*recipes.Book, error) {
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		return nil, err
	}
	table := food.NewTable(foods)
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		return nil, err
	}
	s := seeded{rand.New(rand.NewPCG(1, 2))}
	return demo.Book(func() recipes.ID { return recipes.NewID(s) }, table, c)
})

func mustHarbour(t *testing.T) *recipes.Book {
	t.Helper()
	b, err := harbour()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// pageOf is the page of a version of the demo's n-th recipe by its letter.
func pageOf(t *testing.T, recipe int, letter string, o Options) *Page {
	t.Helper()
	b := mustHarbour(t)
	r := b.Recipes()[recipe]
	id := recipes.ID("")
	for _, v := range b.Versions(r.ID) {
		if v.Letter == letter {
			id = v.ID
		}
	}
	p, err := PageOf(b, r.ID, id, o)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// look writes a file to the folder PAREWELL_LOOK names.
func look(t *testing.T, name string, data []byte) {
	t.Helper()
	if dir := os.Getenv("PAREWELL_LOOK"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
