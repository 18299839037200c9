package sheets

import (
	"math"
	"strings"
	"testing"

	"parewell/recipes/food"
)

// labelled is a food in a form that starts empty.
func labelled(change func(*LabelFields)) LabelFields {
	f := LabelOf(&food.Food{Ref: food.Ref{Source: OwnSource, Code: "x"}})
	f.Name = "tub"
	change(&f)
	return f
}

func blankFood() *food.Food { return &food.Food{Ref: food.Ref{Source: OwnSource, Code: "x"}} }

func TestReadLabel(t *testing.T) {
	kcal, kj, carb, fibre, sodium, fat := food.EnergyKcal, food.EnergyKJ, food.Carbohydrate, food.Fibre, food.Sodium, food.Fat
	rows := []struct {
		name  string
		set   func(*LabelFields)
		n     food.Nutrient
		want  float64 // NaN: unknown
		fault string  // key of a fault, "" for none
	}{
		{"per 100 g", func(f *LabelFields) { f.Figures["fat_g"] = "12.5" }, fat, 12.5, ""},
		{"decimal comma", func(f *LabelFields) { f.Figures["fat_g"] = "12,5" }, fat, 12.5, ""},
		{"zero is known", func(f *LabelFields) { f.Figures["fat_g"] = "0" }, fat, 0, ""},
		{"blank is unknown", func(*LabelFields) {}, fat, math.NaN(), ""},
		{"per serving of 30 g", func(f *LabelFields) { f.Per, f.Portion, f.Figures["fat_g"] = PerPortion, "30 g", "3" }, fat, 10, ""},
		{"per serving of an ounce", func(f *LabelFields) { f.Per, f.Portion, f.Figures["fat_g"] = PerPortion, "1 oz", "2.834952313" }, fat, 10, ""},
		{"per 100 ml with a density", func(f *LabelFields) { f.Per, f.Density, f.Figures["fat_g"] = Per100Ml, "1,25", "10" }, fat, 8, ""},
		{"per 15 ml by its own spoon", func(f *LabelFields) {
			f.Per, f.Portion, f.Measures, f.Figures["fat_g"] = PerPortion, "15 ml", "100 ml = 80 g", "6"
		}, fat, 50, ""},
		{"millilitres without a density", func(f *LabelFields) { f.Per, f.Figures["fat_g"] = Per100Ml, "10" }, fat, math.NaN(), DensityKey},
		{"a serving without a weight", func(f *LabelFields) { f.Per, f.Figures["fat_g"] = PerPortion, "10" }, fat, math.NaN(), PortionKey},
		{"kcal from kJ", func(f *LabelFields) { f.Figures["energy_kj"] = "418,4" }, kcal, 100, ""},
		{"kJ from kcal", func(f *LabelFields) { f.Figures["energy_kcal"] = "100" }, kj, 418.4, ""},
		{"thousands of kJ", func(f *LabelFields) { f.Figures["energy_kj"] = "1,250" }, kj, 1250, ""},
		{"sodium from salt", func(f *LabelFields) { f.Figures["salt_g"] = "2,5" }, sodium, 1000, ""},
		{"sodium before salt", func(f *LabelFields) { f.Figures["salt_g"], f.Figures["sodium_mg"] = "2.5", "900" }, sodium, 900, ""},
		{"EU carbohydrate gets its fibre", func(f *LabelFields) {
			f.NoFibre, f.Figures["carbohydrate_g"], f.Figures["fibre_g"] = true, "10", "3"
		}, carb, 13, ""},
		{"EU carbohydrate without fibre is unknown", func(f *LabelFields) { f.NoFibre, f.Figures["carbohydrate_g"] = true, "10" }, carb, math.NaN(), ""},
		{"US carbohydrate needs no fibre", func(f *LabelFields) { f.Figures["carbohydrate_g"] = "10" }, carb, 10, ""},
		{"fibre stays unknown", func(f *LabelFields) { f.Figures["carbohydrate_g"] = "10" }, fibre, math.NaN(), ""},
		{"potassium", func(f *LabelFields) { f.Per, f.Portion, f.Figures["potassium_mg"] = PerPortion, "50", "100" }, food.Potassium, 200, ""},
		{"less than", func(f *LabelFields) { f.Figures["fat_g"] = "<0.5" }, fat, math.NaN(), "fat_g"},
		{"below zero", func(f *LabelFields) { f.Figures["fat_g"] = "-2" }, fat, math.NaN(), "fat_g"},
		{"a range", func(f *LabelFields) { f.Figures["fat_g"] = "2-3" }, fat, math.NaN(), "fat_g"},
		{"no name", func(f *LabelFields) { f.Name = "  " }, fat, math.NaN(), FoodNameKey},
		{"an edible part of nothing", func(f *LabelFields) { f.Edible = "0" }, fat, math.NaN(), EdibleKey},
		{"heavier than lead", func(f *LabelFields) { f.Density = "12" }, fat, math.NaN(), DensityKey},
	}
	for _, r := range rows {
		made, faults := ReadLabel(labelled(r.set), blankFood())
		got, ok := made.Per100.Get(r.n)
		if ok == math.IsNaN(r.want) || ok && math.Abs(got-r.want) > 1e-6 {
			t.Errorf("%s: %v %v, want %v", r.name, got, ok, r.want)
		}
		if r.fault == "" && len(faults) > 0 || r.fault != "" && (faults[r.fault] == "" || len(faults) != 1) {
			t.Errorf("%s: faults %v, want one at %q", r.name, faults, r.fault)
		}
		if first := FirstFault(faults); (first == "") != (r.fault == "") {
			t.Errorf("%s: first fault %q", r.name, first)
		}
	}
}

func TestLabelDoubts(t *testing.T) {
	set := func(pairs ...string) func(*LabelFields) {
		return func(f *LabelFields) {
			for i := 0; i < len(pairs); i += 2 {
				f.Figures[pairs[i]] = pairs[i+1]
			}
		}
	}
	rows := []struct {
		name string
		set  func(*LabelFields)
		want string // words of the one sentence, "" for none
	}{
		{"all well", set("energy_kcal", "400", "fat_g", "40", "protein_g", "5", "carbohydrate_g", "5"), ""},
		{"more than 100 g", set("energy_kcal", "700", "fat_g", "60", "protein_g", "20", "carbohydrate_g", "30"), "more than 100 g"},
		{"saturated above fat", set("energy_kcal", "90", "fat_g", "5", "saturated_fat_g", "8"), "larger than its whole"},
		{"energy off", set("energy_kcal", "900", "fat_g", "10", "protein_g", "5", "carbohydrate_g", "5"), "does not fit protein"},
		{"kJ off", set("energy_kcal", "100", "energy_kj", "600"), "do not belong together: 1 kcal"},
		{"salt off", set("energy_kcal", "100", "salt_g", "3", "sodium_mg", "400"), "Salt and sodium"},
		{"no energy", set("fat_g", "5"), "No energy"},
		{"EU carbohydrate without fibre", func(f *LabelFields) {
			set("energy_kcal", "100", "carbohydrate_g", "20")(f)
			f.NoFibre = true
		}, "no fibre"},
	}
	for _, r := range rows {
		f := labelled(r.set)
		made, faults := ReadLabel(f, blankFood())
		got := LabelDoubts(f, made)
		if len(faults) > 0 {
			t.Errorf("%s: a doubt keeps the food from being saved: %v", r.name, faults)
		}
		if r.want == "" && len(got) > 0 || r.want != "" && (len(got) != 1 || !strings.Contains(got[0], r.want)) {
			t.Errorf("%s: %q", r.name, got)
		}
	}
}

func TestReadMeasures(t *testing.T) {
	rows := []struct {
		name, line string
		want       food.Measure
		ok         bool
	}{
		{"spoon", "1 tbsp = 15 g", food.Measure{Unit: "tbsp", Grams: 15}, true},
		{"two tablespoons", "2 tablespoons = 30 g", food.Measure{Unit: "tbsp", Grams: 15}, true},
		{"half a cup, cut", "½ cup, chopped: 60g", food.Measure{Unit: "cup", Detail: "chopped", Grams: 120}, true},
		{"no number", "slice = 36,5 g", food.Measure{Unit: "slice", Grams: 36.5}, true},
		{"ounces", "1 pot = 4 oz", food.Measure{Unit: "tub", Grams: 113.3980925}, true},
		{"her own word", "1 Bar = 40", food.Measure{Unit: "bar", Grams: 40}, true},
		{"decilitre", "1 dl = 100 g", food.Measure{Unit: "ml", Grams: 1}, true},
		{"a weight is no measure", "1 oz = 28 g", food.Measure{}, false},
		{"nothing after", "1 tbsp =", food.Measure{}, false},
		{"no weight", "1 tbsp = 15 ml", food.Measure{}, false},
		{"no unit", "3 = 15 g", food.Measure{}, false},
		{"no mark", "1 tbsp 15 g", food.Measure{}, false},
	}
	for _, r := range rows {
		m, ok := readMeasure(r.line)
		if ok != r.ok || ok && (m.Unit != r.want.Unit || m.Detail != r.want.Detail || math.Abs(m.Grams-r.want.Grams) > 1e-9) {
			t.Errorf("%s: %+v %v", r.name, m, ok)
		}
	}
	if _, wrong := readMeasures("1 tbsp = 15 g\n\nrubbish\n"); wrong != "rubbish" {
		t.Errorf("the line at fault is %q", wrong)
	}
	all, wrong := readMeasures(measuresField([]food.Measure{{Unit: "cup", Detail: "packed", Grams: 213.5}, {Unit: "ml", Grams: 1.03}}))
	if wrong != "" || len(all) != 2 || all[0].Detail != "packed" || all[0].Grams != 213.5 || all[1].Grams != 1.03 {
		t.Errorf("there and back: %+v %q", all, wrong)
	}
}

// TestUntouchedFieldsChangeNothing: opening and saving any food of the starter
// table changes none of its figures, and changing one changes only that.
func TestUntouchedFieldsChangeNothing(t *testing.T) {
	for _, f := range starter(t) {
		own := StartOf(f, food.Ref{Source: OwnSource, Code: "x"})
		made, faults := ReadLabel(LabelOf(own), own)
		if len(faults) > 0 || !SameFood(made, own) {
			t.Fatalf("%s: %v\n%+v\n%+v", f.Name, faults, made, own)
		}
		fields := LabelOf(own)
		fields.Figures["iron_mg"] = "77"
		made, _ = ReadLabel(fields, own)
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			a, okA := own.Per100.Get(n)
			b, okB := made.Per100.Get(n)
			if n != food.Iron && (a != b || okA != okB) {
				t.Fatalf("%s: %s went from %v to %v with the iron", f.Name, n.Key(), a, b)
			}
		}
	}
}

func TestStartingFromAFoodKnowsNoAllergensForSure(t *testing.T) {
	f := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: "01001"}, Name: "butter", Core: true, Published: "Butter, salted"}
	f.Allergens = food.Allergens{Recorded: true, Contains: food.Milk}
	own := StartOf(f, food.Ref{Source: OwnSource, Code: "x"})
	if own.Allergens.Recorded || own.Allergens.Contains != food.Milk || own.Core || own.Published != "" {
		t.Errorf("%+v", own)
	}
	if text := AllergenText(own.Allergens); !strings.Contains(text, "milk") || !strings.Contains(text, "never free") {
		t.Errorf("it says %q", text)
	}
	if !strings.Contains(own.Note, "SR28 01001") {
		t.Errorf("note %q", own.Note)
	}
}

func TestAllergenText(t *testing.T) {
	rows := []struct {
		name string
		a    food.Allergens
		want string
	}{
		{"nobody looked", food.Allergens{}, "Not recorded: unknown, never free. Check the label."},
		{"looked, none", food.Allergens{Recorded: true}, "None of the listed allergens by its nature."},
		{"looked, milk", food.Allergens{Recorded: true, Contains: food.Milk}, "Contains milk."},
		{"may be", food.Allergens{Recorded: true, Depends: food.Wheat}, "None of the listed allergens by its nature. Depending on the product also wheat: check the label."},
		{"ticked without reading", food.Allergens{Contains: food.Milk}, "Contains milk. Whether it holds others is not recorded: unknown, never free. Check the label."},
	}
	for _, r := range rows {
		if got := AllergenText(r.a); got != r.want {
			t.Errorf("%s: %q", r.name, got)
		}
	}
}
