package workbook

import (
	"errors"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/words"
)

func TestUndoAndRedo(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	one := content(t, f.Book())
	mustApply(t, f, recipes.SetTitle("r1", "Supper gratin"))
	two := content(t, f.Book())

	if l, ok := f.UndoLabel(); !ok || l.Key != "did.title" {
		t.Errorf("undo label %v %v", l, ok)
	}
	a, err := f.Undo(ctx)
	if err != nil || a.Seq != 2 || content(t, f.Book()) != one || onDisk(t, f.Path()) != one {
		t.Fatalf("undo: %+v %v", a, err)
	}
	if l, ok := f.RedoLabel(); !ok || l.Key != "did.title" {
		t.Errorf("redo label %v %v", l, ok)
	}
	if _, err := f.Redo(ctx); err != nil || content(t, f.Book()) != two || onDisk(t, f.Path()) != two {
		t.Fatalf("redo: %v", err)
	}
	if _, ok := f.RedoLabel(); ok {
		t.Error("there is still something to redo")
	}
	if _, err := f.Redo(ctx); err == nil {
		t.Error("redo did something")
	}
}

func TestUndoAndRedoSurviveAReopen(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.SetTitle("r1", "Supper gratin"))
	mustApply(t, f, recipes.SetServings("r1", 4))
	if _, err := f.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	f.Close()
	g := mustOpen(t, f.Path())
	if l, _ := g.UndoLabel(); l.Key != "did.title" {
		t.Errorf("undo label %v", l)
	}
	if l, _ := g.RedoLabel(); l.Key != "did.servings" {
		t.Errorf("redo label %v", l)
	}
	if _, err := g.Redo(ctx); err != nil || g.Book().Recipe("r1").Servings != 4 {
		t.Error("redo after reopening", err)
	}
	for range 3 {
		if _, err := g.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if len(g.Book().Entities()) != 0 {
		t.Error("undo after reopening left something")
	}
	if _, err := g.Undo(ctx); err == nil || !strings.Contains(err.Error(), words.Say("workbook.nothing-to-undo")) {
		t.Errorf("undo of nothing: %v", err)
	}
}

func TestANewChangeEndsRedo(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.SetTitle("r1", "Supper gratin"))
	if _, err := f.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	mustApply(t, f, recipes.SetServings("r1", 4))
	if _, ok := f.RedoLabel(); ok {
		t.Error("redo is still offered")
	}
	h, err := f.History(ctx, "r1", 0)
	if err != nil || len(h) != 3 || h[1].State != recipes.HistoryUndone || h[2].State != recipes.HistoryDone {
		t.Errorf("notebook %+v %v", h, err)
	}
}

func TestUndoRefusesWhatChangedSince(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	if _, err := f.Apply(ctx, recipes.SetTitle("r1", "By another"), recipes.ByOther); err != nil {
		t.Fatal(err)
	}
	before := content(t, f.Book())
	_, err := f.Undo(ctx)
	if !errors.Is(err, recipes.ErrChangedSince) || !strings.Contains(err.Error(), "cannot be undone") {
		t.Errorf("got %v", err)
	}
	if content(t, f.Book()) != before || onDisk(t, f.Path()) != before {
		t.Error("a refused undo changed something")
	}
}

func TestUndoNeverCrossesAFinalChange(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, addGratin("r2"))
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	mustApply(t, f, recipes.AddVersion("r2", "b", "", ""))
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Undo(ctx); err != nil { // version b, of the other recipe
		t.Fatalf("undo in another recipe: %v", err)
	}
	before := content(t, f.Book())
	for range 2 { // version a: its tasting has started
		_, err := f.Undo(ctx)
		if err == nil || !strings.Contains(err.Error(), "came after it") {
			t.Fatalf("got %v", err)
		}
	}
	if content(t, f.Book()) != before || onDisk(t, f.Path()) != before {
		t.Error("a refused undo changed something")
	}
	if _, err := f.Redo(ctx); err != nil {
		t.Errorf("redo in the other recipe: %v", err)
	}
	mustApply(t, f, recipes.RenameVersion("r1", "a", "later"))
	if _, err := f.Undo(ctx); err != nil {
		t.Errorf("undo of what came after the final change: %v", err)
	}
	wantSound(t, f)
}

func TestRedoNeverCrossesAFinalChange(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	mustApply(t, f, recipes.SetServings("r1", 4))
	if _, err := f.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Redo(ctx); err == nil || !strings.Contains(err.Error(), "came after it") {
		t.Errorf("got %v", err)
	}
}

func TestFinalChangesKeepNoPayload(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByCook); err != nil {
		t.Fatal(err)
	}
	var n int
	if err := f.conn.GetContext(ctx, &n, "SELECT count(*) FROM history WHERE final = 1 AND payload IS NOT NULL"); err != nil || n != 0 {
		t.Errorf("%d final payloads, %v", n, err)
	}
}

func TestOnlyTheNewestThousandKeepTheirPayload(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	// A thousand entries as an earlier day left them, then one more.
	raw(t, f.Path(), `WITH RECURSIVE n(i) AS (VALUES (1) UNION ALL SELECT i + 1 FROM n WHERE i < 1000)
		INSERT INTO history (at, origin, state, final, label, touches, payload, changed)
		SELECT '2026-03-04T12:00:00Z', 'cook', 'done', 0, '{"key":"did.nothing"}', '[]', '[]', 1 FROM n`)
	mustApply(t, f, recipes.SetServings("r1", 4))
	var kept, done, oldest int
	for q, to := range map[string]*int{
		"SELECT count(*) FROM history WHERE state = 'kept' AND payload IS NULL":     &kept,
		"SELECT count(*) FROM history WHERE state = 'done' AND payload IS NOT NULL": &done,
		"SELECT min(seq) FROM history WHERE payload IS NOT NULL":                    &oldest,
	} {
		if err := f.conn.GetContext(ctx, to, q); err != nil {
			t.Fatal(err)
		}
	}
	if kept != 2 || done != undoable || oldest != 3 {
		t.Errorf("kept %d, done %d, oldest payload %d", kept, done, oldest)
	}
}

func TestHistoryIsARecipesNotebook(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, addGratin("r2"))
	mustApply(t, f, recipes.Set("units", "metric"))
	mustApply(t, f, recipes.SetTitle("r1", "Supper gratin"))
	h, err := f.History(ctx, "r1", 0)
	if err != nil || len(h) != 2 || h[0].Seq != 1 || h[1].Seq != 4 {
		t.Fatalf("%+v %v", h, err)
	}
	if h[1].Label.Key != "did.title" || h[1].Origin != recipes.ByCook || !h[1].At.Equal(noon) {
		t.Errorf("%+v", h[1])
	}
	var at string
	if err := f.conn.GetContext(ctx, &at, "SELECT at FROM history WHERE seq = 1"); err != nil || at != "2026-03-04T12:00:00+01:00" {
		t.Errorf("stored instant %q %v", at, err)
	}
	if h, err = f.History(ctx, "", 2); err != nil || len(h) != 2 || h[0].Seq != 3 || h[1].Seq != 4 {
		t.Errorf("the workbook's newest two: %+v %v", h, err)
	}
}

// TestUndoTakesBackWhatWasSeen: a change of another program that nobody here has
// seen is not what an undo means; asked again, it is.
func TestUndoTakesBackWhatWasSeen(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.SetTitle("r1", "Supper gratin"))
	other := mustOpen(t, f.Path())
	if _, err := other.Apply(ctx, recipes.SetServings("r1", 4), recipes.ByImport); err != nil {
		t.Fatal(err)
	}
	a, err := f.Undo(ctx)
	if err == nil || !strings.Contains(err.Error(), "another program") || len(a.Arrived) != 1 || f.Book().Recipe("r1").Servings != 4 {
		t.Fatalf("%+v %v", a, err)
	}
	if l, _ := f.UndoLabel(); l.Key != "did.servings" {
		t.Errorf("undo label %v", l)
	}
	if _, err := f.Undo(ctx); err != nil || f.Book().Recipe("r1").Servings == 4 {
		t.Errorf("asked again: %v", err)
	}
}
