//go:build soak

package sheets_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/ui/desk"
	"parewell/ui/sheets"
)

// Bounds of the soak run (DESIGN section 13).
const (
	soakActions = 20000 // unless PAREWELL_SOAK says another number
	soakSamples = 300   // of memory, over the run
	soakFlat    = 0.03  // the last third may hold this much more than the first
	soakWarm    = 30    // samples left out at the start: tables are read, caches fill
)

// TestSoak does the work of some weeks on one workbook without a window: typing
// over, ticking, undoing, and after each act the page it would show. What the
// program holds must not grow with what was done.
func TestSoak(t *testing.T) {
	n := soakActions
	if s := os.Getenv("PAREWELL_SOAK"); s != "" {
		var err error
		if n, err = strconv.Atoi(s); err != nil || n < soakSamples {
			t.Fatalf("PAREWELL_SOAK=%q", s)
		}
	}
	s := newSoak(t)
	var samples []held
	began := time.Now()
	for i := range n {
		s.act()
		if i%(n/soakSamples) == 0 {
			samples = append(samples, measure(t))
		}
	}
	took := time.Since(began)
	t.Logf("%d actions in %v: %d changed the workbook, %d were refused in words, %d undone or redone, %d pages; the file has %d KB",
		n, took.Round(time.Second), s.done, s.refused, s.undone, s.pages, s.size()/1024)
	samples = samples[soakWarm:]
	third := len(samples) / 3
	flat(t, "live heap", samples, third, func(h held) float64 { return h.heap })
	flat(t, "resident memory", samples, third, func(h held) float64 { return h.resident })
	if s.done < n/4 || s.pages < n/4 {
		t.Errorf("the script did too little of its work")
	}
}

// held is what the program holds at one moment, in bytes.
type held struct{ heap, resident float64 }

func measure(t *testing.T) held {
	debug.FreeOSMemory() // what is free goes back, so that only what is held counts
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	b, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		t.Skip("resident memory is read from /proc")
	}
	pages, err := strconv.ParseFloat(strings.Fields(string(b))[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return held{float64(m.HeapAlloc), pages * float64(os.Getpagesize())}
}

// flat compares the last third of the samples with the first.
func flat(t *testing.T, name string, samples []held, third int, of func(held) float64) {
	t.Helper()
	mean := func(part []held) (sum float64) {
		for _, h := range part {
			sum += of(h)
		}
		return sum / float64(len(part))
	}
	first, middle, last := mean(samples[:third]), mean(samples[third:2*third]), mean(samples[len(samples)-third:])
	t.Logf("%s: %.1f, %.1f, %.1f MB by thirds: %+.1f %%", name, first/1e6, middle/1e6, last/1e6, 100*(last/first-1))
	if last > first*(1+soakFlat) {
		t.Errorf("%s grew by %.1f %%", name, 100*(last/first-1))
	}
}

// soak is a desk with the demo open and the script's dice.
type soak struct {
	*desk.Desk
	t     *testing.T
	dice  *rand.Rand
	calls chan func() // what the window's thread would run

	done, refused, undone, pages int
}

func newSoak(t *testing.T) *soak {
	s := &soak{t: t, dice: rand.New(rand.NewPCG(20261125, 7)), calls: make(chan func(), 1000)}
	s.Desk = desk.New(desk.Options{
		StateDir: t.TempDir(), Starter: desk.StarterFoods,
		Post: func(f func()) { s.calls <- f },
	})
	s.Watch(func(desk.View) {})
	s.wait(s.OpenDemo)
	t.Cleanup(func() {
		go func() {
			for f := range s.calls {
				f()
			}
		}()
		if err := s.CloseWait(context.Background()); err != nil {
			t.Error(err)
		}
	})
	return s
}

// wait asks for something and is the window's thread until it is answered.
func (s *soak) wait(ask func(func(error))) error {
	answered, out := false, error(nil)
	ask(func(err error) { answered, out = true, err })
	for !answered {
		select {
		case f := <-s.calls:
			f()
		case <-time.After(time.Minute):
			s.t.Fatal("no answer for a minute")
		}
	}
	return out
}

// do queues a verb; a refusal must be one that a person can act on.
func (s *soak) do(v recipes.Verb) {
	err := s.wait(func(then func(error)) { s.Do(v, then) })
	s.count(err, &s.done)
}

func (s *soak) count(err error, well *int) {
	var p *problem.Error
	switch {
	case err == nil:
		*well++
	case errors.As(err, &p):
		s.refused++
	default:
		s.t.Fatalf("not a sentence: %v", err)
	}
}

func (s *soak) id() recipes.ID { return recipes.ID(fmt.Sprintf("%016x", s.dice.Uint64())) }

func one[T any](s *soak, all []T) (x T, ok bool) {
	if len(all) == 0 {
		return x, false
	}
	return all[s.dice.IntN(len(all))], true
}

// act does one thing that a cook does and shows what she then sees.
func (s *soak) act() {
	b := s.Book()
	r, _ := one(s, b.Recipes())
	v, some := one(s, b.Versions(r.ID))
	sw, swaps := one(s, b.Swaps(r.ID))
	switch k := s.dice.IntN(20); {
	case !some || k == 0 && len(b.Versions(r.ID)) < 8:
		s.do(recipes.AddVersion(r.ID, s.id(), fmt.Sprint("try ", s.dice.IntN(100)), ""))
	case k == 1 || len(b.Versions(r.ID)) > 8:
		s.do(recipes.RemoveVersion(r.ID, v.ID))
	case k == 2 || len(b.Swaps(r.ID)) > 24:
		s.do(recipes.RemoveSwap(r.ID, sw.ID))
	case k <= 6 && swaps:
		s.do(recipes.Tick(r.ID, v.ID, sw.ID, !v.Has(sw.ID)))
	case k <= 10:
		s.typeOver(b, r, v)
	case k == 11:
		s.count(s.wait(s.Undo), &s.undone)
	case k == 12:
		s.count(s.wait(s.Redo), &s.undone)
	case k == 13:
		s.meal(b, r, v)
	case k == 14:
		s.do(recipes.NoteVersion(r.ID, v.ID, fmt.Sprint("note ", s.dice.IntN(1000))))
	case k == 15:
		s.find()
	}
	s.show(r.ID)
}

// typeOver writes another amount or another food over an ingredient.
func (s *soak) typeOver(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) {
	d, ok := one(s, b.Draft(r, v).Lines)
	if !ok {
		return
	}
	text := fmt.Sprintf("%d g %s", 5+s.dice.IntN(200), sheets.LineName(d.Line))
	if s.dice.IntN(4) == 0 {
		text = fmt.Sprintf("%d g olive oil", 5+s.dice.IntN(40))
	}
	line, err := s.ReadLine(r.ID, text)
	if err != nil {
		s.count(err, &s.done)
		return
	}
	foods, err := s.FoodsFor(line)
	if err != nil {
		s.t.Fatal(err)
	}
	s.do(recipes.TypeOver{Recipe: r.ID, Version: v.ID, Line: d.Line.ID, Typed: line, NewSwap: s.id(), Foods: foods}.Verb())
}

// meal makes a meal or takes one out, so that there are a few of them.
func (s *soak) meal(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) {
	if m, ok := one(s, b.Meals()); ok && len(b.Meals()) > 6 {
		s.do(recipes.RemoveMeal(m.ID))
		return
	}
	id := s.id()
	s.do(recipes.AddMeal(id, fmt.Sprint("supper ", s.dice.IntN(100))))
	s.do(recipes.AddDish(id, r.ID, v.ID, 1))
}

// find types a few words into the food search.
func (s *soak) find() {
	table, err := s.Foods()
	if err != nil {
		s.t.Fatal(err)
	}
	words := []string{"smoked haddock", "doubel cream", "yogurt strained", "butter", "almonds ground", "beans red kidney canned"}
	w, _ := one(s, words)
	sheets.Foods(table.Search(w[:1+s.dice.IntN(len(w))], 40))
	s.pages++
}

// show lays out a page of the recipe, as the window does after an edit.
func (s *soak) show(id recipes.ID) {
	b := s.Book()
	r := b.Recipe(id)
	if r == nil {
		return
	}
	x := sheets.NewBench(b, r)
	switch s.dice.IntN(6) {
	case 0:
		x.Swaps()
	case 1:
		x.Ingredients()
		x.Sources(food.EnergyKcal)
	case 2:
		x.Claims(s.dice.IntN(len(x.Versions)))
	case 3:
		if l, err := sheets.NewLedger(b, r); err == nil && l.Tasted() && s.dice.IntN(20) == 0 {
			if _, err := l.View(sheets.LedgerAsk{Nutrient: food.EnergyKcal}); err != nil {
				s.t.Error(err)
			}
		}
	default:
		x.Sheet(sheets.Options{})
	}
	s.pages++
}

// size is the workbook's on disk, in bytes.
func (s *soak) size() int64 {
	st, err := os.Stat(filepath.Clean(s.View().Path))
	if err != nil {
		s.t.Fatal(err)
	}
	return st.Size()
}
