package reading

import (
	"strings"
	"testing"

	"parewell/recipes"
)

// TestWhatTheMethodBoils: dry staples that the method boils and drains are taken
// as boiled and drained and asked about; so is the salt of their water.
func TestWhatTheMethodBoils(t *testing.T) {
	opt := Options{Foods: table(t)}
	for _, row := range []struct {
		name, line, steps string
		cooked, salted    bool
	}{
		{"by name", "400 g spaghetti", "Boil the spaghetti in plenty of water until just firm, then drain.", true, false},
		{"as pasta", "400 g penne", "Cook the pasta in boiling salted water. Drain it and keep a cup.", true, true},
		{"drained two sentences on", "300 g basmati rice", "Tip the rice into boiling water. Cook it for 10 minutes. Drain.", true, false},
		{"drained in the next step", "300 g basmati rice", "Cook the rice in salted water.\nDrain well.", true, true},
		{"not drained", "300 g risotto rice", "Stir in the rice and cook it in the stock until it is creamy.", false, false},
		{"another thing is drained", "400 g spaghetti", "Drain the beans. Warm the sauce.", false, false},
		{"cooked when weighed", "400 g cooked spaghetti", "Boil the water and drain the spaghetti.", false, false},
		{"vegetables are asked about their salt alone", "500 g potatoes", "Boil the potatoes in well salted water and drain.", false, true},
		{"the water in a sentence before", "400 g spaghetti", "Bring a large pan of salted water to the boil. Add the spaghetti and cook for 10 minutes. Drain.", true, true},
		{"the water in a step before", "300 g basmati rice", "Bring a pan of water to the boil and salt the water.\nTip in the rice, stir once.\nDrain after 11 minutes.", true, true},
		{"unsalted water in a sentence before", "400 g spaghetti", "Bring a large pan of water to the boil. Add the spaghetti and cook for 10 minutes. Drain.", true, false},
		{"long after the water", "500 g potatoes", "Cook the beans in salted water. Drain. Warm the oil. Fry the garlic. Chop the parsley. Roast the onion. Boil the potatoes in a pan.", false, false},
		{"after the pan was drained", "500 g potatoes", "Cook the beans in salted water. Drain. Put the potatoes into the oven.", false, false},
		{"unsalted", "500 g potatoes", "Boil the potatoes in unsalted water and drain.", false, false},
		{"her own word", "400 g spaghetti [boiled with its liquid]", "Boil the spaghetti and drain it.", false, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			d, err := ReadText("Supper\nServes 4\n\nIngredients\n"+row.line+"\n1 onion\n\nMethod\n1. Chop the onion.\n2. "+strings.ReplaceAll(row.steps, "\n", "\n3. ")+"\n", opt)
			if err != nil {
				t.Fatal(err)
			}
			has := func(k recipes.DoubtKind) bool {
				for _, x := range d.Lines[0].Doubts {
					if x.Kind == k {
						return true
					}
				}
				return false
			}
			if got := has(recipes.DoubtCooked); got != row.cooked || got && (d.Lines[0].Technique.Method != "boiled, drained" || has(recipes.DoubtState)) {
				t.Errorf("boiled and drained %v, want %v: %+v", got, row.cooked, d.Lines[0])
			}
			if has(recipes.DoubtSalted) != row.salted {
				t.Errorf("asked about the salt %v, want %v", !row.salted, row.salted)
			}
		})
	}
}

// TestSaltOfTheWater: a line that is the salt of a cooking water is eaten in part
// (Food Chem 2019;271:479-487), and the line offered for it is one.
func TestSaltOfTheWater(t *testing.T) {
	opt := Options{Foods: table(t)}
	pasta := ReadLine("454 g spaghetti", opt)
	l := ReadLine(SaltOfWater(pasta), opt)
	if l.Grams != 36 || l.PartEaten != waterSaltShare || l.Food.Code != "02047" || len(l.Doubts) != 1 || l.Doubts[0].Kind != recipes.DoubtPartEaten {
		t.Errorf("%q: %+v", l.Text, l)
	}
	d, err := ReadText("Supper\nServes 4\n\nIngredients\n400 g spaghetti\n30 g salt, for the pasta water\n\nMethod\n1. Boil the spaghetti in the salted water and drain.\n", opt)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range d.Lines[0].Doubts {
		if x.Kind == recipes.DoubtSalted {
			t.Error("asked about salt that stands there")
		}
	}
	if d.Lines[1].PartEaten != waterSaltShare {
		t.Errorf("%v of the water's salt is eaten", d.Lines[1].PartEaten)
	}
}
