package food_test

import (
	"testing"

	"parewell/recipes/food"
)

// importedSR28 is SR28 as if it were another release, so that every starter food
// has its like among the imported ones.
func importedSR28(t testing.TB) []*food.Food {
	t.Helper()
	var out []*food.Food
	for _, f := range sr28(t) {
		c := *f
		c.Release = "sr99"
		out = append(out, &c)
	}
	return out
}

// TestBesideMatchesAsBefore reads every ingredient of the tests with and without
// a whole release imported: the food and whether it is sure stay the same.
func TestBesideMatchesAsBefore(t *testing.T) {
	alone := food.NewTable(starter(t))
	both := alone.Beside(food.NewTable(importedSR28(t)))
	found := 0
	for _, r := range matchRows {
		a, sureA, _ := alone.Match(r.name)
		b, sureB, _ := both.Match(r.name)
		if a.Food == nil { // the imported table may know it
			continue
		}
		found++
		if a.Food != b.Food || sureA != sureB {
			t.Errorf("%q: %v (sure %v), alone %v (sure %v)", r.name, b.Food, sureB, a.Food, sureA)
		}
	}
	if found < 100 {
		t.Errorf("only %d names of the tests are known", found)
	}
}

func TestBeside(t *testing.T) {
	ref := func(release, code string) food.Ref { return food.Ref{Source: "usda", Release: release, Code: code} }
	own := food.NewTable([]*food.Food{
		{Ref: ref("sr28", "1"), Name: "butter, salted"},
		{Ref: ref("sr28", "2"), Name: "milk, whole"},
		{Ref: food.Ref{Source: "own", Code: "k"}, Name: "kefir, plain"},
	})
	imported := food.NewTable([]*food.Food{
		{Ref: ref("sr26", "1"), Name: "butter, salted"},
		{Ref: ref("sr28", "2"), Name: "milk, whole, imported"}, // own has the row
		{Ref: ref("sr26", "3"), Name: "kefir"},
		{Ref: ref("sr26", "4"), Name: "skyr, plain"},
		{Ref: ref("sr26", "5"), Name: "almond milk"},
	})
	both := own.Beside(imported)
	names := func(hits []food.Hit) string {
		out := ""
		for _, h := range hits {
			out += h.Food.Ref.String() + " "
		}
		return out
	}
	for _, r := range []struct{ query, want string }{
		{"butter", "usda/sr28/1 usda/sr26/1 "}, // alike: its own first
		{"kefir", "own//k usda/sr26/3 "},
		{"skyr", "usda/sr26/4 "},
		{"milk, whole", "usda/sr28/2 "}, // a row of both stands once
		{"zzyzx", ""},
	} {
		if got := names(both.Search(r.query, 10)); got != r.want {
			t.Errorf("%q: %s, want %s", r.query, got, r.want)
		}
	}
	if got := both.Search("butter", 1); len(got) != 1 {
		t.Errorf("%d hits, want 1", len(got))
	}
	for _, r := range []struct {
		name, want string
		sure       bool
	}{
		{"salted butter", "usda/sr28/1", true},
		{"skyr", "usda/sr26/4", false}, // published names are not a cook's
		{"skyr, plain", "usda/sr26/4", true},
	} {
		best, sure, _ := both.Match(r.name)
		if best.Food == nil || best.Food.Ref.String() != r.want || sure != r.sure {
			t.Errorf("%q: %v (sure %v), want %s (sure %v)", r.name, best.Food, sure, r.want, r.sure)
		}
	}
	// Not sure of its own: what is imported is offered, not taken.
	best, sure, others := both.Match("almond milk")
	if best.Food == nil || best.Food.Ref != ref("sr28", "2") || sure || len(others) != 1 || others[0].Food.Ref != ref("sr26", "5") {
		t.Errorf("almond milk: %v (sure %v), others %v", best.Food, sure, names(others))
	}
	if f := both.Get(ref("sr28", "2")); f == nil || f.Name != "milk, whole" || both.Get(ref("sr26", "4")) == nil {
		t.Errorf("get: %v", f)
	}
	if f := both.Named("Butter, Salted"); f == nil || f.Release != "sr28" {
		t.Errorf("named: %v", f)
	}
	if f := both.Named("skyr, plain"); f == nil || f.Code != "4" {
		t.Errorf("named: %v", f)
	}
	if both.Len() != 7 || len(both.Foods()) != 7 || own.Len() != 3 || len(own.Search("skyr", 5)) != 0 {
		t.Errorf("%d foods, own %d", both.Len(), own.Len())
	}
	if own.Beside(nil) != own || own.Beside(food.NewTable(nil)) != own {
		t.Error("nothing beside makes another table")
	}
}

// BenchmarkSearchBeside types the script into the starter foods with SR28
// imported beside them. Budget: p99 under 1 ms a key, slips included.
func BenchmarkSearchBeside(b *testing.B) {
	table := food.NewTable(starter(b)).Beside(food.NewTable(importedSR28(b)))
	keys := keystrokes(typedQueries(b), true)
	benchKeys(b, keys, func(q string) int { return len(table.Search(q, 20)) })
}
