package food

import (
	"math"
	"slices"
	"testing"
)

// none is a label that gives nothing.
func none(per float64) Label {
	n := math.NaN()
	return Label{per, n, n, n, n, n, n, n, n, n, n, n, n, n, n, false}
}

func TestLabel(t *testing.T) {
	us := none(30) // a serving of 30 g, US: fibre inside carbohydrate
	us.Kcal, us.Fat, us.Carbohydrate, us.Fibre, us.Sodium, us.Protein = 120, 3, 21, 3, 150, 3
	eu := none(100)
	eu.KJ, eu.Fat, eu.Carbohydrate, eu.Fibre, eu.Salt, eu.Protein = 1674, 10, 60, 10, 1.25, 10
	bare := none(100)
	bare.Carbohydrate, bare.EU = 50, true
	eu.EU = true
	rows := []struct {
		name  string
		label Label
		n     Nutrient
		want  float64 // NaN: unknown
	}{
		{"per serving to 100 g", us, EnergyKcal, 400},
		{"kJ made from kcal", us, EnergyKJ, 400 * 4.184},
		{"US carbohydrate as it is", us, Carbohydrate, 70},
		{"sodium", us, Sodium, 500},
		{"not given is unknown", us, Sugars, math.NaN()},
		{"kcal made from kJ", eu, EnergyKcal, 1674 / 4.184},
		{"EU carbohydrate gets its fibre back", eu, Carbohydrate, 70},
		{"salt to sodium, EU 1169/2011 Annex I", eu, Sodium, 500},
		{"EU carbohydrate without fibre is unknown", bare, Carbohydrate, math.NaN()},
	}
	for _, r := range rows {
		p, ok := r.label.Profile()
		got, known := p.Get(r.n)
		if !ok || known == math.IsNaN(r.want) || known && math.Abs(got-r.want) > 1e-9 {
			t.Errorf("%s: %v %v, want %v", r.name, got, known, r.want)
		}
	}
	zero := none(0)
	if _, ok := zero.Profile(); ok {
		t.Error("a label for no weight was taken")
	}
}

func TestCheck(t *testing.T) {
	mk := func(kcal, protein, fat, sat, carb, sugars float64) *Profile {
		var p Profile
		p.Set(EnergyKcal, kcal)
		p.Set(Protein, protein)
		p.Set(Fat, fat)
		p.Set(SaturatedFat, sat)
		p.Set(Carbohydrate, carb)
		p.Set(Sugars, sugars)
		return &p
	}
	rows := []struct {
		name string
		p    *Profile
		want []Fault
	}{
		{"butter, USDA SR28 01001", mk(717, 0.85, 81.11, 51.37, 0.06, 0.06), nil},
		{"broccoli, USDA SR28 11090", mk(34, 2.82, 0.37, 0.039, 6.64, 1.7), nil},
		{"chocolate 70-85 %, USDA SR28 19904", mk(598, 7.79, 42.63, 24.49, 45.9, 23.99), nil},
		{"more than 100 g", mk(500, 40, 20, 5, 60, 5), []Fault{FaultParts}},
		{"saturated above fat", mk(190, 5, 10, 20, 20, 5), []Fault{FaultInside}},
		{"kJ typed as kcal", mk(1674, 10, 10, 3, 70, 5), []Fault{FaultEnergy}},
		{"a digit lost", mk(40, 10, 10, 3, 70, 5), []Fault{FaultEnergy}},
	}
	for _, r := range rows {
		if got := Check(r.p); !slices.Equal(got, r.want) {
			t.Errorf("%s: %v, want %v", r.name, got, r.want)
		}
	}
	l := none(100)
	l.Sodium, l.Salt = 500, 1.25
	if !l.CheckSalt() {
		t.Error("500 mg sodium and 1.25 g salt belong together")
	}
	if l.Salt = 0.5; l.CheckSalt() {
		t.Error("500 mg sodium and 0.5 g salt do not")
	}
}
