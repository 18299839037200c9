package shopping

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/tasting"
)

func row(code, name string) *food.Food {
	return &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: code}, Name: name, Allergens: food.Allergens{Recorded: true}}
}

// larder are made-up foods: haddock is bought with its bones, leek with its top.
func larder() (haddock, cream, leek, stock *food.Food) {
	haddock, cream, leek, stock = row("1", "Haddock"), row("2", "Cream"), row("3", "Leek"), row("4", "Stock")
	haddock.Edible, leek.Edible, cream.Density = 0.8, 0.5, 1
	leek.Measures = []food.Measure{{Unit: "whole", Grams: 90}}
	return haddock, cream, leek, stock
}

func line(id string, f *food.Food, grams float64) *recipes.Line {
	return &recipes.Line{ID: recipes.ID(id), Text: fmt.Sprintf("%g g %s", grams, f.Name), Name: f.Name, Unit: "g", Amount: grams, Grams: grams, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}
}

// kitchen is a book with a gratin (1,000 g of food going in, no method stated, so
// that a cooking weighs what went in), a sauce inside it, and versions A and B.
func kitchen(tb testing.TB) *recipes.Book {
	tb.Helper()
	haddock, cream, leek, stock := larder()
	b := &recipes.Book{}
	sauce := &recipes.Recipe{ID: "sauce", Title: "Sauce", Servings: 2, Edition: 1, Lines: []*recipes.Line{line("s1", cream, 300), line("s2", stock, 100)}, Steps: []*recipes.Step{{ID: "x", Text: "Stir"}}}
	fish := line("l1", haddock, 400)
	fish.AsBought = true
	inner := &recipes.Line{ID: "l4", Text: "half the sauce", Name: "sauce", PartEaten: 1, Sub: &recipes.SubRecipe{Recipe: "sauce", Batches: 0.5}, GramsFrom: recipes.GramsTyped}
	gratin := &recipes.Recipe{
		ID: "gratin", Title: "Gratin", Servings: 4, Edition: 1,
		Lines: []*recipes.Line{fish, line("l2", cream, 180), line("l3", leek, 300), inner},
		Steps: []*recipes.Step{{ID: "s1", Text: "Bake"}},
	}
	for _, v := range []recipes.Verb{
		recipes.AddRecipe(sauce, []*food.Food{haddock, cream, leek, stock}), recipes.AddRecipe(gratin, nil),
		recipes.AddVersion("gratin", "A", "", ""), recipes.AddVersion("gratin", "B", "", ""),
		recipes.AddSwap(&recipes.Swap{ID: "half", Recipe: "gratin", Name: "half the cream", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l2", Factor: 0.5}}}, nil, "A"),
		recipes.AddSwap(&recipes.Swap{ID: "less", Recipe: "gratin", Name: "less fish", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l1", Factor: 0.75}}}, nil, "B"),
	} {
		b = do(tb, b, v)
	}
	return b
}

func do(tb testing.TB, b *recipes.Book, v recipes.Verb) *recipes.Book {
	tb.Helper()
	c, err := v(b)
	if err == nil {
		b, err = b.With(c)
	}
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// plan puts a tasting of samples with so many seats that all get every cup.
func plan(tb testing.TB, b *recipes.Book, seats int, portion, spare float64, samples ...*recipes.Sample) (*recipes.Book, *recipes.Tasting) {
	tb.Helper()
	t := &recipes.Tasting{ID: "t", Recipe: "gratin", Date: "2026-03-04", Test: recipes.TestLiking, Portion: portion, Spare: spare, Attributes: []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}}}
	for n := range seats {
		seat := recipes.Seat{Number: n + 1}
		for _, s := range samples {
			code := 200 + int(s.ID[1]-'0')*37
			seat.Cups = append(seat.Cups, recipes.Cup{Sample: s.ID, Code: code})
		}
		t.Seats = append(t.Seats, seat)
	}
	b = do(tb, b, tasting.Put(t, samples))
	return b, b.Tasting("t")
}

func samples() []*recipes.Sample {
	return []*recipes.Sample{{ID: "s0", Code: "200"}, {ID: "s1", Version: "A", Code: "237"}, {ID: "s2", Version: "B", Code: "274"}, {ID: "s3", Version: "B", Pot: 2, Code: "311"}, {ID: "s4", Version: "A", Code: "348"}}
}

func near(tb testing.TB, what string, got, want float64) {
	tb.Helper()
	if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
		tb.Errorf("%s is %g, want %g", what, got, want)
	}
}

func TestPotsAndTheList(t *testing.T) {
	b, tt := plan(t, kitchen(t), 10, 50, 0.2, samples()...)
	l := Of(b, tt, nutrition.In(b), Ask{})
	var got []string
	for _, p := range l.Pots {
		got = append(got, fmt.Sprintf("%s/%d %d cups %.0f g", p.Name, p.Number, p.Cups, p.Grams))
	}
	// two samples of A share a pot, those of B have one each
	want := []string{l.Pots[0].Name + "/1 10 cups 600 g", "A/1 20 cups 1200 g", "B/1 10 cups 600 g", "B/2 10 cups 600 g"}
	if !slices.Equal(got, want) {
		t.Fatalf("pots %v, want %v", got, want)
	}
	// By hand. The original once: 400 x 0.8 + 180 + 300 + 200 of sauce = 1000 g.
	near(t, "once", l.Pots[0].Once, 1000)
	near(t, "the original", l.Pots[0].Times, 0.6)
	near(t, "A", l.Pots[1].Times, 1200.0/910)
	near(t, "B", l.Pots[2].Times, 600.0/920)
	// Leek: 300 g of the edible half in each, as bought 600 g.
	leek := item(t, l, "Leek")
	near(t, "leek", leek.Grams, 600*(0.6+1200.0/910+2*600/920.0))
	if h, ok := leek.Household(leek.Grams, measure.US); !ok || h.Unit != "whole" || h.Amount != math.Ceil(leek.Grams/2/90-0.1) {
		t.Errorf("leeks %+v", h)
	}
	// Cream stands in the dish and in the sauce: one item.
	near(t, "cream", item(t, l, "Cream").Grams, (180+150)*0.6+(90+150)*1200.0/910+(180+150)*2*600/920.0)
}

func item(tb testing.TB, l *List, name string) *Item {
	tb.Helper()
	var found *Item
	for i := range l.Items {
		if l.Items[i].Name == name {
			if found != nil {
				tb.Fatalf("%s stands twice", name)
			}
			found = &l.Items[i]
		}
	}
	if found == nil {
		tb.Fatalf("no %s on the list", name)
	}
	return found
}

func TestWholeBatches(t *testing.T) {
	for _, r := range []struct {
		name    string
		portion float64
		times   float64
	}{{"a little", 1, 1}, {"exactly one", 100, 1}, {"just over", 100.1, 2}, {"two and a half", 250, 3}} {
		b, tt := plan(t, kitchen(t), 10, r.portion, 0, samples()[:2]...)
		if got := Of(b, tt, nutrition.In(b), Ask{Whole: true}).Pots[0].Times; got != r.times {
			t.Errorf("%s: cooked %g times, want %g", r.name, got, r.times)
		}
	}
}

func TestAMeasuredWeightDecides(t *testing.T) {
	b, tt := plan(t, kitchen(t), 10, 80, 0, samples()[:2]...)
	b = do(t, b, recipes.AddTest(&recipes.Batch{ID: "k", Recipe: "gratin", Date: "2026-02-01", FullDish: 1300, Dish: 500}))
	p := Of(b, tt, nutrition.In(b), Ask{}).Pots[0]
	if p.From != nutrition.CookedMeasured || p.Times != 1 || p.Once != 800 {
		t.Errorf("%+v", p)
	}
}

func TestWhatIsNotKnownStaysToCheck(t *testing.T) {
	b := kitchen(t)
	_, cream, _, _ := larder()
	some := line("l9", cream, 0)
	some.Text, some.GramsFrom = "cream to taste", recipes.GramsUnknown
	odd := &recipes.Line{ID: "l8", Text: "a sheet of nori", Name: "nori", Grams: 4, GramsFrom: recipes.GramsTyped, PartEaten: 1}
	b = do(t, b, recipes.AddLine("gratin", some, "", nil))
	b = do(t, b, recipes.AddLine("gratin", odd, "", nil))
	b, tt := plan(t, b, 4, 50, 0, samples()[:2]...)
	l := Of(b, tt, nutrition.In(b), Ask{OnHand: map[string]float64{"cream": 5000, "NORI": 1}})
	c := item(t, l, "Cream")
	if !slices.Equal(c.Check, []string{"cream to taste"}) || c.Done() || c.Buy() != 0 || c.Stock != 5000 {
		t.Errorf("cream %+v", c)
	}
	if n := item(t, l, "nori"); n.Struck() != 1 || n.Done() || n.Row != nil {
		t.Errorf("nori %+v", n)
	}
	if !l.Pots[0].AtLeast {
		t.Error("a pot with an unknown line weighs at least what is known")
	}
	for _, r := range []struct {
		name    string
		portion float64
	}{{"no portion set", 0}} {
		b, tt := plan(t, kitchen(t), 4, r.portion, 0, samples()[:2]...)
		l := Of(b, tt, nutrition.In(b), Ask{Whole: true})
		if l.Pots[0].Known() || len(l.Items) == 0 {
			t.Fatalf("%s: %+v", r.name, l.Pots[0])
		}
		for _, x := range l.Items {
			if len(x.Check) == 0 || x.Grams != 0 || x.Done() {
				t.Errorf("%s: %s is %g g with nothing to check", r.name, x.Name, x.Grams)
			}
		}
	}
}

func TestABenchmarkDishIsAPotWithoutARecipe(t *testing.T) {
	b, tt := plan(t, kitchen(t), 4, 50, 0, samples()[0], &recipes.Sample{ID: "s1", Dish: "Bought pie", Code: "237", DishChecked: true})
	l := Of(b, tt, nutrition.In(b), Ask{})
	last := l.Pots[len(l.Pots)-1]
	if last.Dish != "Bought pie" || last.Grams != 200 || last.Known() {
		t.Errorf("%+v", last)
	}
	near(t, "cream", item(t, l, "Cream").Grams, 0.2*330)
}

// TestMassIsKept plans tastings at random: what is bought and struck off is what
// the pots take, line by line.
func TestMassIsKept(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	b := kitchen(t)
	for range 200 {
		n := 2 + r.IntN(4)
		b2, tt := plan(t, b, 1+r.IntN(60), 5+r.Float64()*100, r.Float64()/2, samples()[:n]...)
		onHand := map[string]float64{"test/1/1": r.Float64() * 900, "Cream": r.Float64() * 3000, "saffron": 3}
		l := Of(b2, tt, nutrition.In(b2), Ask{Whole: r.IntN(2) == 0, OnHand: onHand})
		want := map[string]float64{}
		for _, p := range l.Pots {
			fish, creamed := 400.0, 180.0
			switch p.Version {
			case "A":
				creamed = 90
			case "B":
				fish = 300
			}
			want["Haddock"] += p.Times * fish
			want["Cream"] += p.Times * (creamed + 150)
			want["Leek"] += p.Times * 600
			want["Stock"] += p.Times * 50
			if p.Makes() < p.Grams-1e-6 {
				t.Fatalf("%s makes %g g of %g", p.Name, p.Makes(), p.Grams)
			}
		}
		for i := range l.Items {
			x := &l.Items[i]
			near(t, x.Name, x.Grams, want[x.Name])
			near(t, x.Name+" bought and struck", x.Buy()+x.Struck(), want[x.Name])
			if x.Buy() < -1e-9 || x.Struck() > onHand["Cream"]+onHand["test/1/1"] {
				t.Fatalf("%+v", x)
			}
		}
		if len(l.Items) != 4 {
			t.Fatalf("%d items", len(l.Items))
		}
	}
}

func TestTheOrderOfSamplesDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	b := kitchen(t)
	ask := Ask{OnHand: map[string]float64{"leek": 250}}
	b1, t1 := plan(t, b, 13, 37, 0.15, samples()...)
	want := Of(b1, t1, nutrition.In(b1), ask)
	for range 50 {
		mixed := samples()
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		b2, t2 := plan(t, b, 13, 37, 0.15, mixed...)
		if got := Of(b2, t2, nutrition.In(b2), ask); !reflect.DeepEqual(got, want) {
			t.Fatalf("another order gives %+v, want %+v", got, want)
		}
	}
}

func TestStockIsUsedOnce(t *testing.T) {
	f := row("7", "Rice")
	c := &counter{items: map[string]*Item{
		"a": {Food: f.Ref, Name: "Rice", Grams: 100, Row: f},
		"b": {Food: f.Ref, Name: "Rice", State: food.Cooked, Grams: 300, Row: f},
	}}
	got := c.list(newStore(map[string]float64{"rice": 150, strings.ToUpper(f.Ref.String()): 30}))
	if got[0].Struck() != 100 || got[1].Struck() != 80 || got[1].Buy() != 220 {
		t.Errorf("%+v", got)
	}
}

func TestHouseholdMeasures(t *testing.T) {
	egg, oil, fish := row("8", "Egg"), row("9", "Oil"), row("10", "Fish")
	egg.Measures, egg.Edible = []food.Measure{{Unit: "large", Grams: 50}}, 0.88
	oil.Density = 0.92
	for _, r := range []struct {
		name   string
		food   *food.Food
		grams  float64
		system measure.System
		want   Household
		ok     bool
	}{
		{"two eggs in the shell", egg, 100 / 0.88, measure.US, Household{2, "large"}, true},
		{"a bit of egg is one", egg, 10, measure.US, Household{1, "large"}, true},
		{"a teaspoon", oil, 4.6, measure.Metric, Household{1, "tsp"}, true},
		{"two spoons", oil, 27.6, measure.Metric, Household{2, "tbsp"}, true},
		{"a cup", oil, 218, measure.US, Household{1, "cup"}, true},
		{"millilitres elsewhere", oil, 218, measure.Imperial, Household{240, "ml"}, true},
		{"litres", oil, 2024, measure.Metric, Household{2.2, "litre"}, true},
		{"nothing to go by", fish, 218, measure.US, Household{}, false},
		{"nothing to buy", oil, 0, measure.US, Household{}, false},
	} {
		x := Item{Row: r.food}
		if got, ok := x.Household(r.grams, r.system); got != r.want || ok != r.ok {
			t.Errorf("%s: %+v %v, want %+v", r.name, got, ok, r.want)
		}
	}
}
