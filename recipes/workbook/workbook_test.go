package workbook

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

func TestCreateOpensEmptyAndKeepsTheName(t *testing.T) {
	f := mustCreate(t)
	if n := len(f.Book().Entities()); n != 0 {
		t.Errorf("a new workbook holds %d entities", n)
	}
	if f.ReadOnly() {
		t.Errorf("a new workbook is read-only: %s", f.ReadOnlyWhy())
	}
	names, err := os.ReadDir(filepath.Dir(f.Path()))
	if err != nil || len(names) != 1 || names[0].Name() != filepath.Base(f.Path()) {
		t.Errorf("files beside it: %v, %v", names, err)
	}
	wantSound(t, f)
}

func TestHeaderNamesProgramAndFormat(t *testing.T) {
	f := mustCreate(t)
	b, err := head(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	if string(b[68:72]) != "PARE" || b[63] != Format {
		t.Errorf("application id %q, user version %d", b[68:72], b[63])
	}
}

func TestApplyIsOnDiskWhenItReturns(t *testing.T) {
	f := mustCreate(t)
	a := mustApply(t, f, addGratin("r1"))
	if a.Seq != 1 || a.Label.Key != "did.add-recipe" || a.Book != f.Book() {
		t.Errorf("applied %+v", a)
	}
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	mustApply(t, f, recipes.AddSwap(yogurtSwap("s1", "r1", 0.5), []*food.Food{yogurt}, "a"))
	if got, want := onDisk(t, f.Path()), content(t, f.Book()); got != want {
		t.Errorf("on disk\n%s\nin memory\n%s", got, want)
	}
	wantSound(t, f)
}

func TestApplyRefusedChangesNothing(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	before, rev := f.Book(), f.Revision()
	_, err := f.Apply(ctx, recipes.SetTitle("r1", "  "), recipes.ByCook)
	if err == nil || !strings.Contains(err.Error(), words.Say("error.no-title")) {
		t.Fatalf("got %v", err)
	}
	if f.Book() != before || f.Revision() != rev || onDisk(t, f.Path()) != content(t, before) {
		t.Error("a refused verb left a trace")
	}
}

func TestApplyNothingWritesNothing(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	rev := f.Revision()
	a := mustApply(t, f, recipes.SetTitle("r1", gratin("r1").Title))
	if a.Seq != 0 || f.Revision() != rev {
		t.Errorf("seq %d, revision %d", a.Seq, f.Revision())
	}
}

func TestEveryConnectionKeepsThePragmas(t *testing.T) {
	f := mustCreate(t)
	want := map[string]string{
		"foreign_keys": "1", "synchronous": "2", "journal_mode": "delete", "busy_timeout": "250",
		"application_id": "1346458181", "user_version": "1",
	}
	for _, mode := range []string{"rw", "ro"} {
		db, err := sqlx.Open("sqlite3", dsn(f.Path(), mode))
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		for i := range 3 { // three connections of one pool, all held
			c, err := db.Connx(ctx)
			if err != nil {
				t.Fatal(err)
			}
			defer c.Close()
			for name, w := range want {
				if got, err := pragma(ctx, c, name); err != nil || got != w {
					t.Errorf("%s connection %d: %s is %q (%v), want %q", mode, i, name, got, err, w)
				}
			}
		}
	}
	for name, w := range want {
		if got, err := pragma(ctx, f.conn, name); err != nil || got != w {
			t.Errorf("the workbook's own connection: %s is %q (%v), want %q", name, got, err, w)
		}
	}
}

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

func TestBlocksAreWrittenWithTheirChange(t *testing.T) {
	f := mustCreate(t)
	photo := NewBlock("photo", []byte("not really a photo"))
	if _, err := f.Apply(ctx, recipes.SetTitle("none", "x"), recipes.ByCook, photo); err == nil {
		t.Fatal("the verb should be refused")
	}
	if _, err := f.Block(ctx, photo.Hash); err == nil {
		t.Error("a block was written without its change")
	}
	if _, err := f.Apply(ctx, addGratin("r1"), recipes.ByCook, photo, photo); err != nil {
		t.Fatal(err)
	}
	b, err := f.Block(ctx, photo.Hash)
	if err != nil || string(b) != string(photo.Bytes) {
		t.Errorf("%q %v", b, err)
	}
	if _, err := f.conn.ExecContext(ctx, "UPDATE block SET bytes = x'00'"); err == nil {
		t.Error("a block could be changed")
	}
}

func TestCopyIsCompleteAndItsOwn(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.SetServings("r1", 4))
	to := filepath.Join(t.TempDir(), "a copy.parewell")
	if err := os.WriteFile(to, []byte("what stood there"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := f.CopyTo(ctx, to); err != nil {
		t.Fatal(err)
	}
	g := mustOpen(t, to)
	if content(t, g.Book()) != content(t, f.Book()) {
		t.Error("the copy differs")
	}
	if g.UUID() == f.UUID() || g.UUID() == "" {
		t.Errorf("uuids %q and %q", g.UUID(), f.UUID())
	}
	if _, err := g.Undo(ctx); err != nil || g.Book().Recipe("r1").Servings != 6 {
		t.Error("undo in the copy", err)
	}
	wantSound(t, g)
	if names, _ := os.ReadDir(filepath.Dir(to)); len(names) != 1 {
		t.Errorf("left beside the copy: %v", names)
	}
	if err := f.CopyTo(ctx, f.Path()); err == nil || !strings.Contains(err.Error(), words.Say("workbook.copy-onto-itself")) {
		t.Errorf("copy onto itself: %v", err)
	}
}

func TestColumnsAndViewsAgreeWithTheBook(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	mustApply(t, f, recipes.AddSwap(yogurtSwap("s1", "r1", 0.5), []*food.Food{yogurt}, "a"))
	mustApply(t, f, recipes.AddSwap(lessButter("s2", "r1", 0.5), nil, "a"))
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ name, query, want string }{
		{"recipe", "SELECT title || '|' || servings || '|' || edition FROM recipe", "Leek & haddock <gratin>|6.0|1"},
		{"version", "SELECT recipe || letter || coalesce(servings, '-') FROM version", "r1A-"},
		{"ticks", "SELECT group_concat(version || '+' || swap, ' ') FROM version_swap", "a+s1 a+s2"},
		{"food", "SELECT group_concat(ref, ' ') FROM food", "own//butter own//cream own//yogurt"},
		{"v_versions", "SELECT recipe || '|' || letter || '|' || servings || '|' || swaps FROM v_versions", "Leek & haddock <gratin>|A|6.0|less butter; yogurt for cream"},
		{"v_lines", "SELECT group_concat(place || ':' || text || '=' || grams || ' ' || food, ', ') FROM v_lines", "1:300 ml double cream=300 own//cream, 2:60 g butter=60 own//butter"},
		{"v_scores, open", "SELECT group_concat(panelist || sample || coalesce(version, '?') || attribute || score, ' ') FROM v_scores", "AM482?liking7.0 AM482?texture6.5"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var got string
			if err := f.conn.GetContext(ctx, &got, row.query); err != nil || got != row.want {
				t.Errorf("got %q (%v)\nwant %q", got, err, row.want)
			}
		})
	}
	for _, bad := range []string{
		"UPDATE recipe SET title = 'other'",
		"UPDATE recipe SET id = 'other'",
		"UPDATE recipe SET body = json_set(body, '$.servings', 0)",
		"UPDATE version SET body = json_set(body, '$.recipe', 'nobody')",
		"UPDATE tasting SET body = json_set(body, '$.state', 'perhaps')",
		"UPDATE recipe SET body = 'no json'",
	} {
		if _, err := f.conn.ExecContext(ctx, bad); err == nil {
			t.Errorf("the file let this pass: %s", bad)
		}
	}
}

func TestRemovingWhatATastingRestsOnIsRefused(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("r1"))
	mustApply(t, f, recipes.AddVersion("r1", "a", "", ""))
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist); err != nil {
		t.Fatal(err)
	}
	before := content(t, f.Book())
	for name, v := range map[string]recipes.Verb{"version": recipes.RemoveVersion("r1", "a"), "recipe": recipes.RemoveRecipe("r1")} {
		if _, err := f.Apply(ctx, v, recipes.ByCook); err == nil {
			t.Errorf("%s was removed from under its tasting", name)
		}
	}
	if content(t, f.Book()) != before || onDisk(t, f.Path()) != before {
		t.Error("a refused removal changed something")
	}
}
