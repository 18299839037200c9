package nutrition

import (
	"encoding/json"
	"errors"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"testing"

	"parewell/recipes/food"
)

func profile(has map[food.Nutrient]float64) food.Profile {
	var p food.Profile
	for n, v := range has {
		p.Set(n, v)
	}
	return p
}

func TestEnergyBases(t *testing.T) {
	all := map[food.Nutrient]float64{
		food.EnergyKcal: 250, food.EnergyKJ: 1046, food.Protein: 12, food.Fat: 10, food.Carbohydrate: 36, food.Fibre: 6, food.Alcohol: 2,
	}
	for _, row := range []struct {
		basis    EnergyBasis
		kcal, kj float64
		carb     float64
	}{
		{TableEnergy, 250, 1046, 36},
		{GeneralEnergy, 12*4 + 10*9 + 36*4 + 2*7, (12*4 + 10*9 + 36*4 + 2*7) * 4.184, 36},
		{EUEnergy, 12*4 + 10*9 + 30*4 + 6*2 + 2*7, 12*17 + 10*37 + 30*17 + 6*8 + 2*29, 30},
	} {
		p := profile(all)
		got := InBasis(&p, row.basis)
		if math.Abs(got.Value[food.EnergyKcal]-row.kcal) > 1e-9 || math.Abs(got.Value[food.EnergyKJ]-row.kj) > 1e-9 || got.Value[food.Carbohydrate] != row.carb {
			t.Errorf("%s: %g kcal, %g kJ, carbohydrate %g; want %g, %g, %g", row.basis, got.Value[food.EnergyKcal], got.Value[food.EnergyKJ], got.Value[food.Carbohydrate], row.kcal, row.kj, row.carb)
		}
		if p != profile(all) {
			t.Fatalf("%s changed the profile it was given", row.basis)
		}
	}
}

func TestUnknownPartsMakeEnergyUnknown(t *testing.T) {
	whole := map[food.Nutrient]float64{
		food.EnergyKcal: 100, food.Protein: 1, food.Fat: 1, food.Carbohydrate: 10, food.Fibre: 2, food.Alcohol: 0, food.Sugars: 4,
	}
	for _, row := range []struct {
		lost                food.Nutrient
		general, eu, euCarb bool // still known
	}{
		{food.Protein, false, false, true},
		{food.Fat, false, false, true},
		{food.Carbohydrate, false, false, false},
		{food.Fibre, true, false, false},
		{food.Alcohol, false, false, true},
		{food.Sugars, true, true, true},
	} {
		p := profile(whole)
		p.Forget(row.lost)
		general, eu := InBasis(&p, GeneralEnergy), InBasis(&p, EUEnergy)
		_, g := general.Get(food.EnergyKcal)
		_, e := eu.Get(food.EnergyKcal)
		_, ej := eu.Get(food.EnergyKJ)
		_, c := eu.Get(food.Carbohydrate)
		if g != row.general || e != row.eu || ej != row.eu || c != row.euCarb {
			t.Errorf("without %s: general %v, EU %v and %v, EU carbohydrate %v", row.lost.Key(), g, e, ej, c)
		}
		if table := InBasis(&p, TableEnergy); table != p {
			t.Errorf("without %s: the table's own figures changed", row.lost.Key())
		}
	}
	oil := profile(map[food.Nutrient]float64{food.Carbohydrate: 0})
	if c, ok := WithoutFibre(&oil); c != 0 || !ok {
		t.Error("no carbohydrate holds no fibre, known or not")
	}
	bran := profile(map[food.Nutrient]float64{food.Carbohydrate: 10, food.Fibre: 11})
	if c, ok := WithoutFibre(&bran); c != 0 || !ok {
		t.Error("more fibre than carbohydrate leaves none, never less")
	}
}

func TestSaltGrams(t *testing.T) {
	for mg, want := range map[float64]float64{0: 0, 400: 1, 120: 0.3, 2400: 6} {
		if got := SaltGrams(mg); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g mg sodium is %g g salt, want %g (1169/2011 Annex I)", mg, got, want)
		}
	}
}

func TestRebaseKeepsFoodsAsTheyAre(t *testing.T) {
	l := newLarder(3, 5, 0.9)
	before := *l.list[0]
	eu := Rebase(l.get, EUEnergy)
	a, b := eu(l.list[0].Ref), eu(l.list[0].Ref)
	if a != b || a == l.list[0] || l.list[0].Per100 != before.Per100 {
		t.Error("a food is to be worked out once and left as it was")
	}
	if Rebase(l.get, TableEnergy)(l.list[1].Ref) != l.list[1] {
		t.Error("the table's own energy needs no copy")
	}
	if eu(food.Ref{Code: "none"}) != nil {
		t.Error("a food that is not there")
	}
}

// energyCases are the published energies beside the reference data.
type energyCases struct {
	Cases []struct {
		ID     string             `json:"id"`
		Source string             `json:"source"`
		Rows   json.RawMessage    `json:"rows"`
		Inputs json.RawMessage    `json:"inputs"`
		Out    map[string]float64 `json:"-"`
	} `json:"cases"`
}

func readEnergyCases(t *testing.T) energyCases {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for dir != filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	b, err := os.ReadFile(filepath.Join(dir, "..", "shared", "reference", "nutrition", "worked-examples.json"))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("the reference folder holds no nutrition/worked-examples.json")
	}
	if err != nil {
		t.Fatal(err)
	}
	var file energyCases
	if err := json.Unmarshal(b, &file); err != nil {
		t.Fatal(err)
	}
	return file
}

// The general factors on USDA rows, as the page works them out: butter is 734
// where the table says 717, so bases are never mixed.
func TestGeneralEnergyOfUSDARows(t *testing.T) {
	for _, c := range readEnergyCases(t).Cases {
		if c.ID != "USDA-specific-Atwater" {
			continue
		}
		var rows []struct {
			Food      string  `json:"food"`
			Protein   float64 `json:"protein_g"`
			Fat       float64 `json:"fat_g"`
			Carb      float64 `json:"carb_by_difference_g"`
			FP        float64 `json:"factor_protein"`
			FF        float64 `json:"factor_fat"`
			FC        float64 `json:"factor_carb"`
			Published float64 `json:"published_kcal"`
			General   float64 `json:"general_4_9_4_kcal"`
		}
		if err := json.Unmarshal(c.Rows, &rows); err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			p := profile(map[food.Nutrient]float64{food.Protein: r.Protein, food.Fat: r.Fat, food.Carbohydrate: r.Carb, food.Alcohol: 0})
			general := InBasis(&p, GeneralEnergy)
			if got := general.Value[food.EnergyKcal]; math.Abs(got-r.General) > 0.051 {
				t.Errorf("%s (%s), %s: %.2f kcal, want %.1f", c.ID, c.Source, r.Food, got, r.General)
			}
			own, ok := energy(&p, factors{protein: r.FP, fat: r.FF, carbohydrate: r.FC})
			if !ok || math.Abs(own-r.Published) > 1 {
				t.Errorf("%s (%s), %s: %.1f kcal by its own factors, want %.0f", c.ID, c.Source, r.Food, own, r.Published)
			}
		}
		if len(rows) != 16 {
			t.Errorf("%s: %d rows, want 16", c.ID, len(rows))
		}
		return
	}
	t.Error("worked-examples.json holds no USDA-specific-Atwater")
}
