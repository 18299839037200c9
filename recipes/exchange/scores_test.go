package exchange

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// atTable is a tasting of two samples with two tasters, serving.
func atTable(tb testing.TB) (*recipes.Book, *recipes.Tasting) {
	tb.Helper()
	b := &recipes.Book{}
	do := func(v recipes.Verb) {
		c, err := v(b)
		if err == nil {
			b, err = b.With(c)
		}
		if err != nil {
			tb.Fatal(err)
		}
	}
	leek := &food.Food{Ref: food.Ref{Source: "test", Code: "1"}, Name: "Leek", Allergens: food.Allergens{Recorded: true}}
	do(recipes.AddRecipe(&recipes.Recipe{ID: "r", Title: "Soup", Servings: 2, ServingsFrom: recipes.ServingsStated, Edition: 1, Lines: []*recipes.Line{
		{ID: "l", Text: "leek", Name: "leek", Grams: 100, GramsFrom: recipes.GramsWeight, Food: leek.Ref, PartEaten: 1},
	}}, []*food.Food{leek}))
	do(recipes.AddVersion("r", "A", "", ""))
	t := &recipes.Tasting{ID: "t", Recipe: "r", Date: "2026-03-04", Test: recipes.TestLiking, Attributes: []recipes.Attribute{
		{Name: "Overall", Kind: recipes.AskLiking}, {Name: "Salt", Kind: recipes.AskJustRight},
	}}
	for i, code := range []string{"AB", "=C"} {
		do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID(code), Code: code, Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
		t.Seats = append(t.Seats, recipes.Seat{Number: i + 1, Panelist: recipes.ID(code), Cups: []recipes.Cup{{Sample: "o", Code: 482}, {Sample: "a", Code: 619}}})
	}
	do(tasting.Put(t, []*recipes.Sample{{ID: "o", Code: "482"}, {ID: "a", Version: "A", Code: "619"}}))
	do(tasting.Begin("t"))
	return b, b.Tasting("t")
}

func TestFormsOfAFileOfScores(t *testing.T) {
	b, at := atTable(t)
	for _, row := range []struct{ name, text string }{
		{"long", "panelist,sample,attribute,score\nAB,482,Overall,7\nAB,619,Overall,5\nAB,482,Salt,3\n"},
		{"wide", "panelist,sample,Overall,Salt\nAB,482,7,3\nAB,619,5,\n"},
		{"wide by code", "Panelist;482 Overall;619 Overall;482 Salt\r\nab;7,0;5;3\r\n"},
		{"by seat, other order, byte-order mark, tabs", "\ufeffscore\tattribute\tsample\tpanelist\n7\toverall\t482\t1\n5\tOVERALL\t619\t1\n3\tSalt\t482\t1\n"},
		{"wide with tabs and empty cells", "panelist\tsample\tOverall\tSalt\nAB\t482\t7\t3\nAB\t619\t5\t\n"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, faults, err := ReadScores([]byte(row.text), "x.csv", b, at)
			if err != nil || len(faults) > 0 {
				t.Fatal(err, faults)
			}
			said := map[string]float64{}
			for _, a := range got {
				for q, v := range a.Scores {
					said[fmt.Sprint(a.Seat, a.Code, q)] = v
				}
			}
			if len(said) != 3 || said["1 482Overall"] != 7 || said["1 619Overall"] != 5 || said["1 482Salt"] != 3 {
				t.Errorf("%v", said)
			}
		})
	}
}

func TestBallotsReadBack(t *testing.T) {
	b, at := atTable(t)
	answers := []tasting.Answer{
		{Seat: 1, Code: 482, Scores: map[string]float64{"Overall": 7, "Salt": 4}, Note: "a little, salty", Source: recipes.FromPaper},
		{Seat: 2, Code: 619, Scores: map[string]float64{"Overall": 3}, Source: recipes.FromPaper},
		{Seat: 2, Scores: map[string]float64{"usual": 619}, Source: recipes.FromPaper},
	}
	n := 0
	c, err := tasting.Record("t", func() recipes.ID { n++; return recipes.ID(fmt.Sprint("s", n)) }, answers...)(b)
	if err == nil {
		b, err = b.With(c)
	}
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	if err := WriteBallots(&out, b, b.Tasting("t")); err != nil {
		t.Fatal(err)
	}
	got, faults, err := ReadScores([]byte(out.String()), "x.csv", b, at)
	if err != nil || len(faults) > 0 || len(got) != 3 {
		t.Fatalf("%v %v %v\n%s", got, faults, err, out.String())
	}
	if got[0].Scores["Salt"] != 4 || got[0].Note != "a little, salty" || got[1].Seat != 2 || got[2].Scores["usual"] != 619 {
		t.Errorf("%+v", got)
	}
	if err := WriteScores(&out, b, "t"); err == nil {
		t.Error("scores met versions before closing")
	}
	if strings.Contains(out.String(), "riginal") || strings.Contains(out.String(), ",A,") {
		t.Errorf("a version is told: %s", out.String())
	}
}

func FuzzReadScores(f *testing.F) {
	b, at := atTable(f)
	for _, s := range []string{
		"panelist,sample,attribute,score\nAB,482,Overall,7\n", "panelist;482 Overall\nAB;7,0\n", "\ufeffpanelist\tsample\tOverall\r\n1\t482\t9\r\n",
		"panelist,sample,attribute,score\nAB,482,Overall,NaN\n", "panelist,sample\n", "", "\x00", "panelist,\"sample\nx", "panelist,sample,attribute,score\n'=C,0,usual,0\n",
		"panelist,panelist\n", "panelist,sample,attribute,score\nAB,482,Overall,1e999\nAB,99999999999999999999,Overall,1\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		answers, faults, err := ReadScores(data, "x.csv", b, at)
		if err != nil || len(faults) > 0 {
			return
		}
		n := 0
		c, err := tasting.Record("t", func() recipes.ID { n++; return recipes.ID(fmt.Sprint("s", n)) }, answers...)(b)
		if err == nil {
			_, err = b.With(c)
		}
		if err != nil {
			t.Fatalf("what was read without a fault is refused: %v", err)
		}
	})
}

// Rows that say nothing are passed over, of an empty seat too; a cup that does not
// stand there is named whether answered or not.
func TestRowsWithoutAnswers(t *testing.T) {
	b, at := atTable(t)
	free := *at
	free.Seats = append(slices.Clone(at.Seats), recipes.Seat{Number: 3, Cups: at.Seats[0].Cups})
	for _, row := range []struct{ name, text, fault string }{
		{"a free seat left empty", "panelist,sample,Overall\n3,482,\nAB,482,7\n", ""},
		{"long, without a score", "panelist,sample,attribute,score\n3,482,,\nAB,482,Overall,7\n", ""},
		{"a free seat with a score", "panelist,sample,Overall\n3,482,4\nAB,482,7\n", "x.csv, line 2, Seat 3: nobody sits here yet"},
		{"a free seat with a note", "panelist,sample,Overall,note\n3,482,,good\nAB,482,7,\n", "x.csv, line 2, Seat 3: nobody sits here yet"},
		{"no such cup, no answer", "panelist,sample,Overall\nAB,999,\nAB,482,7\n", "x.csv, line 2: there is no cup with the code 999"},
		{"the whole tray, empty", "panelist,sample,Overall,usual\nAB,,,482\nAB,482,7,\n", ""},
		{"the whole tray, 0", "panelist,sample,Overall,usual\nAB,0,,482\nAB,482,7,\n", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, faults, err := ReadScores([]byte(row.text), "x.csv", b, &free)
			if err != nil || (len(faults) == 0) != (row.fault == "") || len(faults) > 1 {
				t.Fatal(err, faults)
			}
			if len(faults) == 1 && !strings.Contains(faults[0].Error(), row.fault) {
				t.Errorf("%v", faults[0])
			}
		})
	}
}

func TestBlankBallotsLeaveTheTrayWithoutACode(t *testing.T) {
	b, at := atTable(t)
	var out strings.Builder
	if err := WriteBlankBallots(&out, b, at); err != nil || !strings.Contains(out.String(), "\nAB,,") || strings.Contains(out.String(), ",0,") {
		t.Errorf("%v\n%s", err, out.String())
	}
}
