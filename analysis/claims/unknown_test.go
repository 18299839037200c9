package claims

import (
	"math"
	"math/rand/v2"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

func TestABoundIsUsedOnlyWhereItIsEnough(t *testing.T) {
	inf := Anything.High
	for _, row := range []struct {
		name          string
		before, after Value
		want          Verdict
	}{
		{"at least 30 % lighter is enough for 25", Value{20, inf}, Exactly(14), May},
		{"at least 20 % lighter may yet be 25", Value{20, inf}, Exactly(16), CannotDecide},
		{"at most 30 % lighter may be nothing", Exactly(20), Value{14, inf}, CannotDecide},
		{"at most 20 % lighter is never 25", Exactly(20), Value{16, inf}, MayNot},
		{"unknown on both sides", Value{20, inf}, Value{1, inf}, CannotDecide},
		{"within a range that is enough", Exactly(20), Value{14, 15}, May},
		{"within a range that is not", Exactly(20), Value{14, 15.1}, CannotDecide},
		{"nothing known", Anything, Anything, CannotDecide},
	} {
		f := facts(amounts{kcal: 300}, amounts{kcal: 300})
		f.Original.PerServing[fat], f.Version.PerServing[fat] = row.before, row.after
		if got := ruling(t, f, "us.food.reduced-fat"); got.Verdict != row.want {
			t.Errorf("%s: %s, want %s (%s)", row.name, got.Verdict, row.want, got.Why())
		}
	}
}

func TestWhatIsMissingIsNamed(t *testing.T) {
	cup, _ := CategoryByKey("mixed-cup")
	for _, row := range []struct {
		name   string
		change func(*Facts)
		rule   string
		want   Missing
	}{
		{"trans fat", func(f *Facts) { f.Version.PerServing[trans] = Value{0, 9} }, "us.food.sat-free", Missing{What: NoFigure, Nutrient: trans}},
		{"the original's fat", func(f *Facts) { f.Original.PerServing[fat] = Value{10, 20} }, "us.food.reduced-fat", Missing{What: NoFigure, Nutrient: fat, Original: true}},
		{"a cup", func(f *Facts) { f.Category = cup }, "us.food.low-sodium", Missing{What: NoDensity}},
		{"a category", func(f *Facts) { f.Category = Category{} }, "us.food.low-sodium", Missing{What: NoCategory}},
		{"a weight", func(f *Facts) { f.Version.Serving, f.WeightRatio = Value{50, Anything.High}, Anything }, "us.food.reduced-fat", Missing{What: NoWeight}},
		{"a weight for a main dish", func(f *Facts) { f.Kind, f.Version.Serving = MainDish, Value{50, Anything.High} }, "us.dish.low-fat", Missing{What: NoWeight}},
		{"an original", func(f *Facts) { f.Original = Side{} }, "us.food.reduced-fat", Missing{What: NoOriginal}},
		{"an original for EU saturates", func(f *Facts) { f.Original = Side{} }, "eu.reduced-sat", Missing{What: NoOriginal}},
		{"energy, for its share", func(f *Facts) { f.Version.PerServing[kcal] = Anything }, "us.food.low-sat", Missing{What: NoFigure, Nutrient: kcal}},
	} {
		f := facts(amounts{fat: 20, kcal: 300, na: 500}, amounts{fat: 9, sat: 0.4, kcal: 200, na: 300})
		row.change(&f)
		got := ruling(t, f, row.rule)
		if got.Verdict != CannotDecide {
			t.Errorf("%s: %s (%s)", row.name, got.Verdict, got.Why())
			continue
		}
		found := false
		for _, m := range got.Missing {
			found = found || m.What == row.want.What && m.Nutrient == row.want.Nutrient && m.Original == row.want.Original
		}
		if !found {
			t.Errorf("%s: %+v is not in %+v", row.name, row.want, got.Missing)
		}
	}
}

// Whatever is not known, the truth within the range never contradicts a
// verdict: draw ranges, draw truths in them, compare.
func TestNoVerdictIsEverContradictedByTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	decided := 0
	for range 300 {
		loose, exact := randomFacts(r)
		truth := map[string]Verdict{}
		for _, got := range Judge(exact) {
			truth[got.Rule.ID] = got.Verdict
		}
		for _, got := range Judge(loose) {
			if got.Verdict == CannotDecide {
				continue
			}
			decided++
			if want := truth[got.Rule.ID]; want != got.Verdict {
				t.Fatalf("%s: %s from a range, %s when all is known (%s)", got.Rule.ID, got.Verdict, want, got.Why())
			}
		}
	}
	if decided < 1000 {
		t.Errorf("only %d verdicts were drawn: the test says little", decided)
	}
}

// randomFacts draws a dish and a looser knowledge of it.
func randomFacts(r *rand.Rand) (loose, exact Facts) {
	draw := func() (Side, Side) {
		a := amounts{kcal: r.Float64() * 500, fat: r.Float64() * 30, chol: r.Float64() * 60, na: r.Float64() * 600, fibre: r.Float64() * 8, protein: r.Float64() * 20, potassium: r.Float64() * 900, calcium: r.Float64() * 300, fe: r.Float64() * 5, food.Carbohydrate: r.Float64() * 60}
		a[sat] = a[fat] * r.Float64() * 0.6
		a[trans] = a[fat] * r.Float64() * 0.1
		a[sugars] = a[food.Carbohydrate] * r.Float64()
		known := full(100+r.Float64()*300, a)
		known.GramsPerML, known.Quality = 1, 0.9
		blurred := known
		for n := range blurred.PerServing {
			if v := known.PerServing[n].Low; r.IntN(3) == 0 {
				blurred.PerServing[n] = Value{v * r.Float64(), v * (1 + r.Float64())}
			} else if r.IntN(8) == 0 {
				blurred.PerServing[n] = Value{v * 0.9, Anything.High}
			}
		}
		tighten(&blurred)
		return known, blurred
	}
	before, vague := draw()
	after, vaguer := draw()
	exact, loose = Compared(before, after), Compared(vague, vaguer)
	list := Categories()
	cat := list[r.IntN(len(list))]
	kind := []Kind{SingleFood, MainDish, Meal}[r.IntN(3)]
	exact.Category, loose.Category, exact.Kind, loose.Kind = cat, cat, kind, kind
	exact.Liquid, loose.Liquid = cat.Liquid, cat.Liquid
	return loose, exact
}

// larder for the tests that reckon real accounts; the numbers are made up.
var larder = map[food.Ref]*food.Food{}

func stock(name string, has amounts, unknown ...food.Nutrient) *food.Food {
	f := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: name}, Name: name}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		f.Per100.Set(n, has[n])
	}
	for _, n := range unknown {
		f.Per100.Forget(n)
	}
	larder[f.Ref] = f
	return f
}

func line(id string, f *food.Food, grams float64) *recipes.Line {
	l := &recipes.Line{ID: recipes.ID(id), Text: f.Name, Food: f.Ref, PartEaten: 1, Grams: grams, GramsFrom: recipes.GramsWeight}
	if grams == 0 {
		l.GramsFrom = recipes.GramsUnknown
	}
	return l
}

func account(servings float64, lines ...*recipes.Line) *nutrition.Account {
	d := recipes.Compose(&recipes.Recipe{ID: "r", Servings: servings, Lines: lines}, nil, nil)
	return nutrition.Of(d, func(ref food.Ref) *food.Food { return larder[ref] })
}

// Salt "to taste" on both sides: sodium stays open, and its unknown weight does
// not keep the cut in fat from being decided.
func TestSaltToTasteOpensOnlySodium(t *testing.T) {
	cream := stock("cream", amounts{fat: 36, kcal: 340, na: 30})
	milk := stock("milk", amounts{fat: 4, kcal: 60, na: 40})
	salt := stock("salt", amounts{na: 38758})
	salt.Group = seasonings
	before := account(4, line("a", cream, 400), line("s", salt, 0))
	after := account(4, line("a", milk, 390), line("s", salt, 0))
	f := FactsOf(before, after, Dish{Category: hundred, Kind: SingleFood})
	if got := ruling(t, f, "us.food.reduced-fat"); got.Verdict != May {
		t.Errorf("fat: %s (%s)", got.Verdict, got.Why())
	}
	if got := ruling(t, f, "eu.light"); got.Verdict != May {
		t.Errorf("light: %s (%s)", got.Verdict, got.Why())
	}
	if got := f.Version.Serving; got.Low != 97.5 || got.High != 97.5*1.05 {
		t.Errorf("a serving weighs %v, want 97.5 g and at most a twentieth more", got)
	}
	got := ruling(t, f, "us.food.reduced-sodium")
	if got.Verdict != CannotDecide {
		t.Errorf("sodium: %s (%s)", got.Verdict, got.Why())
	}
	for _, m := range got.Missing {
		if m.What == NoFigure && (m.Nutrient != na || len(m.Lines) != 1 || m.Lines[0] != "s") {
			t.Errorf("sodium names %+v, want line s", m)
		}
	}
}

// Salt "to taste" is not blamed for what waits for the kind of dish: its weight
// moves 100 g of it by a twentieth at most, its traces of calcium by less.
func TestSaltToTasteIsNotBlamedForOtherThings(t *testing.T) {
	milk := stock("milk for salt", amounts{fat: 11, sat: 5, kcal: 160, na: 40, calcium: 120})
	salt := stock("salt with traces", amounts{na: 38758, calcium: 24})
	salt.Group = seasonings
	f := FactsOf(nil, account(4, line("a", milk, 1200), line("s", salt, 0)), Dish{Kind: SingleFood})
	for _, rule := range []string{"us.food.low-fat", "us.food.high-calcium"} {
		got := ruling(t, f, rule)
		if got.Verdict != CannotDecide || len(got.Missing) != 1 || got.Missing[0].What != NoCategory {
			t.Errorf("%s: %s (%s)", rule, got.Verdict, got.Why())
		}
	}
	named := false
	for _, m := range ruling(t, f, "us.food.low-sodium").Missing {
		named = named || m.What == NoFigure && m.Nutrient == na
	}
	if !named {
		t.Error("the sodium is open and should be named")
	}
}

// The same stock not weighed on both sides pulls two weights together, so the
// cut in 100 g lies between the two ratios.
func TestTheSameUnweighedLinePullsWeightsTogether(t *testing.T) {
	cream := stock("single cream", amounts{fat: 18, kcal: 190})
	water := stock("water", nil)
	before := account(1, line("a", cream, 200), line("w", water, 0))
	after := account(1, line("a", cream, 100), line("w", water, 0))
	f := FactsOf(before, after, Dish{Category: hundred})
	if r := f.WeightRatio; !near(r.Low, 1) || !near(r.High, 2) {
		t.Errorf("ratio %v, want from 1 to 2", r)
	}
	if got := ruling(t, f, "eu.reduced-fat"); got.Verdict != CannotDecide {
		t.Errorf("with much stock a cut by half, with none no cut: %s (%s)", got.Verdict, got.Why())
	}
	more := account(1, line("a", cream, 100), line("w", water, 0), line("v", water, 0))
	if r := FactsOf(before, more, Dish{}).WeightRatio; r.Low != 0 || !math.IsInf(r.High, 1) {
		t.Errorf("ratio %v with another line unweighed, want anything", r)
	}
}

// Stock "to cover" is no seasoning: its weight has no upper end.
func TestStockToCoverLeavesTheWeightOpen(t *testing.T) {
	beef := stock("stewing beef", amounts{fat: 20, kcal: 250})
	water := stock("stock", nil)
	f := FactsOf(nil, account(2, line("a", beef, 200), line("w", water, 0)), Dish{Category: hundred})
	if !math.IsInf(f.Version.Serving.High, 1) {
		t.Errorf("a serving weighs %v", f.Version.Serving)
	}
	if got := ruling(t, f, "us.food.low-fat"); got.Verdict != CannotDecide {
		t.Errorf("%s (%s)", got.Verdict, got.Why())
	}
	if got := ruling(t, f, "eu.fat-free"); got.Verdict != CannotDecide {
		t.Errorf("%s (%s)", got.Verdict, got.Why())
	}
}

// A food's missing value: lighter by at least decides, by at most does not.
func TestAMissingValueOnOneSide(t *testing.T) {
	butter := stock("butter", amounts{fat: 80, kcal: 700})
	odd := stock("odd cheese", amounts{kcal: 300}, fat)
	skim := stock("skim", amounts{fat: 1, kcal: 40})
	rich := account(2, line("a", butter, 100), line("b", odd, 100))
	lean := account(2, line("a", skim, 100), line("b", butter, 60))
	d := Dish{Category: hundred}
	if got := ruling(t, FactsOf(rich, lean, d), "us.food.reduced-fat"); got.Verdict != CannotDecide {
		t.Errorf("weights differ, so nothing is sure: %s (%s)", got.Verdict, got.Why())
	}
	same := account(2, line("a", skim, 140), line("b", butter, 60))
	if got := ruling(t, FactsOf(rich, same, d), "us.food.reduced-fat"); got.Verdict != May {
		t.Errorf("lighter by at least 38 %%: %s (%s)", got.Verdict, got.Why())
	}
	if got := ruling(t, FactsOf(same, rich, d), "us.food.reduced-fat"); got.Verdict != MayNot {
		t.Errorf("lighter by at most less than nothing: %s (%s)", got.Verdict, got.Why())
	}
	if got := ruling(t, FactsOf(nil, same, d), "us.food.reduced-fat"); got.Verdict != CannotDecide {
		t.Errorf("no original: %s", got.Verdict)
	}
}

// A blank too small for the page to mind (under 0.1 g a serving) still counts
// where a claim turns on it.
func TestASmallBlankIsStillNotZero(t *testing.T) {
	base := stock("broth", amounts{fat: 0.45, sat: 0, kcal: 20})
	herb := stock("herb", amounts{fat: 0.5, kcal: 20}, sat)
	a := account(1, line("a", base, 80), line("h", herb, 18))
	if figure := a.PerServing(sat); len(figure.Minor) != 1 {
		t.Fatalf("the fixture has no minor blank: %+v", figure)
	}
	f := FactsOf(nil, a, Dish{Category: hundred})
	if v := f.Version.PerServing[sat]; v.Known() || v.High > 0.46 {
		t.Errorf("saturated fat %v, want a range within the fat", v)
	}
}

// What was taken off with unknown weight lowers every figure, so nothing that
// needs "at least" may rest on it.
func TestSomethingTakenOffOfUnknownWeight(t *testing.T) {
	beef := stock("beef", amounts{protein: 20, fat: 20, kcal: 260})
	drip := stock("dripping", amounts{fat: 100, kcal: 900})
	off := line("d", drip, 0)
	off.Kind = recipes.TakenOff
	f := FactsOf(account(1, line("a", beef, 100)), account(1, line("a", beef, 100), off), Dish{Category: hundred})
	if v := f.Version.PerServing[fat]; v.Low != 0 || v.High < 20 {
		t.Errorf("fat %v, want from 0 to at least 20", v)
	}
	if got := ruling(t, f, "us.food.reduced-fat"); got.Verdict != CannotDecide {
		t.Errorf("%s (%s)", got.Verdict, got.Why())
	}
}
