package nutrition

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestAlcoholKept holds the table: USDA Table of Nutrient Retention Factors,
// Release 6 (2007), codes 5001-5010; Augustin et al. 1992, J Am Diet Assoc
// 92:486-488. Times between are our own straight lines.
func TestAlcoholKept(t *testing.T) {
	rows := []struct {
		name    string
		method  string
		minutes float64
		want    float64
		sure    bool
	}{
		{"not cooked", "raw", 0, 1, true},
		{"no heat, overnight", "raw", 600, 0.70, true},
		{"flamed", "flamed", 0, 0.75, true},
		{"stirred in, 15 min", "simmered", 15, 0.40, true},
		{"stirred in, 30 min", "baked", 30, 0.35, true},
		{"stirred in, 1 h", "braised", 60, 0.25, true},
		{"stirred in, 1.5 h", "simmered", 90, 0.20, true},
		{"stirred in, 2 h", "simmered", 120, 0.10, true},
		{"stirred in, 2.5 h", "simmered", 150, 0.05, true},
		{"longer than the table", "simmered", 400, 0.05, true},
		{"between two times, our choice", "simmered", 45, 0.30, true},
		{"time not stated", "simmered", 0, 0.85, false},
		{"method not stated", "", 60, 1, true},
	}
	for _, r := range rows {
		got, sure := AlcoholKept(recipes.Technique{Method: r.method, Minutes: r.minutes})
		if math.Abs(got-r.want) > 1e-9 || sure != r.sure {
			t.Errorf("%s: %v %v, want %v %v", r.name, got, sure, r.want, r.sure)
		}
	}
}

// TestBraise is case constructed-braise of the reference folder's worked
// examples (constructed, not published: SR28 rows, alcohol code 5006, 6.93
// kcal/g, yield 0.72 on the recipe). Rows are USDA SR28.
func TestBraise(t *testing.T) {
	l := newLarder(1, 0, 1)
	row := func(name string, kcal, protein, fat, carb, sodium, alcohol float64) *food.Food {
		return l.plain(name, map[food.Nutrient]float64{
			food.EnergyKcal: kcal, food.Protein: protein, food.Fat: fat, food.Carbohydrate: carb, food.Sodium: sodium, food.Alcohol: alcohol,
		})
	}
	r := dish(4,
		l.line(row("05096", 121, 19.66, 4.12, 0, 95, 0), 600),
		l.line(row("11282", 40, 1.1, 0.1, 9.34, 4, 0), 200),
		l.line(row("04053", 884, 0, 100, 0, 2, 0), 20),
		l.line(row("11885", 16, 0.79, 0.25, 3.47, 10, 0), 400),
		l.line(row("14106", 82, 0.07, 0, 2.6, 5, 10.27), 150),
		l.line(row("02047", 0, 0, 0, 0, 38758, 0), 4))
	r.Dish = recipes.Technique{Method: "braised", Minutes: 60}
	k := Kitchen{Foods: l.get, Weighed: func(*recipes.Draft) (Weighed, bool) { return Weighed{Mean: 1374 * 0.72, Tests: 1}, true }}
	a := k.Of(recipes.Compose(r, nil, nil))
	rows := []struct {
		name      string
		got, want float64
		tolerance float64
	}{
		{"raw weight", first(a.RawGrams()), 1374, 1e-9},
		{"cooked weight", first(a.CookedGrams()), 989.3, 1e-4},
		{"energy", a.Total(food.EnergyKcal).Amount, 1089.7, 5e-4},
		{"energy a serving", a.PerServing(food.EnergyKcal).Amount, 272.4, 5e-4},
		{"energy per 100 g cooked", a.Per100g(food.EnergyKcal).Amount, 110.2, 5e-4},
		{"fat a serving", a.PerServing(food.Fat).Amount, 11.48, 5e-4},
		{"protein", a.Total(food.Protein).Amount, 123.42, 5e-4},
		{"sodium a serving", a.PerServing(food.Sodium).Amount, 544.1, 5e-4},
		{"alcohol that stays", a.Total(food.Alcohol).Amount, 15.41 * 0.25, 1e-3},
	}
	for _, x := range rows {
		if !near(x.got, x.want, x.tolerance) {
			t.Errorf("%s: %v, want %v", x.name, x.got, x.want)
		}
	}
	if a.CookedBy != CookedMeasured {
		t.Errorf("weight by %s", a.CookedBy)
	}
}

func first(v float64, _ bool) float64 { return v }

// TestFatPouredOff: 500 g of 80/20 beef (USDA SR28 23572: 20 g fat, 17.17 g
// protein, 254 kcal) with 45 g of beef tallow (04001: all fat, 902 kcal) poured
// off loses 45 g of fat and no protein; more than it holds cannot come off.
func TestFatPouredOff(t *testing.T) {
	l := newLarder(2, 0, 1)
	beef := l.plain("23572", map[food.Nutrient]float64{food.EnergyKcal: 254, food.Fat: 20, food.Protein: 17.17})
	tallow := l.plain("04001", map[food.Nutrient]float64{food.EnergyKcal: 902, food.Fat: 100})
	pot := l.line(beef, 500)
	off := func(grams float64) *recipes.Line {
		x := l.line(tallow, grams)
		x.Kind, x.OffOf = recipes.TakenOff, pot.ID
		return x
	}
	plain := l.of(dish(1, pot), nil)
	rows := []struct {
		name          string
		grams         float64
		fat, protein  float64
		eaten, energy float64
	}{
		{"45 g", 45, 100 - 45, 85.85, 455, 1270 - 405.9},
		{"more than there is", 160, 0, 85.85, 400, 1270 - 902},
	}
	for _, r := range rows {
		a := l.of(dish(1, pot, off(r.grams)), nil)
		got := []float64{a.Total(food.Fat).Amount, a.Total(food.Protein).Amount, first(a.RawGrams()), a.Total(food.EnergyKcal).Amount}
		for i, want := range []float64{r.fat, r.protein, r.eaten, r.energy} {
			if !near(got[i], want, 1e-9) {
				t.Errorf("%s: figure %d is %v, want %v", r.name, i, got[i], want)
			}
		}
	}
	if plain.Total(food.Protein).Amount != l.of(dish(1, pot, off(45)), nil).Total(food.Protein).Amount {
		t.Error("protein left with the fat")
	}
	cooked := l.plain("23575", map[food.Nutrient]float64{food.EnergyKcal: 272, food.Fat: 17.36, food.Protein: 27})
	cooked.State = food.Cooked
	done := l.line(cooked, 300)
	x := l.line(tallow, 20)
	x.Kind, x.OffOf = recipes.TakenOff, done.ID
	if got := l.of(dish(1, done, x), nil).Total(food.Fat).Amount; !near(got, 52.08, 1e-9) {
		t.Errorf("fat %v: a row that lost its fat already must not lose it again", got)
	}
}

// TestSavingsWithTakenOff: the sum to 1e-9 holds when a swap changes the line
// that fat is poured off, down to where the cap bites.
func TestSavingsWithTakenOff(t *testing.T) {
	l := newLarder(3, 0, 1)
	beef := l.plain("beef", map[food.Nutrient]float64{food.EnergyKcal: 254, food.Fat: 20, food.Protein: 17.17})
	tallow := l.plain("tallow", map[food.Nutrient]float64{food.EnergyKcal: 902, food.Fat: 100})
	pot := l.line(beef, 500)
	off := l.line(tallow, 45)
	off.Kind, off.OffOf = recipes.TakenOff, pot.ID
	r := dish(4, pot, off)
	less := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: pot.ID, Factor: 0.2}) // 20 g of fat left: the cap bites
	half := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: off.ID, Factor: 0.5})
	on := []*recipes.Swap{less, half}
	s, err := SavingsOf(r, nil, on, l.get)
	if err != nil {
		t.Fatal(err)
	}
	sum := s.Of(0, food.Fat).Amount + s.Of(1, food.Fat).Amount
	want := Compare(l.of(r, nil), l.of(r, nil, on...), food.Fat).Amount
	if !near(sum, want, 1e-9) || want >= 0 {
		t.Errorf("swaps make %v, the change is %v", sum, want)
	}
}

func TestSubRecipe(t *testing.T) {
	l := newLarder(4, 0, 1)
	wine := l.plain("wine", map[food.Nutrient]float64{food.EnergyKcal: 82, food.Alcohol: 10})
	sauce := dish(4, l.line(wine, 400))
	sauce.ID, sauce.Dish = "sauce", recipes.Technique{Method: "simmered", Minutes: 60}
	k := Kitchen{Foods: l.get}
	inner := k.Of(recipes.Compose(sauce, nil, nil))
	k.Sub = func(recipes.SubRecipe) *Account { return inner }
	one := func(s recipes.SubRecipe) float64 {
		line := &recipes.Line{ID: l.id(), Text: "sauce", PartEaten: 1, GramsFrom: recipes.GramsTyped, Grams: 1, Sub: &s}
		r := dish(1, line)
		r.Dish = recipes.Technique{Method: "baked", Minutes: 60}
		return k.Of(recipes.Compose(r, nil, nil)).Total(food.Alcohol).Amount
	}
	// 40 g of alcohol, a quarter stays: 10 g a batch, applied once, not again by baking
	cooked, _ := inner.CookedGrams()
	rows := []struct {
		name string
		sub  recipes.SubRecipe
		want float64
	}{
		{"a batch", recipes.SubRecipe{Recipe: "sauce", Batches: 1}, 10},
		{"two servings of four", recipes.SubRecipe{Recipe: "sauce", Servings: 2}, 5},
		{"half its cooked weight", recipes.SubRecipe{Recipe: "sauce", Grams: cooked / 2}, 5},
	}
	for _, r := range rows {
		if got := one(r.sub); !near(got, r.want, 1e-9) {
			t.Errorf("%s: %v g, want %v", r.name, got, r.want)
		}
	}
}

func TestUptakeTakesEachPartItsShare(t *testing.T) {
	l := newLarder(5, 0, 1)
	brine := l.plain("brine", map[food.Nutrient]float64{food.Sodium: 1938, food.Water: 95})
	x := l.line(brine, 1000)
	x.Uptake = &recipes.Uptake{Water: 0.03, Salt: 0.10}
	a := l.of(dish(1, x), nil)
	if got := a.Total(food.Sodium).Amount; !near(got, 1938, 1e-9) {
		t.Errorf("sodium %v, want a tenth of 19,380 mg", got)
	}
	if got := a.Total(food.Water).Amount; !near(got, 28.5, 1e-9) {
		t.Errorf("water %v, want 3 %% of 950 g", got)
	}
}

func TestBasesOfCookedWeight(t *testing.T) {
	l := newLarder(6, 0, 1)
	stew := l.plain("stew", map[food.Nutrient]float64{food.EnergyKcal: 100})
	r := dish(2, l.line(stew, 1000))
	raw := l.of(r, nil)
	c := *r
	c.Dish = recipes.Technique{Method: "baked", Minutes: 30}
	estimated := Of(recipes.Compose(&c, nil, nil), l.get)
	weighed := Kitchen{Foods: l.get, Weighed: func(*recipes.Draft) (Weighed, bool) {
		return Weighed{Mean: 800, Low: 780, High: 820, Tests: 2}, true
	}}.Of(recipes.Compose(&c, nil, nil))
	for _, row := range []struct {
		a    *Account
		want CookedFrom
		per  float64
	}{{raw, CookedRaw, 100}, {estimated, CookedEstimated, 100 / 0.9}, {weighed, CookedMeasured, 125}} {
		if got := row.a.Per100g(food.EnergyKcal).Amount; row.a.CookedBy != row.want || !near(got, row.per, 1e-9) {
			t.Errorf("%s: %v kcal per 100 g, want %s %v", row.a.CookedBy, got, row.want, row.per)
		}
		if got := row.a.Total(food.EnergyKcal).Amount; got != 1000 {
			t.Errorf("%s: the weight changed a nutrient: %v", row.want, got)
		}
	}
	if b := CommonBasis([]*Account{weighed, estimated}); b != CookedEstimated || weighed.CookedBy != CookedEstimated {
		t.Errorf("one basis in a comparison: %s", b)
	}
	if b := CommonBasis([]*Account{weighed, estimated, raw}); b != CookedRaw || !near(weighed.Per100g(food.EnergyKcal).Amount, 100, 1e-9) {
		t.Errorf("one basis in a comparison: %s", b)
	}
}

// TestPairs holds every yield to the reference folder's raw-cooked-pairs.csv
// (USDA SR28 rows, computed there).
func TestPairs(t *testing.T) {
	path := filepath.Join("..", "..", "..", "shared", "reference", "nutrition", "raw-cooked-pairs.csv")
	f, err := os.Open(path)
	if err != nil {
		t.Skip("the reference folder is not here")
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]float64{}
	for _, r := range rows[1:] {
		y, err := strconv.ParseFloat(r[7], 64)
		if err != nil {
			t.Fatal(err)
		}
		found[pad(r[2])+">"+pad(r[4])] = y
	}
	for _, p := range pairs {
		if want, ok := found[p.Code+">"+p.Cooked]; !ok || math.Abs(want-p.Yield) > 5e-4 {
			t.Errorf("%s > %s: %v, the reference says %v", p.Code, p.Cooked, p.Yield, want)
		}
	}
}

func pad(code string) string { return strings.Repeat("0", max(0, 5-len(code))) + code }

func TestLinesSumToTheTotal(t *testing.T) {
	for seed := range uint64(50) {
		l := newLarder(seed, 12, 1)
		r, v, on := l.randomCase()
		for _, x := range r.Lines {
			x.GramsFrom = recipes.GramsWeight
		}
		a := l.of(r, v, on...)
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			sum := 0.0
			for i := range a.Lines {
				x, ok := a.LineAmount(i, n)
				if !ok {
					t.Fatalf("seed %d: line %d not known", seed, i)
				}
				sum += x
			}
			if !near(sum, a.Total(n).Amount, 1e-9) {
				t.Fatalf("seed %d, %s: lines make %v of %v", seed, n.Key(), sum, a.Total(n).Amount)
			}
		}
	}
}
