package ledger

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/recipes/words"
)

// TestBoundaries holds every edge of the table of verdicts (DESIGN section 7)
// for a limit of 0.5: on the edge itself a verdict is not given.
func TestBoundaries(t *testing.T) {
	up, down := math.Nextafter, func(v float64) float64 { return math.Nextafter(v, -9) }
	nan := math.NaN()
	for _, r := range []struct {
		name             string
		low, high, limit float64
		want             Kind
	}{
		{"round zero, inside", -0.3, 0.3, 0.5, Within},
		{"low end just above the limit", up(-0.5, 9), 0.3, 0.5, Within},
		{"low end on the limit", -0.5, 0.3, 0.5, NotEnough},
		{"low end just below the limit", down(-0.5), 0.3, 0.5, NotEnough},
		{"high end on zero, inside", -0.3, 0, 0.5, Within},
		{"high end just below zero, inside", -0.3, down(0), 0.5, SmallDrop},
		{"low end on zero", 0, 0.4, 0.5, Within},
		{"low end just above zero", up(0, 9), 0.4, 0.5, LikedMore},
		{"far above", 1, 2, 0.5, LikedMore},
		{"high end on the limit", -1.2, -0.5, 0.5, LessUnsettled},
		{"high end just below the limit", -1.2, down(-0.5), 0.5, TooMuch},
		{"high end just above the limit", -1.2, up(-0.5, 9), 0.5, LessUnsettled},
		{"across the limit, below zero", -0.9, -0.1, 0.5, LessUnsettled},
		{"across the limit, high end on zero", -0.9, 0, 0.5, NotEnough},
		{"across the limit, high end just below zero", -0.9, down(0), 0.5, LessUnsettled},
		{"across both", -0.9, 0.9, 0.5, NotEnough},
		{"a point on the limit", -0.5, -0.5, 0.5, LessUnsettled},
		{"a point inside", -0.2, -0.2, 0.5, SmallDrop},
		{"no interval", nan, nan, 0.5, NotEnough},
		{"endless interval", math.Inf(-1), math.Inf(1), 0.5, NotEnough},
		{"no limit, above zero", 0.1, 0.4, 0, LikedMore},
		{"no limit, below zero", -0.4, -0.1, 0, LessUnsettled},
		{"no limit, across zero", -0.4, 0.1, 0, NoLimit},
		{"no limit, on zero", 0, 0, nan, NoLimit},
	} {
		if got := Of(Interval{Low: r.low, High: r.high}, r.limit); got != r.want {
			t.Errorf("%s: %s, want %s", r.name, got, r.want)
		}
	}
}

// single is one swap tasted against the original.
func single(effect, se, df float64) *Evidence {
	return &Evidence{
		Swaps:    []SwapFact{{ID: "a", Name: "less butter", Savings: map[string]Saving{EnergyKey: {Amount: 80, Known: true}}}},
		Versions: []VersionFact{{ID: "o", Name: "original", On: ticks("0"), Servings: 12, Pots: 1, Cooked: true}, {ID: "b", Name: "B", On: ticks("1"), Servings: 12, Pots: 2, Cooked: true}},
		Beta:     []float64{effect}, Cov: [][]float64{{se * se}}, DF: df, ResidualSD: 1.4, Panelists: 12, Limit: 0.5,
	}
}

func TestRowOfOneSwap(t *testing.T) {
	for _, r := range []struct {
		name           string
		effect, se, df float64
		kcal           Saving
		want           Kind
		lost           float64 // NaN: not shown
		says           string
	}{
		{"too much", -1.5, 0.2, 40, Saving{Amount: 100, Known: true}, TooMuch, 1.5, "bigger drop than your limit of 0.5"},
		{"too much for twenty kcal", -1.5, 0.2, 40, Saving{Amount: 20, Known: true}, TooMuch, 7.5, "–1.5"},
		{"too much for under twenty", -1.5, 0.2, 40, Saving{Amount: 19.99, Known: true}, TooMuch, math.NaN(), "–1.5"},
		{"too much, calories unknown", -1.5, 0.2, 40, Saving{}, TooMuch, math.NaN(), "–1.5"},
		{"liked more", 0.8, 0.2, 40, Saving{Amount: 50, Known: true}, LikedMore, -1.6, "liked more, by 0.8"},
		{"not clear of zero", -0.1, 0.2, 40, Saving{Amount: 100, Known: true}, Within, math.NaN(), "smaller drop than your limit of 0.5"},
		{"not enough", -0.3, 0.4, 22, Saving{Amount: 100, Known: true}, NotEnough, math.NaN(), "too wide"},
		{"unsettled", -0.7, 0.3, 22, Saving{Amount: 100, Known: true}, LessUnsettled, 0.7, "liked less, by 0.7 points"},
		{"small drop", -0.2, 0.08, 60, Saving{Amount: 100, Known: true}, SmallDrop, 0.2, "small but real drop of 0.20 points"},
		{"no scatter known", -0.2, 0, 0, Saving{Amount: 100, Known: true}, NotEnough, math.NaN(), "too few servings"},
	} {
		e := single(r.effect, r.se, r.df)
		e.Swaps[0].Savings[EnergyKey] = r.kcal
		table, err := Judge(e, EnergyKey)
		if err != nil {
			t.Fatal(err)
		}
		v := table.Rows[0]
		if v.Kind != r.want || math.Abs(v.LostPer100-r.lost) > 1e-12 || math.IsNaN(v.LostPer100) != math.IsNaN(r.lost) {
			t.Errorf("%s: %s, lost %v; want %s, %v", r.name, v.Kind, v.LostPer100, r.want, r.lost)
		}
		if (v.LostNote().Key == "") != math.IsNaN(r.lost) {
			t.Errorf("%s: note %q", r.name, v.LostNote())
		}
		if got := v.Explain().String(); !strings.Contains(got, r.says) || !strings.HasPrefix(got, "less butter") || strings.Contains(got, "{") {
			t.Errorf("%s: %q", r.name, got)
		}
		if got := v.Sentences(); len(got) < 2 || got[0].Key != v.Explain().Key || slices.ContainsFunc(got, func(p words.Phrase) bool { return p.Key == "" }) {
			t.Errorf("%s: %v", r.name, got)
		}
		if got := v.PotsNote().String(); got != "Rests on 2 pots." {
			t.Errorf("%s: %q", r.name, got)
		}
	}
}

// TestRoundingNeverHidesTheVerdict: an end that one decimal would put on the
// limit is written with two.
func TestRoundingNeverHidesTheVerdict(t *testing.T) {
	v := Verdict{Name: "x", Kind: Within, Limit: 0.5, Interval: Interval{-0.1, 0.2, -0.46, 0.26}}
	if got := v.Explain().String(); !strings.Contains(got, "–0.46 to +0.26") {
		t.Error(got)
	}
}

func TestEveryVerdictHasItsWords(t *testing.T) {
	i := Interval{-0.4, 0.1, -0.6, -0.2}
	for _, k := range []Kind{Within, LikedMore, SmallDrop, TooMuch, LessUnsettled, NotEnough, Tied, AlwaysOn, NotTasted, NoLimit} {
		v := Verdict{Name: "less salt", Kind: k, Interval: i, Joint: unknown, Limit: 0.5, Ties: []string{"more dill", "less oil"}}
		w := Whole{Name: "B", Swaps: 4, Kind: k, Interval: i, Limit: 0.5}
		for _, p := range []words.Phrase{v.Label(), v.Explain(), w.Line()} {
			s := p.String()
			if (k == AlwaysOn || k == NotTasted) && strings.HasPrefix(p.Key, "ledger.whole") {
				continue // a tasted version is neither
			}
			if s == "" || strings.Contains(s, "[") || strings.Contains(s, "{") {
				t.Errorf("%s: %q", k, s)
			}
		}
	}
	for _, a := range []Aside{{Name: "x", Why: NotTasted}, {Name: "x", Why: Tied, Ties: []string{"y"}}, {Name: "x", Why: AlwaysOn}, {Name: "x", Why: DoesNotWork}} {
		if s := a.Note().String(); strings.Contains(s, "[") || strings.Contains(s, "{") {
			t.Error(s)
		}
	}
	for _, st := range []Standing{StandsTasted, StandsCooked, Predicted} {
		if s := (&Combo{Standing: st, BestOf: 63}).Note().String(); strings.Contains(s, "[") || strings.Contains(s, "{") {
			t.Error(s)
		}
	}
}

func TestMore(t *testing.T) {
	for _, r := range []struct {
		name      string
		effect    float64
		se        float64
		people    int
		pot       float64
		want      Kind
		settles   bool
		withPanel bool
	}{
		{"clear of the limit, needs a little", 0.15, 0.45, 12, 0, NotEnough, true, true},
		{"nearly on the limit", -0.45, 0.45, 12, 0, NotEnough, false, false},
		{"pots that differ much", 0.1, 0.45, 12, 1.5, NotEnough, false, false},
		{"people not known", 0.15, 0.45, 0, 0, NotEnough, true, true},
		{"on the limit exactly", -0.5, 0.45, 12, 0, NotEnough, false, false},
		{"liked less", -1.1, 0.45, 12, 0, LessUnsettled, true, true},
	} {
		e := single(r.effect, r.se, 22)
		e.Panelists, e.PotSD = r.people, r.pot
		table, err := Judge(e, EnergyKey)
		if err != nil {
			t.Fatal(err)
		}
		v := table.Rows[0]
		if v.Kind != r.want || v.More.NotWithPanel == r.withPanel || (v.More.Servings > 0) != r.settles {
			t.Errorf("%s: %s %+v", r.name, v.Kind, v.More)
		}
		if s := v.MoreNote().String(); s == "" || strings.Contains(s, "[") || strings.Contains(s, "{") {
			t.Errorf("%s: %q", r.name, s)
		}
		if r.settles && r.people > 0 && v.More.Servings != 2*r.people*v.More.Evenings {
			t.Errorf("%s: %+v", r.name, v.More)
		}
	}
}

// TestMorePeopleNeverMeanMoreEvenings, nor does less scatter.
func TestMorePeopleNeverMeanMoreEvenings(t *testing.T) {
	evenings := func(people int, scatter float64) int {
		e := single(0.05, 0.5, 22)
		e.Panelists, e.ResidualSD = people, scatter
		m, err := newModel(e)
		if err != nil {
			t.Fatal(err)
		}
		x := m.more(m.effect(ticks("1")), 0.5)
		if x.NotWithPanel {
			return 99
		}
		return x.Evenings
	}
	for people := 3; people < 60; people++ {
		if evenings(people, 1.4) > evenings(people-1, 1.4) || evenings(people, 1.3) > evenings(people, 1.4) {
			t.Errorf("%d people: %d evenings, one fewer: %d", people, evenings(people, 1.4), evenings(people-1, 1.4))
		}
	}
}

// TestWholeOutranks: swaps that each fit, and a dish that does not.
func TestWholeOutranks(t *testing.T) {
	e := &Evidence{Limit: 0.5, DF: 100, ResidualSD: 1.2, Panelists: 20, Beta: make([]float64, 4)}
	for i := range 4 {
		e.Swaps = append(e.Swaps, SwapFact{ID: fmt.Sprint("s", i), Name: fmt.Sprint("swap ", i)})
		e.Beta[i] = -0.27
		row := make([]float64, 4)
		row[i] = 0.01
		e.Cov = append(e.Cov, row)
	}
	for v, on := range oneByOne(4) {
		e.Versions = append(e.Versions, VersionFact{ID: fmt.Sprint("v", v), Name: string(rune('@' + v)), On: on, Servings: 20, Pots: 1})
	}
	table, err := Judge(e, EnergyKey)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range table.Rows {
		if !v.Kind.Fits() {
			t.Errorf("%s: %s", v.Name, v.Kind)
		}
	}
	w := table.Wholes[table.Main]
	if w.Swaps != 4 || w.Kind != TooMuch || !w.Outranks || math.Abs(w.Effect+1.08) > 1e-12 {
		t.Fatalf("%+v", w)
	}
	if got := w.Line().String(); got != "E, its 4 swaps together: –1.08 (–1.41 to –0.75): drops too much for your limit of 0.5" {
		t.Errorf("%q", got)
	}
	if w.Warning().String() == "" || table.Wholes[0].Warning().Key != "" {
		t.Error("the warning stands in the wrong place")
	}
	e.Versions[5].Direct = &Estimate{-0.1, 0.1}
	if table, _ = Judge(e, EnergyKey); table.Wholes[table.Main].Kind != Within {
		t.Error("its own scores do not outrank the sum of its swaps")
	}
}

func TestHeads(t *testing.T) {
	e := single(-0.2, 0.2, 30)
	keys := func(limit float64) string {
		table, err := WhatIf(e, EnergyKey, limit)
		if err != nil {
			t.Fatal(err)
		}
		out := []string{}
		for _, h := range table.Heads() {
			if s := h.String(); strings.Contains(s, "[") || strings.Contains(s, "{") {
				t.Error(s)
			}
			out = append(out, strings.TrimPrefix(h.Key, "ledger.head."))
		}
		return strings.Join(out, " ")
	}
	if got := keys(0.5); got != "few-versions" {
		t.Error(got)
	}
	e.Versions[1].Pots = 1
	e.Peeked = true
	if got := keys(1); got != "what-if one-pot peeked few-versions" {
		t.Error(got)
	}
	if e.Limit != 0.5 {
		t.Error("trying a limit changed the recorded one")
	}
	e = trial{truth: []float64{0, 0}, versions: versions("00", "10", "01", "11"), tasters: 9, scatter: 1}.evidence(dice(5))
	e.Versions[2].Pots, e.LackOfFit = 2, 0.01
	if got := keys(0.5); got != "interplay" {
		t.Error(got)
	}
}

// TestTiedSwapsNeverGetAVerdict over many random tables: who lies in no null
// vector is judged, who lies in one is not, and a tie names both ways.
func TestTiedSwapsNeverGetAVerdict(t *testing.T) {
	ties := 0
	for seed := range uint64(150) {
		r := dice(seed)
		n := 2 + r.IntN(6)
		tr := trial{truth: truth(r, n), versions: random(r, n, min(2+r.IntN(n+1), 1<<n)), tasters: 10, scatter: 1}
		for _, on := range tr.versions {
			if seed%3 == 0 {
				on[0] = on[n-1]
			}
		}
		e := tr.evidence(r)
		table, err := Judge(e, EnergyKey)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range table.Rows {
			open := v.Kind == Tied || v.Kind == AlwaysOn || v.Kind == NotTasted
			if open != math.IsNaN(v.Effect) || open == separable(tr.versions, i) {
				t.Fatalf("seed %d swap %d: %s %v", seed, i, v.Kind, v.Effect)
			}
			for _, other := range v.TiedTo {
				ties++
				if o := table.Rows[other]; o.Kind != Tied {
					t.Fatalf("seed %d: %d is tied to %d, which is %s", seed, i, other, o.Kind)
				}
			}
		}
	}
	if ties == 0 {
		t.Error("no ties were made")
	}
}

// separable decides by numbers: the projection on what versions vary keeps the
// swap whole.
func separable(versions [][]bool, i int) bool {
	_, p := fitted(versions, make([]float64, len(versions)), 1)
	n := len(p)
	x := make([][]float64, n) // centred cross products
	for a := range n {
		x[a] = make([]float64, n)
		for b := range n {
			var ab, ma, mb float64
			for _, v := range versions {
				fa, fb := float64(whole(v)[a]), float64(whole(v)[b])
				ab, ma, mb = ab+fa*fb, ma+fa, mb+fb
			}
			x[a][b] = ab - ma*mb/float64(len(versions))
		}
	}
	d := 0.0
	for k := range n {
		d += p[i][k] * x[k][i]
	}
	return math.Abs(d-1) < 1e-6
}

// TestBlocksDecide: versions that no taster had on one evening cannot be set
// against each other, and what is told of a null space counts as much.
func TestBlocksDecide(t *testing.T) {
	e := trial{truth: []float64{0, 0, 0}, versions: versions("000", "100", "010", "011"), tasters: 9, scatter: 1}.evidence(dice(6))
	for _, r := range []struct {
		name   string
		blocks [][]int
		null   [][]int64
		want   []Kind
		rank   int
	}{
		{"all together", nil, nil, []Kind{"", "", ""}, 3},
		{"two evenings apart", [][]int{{0, 1}, {2, 3}}, nil, []Kind{"", AlwaysOn, ""}, 2},
		{"evenings that share the original", [][]int{{0, 1}, {0, 2, 3}}, nil, []Kind{"", "", ""}, 3},
		{"a chain of tasters", [][]int{{0, 1}, {1, 2}, {2, 3}}, nil, []Kind{"", "", ""}, 3},
		{"each taster had one", [][]int{{0}, {1}, {2}, {3}}, nil, []Kind{AlwaysOn, AlwaysOn, AlwaysOn}, 0},
		{"told so", nil, [][]int64{{0, 2, -2}}, []Kind{"", Tied, Tied}, 2},
		{"told that nothing is hidden", [][]int{{0}}, [][]int64{}, []Kind{"", "", ""}, 3},
	} {
		e.Blocks, e.Null = r.blocks, r.null
		table, err := Judge(e, EnergyKey)
		if err != nil {
			t.Fatal(err)
		}
		if table.rank != r.rank {
			t.Errorf("%s: rank %d, want %d", r.name, table.rank, r.rank)
		}
		for i, want := range r.want {
			if v := table.Rows[i]; want != "" && v.Kind != want || want == "" && math.IsNaN(v.Effect) {
				t.Errorf("%s: swap %d is %s, want %q", r.name, i, v.Kind, want)
			}
		}
	}
}

func TestEvidenceThatDoesNotFit(t *testing.T) {
	for name, spoil := range map[string]func(*Evidence){
		"short ticks":        func(e *Evidence) { e.Versions[0].On = nil },
		"two of a name":      func(e *Evidence) { e.Swaps = append(e.Swaps, e.Swaps[0]); e.Versions = nil },
		"no id":              func(e *Evidence) { e.Swaps[0].ID = "" },
		"short effects":      func(e *Evidence) { e.Beta = []float64{} },
		"effect not known":   func(e *Evidence) { e.Beta[0] = math.NaN() },
		"ragged covariances": func(e *Evidence) { e.Cov = [][]float64{{}} },
		"endless covariance": func(e *Evidence) { e.Cov[0][0] = math.Inf(1) },
		"covariance alone":   func(e *Evidence) { e.Beta = nil },
		"block of nothing":   func(e *Evidence) { e.Blocks = [][]int{{0, 9}} },
		"null of other size": func(e *Evidence) { e.Null = [][]int64{{1, 2}} },
	} {
		e := single(-1, 0.1, 9)
		spoil(e)
		if _, err := Judge(e, EnergyKey); err == nil || !strings.Contains(err.Error(), "do not fit") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
