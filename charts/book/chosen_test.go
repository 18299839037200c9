package book

import (
	"testing"

	"parewell/analysis/claims"
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
