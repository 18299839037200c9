package archive

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

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
		{"newer", cut(`"form": 1`, `"form": 3`), "workbook.json, line 3", "archive.newer"},
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
	f.Add(bytes.Replace(small.Bytes(), []byte(`"open_only_after_closing":"`), []byte(`"open_only_after_closing":"e30`), 1))
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
