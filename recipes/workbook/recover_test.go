package workbook

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
)

// shelf is a workbook of some size, closed, to be spoilt.
func shelf(t *testing.T) (path string, b *recipes.Book) {
	t.Helper()
	n := large
	n.recipes = 40
	b = made(n, 5)
	return mustSave(t, b), b
}

func spoil(t *testing.T, path string, change func([]byte) []byte) {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, change(b), 0o644); err != nil {
		t.Fatal(err)
	}
}

func mustRecover(t *testing.T, bad string) (*File, Recovered) {
	t.Helper()
	to := filepath.Join(t.TempDir(), "recovered.parewell")
	r, err := Recover(ctx, bad, to, testOptions())
	if err != nil {
		t.Fatal(err)
	}
	f := mustOpen(t, to)
	wantSound(t, f)
	return f, r
}

func TestRecoverOfASoundFileKeepsAll(t *testing.T) {
	f := written(t)
	photo := NewBlock("photo", []byte("x"))
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist, photo); err != nil {
		t.Fatal(err)
	}
	f.Close()
	g, r := mustRecover(t, f.Path())
	if content(t, g.Book()) != content(t, f.Book()) {
		t.Error("something is different")
	}
	if r.TotalLost() != 0 || r.Mended != 0 || r.Blocks != 1 || r.Labels != 3 || r.Kept[recipes.KindOfRecipe] != 1 {
		t.Errorf("%+v", r)
	}
	if b, err := g.Block(ctx, photo.Hash); err != nil || string(b) != "x" {
		t.Errorf("block %q %v", b, err)
	}
	h, err := g.History(ctx, "", 0)
	if err != nil || len(h) != 3 || h[0].Label.Key != "did.add-recipe" || h[0].State != recipes.HistoryKept {
		t.Errorf("notebook %+v %v", h, err)
	}
	if _, ok := g.UndoLabel(); ok {
		t.Error("there is something to undo")
	}
	if g.UUID() == f.UUID() {
		t.Error("the same identity twice")
	}
}

func TestRecoverGoesPastALostPage(t *testing.T) {
	path, b := shelf(t)
	const page = 4096
	gone := b.Recipes()[17]
	spoil(t, path, func(file []byte) []byte {
		hit := false
		for at := page; at < len(file); at += page {
			p := file[at : at+page]
			if bytes.Contains(p, []byte(`"title":"`+gone.Title+`"`)) {
				copy(p, bytes.Repeat([]byte{0xff}, page))
				hit = true
			}
		}
		if !hit {
			t.Fatal("the recipe was not found in the file")
		}
		return file
	})
	_, err := Open(path, testOptions())
	if !errors.Is(err, ErrDamaged) {
		t.Fatalf("opened damaged: %v", err)
	}
	wantSentence(t, err, "workbook.damaged")
	before, _ := os.ReadFile(path)
	g, r := mustRecover(t, path)
	kept := g.Book().Recipes()
	if g.Book().Recipe(gone.ID) != nil || len(kept) == 0 || len(kept)+r.Lost[recipes.KindOfRecipe] != 40 {
		t.Errorf("kept %d, lost %d", len(kept), r.Lost[recipes.KindOfRecipe])
	}
	if r.Lost[recipes.KindOfRecipe] > 8 {
		t.Errorf("one page cost %d recipes", r.Lost[recipes.KindOfRecipe])
	}
	for _, x := range kept {
		want := len(b.Versions(x.ID))
		if got := len(g.Book().Versions(x.ID)); got != want || !recipes.Same(x, b.Recipe(x.ID)) {
			t.Errorf("%s came back with %d of %d versions, or changed", x.Title, got, want)
		}
	}
	if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
		t.Error("the damaged file was touched")
	}
}

func TestRecoverOfACutFile(t *testing.T) {
	path, b := shelf(t)
	spoil(t, path, func(file []byte) []byte { return file[:len(file)*7/10] })
	_, err := Open(path, testOptions())
	if !errors.Is(err, ErrDamaged) {
		t.Fatalf("opened a cut file: %v", err)
	}
	g, r := mustRecover(t, path)
	if n := len(g.Book().Recipes()); n == 0 || n > len(b.Recipes()) || r.TotalLost() == 0 {
		t.Errorf("%d recipes, %+v", n, r)
	}
}

func TestRecoverMendsWhatLostAPart(t *testing.T) {
	f := written(t)
	mustApply(t, f, recipes.AddSwap(lessButter("s", "r1", 0.5), nil, "a"))
	f.Close()
	raw(t, f.Path(), "PRAGMA foreign_keys = off", "DELETE FROM swap", "DELETE FROM food WHERE ref = 'own//cream'")
	g, r := mustRecover(t, f.Path())
	if v := g.Book().Version("r1", "a"); v == nil || len(v.Swaps) != 0 {
		t.Errorf("version %+v", v)
	}
	if l := g.Book().Recipe("r1").Lines; !l[0].Food.Zero() || l[0].Grams != 300 || l[1].Food != butter.Ref {
		t.Errorf("lines %+v %+v", l[0], l[1])
	}
	if r.Mended != 2 {
		t.Errorf("mended %d", r.Mended)
	}
}

func TestRecoverSaysWhenNothingIsLeft(t *testing.T) {
	path, _ := shelf(t)
	spoil(t, path, func(file []byte) []byte { copy(file[100:8192], make([]byte, 8192)); return file })
	to := filepath.Join(t.TempDir(), "x.parewell")
	_, err := Recover(ctx, path, to, testOptions())
	wantSentence(t, err, "workbook.recover.nothing")
	if _, err := os.Stat(to); err == nil {
		t.Error("an empty workbook was left")
	}
	if _, err := Recover(ctx, path, path, testOptions()); err == nil || !strings.Contains(err.Error(), "already") {
		t.Errorf("recovering onto itself: %v", err)
	}
}

// TestFlippedBytesNeverCrash flips bytes all over a file: opening and checking
// it gives a sentence or a Book, recovering it too, and never anything else.
func TestFlippedBytesNeverCrash(t *testing.T) {
	f := written(t)
	mustApply(t, f, recipes.AddSwap(lessButter("s", "r1", 0.5), nil, "a"))
	if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist); err != nil {
		t.Fatal(err)
	}
	f.Close()
	sound, err := os.ReadFile(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(11, 11))
	dir := t.TempDir()
	opened, refusals, noticed := 0, 0, 0
	for i := range 150 {
		path := filepath.Join(dir, "spoilt.parewell")
		file := bytes.Clone(sound)
		for range 1 + rnd.IntN(40) {
			file[rnd.IntN(len(file))] ^= byte(1 + rnd.IntN(255))
		}
		if i%10 == 0 {
			file = file[:rnd.IntN(len(file))]
		}
		if err := os.WriteFile(path, file, 0o644); err != nil {
			t.Fatal(err)
		}
		sentence := func(err error) {
			var p *problem.Error
			if err != nil && (!errors.As(err, &p) || p.What == "" || strings.HasPrefix(p.What, "[")) {
				t.Fatalf("no sentence: %v", err)
			}
		}
		g, err := Open(path, testOptions())
		sentence(err)
		if err != nil {
			refusals++
		} else {
			opened++
			found, err := g.Check(ctx)
			sentence(err)
			if len(found) > 0 {
				noticed++
			}
			g.Close()
		}
		to := filepath.Join(dir, "recovered.parewell")
		_, err = Recover(ctx, path, to, testOptions())
		sentence(err)
		if err == nil {
			h := mustOpen(t, to)
			wantSound(t, h)
			h.Close()
		}
		os.Remove(to)
		os.Remove(path)
		os.Remove(path + "-journal")
	}
	t.Logf("%d opened (a check noticed %d of them), %d refused", opened, noticed, refusals)
	if opened == 0 || refusals == 0 {
		t.Error("the damage was too great or too small to tell anything")
	}
}

// TestCheckFindsWhatIsPlanted spoils one thing at a time behind the program's back.
func TestCheckFindsWhatIsPlanted(t *testing.T) {
	for _, row := range []struct {
		name, want string
		spoil      []string
	}{
		{"a link to nothing", "refers to something that is not there", []string{"PRAGMA foreign_keys = off", "DELETE FROM recipe"}},
		{"a body of another sort", "cannot be read", []string{`UPDATE recipe SET body = json_set(body, '$.lines', 7)`}},
		{"an irregular body", "regular form", []string{`UPDATE recipe SET body = body || ' '`}},
		{"a broken rule", "either/or", []string{`UPDATE swap SET body = json_set(body, '$.ladder', 'x')`}},
		{"a tick nobody made", "does not agree", []string{"DELETE FROM version_swap WHERE swap = 's'"}},
		{"a score nobody gave", "does not agree", []string{"UPDATE score SET score = 1"}},
		{"a notebook entry", "notebook", []string{`UPDATE history SET label = '7' WHERE seq = 1`}},
		{"a payload", "notebook", []string{`UPDATE history SET payload = '[{"kind":"x","after":{}}]' WHERE seq = 1`}},
		{"a block", "digest", []string{"DROP TRIGGER block_is_immutable", "UPDATE block SET bytes = x'00'"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := written(t)
			mustApply(t, f, recipes.AddSwap(lessButter("s", "r1", 0.5), nil, "a"))
			mustApply(t, f, recipes.AddSwap(yogurtSwap("s2", "r1", 0.5), []*food.Food{yogurt}, "a"))
			if _, err := f.Apply(ctx, tasted("r1", "a"), recipes.ByPanelist, NewBlock("photo", []byte("x"))); err != nil {
				t.Fatal(err)
			}
			wantSound(t, f)
			raw(t, f.Path(), row.spoil...)
			found, err := f.Check(ctx)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range found {
				if strings.Contains(p.What, row.want) {
					return
				}
			}
			t.Errorf("found %v, want %q", found, row.want)
		})
	}
}
