package workbook

import (
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
		"application_id": "1346458181", "user_version": "2", "secure_delete": "1",
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
