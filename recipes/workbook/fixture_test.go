package workbook

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// The fixtures are workbooks as released programs wrote them, kept for ever:
// every later program opens them. PAREWELL_WRITE_FIXTURES=1 writes those of the
// present format, for the release that brings it.
const (
	fixtures = "../../testdata/workbooks"
	present  = "v2"
)

// sampler is a Book with one of everything, by verbs and by hand.
func sampler(t *testing.T, path string) {
	t.Helper()
	o := testOptions()
	o.Random = newSeeded(4)
	f, err := Create(path, o)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	mustApply(t, f, addGratin("gratin"))
	mustApply(t, f, recipes.AddVersion("gratin", "lighter", "lighter", ""))
	mustApply(t, f, recipes.AddSwap(yogurtSwap("yogurt", "gratin", 0.5), []*food.Food{yogurt}, "lighter"))
	mustApply(t, f, recipes.AddSwap(lessButter("butter", "gratin", 0.5), nil, "lighter"))
	mustApply(t, f, recipes.Set("units", "metric"))
	mustApply(t, f, recipes.Remember(&recipes.Choice{Name: "cream", Food: cream.Ref}, nil))
	mustApply(t, f, func(*recipes.Book) (recipes.Change, error) {
		m := &recipes.Meal{ID: "supper", Name: "Supper", Dishes: []recipes.MealDish{{Recipe: "gratin", Version: "lighter", Servings: 1}}}
		return recipes.Change{Edits: []recipes.Edit{{After: m}}}, nil
	})
	if _, err := f.Apply(ctx, tasted("gratin", "lighter"), recipes.ByPanelist, NewBlock("photo", []byte("not really a photo"))); err != nil {
		t.Fatal(err)
	}
	mustApply(t, f, recipes.NoteVersion("gratin", "lighter", "crust a little pale"))
	mustApply(t, f, recipes.RenameVersion("gratin", "lighter", "light"))
	if _, err := f.Undo(ctx); err != nil {
		t.Fatal(err)
	}
}

func TestWriteFixtures(t *testing.T) {
	if os.Getenv("PAREWELL_WRITE_FIXTURES") == "" {
		t.Skip("only for a new format")
	}
	base := filepath.Join(fixtures, present)
	if err := os.MkdirAll(fixtures, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{".parewell", "-damaged.parewell", "-newer.parewell"} {
		os.Remove(base + name)
	}
	sampler(t, base+".parewell")
	raw(t, base+".parewell", "VACUUM")
	if err := os.WriteFile(base+".txt", []byte(onDisk(t, base+".parewell")), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string][]string{
		"-damaged": nil,
		"-newer":   {"UPDATE meta SET format = 1000", "PRAGMA user_version = 1000"},
	} {
		path := base + name + ".parewell"
		if err := copyFile(base+".parewell", path); err != nil {
			t.Fatal(err)
		}
		raw(t, path, change...)
	}
	spoil(t, base+"-damaged.parewell", func(file []byte) []byte {
		at := strings.Index(string(file), `"title":"Leek`)
		copy(file[at&^4095:], make([]byte, 64)) // the head of the page with the recipe
		return file
	})
}

// borrowed is a copy of a fixture to work on.
func borrowed(t *testing.T, name string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), name)
	if err := copyFile(filepath.Join(fixtures, name), to); err != nil {
		t.Fatal(err)
	}
	return to
}

// formats are those that have fixtures.
var formats = []string{"v1", "v2"}

func TestWorkbooksOfEveryFormatOpen(t *testing.T) {
	for _, format := range formats {
		t.Run(format, func(t *testing.T) { opensAsItWas(t, format) })
	}
}

func opensAsItWas(t *testing.T, format string) {
	f := mustOpen(t, borrowed(t, format+".parewell"))
	want, err := os.ReadFile(filepath.Join(fixtures, format+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	if got := content(t, f.Book()); got != string(want) {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	wantSound(t, f)
	if v, err := pragma(ctx, f.conn, "user_version"); err != nil || v != "2" {
		t.Errorf("opened as format %s: %v", v, err)
	}
	if l, _ := f.RedoLabel(); l.Key != "did.name-version" {
		t.Errorf("redo %v", l)
	}
	if _, err := f.Redo(ctx); err != nil || f.Book().Version("gratin", "lighter").Name != "light" {
		t.Error("redo:", err)
	}
	for range 2 {
		if _, err := f.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := f.Undo(ctx); err != nil { // the meal: no tasting rests on it
		t.Error(err)
	}
	if len(f.Book().Meals()) != 0 {
		t.Error("the meal stayed")
	}
}

func TestKeptDamagedAndNewerWorkbooks(t *testing.T) {
	for _, format := range formats {
		t.Run(format, func(t *testing.T) { openAsFarAsTheyCan(t, format) })
	}
}

func openAsFarAsTheyCan(t *testing.T, format string) {
	_, err := Open(borrowed(t, format+"-damaged.parewell"), testOptions())
	if !errors.Is(err, ErrDamaged) {
		t.Errorf("damaged: %v", err)
	}
	g, r := mustRecover(t, borrowed(t, format+"-damaged.parewell"))
	if len(g.Book().Recipes()) != 0 || r.Lost[recipes.KindOfRecipe] != 1 || len(g.Book().Foods()) != 3 {
		t.Errorf("recovered %+v", r)
	}
	f := mustOpen(t, borrowed(t, format+"-newer.parewell"))
	if !f.ReadOnly() || f.Book().Recipe("gratin") == nil {
		t.Error("a newer format was not opened read-only")
	}
}
