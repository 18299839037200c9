package archive

import (
	"bytes"
	"encoding/base64"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// evening is a workbook with a tasting by liking and an odd one out. cups names
// what is in the cups of the first by code, odd the sample that stands alone in
// the second.
func evening(t testing.TB, state recipes.TastingState, cups [3]recipes.ID, odd int) *workbook.File {
	t.Helper()
	like := &recipes.Tasting{
		ID: "t", Recipe: "r", Edition: 1, Date: "2026-03-04", Test: recipes.TestLiking, State: state, Seed: 7,
		Attributes: []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}},
	}
	three := &recipes.Tasting{ID: "u", Recipe: "r", Edition: 1, Date: "2026-03-05", Test: "triangle", State: state, Seed: 8}
	all := []recipes.Entity{
		&recipes.Recipe{ID: "r", Title: "Loaf", Servings: 8}, &recipes.Version{ID: "v", Recipe: "r", Letter: "Q"},
		&recipes.Panelist{ID: "p", Code: "AM"}, &recipes.Panelist{ID: "q", Code: "BN"}, like, three,
		&recipes.Sample{ID: "one", Tasting: "u", Pot: 1, Place: 1, Code: "215"}, &recipes.Sample{ID: "two", Tasting: "u", Version: "v", Pot: 1, Place: 2, Code: "369"},
	}
	samples := map[recipes.ID]*recipes.Sample{
		"a": {ID: "a", Tasting: "t", Pot: 1, Place: 1, Cook: "Jo"},
		"b": {ID: "b", Tasting: "t", Version: "v", Pot: 1, Place: 2, Celsius: 62},
		"c": {ID: "c", Tasting: "t", Version: "v", Pot: 2, Place: 3, Held: 10},
	}
	for n, who := range []recipes.ID{"p", "q"} {
		seat := recipes.Seat{Number: n + 1, Panelist: who}
		for i, code := range []int{482, 571, 639} {
			seat.Cups = append(seat.Cups, recipes.Cup{Sample: cups[i], Code: code})
			samples[cups[i]].Code = []string{"482", "571", "639"}[i]
			if state == recipes.TastingPlanned {
				continue
			}
			all = append(all, &recipes.Serving{
				ID: who + recipes.ID("xyz"[i:i+1]), Tasting: "t", Sample: cups[i], Panelist: who, Position: i + 1, Source: recipes.FromPaper,
				Scores: map[string]float64{"Overall": float64(i + 4)},
			})
		}
		like.Seats = append(like.Seats, seat)
		tray := recipes.Seat{Number: n + 1, Panelist: who, Cups: []recipes.Cup{{Sample: "one", Code: 215}, {Sample: "one", Code: 369}, {Sample: "one", Code: 748}}}
		tray.Cups[odd].Sample = "two"
		three.Seats = append(three.Seats, tray)
		if state == recipes.TastingPlanned {
			continue
		}
		all = append(all, &recipes.Serving{ID: who + "tray", Tasting: "u", Panelist: who, Source: recipes.FromPaper, Scores: map[string]float64{recipes.AskChoice: 369}})
	}
	all = append(all, samples["a"], samples["b"], samples["c"])
	path := filepath.Join(t.TempDir(), "evening.parewell")
	if err := workbook.SaveBook(path, recipes.NewBook(all), clock); err != nil {
		t.Fatal(err)
	}
	return open(t, path)
}

// Before closing, no file depends on which code is which dish: with other dishes
// under the same codes all of them are the same, but for what is folded up.
func TestNoFileTellsWhatACupHoldsBeforeClosing(t *testing.T) {
	for _, state := range []recipes.TastingState{recipes.TastingPlanned, recipes.TastingServing} {
		for _, people := range []bool{true, false} {
			first := out(t, evening(t, state, [3]recipes.ID{"a", "b", "c"}, 0), people)
			second := out(t, evening(t, state, [3]recipes.ID{"c", "a", "b"}, 2), people)
			for name, file := range first {
				a, b := string(file.Data), string(second[name].Data)
				if name == DataName {
					a, b = withoutSeals(t, a), withoutSeals(t, b)
				}
				if a != b {
					t.Errorf("%s, people %t: %s tells dishes apart:\n%s\n%s", state, people, name, a, b)
				}
			}
		}
	}
	a := out(t, evening(t, recipes.TastingClosed, [3]recipes.ID{"a", "b", "c"}, 0), true)
	b := out(t, evening(t, recipes.TastingClosed, [3]recipes.ID{"c", "a", "b"}, 2), true)
	for _, name := range []string{DataName, "seats.csv", "samples.csv", "scores.csv"} {
		if bytes.Equal(a[name].Data, b[name].Data) {
			t.Errorf("%s does not tell what the cups held once it is closed", name)
		}
	}
}

// withoutSeals leaves the one list out that may tell, and wants it folded up.
func withoutSeals(t *testing.T, data string) string {
	t.Helper()
	before, rest, ok := strings.Cut(data, `"sealed": [`)
	folded, after, ends := strings.Cut(rest, "]")
	if !ok || !ends || strings.Contains(folded, "482") || strings.Count(folded, `"tasting"`) != 2 {
		t.Fatalf("what is sealed: %q", folded)
	}
	return before + after
}

// A seal that is not the one of its tasting is refused with its place; codes that
// stand open, as before they were sealed, are read.
func TestWrongSealsAreRefused(t *testing.T) {
	sound := out(t, evening(t, recipes.TastingServing, [3]recipes.ID{"a", "b", "c"}, 0), true)
	text := string(sound[DataName].Data)
	_, held, _ := strings.Cut(text, `"open_only_after_closing":"`)
	held, _, _ = strings.Cut(held, `"`)
	fold := func(s string) string { return base64.StdEncoding.EncodeToString([]byte(s)) }
	for _, row := range []struct{ name, data, key string }{
		{"no tasting", strings.Replace(text, `{"tasting":"t","open`, `{"tasting":"w","open`, 1), "archive.seal"},
		{"twice", strings.Replace(text, `{"tasting":"u","open`, `{"tasting":"t","open`, 1), "archive.twice"},
		{"not folded", strings.Replace(text, held, "?", 1), "archive.field"},
		{"too few cups", strings.Replace(text, held, fold(`{"cups":[["a"]],"codes":{}}`), 1), "archive.seal"},
		{"something else", strings.Replace(text, held, fold(`{"lid":1}`), 1), "archive.unknown"},
		{"an older form", strings.Replace(text, `"form": 2`, `"form": 1`, 1), "archive.unknown-list"},
	} {
		t.Run(row.name, func(t *testing.T) {
			folder := fstest.MapFS{DataName: {Data: []byte(row.data)}}
			_, err := Read(ctx, folder)
			if want, _, _ := strings.Cut(words.Say(row.key, "\x00"), "\x00"); err == nil || !strings.Contains(err.Error(), DataName) || !strings.Contains(err.Error(), want) {
				t.Errorf("%v, want %s", err, want)
			}
		})
	}
}
