package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// Typing over a dish that was served asks which it is; each answer does just that.
func TestTypingOverWhatWasServed(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.setTable(tasterCodes(6)...)
	held := k.held(r, nil, k.liked(r))
	k.openRecipe(0, tabVersions)
	cream := lineKey(t, r, "double cream")
	swaps, versions := len(k.book().Swaps(r.ID)), len(k.book().Versions(r.ID))

	k.typeIn(cream, "A", "120 g + 150 g strained yogurt + 2.7 g cornflour")
	k.picture("served")
	if said := strings.ReplaceAll(k.reads(), "\n", " "); !strings.Contains(said, "would change what was eaten") || strings.Contains(said, held.Date) || !strings.Contains(said, words.DayOf(held.Date)) {
		t.Errorf("it does not say what is changed and when it was served: %s", said)
	}
	pressPin(k, "served.correct")
	if len(k.book().Corrections(held.ID)) != 0 || k.win.Canvas().Focused() != k.pins["served.why"].(fyne.Focusable) {
		t.Error("a record is corrected without a reason")
	}
	k.pins["served.why"].(*parts.Entry).SetText("the jug was weighed")
	pressPin(k, "served.correct")
	const corrected = "120 g + 150 g strained yogurt + 2.7 g cornflour"
	if n := len(k.book().Swaps(r.ID)); n != swaps || k.cell(cream, "A").Text != corrected {
		t.Errorf("%d swaps, before %d; A has %q", n, swaps, k.cell(cream, "A").Text)
	}
	if all := k.book().Corrections(held.ID); len(all) != 1 || all[0].Is != "120 g" || all[0].Was != "150 g" || all[0].Why != "the jug was weighed" {
		t.Errorf("%+v", all)
	}

	k.typeIn(cream, "A", "90 g + 150 g strained yogurt + 2.7 g cornflour")
	pressPin(k, "served.change")
	made := k.book().Versions(r.ID)[versions]
	if made.Letter != "G" || k.cell(cream, "A").Text != corrected || !strings.HasPrefix(k.cell(cream, "G").Text, "90 g") {
		t.Errorf("%+v: A has %q", made, k.cell(cream, "A").Text)
	}
	if says := k.status.Message(); !strings.Contains(says, "G") || strings.Contains(says, "in A") {
		t.Error(says)
	}
	if _, col := k.versions().table.Selected(); k.versions().bench.Versions[col-1].ID != made.ID {
		t.Error("the version that was made is not chosen")
	}

	k.typeIn(cream, "A", "60 g + 150 g strained yogurt + 2.7 g cornflour")
	k.pressAnywhere(fyne.KeyEscape)
	k.settle()
	if len(k.book().Versions(r.ID)) != versions+1 || len(k.book().Corrections(held.ID)) != 1 || k.cell(cream, "A").Text != corrected {
		t.Error("leaving it as it is left something")
	}
}

// TestChangingTheOriginalIsANewEdition: what all versions start from is no new
// version, and the dialog says what that means for the tastings so far.
func TestChangingTheOriginalIsANewEdition(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.setTable(tasterCodes(6)...)
	k.held(r, nil, k.liked(r))
	k.openRecipe(0, tabOriginal)
	line := *r.Lines[0]
	line.Grams -= 20
	k.do(recipes.SetLine(r.ID, &line, nil))
	k.settle()
	if said := strings.ReplaceAll(k.reads(), "\n", " "); !strings.Contains(said, words.Say("served.change.original")) || strings.Contains(said, words.Say("served.change.version")) || !strings.Contains(said, "begins afresh") {
		t.Errorf("%s", said)
	}
	pressPin(k, "served.change")
	if now := k.book().Recipe(r.ID); now.Edition != r.Edition+1 {
		t.Errorf("edition %d", now.Edition)
	}
}
