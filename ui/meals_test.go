package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/analysis/meals"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// meals opens the Meals page.
func (k *kitchenWindow) meals() *mealsPage {
	k.t.Helper()
	k.goTo(place{page: pageMeals})
	k.settle()
	return k.pages[pageMeals].(*mealsPage)
}

// keys types a text and then presses keys.
func (k *kitchenWindow) keys(text string, then ...fyne.KeyName) {
	k.t.Helper()
	for _, r := range text {
		k.win.Canvas().Focused().TypedRune(r)
	}
	for _, name := range then {
		k.press(name)
	}
	k.settle()
}

// make presses New meal or New day, types the name, and then what is put in,
// taking the first row of each list: all with the keyboard.
func (k *kitchenWindow) make(p *mealsPage, day bool, name string, what ...string) {
	k.t.Helper()
	p.newMeal(day)
	k.settle()
	k.keys(name, fyne.KeyReturn)
	for _, w := range what {
		k.keys(w, fyne.KeyDown, fyne.KeyReturn)
	}
}

// aDay makes two meals and a day of them.
func (k *kitchenWindow) aDay() *mealsPage {
	k.t.Helper()
	p := k.meals()
	k.make(p, false, "Sunday lunch", "gratin a", "loaf orig")
	k.make(p, false, "Supper", "chilli a")
	k.make(p, true, "Sunday", "sun", "supp", "loaf a")
	return p
}

// inMeal is a cell of the table of dishes, by the row's key.
func (k *kitchenWindow) inMeal(p *mealsPage, key string, col int) parts.Cell {
	k.t.Helper()
	for _, r := range p.dishes.Data().Rows {
		if r.Key == key {
			return r.Cells[1+col]
		}
	}
	k.t.Fatalf("no row %q", key)
	return parts.Cell{}
}

// chooseMeal chooses the meal of a name in the list.
func (k *kitchenWindow) chooseMeal(p *mealsPage, name string) {
	k.t.Helper()
	for _, m := range k.book().Meals() {
		if m.Name == name {
			p.list.SelectKey(string(m.ID))
		}
	}
	if p.plate().Meal.Name != name {
		k.t.Fatalf("%s is shown, not %s", p.plate().Meal.Name, name)
	}
}

func TestMealsByTheKeyboard(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.meals()
	if !p.empty.Visible() || p.full.Visible() {
		t.Error("a workbook without meals should say what to do next")
	}
	p = k.aDay()
	day := p.plate()
	if day.Meal.Name != "Sunday" || len(day.Meals) != 2 || len(day.Dishes) != 1 || day.Dishes[0].Version() == nil {
		t.Fatalf("the day is %+v", day.Meal)
	}
	sum := 0.0
	for _, m := range day.Meals {
		sum += m.After.Figure(food.EnergyKcal).Amount
	}
	sum += day.Dishes[0].After.Figure(food.EnergyKcal).Amount
	if got := day.After.Figure(food.EnergyKcal).Amount; math.Abs(got-sum) > 1e-6 {
		t.Errorf("the day has %v, its parts %v", got, sum)
	}
	// what stands in the rows is what they sum to
	if got := k.inMeal(p, sheets.TotalKey, sheets.MealAfter).Text; got != sheets.Amount(day.After.Figure(food.EnergyKcal), food.EnergyKcal) {
		t.Errorf("the sum says %s", got)
	}
	// another nutrient chosen below shows dish by dish above
	p.numbers.SelectKey(food.Sodium.Key())
	if got := k.inMeal(p, sheets.TotalKey, sheets.MealAfter).Text; got != sheets.Amount(day.After.Figure(food.Sodium), food.Sodium) {
		t.Errorf("the sum of sodium says %s", got)
	}
	if !strings.Contains(p.dishes.Data().Columns[1+sheets.MealAfter].Sub, "sodium") {
		t.Errorf("the column says %q", p.dishes.Data().Columns[1+sheets.MealAfter].Sub)
	}
}

// A version and a helping are typed over; a wrong one changes nothing and says
// so; undo takes each back.
func TestDishesTypedOver(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.aDay()
	k.chooseMeal(p, "Sunday lunch")
	typeOver := func(row, col int, text string, then ...fyne.KeyName) {
		p.dishes.Select(row, 1+col)
		k.win.Canvas().Focus(p.dishes)
		k.keys(text, then...)
	}
	rows := []struct {
		name, typed      string
		col              int
		keys             []fyne.KeyName
		version, serving string
	}{
		{"a letter", "b", sheets.MealVersion, []fyne.KeyName{fyne.KeyReturn}, "B", "1"},
		{"the original", "original", sheets.MealVersion, []fyne.KeyName{fyne.KeyReturn}, "original", "1"},
		{"from the list", "a", sheets.MealVersion, []fyne.KeyName{fyne.KeyDown, fyne.KeyReturn}, "A", "1"},
		{"no such version", "q", sheets.MealVersion, []fyne.KeyName{fyne.KeyReturn}, "A", "1"},
		{"more", "1 1/2", sheets.MealServings, []fyne.KeyName{fyne.KeyReturn}, "A", "1½"},
		{"no number", "lots", sheets.MealServings, []fyne.KeyName{fyne.KeyReturn}, "A", "1½"},
		{"nothing at all", "0", sheets.MealServings, []fyne.KeyName{fyne.KeyReturn}, "A", "1½"},
	}
	for _, r := range rows {
		typeOver(0, r.col, r.typed, r.keys...)
		version, servings := k.inMeal(p, sheets.DishKey(0), sheets.MealVersion).Text, k.inMeal(p, sheets.DishKey(0), sheets.MealServings).Text
		if letter, _, _ := strings.Cut(version, " "); letter != r.version || servings != r.serving {
			t.Errorf("%s: %q of %q (%s)", r.name, servings, version, k.status.Message())
		}
	}
	k.undo()
	k.settle()
	if got := k.inMeal(p, sheets.DishKey(0), sheets.MealServings).Text; got != "1" {
		t.Errorf("after undo %s servings", got)
	}
	p.dishes.Select(0, 0)
	k.win.Canvas().Focus(p.dishes)
	k.keys("", fyne.KeyDelete)
	if n := len(p.plate().Dishes); n != 1 {
		t.Errorf("%d dishes after Delete", n)
	}
	typeOver(0, sheets.MealServings, "", fyne.KeyDelete)
	if n := len(p.plate().Dishes); n != 0 || p.dishes.Data().Empty == "" {
		t.Errorf("%d dishes after Delete in a field", n)
	}
	k.undo()
	k.settle()
	k.undo()
	k.settle()
	if n := len(p.plate().Dishes); n != 2 {
		t.Errorf("%d dishes after undo", n)
	}
	p.move(0, true)
	k.settle()
	if got := p.plate().Dishes[1].Version(); got == nil || got.Letter != "A" {
		t.Errorf("the dish did not move: %v", got)
	}
	if row, _ := p.dishes.Selected(); row != 1 {
		t.Errorf("row %d is chosen after the move", row)
	}
}

// Meals are removed, moved and renamed in the list; the day follows and undo
// brings all back.
func TestMealList(t *testing.T) {
	k := openKitchen(t, true, fyne.NewSize(1280, 800))
	p := k.aDay()
	k.chooseMeal(p, "Supper")
	k.win.Canvas().Focus(p.list)
	k.keys("", fyne.KeyReturn) // Enter goes to the name
	k.keys("Sunday supper", fyne.KeyReturn)
	if got := p.plate().Meal.Name; got != "Sunday supper" {
		t.Errorf("renamed to %q", got)
	}
	k.win.Canvas().Focus(p.list)
	k.keys("", fyne.KeyDelete)
	if len(k.book().Meals()) != 2 || p.plate() == nil {
		t.Errorf("%d meals after Delete, %q shown", len(k.book().Meals()), p.at)
	}
	k.chooseMeal(p, "Sunday")
	if n := len(p.plate().Meals); n != 1 {
		t.Errorf("the day has %d meals", n)
	}
	k.undo()
	k.settle()
	if n := len(p.plate().Meals); n != 2 {
		t.Errorf("after undo the day has %d meals", n)
	}
	// a name emptied stays
	p.name.SetText(" ")
	p.named(" ")
	if got := p.plate().Meal.Name; got != "Sunday" {
		t.Errorf("the day is called %q", got)
	}
	// Enter on a meal of the day opens it
	p.open(0)
	if got := p.plate().Meal.Name; got != "Sunday lunch" {
		t.Errorf("%q is open", got)
	}
	p.open(0)
	k.settle()
	if k.at.page != pageRecipe {
		t.Errorf("a dish opens %q", k.at.page)
	}
}

// What is in no meal, or more than one thing, is not guessed.
func TestAddingAsksToChoose(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.meals()
	k.make(p, false, "Lunch")
	for _, typed := range []string{"xyz", "porridge"} {
		k.win.Canvas().Focus(p.add)
		p.add.SetText("")
		k.keys(typed, fyne.KeyReturn)
		if n := len(p.plate().Dishes); n != 0 {
			t.Errorf("%q put %d dishes in", typed, n)
		}
	}
	p.add.SetText("")
	k.keys("loaf original", fyne.KeyReturn)
	if n := len(p.plate().Dishes); n != 1 || p.add.Text != "" {
		t.Errorf("%d dishes, %q left in the field", n, p.add.Text)
	}
}

// TestMealFieldTakesTheFirst: Enter puts the first thing of the list in, and what
// was typed does not wander to another meal.
func TestMealFieldTakesTheFirst(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.meals()
	k.make(p, false, "Lunch")
	k.win.Canvas().Focus(p.add)
	first := p.find("loaf")
	if len(first) < 2 {
		t.Fatalf("loaf finds %d things: the test says little", len(first))
	}
	k.keys("loaf", fyne.KeyReturn)
	d := p.plate().Dishes
	if len(d) != 1 || d[0].MealDish.Recipe != first[0].Recipe || d[0].MealDish.Version != first[0].Version {
		t.Errorf("dishes %+v, want %+v", d, first[0])
	}
	k.win.Canvas().Focus(p.add)
	p.add.SetText("half a word")
	k.make(p, true, "Monday")
	if p.add.Text != "" {
		t.Errorf("%q stayed in the field of another meal", p.add.Text)
	}
}

// target opens the dialogs and answers the question.
func (k *kitchenWindow) openTarget(p *mealsPage, down int) {
	k.t.Helper()
	p.target.open()
	for range down + 1 {
		k.press(fyne.KeyDown)
	}
	k.confirm()
	k.settle()
}

func TestEnergyTarget(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.aDay()
	if p.target.view.Visible() || !p.target.set.Visible() {
		t.Error("no target was asked for")
	}
	// not answered: nothing leads on
	p.target.open()
	k.confirm()
	if _, asked := k.pins["target.sex"]; asked {
		t.Fatal("figures were asked for before the question was answered")
	}
	k.closeDialogs()
	// answered with yes: a sentence, and nothing leads on
	k.openTarget(p, 1)
	if _, asked := k.pins["target.sex"]; asked {
		t.Fatal("figures were asked of someone who gets no target")
	}
	k.closeDialogs()
	k.openTarget(p, 0)
	sex, ok := k.pins["target.sex"].(*parts.Picker)
	if !ok {
		t.Fatal("the figures were not asked for")
	}
	k.confirm()
	if p.target.offer() != nil {
		t.Fatal("a target without figures")
	}
	k.win.Canvas().Focus(sex)
	k.press(fyne.KeyDown)
	k.win.Canvas().Focus(k.pins["target.activity"].(*parts.Picker))
	k.press(fyne.KeyDown)
	setEntry(k, "target.age", "52")
	setEntry(k, "target.height", "5 ft 5 in")
	setEntry(k, "target.weight", "62 stone")
	k.picture("meals-target-wrong")
	k.confirm()
	if p.target.offer() != nil {
		t.Fatal("a target from a weight that cannot be read")
	}
	setEntry(k, "target.weight", "62 kg")
	k.picture("meals-target-offered")
	k.confirm()
	k.settle()
	// 620 + 6.25 x 165.1 - 260 - 161 = 1230.875; x 1.40 = 1723.2, x 1.69 = 2080.2
	o := p.target.offer()
	if o == nil || o.Low != 1720 || o.High != 2080 {
		t.Fatalf("the target is %+v", o)
	}
	if !p.target.view.Visible() || !strings.Contains(p.target.said, "1720–2080") {
		t.Errorf("the day says %q", p.target.said)
	}
	if k.book().Setting(meals.BodySetting) != "" {
		t.Error("measures were kept unasked")
	}
	k.chooseMeal(p, "Supper")
	if p.target.view.Visible() || p.target.set.Visible() {
		t.Error("a meal is held against a day's target")
	}
}

// Measures are kept in the workbook only when she says so, and forgotten when
// she says so.
func TestBodyMeasuresArePrivate(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.aDay()
	kept := meals.Kept{Person: meals.Person{Sex: meals.Woman, Goal: 70}, Method: meals.ByThumb}
	p.target.use(kept, false)
	k.settle()
	if k.book().Setting(meals.BodySetting) != "" || p.target.offer() == nil || !strings.Contains(p.target.said, "no source") {
		t.Errorf("for now: %q, %q", k.book().Setting(meals.BodySetting), p.target.said)
	}
	p.target.use(kept, true)
	k.settle()
	if got, ok := meals.ReadKept(k.book().Setting(meals.BodySetting)); !ok || got != kept || p.target.asked != nil {
		t.Errorf("kept: %+v", got)
	}
	if strings.Contains(k.view.Undo, "70") {
		t.Errorf("the notebook says %q", k.view.Undo)
	}
	k.openTarget(p, 0)
	if !k.pins["target.goal"].Visible() || k.pins["target.weight"].Visible() || !k.pins["target.keep"].(*parts.Check).On() {
		t.Error("the rule of thumb asks for the weight aimed for alone, and says that it is kept")
	}
	k.closeDialogs()
	p.target.forget()
	k.settle()
	if k.book().Setting(meals.BodySetting) != "" || p.target.offer() != nil || p.target.view.Visible() {
		t.Error("not forgotten")
	}
	if got := k.status.Message(); got != words.Say("desk.forgotten") {
		t.Errorf("told %q: the file and its backups may still hold them", got)
	}
	k.undo()
	k.settle()
	if k.book().Setting(meals.BodySetting) != "" {
		t.Error("undo brought the measures back")
	}
}

// closeDialogs presses Esc until no dialog is open.
func (k *kitchenWindow) closeDialogs() {
	k.t.Helper()
	for k.win.Canvas().Overlays().Top() != nil {
		k.win.Canvas().Unfocus()
		k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	}
}

func TestMealsLook(t *testing.T) {
	for _, c := range []struct {
		name string
		dark bool
		size fyne.Size
	}{
		{"meals-light-1280", false, fyne.NewSize(1280, 800)},
		{"meals-dark-1920", true, fyne.NewSize(1920, 1080)},
		{"meals-light-900", false, fyne.NewSize(900, 640)},
		{"meals-large-1280", true, fyne.NewSize(1280, 800)},
	} {
		k := openKitchen(t, c.dark, c.size)
		if c.name == "meals-large-1280" {
			k.setTheme(c.dark, 1.5)
		}
		k.meals()
		k.picture(c.name + "-empty")
		p := k.aDay()
		k.picture(c.name + "-day")
		p.target.use(meals.Kept{Person: meals.Person{Sex: meals.Woman, Age: 52, Height: 165, Weight: 62, Activity: meals.Light}, Method: meals.ByEquation}, false)
		k.settle()
		k.picture(c.name + "-target")
		p.target.open()
		k.picture(c.name + "-ask")
		k.press(fyne.KeyDown)
		k.picture(c.name + "-asked")
		k.confirm()
		k.picture(c.name + "-body")
		k.closeDialogs()
		p.choose(p.ids[3])
		p.show()
		k.picture(c.name + "-meal")
		if p.of != food.EnergyKcal || p.sheet.Stands[len(p.sheet.Stands)-1].Dish != -1 {
			t.Errorf("shows %v of %+v", p.of, p.sheet.Stands)
		}
	}
}
