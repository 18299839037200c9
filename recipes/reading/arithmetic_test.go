package reading

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// weighed is one ingredient as a person with the published tables weighs it:
// USDA number, grams, and how they come about. Weights of cups, spoons and
// counts are those of the USDA tables (SR26 WEIGHT, SR28 ABBREV); 1 lb is
// 453.6 g, 1 oz 28.35 g; a metric spoon is 15 or 5 ml, a US one 14.8 or 4.9 ml.
type weighed struct {
	ndb   string
	grams float64
	why   string
}

// byHand holds whole recipes worked out by hand. Salt "to taste" is left out,
// as it is unknown to the program too.
var byHand = []struct {
	file   string
	system measure.System
	rows   []weighed
}{
	{"beef-chili.txt", measure.US, []weighed{
		{"23572", 453.6, "1 lb ground beef, 80% lean"},
		{"04053", 13.5, "1 tbsp olive oil"},
		{"11282", 150, "1 large onion"},
		{"11215", 9, "3 cloves of 3 g"},
		{"11333", 119, "1 medium green pepper"},
		{"02009", 16, "2 tbsp chili powder of 8 g"},
		{"02014", 2.1, "1 tsp cumin"},
		{"11693", 793.8, "28 oz crushed tomatoes"},
		{"16018", 510.3, "2 x 15 oz beans, drained share 0.6 of 850.5 g"},
		{"06183", 240, "1 cup broth"},
		{"02047", 6, "1 tsp salt"},
		{"01009", 113.4, "4 oz Cheddar"},
	}},
	{"haddock-gratin.txt", measure.Metric, []weighed{
		{"01145", 60, "butter"},
		{"11246", 267, "3 leeks of 89 g"},
		{"20081", 40, "flour"},
		{"01077", 412.5, "400 ml milk: 244 g a US cup of 236.6 ml"},
		{"01053", 201.2, "200 ml cream: 238 g a US cup"},
		{"15035", 700, "smoked haddock"},
		{"11352", 750, "potatoes"},
		{"01009", 75, "Cheddar"},
		{"18069", 50, "crumbs of white bread"},
		{"04053", 13.7, "1 tbsp oil: 13.5 g for 14.8 ml, so 13.7 g for 15 ml"},
		{"11297", 6, "a small handful of parsley"},
		{"02030", 0.5, "pepper, a quarter teaspoon"},
	}},
	{"lemon-loaf.txt", measure.Metric, []weighed{
		{"01001", 175, "butter"},
		{"19335", 175, "caster sugar"},
		{"01123", 180, "3 large eggs of the EU class: 68 g in shell, 0.88 of it eaten"},
		{"20082", 100, "self-raising flour"},
		{"12062", 100, "ground almonds: blanched"},
		{"18369", 4.67, "1 tsp baking powder: 4.6 g for 4.93 ml"},
		{"09152", 48, "juice of 1 lemon"},
		{"09156", 6, "zest of 1 lemon, a tablespoon"},
		{"01077", 31, "2 tbsp of 15 ml milk"},
		{"19336", 100, "icing sugar"},
		{"09152", 23.2, "1 1/2 tbsp of 15 ml lemon juice: 244 g a cup"},
	}},
	{"pancakes.txt", measure.US, []weighed{
		{"20081", 250, "2 cups flour of 125 g"},
		{"19335", 25, "2 tbsp sugar: an eighth of 200 g"},
		{"18369", 9.2, "2 tsp baking powder of 4.6 g"},
		{"18372", 4.6, "1 tsp baking soda"},
		{"02047", 3, "1/2 tsp salt"},
		{"01088", 490, "2 cups buttermilk of 245 g"},
		{"01123", 100, "2 large eggs"},
		{"01145", 56.5, "half a stick of butter, 113 g a stick"},
		{"02050", 4.2, "1 tsp vanilla extract"},
	}},
	{"macaroni.txt", measure.US, []weighed{
		{"20120", 453.6, "1 lb macaroni"},
		{"01001", 56.8, "4 tbsp butter of 14.2 g"},
		{"20081", 31.25, "1/4 cup flour"},
		{"01077", 732, "3 cups milk of 244 g"},
		{"01009", 340.2, "12 oz Cheddar"},
		{"02024", 1, "1/2 tsp dry mustard"},
		{"02031", 0.45, "1/4 tsp cayenne"},
		{"02047", 4.8, "1 tsp kosher salt: 2.8 to 4.8 g, the heavier"},
		{"02030", 0.5, "pepper, a quarter teaspoon"},
	}},
	{"lentil-soup.txt", measure.Metric, []weighed{
		{"04053", 13.7, "1 tbsp oil of 15 ml"},
		{"11282", 110, "1 medium onion"},
		{"11124", 122, "2 medium carrots of 61 g"},
		{"11143", 80, "2 medium sticks of celery of 40 g"},
		{"11215", 6, "2 cloves"},
		{"02014", 4.2, "2 tsp cumin"},
		{"16144", 200, "red lentils"},
		{"11531", 400, "tinned tomatoes"},
		{"06700", 934, "1 litre vegetable stock: 221 g a US cup"},
		{"09152", 24, "juice of half a lemon"},
		{"01116", 62.1, "4 tbsp of 15 ml yogurt: 245 g a US cup"},
	}},
	{"chicken-curry.txt", measure.Metric, []weighed{
		{"05062", 600, "4 breasts of 150 g"},
		{"04506", 27.6, "2 tbsp of 15 ml oil: 218 g a US cup"},
		{"11282", 220, "2 medium onions"},
		{"11215", 12, "4 cloves"},
		{"11216", 25, "5 cm ginger, from memory 5 g a cm"},
		{"11819", 45, "1 red chilli"},
		{"02015", 6.4, "1 tbsp curry powder"},
		{"02043", 3, "1 tsp turmeric"},
		{"12118", 382, "400 ml coconut milk: 226 g a US cup"},
		{"11457", 200, "spinach"},
		{"02047", 6.1, "1 tsp of 5 ml salt"},
		{"20044", 300, "basmati: long-grain rice, dry"},
	}},
	{"brownies.txt", measure.US, []weighed{
		{"01145", 227, "1 cup butter"},
		{"19903", 226.8, "8 oz bittersweet chocolate"},
		{"19335", 350, "1 3/4 cups sugar of 200 g"},
		{"01123", 200, "4 large eggs"},
		{"02050", 8.4, "2 tsp vanilla"},
		{"20081", 125, "1 cup flour"},
		{"19165", 43, "1/2 cup cocoa"},
		{"02047", 3, "1/2 tsp salt"},
		{"12155", 117, "1 cup chopped walnuts"},
	}},
	{"shepherds-pie.txt", measure.Metric, []weighed{
		{"17224", 500, "minced lamb"},
		{"11282", 150, "1 large onion"},
		{"11124", 122, "2 medium carrots"},
		{"11546", 16.2, "1 tbsp of 15 ml tomato puree, British: paste"},
		{"20081", 7.9, "1 tbsp of 15 ml flour"},
		{"06008", 304.3, "300 ml beef stock: 240 g a US cup"},
		{"06971", 17.2, "1 tbsp Worcestershire sauce"},
		{"02049", 2, "2 sprigs of thyme"},
		{"11352", 900, "potatoes"},
		{"01001", 50, "butter"},
		{"01077", 103.1, "100 ml milk"},
		{"11312", 100, "frozen peas"},
	}},
	{"risotto.txt", measure.Metric, []weighed{
		{"20050", 300, "arborio: medium-grain rice, dry"},
		{"11266", 250, "chestnut mushrooms"},
		{"11677", 25, "1 shallot"},
		{"01001", 50, "butter"},
		{"14106", 124.3, "125 ml white wine: 29.4 g a US fl oz"},
		{"06194", 1052, "1 litre chicken stock"},
		{"01033", 60, "Parmesan"},
		{"11297", 3.9, "1 tbsp parsley"},
	}},
	{"tuna-pasta.txt", measure.Metric, []weighed{
		{"20120", 200, "penne"},
		{"15121", 104, "145 g tin, about 104 g drained"},
		{"11172", 200, "tinned sweetcorn, drained weight"},
		{"04025", 42, "3 tbsp of 15 ml mayonnaise: 13.8 g for 14.8 ml"},
		{"11282", 55, "half a medium onion"},
		{"11143", 40, "1 stick of celery"},
		{"09152", 24, "juice of half a lemon"},
		{"02030", 0.5, "pepper"},
	}},
	{"oat-cookies.txt", measure.US, []weighed{
		{"01001", 227, "1 cup butter"},
		{"19334", 220, "1 cup packed brown sugar"},
		{"19335", 100, "1/2 cup sugar"},
		{"01123", 100, "2 eggs"},
		{"02050", 4.2, "1 tsp vanilla"},
		{"20081", 187.5, "1 1/2 cups flour"},
		{"18372", 4.6, "1 tsp baking soda"},
		{"02047", 3, "1/2 tsp salt"},
		{"02010", 2.6, "1 tsp cinnamon"},
		{"08120", 243, "3 cups oats of 81 g"},
		{"09298", 145, "1 cup raisins"},
	}},
}

// columns are read from the published table by its own headings.
var columns = []struct {
	heading string
	n       food.Nutrient
	within  float64
}{
	{"Energ_Kcal", food.EnergyKcal, 0.03},
	{"Protein_(g)", food.Protein, 0.05},
	{"Lipid_Tot_(g)", food.Fat, 0.05},
	{"FA_Sat_(g)", food.SaturatedFat, 0.05},
	{"Carbohydrt_(g)", food.Carbohydrate, 0.05},
	{"Sodium_(mg)", food.Sodium, 0.05},
}

// published reads the columns of the reference table by number; it skips the
// test where the table is not there.
func published(t *testing.T) map[string][]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join(repoRoot(t), "..", "shared", "reference", "usda-sr28", "ABBREV.csv"))
	if err != nil {
		t.Skip("the reference table is not beside the repository")
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := make([]int, len(columns))
	for i, c := range columns {
		at[i] = -1
		for j, h := range rows[0] {
			if h == c.heading {
				at[i] = j
			}
		}
		if at[i] < 0 {
			t.Fatalf("the table has no column %s", c.heading)
		}
	}
	out := map[string][]float64{}
	for _, r := range rows[1:] {
		v := make([]float64, len(columns))
		for i := range columns {
			v[i], _ = strconv.ParseFloat(r[at[i]], 64)
		}
		out[r[0]] = v
	}
	return out
}

// repoRoot walks up to the folder with go.mod.
func repoRoot(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

// totals sums the draft's known lines from the food table.
func totals(tab *food.Table, lines []*recipes.Line) []float64 {
	sum := make([]float64, len(columns))
	for _, l := range lines {
		f := tab.Get(l.Food)
		if f == nil || !l.Known() {
			continue
		}
		for i, c := range columns {
			v, _ := f.Per100.Get(c.n)
			sum[i] += v * l.Grams * l.PartEaten / 100
		}
	}
	return sum
}

func TestTotalsAgainstHandArithmetic(t *testing.T) {
	ref := published(t)
	for _, r := range byHand {
		b, err := os.ReadFile(filepath.Join("testdata", r.file))
		if err != nil {
			t.Fatal(err)
		}
		d, err := ReadText(string(b), Options{Foods: table(t), System: r.system})
		if err != nil {
			t.Fatal(err)
		}
		want := make([]float64, len(columns))
		for _, w := range r.rows {
			v, ok := ref[w.ndb]
			if !ok {
				t.Fatalf("%s: %s (%s) is not in the table", r.file, w.ndb, w.why)
			}
			for i := range columns {
				want[i] += v[i] * w.grams / 100
			}
		}
		got := totals(table(t), d.Lines)
		for i, c := range columns {
			off := math.Abs(got[i]-want[i]) / want[i]
			if off > c.within {
				t.Errorf("%s: %s %.1f, by hand %.1f (%.1f %% off)", r.file, c.heading, got[i], want[i], off*100)
			}
			t.Logf("%s: %s %.1f by hand %.1f, %.2f %%", r.file, c.heading, got[i], want[i], off*100)
		}
	}
}
