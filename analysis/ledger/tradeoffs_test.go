package ledger

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"
)

// plainly goes through all combinations by itself, each from nothing.
func plainly(t *testing.T, e *Evidence, nutrient string) (all []Combo) {
	t.Helper()
	m, err := newModel(e)
	if err != nil {
		t.Fatal(err)
	}
	n := len(e.Swaps)
	for mask := 1; mask < 1<<n; mask++ {
		c := Combo{On: make([]bool, n), Version: -1, Saving: Saving{Known: true}}
		for i := range n {
			if c.On[i] = mask>>i&1 == 1; !c.On[i] {
				continue
			}
			c.Swaps = append(c.Swaps, i)
			s := e.Swaps[i].Savings[nutrient]
			c.Saving.Amount += s.Amount
			c.Saving.Known = c.Saving.Known && s.Known
		}
		if !allowed(e, c.On) || !estimable(m.null, m.inside(c.On)) {
			continue
		}
		c.Interval = m.effect(m.inside(c.On))
		for v, fact := range e.Versions {
			if c.Version < 0 && slices.Equal(fact.On, c.On) { // of equals the first by ID
				if c.Version = v; fact.Servings > 0 {
					c.Standing = StandsTasted
				}
				if fact.Direct != nil {
					c.Interval = m.interval(fact.Direct.Effect, fact.Direct.SE)
				}
			}
		}
		for _, g := range e.Together {
			if s, ok := g.Savings[nutrient]; ok && onAll(e, c.On, g.Swaps) {
				c.Saving.Amount += s.Amount
				c.Saving.Known = c.Saving.Known && s.Known
			}
		}
		all = append(all, c)
	}
	return all
}

func onAll(e *Evidence, on []bool, ids []string) bool {
	n := 0
	for i, s := range e.Swaps {
		if slices.Contains(ids, s.ID) && on[i] {
			n++
		}
	}
	return n == len(ids)
}

// allowed says in its own way what may be cooked and judged.
func allowed(e *Evidence, on []bool) bool {
	for i, s := range e.Swaps {
		if on[i] && (s.DoesNotWork || !e.tasted(i)) {
			return false
		}
		for j, other := range e.Swaps {
			if on[i] && on[j] && (slices.Contains(s.Alternatives, other.ID) || slices.Contains(s.FailsWith, other.ID)) {
				return false
			}
		}
	}
	for _, v := range e.Versions {
		if v.DoesNotWork && slices.Equal(v.On, on) {
			return false
		}
	}
	return true
}

// variants are recipes of up to eight swaps with everything that can keep a
// combination out.
func variants() map[string]*Evidence {
	out := map[string]*Evidence{}
	for seed, name := range []string{"plain", "tied", "barred", "failed", "untested", "direct", "corrected", "few versions"} {
		r := dice(uint64(100 + seed))
		n := 5 + seed%4
		tr := trial{truth: truth(r, n), versions: random(r, n, n+4), tasters: 18, scatter: 1.2, pot: 0.2}
		if name == "few versions" {
			tr.versions = random(r, n, 4)
		}
		for _, on := range tr.versions {
			if name == "tied" {
				on[1] = on[3]
				on[0] = on[2] != on[4] && on[0]
			}
			if name == "untested" {
				on[2] = false
			}
		}
		e := tr.evidence(r)
		switch name {
		case "barred":
			e.Swaps[0].Alternatives = []string{"s01", "s02", "gone"}
			e.Swaps[3].FailsWith = []string{"s04"}
		case "failed":
			e.Swaps[1].DoesNotWork = true
			e.Versions[3].DoesNotWork = true
		case "direct":
			e.Versions[2].Direct = &Estimate{-0.4, 0.3}
			e.Versions[3].Direct = &Estimate{0.9, 0.2}
		case "corrected":
			e.Together = []Together{
				{[]string{"s00", "s02"}, map[string]Saving{EnergyKey: {Amount: -9, Known: true}}},
				{[]string{"s01", "s02", "s04"}, map[string]Saving{EnergyKey: {}}},
				{[]string{"s01", "gone"}, map[string]Saving{EnergyKey: {}}},
			}
		}
		out[name] = e
	}
	return out
}

func TestWalkFindsWhatTryingAllFinds(t *testing.T) {
	for name, e := range variants() {
		for _, nutrient := range []string{EnergyKey, "sodium_mg"} {
			t.Run(name+" "+nutrient, func(t *testing.T) {
				all := plainly(t, e, nutrient)
				got, err := Best(context.Background(), e, Goal{Nutrient: nutrient, Keep: 300})
				if err != nil {
					t.Fatal(err)
				}
				if got.Considered != len(all) || len(all) == 0 {
					t.Fatalf("%d combinations, trying all gives %d", got.Considered, len(all))
				}
				sameCombos(t, "ranked", got.Ranked, top(all, 300))
				sameCombos(t, "frontier", got.Frontier, unbeaten(all))
				if best := forLimit(all, e.Limit); best == nil || got.ForLimit == nil {
					if best != nil || got.ForLimit != nil {
						t.Errorf("for the limit: %v, trying all gives %v", got.ForLimit, best)
					}
				} else {
					sameCombos(t, "for the limit", []Combo{*got.ForLimit}, []Combo{*best})
				}
			})
		}
	}
}

func top(all []Combo, keep int) []Combo {
	s := slices.Clone(all)
	slices.SortStableFunc(s, func(a, b Combo) int { return order(b.Low, a.Low) })
	return s[:min(keep, len(s))]
}

func unbeaten(all []Combo) (out []Combo) {
	for _, a := range all {
		ok := a.Saving.Known && a.Saving.Amount > 0 && !beatenByTasted(a, all)
		for _, b := range all {
			if b.Saving.Known && b.Saving.Amount >= a.Saving.Amount && b.Low >= a.Low && (b.Saving.Amount > a.Saving.Amount || b.Low > a.Low) {
				ok = false
			}
		}
		if ok {
			out = append(out, a)
		}
	}
	slices.SortFunc(out, func(a, b Combo) int { return order(a.Saving.Amount, b.Saving.Amount) })
	return out
}

// beatenByTasted: a prediction that a tasted combination leaves nothing to offer.
func beatenByTasted(a Combo, all []Combo) bool {
	if a.Standing == StandsTasted {
		return false
	}
	for _, b := range all {
		if b.Standing == StandsTasted && b.Saving.Known && b.Low >= a.Low && b.Saving.Amount >= 0.99*a.Saving.Amount {
			return true
		}
	}
	return false
}

func forLimit(all []Combo, limit float64) (best *Combo) {
	for i, a := range all {
		if a.Saving.Known && a.Saving.Amount > 0 && a.Low > -limit && !beatenByTasted(a, all) && (best == nil || a.Saving.Amount > best.Saving.Amount) {
			best = &all[i]
		}
	}
	return best
}

func sameCombos(t *testing.T, what string, got, want []Combo) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d combinations, trying all gives %d", what, len(got), len(want))
	}
	for i, g := range got {
		w := want[i]
		if !slices.Equal(g.On, w.On) || g.Version != w.Version || g.Saving.Known != w.Saving.Known ||
			math.Abs(g.Low-w.Low) > 1e-9 || math.Abs(g.Effect-w.Effect) > 1e-9 || g.Saving.Known && math.Abs(g.Saving.Amount-w.Saving.Amount) > 1e-9 {
			t.Fatalf("%s %d: %+v, trying all gives %+v", what, i, g, w)
		}
	}
}

// TestOrderDoesNotMatter turns swaps and versions round.
func TestOrderDoesNotMatter(t *testing.T) {
	for name, e := range variants() {
		r := dice(7)
		shuffled, swaps, _ := mixed(e, r.Perm(len(e.Swaps)), r.Perm(len(e.Versions)))
		a, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey})
		if err != nil {
			t.Fatal(err)
		}
		b, err := Best(context.Background(), shuffled, Goal{Nutrient: EnergyKey})
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Ranked) != len(b.Ranked) || len(a.Frontier) != len(b.Frontier) {
			t.Fatalf("%s: %d and %d ranked, %d and %d on the frontier", name, len(a.Ranked), len(b.Ranked), len(a.Frontier), len(b.Frontier))
		}
		for i, c := range a.Ranked {
			d := b.Ranked[i]
			for j, from := range swaps {
				if d.On[j] != c.On[from] {
					t.Errorf("%s: rank %d: other swaps", name, i)
				}
			}
			if c.Interval != d.Interval || c.Standing != d.Standing || c.Saving != d.Saving {
				t.Errorf("%s: rank %d: %+v and %+v", name, i, c.Interval, d.Interval)
			}
		}
		ta, _ := Judge(e, EnergyKey)
		tb, _ := Judge(shuffled, EnergyKey)
		for j, from := range swaps {
			x, y := ta.Rows[from], tb.Rows[j]
			if x.Kind != y.Kind || !same(x.Interval, y.Interval) || x.More != y.More || x.Pots != y.Pots || len(x.Ties) != len(y.Ties) {
				t.Errorf("%s: %s: %+v and %+v", name, x.Name, x, y)
			}
		}
	}
}

func same(a, b Interval) bool {
	return a == b || math.IsNaN(a.Effect) && math.IsNaN(b.Effect)
}

// mixed puts swaps and versions in another order.
func mixed(e *Evidence, swaps, order []int) (*Evidence, []int, []int) {
	m := *e
	m.Swaps, m.Versions, m.Beta, m.Cov = nil, nil, nil, nil
	for _, s := range swaps {
		m.Swaps = append(m.Swaps, e.Swaps[s])
		m.Beta = append(m.Beta, e.Beta[s])
		row := []float64{}
		for _, c := range swaps {
			row = append(row, e.Cov[s][c])
		}
		m.Cov = append(m.Cov, row)
	}
	for _, v := range order {
		f := e.Versions[v]
		on := []bool{}
		for _, s := range swaps {
			on = append(on, f.On[s])
		}
		f.On = on
		m.Versions = append(m.Versions, f)
	}
	return &m, swaps, order
}

func TestNothingIsChanged(t *testing.T) {
	for name, e := range variants() {
		_, c, _ := mixed(e, identity(len(e.Swaps)), identity(len(e.Versions)))
		copied, _, _ := mixed(e, c, identity(len(e.Versions)))
		if _, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey}); err != nil {
			t.Fatal(err)
		}
		if _, err := Judge(e, EnergyKey); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(copied.Versions, e.Versions) || !reflect.DeepEqual(copied.Beta, e.Beta) || !reflect.DeepEqual(copied.Swaps, e.Swaps) {
			t.Errorf("%s: the evidence was changed", name)
		}
	}
}

func identity(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestBestCanBeStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Best(ctx, twenty(), Goal{Nutrient: EnergyKey}); err != context.Canceled {
		t.Errorf("stopped: %v", err)
	}
}

func TestBestRefusesTooMany(t *testing.T) {
	r := dice(3)
	e := trial{truth: truth(r, 21), versions: random(r, 21, 24), tasters: 10, scatter: 1}.evidence(r)
	if _, err := Best(context.Background(), e, Goal{}); err == nil {
		t.Error("21 swaps were taken")
	}
}

func TestNothingTastedRanksNothing(t *testing.T) {
	e := &Evidence{Swaps: []SwapFact{{ID: "a", Name: "a"}, {ID: "b", Name: "b", DoesNotWork: true}}, Versions: []VersionFact{{ID: "o", On: ticks("00")}}}
	got, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Ranked) != 0 || got.ForLimit != nil || len(got.Beside) != 2 || got.Beside[0].Why != NotTasted || got.Beside[1].Why != DoesNotWork {
		t.Errorf("%+v", got)
	}
}
