package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// Closing says what is missing and asks why; then the scores meet the versions,
// and a late one is a labelled correction.
func TestATastingIsClosedEarly(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) { f.Attributes = "" }, "AB", "CD")
	k.gridAt()
	k.types("5678")
	if _, err := sheets.ScoresByVersion(k.book(), tt); err == nil {
		t.Fatal("scores by version before closing")
	}
	pressPin(k, "tastings.close")
	k.picture("tastings-close-missing")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	if k.book().Tasting(tt.ID).State != recipes.TastingServing {
		t.Fatal("closed early without a reason")
	}
	k.pins["tastings.early"].(*parts.Entry).SetText("the power went")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	now := k.book().Tasting(tt.ID)
	if now.State != recipes.TastingClosed || now.Early != "the power went" {
		t.Fatalf("%+v", now)
	}
	if said := k.status.Message(); said != words.Say("did.close-tasting", tt.Date) {
		t.Errorf("an undo of something older stands after closing: %q", said)
	}
	k.undo()
	k.settle()
	if n := len(k.book().Servings(tt.ID)); n != 4 || !strings.Contains(k.status.Message(), "came after it: Closed") {
		t.Errorf("undone after closing: %d entries, %q", n, k.status.Message())
	}
	k.picture("tastings-closed")
	if rows := k.table("tastings.scores").Data().Rows; len(rows) != 4 {
		t.Errorf("%d rows of scores", len(rows))
	}
	pressPin(k, "tastings.late")
	k.table("tastings.late.grid").Select(1, 1)
	k.win.Canvas().Focus(k.table("tastings.late.grid"))
	k.types("9")
	if said := k.pins["tastings.late.where"].(*parts.Text).Text(); len(k.book().Tasting(tt.ID).Late) > 0 || !strings.Contains(said, "why") {
		t.Fatalf("a late score without a reason: %q", said)
	}
	k.pins["tastings.late.why"].(*parts.Entry).SetText("found under the tray")
	k.table("tastings.late.grid").Select(1, 1)
	k.win.Canvas().Focus(k.table("tastings.late.grid"))
	k.types("9")
	k.table("tastings.late.grid").Select(0, 1)
	k.press(fyne.KeyReturn)
	k.types("2")
	k.picture("tastings-late")
	k.pressAnywhere(fyne.KeyEscape)
	k.settle()
	rows := k.table("tastings.corrected").Data().Rows
	if len(rows) != 2 || rows[0].Cells[2].Text != "nothing" || rows[0].Cells[3].Text != "9" || rows[1].Cells[2].Text == "nothing" || rows[1].Cells[3].Text != "2" || rows[1].Cells[4].Text != "found under the tray" {
		t.Errorf("the page tells of late scores: %+v", rows)
	}
	k.picture("tastings-closed-late")
	p := k.tastings().states[recipes.TastingClosed].(*closedTasting)
	p.scroll.ScrollToBottom()
	k.showTastings(tt.Recipe, tt.ID)
	k.settle()
	if p.scroll.Offset.Y == 0 {
		t.Error("the same tasting shown again lost its place")
	}
	p.t = &recipes.Tasting{ID: "another"} // was in sight
	k.showTastings(tt.Recipe, tt.ID)
	k.settle()
	if p.scroll.Offset.Y != 0 {
		t.Errorf("another tasting opens at %v, where the last one was left", p.scroll.Offset)
	}
}
