package ratings

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/stats"
)

func scoresOf(rows ...string) *Table {
	t := &Table{}
	for _, row := range rows {
		f := strings.Fields(row)
		s := Score{Panelist: f[0], Sample: f[1], Attribute: "liking"}
		fmt.Sscan(f[2], &s.Value)
		for _, extra := range f[3:] {
			key, v, _ := strings.Cut(extra, "=")
			switch key {
			case "tasting":
				s.Tasting = v
			case "pot":
				s.Pot = v
			case "cook":
				s.Cook = v
			case "day":
				s.Day = v
			case "position":
				fmt.Sscan(v, &s.Position)
			}
		}
		t.Scores = append(t.Scores, s)
	}
	return t
}

// Each thing that stands in the way is one plain sentence, first; the JSON holds
// nulls, never NaN, and no figure that means nothing.
func TestWhatStandsInTheWayIsSaid(t *testing.T) {
	for _, row := range []struct {
		name  string
		t     *Table
		note  string
		head  string
		nulls string // a key of anova.sample that is null
	}{
		{"all scores equal", scoresOf("1 A 6", "1 B 6", "2 A 6", "2 B 6", "3 A 6", "3 B 6"), NoteNoVariation, "every score is the same", "p"},
		{"the same distance everywhere", scoresOf("1 A 6", "1 B 5", "2 A 7", "2 B 6", "3 A 4", "3 B 3"), NoteNoResidual, "exactly the same distance", "f"},
		{"one panelist", scoresOf("1 A 5", "1 B 6", "1 C 7"), NoteOnePanelist, "only one taster", "p"},
		{"one sample", scoresOf("1 A 5", "2 A 6", "3 A 8"), NoteOneSample, "only A was scored", "p"},
		{"one score", scoresOf("1 A 5"), NoteOneSample, "only A was scored", "p"},
		{"each taster one sample", scoresOf("1 A 5", "2 B 6", "3 A 7"), NoteNoScatter, "too few scores", "p"},
		{"two worlds", scoresOf("1 A 6", "1 B 5", "2 A 7", "2 B 5", "3 C 8", "3 D 6", "4 C 7", "4 D 6"), NoteApart, "liking: these scores do not settle", "nothing"},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := analysed(t, row.t, Options{Limit: 0.5})
			if !slices.Contains(r.Notes, row.note) {
				t.Errorf("notes %v, want %s", r.Notes, row.note)
			}
			head := r.Head().String()
			if !strings.Contains(head, row.head) || strings.Count(head, ".") != 1 {
				t.Errorf("head %q, want one sentence with %q", head, row.head)
			}
			b, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			var got object
			if err := json.Unmarshal(b, &got); err != nil {
				t.Fatal(err)
			}
			sample := got["anova"].(object)["sample"].(object)
			if v, there := sample[row.nulls]; row.nulls != "nothing" && (!there || v != nil) {
				t.Errorf("anova.sample.%s is %v, want null", row.nulls, v)
			}
			for _, key := range []string{"samples", "pairs", "against_original", "notes"} {
				if got[key] == nil {
					t.Errorf("%s is null, want a list", key)
				}
			}
			for _, p := range slices.Concat(r.Against(), r.Explain()) {
				if s := p.String(); strings.Contains(s, "[") || strings.Contains(s, "NaN") {
					t.Errorf("said %q", s)
				}
			}
		})
	}
}

// Edge cases of the reference folder: numbers exact.
func TestEdgeCasesMatchTheReference(t *testing.T) {
	var in struct {
		Cases []struct {
			ID, Kind          string
			Panelist, Version []string
			Liking            []float64
			Versions          [][]int
		}
	}
	f := read(t, "edge_cases", &in)
	want := f.Expected.(object)["cases"].([]any)
	done := 0
	for i, c := range in.Cases {
		w := want[i].(object)
		switch c.Kind {
		case "rcbd":
			done++
			r := analysed(t, data{Panelist: c.Panelist, Version: c.Version, Liking: c.Liking}.table(), Options{})
			f.Expected = keep(w, "ss_version", "ms_residual", "F", "p", "df_residual", "mean_difference_A_minus_B", "emm_difference_A_minus_B", "A_minus_B", "C_minus_D", "ss_version_adjusted")
			a, known := r.Anova, object{}
			for _, p := range r.Pairs {
				if p.Difference.Known() {
					known[p.A+"_minus_"+p.B] = p.Difference
				}
			}
			f.Hold(t, object{
				"ss_version": a.Sample.SS, "ss_version_adjusted": a.Sample.SS, "ms_residual": a.Residual.MS, "F": a.Sample.F, "p": a.Sample.P, "df_residual": a.Residual.DF,
				"mean_difference_A_minus_B": r.Pairs[0].Difference, "emm_difference_A_minus_B": r.Pairs[0].Difference, "A_minus_B": known["A_minus_B"], "C_minus_D": known["C_minus_D"],
			})
			if c.ID == "disconnected" && (len(known) != 2 || r.Samples[0].AdjustedMean.Known()) {
				t.Errorf("disconnected: %v are compared", known)
			}
		case "swap":
			done++
			holdSwapCase(t, c.ID, c.Versions, w)
		}
	}
	if done < 8 {
		t.Errorf("%d cases, want at least 8", done)
	}
}

func keep(o object, keys ...string) object {
	out := object{}
	for _, k := range keys {
		if v, ok := o[k]; ok {
			out[k] = v
		}
	}
	return out
}

func holdSwapCase(t *testing.T, id string, versions [][]int, want object) {
	t.Helper()
	table := &Table{Swaps: &Swaps{Names: []string{"s", "t"}}}
	for v, on := range versions {
		name := fmt.Sprint("V", v)
		table.Swaps.Samples, table.Swaps.On = append(table.Swaps.Samples, name), append(table.Swaps.On, []bool{on[0] == 1, on[1] == 1})
		for p := range 4 {
			table.Scores = append(table.Scores, Score{Panelist: fmt.Sprint(p), Sample: name, Attribute: "liking", Value: float64((p*7+v*5)%9 + 1)})
		}
	}
	r := analysed(t, table, Options{})
	var estimable []any
	for _, s := range r.Swaps {
		estimable = append(estimable, s.Estimable)
	}
	if !reflect.DeepEqual(estimable, want["estimable"]) {
		t.Errorf("%s: estimable %v, want %v", id, estimable, want["estimable"])
	}
	if got, w := fmt.Sprint(r.Effects.Null), fmt.Sprint(want["null_space"]); got != w {
		t.Errorf("%s: null space %s, want %s", id, got, w)
	}
	if _, _, ok := r.Effects.Predict([]bool{true, true}); want["sum_estimable"] == true && !ok {
		t.Errorf("%s: the sum can be told", id)
	}
}

// What cannot be said of a swap is said why.
func TestWhySwapsCannotBeJudged(t *testing.T) {
	scores := scoresOf("1 O 7", "1 B 6", "1 C 4", "2 O 8", "2 B 6", "2 C 5", "3 O 6", "3 B 6", "3 C 5")
	for _, row := range []struct {
		name   string
		on     [][]bool // O, B, C
		reason string   // of the second swap
		tied   string
		says   string
	}{
		{"never on", [][]bool{{false, false}, {true, false}, {false, false}}, NeverOn, "", "no sample that was scored has it"},
		{"in every version", [][]bool{{false, true}, {true, true}, {false, true}}, AlwaysOn, "", "every sample that was scored has it"},
		{"always together", [][]bool{{false, false}, {true, true}, {false, false}}, Tied, "first", "cannot be told apart from first"},
		{"either or", [][]bool{{false, true}, {true, false}, {true, false}}, Tied, "first", "cannot be told apart from first"},
		{"alone", [][]bool{{false, false}, {true, false}, {false, true}}, "", "", "Rests on 1 pot."},
	} {
		t.Run(row.name, func(t *testing.T) {
			table := *scores
			table.Swaps = &Swaps{Names: []string{"first", "second"}, Samples: []string{"O", "B", "C"}, On: row.on}
			r := analysed(t, &table, Options{})
			s := r.Swaps[1]
			if s.Reason != row.reason || strings.Join(s.TiedTo, " ") != row.tied || s.Effect.Known() != (row.reason == "") {
				t.Errorf("got %+v", s)
			}
			if line := r.SwapLines()[1].String(); !strings.Contains(line, row.says) {
				t.Errorf("said %q, want %q", line, row.says)
			}
		})
	}
}

// A dish that is no version is scored, and changes no swap's effect beyond the
// scatter it adds to; a version that was not served is named.
func TestBenchmarksAndVersionsNotServed(t *testing.T) {
	var in swapInput
	read(t, "swap_effects", &in)
	table := in.table(t)
	before := analysed(t, table, Options{})
	with := &Table{Swaps: &Swaps{Names: table.Swaps.Names, Samples: append(slices.Clone(table.Swaps.Samples), "shop", "V9"), On: append(slices.Clone(table.Swaps.On), nil, []bool{true, true, false, false})}}
	with.Scores = slices.Clone(table.Scores)
	for i := range 24 {
		with.Scores = append(with.Scores, Score{Panelist: table.Scores[6*i].Panelist, Sample: "shop", Attribute: "liking", Value: table.Scores[6*i].Value - 1})
	}
	after := analysed(t, with, Options{})
	for i, s := range after.Swaps {
		if math.Abs(float64(s.Effect-before.Swaps[i].Effect)) > 1e-9 {
			t.Errorf("%s: %v, want %v", s.Swap, s.Effect, before.Swaps[i].Effect)
		}
	}
	if !slices.Equal(after.NotServed, []string{"V9"}) || len(after.Effects.Versions) != 6 {
		t.Errorf("not served %v, versions %d", after.NotServed, len(after.Effects.Versions))
	}
	if e, _, ok := after.Effects.Predict([]bool{true, true, false, false}); !ok || math.Abs(e-float64(before.Swaps[0].Effect+before.Swaps[1].Effect)) > 1e-9 {
		t.Errorf("predicts %v, %v for a version not served", e, ok)
	}
}

// Three swaps of which one is always on with either of the others, and two that
// are always together, are two groups; a third pair is free.
func TestTiesAreSmallestGroups(t *testing.T) {
	names := []string{"a", "b", "either", "x", "y", "free"}
	on := func(s string) []bool {
		out := make([]bool, len(names))
		for i, n := range names {
			out[i] = strings.Contains(" "+s+" ", " "+n+" ")
		}
		return out
	}
	table := &Table{Swaps: &Swaps{Names: names}}
	for v, s := range []string{"", "a either", "b either", "x y", "free", "a either x y free"} {
		name := fmt.Sprint("V", v)
		table.Swaps.Samples, table.Swaps.On = append(table.Swaps.Samples, name), append(table.Swaps.On, on(s))
		for p := range 5 {
			table.Scores = append(table.Scores, Score{Panelist: fmt.Sprint(p), Sample: name, Attribute: "liking", Value: float64((3*p+5*v+p*v)%9 + 1)})
		}
	}
	r := analysed(t, table, Options{})
	for i, want := range []string{"b either", "a either", "a b", "y", "x", ""} {
		if got := strings.Join(r.Swaps[i].TiedTo, " "); got != want || r.Swaps[i].Estimable != (want == "") {
			t.Errorf("%s: tied to %q, want %q", names[i], got, want)
		}
	}
	for _, row := range []struct {
		sum string
		ok  bool
	}{{"x y", true}, {"a either", true}, {"a b either", false}, {"a either x y free", true}, {"x", false}, {"either", false}} {
		if _, _, ok := r.Effects.Predict(on(row.sum)); ok != row.ok {
			t.Errorf("%s: can be told %v, want %v", row.sum, ok, row.ok)
		}
	}
}

// Swaps that go with the cook, the day or the place on the tray are named.
func TestWhatGoesWithTheCookIsNamed(t *testing.T) {
	var scores []string
	for p, shift := range []int{0, 1, 2, 0} {
		for v, cook := range []string{"Ann", "Ann", "Bo", "Bo"} {
			scores = append(scores, fmt.Sprintf("%d V%d %d cook=%s position=%d", p, v, 5+(p*v+shift)%4, cook, (v+p)%4+1))
		}
	}
	table := scoresOf(scores...)
	table.Swaps = &Swaps{Names: []string{"crumb", "oil"}, Samples: []string{"V0", "V1", "V2", "V3"}, On: [][]bool{{false, false}, {true, false}, {false, true}, {true, true}}}
	r := analysed(t, table, Options{})
	if len(r.MixedUp) != 1 || r.MixedUp[0].Swap != "oil" || !slices.Equal(r.MixedUp[0].With, []string{"cook"}) {
		t.Fatalf("mixed up: %+v", r.MixedUp)
	}
	if !r.Swaps[1].Estimable {
		t.Error("oil is told from crumb; only the cook goes with it")
	}
	if said := fmt.Sprint(r.Explain()); !strings.Contains(said, "oil goes with the cook") {
		t.Errorf("said %s", said)
	}
	for i := range table.Scores { // a fixed order: the first swap goes with the place too
		table.Scores[i].Position = int(table.Scores[i].Sample[1]-'0') + 1
	}
	r = analysed(t, table, Options{})
	if len(r.MixedUp) != 2 || !slices.Contains(r.MixedUp[0].With, "position") {
		t.Errorf("mixed up: %+v", r.MixedUp)
	}
}

// Means, differences and swaps do not depend on the order of rows, on what people
// are called, or on an evening's level.
func TestWhatMakesNoDifference(t *testing.T) {
	var in swapInput
	read(t, "swap_effects_missing", &in)
	table := in.table(t)
	base := analysed(t, table, Options{Original: "V0"})
	turned := &Table{Swaps: table.Swaps}
	for i := range table.Scores {
		s := table.Scores[len(table.Scores)-1-i]
		s.Panelist = "taster " + s.Panelist
		s.Value += 3 // everybody likes everything more
		turned.Scores = append(turned.Scores, s)
	}
	other := analysed(t, turned, Options{Original: "V0"})
	for _, a := range base.AgainstOriginal {
		at := slices.IndexFunc(other.AgainstOriginal, func(b Against) bool { return b.Sample == a.Sample })
		b := other.AgainstOriginal[at]
		if math.Abs(float64(a.Difference-b.Difference)) > 1e-10 || math.Abs(float64(a.SE-b.SE)) > 1e-10 {
			t.Errorf("%+v became %+v", a, b)
		}
	}
	for i, s := range base.Swaps {
		if math.Abs(float64(s.Effect-other.Swaps[i].Effect)) > 1e-10 || math.Abs(float64(s.High-other.Swaps[i].High)) > 1e-10 {
			t.Errorf("%+v became %+v", s, other.Swaps[i])
		}
	}
	copied := slices.Clone(table.Scores)
	if _, err := Analyse(table, Options{}); err != nil || !reflect.DeepEqual(copied, table.Scores) {
		t.Error("the table was changed")
	}
}

func TestBadTablesAndOptionsAreRefused(t *testing.T) {
	good := func() *Table { return scoresOf("1 A 5", "1 B 6", "2 A 4", "2 B 7") }
	swaps := &Swaps{Names: []string{"s"}, Samples: []string{"A"}, On: [][]bool{{false}}}
	for _, row := range []struct {
		name string
		t    *Table
		o    Options
		want string
	}{
		{"no scores", &Table{}, Options{}, "no score"},
		{"NaN", &Table{Scores: []Score{{Panelist: "1", Sample: "A", Attribute: "x", Value: math.NaN()}}}, Options{}, "cannot be used"},
		{"original", good(), Options{Original: "Z"}, `no sample is named "Z"; choose from A, B`},
		{"attribute", good(), Options{Attribute: "smell"}, "nothing was scored"},
		{"level", good(), Options{Level: 2}, "level"},
		{"limit", good(), Options{Limit: -1}, "0 or more"},
		{"a sample without a row", &Table{Scores: good().Scores, Swaps: swaps}, Options{}, "B: this sample has scores, but no line"},
		{"ticks missing", &Table{Scores: good().Scores, Swaps: &Swaps{Names: []string{"s"}, Samples: []string{"A", "B"}, On: [][]bool{{false}}}}, Options{}, "does not fit"},
	} {
		_, err := Analyse(row.t, row.o)
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v, want %q", row.name, err, row.want)
		}
	}
	if _, err := SwapEffects(good(), Options{}); err == nil {
		t.Error("no table of swaps, and no error")
	}
}

// The quick point is the slow one wherever correlations have no common factor.
func TestDunnettPointIsTheSlowOne(t *testing.T) {
	for _, row := range []struct {
		name string
		corr [][]float64
		df   float64
	}{
		{"equal", [][]float64{{1, .5, .5}, {.5, 1, .5}, {.5, .5, 1}}, 20},
		{"two", [][]float64{{1, .3}, {.3, 1}}, 9},
		{"near", [][]float64{{1, .51, .47, .55}, {.51, 1, .5, .42}, {.47, .5, 1, .6}, {.55, .42, .6, 1}}, 33},
		{"far", [][]float64{{1, .9, .1}, {.9, 1, .1}, {.1, .1, 1}}, 12},
		{"below 0", [][]float64{{1, -.4, .2}, {-.4, 1, .3}, {.2, .3, 1}}, 12},
	} {
		want, leave := stats.DunnettPoint(0.05, row.corr, row.df)
		if got := dunnettPoint(row.corr, row.df); math.Abs(got-want) > 2e-5+20*leave {
			t.Errorf("%s: %v, want %v", row.name, got, want)
		}
	}
}
