package measure

import (
	"math"
	"testing"
)

func TestReadNumber(t *testing.T) {
	for _, c := range []struct {
		in        string
		low, high float64
		rest      string
	}{
		{"2 cups", 2, 0, "cups"},
		{"1/2 cup", 0.5, 0, "cup"},
		{"½ cup", 0.5, 0, "cup"},
		{"1 1/2 cups", 1.5, 0, "cups"},
		{"1½ cups", 1.5, 0, "cups"},
		{"1 ½ cups", 1.5, 0, "cups"},
		{"1-1/2 cups", 1.5, 0, "cups"},
		{"11/2 cups", 1.5, 0, "cups"},
		{"1 / 2 cup", 0.5, 0, "cup"},
		{"1 and 1/2 cups", 1.5, 0, "cups"},
		{"2 and a half cups", 2.5, 0, "cups"},
		{"two and a half cups", 2.5, 0, "cups"},
		{"2-3 onions", 2, 3, "onions"},
		{"2–3 onions", 2, 3, "onions"},
		{"2 to 3 onions", 2, 3, "onions"},
		{"1 or 2 onions", 1, 2, "onions"},
		{"one or two onions", 1, 2, "onions"},
		{"1 to 1 1/2 cups", 1, 1.5, "cups"},
		{"2-2½ cups", 2, 2.5, "cups"},
		{"1/2-1 tsp", 0.5, 1, "tsp"},
		{"½–¾ tsp", 0.5, 0.75, "tsp"},
		{"100-150g flour", 100, 150, "g flour"},
		{"1.5 kg", 1.5, 0, "kg"},
		{".5 kg", 0.5, 0, "kg"},
		{"1,5 kg", 1.5, 0, "kg"},
		{"1,000 g", 1000, 0, "g"},
		{"1,250ml", 1250, 0, "ml"},
		{"1,250 kg", 1.25, 0, "kg"},
		{"2,500 mg", 2500, 0, "mg"},
		{"0,500 g", 0.5, 0, "g"},
		{"a pinch", 1, 0, "pinch"},
		{"half a lemon", 0.5, 0, "lemon"},
		{"half an onion", 0.5, 0, "onion"},
		{"a dozen eggs", 12, 0, "eggs"},
		{"half a dozen eggs", 6, 0, "eggs"},
		{"2 dozen eggs", 24, 0, "eggs"},
		{"1/2 dozen eggs", 6, 0, "eggs"},
		{"Three eggs", 3, 0, "eggs"},
		{"twelve eggs", 12, 0, "eggs"},
		{"a few sprigs", 3, 0, "sprigs"},
		{"three-quarters of a cup", 0.75, 0, "cup"},
		{"1 14-oz can", 1, 0, "14-oz can"},
		{"4-3 eggs", 4, 0, "-3 eggs"},
	} {
		n, rest, ok := ReadNumber(c.in)
		if !ok || math.Abs(n.Low-c.low) > 1e-12 || math.Abs(n.High-c.high) > 1e-12 || rest != c.rest {
			t.Errorf("%q: got %v %v %q %v", c.in, n.Low, n.High, rest, ok)
		}
	}
	for _, in := range []string{"", "salt", "half-fat cheese", "half and half", "five-spice", "99999999 g", "another"} {
		if n, _, ok := ReadNumber(in); ok {
			t.Errorf("%q is no amount, got %v", in, n)
		}
	}
}

func TestRangeMiddle(t *testing.T) {
	n, _, _ := ReadNumber("2-3")
	if n.Value() != 2.5 || !n.Range() {
		t.Errorf("middle of 2-3: %v", n.Value())
	}
	if n := (Number{Low: 4}); n.Value() != 4 || n.Range() {
		t.Errorf("4 alone: %v", n.Value())
	}
}

// Sizes: notes nutrition-facts section 1, and NIST SP 811.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		word string
		sys  System
		ml   float64
	}{
		{"cup", US, 236.5882365},
		{"Cups", Metric, 250},
		{"c", US, 236.5882365},
		{"T", US, 14.78676478125},
		{"t", US, 4.92892159375},
		{"TBSP.", Metric, 15},
		{"tsp", Imperial, 5},
		{"pint", US, 473.176473},
		{"pt", Imperial, 568.26125},
		{"pint", Metric, 568.26125},
		{"quart", US, 946.352946},
		{"gallon", US, 3785.411784},
		{"fl oz", US, 29.5735295625},
		{"fl oz", Imperial, 28.4130625},
		{"L", US, 1000},
		{"cl", US, 10},
		{"dl", Metric, 100},
		{"pinch", US, 4.92892159375 / 16},
	} {
		u := Lookup(c.word)
		if u == nil || math.Abs(float64(u.Millilitres(c.sys))-c.ml) > 1e-9 {
			t.Errorf("%s in %s: %+v", c.word, c.sys, u)
		}
	}
	for word, g := range map[string]float64{"g": 1, "grams": 1, "kg": 1000, "Oz": 28.349523125, "lbs": 453.59237, "lb.": 453.59237} {
		if u := Lookup(word); u == nil || math.Abs(float64(u.Grams)-g) > 1e-12 {
			t.Errorf("%s: %+v", word, u)
		}
	}
	if u := Lookup("flour"); u != nil {
		t.Errorf("flour is no unit: %+v", u)
	}
}

func TestSystems(t *testing.T) {
	for _, s := range []System{US, Metric, Imperial} {
		if got, err := ParseSystem(s.String()); err != nil || got != s {
			t.Errorf("%v: %v %v", s, got, err)
		}
	}
	if _, err := ParseSystem("troy"); err == nil {
		t.Error("troy measures were accepted")
	}
}
