package reading

import (
	"math"
	"testing"
)

func TestFields(t *testing.T) {
	rows := []struct {
		name string
		read func(string) (float64, bool)
		in   string
		want float64 // NaN: refused
	}{
		{"servings", Number, "6", 6},
		{"half servings", Number, " 1½ ", 1.5},
		{"decimal comma", Number, "2,5", 2.5},
		{"a range is not one number", Number, "4-6", math.NaN()},
		{"no servings", Number, "0", math.NaN()},
		{"words", Number, "many", math.NaN()},
		{"number and words", Number, "6 people", math.NaN()},
		{"bare grams", Grams, "45", 45},
		{"with the unit", Grams, "45 g", 45},
		{"kilograms", Grams, "1.2 kg", 1200},
		{"ounces, NIST SP 811", Grams, "4 oz", 113.398092500},
		{"none", Grams, "0", 0},
		{"a volume is no weight", Grams, "2 cups", math.NaN()},
		{"nothing", Grams, "", math.NaN()},
		{"a tonne", Grams, "1000 kg", 1e6},
		{"no kitchen weighs that", Grams, "1e308", math.NaN()},
		{"nor that", Grams, "999999999", math.NaN()},
		{"per cent", Share, "35 %", 0.35},
		{"bare per cent", Share, "35", 0.35},
		{"all", Share, "100", 1},
		{"one per cent", Share, "1%", 0.01},
		{"a third", Share, "1/3", 1.0 / 3},
		{"half", Share, "½", 0.5},
		{"too much", Share, "140 %", math.NaN()},
		{"none eaten", Share, "0", 0},
	}
	for _, r := range rows {
		got, ok := r.read(r.in)
		if math.IsNaN(r.want) {
			if ok {
				t.Errorf("%s: %q was read as %v", r.name, r.in, got)
			}
		} else if !ok || math.Abs(got-r.want) > 1e-9 {
			t.Errorf("%s: %q is %v %v, want %v", r.name, r.in, got, ok, r.want)
		}
	}
}
