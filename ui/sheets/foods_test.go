package sheets

import (
	"math"
	"strings"
	"testing"
	"time"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
)

func starter(t *testing.T) []*food.Food {
	t.Helper()
	all, err := food.ReadStarter(assets.Foods)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func after(t *testing.T, b *recipes.Book, verbs ...recipes.Verb) *recipes.Book {
	t.Helper()
	for _, v := range verbs {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func TestHeldFoodsStandInGroups(t *testing.T) {
	b, _ := gratin(t)
	b = after(t, b,
		recipes.PutFood(&food.Food{Ref: food.Ref{Source: OwnSource, Code: "2"}, Name: "Zest paste"}),
		recipes.PutFood(&food.Food{Ref: food.Ref{Source: OwnSource, Code: "1"}, Name: "almond drink"}),
		recipes.Remember(&recipes.Choice{Name: "x"}, []*food.Food{{Ref: food.Ref{Source: "usda", Release: "sr28", Code: "9"}, Name: "once"}}))
	var got []string
	for _, r := range HeldFoods(b).Rows {
		got = append(got, r.Label.Text)
	}
	want := "My own|almond drink|Zest paste|Used in recipes|food butter|food milk|food salt|In no recipe now|once"
	if s := strings.Join(got, "|"); s != want {
		t.Errorf("%s", s)
	}
}

func TestFoodUses(t *testing.T) {
	b, r := gratin(t)
	ref := func(code string) food.Ref { return food.Ref{Source: "test", Release: "1", Code: code} }
	if uses := FoodUses(b, ref("butter")); len(uses) != 1 || uses[0].Recipe != r || uses[0].Swap != nil || uses[0].Line.ID != "butter" {
		t.Errorf("butter: %+v", uses)
	}
	uses := FoodUses(b, ref("salt"))
	if len(uses) != 1 || uses[0].Swap == nil {
		t.Fatalf("salt: %+v", uses)
	}
	if got := UsesSheet(uses).Rows[0].Cells[0].Text; !strings.Contains(got, "half the butter") {
		t.Errorf("salt's use says %q", got)
	}
	if got := FoodUses(b, ref("none")); got != nil {
		t.Errorf("none: %+v", got)
	}
}

// TestEffect: the butter of 400 kcal in 100 g goes to 500; 100 g of it in two
// servings are 50 kcal more in the original, 25 in A that halves it; the recipe
// that contains the gratin gets a quarter of that dish more.
func TestEffect(t *testing.T) {
	b, r := gratin(t)
	pie := &recipes.Recipe{ID: "pie", Title: "Pie", Servings: 1, Edition: 1, Lines: []*recipes.Line{{
		ID: "l", Text: "one serving of gratin", PartEaten: 1, Sub: &recipes.SubRecipe{Recipe: r.ID, Servings: 1}, GramsFrom: recipes.GramsUnknown,
	}}}
	bread := &recipes.Recipe{ID: "bread", Title: "Bread", Servings: 1, Edition: 1}
	b = after(t, b, recipes.AddRecipe(pie, nil), recipes.AddRecipe(bread, nil))
	ref := food.Ref{Source: "test", Release: "1", Code: "butter"}
	f := *b.Food(ref)
	f.Per100.Set(food.EnergyKcal, 500)
	uses := FoodUses(b, ref)
	e := EffectOf(b, after(t, b, recipes.PutFood(&f)), uses)
	var got []string
	for _, r := range e.Sheet.Rows {
		one := r.Label.Text
		for _, c := range r.Cells {
			one += " " + c.Text + " " + c.Sub
		}
		got = append(got, one)
	}
	want := "Gratin|Original 300  350 +50 (+17 %)|A 200  225 +25 (+12 %)|Pie|Original 300  350 +50 (+17 %)"
	if s := strings.Join(got, "|"); s != want || e.Recipes != 2 {
		t.Errorf("%d recipes: %s", e.Recipes, s)
	}
	if none := EffectOf(b, b, uses); none.Recipes != 0 || len(none.Sheet.Rows) != 0 {
		t.Errorf("no change has an effect: %+v", none)
	}
}

func TestRelinkSheet(t *testing.T) {
	a, b := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: "1"}}, &food.Food{Ref: food.Ref{Source: "usda", Release: "sr26", Code: "1"}}
	a.Per100.Set(food.EnergyKcal, 404)
	b.Per100.Set(food.EnergyKcal, 403)
	b.Per100.Set(food.Fat, 33.14)
	s := RelinkSheet(a, b)
	kcal, fat := row(t, s, "energy_kcal"), row(t, s, "fat_g")
	if kcal.Cells[0].Text != "404" || kcal.Cells[1].Text != "403" || kcal.Cells[1].Sub != "–1" {
		t.Errorf("energy: %+v", kcal)
	}
	if fat.Cells[0].Text != "?" || fat.Cells[1].Text != "33.14" || fat.Cells[1].Sub != "" {
		t.Errorf("fat: %+v", fat)
	}
	if s.Columns[0].Title != "SR28 1" || s.Columns[1].Title != "SR26 1" {
		t.Errorf("columns: %+v", s.Columns)
	}
}

func TestFoodFigures(t *testing.T) {
	f := &food.Food{}
	f.Per100.Set(food.Sodium, 400)
	f.Per100.Set(food.Fat, 0)
	s := Units{}.FoodFigures(f)
	for key, want := range map[string]string{"sodium_mg": "400", SaltKey: "1", "fat_g": "0", "fibre_g": "not known"} {
		if got := row(t, s, key).Cells[0].Text; got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
}

func TestFoodSource(t *testing.T) {
	rows := []struct {
		name string
		f    food.Food
		want string
	}{
		{"published", food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: "01001"}, Published: "Butter, salted"}, "USDA Standard Reference, Release 28, number 01001: “Butter, salted”."},
		{"the other one", food.Food{Ref: food.Ref{Source: "fdc", Release: "foundation-2024", Code: "7"}, Name: "oats"}, "FoodData Central, foundation-2024, number 7: “oats”."},
		{"own", food.Food{Ref: food.Ref{Source: OwnSource, Code: "x"}, Note: "label of the tub."}, "My own food. label of the tub."},
		{"own without a note", food.Food{Ref: food.Ref{Source: OwnSource, Code: "x"}}, "My own food, without a note of where its figures are from."},
	}
	for _, r := range rows {
		if got := FoodSource(&r.f); got != r.want {
			t.Errorf("%s: %q", r.name, got)
		}
	}
}

func TestReleasesAndWhatWasRead(t *testing.T) {
	b, _ := gratin(t)
	at := time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)
	b = after(t, b, recipes.ImportRelease(&recipes.Release{Source: "test", Release: "1", Name: "Test table", Foods: 8790, Imported: at}))
	s := Releases(b, 901)
	if len(s.Rows) != 2 || s.Rows[0].Key != "" || s.Rows[1].Key != "test/1" {
		t.Fatalf("%+v", s.Rows)
	}
	if c := s.Rows[1].Cells; c[0].Text != "8790" || c[1].Text != "3" || c[2].Text != "4 Mar 2026" {
		t.Errorf("%+v", c)
	}
	read := TableRead{Name: "SR", Foods: 1200, Rows: 1300, Bad: 25, Left: 1}
	for i := range 22 {
		read.Wrong = append(read.Wrong, problem.New("ABBREV.csv, line "+string(rune('A'+i)), "bad", ""))
	}
	if got := read.ReadText(); got != "Imported SR: 1200 foods. 1 entry that is no food a cook uses was left out. 25 of 1300 rows could not be read and were left out." {
		t.Errorf("%q", got)
	}
	wrong, more := WrongRows([]TableRead{read})
	if len(wrong.Rows) != mostWrong || wrong.Rows[0].Label.Text != "ABBREV.csv, line A" || more != "and 5 more" {
		t.Errorf("%d rows, %q", len(wrong.Rows), more)
	}
	if _, more := WrongRows([]TableRead{{Name: "SR", Foods: 3, Rows: 3}}); more != "" {
		t.Errorf("more %q", more)
	}
	if got := (TableRead{Name: "SR", Foods: 1, Already: true}).ReadText(); got != "SR is here already, with 1 food. Nothing was changed." {
		t.Errorf("%q", got)
	}
}

func TestSignedTrim(t *testing.T) {
	for v, want := range map[float64]string{0.5: "+0.5", -1: "–1", 0.001: "0", math.Pi: "+3.14"} {
		if got := signedTrim(v, 2); got != want {
			t.Errorf("%v: %q", v, got)
		}
	}
}
