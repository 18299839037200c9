package food_test

import (
	"slices"
	"testing"

	"parewell/recipes/food"
)

func TestMatch(t *testing.T) {
	table := food.NewTable(starter(t))
	if len(matchRows) < 120 {
		t.Errorf("%d rows, want at least 120", len(matchRows))
	}
	for _, r := range matchRows {
		best, sure, others := table.Match(r.name)
		if best.Food == nil {
			t.Errorf("%q: nothing found, want %s", r.name, r.code)
			continue
		}
		if best.Food.Code != r.code || sure != r.sure {
			t.Errorf("%q: %s %s, sure %v; want %s, sure %v", r.name, best.Food.Code, best.Food.Name, sure, r.code, r.sure)
		}
		if best.Close && best.Differs == "" {
			t.Errorf("%q: a close name without what differs", r.name)
		}
		for _, o := range others {
			if o.Food == best.Food {
				t.Errorf("%q: the best stands among the others", r.name)
			}
		}
	}
}

func TestMatchOffersAlternatives(t *testing.T) {
	table := food.NewTable(starter(t))
	for _, r := range []struct {
		name   string
		others []string // codes that must follow, in this order
	}{
		{"butter", []string{"01145"}},
		{"cream", []string{"01050", "01052", "01049", "01056"}},
		{"rice", []string{"20036", "20050", "20052", "20045"}},
		{"stock", []string{"06008", "06172"}},
		{"tomato puree", []string{"11547"}},
		{"chicken thighs", []string{"05096"}},
		{"cornflour", []string{"20317", "20020"}},
		{"pepper", []string{"11821", "11333"}},
	} {
		_, sure, others := table.Match(r.name)
		if sure {
			t.Errorf("%q: taken for sure", r.name)
		}
		for i, code := range r.others {
			if i >= len(others) || others[i].Food.Code != code {
				t.Errorf("%q: alternative %d is not %s: %v", r.name, i+1, code, codes(others))
				break
			}
		}
	}
}

func TestMatchNothing(t *testing.T) {
	table := food.NewTable(starter(t))
	for _, name := range []string{"", " ", "of the", "xyzzyqqq", ",", "()", "½", "\x00"} {
		if best, sure, others := table.Match(name); best.Food != nil || sure || len(others) > 0 {
			t.Errorf("%q: found %v", name, best.Food.Name)
		}
	}
}

// TestMatchKnowsNoSuchFood: a part of the name is known, the food is not; no
// best is given, only foods to choose from.
func TestMatchKnowsNoSuchFood(t *testing.T) {
	table := food.NewTable(starter(t))
	for _, r := range []struct{ name, offers string }{
		{"hemp milk", "01077"},
		{"coconut flour", "20081"},
		{"lemon curd", "09150"},
		{"chicken sausage", "07063"},
		{"egg fried rice", ""},
		{"guar gum", ""},
		{"grand marvelo", ""},
	} {
		best, sure, others := table.Match(r.name)
		if best.Food != nil || sure {
			t.Errorf("%q: taken as %s", r.name, best.Food.Name)
		}
		if r.offers != "" && !slices.Contains(codes(others), r.offers) {
			t.Errorf("%q: %s is not offered: %v", r.name, r.offers, codes(others))
		}
	}
}

func TestNamed(t *testing.T) {
	table := food.NewTable(starter(t))
	for name, want := range map[string]string{
		"rice, white, medium-grain, dry": "20050", "Butter, Salted": "01001", " caster sugar ": "19335", "PEPPER, RED OR CAYENNE": "02031",
		"double cream": "", "no such food": "", "": "",
	} {
		got := ""
		if f := table.Named(name); f != nil {
			got = f.Code
		}
		if got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

func TestMatchOwnFoodOutranks(t *testing.T) {
	own := &food.Food{Ref: food.Ref{Source: "own", Code: "a1"}, Name: "Double cream"}
	plain := &food.Food{Ref: food.Ref{Source: "own", Code: "a2"}, Name: "Butter"}
	table := food.NewTable(append(starter(t), own, plain))
	for name, want := range map[string]*food.Food{"double cream": own, "butter": plain} {
		if best, sure, _ := table.Match(name); best.Food != want || !sure {
			t.Errorf("%q: %s, sure %v; want the cook's own, for sure", name, best.Food.Ref, sure)
		}
	}
	if best, sure, _ := table.Match("heavy cream"); best.Food.Code != "01053" || !sure {
		t.Errorf("heavy cream: %s, sure %v", best.Food.Name, sure)
	}
}

// TestEveryOwnNameIsFound: a food's own name must lead to it, and be sure
// unless the word is one that means several foods.
func TestEveryOwnNameIsFound(t *testing.T) {
	foods := starter(t)
	table := food.NewTable(foods)
	missed := 0
	for _, f := range foods {
		if best, _, others := table.Match(f.Name); best.Food != f {
			missed++
			t.Logf("%q leads to %v, not %s; others %v", f.Name, codes([]food.Hit{best}), f.Code, codes(others))
		}
	}
	if missed > 3 { // the first words of a few mean several foods
		t.Errorf("%d of %d names lead to another food", missed, len(foods))
	}
}

func FuzzMatch(f *testing.F) {
	table := food.NewTable(starter(f))
	for _, r := range matchRows {
		f.Add(r.name)
	}
	f.Add("((((")
	f.Add("a or or or b")
	f.Add("\xff\xfe, \xc3(")
	f.Fuzz(func(t *testing.T, s string) {
		best, sure, others := table.Match(s)
		if best.Food == nil && sure {
			t.Errorf("%q: sure of nothing", s)
		}
		if len(others) > 8 {
			t.Errorf("%q: %d alternatives", s, len(others))
		}
		if sure && best.Close {
			t.Errorf("%q: sure of a neighbour", s)
		}
		for i, h := range table.Search(s, 10) {
			if h.Food == nil {
				t.Errorf("%q: hit %d is empty", s, i)
			}
		}
	})
}

func codes(hits []food.Hit) []string {
	var out []string
	for _, h := range hits {
		if h.Food != nil {
			out = append(out, h.Food.Code)
		}
	}
	return out
}
