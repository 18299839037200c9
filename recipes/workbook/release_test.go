package workbook

import (
	"bytes"
	"compress/gzip"
	"errors"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// tableFoods are foods with everything a published table can have, and marks
// that part cells in their words.
func tableFoods() []*food.Food {
	full := &food.Food{
		Ref: food.Ref{Source: "usda", Release: "sr26", Code: "01001"}, Name: `butter, "salted"`, Published: "Butter, salted", Group: "dairy",
		Aliases: []food.Alias{{Name: `a|b=c;d\e`}, {Name: "ghee", Close: true, Differs: "no water; less=more"}, {Name: "spread", Close: true}},
		Measures: []food.Measure{
			{Unit: "pat", Grams: 5}, {Unit: "cup", Detail: "melted; hot|cold", Grams: 227.125}, {Unit: "tbsp", Grams: 0.1 + 0.2},
		},
		Density: 0.911, Edible: 0.98, Swells: 2.5, State: food.Raw, Note: "line one\nline two",
	}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		full.Per100.Set(n, float64(n)*1.1)
	}
	bare := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr26", Code: "00002"}, Name: " leading blank"}
	derived := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr26", Code: "00003"}, Name: "oil"}
	derived.Per100.Set(food.EnergyKcal, 884)
	derived.Per100.Set(food.EnergyKJ, 884*food.KJPerKcal)
	derived.Per100.Set(food.Sugars, 0)
	return []*food.Food{full, bare, derived}
}

func mustRelease(tb testing.TB, foods []*food.Food, digest string) (*recipes.Release, Block) {
	tb.Helper()
	r, b, err := NewRelease("USDA Standard Reference, Release 26", digest, foods, noon)
	if err != nil {
		tb.Fatal(err)
	}
	return r, b
}

func TestReleaseComesBackAsItWas(t *testing.T) {
	f := mustCreate(t)
	foods := tableFoods()
	r, b := mustRelease(t, foods, "d")
	if r.Key() != "usda/sr26" || r.Foods != 3 || r.Block != b.Hash || !r.Imported.Equal(noon) {
		t.Errorf("%+v", r)
	}
	if _, err := f.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b); err != nil {
		t.Fatal(err)
	}
	again := mustOpen(t, f.Path())
	kept := again.Book().Release("usda", "sr26")
	if !recipes.Same(kept, r) {
		t.Fatalf("%+v, not %+v", kept, r)
	}
	got, err := again.Release(ctx, kept)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range foods {
		if !reflect.DeepEqual(got[i], want) {
			t.Errorf("%+v\nnot %+v", got[i], want)
		}
	}
	wantSound(t, again)
}

// TestTheSameReleaseTwice changes nothing, whether the files are the same or
// only the foods; other foods under its name are refused; another name is taken.
func TestTheSameReleaseTwice(t *testing.T) {
	f := mustCreate(t)
	r, b := mustRelease(t, tableFoods(), "d")
	if _, err := f.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b); err != nil {
		t.Fatal(err)
	}
	before := f.Revision()
	better := tableFoods()
	better[1].Name = "read better by a later program"
	for name, same := range map[string]func() (*recipes.Release, Block){
		"same files":            func() (*recipes.Release, Block) { return mustRelease(t, better, "d") },
		"same foods, new lines": func() (*recipes.Release, Block) { return mustRelease(t, tableFoods(), "e") },
	} {
		r, b := same()
		a, err := f.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b)
		if err != nil || a.Seq != 0 || f.Revision() != before {
			t.Errorf("%s: %v, revision %d after %d", name, err, f.Revision(), before)
		}
	}
	other, block := mustRelease(t, better, "e")
	_, err := f.Apply(ctx, recipes.ImportRelease(other), recipes.ByImport, block)
	if err == nil || !strings.Contains(err.Error(), "another table is already here as sr26") || f.Revision() != before {
		t.Errorf("other foods: %v", err)
	}
	if _, err := f.Block(ctx, block.Hash); err == nil {
		t.Error("the block of a refused table was written")
	}
	for _, x := range better {
		x.Release = "mine"
	}
	mine, block := mustRelease(t, better, "e")
	if _, err := f.Apply(ctx, recipes.ImportRelease(mine), recipes.ByImport, block); err != nil || len(f.Book().Releases()) != 2 {
		t.Error(err)
	}
}

// TestAnImportIsUndone and done again; its block stays for that.
func TestAnImportIsUndone(t *testing.T) {
	f := mustCreate(t)
	r, b := mustRelease(t, tableFoods(), "d")
	if _, err := f.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b); err != nil {
		t.Fatal(err)
	}
	if l, ok := f.UndoLabel(); !ok || l.String() != "Imported USDA Standard Reference, Release 26 (3 foods)" {
		t.Errorf("label %q", l)
	}
	if _, err := f.Undo(ctx); err != nil || len(f.Book().Releases()) != 0 {
		t.Fatal(err)
	}
	wantSound(t, f)
	if _, err := f.Redo(ctx); err != nil {
		t.Fatal(err)
	}
	if foods, err := f.Release(ctx, f.Book().Release("usda", "sr26")); err != nil || len(foods) != 3 {
		t.Error(foods, err)
	}
	mustApply(t, f, recipes.RemoveRelease("usda", "sr26"))
	if _, err := f.Apply(ctx, recipes.RemoveRelease("usda", "sr26"), recipes.ByCook); err == nil || len(f.Book().Releases()) != 0 {
		t.Error("removed twice")
	}
}

// TestWorkbooksWithoutTables have no place for them until the first comes.
func TestWorkbooksWithoutTables(t *testing.T) {
	f := mustOpen(t, borrowed(t, "v1.parewell"))
	wantSound(t, f)
	r, b := mustRelease(t, tableFoods(), "d")
	if _, err := f.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b); err != nil {
		t.Fatal(err)
	}
	wantSound(t, f)
	if again := mustOpen(t, f.Path()); again.Book().Release("usda", "sr26") == nil || again.Book().Recipe("gratin") == nil {
		t.Error("the table or the recipe is not there")
	}
}

// TestALostBlock is found by a check and told by the release; copies that cannot
// have blocks and recovered workbooks leave the table out, so that it can be
// imported again.
func TestALostBlock(t *testing.T) {
	f := mustCreate(t)
	mustApply(t, f, addGratin("gratin"))
	r, b := mustRelease(t, tableFoods(), "d")
	if _, err := f.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b); err != nil {
		t.Fatal(err)
	}
	saved := filepath.Join(t.TempDir(), "saved.parewell")
	if err := SaveBook(saved, f.Book(), testOptions()); err != nil {
		t.Fatal(err)
	}
	s := mustOpen(t, saved)
	wantSound(t, s)
	if s.Book().Recipe("gratin") == nil || len(s.Book().Releases()) != 0 {
		t.Errorf("%d tables", len(s.Book().Releases()))
	}
	f.Close()

	whole := filepath.Join(t.TempDir(), "whole.parewell")
	rec, err := Recover(ctx, f.Path(), whole, testOptions())
	if err != nil || rec.Kept[recipes.KindOfRelease] != 1 || rec.TotalLost() != 0 {
		t.Fatal(rec, err)
	}
	raw(t, f.Path(), "DELETE FROM block")
	g := mustOpen(t, f.Path())
	found, err := g.Check(ctx)
	if err != nil || len(found) != 1 || found[0].What != "the foods of USDA Standard Reference, Release 26 are missing; import the table again" {
		t.Errorf("%v %v", found, err)
	}
	if _, err := g.Release(ctx, r); err == nil {
		t.Error("foods out of nothing")
	}
	g.Close()
	without := filepath.Join(t.TempDir(), "without.parewell")
	rec, err = Recover(ctx, f.Path(), without, testOptions())
	if err != nil || rec.Lost[recipes.KindOfRelease] != 1 {
		t.Fatal(rec, err)
	}
	w := mustOpen(t, without)
	wantSound(t, w)
	if _, err := w.Apply(ctx, recipes.ImportRelease(r), recipes.ByImport, b); err != nil {
		t.Fatal(err)
	}
	if foods, err := w.Release(ctx, r); err != nil || len(foods) != 3 {
		t.Error(err)
	}
}

// TestDamagedReleases are damage, told as such.
func TestDamagedReleases(t *testing.T) {
	r, good := mustRelease(t, tableFoods(), "d")
	plain := string(encodeFoods(tableFoods()))
	for name, bytes := range map[string][]byte{
		"not packed":     []byte(plain),
		"cut":            good.Bytes[:len(good.Bytes)/2],
		"one letter":     []byte("x"),
		"no header":      packed(t, ""),
		"missing column": packed(t, strings.Replace(plain, "measures,", "weights,", 1)),
		"bad value":      packed(t, strings.Replace(plain, ",884,", ",88x,", 1)),
		"bad weight":     packed(t, strings.Replace(plain, "pat=5", "pat=x", 1)),
		"no weight":      packed(t, strings.Replace(plain, "pat=5", "pat", 1)),
		"bad share":      packed(t, strings.Replace(plain, ",0.98,", ",all,", 1)),
		"short row":      packed(t, plain+"1,2\n"),
	} {
		f := mustCreate(t)
		block := NewBlock(tableKind, bytes)
		c := *r
		c.Block = block.Hash
		if _, err := f.Apply(ctx, recipes.ImportRelease(&c), recipes.ByImport, block); err != nil {
			t.Fatal(err)
		}
		if _, err := f.Release(ctx, &c); !errors.Is(err, ErrDamaged) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, _, err := NewRelease("nothing", "d", nil, noon); err == nil {
		t.Error("a table without foods")
	}
}

func packed(tb testing.TB, text string) []byte {
	tb.Helper()
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	if _, err := z.Write([]byte(text)); err != nil {
		tb.Fatal(err)
	}
	if err := z.Close(); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

// FuzzRelease holds that any block is read or refused, and that what was read
// comes back the same.
func FuzzRelease(f *testing.F) {
	plain := encodeFoods(tableFoods())
	f.Add(plain)
	f.Add([]byte("code,name\n1,2\n"))
	f.Add(bytes.ReplaceAll(plain, []byte("tbsp"), []byte(`t\b;s|p`)))
	f.Fuzz(func(t *testing.T, text []byte) {
		foods, err := decodeFoods(packed(t, string(text)), "usda", "sr26")
		if err != nil || len(foods) == 0 {
			return
		}
		once := encodeFoods(foods)
		again, err := decodeFoods(packed(t, string(once)), "usda", "sr26")
		if err != nil {
			t.Fatalf("%v\n%s", err, once)
		}
		if twice := encodeFoods(again); !bytes.Equal(once, twice) {
			t.Fatalf("%s\nthen\n%s", once, twice)
		}
	})
}

// BenchmarkReleaseDecode reads a table of SR28's size, as before the first
// search.
func BenchmarkReleaseDecode(b *testing.B) {
	one := tableFoods()
	var foods []*food.Food
	for range 2930 {
		foods = append(foods, one...)
	}
	_, block := mustRelease(b, foods, "d")
	for b.Loop() {
		if _, err := decodeFoods(block.Bytes, "usda", "sr26"); err != nil {
			b.Fatal(err)
		}
	}
}
