package reading

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
)

func TestReadOver(t *testing.T) {
	opt := Options{Foods: table(t), System: measure.Metric}
	rows := []struct{ name, line, typed, want string }{
		{"grams", "60 g butter, cubed", "20 g", "20 g butter, cubed|20 g|01001"},
		{"grams without space", "60g butter", "20g", "20g butter|20 g|01001"},
		{"bare number over grams", "60 g butter", "20", "20 g butter|20 g|01001"},
		{"spoons over grams", "60 g butter", "2 tbsp", "2 tbsp butter|same"},
		{"half a weight", "60 g butter", "half", "30 g butter|30 g|01001"},
		{"half as a fraction", "60 g butter", "½", "30 g butter|30 g|01001"},
		{"a quarter less", "60 g butter", "-25 %", "45 g butter|45 g|01001"},
		{"three quarters", "60 g butter", "75%", "45 g butter|45 g|01001"},
		{"a tenth more", "60 g butter", "+10 %", "66 g butter|66 g|01001"},
		{"count over a count", "4 eggs", "3", "3 eggs|150 g|01123"},
		{"weight over a count", "4 eggs", "120", "120 g eggs|120 g|01123"},
		{"half a count", "4 eggs", "half", "2 eggs|100 g|01123"},
		{"another food after", "60 g butter", "20 g olive oil", "20 g olive oil|20 g|04053"},
		{"another food before", "60 g butter", "olive oil 20 g", "olive oil 20 g|20 g|04053"},
		{"another food, no amount", "60 g butter", "olive oil", "60 g olive oil|60 g|04053"},
		{"its own name again", "60 g butter", "butter 45 g", "butter 45 g|45 g|01001"},
		{"two measures of one thing", "500 g beef mince", "1 lb 2 oz", "1 lb 2 oz beef mince|same"},
		{"left out by a dash", "60 g butter", "-", "left out"},
		{"left out by nothing", "60 g butter", "  ", "left out"},
		{"left out by nought", "60 g butter", "0 g", "left out"},
		{"two things", "300 ml double cream", "150 ml + 75 g yogurt", "names two"},
		{"two things by and", "60 g butter", "20 g oil and 10 g butter", "names two"},
		{"nonsense", "60 g butter", "???", "neither"},
		{"a food nobody knows", "60 g butter", "20 g zzyzxqq", "no food is called"},
		{"a share of what is not weighed", "salt to taste", "half", "cannot be worked out"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			line := ReadLine(r.line, opt)
			line.ID, line.Section, line.PartEaten = "line", "Sauce", 0.9
			before := fmt.Sprintf("%+v", *line)
			got, err := ReadOver(r.typed, line, opt)
			checkOver(t, r.want, line, got, err)
			if after := fmt.Sprintf("%+v", *line); after != before {
				t.Errorf("the line was changed:\n%s\n%s", before, after)
			}
		})
	}
}

func checkOver(t *testing.T, want string, line, got *recipes.Line, err error) {
	t.Helper()
	if err != nil {
		var p *problem.Error
		if !errors.As(err, &p) || !strings.Contains(p.What, want) || p.Hint == "" {
			t.Fatalf("error %v, want %q with a hint", err, want)
		}
		return
	}
	if got == nil {
		if want != "left out" {
			t.Fatalf("left out, want %s", want)
		}
		return
	}
	text, _, same := strings.Cut(want, "|same")
	have := fmt.Sprintf("%s|%v g|%s", got.Text, figure(got.Grams), got.Food.Code)
	if same {
		have = got.Text
		if got.Food != line.Food || !got.Known() {
			t.Errorf("food %v, grams from %s", got.Food, got.GramsFrom)
		}
	}
	if have != text {
		t.Errorf("got %s, want %s", have, text)
	}
	if got.ID != "line" || got.Section != "Sauce" {
		t.Errorf("ID %q, section %q", got.ID, got.Section)
	}
	if got.Food == line.Food && got.PartEaten != 0.9 {
		t.Errorf("part eaten %v, want it kept", got.PartEaten)
	}
}

func TestReadOverKeepsThePickedFood(t *testing.T) {
	tab := table(t)
	opt := Options{Foods: tab}
	ghee := tab.Search("ghee", 1)[0].Food
	line := ReadLine("60 g butter", opt)
	got, err := ReadOverWith("20 g of that", line, ghee, opt)
	if err != nil || got.Food != ghee.Ref || got.Grams != 20 {
		t.Fatalf("got %+v, %v; want 20 g of %s", got, err, ghee.Name)
	}
}

func TestTyped(t *testing.T) {
	rows := []struct{ text, before, name, after string }{
		{"20 g oliv", "20 g ", "oliv", ""},
		{"oliv", "", "oliv", ""},
		{"olive oil 20 g", "", "olive oil", " 20 g"},
		{"20 g", "20 g", "", ""},
		{"2 tbsp", "2 tbsp", "", ""},
		{"", "", "", ""},
	}
	for _, r := range rows {
		b, n, a := Typed(r.text, measure.Metric)
		if b != r.before || n != r.name || a != r.after {
			t.Errorf("%q: %q %q %q, want %q %q %q", r.text, b, n, a, r.before, r.name, r.after)
		}
	}
}

func FuzzReadOver(f *testing.F) {
	for _, s := range []string{"20 g", "half", "-", "20 g olive oil", "150 ml + 75 g yogurt", "½", "-25 %", "9e99"} {
		f.Add(s, "60 g butter")
	}
	f.Fuzz(func(t *testing.T, typed, text string) {
		opt := Options{Foods: table(t)}
		line := ReadLine(text, opt)
		got, err := ReadOver(typed, line, opt)
		if err != nil && got != nil {
			t.Fatal("both a line and an error")
		}
		if got != nil && (got.Known() && !(got.Grams >= 0)) {
			t.Fatalf("%v g", got.Grams)
		}
	})
}
