package food_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"parewell/assets"
	"parewell/recipes/food"
	"parewell/recipes/problem"
)

// starter reads the embedded table.
func starter(t testing.TB) []*food.Food {
	t.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

func byCode(t testing.TB) map[string]*food.Food {
	out := map[string]*food.Food{}
	for _, f := range starter(t) {
		out[f.Code] = f
	}
	return out
}

// The table holds the starter list whole and then assets/generate/extras.csv.
const (
	starterFoods = 901
	extraFoods   = 104
)

// swapPartners are the extras that swap ideas name.
var swapPartners = []string{"04606", "09270", "11934", "11947", "15184", "16034", "18336", "19089", "43021"}

func TestStarterNames(t *testing.T) {
	foods := starter(t)
	if len(foods) != starterFoods+extraFoods {
		t.Errorf("%d foods, want %d of the starter list and %d beside it", len(foods), starterFoods, extraFoods)
	}
	for i, f := range foods { // the partners of swap ideas that the starter list lacks come first
		if i >= starterFoods && i < starterFoods+len(swapPartners) && f.Code != swapPartners[i-starterFoods] {
			t.Errorf("row %d is %s %s, want %s", i, f.Code, f.Name, swapPartners[i-starterFoods])
		}
	}
	seen := map[string]string{}
	for _, f := range foods {
		if other, twice := seen[strings.ToLower(f.Name)]; twice {
			t.Errorf("%s and %s are both called %q", f.Code, other, f.Name)
		}
		seen[strings.ToLower(f.Name)] = f.Code
		if f.Published == "" || f.Group == "" || f.Source != "usda" || f.Release != "sr28" || len(f.Code) != 5 {
			t.Errorf("%s %s: not fully named: %+v", f.Code, f.Name, f.Ref)
		}
		for _, a := range f.Aliases {
			if a.Name == "" || strings.ContainsAny(a.Name, "=|;") || a.Close != (a.Differs != "") {
				t.Errorf("%s %s: alias %+v", f.Code, f.Name, a)
			}
		}
	}
}

// published maps our nutrients to SR28's columns.
var published = map[food.Nutrient]string{
	food.EnergyKcal: "Energ_Kcal", food.Protein: "Protein_(g)", food.Fat: "Lipid_Tot_(g)", food.SaturatedFat: "FA_Sat_(g)",
	food.Carbohydrate: "Carbohydrt_(g)", food.Sugars: "Sugar_Tot_(g)", food.Fibre: "Fiber_TD_(g)", food.Sodium: "Sodium_(mg)",
	food.Cholesterol: "Cholestrl_(mg)", food.Water: "Water_(g)", food.Potassium: "Potassium_(mg)", food.Calcium: "Calcium_(mg)", food.Iron: "Iron_(mg)",
}

// TestStarterValues compares every value of every food with the published
// table; a blank there must be unknown here.
func TestStarterValues(t *testing.T) {
	rows := map[string]map[string]string{}
	for _, r := range sr28Rows(t) {
		rows[r["NDB_No"]] = r
	}
	compared := 0
	for _, f := range starter(t) {
		r, ok := rows[f.Code]
		if !ok {
			t.Fatalf("%s %s is not in SR28", f.Code, f.Name)
		}
		if f.Published != r["Shrt_Desc"] {
			t.Errorf("%s: published as %q, not %q", f.Code, r["Shrt_Desc"], f.Published)
		}
		for n, column := range published {
			got, known := f.Per100.Get(n)
			if want, err := strconv.ParseFloat(r[column], 64); known != (err == nil) || known && got != want {
				t.Errorf("%s %s: %s is %v, known %v; published %q", f.Code, f.Name, n.Key(), got, known, r[column])
			}
			compared++
		}
		if refuse, err := strconv.ParseFloat(r["Refuse_Pct"], 64); err == nil && math.Abs(f.EdiblePart()-(1-refuse/100)) > 1e-9 {
			t.Errorf("%s %s: edible part %v, refuse %v %%", f.Code, f.Name, f.EdiblePart(), refuse)
		}
	}
	if want := (starterFoods + extraFoods) * len(published); compared != want {
		t.Errorf("%d values compared, want %d", compared, want)
	}
}

// TestStarterDerived checks what SR28 does not print.
func TestStarterDerived(t *testing.T) {
	foods := byCode(t)
	for _, r := range []struct {
		name string
		code string
		n    food.Nutrient
		want float64 // NaN: must be unknown
		tol  float64
	}{
		// alcohol by difference: nutrition-facts note, section 0
		{"red wine", "14096", food.Alcohol, 10.55, 0.01},
		{"white wine", "14106", food.Alcohol, 10.27, 0.05},
		{"spirits 80 proof", "14037", food.Alcohol, 33.4, 0.01},
		{"beer", "14003", food.Alcohol, 3.87, 0.05},
		{"vanilla extract", "02050", food.Alcohol, 34.4, 0.05},
		{"milk has none", "01077", food.Alcohol, 0, 0},
		{"vinegar has none", "02048", food.Alcohol, 0, 0},
		// kJ is 4.184 x kcal
		{"butter kJ", "01001", food.EnergyKJ, 717 * 4.184, 1e-9},
		// added sugars: the design's rule
		{"sugar is all added", "19335", food.AddedSugars, 99.8, 0},
		{"honey is all added", "19296", food.AddedSugars, 82.12, 0},
		{"plain fruit has none added", "09003", food.AddedSugars, 0, 0},
		{"plain milk has none added", "01077", food.AddedSugars, 0, 0},
		{"beef has none added", "23572", food.AddedSugars, 0, 0},
		{"flour has none added", "20081", food.AddedSugars, 0, 0},
		{"ketchup is unknown", "11935", food.AddedSugars, math.NaN(), 0},
		{"white bread is unknown", "18069", food.AddedSugars, math.NaN(), 0},
		{"condensed milk is unknown", "01095", food.AddedSugars, math.NaN(), 0},
		{"dark chocolate is unknown", "19904", food.AddedSugars, math.NaN(), 0},
		// trans fat: none without fat and in plain plant foods, else unknown
		{"sugar has no trans fat", "19335", food.TransFat, 0, 0},
		{"onion has no trans fat", "11282", food.TransFat, 0, 0},
		{"lentils have no trans fat", "16069", food.TransFat, 0, 0},
		{"butter is unknown", "01001", food.TransFat, math.NaN(), 0},
		{"egg noodles are unknown", "20109", food.TransFat, math.NaN(), 0},
		{"shortening is unknown", "04031", food.TransFat, math.NaN(), 0},
	} {
		got, known := foods[r.code].Per100.Get(r.n)
		switch {
		case math.IsNaN(r.want):
			if known {
				t.Errorf("%s: known as %v", r.name, got)
			}
		case !known || math.Abs(got-r.want) > r.tol:
			t.Errorf("%s: %v, known %v; want %v", r.name, got, known, r.want)
		}
	}
}

// TestStarterSane: what bounds what holds, and nothing is negative.
func TestStarterSane(t *testing.T) {
	for _, f := range starter(t) {
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			if v, ok := f.Per100.Get(n); ok && (v < 0 || math.IsNaN(v) || n.Unit() == "g" && v > 100.5) {
				t.Errorf("%s %s: %s is %v", f.Code, f.Name, n.Key(), v)
			}
		}
		sugars, ok1 := f.Per100.Get(food.Sugars)
		if added, ok2 := f.Per100.Get(food.AddedSugars); ok1 && ok2 && added > sugars {
			t.Errorf("%s %s: more added sugars than sugars", f.Code, f.Name)
		}
		if f.Density != 0 && (f.Density < 0.6 || f.Density > 1.6) {
			t.Errorf("%s %s: density %v", f.Code, f.Name, f.Density)
		}
		if f.Swells != 0 && (f.Swells < 1.9 || f.Swells > 5.5) {
			t.Errorf("%s %s: swells %v", f.Code, f.Name, f.Swells)
		}
		if f.Edible < 0 || f.Edible > 1 {
			t.Errorf("%s %s: edible part %v", f.Code, f.Name, f.Edible)
		}
	}
}

func TestStarterFaults(t *testing.T) {
	lines := strings.SplitN(string(assets.Foods), "\n", 4)
	head, first := lines[0], lines[1]
	for _, r := range []struct{ name, text, where string }{
		{"empty", "", "row 1"},
		{"no header", first + "\n", "row 1"},
		{"unknown nutrient", head + ",zinc_mg\n", "row 1"},
		{"short row", head + "\n01001,butter\n", "row 2"},
		{"no name", head + "\n" + strings.Replace(first, "butter, salted", "", 1) + "\n", "row 2"},
		{"word for a number", head + "\n" + strings.Replace(first, ",717,", ",many,", 1) + "\n", "row 2"},
		{"negative", head + "\n" + strings.Replace(first, ",717,", ",-717,", 1) + "\n", "row 2"},
		{"not a number", head + "\n" + strings.Replace(first, ",717,", ",NaN,", 1) + "\n", "row 2"},
		{"unknown allergen", head + "\n" + strings.Replace(first, "recorded;milk", "recorded;moss", 1) + "\n", "row 2"},
		{"no account", head + "\n" + strings.Replace(first, "recorded;milk", "milk", 1) + "\n", "row 2"},
		{"measure without grams", head + "\n" + strings.Replace(first, "cup=227", "cup", 1) + "\n", "row 2"},
		{"twice", head + "\n" + first + "\n" + first + "\n", "row 3"},
		{"open quote", head + "\n\"" + "\n", "row 2"},
	} {
		_, err := food.ReadStarter([]byte(r.text))
		var p *problem.Error
		if !errors.As(err, &p) || !strings.HasSuffix(p.Where, r.where) || p.What == "" {
			t.Errorf("%s: %v, want a problem in %s", r.name, err, r.where)
		}
	}
}

func FuzzReadStarter(f *testing.F) {
	lines := strings.SplitN(string(assets.Foods), "\n", 4)
	f.Add([]byte(lines[0] + "\n" + lines[1] + "\n" + lines[2] + "\n"))
	f.Add([]byte(lines[0]))
	f.Fuzz(func(t *testing.T, b []byte) {
		foods, err := food.ReadStarter(b)
		var p *problem.Error
		if err != nil && !errors.As(err, &p) {
			t.Errorf("a fault that is no problem: %v", err)
		}
		if err == nil {
			food.NewTable(foods).Match("butter")
		}
	})
}
