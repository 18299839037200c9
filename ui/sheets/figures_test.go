package sheets

import (
	"context"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// TestFiguresOfTheWindow: each page of the window has its figures for print, by what
// is in sight, and what is asked for by name is the same.
func TestFiguresOfTheWindow(t *testing.T) {
	l := demoLedger(t)
	var tasted *recipes.Tasting
	for _, x := range l.Book.TastingsOf(l.Recipe.ID) {
		if x.State == recipes.TastingClosed && len(x.Attributes) > 1 {
			tasted = x
		}
	}
	for _, row := range []struct {
		name string
		ask  FiguresAsk
		keys []string
		says string // in every caption
	}{
		{"keep or drop", FiguresAsk{Of: FiguresOfLedger, Nutrient: food.EnergyKcal}, []string{FigureMap, FigureFall, FigureFront}, l.Recipe.Title},
		{"by flavour and fat", FiguresAsk{Of: FiguresOfLedger, Attribute: "Flavour", Nutrient: food.Fat}, []string{FigureMap, FigureFall}, l.Recipe.Title},
		{"a tasting", FiguresAsk{Of: FiguresOfTasting, Tasting: tasted.ID}, []string{FigureScores, FigureSpread}, words.DayOf(tasted.Date)},
		{"versions", FiguresAsk{Of: FiguresOfVersions}, []string{FigureChange, FigureShare}, words.Say("book.energy.table")},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.ask.Recipe = l.Recipe.ID
			s, err := FiguresAsked(context.Background(), l.Book, row.ask, 90)
			if err != nil {
				t.Fatal(err)
			}
			all := strings.Join(s.Keys, "\n")
			for _, k := range row.keys {
				if !strings.Contains("\n"+all, "\n"+k) {
					t.Errorf("no figure %q among\n%s", k, all)
				}
			}
			for i, f := range s.Figures {
				if !strings.Contains(f.Caption, row.says) || f.Alt == "" || f.WideMM != 90 || f.HighMM < figureLow || s.At(s.Keys[i]) != i {
					t.Errorf("%s: %+v", s.Keys[i], f)
				}
			}
			if told := words.Say("book.tested.peeked"); row.ask.Of == FiguresOfLedger && (!strings.Contains(s.Figures[0].Caption, told) || !strings.Contains(s.Figures[0].Alt, told)) {
				t.Errorf("not told that the results were seen: %q", s.Figures[0].Caption)
			}
			if a := row.ask.Attribute; a != "" && !strings.Contains(s.Figures[0].Name, a) {
				t.Errorf("%q does not name %s", s.Figures[0].Name, a)
			}
		})
	}
	if _, err := FiguresAsked(context.Background(), l.Book, FiguresAsk{Of: FiguresOfTasting, Tasting: "gone", Recipe: l.Recipe.ID}, 90); err == nil {
		t.Error("figures of a tasting that is gone")
	}
}
