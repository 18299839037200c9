package book

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
)

// readBack weighs a printed line by its own words: the parts of "½ cup + 2 tbsp",
// "1 lb 2 oz", "95 g" and so on, in the page's system, against what is written in
// the recipe's line. False where the line has no such amount.
func readBack(in *Ingredient, n int, s, from measure.System, d *recipes.DraftLine, f *food.Food) (float64, bool) {
	text := in.Amounts[n].Text
	if text == "" || strings.Contains(text, "–") {
		return 0, false
	}
	grams, ml, count := 0.0, 0.0, 0.0
	for _, piece := range strings.Split(text, "+") {
		for rest := strings.TrimSpace(piece); rest != ""; {
			v, after, ok := measure.ReadNumber(rest)
			if !ok {
				return 0, false
			}
			word, more, _ := strings.Cut(after, " ")
			switch u := measure.Lookup(word); {
			case word == "":
				count += v.Low
			case u.Kind == measure.Mass:
				grams += v.Low * float64(u.Grams)
			default:
				ml += v.Low * float64(u.Millilitres(s))
			}
			rest = more
		}
	}
	l := d.Line
	u := measure.Lookup(l.Unit)
	wasMl, wasG := 0.0, 0.0
	if u != nil {
		wasMl, wasG = l.Amount*float64(u.Millilitres(from)), l.Amount*float64(u.Grams)
	}
	perMl, _, _, _ := foodVolume(f, l.Prep)
	switch {
	case count > 0:
		return l.Grams * count / l.Amount, true
	case grams > 0 && u != nil && u.Kind == measure.Mass:
		return l.Grams * grams / wasG, true
	case grams > 0:
		return grams, true
	case u != nil && u.Kind == measure.Volume:
		return l.Grams * ml / wasMl, true
	case u != nil && u.Kind == measure.Mass:
		return l.Grams * ml * perMl / wasG, true
	}
	return 0, false
}

func foodVolume(f *food.Food, prep string) (float64, string, bool, bool) {
	if f == nil {
		return 0, "", false, false
	}
	return f.VolumeOf(prep)
}

// TestNutritionIsOfWhatIsPrinted reads every printed amount of every page of the
// demo back, weighs it, reckons the dish anew and compares with the page's
// figures.
func TestNutritionIsOfWhatIsPrinted(t *testing.T) {
	b := mustHarbour(t)
	pages, lines := 0, 0
	for _, r := range b.Recipes() {
		from, _ := measure.ParseSystem(r.Measures)
		for i, v := range append([]*recipes.Version{nil}, b.Versions(r.ID)...) {
			id := recipes.ID("")
			if v != nil {
				id = v.ID
			}
			o := Usual(Both, []claims.Authority{claims.US, claims.EU}[i%2])
			o.NoChart = true
			p, err := PageOf(b, r.ID, id, o)
			if err != nil {
				t.Fatal(err)
			}
			pages++
			lines += holdsTo(t, b, p, b.Draft(r, v), from)
		}
	}
	if pages < 15 || lines < 400 {
		t.Errorf("only %d pages with %d amounts were read", pages, lines)
	}
	t.Logf("%d pages, %d amounts", pages, lines)
}

func holdsTo(t *testing.T, b *recipes.Book, p *Page, d *recipes.Draft, from measure.System) (read int) {
	t.Helper()
	for n, table := range p.Nutrition {
		again := *d
		again.Lines = slices.Clone(d.Lines)
		for _, s := range p.Sections {
			for i := range s.Lines {
				at := slices.IndexFunc(again.Lines, func(l recipes.DraftLine) bool { return l.Line.ID == s.Lines[i].Line })
				l := &again.Lines[at]
				if g, ok := readBack(&s.Lines[i], n, p.System(n), from, l, b.Food(l.Line.Food)); ok && l.Line.Grams > 0 {
					l.Scale = g / l.Line.Grams
					read++
				}
			}
		}
		k := kitchenOf(b, p.Rule)
		a := k.Of(&again)
		for _, row := range table.Rows {
			if row.Exact == nil {
				continue
			}
			got := a.PerServing(row.nutrient).Amount
			if row.Key == "salt_g" {
				got = nutrition.SaltGrams(got)
			}
			if math.Abs(got-*row.Exact) > 1e-6*math.Max(1, got) {
				t.Errorf("%s %s, %s: %s is %v of the printed lines, the page counts %v", p.Title, p.Letter, table.System, row.Key, got, *row.Exact)
			}
		}
	}
	return read
}

func row(t *testing.T, p *Page, key string) Row {
	t.Helper()
	for _, r := range p.Nutrition[0].Rows {
		if r.Key == key {
			return r
		}
	}
	t.Fatalf("no row %s", key)
	return Row{}
}

func TestRulesPrintTheirOwnWay(t *testing.T) {
	eu, us := pageOf(t, 0, "B", Usual(Metric, claims.EU)), pageOf(t, 0, "B", Usual(US, claims.US))
	if e := row(t, eu, "energy_kcal").Text; !strings.Contains(e, " kJ / ") {
		t.Errorf("EU energy %q wants kJ first", e)
	}
	if e := row(t, us, "energy_kcal").Text; strings.Contains(e, "kJ") || !strings.HasSuffix(e, "0 kcal") {
		t.Errorf("US calories %q go in tens over 50", e)
	}
	row(t, eu, "salt_g")
	row(t, us, "sodium_mg")
	if x, y := *row(t, eu, "carbohydrate_g").Exact, *row(t, us, "carbohydrate_g").Exact; !(x < y-1) {
		t.Errorf("carbohydrate %v by the EU leaves out the fibre that %v by the US has in it", x, y)
	}
	swapped := Usual(Metric, claims.EU)
	swapped.SaltNotSodium, swapped.KJFirst = false, false
	p := pageOf(t, 0, "B", swapped)
	row(t, p, "sodium_mg")
	if e := row(t, p, "energy_kcal").Text; strings.Index(e, "kJ") < strings.Index(e, "kcal") {
		t.Errorf("energy %q wants kcal first", e)
	}
}

// gaps is a little book with a food nobody knows, salt to taste, two swaps that
// rewrite one step, and servings that are assumed.
func gaps(t *testing.T) *recipes.Book {
	t.Helper()
	f := &food.Food{Ref: food.Ref{Source: "own", Code: "1"}, Name: "soft cheese", Allergens: food.Allergens{Contains: food.Milk}}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		f.Per100.Set(n, 10)
	}
	f.Per100.Forget(food.Cholesterol)
	salt := &food.Food{Ref: food.Ref{Source: "own", Code: "2"}, Name: "salt", Group: "herbs, spices, seasonings", Allergens: food.Allergens{Recorded: true}}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		salt.Per100.Set(n, 0)
	}
	salt.Per100.Set(food.Sodium, 38758)
	r := &recipes.Recipe{
		ID: "r", Title: "Cheese & <salt>", Headnote: "A guilt-free, low-fat dip.", Servings: 1, ServingsFrom: recipes.ServingsAssumed, Edition: 1,
		Lines: []*recipes.Line{
			{ID: "cheese", Text: "216 g soft cheese", Name: "soft cheese", Amount: 216, Unit: "g", Grams: 216, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1},
			{ID: "salt", Text: "salt to taste", Name: "salt", GramsFrom: recipes.GramsUnknown, Food: salt.Ref, PartEaten: 1},
		},
		Steps: []*recipes.Step{{ID: "s1", Text: "Beat at 200 °F."}},
	}
	swap := func(id, text string) recipes.Verb {
		return recipes.AddSwap(&recipes.Swap{ID: recipes.ID(id), Recipe: "r", Name: id, Ops: []recipes.Op{{Kind: recipes.OpStepReplace, Step: "s1", Text: text}}}, nil, "v")
	}
	return apply(t, &recipes.Book{}, recipes.AddRecipe(r, []*food.Food{f, salt}), recipes.AddVersion("r", "v", "whipped", ""), swap("one", "Whip it."), swap("two", "Chill it."))
}

func apply(t *testing.T, b *recipes.Book, verbs ...recipes.Verb) *recipes.Book {
	t.Helper()
	for _, v := range verbs {
		c, err := v(b)
		if err == nil {
			b, err = b.With(c)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func TestWhatIsNotKnownIsSaid(t *testing.T) {
	b := gaps(t)
	p, err := PageOf(b, "r", "v", Usual(Metric, claims.US))
	if err != nil {
		t.Fatal(err)
	}
	if s := row(t, p, "sodium_mg"); s.Bound != "at least" || s.Text != "at least 20 mg" || *s.Exact != 21.6 {
		t.Errorf("sodium %+v: 21.6 mg are known of it, salt to taste is more", s)
	}
	if c := row(t, p, "cholesterol_mg"); c.Text != "not known" || c.Exact != nil {
		t.Errorf("cholesterol %+v is known nowhere", c)
	}
	if s := row(t, p, "fat_g"); s.Bound != "" {
		t.Errorf("fat %+v is wholly known: salt has none", s)
	}
	kinds := map[OpenKind]Open{}
	for _, o := range p.Open {
		kinds[o.Kind] = o
	}
	for kind, line := range map[OpenKind]recipes.ID{OpenWeight: "salt", OpenServings: "", OpenStep: "", OpenCooked: "", OpenAllergen: "cheese", OpenUntested: ""} {
		if o, ok := kinds[kind]; !ok || o.Line != line {
			t.Errorf("%s: %+v", kind, o)
		}
	}
	if kinds[OpenStep].Step != "s1" {
		t.Errorf("the step is named: %+v", kinds[OpenStep])
	}
	if got := strings.Join(p.Allergens.Lines(), " "); got != "Contains: milk. Not recorded, so not known to be free of anything: soft cheese." {
		t.Errorf("allergens %q", got)
	}
	if c := p.Change; c == nil || c.Rows[3].Bound != nutrition.Exact || *c.Rows[3].Amount != 0 {
		t.Errorf("the unknown salt is the same on both sides: %+v", c)
	}
}

// TestNothingIsPrintedAsMoreThanIsKnown: a figure with an unknown part is never
// rounded up past what is known of it.
func TestNothingIsPrintedAsMoreThanIsKnown(t *testing.T) {
	for _, rule := range []claims.Authority{claims.US, claims.EU} {
		for _, n := range []food.Nutrient{food.EnergyKcal, food.Fat, food.SaturatedFat, food.Carbohydrate, food.Protein, food.Sodium, food.Fibre} {
			for v := 0.01; v < 3000; v *= 1.07 {
				p := printed(n, nutrition.Figure{Amount: v, AtLeast: true}, Options{Rule: rule})
				in := v
				if p.Unit == "g" && n == food.Sodium {
					in /= 1000
				}
				if p.Value > in+1e-9 {
					t.Fatalf("%s by %s: at least %v is printed as %s", n.Key(), rule, v, p.Text)
				}
			}
		}
	}
}

func TestPagesThatAreNotThere(t *testing.T) {
	b := mustHarbour(t)
	for _, ids := range [][2]recipes.ID{{"nowhere", ""}, {b.Recipes()[0].ID, "nowhere"}} {
		_, err := PageOf(b, ids[0], ids[1], Options{})
		var p *problem.Error
		if !errors.As(err, &p) {
			t.Errorf("%v: %v", ids, err)
		}
	}
	for _, bad := range []string{"cubits", "METRIC"} {
		if _, err := ParseUnits(bad); err == nil {
			t.Errorf("units %q were taken", bad)
		}
	}
	if _, err := ParseRule("moon"); err == nil {
		t.Error("a rule of the moon was taken")
	}
}

func TestHowItWasTested(t *testing.T) {
	b := mustHarbour(t)
	r := b.Recipes()[0]
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	if len(p.Tested.Tastings) == 0 || p.Tested.Changed || !strings.Contains(p.Tested.Result, "points of 9") || p.Tested.Tastings[0].Panel < 8 {
		t.Fatalf("B was tasted: %+v", p.Tested)
	}
	if f := pageOf(t, 0, "F", Usual(Metric, claims.EU)); f.Tested.Result != "" || len(f.Tested.Tastings) != 0 {
		t.Errorf("F was only predicted, and nothing of that is printed: %+v", f.Tested)
	}
	n := 0
	fresh := func() recipes.ID { n++; return recipes.ID(strings.Repeat("n", n)) }
	later := apply(t, b, recipes.ChangeDish("", fresh, recipes.SetServings(r.ID, 5)))
	if later.Recipe(r.ID).Edition != r.Edition+1 {
		t.Fatal("the served original changed and is no new edition")
	}
	q, err := PageOf(later, r.ID, p.Version, Usual(Metric, claims.EU))
	if err != nil {
		t.Fatal(err)
	}
	if !q.Tested.Changed || q.Tested.Result != "" || !strings.Contains(strings.Join(q.Tested.Lines(), " "), "Changed since it was tasted") {
		t.Errorf("the dish is another since: %+v", q.Tested)
	}
	if !slices.ContainsFunc(q.Open, func(o Open) bool { return o.Kind == OpenChanged }) {
		t.Error("the change is not among the open points")
	}
}

// TestAnotherDishThanWasServed: where what was served is not what the page
// prints, no result stands on it, even within one edition.
func TestAnotherDishThanWasServed(t *testing.T) {
	b := mustHarbour(t)
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	r := b.Recipe(p.Recipe)
	line := *r.Lines[0]
	line.Grams += 50
	c, err := recipes.SetLine(r.ID, &line, nil)(b)
	if err != nil {
		t.Fatal(err)
	}
	c.Correction = true // past the Book's own guard, and the records are not renewed
	later, err := b.With(c)
	if err != nil {
		t.Fatal(err)
	}
	q, err := PageOf(later, p.Recipe, p.Version, Usual(Metric, claims.EU))
	if err != nil {
		t.Fatal(err)
	}
	if later.Recipe(r.ID).Edition != r.Edition || !q.Tested.Changed || q.Tested.Result != "" {
		t.Errorf("%+v", q.Tested)
	}
	served := b.ServedRecord(r, b.Version(r.ID, p.Version))
	for name, change := range map[string]func(*recipes.Served){
		"servings":  func(s *recipes.Served) { s.Servings++ },
		"grams":     func(s *recipes.Served) { s.Lines[0].Grams++ },
		"eaten":     func(s *recipes.Served) { s.Lines[1].PartEaten = .5 },
		"steps":     func(s *recipes.Served) { s.Steps = s.Steps[1:] },
		"swaps":     func(s *recipes.Served) { s.Swaps[0].Digest = "another" },
		"technique": func(s *recipes.Served) { s.Dish.Method = "grilled" },
	} {
		other := *served
		other.Lines, other.Steps, other.Swaps = slices.Clone(served.Lines), slices.Clone(served.Steps), slices.Clone(served.Swaps)
		if !sameDish(served, &other) {
			t.Fatal("a copy is the same dish")
		}
		if change(&other); sameDish(served, &other) {
			t.Errorf("other %s make another dish", name)
		}
	}
}

// TestTheMethodNamesTheVersionsAmounts: a line that a swap multiplies is in that
// amount in the method too.
func TestTheMethodNamesTheVersionsAmounts(t *testing.T) {
	butter := &recipes.Line{Text: "60 g butter", Name: "butter", Amount: 60, Unit: "g", Grams: 60}
	d := &recipes.Draft{
		Recipe: &recipes.Recipe{Measures: "metric"}, Lines: []recipes.DraftLine{{Line: butter, Scale: 0.5}},
		Steps: []recipes.DraftStep{{ID: "s1", Texts: []string{"Melt the 60 g butter in 1 litre water."}}},
	}
	if got := stepsOf(d)[0].Text; got != "Melt the 30 g butter in 1 litre water." {
		t.Errorf("the method says %q", got)
	}
}

// TestAPageIsSetInABooksFace: serif all over, the words above the recipe lean.
func TestAPageIsSetInABooksFace(t *testing.T) {
	p := pageOf(t, 0, "F", Usual(Metric, claims.EU))
	sheets, err := p.Sheets()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range sheets[0].Texts {
		want := manuscript.Serif
		if strings.Contains(p.Headnote, x.Text) {
			want = manuscript.Italic
		}
		if x.Face != want {
			t.Errorf("%q is in face %d, want %d", x.Text, x.Face, want)
		}
	}
}
