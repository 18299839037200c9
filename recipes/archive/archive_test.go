package archive

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/csv"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

var (
	ctx   = context.Background()
	noon  = time.Date(2026, 3, 4, 12, 0, 0, 0, time.FixedZone("", 3600))
	jpeg  = []byte("\xff\xd8\xff\xe0 stands for a photo")
	clock = workbook.Options{Now: func() time.Time { return noon }}
)

// harbour is the demo, with a photo, an imported table, a taster's details and
// body measures added, and a change that was undone.
func harbour(t testing.TB) *workbook.File {
	t.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		t.Fatal(err)
	}
	table := food.NewTable(foods)
	catalogue, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		t.Fatal(err)
	}
	book, err := demo.Book(func() recipes.ID { return recipes.NewID(rand.Reader) }, table, catalogue)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "harbour.parewell")
	if err := workbook.SaveBook(path, book, clock); err != nil {
		t.Fatal(err)
	}
	f := open(t, path)
	released := make([]*food.Food, 40)
	for i := range released {
		x := *foods[i]
		x.Source, x.Release = "fdc", "2026-04"
		released[i] = &x
	}
	release, block, err := workbook.NewRelease("a table, “quoted” & <odd>", "d1", released, noon)
	if err != nil {
		t.Fatal(err)
	}
	r := f.Book().Recipes()[0]
	photo := workbook.NewBlock("photo", jpeg)
	test := &recipes.Batch{ID: "harbourtest", Recipe: r.ID, Date: "2026-03-04", Cook: "Ottoline", Notes: "=SUM(A1)", Photos: []string{photo.Hash}}
	apply(t, f, recipes.ImportRelease(release), block)
	apply(t, f, recipes.AddTest(test), photo)
	apply(t, f, tasting.PutTaster(&recipes.Panelist{
		ID: "person1", Code: "Zephyrine", Asked: true, DoesNotEat: []string{"quincejelly"}, Consent: "2026-03-01", Note: "a neighbour",
	}))
	apply(t, f, recipes.Set(recipes.BodyMeasures, `{"height":171}`))
	apply(t, f, recipes.SetTitle(r.ID, "Not called so"))
	if _, err := f.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	return f
}

func open(t testing.TB, path string) *workbook.File {
	t.Helper()
	f, err := workbook.Open(path, clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func apply(t testing.TB, f *workbook.File, v recipes.Verb, blocks ...workbook.Block) {
	t.Helper()
	if _, err := f.Apply(ctx, v, recipes.ByCook, blocks...); err != nil {
		t.Fatal(err)
	}
}

// out is a workbook as files.
func out(t testing.TB, f *workbook.File, people bool) fstest.MapFS {
	t.Helper()
	c, err := f.Contents(ctx, people)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Lost) > 0 {
		t.Fatalf("lost %v", c.Lost)
	}
	files, err := Files(ctx, c, people)
	if err != nil {
		t.Fatal(err)
	}
	folder := fstest.MapFS{}
	for _, x := range files {
		var b bytes.Buffer
		if err := x.Write(&b); err != nil {
			t.Fatal(err)
		}
		if folder[x.Name] != nil {
			t.Errorf("%s is written twice", x.Name)
		}
		folder[x.Name] = &fstest.MapFile{Data: b.Bytes()}
	}
	return folder
}

// in is files as a new workbook.
func in(t testing.TB, folder fstest.MapFS) *workbook.File {
	t.Helper()
	c, err := Read(ctx, folder)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "back.parewell")
	if err := workbook.SaveContents(ctx, path, c, clock); err != nil {
		t.Fatal(err)
	}
	return open(t, path)
}

// TestWhatComesInWorks opens the photo and the table of what came in and edits it.
func TestWhatComesInWorks(t *testing.T) {
	f := harbour(t)
	for _, people := range []bool{true, false} {
		t.Run(fmt.Sprintf("people %t", people), func(t *testing.T) {
			wantOpenable(t, in(t, out(t, f, people)))
		})
	}
}

func wantSameBook(t *testing.T, a, b *recipes.Book) {
	t.Helper()
	x, y := a.Entities(), b.Entities()
	if len(x) != len(y) {
		t.Fatalf("%d entities, then %d", len(x), len(y))
	}
	for i := range x {
		if !recipes.Same(x[i], y[i]) {
			t.Errorf("%s %s differs", x[i].Kind(), x[i].Key())
		}
	}
}

// wantOpenable reads the photo and the table, and goes on working.
func wantOpenable(t *testing.T, g *workbook.File) {
	t.Helper()
	r := g.Book().Releases()
	if len(r) != 1 {
		t.Fatalf("%d tables", len(r))
	}
	if foods, err := g.Release(ctx, r[0]); err != nil || len(foods) != 40 {
		t.Errorf("%d foods: %v", len(foods), err)
	}
	if b, err := g.Block(ctx, workbook.NewBlock("", jpeg).Hash); err != nil || !bytes.Equal(b, jpeg) {
		t.Errorf("the photo: %v", err)
	}
	h, err := g.History(ctx, "", 0)
	if err != nil || len(h) != 5 || h[4].State != recipes.HistoryUndone || h[4].Label.String() != words.Say("did.title", "Not called so") || !h[4].At.Equal(noon) {
		t.Errorf("the notebook: %v %v", h, err)
	}
	if _, can := g.UndoLabel(); can {
		t.Error("what came in can be undone")
	}
	apply(t, g, recipes.Set("money", "EUR"))
}

func TestPeopleStayBehindUnlessAskedFor(t *testing.T) {
	f := harbour(t)
	secrets := []string{"Zephyrine", "quincejelly", "a neighbour", "171", "Ottoline"}
	for _, row := range []struct {
		name   string
		people bool
	}{{"left out", false}, {"asked for", true}} {
		t.Run(row.name, func(t *testing.T) {
			all := ""
			for name, file := range out(t, f, row.people) {
				if !strings.HasPrefix(name, "table-") {
					all += string(file.Data)
				}
			}
			for _, s := range secrets[:3] {
				if strings.Contains(all, s) != row.people {
					t.Errorf("%q is in it: %t", s, !row.people)
				}
			}
			for _, s := range []string{`\"height\":171`, secrets[4]} {
				if strings.Contains(all, s) != row.people {
					t.Errorf("%q is in it: %t", s, !row.people)
				}
			}
		})
	}
}

func TestEverySheetIsATableThatTheGuideDescribes(t *testing.T) {
	folder := out(t, harbour(t), true)
	guide := string(folder[GuideName].Data)
	for _, s := range sheets {
		rows, err := csv.NewReader(bytes.NewReader(folder[s.name].Data)).ReadAll() // refuses rows of other lengths
		if err != nil {
			t.Errorf("%s: %v", s.name, err)
			continue
		}
		if len(rows) < 2 && s != choicesSheet && s != targetsSheet {
			t.Errorf("%s is empty", s.name)
		}
		if !words.Current().Has("archive.sheet." + strings.TrimSuffix(s.name, ".csv")) {
			t.Errorf("%s is not described", s.name)
		}
		seen := map[string]bool{}
		for _, c := range s.columns {
			if seen[c] {
				t.Errorf("%s has two columns %s", s.name, c)
			}
			seen[c] = true
			if _, nutrient := food.ByKey(c); !nutrient && !strings.Contains(guide, "  "+c+": ") {
				t.Errorf("%s: column %s is not described", s.name, c)
			}
		}
		for _, row := range rows {
			for _, cell := range row {
				if strings.HasPrefix(cell, "=") {
					t.Errorf("%s: a formula: %q", s.name, cell)
				}
			}
		}
	}
}

// TestALostPhotoIsNamedAndLeftOut has a test refer to a photo that is nowhere.
func TestALostPhotoIsNamedAndLeftOut(t *testing.T) {
	f := harbour(t)
	r := f.Book().Recipes()[0]
	apply(t, f, recipes.AddTest(&recipes.Batch{ID: "lost", Recipe: r.ID, Date: "2026-03-04", Photos: []string{"0123"}}))
	c, err := f.Contents(ctx, true)
	if err != nil || len(c.Lost) != 1 || c.Lost[0] != "0123" || len(c.Blocks) != 2 {
		t.Fatalf("%v %v %v", c.Lost, c.Blocks, err)
	}
	files, err := Files(ctx, c, true)
	if err != nil {
		t.Fatal(err)
	}
	folder := fstest.MapFS{}
	for _, x := range files {
		var b bytes.Buffer
		if err := x.Write(&b); err != nil {
			t.Fatal(err)
		}
		folder[x.Name] = &fstest.MapFile{Data: b.Bytes()}
	}
	wantSameBook(t, f.Book(), in(t, folder).Book())
}
