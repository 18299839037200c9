package exchange

import (
	"bytes"
	"encoding/csv"
	"errors"
	"flag"
	"math"
	"os"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

var update = flag.Bool("update", false, "write the golden files anew")

// fixture is two versions of a dish whose texts try every trap of a CSV: a
// comma, quotes, a line break, letters beyond ASCII, and cells a spreadsheet
// would run. Its figures are set by hand, so the golden file rests on nothing
// but this file.
func fixture() *Sheet {
	line := func(id, text string, g float64) *recipes.Line {
		from := recipes.GramsWeight
		if g == 0 {
			from = recipes.GramsUnknown
		}
		return &recipes.Line{ID: recipes.ID(id), Text: text, Name: text, Grams: g, GramsFrom: from, PartEaten: 1}
	}
	r := &recipes.Recipe{
		ID: "r", Title: `=HYPERLINK("http://x","Gratin"), the "old" one`, Servings: 4,
		Lines: []*recipes.Line{line("cream", "+300 ml Crème, épaisse", 300), line("salt", "salt to taste", 0), line("nuts", "@walnuts", 50)},
		Steps: []*recipes.Step{{ID: "1", Text: "- Pour the cream.\nWait."}, {ID: "2", Text: "Bake."}},
	}
	yogurt := &recipes.Swap{ID: "y", Recipe: "r", Order: 1, Name: "-yogurt for half the cream", Ops: []recipes.Op{
		{Kind: recipes.OpExchange, Line: "cream", Share: 0.5, Lines: []*recipes.Line{line("y.1", "150 g yogurt", 150)}},
		{Kind: recipes.OpStepReplace, Step: "1", Text: "Pour the cream, stir in the yogurt."},
	}}
	plain := &recipes.Swap{ID: "n", Recipe: "r", Order: 2, Name: "no nuts, pepper instead", Ops: []recipes.Op{
		{Kind: recipes.OpRemove, Line: "nuts"},
		{Kind: recipes.OpAdd, Lines: []*recipes.Line{line("n.1", "pepper", 2)}},
		{Kind: recipes.OpStepDrop, Step: "2"},
	}}
	s := &Sheet{Recipe: r, Swaps: []*recipes.Swap{yogurt, plain}}
	add := func(v *recipes.Version, kcal float64, on ...*recipes.Swap) *Column {
		c := Column{Draft: recipes.Compose(r, v, on), Serving: Figure{Amount: 87.5, Known: true, AtLeast: true}}
		c.Per[food.EnergyKcal] = Figure{Amount: kcal, Known: true}
		c.Per[food.Sodium] = Figure{Amount: 30, Known: true, AtLeast: true}
		for n := range c.Change {
			c.Change[n] = Change{Bound: "unknown", Percent: math.NaN()}
		}
		c.Change[food.EnergyKcal] = Change{Amount: kcal - 340, Percent: 100 * (kcal - 340) / 340, Bound: "exact"}
		c.Change[food.Sodium] = Change{Amount: -1.25, Percent: math.NaN(), Bound: "at_least"}
		s.Columns = append(s.Columns, c)
		return &s.Columns[len(s.Columns)-1]
	}
	add(nil, 340)
	add(&recipes.Version{ID: "a", Recipe: "r", Letter: "A", Name: "=1+1", Swaps: []recipes.ID{"y"}}, 230, yogurt)
	add(&recipes.Version{ID: "b", Recipe: "r", Letter: "B", Swaps: []recipes.ID{"n", "y"}, Servings: 6}, 1000.0/7, yogurt, plain)
	return s
}

func TestCSVIsAsBefore(t *testing.T) {
	var b bytes.Buffer
	if err := WriteCSV(&b, fixture()); err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/versions.csv"
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b.Bytes(), want) {
		t.Errorf("the CSV differs from %s:\n%s", golden, b.String())
	}
	var again bytes.Buffer
	if err := WriteCSV(&again, fixture()); err != nil || !bytes.Equal(again.Bytes(), b.Bytes()) {
		t.Error("the same sheet gives other bytes")
	}
}

func TestCSVReadsBackWithoutAFormula(t *testing.T) {
	var b bytes.Buffer
	if err := WriteCSV(&b, fixture()); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll() // one length for all rows, or an error
	if err != nil {
		t.Fatal(err)
	}
	if got, want := len(rows[0]), 3+2+5+5; got != want {
		t.Fatalf("%d cells, want %d", got, want)
	}
	for _, row := range rows[1:] {
		for i, cell := range row {
			number := i >= 3 && (row[0] == "nutrient" || row[0] == "ingredient" || row[0] == "about" && row[1] == "serving weight")
			if !number && cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				t.Errorf("row %s %s holds %q, which a spreadsheet runs", row[0], row[1], cell)
			}
		}
	}
}

func TestSafe(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"", ""},
		{"butter", "butter"},
		{"=1+1", "'=1+1"},
		{"+1", "'+1"},
		{"-1 egg", "'-1 egg"},
		{"@sum", "'@sum"},
		{"\tx", "'\tx"},
		{"\rx", "'\rx"},
		{"'x", "'x"},
		{"½ tsp =", "½ tsp ="},
		{"–2", "–2"},
	} {
		if got := safe(row.text); got != row.want {
			t.Errorf("%q becomes %q, want %q", row.text, got, row.want)
		}
	}
}

func TestFigure(t *testing.T) {
	for _, row := range []struct {
		v    float64
		want string
	}{
		{0, "0"},
		{-0.00001, "0"},
		{95.21666666, "95.2167"},
		{-143, "-143"},
		{0.5, "0.5"},
		{1234567.5, "1234567.5"},
		{100, "100"},
		{math.NaN(), ""},
		{math.Inf(1), ""},
	} {
		if got := figure(row.v); got != row.want {
			t.Errorf("%v is written %q, want %q", row.v, got, row.want)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestAFullDiskIsTold(t *testing.T) {
	s := fixture()
	if WriteCSV(full{}, s) == nil || WriteText(full{}, s.Columns[0].Draft) == nil || WriteJSONLD(full{}, &s.Columns[0]) == nil {
		t.Error("a failed write passed in silence")
	}
}
