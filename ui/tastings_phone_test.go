package ui

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// fromPhone runs what a phone asks for, beside the window.
func (k *kitchenWindow) fromPhone(save func() error) {
	k.t.Helper()
	saved := make(chan error, 1)
	go func() { saved <- save() }()
	for {
		select {
		case err := <-saved:
			if err != nil {
				k.t.Fatal(err)
			}
			return
		case f := <-k.posts:
			f()
		case <-time.After(20 * time.Second):
			k.t.Fatal("the answer is never saved")
		}
	}
}

// Phones are off until they are turned on; their answers come in as the taster's
// own, and closing ends them.
func TestPhonesAnswerWhileServing(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) { f.Attributes = "" }, "AB", "CD")
	h := k.tastings().phones
	if k.phonesOn(tt.ID) {
		t.Fatal("phones are on by themselves")
	}
	k.phones(tt)
	k.picture("tastings-phones-off")
	if said := strings.ReplaceAll(k.reads(), "\n", " "); !strings.Contains(said, "somebody else on the same Wi-Fi could read") {
		t.Errorf("that the link is not encrypted is not told: %s", said)
	}
	k.pins["phone.on"].(*parts.Check).OnChange(true)
	k.until("phones are on", func() bool { return k.phonesOn(tt.ID) })
	codes := h.server.Codes()
	if len(codes) != 2 || codes[1] == "" {
		t.Errorf("%v", codes)
	}
	kitchen := k.desk.Kitchen(tt.ID, k.newID)
	for _, c := range tt.Seats[0].Cups {
		k.fromPhone(func() error { return kitchen.Save(t.Context(), 1, c.Code, map[string]float64{"Overall": 6}, "") })
	}
	k.settle()
	h.dialog.show()
	if got := k.table("phone.table").Data().Rows[0].Cells[3].Text; got != "4 of 5" {
		t.Errorf("the first seat has answered %q", got)
	}
	k.picture("tastings-phones")
	k.pressAnywhere(fyne.KeyEscape)
	if _, given, err := kitchen.Ballot(1); err != nil || len(given) != 4 {
		t.Errorf("%v %v", given, err)
	}
	if !kitchen.Serving() {
		t.Error("it does not serve")
	}
	k.do(tasting.Close(tt.ID, "2026-03-04T21:00:00Z", "late"))
	k.settle()
	k.until("phones are off", func() bool { return !k.phonesOn(tt.ID) && !h.busy })
	if kitchen.Serving() {
		t.Error("it serves after closing")
	}
	if kitchen.Save(t.Context(), 2, tt.Seats[1].Cups[0].Code, nil, "") == nil {
		t.Error("an answer came in after closing")
	}
}

// TestABallotTakesTheOfferOfUndoAway: what stands in the status line is no longer
// the newest once a taster's own answer came in.
func TestABallotTakesTheOfferOfUndoAway(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) { f.Attributes = "" }, "AB", "CD")
	k.do(recipes.SetTitle(tt.Recipe, "Friday gratin"))
	k.until("the change is told", func() bool {
		return strings.Contains(k.reads(), k.view.Undo) && strings.Contains(k.view.Undo, "Friday")
	})
	told := k.view.Undo
	k.fromPhone(func() error {
		return k.desk.Kitchen(tt.ID, k.newID).Save(t.Context(), 1, tt.Seats[0].Cups[0].Code, map[string]float64{"Overall": 6}, "")
	})
	k.settle()
	if strings.Contains(k.reads(), told) {
		t.Errorf("%q still stands there", told)
	}
}
