package workbook

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
	"parewell/recipes/food"
)

var ctx = context.Background()

// noon is the clock of the tests, in a zone of its own.
var noon = time.Date(2026, 3, 4, 12, 0, 0, 0, time.FixedZone("", 3600))

// seeded is a source of ids and uuids that repeats.
type seeded struct{ *rand.ChaCha8 }

func newSeeded(seed uint64) seeded {
	var s [32]byte
	copy(s[:], fmt.Sprintf("%032d", seed))
	return seeded{rand.NewChaCha8(s)}
}

func testOptions() Options {
	return Options{Now: func() time.Time { return noon }, Patience: 2 * time.Second}
}

func mustCreate(tb testing.TB) *File {
	tb.Helper()
	f, err := Create(filepath.Join(tb.TempDir(), "harbour supper #1 50%?.parewell"), testOptions())
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { f.Close() })
	return f
}

func mustOpen(tb testing.TB, path string) *File {
	tb.Helper()
	f, err := Open(path, testOptions())
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { f.Close() })
	return f
}

func mustApply(tb testing.TB, f *File, v recipes.Verb) Applied {
	tb.Helper()
	a, err := f.Apply(ctx, v, recipes.ByCook)
	if err != nil {
		tb.Fatal(err)
	}
	return a
}

// content is a Book as bytes, for comparing.
func content(tb testing.TB, b *recipes.Book) string {
	tb.Helper()
	var out bytes.Buffer
	for _, e := range b.Entities() {
		body, err := recipes.EncodeEntity(e)
		if err != nil {
			tb.Fatal(err)
		}
		fmt.Fprintf(&out, "%s %s\n", e.Kind(), body)
	}
	return out.String()
}

// onDisk is the content of the file as another program reads it.
func onDisk(tb testing.TB, path string) string {
	tb.Helper()
	f, err := Open(path, Options{ReadOnly: true})
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	return content(tb, f.Book())
}

// wantSound fails unless the file passes every check.
func wantSound(tb testing.TB, f *File) {
	tb.Helper()
	found, err := f.Check(ctx)
	if err != nil {
		tb.Fatal(err)
	}
	for _, p := range found {
		tb.Errorf("check: %v", p)
	}
}

var (
	cream  = &food.Food{Ref: food.Ref{Source: "own", Code: "cream"}, Name: "double cream", Allergens: food.Allergens{Recorded: true, Contains: food.Milk}}
	yogurt = &food.Food{Ref: food.Ref{Source: "own", Code: "yogurt"}, Name: "strained yogurt"}
	butter = &food.Food{Ref: food.Ref{Source: "own", Code: "butter"}, Name: "butter"}
)

func line(id recipes.ID, text string, f *food.Food, grams float64) *recipes.Line {
	return &recipes.Line{ID: id, Text: text, Name: f.Name, Food: f.Ref, Grams: grams, GramsFrom: recipes.GramsWeight, PartEaten: 1}
}

// gratin is a small recipe with two lines and two steps.
func gratin(id recipes.ID) *recipes.Recipe {
	return &recipes.Recipe{
		ID: id, Title: "Leek & haddock <gratin>", Servings: 6, ServingsFrom: recipes.ServingsStated,
		Lines: []*recipes.Line{
			line(id+".cream", "300 ml double cream", cream, 300),
			line(id+".butter", "60 g butter", butter, 60),
		},
		Steps: []*recipes.Step{{ID: id + ".1", Text: "Melt the butter."}, {ID: id + ".2", Text: "Pour over the cream."}},
	}
}

func addGratin(id recipes.ID) recipes.Verb {
	return recipes.AddRecipe(gratin(id), []*food.Food{cream, butter})
}

// yogurtSwap takes strained yogurt for a share of the cream.
func yogurtSwap(id, recipe recipes.ID, share float64) *recipes.Swap {
	return &recipes.Swap{ID: id, Recipe: recipe, Name: "yogurt for cream", Ops: []recipes.Op{{
		Kind: recipes.OpExchange, Line: recipe + ".cream", Share: share, Lines: []*recipes.Line{line("", "150 g strained yogurt", yogurt, 150)},
	}}}
}

// lessButter multiplies the butter.
func lessButter(id, recipe recipes.ID, factor float64) *recipes.Swap {
	return &recipes.Swap{ID: id, Recipe: recipe, Name: "less butter", Ops: []recipes.Op{{
		Kind: recipes.OpMultiply, Line: recipe + ".butter", Factor: factor,
	}}}
}

// tasted are a tasting of the recipe with its pots, samples and scores, as
// one final change of the panel's.
func tasted(recipe, version recipes.ID) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		id := recipe + ".t"
		es := []recipes.Entity{
			&recipes.Panelist{ID: recipe + ".p", Code: "AM"},
			&recipes.Batch{ID: recipe + ".b", Recipe: recipe, Version: version, Number: 1, Date: "2026-03-04"},
			&recipes.Tasting{ID: id, Recipe: recipe, Edition: 1, Date: "2026-03-04", Test: "liking", State: recipes.TastingServing},
			&recipes.Sample{ID: id + ".s", Tasting: id, Batch: recipe + ".b", Version: version, Code: "482"},
			&recipes.Serving{
				ID: id + ".1", Tasting: id, Sample: id + ".s", Panelist: recipe + ".p", Source: "paper",
				Scores: map[string]float64{"liking": 7, "texture": 6.5},
			},
		}
		c := recipes.Change{Recipe: recipe, Final: true}
		c.Label.Key = "did.nothing"
		for _, e := range es {
			c.Edits = append(c.Edits, recipes.Edit{After: e})
		}
		return c, nil
	}
}

// raw runs SQL on the file behind the program's back.
func raw(tb testing.TB, path string, statements ...string) {
	tb.Helper()
	db, err := sqlx.Open("sqlite3", dsn(path, "rw"))
	if err != nil {
		tb.Fatal(err)
	}
	defer db.Close()
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			tb.Fatalf("%s: %v", s, err)
		}
	}
}

// pragma reads one setting of the connection as text.
func pragma(ctx context.Context, c *sqlx.Conn, name string) (string, error) {
	var s string
	err := c.GetContext(ctx, &s, "PRAGMA "+name)
	return s, err
}
