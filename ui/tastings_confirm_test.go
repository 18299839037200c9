package ui

import (
	"strconv"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// A ballot of one choice asks whether it is meant before it is kept, by mouse and by
// keys, and takes anything to add as paper does.
func TestTheOnlyAnswerIsAskedForTwice(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) {
		f.Test = "triangle"
		for id := range f.Versions {
			if len(f.Versions) > 1 {
				delete(f.Versions, id)
			}
		}
	}, "AB", "CD", "EF", "GH", "IJ", "KL")
	picked := func(seat int) float64 { return k.scoreOf(tt.ID, seat, 0, recipes.FromScreen, recipes.AskChoice) }
	s := k.ballotHere(tt, 1)
	k.settle()
	k.press(fyne.KeyReturn)
	k.types("1")
	k.picture("ballot-sure")
	if got := picked(1); got != -1 {
		t.Fatalf("kept before it was confirmed: %v", got)
	}
	k.types("2") // says neither yes nor no
	k.press(fyne.KeyEscape)
	k.settle()
	if s.keys.asked != nil || picked(1) != -1 || s.at != 0 {
		t.Fatal("no way back to the question")
	}
	k.types("3")
	k.pins["ballot.note"].(*parts.Entry).SetText("it was salty")
	k.press(fyne.KeyReturn)
	k.settle()
	if got := picked(1); got != float64(tt.Seats[0].Cups[2].Code) {
		t.Errorf("picked %v", got)
	}
	if x := servingOf(k.book(), tt.ID, tasting.Answer{Seat: 1, Source: recipes.FromScreen}); x == nil || x.Note != "it was salty" {
		t.Errorf("what was added: %+v", x)
	}
	s.begin(2)
	k.press(fyne.KeyReturn)
	k.settle()
	code := tt.Seats[1].Cups[1].Code
	k.pins["ballot.choice."+strconv.Itoa(code)].(interface{ Press() }).Press()
	k.settle()
	if picked(2) != -1 {
		t.Fatal("one click ended the ballot")
	}
	k.pins["ballot.yes"].(interface{ Press() }).Press()
	k.settle()
	if picked(2) != float64(code) {
		t.Errorf("picked %v, want %d", picked(2), code)
	}
}
