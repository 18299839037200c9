package workbook

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
)

// size says how large a made workbook is.
type size struct{ recipes, versions, swaps, lines, servings, attributes int }

// large is the workbook of the budget (DESIGN, section 13): 1,000 recipes,
// 10,000 versions, 100,000 scores.
var large = size{recipes: 1000, versions: 10, swaps: 6, lines: 12, servings: 25, attributes: 4}

// made makes a Book of a size, the same for the same seed.
func made(n size, seed uint64) *recipes.Book {
	m := &maker{size: n, rnd: rand.New(rand.NewPCG(seed, 1)), ids: newSeeded(seed)}
	for i := range 400 {
		f := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: fmt.Sprintf("%05d", i)}, Name: fmt.Sprintf("food %d, raw", i), Group: "dairy"}
		for k := range food.NutrientCount {
			f.Per100.Set(k, float64(m.rnd.IntN(5000))/100)
		}
		f.Measures = []food.Measure{{Unit: "cup", Grams: 240}, {Unit: "tbsp", Grams: 15}}
		m.foods = append(m.foods, f)
		m.add(&recipes.PinnedFood{Food: *f})
	}
	for i := range 30 {
		m.people = append(m.people, m.id())
		m.add(&recipes.Panelist{ID: m.people[i], Code: fmt.Sprintf("T%02d", i)})
	}
	for i := range n.recipes {
		m.recipe(i)
	}
	return recipes.NewBook(m.out)
}

type maker struct {
	size
	rnd    *rand.Rand
	ids    seeded
	foods  []*food.Food
	people []recipes.ID
	out    []recipes.Entity
}

func (m *maker) add(e recipes.Entity) { m.out = append(m.out, e) }
func (m *maker) id() recipes.ID       { return recipes.NewID(m.ids) }

func (m *maker) line() *recipes.Line {
	f := m.foods[m.rnd.IntN(len(m.foods))]
	g := float64(m.rnd.IntN(4000)) / 10
	return &recipes.Line{
		ID: m.id(), Text: fmt.Sprintf("%.1f g %s, finely chopped", g, f.Name), Name: f.Name, Prep: "finely chopped",
		Amount: g, Unit: "g", Grams: g, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1,
	}
}

func (m *maker) recipe(i int) {
	r := &recipes.Recipe{ID: m.id(), Title: fmt.Sprintf("Supper dish no. %d", i), Edition: 1, Servings: 6, ServingsFrom: recipes.ServingsStated, Order: float64(i)}
	for range m.lines {
		r.Lines = append(r.Lines, m.line())
	}
	for range 5 {
		r.Steps = append(r.Steps, &recipes.Step{ID: m.id(), Text: "Stir over a low heat until it thickens, then take it off and let it stand for ten minutes under a lid."})
	}
	m.add(r)
	var swaps []recipes.ID
	for k := range m.swaps {
		s := &recipes.Swap{ID: m.id(), Recipe: r.ID, Name: fmt.Sprintf("swap %d", k), Order: float64(k), Ops: []recipes.Op{
			{Kind: recipes.OpExchange, Line: r.Lines[k].ID, Share: 0.5, Lines: []*recipes.Line{m.line()}},
			{Kind: recipes.OpMultiply, Line: r.Lines[(k+1)%len(r.Lines)].ID, Factor: 0.5},
		}}
		swaps = append(swaps, s.ID)
		m.add(s)
	}
	tasting := &recipes.Tasting{ID: m.id(), Recipe: r.ID, Edition: 1, Date: "2026-03-04", Test: "liking", State: recipes.TastingClosed}
	m.add(tasting)
	var samples []recipes.ID
	for k := range m.versions {
		v := &recipes.Version{ID: m.id(), Recipe: r.ID, Letter: string(rune('A' + k)), Order: float64(k + 1)}
		for _, s := range swaps {
			if m.rnd.IntN(2) == 0 {
				v.Swaps = append(v.Swaps, s)
			}
		}
		m.add(v)
		s := &recipes.Sample{ID: m.id(), Tasting: tasting.ID, Version: v.ID, Code: fmt.Sprint(100 + k)}
		samples = append(samples, s.ID)
		m.add(s)
	}
	for k := range m.servings {
		s := &recipes.Serving{
			ID: m.id(), Tasting: tasting.ID, Sample: samples[k%len(samples)], Panelist: m.people[k%len(m.people)],
			Source: "phone", Position: 1, Scores: map[string]float64{},
		}
		for a := range m.attributes {
			s.Scores[fmt.Sprintf("attribute %d", a)] = float64(1 + m.rnd.IntN(9))
		}
		m.add(s)
	}
}

func mustSave(tb testing.TB, b *recipes.Book) string {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), "large.parewell")
	if err := SaveBook(path, b, testOptions()); err != nil {
		tb.Fatal(err)
	}
	return path
}

func TestALargeWorkbookComesBackTheSame(t *testing.T) {
	n := large
	n.recipes = 60
	b := made(n, 1)
	path := mustSave(t, b)
	if onDisk(t, path) != content(t, b) {
		t.Error("not the same")
	}
	wantSound(t, mustOpen(t, path))
}

// BenchmarkOpenLarge has a budget of 300 ms.
func BenchmarkOpenLarge(b *testing.B) {
	path := mustSave(b, made(large, 1))
	b.ResetTimer()
	for range b.N {
		f, err := Open(path, Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		f.Close()
		b.StartTimer()
	}
}

// BenchmarkApply is one edit of the large workbook until it is on disk; its
// part before the commit, which has a budget of 50 ms, is reported beside it.
func BenchmarkApply(b *testing.B) {
	f, err := Open(mustSave(b, made(large, 1)), Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	ids := f.Book().Recipes()
	b.ResetTimer()
	for i := range b.N {
		if _, err := f.Apply(ctx, recipes.SetServings(ids[i%len(ids)].ID, float64(2+i%7)), recipes.ByCook); err != nil {
			b.Fatal(err)
		}
	}
	b.StopTimer()
	b.ReportMetric(float64(beforeCommit(b, f))/1e3, "µs-before-commit/op")
}

// beforeCommit is the time of one edit up to its commit, on average.
func beforeCommit(b *testing.B, f *File) time.Duration {
	ids := f.Book().Recipes()
	const edits = 200
	start := time.Now()
	for i := range edits {
		t := &turn{ctx: ctx, conn: f.conn, file: f, state: *f.now.Load()}
		if _, err := f.conn.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
			b.Fatal(err)
		}
		c, err := recipes.SetServings(ids[i].ID, float64(10+i))(t.book)
		if err == nil {
			err = t.catchUp()
		}
		if err == nil {
			err = t.do(c, recipes.ByCook)
		}
		if err == nil {
			err = t.readEnds(ctx, f.conn)
		}
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.conn.ExecContext(ctx, "ROLLBACK"); err != nil {
			b.Fatal(err)
		}
	}
	return time.Since(start) / edits
}

// BenchmarkCheckLarge is the whole check, made beside the window's work.
func BenchmarkCheckLarge(b *testing.B) {
	f := mustOpen(b, mustSave(b, made(large, 1)))
	b.ResetTimer()
	for range b.N {
		wantSound(b, f)
	}
}

// BenchmarkCopyLarge is "save a copy" of the large workbook.
func BenchmarkCopyLarge(b *testing.B) {
	f := mustOpen(b, mustSave(b, made(large, 1)))
	to := filepath.Join(b.TempDir(), "copy.parewell")
	b.ResetTimer()
	for range b.N {
		if err := f.CopyTo(ctx, to); err != nil {
			b.Fatal(err)
		}
	}
}
