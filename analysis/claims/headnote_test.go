package claims

import (
	"strings"
	"testing"

	"parewell/recipes/food"
)

func TestWordsOfAHeadnote(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"A light supper dish.", "light:checkable/light"},
		{"a lighter gratin", "lighter:checkable/light"},
		{"a light, golden crust", "light:checkable/light"},
		{"until light golden", "light golden:looks"},
		{"a low-fat, high-fibre bake", "low-fat:checkable/low-fat; high-fibre:checkable/high-fibre"},
		{"very low in salt", "very low in salt:checkable/very-low-sodium"},
		{"Low in Saturated Fat", "Low in Saturated Fat:checkable/low-sat"},
		{"no added sugar", "no added sugar:checkable/no-added-sugar"},
		{"97% fat-free", "97% fat-free:checkable/percent-fat-free"},
		{"100 % fat free", "100 % fat free:checkable/all-fat-free"},
		{"guilt-free and clean", "guilt-free:feeling; clean:feeling"},
		{"heart-healthy", "heart-healthy:health"},
		{"a healthier choice", "healthier:health"},
		{"lowers cholesterol", "lowers cholesterol:disease"},
		{"low cholesterol", "low cholesterol:checkable/low-cholesterol"},
		{"great for weight loss", "weight loss:weight loss"},
		{"25 % less salt", "25 % less salt:comparison/reduced-sodium"},
		{"half the fat", "half the fat:comparison/reduced-fat"},
		{"a third fewer calories", "a third fewer calories:comparison/reduced-calorie"},
		{"under 400 kcal a bowl", "under 400 kcal:amount"},
		{"only 12 g of fat", "only 12 g of fat:amount"},
		{"heat 2 tbsp oil for 5 minutes", ""},
		{"just as creamy as ever", "just as creamy:taste"},
		{"as rich as the one you know", "as rich as:taste"},
		{"you won’t miss the butter", "you won’t miss:taste"},
		{"No one will notice!", "No one will notice:taste"},
		{"as soon as the milk boils", ""},
		{"by the evening light", ""},
		{"lightly fried onions", ""},
		{"half a lemon", ""},
		{"36 % fat cream", ""},
		{"eat less. Fat is flavour", ""},
		{"", ""},
		{"café – ½", ""},
	} {
		var all []string
		for _, f := range Words(row.text) {
			if row.text[f.Start:f.End] != f.Word {
				t.Errorf("%q: %q does not stand at %d", row.text, f.Word, f.Start)
			}
			s := f.Word + ":" + string(f.Sort)
			if f.Term != "" {
				s += "/" + string(f.Term)
			}
			all = append(all, s)
		}
		if got := strings.Join(all, "; "); got != row.want {
			t.Errorf("%q: %s, want %s", row.text, got, row.want)
		}
	}
}

func TestNumbersInAHeadnote(t *testing.T) {
	for _, row := range []struct {
		text            string
		n               food.Nutrient
		percent, amount float64
		op              Op
	}{
		{"half the fat", fat, 50, 0, ""},
		{"a third of the calories", kcal, 200.0 / 3, 0, ""},
		{"two thirds of the sugar", sugars, 100.0 / 3, 0, ""},
		{"a quarter less sodium", na, 25, 0, ""},
		{"40 per cent less saturated fat", sat, 40, 0, ""},
		{"less than 1,200 mg sodium", na, 0, 1200, Below},
		{"at least 20 g protein", protein, 0, 20, AtLeast},
		{"no more than 1.5 g of salt", na, 0, 600, AtMost},
		{"just 320 calories", kcal, 0, 320, ""},
		{"1500 kJ", food.EnergyKJ, 0, 1500, ""},
	} {
		got := Words(row.text)
		if len(got) != 1 || got[0].Nutrient != row.n || !near(got[0].Percent, row.percent) || !near(got[0].Amount, row.amount) || got[0].Op != row.op {
			t.Errorf("%q: %+v", row.text, got)
		}
	}
}

func TestHeadnoteWordsAgainstTheFigures(t *testing.T) {
	f := facts(amounts{kcal: 400, fat: 24, na: 900}, amounts{kcal: 318.4, fat: 11.9, na: 610, protein: 20})
	for _, row := range []struct {
		text string
		want Verdict // of the words' own number
		term Verdict // of the first rule for it, if any
	}{
		{"half the fat", May, May},
		{"55 % less fat", MayNot, MayNot},
		{"a third less salt", MayNot, MayNot},
		{"32 % less salt", May, May},
		{"20 % fewer calories", May, MayNot}, // true, and still under the least cut of a quarter
		{"only 320 calories", May, ""},
		{"318 kcal", May, ""},
		{"only 310 calories", MayNot, ""},
		{"under 318 kcal", MayNot, ""},
		{"under 319 kcal", May, ""},
		{"12 g of fat", May, ""},
		{"11.8 g of fat", MayNot, ""},
		{"1.5 g salt", May, ""},
		{"1.4 g salt", MayNot, ""},
		{"at least 20 g protein", May, ""},
		{"more than 20 g protein", MayNot, ""},
		{"95 % fat free", MayNot, MayNot},
		{"guilt-free", "", ""},
	} {
		said := CheckWords(row.text, f, US)
		if len(said) != 1 || said[0].Verdict != row.want {
			t.Errorf("%q: %+v, want %s", row.text, said, row.want)
			continue
		}
		if row.term != "" && (len(said[0].Results) == 0 || said[0].Results[0].Verdict != row.term) {
			t.Errorf("%q: rule %+v, want %s", row.text, said[0].Results, row.term)
		}
		if row.term == "" && len(said[0].Results) > 0 {
			t.Errorf("%q: rules for words that have none", row.text)
		}
		if text := said[0].Phrase().String(); text == "" || strings.Contains(text, "[") {
			t.Errorf("%q says %q", row.text, text)
		}
	}
	f.Version.PerServing[fat] = Value{5, 40}
	for _, text := range []string{"half the fat", "12 g of fat", "90 % fat free"} {
		if said := CheckWords(text, f); said[0].Verdict != CannotDecide || strings.Contains(said[0].Phrase().String(), "[") {
			t.Errorf("%q with the fat unknown: %s", text, said[0].Verdict)
		}
	}
	if said := CheckWords("light", f, US); len(said[0].Results) != 2 || said[0].Figure != nil {
		t.Errorf("light: %+v", said)
	}
	if said := CheckWords("healthy", f); said[0].Advice().Key != "claims.advice.reword" {
		t.Errorf("healthy: %v", said[0].Advice())
	}
}

func FuzzWords(f *testing.F) {
	for _, s := range []string{"half the fat", "a", "one", "1,", "½ %", "25 per cent less", "no more than", "é%\xff", "two", "100 % fat free light golden"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		last := 0
		for _, w := range Words(s) {
			if w.Start < last || w.End <= w.Start || w.End > len(s) || s[w.Start:w.End] != w.Word {
				t.Fatalf("%q: %+v", s, w)
			}
			last = w.End
		}
	})
}

// TestComparisonSaysOfHowMuch: a cut is counted for the same weight of both dishes
// (21 CFR 101.13(j)(1); Regulation (EC) 1924/2006, article 9(1)), and words about a
// helping learn what a serving comes to as well.
func TestComparisonSaysOfHowMuch(t *testing.T) {
	f := facts(amounts{fat: 20}, amounts{fat: 9.5}) // 52.5 % less in a serving
	f.Kind, f.WeightRatio = MainDish, Exactly(1.08) // which is lighter
	for _, row := range []struct {
		text    string
		serving bool
	}{
		{"half the fat", false},
		{"half the fat in each helping", true},
		{"Half the fat. A serving is plenty.", false},
		{"Each of the six portions has half the fat!", true},
	} {
		said := CheckWords(row.text, f, US)
		if len(said) != 1 || said[0].Verdict != MayNot {
			t.Fatalf("%q: %+v", row.text, said)
		}
		text := said[0].Phrase().String()
		if !strings.Contains(text, "48.7 %") || !strings.Contains(text, "in 100 g") || strings.Contains(text, "52.5 %") != row.serving {
			t.Errorf("%q says %q", row.text, text)
		}
	}
}
