package reading

import (
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// lineCase is one row of testdata/lines.txt.
type lineCase struct {
	in, want string
	sys      measure.System
}

func lineCases(t testing.TB) []lineCase {
	t.Helper()
	b, err := os.ReadFile("testdata/lines.txt")
	if err != nil {
		t.Fatal(err)
	}
	var out []lineCase
	for _, l := range strings.Split(string(b), "\n") {
		in, want, ok := strings.Cut(l, " => ")
		if !ok || strings.HasPrefix(l, "#") {
			continue
		}
		c := lineCase{in: in, want: want}
		if rest, ok := strings.CutPrefix(in, "metric: "); ok {
			c.in, c.sys = rest, measure.Metric
		}
		out = append(out, c)
	}
	return out
}

func TestReadLine(t *testing.T) {
	cases := lineCases(t)
	if len(cases) < 250 {
		t.Fatalf("only %d cases were found", len(cases))
	}
	for _, c := range cases {
		opt := Options{Foods: table(t), System: c.sys}
		if got := compact(ReadLine(c.in, opt)); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.in, got, c.want)
		}
	}
}

// checkLine holds for whatever text a line is read from; a split line's Note
// keeps what was written and so is not in its Text.
func checkLine(t *testing.T, l *recipes.Line, opt Options, split bool) {
	t.Helper()
	if math.IsNaN(l.Grams) || math.IsInf(l.Grams, 0) || l.Grams < 0 {
		t.Fatalf("%q: grams %v", l.Text, l.Grams)
	}
	if l.GramsFrom == recipes.GramsUnknown && l.Grams != 0 {
		t.Fatalf("%q: unknown grams are %v", l.Text, l.Grams)
	}
	if !(l.PartEaten >= 0 && l.PartEaten <= 1) || math.IsNaN(l.Amount) || l.Amount < 0 || math.IsInf(l.Amount, 0) || l.High < 0 {
		t.Fatalf("%q: eaten %v amount %v %v", l.Text, l.PartEaten, l.Amount, l.High)
	}
	again := ReadLine(l.Text, opt)
	if split {
		again.Note = l.Note
	}
	if !reflect.DeepEqual(l, again) {
		t.Fatalf("%q read again differs:\n%+v\n%+v", l.Text, l, again)
	}
}

func FuzzReadLine(f *testing.F) {
	for _, c := range lineCases(f) {
		f.Add(c.in, byte(c.sys))
	}
	for _, s := range []string{"", " ", "½", "1/0 cup", "(((", "[[45 g]", "1 (", ")(", "2 x", "x", "9999999 kg salt", "1 or", "\x00", "à la crème", "\xff\xfe", "1-", "–", "1 cup plus", "0 g salt", "1e9 eggs", "[eaten 900%] x"} {
		f.Add(s, byte(0))
	}
	foods := table(f)
	f.Fuzz(func(t *testing.T, text string, sys byte) {
		opt := Options{Foods: foods, System: measure.System(sys % 3)}
		checkLine(t, ReadLine(text, opt), opt, false)
		for _, l := range ReadLines(text, opt) {
			if l.Grams < 0 || math.IsNaN(l.Grams) {
				t.Fatalf("%q: grams %v", l.Text, l.Grams)
			}
		}
	})
}

func TestBracketNotes(t *testing.T) {
	opt := Options{Foods: table(t)}
	l := ReadLine("2 carrots, sliced [boiled, drained]", opt)
	if l.Technique.Method != "boiled, drained" {
		t.Errorf("technique %+v", l.Technique)
	}
	if l := ReadLine("1 cup wine [simmered 1 hour 30 min]", opt); l.Technique != (recipes.Technique{Method: "simmered", Minutes: 90}) {
		t.Errorf("technique %+v", l.Technique)
	}
	if l := ReadLine("butter [food: butter, unsalted] [45 g]", opt); l.Food.Code != "01145" || l.Grams != 45 || l.GramsFrom != recipes.GramsTyped {
		t.Errorf("food note: %+v", l)
	}
	if l := ReadLine("1 onion [raw]", opt); l.Technique.Method != "raw" || l.State != food.Raw {
		t.Errorf("raw: %+v", l)
	}
	if l := ReadLine("1 litre oil [eaten 8%] [ask Marion]", opt); l.PartEaten != 0.08 || l.Note != "ask Marion" {
		t.Errorf("eaten: %v %q", l.PartEaten, l.Note)
	}
	if l := ReadLine("2 bay leaves [food: no such thing at all zzz]", opt); l.Status() != recipes.StatusUnknown {
		t.Errorf("unknown food note: %v", l.Status())
	}
}

// decided is a cook's memory of one name.
type decided map[string]*recipes.Choice

func (d decided) Choice(name string) *recipes.Choice { return d[name] }

func TestMemoryComesFirst(t *testing.T) {
	foods := table(t)
	ref := food.Ref{Source: "usda", Release: "sr28", Code: "01145"}
	mem := decided{Key("Butter"): {Name: "butter", Food: ref, Grams: map[string]float64{"knob": 20}}}
	opt := Options{Foods: foods, Memory: mem}
	l := ReadLine("2 knobs of butter", opt)
	if l.Food != ref || l.Grams != 40 || l.GramsFrom != recipes.GramsTyped || l.Status() != recipes.StatusMatched {
		t.Errorf("remembered: %s", compact(l))
	}
	if l := ReadLine("30 g butter", opt); l.Food != ref || l.Grams != 30 || len(l.Doubts) != 0 {
		t.Errorf("remembered food: %s", compact(l))
	}
}

func TestKey(t *testing.T) {
	for in, want := range map[string]string{
		"Crème Fraîche": "creme fraiche", "the Tomatoes": "tomato", "chicken thighs": "chicken thigh", "cook’s  Leaves": "cook leaf", "Half-and-half": "half and half",
	} {
		if got := Key(in); got != want {
			t.Errorf("%s: %q", in, got)
		}
	}
}

func TestReadLinesSplit(t *testing.T) {
	opt := Options{Foods: table(t)}
	for in, want := range map[string][]string{
		"½ tsp each cumin and coriander":        {"½ tsp cumin", "½ tsp coriander"},
		"1 tsp each: salt, pepper and paprika":  {"1 tsp salt", "1 tsp pepper", "1 tsp paprika"},
		"Salt & pepper":                         {"Salt", "pepper"},
		"salt and pepper, to taste":             {"salt, to taste", "pepper, to taste"},
		"Sea salt and freshly ground pepper":    {"Sea salt", "freshly ground pepper"},
		"1 tsp salt and black pepper":           {"1 tsp salt", "black pepper, to taste"},
		"zest and juice of 2 limes":             {"juice of 2 limes", "zest of 2 limes"},
		"2 eggs plus 1 yolk":                    {"2 eggs", "1 yolk"},
		"2 cups flour, plus 2 tbsp for dusting": {"2 cups flour", "2 tbsp flour, for dusting"},
		"1 cup plus 2 tbsp sugar":               {"1 cup plus 2 tbsp sugar"},
		"2 tbsp butter, plus extra":             {"2 tbsp butter, plus extra"},
		"1 can sweet and sour sauce":            {"1 can sweet and sour sauce"},
	} {
		lines := ReadLines(in, opt)
		var got []string
		for _, l := range lines {
			got = append(got, l.Text)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %q", in, got)
		}
		if len(lines) > 1 && lines[0].Note != in {
			t.Errorf("%s: what was written is lost: %q", in, lines[0].Note)
		}
	}
}

func BenchmarkReadLine(b *testing.B) {
	opt := Options{Foods: table(b)}
	for b.Loop() {
		ReadLine("1 (15 oz.) can black beans, rinsed and drained", opt)
	}
}
