package tables_test

import (
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"parewell/recipes/food"
	"parewell/recipes/food/tables"
)

// sr28Columns are the value columns of ABBREV.csv (USDA SR28).
var sr28Columns = map[string]food.Nutrient{
	"Water_(g)": food.Water, "Energ_Kcal": food.EnergyKcal, "Protein_(g)": food.Protein, "Lipid_Tot_(g)": food.Fat,
	"Carbohydrt_(g)": food.Carbohydrate, "Fiber_TD_(g)": food.Fibre, "Sugar_Tot_(g)": food.Sugars, "Calcium_(mg)": food.Calcium,
	"Iron_(mg)": food.Iron, "Potassium_(mg)": food.Potassium, "Sodium_(mg)": food.Sodium, "FA_Sat_(g)": food.SaturatedFat,
	"Cholestrl_(mg)": food.Cholesterol,
}

// TestRelease28 holds every value of all 8,790 foods against another reading of
// the file, and counts the blanks.
func TestRelease28(t *testing.T) {
	im := published(t, "usda-sr28/ABBREV.csv")
	if im.Source != "usda" || im.Release != "sr28" || len(im.Foods) != 8790 || im.Count.Rows != 8790 {
		t.Fatalf("%s %s: %d foods of %d rows", im.Source, im.Release, len(im.Foods), im.Count.Rows)
	}
	f, err := os.Open(reference(t, "usda-sr28/ABBREV.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	byCode := map[string]*food.Food{}
	for _, x := range im.Foods {
		byCode[x.Code] = x
	}
	for _, row := range all[1:] {
		x := byCode[row[0]]
		if x == nil {
			t.Fatalf("no food %s", row[0])
		}
		if x.Name == "" || x.Name != strings.ToLower(x.Name) || !strings.EqualFold(strings.Join(strings.Fields(row[1]), " "), x.Published) {
			t.Errorf("%s: name %q, published %q for %q", x.Code, x.Name, x.Published, row[1])
		}
		for i, column := range all[0] {
			n, ours := sr28Columns[column]
			if !ours {
				continue
			}
			v, err := strconv.ParseFloat(row[i], 64)
			want(t, x, n, v, err == nil)
		}
		kcal, _ := x.Per100.Get(food.EnergyKcal)
		want(t, x, food.EnergyKJ, kcal*4.184, true) // Greenfield & Southgate 2003, ch. 7
		want(t, x, food.AddedSugars, 0, false)
		want(t, x, food.TransFat, 0, false)
		if x.Allergens.Recorded {
			t.Errorf("%s: allergens recorded", x.Code)
		}
	}
}

// TestBlanks28 counts what is unknown: the blanks of SR28, counted in the file by
// its columns.
func TestBlanks28(t *testing.T) {
	im := published(t, "usda-sr28/ABBREV.csv")
	for n, blanks := range map[food.Nutrient]int{
		food.Fibre: 594, food.Sugars: 1832, food.SaturatedFat: 349, food.Cholesterol: 410, food.Sodium: 83, food.Potassium: 426,
		food.EnergyKcal: 0, food.Protein: 0, food.Fat: 0, food.Carbohydrate: 0,
	} {
		got := 0
		for _, x := range im.Foods {
			if _, known := x.Per100.Get(n); !known {
				got++
			}
		}
		if got != blanks {
			t.Errorf("%s: unknown in %d foods, want %d", n.Key(), got, blanks)
		}
	}
}

// TestAlcoholByDifference holds drinks against what is left of 100 g in SR28
// (nutrition facts, section 0), and foods to none.
func TestAlcoholByDifference(t *testing.T) {
	im := published(t, "usda-sr28/ABBREV.csv")
	for _, r := range []struct {
		code string
		want float64
	}{{"14096", 10.55}, {"14106", 10.27}, {"02050", 34.4}, {"01001", 0}, {"11124", 0}, {"14209", 0}} {
		got, known := foodOf(t, im, r.code).Per100.Get(food.Alcohol)
		if !known || got < r.want-0.1 || got > r.want+0.1 {
			t.Errorf("%s: alcohol %v (known %v), want %v", r.code, got, known, r.want)
		}
	}
	for _, f := range im.Foods {
		v, known := f.Per100.Get(food.Alcohol)
		if known && v > 0 && !strings.HasPrefix(f.Code, "14") && f.Code != "02050" {
			t.Errorf("%s %s: alcohol %v", f.Code, f.Name, v)
		}
	}
}

// TestRelease26 reads the relational layout, whose values come from the
// abbreviated file beside it: NUT_DATA is not in the reference folder.
func TestRelease26(t *testing.T) {
	im := published(t, "usda-sr26")
	if im.Source != "usda" || im.Release != "sr26" || len(im.Foods) != 8463 {
		t.Fatalf("%s %s: %d foods", im.Source, im.Release, len(im.Foods))
	}
	// USDA SR26, FOOD_DES, ABBREV and WEIGHT.
	butter := foodOf(t, im, "01001")
	if butter.Name != "butter, salted" || butter.Published != "Butter, salted" || butter.Group != "dairy" {
		t.Errorf("butter: %q %q %q", butter.Name, butter.Published, butter.Group)
	}
	want(t, butter, food.EnergyKcal, 717, true)
	want(t, foodOf(t, im, "01009"), food.EnergyKcal, 403, true)
	want(t, foodOf(t, im, "01009"), food.Sodium, 621, true)
	for unit, grams := range map[string]float64{"pat": 5, "tbsp": 14.2, "cup": 227, "stick": 113} {
		if m, _, ok := butter.Household(unit, ""); !ok || m.Grams != grams {
			t.Errorf("butter, one %s: %v g (%v), want %v", unit, m.Grams, ok, grams)
		}
	}
	if m, _, ok := foodOf(t, im, "01009").Household("cup", "shredded"); !ok || m.Grams != 113 {
		t.Errorf("cheddar, cup shredded: %v g", m.Grams)
	}
	// FOOD_DES: refuse of a chicken egg 12 %, of a banana 36 %.
	for code, edible := range map[string]float64{"01123": 0.88, "09040": 0.64} {
		if f := foodOf(t, im, code); f.Edible != edible {
			t.Errorf("%s: edible %v, want %v", f.Name, f.Edible, edible)
		}
	}
	if !slices.IsSortedFunc(im.Foods, func(a, b *food.Food) int { return strings.Compare(a.Code, b.Code) }) {
		t.Error("the foods are not in order of their codes")
	}
}

// TestAbbreviated26 reads the abbreviated ASCII file for itself: the same values
// as the relational layout takes from it.
func TestAbbreviated26(t *testing.T) {
	whole, short := published(t, "usda-sr26"), published(t, "usda-sr26/ABBREV.txt")
	if short.Release != "sr26" || len(short.Foods) != len(whole.Foods) {
		t.Fatalf("%s: %d foods", short.Release, len(short.Foods))
	}
	for i, f := range short.Foods {
		if f.Code != whole.Foods[i].Code || f.Per100 != whole.Foods[i].Per100 {
			t.Fatalf("%s: %v, not %v", f.Code, f.Per100, whole.Foods[i].Per100)
		}
	}
}

// TestFilesOfOneTable gives the files of a folder one by one, as a shell's star
// does: they are one table.
func TestFilesOfOneTable(t *testing.T) {
	paths, err := filepath.Glob(filepath.Join(reference(t, "usda-sr26"), "*"))
	if err != nil || len(paths) < 5 {
		t.Fatal(paths, err)
	}
	all, err := tables.ReadAll(context.Background(), paths, tables.Options{})
	if err != nil {
		t.Fatal(err)
	}
	whole := published(t, "usda-sr26")
	if len(all) != 1 || all[0].Digest != whole.Digest || all[0].Foods[0].Name != "butter, salted" {
		t.Errorf("%d tables, first %q", len(all), all[0].Foods[0].Name)
	}
}

// TestReferencePlausible holds every food of both releases to what 100 g can
// hold, within the table's own rounding.
func TestReferencePlausible(t *testing.T) {
	for _, name := range []string{"usda-sr28/ABBREV.csv", "usda-sr26"} {
		for _, f := range published(t, name).Foods {
			if f.Edible < 0 || f.Edible > 1 {
				t.Errorf("%s: edible %v", f.Code, f.Edible)
			}
			for _, m := range f.Measures {
				if !(m.Grams > 0) || m.Unit == "" {
					t.Errorf("%s: measure %+v", f.Code, m)
				}
			}
		}
	}
}

func BenchmarkReadRelease28(b *testing.B) {
	path := reference(b, "usda-sr28/ABBREV.csv")
	for b.Loop() {
		if _, err := tables.Read(context.Background(), path, tables.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadRelease26(b *testing.B) {
	path := reference(b, "usda-sr26")
	for b.Loop() {
		if _, err := tables.Read(context.Background(), path, tables.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
