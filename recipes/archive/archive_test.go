package archive

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"os"
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
	"parewell/recipes/problem"
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

func TestWhatGoesOutComesBackTheSame(t *testing.T) {
	f := harbour(t)
	for _, people := range []bool{true, false} {
		t.Run(fmt.Sprintf("people %t", people), func(t *testing.T) {
			first := out(t, f, people)
			g := in(t, first)
			second := out(t, g, people)
			if len(first) != len(second) {
				t.Errorf("%d files, then %d", len(first), len(second))
			}
			for name, file := range first {
				if second[name] == nil || !bytes.Equal(file.Data, second[name].Data) {
					t.Errorf("%s differs", name)
				}
			}
			if found, err := g.Check(ctx); err != nil || len(found) > 0 {
				t.Errorf("check: %v %v", found, err)
			}
			if people {
				wantSameBook(t, f.Book(), g.Book())
			}
			wantOpenable(t, g)
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

func TestWhatACupHeldIsNotToldBeforeClosing(t *testing.T) {
	b := recipes.NewBook([]recipes.Entity{
		&recipes.Recipe{ID: "r", Title: "Loaf", Servings: 8},
		&recipes.Version{ID: "v", Recipe: "r", Letter: "Q"},
		&recipes.Panelist{ID: "p", Code: "AM"},
		&recipes.Tasting{ID: "t", Recipe: "r", Edition: 1, Date: "2026-03-04", Test: recipes.TestLiking, State: recipes.TastingServing},
		&recipes.Sample{ID: "s", Tasting: "t", Version: "v", Code: "482"},
		&recipes.Serving{ID: "x", Tasting: "t", Sample: "s", Panelist: "p", Source: recipes.FromPaper, Scores: map[string]float64{"liking": 7}},
	})
	for _, s := range []*sheet{samplesSheet, scoresSheet} {
		var buf bytes.Buffer
		if err := s.write(&buf, newData(workbook.Contents{Entities: b.Entities()})); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&buf).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatal(rows, err)
		}
		for i, cell := range rows[1] {
			if cell == "Q" || cell == "v" {
				t.Errorf("%s says it in %s", s.name, rows[0][i])
			}
		}
	}
}

// TestBadFilesAreRefusedWithTheirPlace changes a sound archive in one place each.
func TestBadFilesAreRefusedWithTheirPlace(t *testing.T) {
	sound := out(t, harbour(t), true)
	text := string(sound[DataName].Data)
	photo := "photo-" + workbook.NewBlock("", jpeg).Hash + ".jpg"
	line := func(what string) int { return 1 + strings.Count(text[:strings.Index(text, what)], "\n") }
	cut := func(old, fresh string) string {
		if !strings.Contains(text, old) {
			t.Fatalf("nothing to change: %s", old)
		}
		return strings.Replace(text, old, fresh, 1)
	}
	in := func(what string) string { return words.Say("archive.place", DataName, line(what)) }
	serving := `"serving": [`
	for _, row := range []struct{ name, data, where, key string }{
		{"cut short", text[:len(text)/2], "", "archive.syntax"},
		{"nothing", "", "", "archive.syntax"},
		{"another file", `{"recipes": []}`, "workbook.json, line 1", "archive.not-one"},
		{"a list", `[]`, "workbook.json, line 1", "archive.not-one"},
		{"no form", cut(`"form": 1,`, ""), "", "archive.not-one"},
		{"newer", cut(`"form": 1`, `"form": 2`), "workbook.json, line 3", "archive.newer"},
		{"unknown list", cut(`"meal": [`, `"menu": [`), in(`"meal": [`), "archive.unknown-list"},
		{"list twice", cut(`"meal": [`, `"recipe": [`), in(`"meal": [`), "archive.twice"},
		{"no list", cut(serving, `"serving": {}, "meals": [`), in(serving), "archive.no-list"},
		{"unknown field", cut(`{"id":"person1",`, `{"id":"person1","shoe":43,`), in(`{"id":"person1"`), "archive.unknown"},
		{"wrong sort", cut(`"code":"Zephyrine"`, `"code":7`), in(`"code":"Zephyrine"`), "archive.field"},
		{"empty place", cut(`"does_not_eat":["quincejelly"]`, `"does_not_eat":[null]`), in(`{"id":"person1"`), "archive.hollow"},
		{"no name", cut(`{"id":"person1",`, `{`), in(`{"id":"person1"`), "archive.nameless"},
		{"same name twice", cut(`{"id":"person1",`, `{"id":"person1","code":"X"}, {"id":"person1",`), in(`{"id":"person1"`), "archive.twice"},
		{"refused by the rules", cut(`"servings":6`, `"servings":-6`), in(`"servings":6`), "archive.rule"},
		{"bad date", cut(`"at":"2026`, `"at":"soon, 2026`), in(`{"seq":`), "archive.field"},
		{"notebook out of order", cut(`{"seq":2`, `{"seq":1`), in(`{"seq":2`), "archive.field"},
		{"stranger in the notebook", cut(`"origin":"cook"`, `"origin":"ghost"`), in(`"origin":"cook"`), "archive.field"},
		{"path that leads out", cut(`"name":"`+photo, `"name":"../`+photo), in(`"name":"` + photo), "archive.field"},
		{"photo not named", cut(`"name":"`+photo, `"name":"gone.jpg`), "gone.jpg", "archive.missing"},
		{"hash of nothing", cut(`{"hash":"`, `{"hash":"zz`), in(`{"hash":"`), "archive.field"},
	} {
		t.Run(row.name, func(t *testing.T) {
			folder := fstest.MapFS{}
			for name, file := range sound {
				folder[name] = file
			}
			folder[DataName] = &fstest.MapFile{Data: []byte(row.data)}
			_, err := Read(ctx, folder)
			var p *problem.Error
			if !errors.As(err, &p) {
				t.Fatalf("got %v", err)
			}
			if row.where != "" && p.Where != row.where {
				t.Errorf("place %q, want %q (%v)", p.Where, row.where, err)
			}
			if stem, _, _ := strings.Cut(words.Say(row.key, "\x00", "\x00"), "\x00"); !strings.HasPrefix(p.What, stem) {
				t.Errorf("says %q, want %s", p.What, row.key)
			}
			if strings.Contains(p.What, "[archive") || strings.Count(err.Error(), "\n") > 0 {
				t.Errorf("no clear sentence: %v", err)
			}
		})
	}
}

func TestAChangedOrMissingPhotoIsRefused(t *testing.T) {
	sound := out(t, harbour(t), true)
	photo := "photo-" + workbook.NewBlock("", jpeg).Hash + ".jpg"
	sound[photo] = &fstest.MapFile{Data: append(bytes.Clone(jpeg), '!')}
	if _, err := Read(ctx, sound); err == nil || !strings.Contains(err.Error(), words.Say("archive.changed-file")) {
		t.Errorf("changed: %v", err)
	}
	delete(sound, photo)
	if _, err := Read(ctx, sound); err == nil || !strings.HasPrefix(err.Error(), photo+": "+words.Say("archive.missing")) {
		t.Errorf("missing: %v", err)
	}
	delete(sound, DataName)
	if _, err := Read(ctx, sound); err == nil || !strings.HasPrefix(err.Error(), DataName+": "+words.Say("archive.missing")) {
		t.Errorf("no data: %v", err)
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

// TestWorkbooksAsTheyWereWrittenGoOutAndIn takes the files older programs wrote.
func TestWorkbooksAsTheyWereWrittenGoOutAndIn(t *testing.T) {
	for _, name := range []string{"v1", "v2"} {
		t.Run(name, func(t *testing.T) {
			b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "workbooks", name+".parewell"))
			if err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(t.TempDir(), "old.parewell")
			if err := os.WriteFile(path, b, 0o644); err != nil {
				t.Fatal(err)
			}
			f := open(t, path)
			first := out(t, f, true)
			g := in(t, first)
			wantSameBook(t, f.Book(), g.Book())
			if second := out(t, g, true); !bytes.Equal(first[DataName].Data, second[DataName].Data) {
				t.Error("the data differ")
			}
		})
	}
}

// TestAFaultWhileComingInLeavesNoWorkbook has a block go missing half way.
func TestAFaultWhileComingInLeavesNoWorkbook(t *testing.T) {
	c, err := Read(ctx, out(t, harbour(t), true))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "back.parewell")
	for _, row := range []struct {
		name string
		ruin func(c *workbook.Contents)
	}{
		{"unreadable photo", func(c *workbook.Contents) {
			read := c.Read
			n := 0
			c.Read = func(ctx context.Context, hash string) ([]byte, error) {
				if n++; n > 1 {
					return nil, errors.New("the stick was pulled out")
				}
				return read(ctx, hash)
			}
		}},
		{"entries that do not fit together", func(c *workbook.Contents) {
			c.Entities = append([]recipes.Entity{&recipes.Swap{ID: "s", Recipe: "nowhere", Name: "x"}}, c.Entities...)
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			c := c
			row.ruin(&c)
			var p *problem.Error
			if err := workbook.SaveContents(ctx, path, c, clock); !errors.As(err, &p) {
				t.Errorf("got %v", err)
			}
			if left, _ := os.ReadDir(dir); len(left) > 0 {
				t.Errorf("left behind: %v", left)
			}
		})
	}
}

// FuzzRead reads what might stand in DataName: it is taken whole or refused with
// a sentence, and what is taken makes a sound workbook that goes out the same.
func FuzzRead(f *testing.F) {
	var small bytes.Buffer
	c := workbook.Contents{Entities: []recipes.Entity{
		&recipes.Setting{Name: "units", Value: "metric"},
		&recipes.Recipe{ID: "r", Title: "Loaf", Servings: 8, Lines: []*recipes.Line{{ID: "l", Text: "1 egg", PartEaten: 1}}},
		&recipes.Swap{ID: "s", Recipe: "r", Name: "half", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l", Factor: 0.5}}},
		&recipes.Version{ID: "v", Recipe: "r", Letter: "A", Swaps: []recipes.ID{"s"}},
		&recipes.Batch{ID: "b", Recipe: "r", Version: "v", Number: 1, Date: "2026-03-04"},
		&recipes.Panelist{ID: "p", Code: "AM"},
		&recipes.Tasting{
			ID: "t", Recipe: "r", Edition: 1, Date: "2026-03-04", Test: recipes.TestLiking, State: recipes.TastingServing,
			Attributes: []recipes.Attribute{{Name: "liking", Kind: recipes.AskLiking}},
			Seats:      []recipes.Seat{{Number: 1, Panelist: "p", Cups: []recipes.Cup{{Sample: "m", Code: 482}}}},
		},
		&recipes.Sample{ID: "m", Tasting: "t", Batch: "b", Version: "v", Code: "482", Served: &recipes.Served{Servings: 8, Steps: []string{"Stir."}}},
		&recipes.Serving{ID: "x", Tasting: "t", Sample: "m", Panelist: "p", Source: recipes.FromPaper, Scores: map[string]float64{"liking": 7}},
		&recipes.Meal{ID: "d", Name: "Tea", Dishes: []recipes.MealDish{{Recipe: "r", Servings: 1}}},
	}, Notebook: []recipes.HistoryEntry{{Seq: 1, At: noon, Origin: recipes.ByCook, Label: words.P("did.title", "x")}}}
	if err := writeData(&small, c, nil, true); err != nil {
		f.Fatal(err)
	}
	if _, err := Read(ctx, fstest.MapFS{DataName: {Data: small.Bytes()}}); err != nil {
		f.Fatal("the first seed is not sound:", err)
	}
	f.Add(small.Bytes())
	f.Add([]byte(`{"parewell": "workbook data", "form": 1}`))
	f.Add([]byte(`{"parewell": "workbook data", "form": 1, "recipe": [{"id":"r","title":"x","servings":1,"lines":[null]}]}`))
	f.Add([]byte(`{"parewell": "workbook data", "form": 1, "files": [{"hash":"00","kind":"photo","name":"../x"}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := Read(ctx, fstest.MapFS{DataName: {Data: data}})
		if err != nil {
			var p *problem.Error
			if !errors.As(err, &p) || p.Where == "" || strings.Contains(p.What, "[archive") {
				t.Fatalf("no sentence with a place: %v", err)
			}
			return
		}
		var first bytes.Buffer
		if err := writeData(&first, c, nil, true); err != nil {
			t.Fatal(err)
		}
		if !json.Valid(first.Bytes()) {
			t.Fatal("what came in goes out broken")
		}
		again, err := Read(ctx, fstest.MapFS{DataName: {Data: first.Bytes()}})
		if err != nil {
			t.Fatalf("what came in is not taken again: %v", err)
		}
		var second bytes.Buffer
		if err := writeData(&second, again, nil, true); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("it goes out otherwise than it came in: %v", err)
		}
		for _, s := range sheets {
			if err := s.write(&bytes.Buffer{}, newData(c)); err != nil {
				t.Fatal(err)
			}
		}
	})
}
