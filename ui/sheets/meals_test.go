package sheets

import (
	"math"
	"strings"
	"testing"

	"parewell/analysis/meals"
	"parewell/recipes"
	"parewell/recipes/food"
)

// supper is the gratin's Book with a meal of one and a half servings of A and
// one of the original, and a day of that meal and another serving of A.
func supper(t *testing.T) (*recipes.Book, *meals.Table) {
	t.Helper()
	b, _ := gratin(t)
	for _, v := range []recipes.Verb{
		recipes.AddMeal("supper", "Supper"),
		recipes.AddDish("supper", "recipe", "a", 1.5),
		recipes.AddDish("supper", "recipe", "", 1),
		recipes.AddDay("day", "Tuesday"),
		recipes.PutMeal("day", "supper"),
		recipes.AddDish("day", "recipe", "a", 1),
	} {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	return b, meals.In(b)
}

// A serving of the original holds 300 kcal, one of A 200.
func TestMealDishes(t *testing.T) {
	_, all := supper(t)
	s := Units{}.MealDishes(all.Of("supper"), food.EnergyKcal)
	rows := []struct {
		key                                   string
		version, servings, before, after, sub string
	}{
		{DishKey(0), "A", "1½", "450", "300", "–150 (–33 %)"},
		{DishKey(1), "original", "1", "300", "300", ""},
		{TotalKey, "", "", "750", "600", "–150 (–20 %)"},
	}
	for _, want := range rows {
		c := row(t, s.Sheet, want.key).Cells
		if c[MealVersion].Text != want.version || c[MealServings].Text != want.servings || c[MealBefore].Text != want.before || c[MealAfter].Text != want.after || c[MealAfter].Sub != want.sub {
			t.Errorf("%s: %+v", want.key, c)
		}
	}
	if c := row(t, s.Sheet, DishKey(0)).Cells; c[MealAfter].Bar != -1 || !c[MealVersion].Editable || !c[MealServings].Editable {
		t.Errorf("the widest change has no full bar, or nothing can be typed over: %+v", c)
	}
	if c := row(t, s.Sheet, DishKey(1)).Cells; !math.IsNaN(c[MealAfter].Bar) {
		t.Errorf("an original has a bar: %+v", c)
	}
	if len(s.Stands) != 3 || s.Stands[0].Dish != 0 || s.Stands[1].Dish != 1 || s.Stands[2].Dish != -1 {
		t.Errorf("rows stand for %+v", s.Stands)
	}
	// a day: the meal, its own dish, the sum
	day := Units{}.MealDishes(all.Of("day"), food.EnergyKcal)
	if c := row(t, day.Sheet, "meal:supper").Cells; c[MealBefore].Text != "750" || c[MealAfter].Text != "600" || c[MealServings].Editable {
		t.Errorf("the meal in the day: %+v", c)
	}
	if c := row(t, day.Sheet, TotalKey).Cells; c[MealBefore].Text != "1050" || c[MealAfter].Text != "800" || c[MealAfter].Sub != "–250 (–24 %)" {
		t.Errorf("the whole day: %+v", c)
	}
	if day.Stands[0].Meal != "supper" || day.Stands[1].Dish != 0 {
		t.Errorf("rows stand for %+v", day.Stands)
	}
}

func TestMealNumbers(t *testing.T) {
	_, all := supper(t)
	day := all.Of("day")
	offer := &meals.Offer{Method: meals.ByEquation, Low: 700, High: 900}
	s := Units{}.MealNumbers(day, false, offer)
	if len(s.Rows) != len(Leading) || len((Units{}).MealNumbers(day, true, nil).Rows) != len(Shown) {
		t.Errorf("%d rows", len(s.Rows))
	}
	energy := row(t, s, "energy_kcal").Cells
	if energy[0].Text != "1050" || energy[0].Mark != Missed || energy[1].Text != "800" || energy[1].Mark != Met || !strings.Contains(energy[1].Tip, "700–900") {
		t.Errorf("energy %+v", energy)
	}
	// salt: a serving of A has 208.8 - 20 mg more, two and a half are eaten
	if sodium := row(t, s, "sodium_mg").Cells[1]; sodium.Mark != Look || !strings.Contains(sodium.Tip, "sodium +472 mg") {
		t.Errorf("sodium %+v, want a look mark", sodium)
	}
	if c := row(t, (Units{}).MealNumbers(all.Of("supper"), false, offer), "energy_kcal").Cells; c[0].Mark != NoMark {
		t.Errorf("a meal is held against a day's target: %+v", c)
	}
	if c := row(t, (Units{}).MealNumbers(day, false, &meals.Offer{Reason: meals.UnderFloor}), "energy_kcal").Cells; c[0].Mark != NoMark {
		t.Errorf("held against a target that is not offered: %+v", c)
	}
}

func TestMealList(t *testing.T) {
	b, all := supper(t)
	s := MealList(b, all)
	var keys []string
	for _, r := range s.Rows {
		keys = append(keys, r.Key)
	}
	if strings.Join(keys, " ") != "meals.days day meals.meals supper" {
		t.Errorf("rows %v", keys)
	}
	if c := row(t, s, "day").Cells[0]; c.Text != "800" || c.Sub != "–24 %" {
		t.Errorf("the day %+v", c)
	}
	if got := MealCaption(b, all.Of("supper")); !strings.Contains(got, "Tuesday") {
		t.Errorf("caption %q", got)
	}
	if got := NewMealName(b, false); got != "Meal 1" {
		t.Errorf("a new meal is called %q", got)
	}
}

func TestFindForMeal(t *testing.T) {
	b, all := supper(t)
	texts := func(found []Found) string {
		var out []string
		for _, f := range found {
			out = append(out, f.Text+" ("+f.Detail+")")
		}
		return strings.Join(out, "; ")
	}
	title := b.Recipe("recipe").Title
	supper, day := b.Meal("supper"), b.Meal("day")
	rows := []struct {
		name  string
		into  *recipes.Meal
		typed string
		want  string
	}{
		{"all of a recipe", supper, title, title + " · original (300 kcal a serving); " + title + " · A (200 kcal a serving)"},
		{"one version", supper, "a " + title, title + " · A (200 kcal a serving)"},
		{"nothing", supper, "zzz", ""},
		{"a meal is not offered to a meal", supper, "supp", ""},
		{"nor twice to a day", day, "supp", ""},
		{"but to a day without it", &recipes.Meal{ID: "x", Day: true}, "supp", "Supper (a meal of 600 kcal)"},
	}
	for _, r := range rows {
		if got := texts(FindForMeal(b, all, r.into, r.typed)); got != r.want {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
		}
	}
	for _, f := range append(FindForMeal(b, all, supper, ""), FindForMeal(b, all, &recipes.Meal{Day: true}, "")...) {
		back, ok := FoundOf(f.Key())
		if !ok || back.Meal != f.Meal || back.Recipe != f.Recipe || back.Version != f.Version {
			t.Errorf("%q is read as %+v", f.Key(), back)
		}
	}
	for _, bad := range []string{"", "meal:", "dish:", "dish:x", "recipe"} {
		if f, ok := FoundOf(bad); ok {
			t.Errorf("%q is read as %+v", bad, f)
		}
	}
}

func TestReadVersion(t *testing.T) {
	b, _ := supper(t)
	for _, x := range []struct {
		name, typed string
		want        recipes.ID
		ok          bool
	}{
		{"letter", "A", "a", true},
		{"small letter", " a ", "a", true},
		{"the original", "original", "", true},
		{"its start", "orig", "", true},
		{"no such letter", "B", "", false},
		{"nothing", "", "", false},
	} {
		if got, ok := ReadVersion(b, "recipe", x.typed); got != x.want || ok != x.ok {
			t.Errorf("%s: %q, %v", x.name, got, ok)
		}
	}
}

func TestReadBody(t *testing.T) {
	rows := []struct {
		name string
		read func(string) (float64, bool)
		text string
		want float64
		ok   bool
	}{
		{"kilograms", Weight, "60", 60, true},
		{"with the unit", Weight, "60.5 kg", 60.5, true},
		{"a comma", Weight, "60,5kg", 60.5, true},
		{"pounds", Weight, "132 lb", 132 * 0.45359237, true},
		{"stones", Weight, "9 st", 126 * 0.45359237, true},
		{"stones and pounds", Weight, "9 st 6 lb", 132 * 0.45359237, true},
		{"stones and bare pounds", Weight, "9st 6", 132 * 0.45359237, true},
		{"a stone and no pounds", Weight, "9 st 0 lb", 126 * 0.45359237, true},
		{"no weight", Weight, "heavy", 0, false},
		{"no unit of weight", Weight, "60 cm", 0, false},
		{"a sign", Weight, "-60", 0, false},
		{"centimetres", Height, "165", 165, true},
		{"metres", Height, "1.65 m", 165, true},
		{"feet and inches", Height, "5 ft 5 in", 165.1, true},
		{"with marks", Height, "5'5\"", 165.1, true},
		{"feet and bare inches", Height, "5ft 5", 165.1, true},
		{"only a unit", Height, "cm", 0, false},
		{"empty", Height, "", 0, false},
	}
	for _, r := range rows {
		if got, ok := r.read(r.text); ok != r.ok || ok && math.Abs(got-r.want) > 1e-9 {
			t.Errorf("%s: %v, %v", r.name, got, ok)
		}
	}
	p, faults := ReadBody(BodyFields{Sex: "woman", Activity: "light", Age: "52", Height: "5 ft 5 in", Weight: "200 g", Less: "900"})
	if p.Age != 52 || math.Abs(p.Height-165.1) > 1e-9 || p.Weight != 0 || p.Less != 0 || p.Goal != 0 {
		t.Errorf("read as %+v", p)
	}
	if len(faults) != 2 || !strings.Contains(faults[LessKey], "750") || faults[WeightKey] == "" {
		t.Errorf("faults %v", faults)
	}
	f := BodyOf(meals.Person{Sex: meals.Man, Age: 40, Height: 165.1, Weight: 60, Activity: meals.Light})
	if back, faults := ReadBody(f); len(faults) > 0 || back.Age != 40 || back.Height != 165.1 || back.Weight != 60 || f.Goal != "" {
		t.Errorf("%+v came back as %+v", f, back)
	}
}

// Every answer is said whole, with the figures it rests on.
func TestTargetText(t *testing.T) {
	rows := []struct {
		name string
		o    meals.Offer
		want []string
	}{
		{"a range", meals.Offer{Method: meals.ByEquation, Low: 1850, High: 2230}, []string{"1850–2230 kcal", "equation"}},
		{"the rule", meals.Offer{Method: meals.ByThumb, Low: 1400, High: 1400}, []string{"1400 kcal", "common practice, no source"}},
		{"cut", meals.Offer{Method: meals.ByEquation, Low: 1200, High: 1410, Floor: 1200, Raised: true}, []string{"1200–1410", "cut at 1200", "women", "2013"}},
		{"under the floor", meals.Offer{Reason: meals.UnderFloor, Reached: 1100, Floor: 1200}, []string{"No target", "1100", "1200", "women", "2013"}},
		{"under medical care", meals.Offer{Reason: meals.UnderMedical, Reached: 790}, []string{"No target", "790", "800"}},
		{"ages", meals.Offer{Reason: meals.OutsideAges}, []string{"19 to 78"}},
		{"too much off", meals.Offer{Reason: meals.TooMuchOff}, []string{"750"}},
		{"advice", meals.Offer{Reason: meals.TakeAdvice}, []string{"No target", "registered dietitian"}},
		{"ask", meals.Offer{Reason: meals.AskFirst}, []string{"question first"}},
		{"missing", meals.Offer{Reason: meals.Missing}, []string{"Fill in"}},
	}
	for _, r := range rows {
		got := TargetText(r.o, meals.Woman)
		for _, w := range r.want {
			if !strings.Contains(got, w) || strings.ContainsAny(got, "[{") {
				t.Errorf("%s: %q, want %q in it", r.name, got, w)
			}
		}
	}
	_, all := supper(t)
	day := all.Of("day")
	if got := DayAgainst(day, meals.Offer{Low: 700, High: 900}); got != "As chosen the day has 800 kcal: within the target. With the originals 1050 kcal: 150 over the target." {
		t.Errorf("against a target: %q", got)
	}
	if DayMark(day, meals.Offer{Low: 700, High: 900}) != Met || DayMark(day, meals.Offer{Low: 500, High: 700}) != Missed || DayMark(day, meals.Offer{Low: 900, High: 950}) != Look {
		t.Error("marks of the day")
	}
	if got := DayAgainst(day, meals.Offer{Reason: meals.Missing}); got != "" {
		t.Errorf("against nothing: %q", got)
	}
}

// What keeps a total from being known is named by ingredient, also where it
// stands in a recipe that a dish uses.
func TestGapsAreNamed(t *testing.T) {
	b, r := gratin(t)
	pepper := &recipes.Line{ID: "pepper", Text: "black pepper to taste", Name: "black pepper", GramsFrom: recipes.GramsUnknown, PartEaten: 1}
	pie := &recipes.Recipe{ID: "pie", Title: "Pie", Servings: 1, Edition: 1, Lines: []*recipes.Line{
		{ID: "inside", Text: "1 serving gratin", Name: "gratin", GramsFrom: recipes.GramsTyped, PartEaten: 1, Sub: &recipes.SubRecipe{Recipe: r.ID, Servings: 1}},
	}}
	for _, v := range []recipes.Verb{
		recipes.AddLine(r.ID, pepper, "", nil), recipes.AddRecipe(pie, nil),
		recipes.AddMeal("m", "M"), recipes.AddDish("m", "pie", "", 1),
		recipes.AddDay("d", "D"), recipes.PutMeal("d", "m"),
	} {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	all := meals.In(b)
	for _, id := range []recipes.ID{"m", "d"} {
		c := row(t, (Units{}).MealNumbers(all.Of(id), false, nil), "energy_kcal").Cells
		if c[0].Text != "at least 300" || !strings.Contains(c[0].Tip, "black pepper") || c[1].Sub != "" {
			t.Errorf("%s: %+v", id, c)
		}
	}
	if got := DayAgainst(all.Of("d"), meals.Offer{Low: 200, High: 400}); !strings.Contains(got, "not to be told") {
		t.Errorf("against a target: %q", got)
	}
	if DayMark(all.Of("d"), meals.Offer{Low: 100, High: 200}) != Missed {
		t.Error("a day over its target stays over it, whatever else is in it")
	}
}
