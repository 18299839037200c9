package food_test

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"parewell/assets"
	"parewell/recipes/food"
)

// TestTypedScript holds the script to its size: 200 queries, some mistyped.
func TestTypedScript(t *testing.T) {
	queries := typedQueries(t)
	slips := 0
	for _, q := range queries {
		if q.Slip {
			slips++
		}
	}
	if len(queries) != 200 || slips < 40 {
		t.Errorf("%d queries with %d slips, want 200 with at least 40", len(queries), slips)
	}
}

// keystrokes are the queries of the script letter by letter, in the order a
// person types them.
func keystrokes(queries []typedQuery, slips bool) []string {
	var out []string
	for _, q := range queries {
		if q.Slip && !slips {
			continue
		}
		for i := 1; i <= len(q.Text); i++ {
			out = append(out, q.Text[:i])
		}
	}
	return out
}

// BenchmarkSearch8790 types 200 queries letter by letter into the whole of
// USDA SR28. One op is the whole script; the figures of one keystroke are
// p50-ns/key and p99-ns/key. Budget: p99 under 1 ms.
func BenchmarkSearch8790(b *testing.B) {
	table := food.NewTable(sr28(b))
	keys := keystrokes(typedQueries(b), true)
	benchKeys(b, keys, func(q string) int { return len(table.Search(q, 20)) })
}

// BenchmarkSearch8790NoSlips is the script the database benchmark in
// testdata/floors/fts runs too, with its slips left out.
func BenchmarkSearch8790NoSlips(b *testing.B) {
	table := food.NewTable(sr28(b))
	keys := keystrokes(typedQueries(b), false)
	benchKeys(b, keys, func(q string) int { return len(table.Search(q, 20)) })
}

func benchKeys(b *testing.B, keys []string, search func(string) int) {
	took := make([]time.Duration, 0, len(keys)*16)
	found := 0
	b.ReportAllocs()
	for b.Loop() {
		for _, q := range keys {
			start := time.Now()
			found += search(q)
			took = append(took, time.Since(start))
		}
	}
	if found == 0 {
		b.Fatal("nothing found")
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Nanoseconds()), "p50-ns/key")
	b.ReportMetric(float64(took[len(took)*99/100].Nanoseconds()), "p99-ns/key")
	b.ReportMetric(float64(len(keys)), "keys/op")
}

// BenchmarkReadStarter reads the embedded foods. Budget: under 15 ms.
func BenchmarkReadStarter(b *testing.B) {
	for b.Loop() {
		if _, err := food.ReadStarter(assets.Foods); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkNewTable indexes the starter foods; it stands between start and the
// first search.
func BenchmarkNewTable(b *testing.B) {
	foods := starter(b)
	for b.Loop() {
		food.NewTable(foods)
	}
}

// BenchmarkNewTable8790 indexes all of SR28, as after an import.
func BenchmarkNewTable8790(b *testing.B) {
	foods := sr28(b)
	for b.Loop() {
		food.NewTable(foods)
	}
}

// BenchmarkMatch matches the ingredient names of the tests.
func BenchmarkMatch(b *testing.B) {
	table := food.NewTable(starter(b))
	r := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		table.Match(matchRows[r.IntN(len(matchRows))].name)
	}
}
