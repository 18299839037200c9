package book

import (
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/charts/manuscript"
	"parewell/recipes"
)

func TestChosen(t *testing.T) {
	b := mustHarbour(t)
	r := b.Recipes()[1] // of the first the demo's cook has chosen one
	all := b.Versions(r.ID)
	if v := Printed(b, r); v != all[len(all)-1] {
		t.Errorf("nothing chosen: %v is printed, not the newest", v)
	}
	for _, tt := range []struct {
		name   string
		choice recipes.ID
		want   recipes.ID
	}{{"a version", all[0].ID, all[0].ID}, {"the original", recipes.PrintOriginal, ""}, {"the newest again", "", all[len(all)-1].ID}} {
		c := apply(t, b, recipes.SetPrint(r.ID, recipes.Print{Version: tt.choice}))
		if got := Chosen(c)[1]; got.Recipe != r.ID || got.Version != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
	if _, err := recipes.SetPrint(r.ID, recipes.Print{Version: "none"})(b); err == nil {
		t.Error("a version that is not there was chosen")
	}
	out := apply(t, b, recipes.SetPrint(r.ID, recipes.Print{LeftOut: true}))
	if got := Chosen(out); len(got) != len(b.Recipes())-1 || got[1].Recipe == r.ID {
		t.Errorf("left out: %v", got)
	}
}

func TestMoved(t *testing.T) {
	b := mustHarbour(t)
	r := b.Recipes()
	for _, tt := range []struct {
		name          string
		moved, before recipes.ID
		want          []*recipes.Recipe
	}{
		{"last to first", r[2].ID, r[0].ID, []*recipes.Recipe{r[2], r[0], r[1]}},
		{"first to last", r[0].ID, "", []*recipes.Recipe{r[1], r[2], r[0]}},
		{"where it is", r[1].ID, r[2].ID, r},
	} {
		got := apply(t, b, recipes.MoveRecipe(tt.moved, tt.before)).Recipes()
		for i := range tt.want {
			if got[i].ID != tt.want[i].ID {
				t.Errorf("%s: %s is number %d", tt.name, got[i].Title, i+1)
			}
		}
	}
	if _, err := recipes.MoveRecipe(r[0].ID, "none")(b); err == nil {
		t.Error("moved before a recipe that is not there")
	}
}

func TestOptionsOfAWorkbook(t *testing.T) {
	b := mustHarbour(t)
	if o := OptionsOf(b); o != Usual(Metric, claims.EU) {
		t.Errorf("nothing set: %+v", o)
	}
	us := apply(t, b, recipes.Set(SettingUnits, "both"), recipes.Set(SettingRule, "us"), recipes.Set(SettingEnergy, KJ), recipes.Set(SettingChart, No))
	want := Usual(Both, claims.US)
	want.KJFirst, want.NoChart = true, true
	if o := OptionsOf(us); o != want {
		t.Errorf("%+v, want %+v", o, want)
	}
	odd := apply(t, b, recipes.Set(SettingUnits, "cubits"), recipes.Set(SettingPaper, manuscript.Letter.Key), recipes.Set(SettingSalt, Sodium))
	want = Usual(Metric, claims.EU)
	want.Paper, want.SaltNotSodium = manuscript.Letter, false
	if o := OptionsOf(odd); o != want {
		t.Errorf("%+v, want %+v", o, want)
	}
}

// TestAPageAsItsCookWantsIt: a title of its own, a note that is not printed, the
// other chart, no cautions; the last is told as open.
func TestAPageAsItsCookWantsIt(t *testing.T) {
	b := mustHarbour(t)
	r := b.Recipes()[0]
	v := Printed(b, r)
	page := func(b *recipes.Book) *Page {
		t.Helper()
		p, err := PageOf(b, r.ID, v.ID, OptionsOf(b))
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	usual := page(b)
	all := NotesOf(b, v)
	if len(all) < 2 || len(usual.Notes) != len(all) || len(usual.Cautions) == 0 {
		t.Fatalf("%d notes of %d, %d cautions", len(usual.Notes), len(all), len(usual.Cautions))
	}
	c := apply(t, b,
		recipes.SetPrint(r.ID, recipes.Print{Version: v.ID, Title: " Friday gratin ", Untold: []recipes.ID{all[1].Swap}}),
		recipes.Set(SettingChart, Shares), recipes.Set(SettingCaution, No))
	p := page(c)
	if p.Title != "Friday gratin" || c.Recipe(r.ID).Title != r.Title {
		t.Errorf("called %q, the recipe %q", p.Title, c.Recipe(r.ID).Title)
	}
	if len(p.Notes) != len(all)-1 || p.Notes[1] == all[1] {
		t.Errorf("notes %v", p.Notes)
	}
	if p.Picture == nil || p.Picture.Alt == usual.Picture.Alt || p.Picture.HighMM != sharesHigh {
		t.Errorf("picture %+v", p.Picture)
	}
	open := slices.ContainsFunc(p.Open, func(o Open) bool { return o.Kind == OpenCaution })
	if len(p.Cautions) != 0 || !open {
		t.Errorf("cautions %v, told %v", p.Cautions, open)
	}
	same := apply(t, c, recipes.SetPrint(r.ID, recipes.Print{Title: r.Title}))
	if got := same.Recipe(r.ID).Print.Title; got != "" {
		t.Errorf("the recipe's own title is kept as another: %q", got)
	}
}

// TestTextAndChartRoundOnce: the chart of a page says the numbers of its text.
func TestTextAndChartRoundOnce(t *testing.T) {
	for _, row := range []struct {
		recipe int
		letter string
		o      Options
		want   []string
	}{
		{0, "B", Usual(Metric, claims.EU), []string{"original 704 kcal", "original 46 g", "–17 g (–38 %)", "original 3.1 g", "–0.2 g (–6 %)"}},
		{0, "B", Usual(US, claims.US), []string{"original 710 kcal", "original 46 g", "mg"}},
		{1, "B", Usual(Metric, claims.EU), nil},
		{2, "A", Usual(Metric, claims.US), nil},
	} {
		p := pageOf(t, row.recipe, row.letter, row.o)
		for _, want := range row.want {
			if !strings.Contains(p.Picture.Alt, want) {
				t.Errorf("the chart says %q, not %q", p.Picture.Alt, want)
			}
		}
		for _, r := range p.Change.Rows {
			parts := strings.Fields(r.Before)
			if r.Key == "saturated_fat_g" || r.Bound != nutrition.Exact || len(parts) < 2 {
				continue
			}
			if want := parts[len(parts)-2] + " " + parts[len(parts)-1]; !strings.Contains(p.Picture.Alt, want) {
				t.Errorf("%s: the page says %q, the chart %q", r.Key, r.Before, p.Picture.Alt)
			}
		}
	}
}
