package portions_test

import (
	"testing"

	"parewell/recipes/food/portions"
)

func TestParse(t *testing.T) {
	names := portions.NamesOf("onion, raw", "olives; bagel; thigh")
	var p portions.Parser
	for _, r := range []struct {
		what, unit, detail string
		times              float64
	}{
		{"cup", "cup", "", 1},
		{"cup, chopped", "cup", "chopped", 1},
		{"cup slices", "cup", "slices", 1},
		{"tablespoon", "tbsp", "", 1},
		{"Tbsp", "tbsp", "", 1},
		{"fl oz", "fl oz", "", 1},
		{`pat,  (1" sq, 1/3" high)`, "pat", "", 1},
		{`medium (2-1/2" dia)`, "medium", "", 1},
		{"extra large", "extra large", "", 1},
		{`stalk, medium (7-1/2" - 8" long)`, "stalk", "medium", 1},
		{"olive", "whole", "", 1},
		{"large bagel", "large", "", 1},
		{"thigh with skin", "thigh", "with skin", 1},
		{"cup,  (not packed)", "cup", "not packed", 1},
		{"package (10 oz)", "package", "10 oz", 1},
		{"can, 14.5 oz", "can", "14.5 oz", 1},
		{"serving, 1/2 cup", "cup", "", 0.5},
		{"serving (2 tbsp)", "tbsp", "", 2},
		{"oz", "", "", 0},
		{"NLEA serving", "", "", 0},
		{"cubic inch", "", "", 0},
		{"unit (yield from 1 lb ready-to-cook chicken)", "", "", 0},
		{"", "", "", 0},
	} {
		for range 2 { // the second time from what it has met
			m, n, ok := p.Parse(r.what, names)
			if m.Unit != r.unit || m.Detail != r.detail || n != r.times || ok != (r.times > 0) {
				t.Errorf("%q: %q %q times %v, want %q %q times %v", r.what, m.Unit, m.Detail, n, r.unit, r.detail, r.times)
			}
		}
	}
}

func TestAmount(t *testing.T) {
	for _, r := range []struct {
		text string
		n    float64
		rest string
	}{{"1 tbsp", 1, "tbsp"}, {".5 cup, diced", 0.5, "cup, diced"}, {"10 beans", 10, "beans"}, {"cup", 1, "cup"}, {"0 cup", 1, "0 cup"}, {"", 1, ""}} {
		if n, rest := portions.Amount(r.text); n != r.n || rest != r.rest {
			t.Errorf("%q: %v %q, want %v %q", r.text, n, rest, r.n, r.rest)
		}
	}
}

// FuzzParse holds that whatever a table says is read without failing, the same
// each time, and that a measure it gives has a unit and a sensible count.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"cup, chopped (1/2\" pieces)", "serving, 1/2 cup", "serving 1/0 cup", "package (10 oz)", "(((", "olive, large", "é cup"} {
		f.Add(s, "olive, green")
	}
	f.Fuzz(func(t *testing.T, what, name string) {
		var p portions.Parser
		m, n, ok := p.Parse(what, portions.NamesOf(name))
		again, n2, ok2 := p.Parse(what, portions.NamesOf(name))
		if m != again || n != n2 || ok != ok2 {
			t.Errorf("%q: %v %v, then %v %v", what, m, n, again, n2)
		}
		if ok && (m.Unit == "" || !(n > 0) || n > 1e300) {
			t.Errorf("%q: unit %q times %v", what, m.Unit, n)
		}
	})
}
