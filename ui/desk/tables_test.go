package desk

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
)

// tableHead and tableRows are the abbreviated layout with a few foods of USDA
// SR28; the second table is another release with another value of the same food.
const (
	tableHead = "NDB_No,Shrt_Desc,Water_(g),Energ_Kcal,Protein_(g),Lipid_Tot_(g),Sodium_(mg),GmWt_1,GmWt_Desc1\n"
	tableRows = "01009,\"CHEESE,CHEDDAR\",36.75,404,22.87,33.31,653,132,\"1 cup, diced\"\n" +
		"01255,\"KEFIR,LOWFAT,STRAWBERRY\",81.27,62,3.39,0.85,37,243,1 cup\n" +
		"17343,\"GAME MEAT,EMU,FAN FILLET,RAW\",75.37,103,22.5,0.74,81,,\n"
	otherRows = "01009,\"CHEESE,CHEDDAR\",36.75,403,24.9,33.14,621,113,\"1 cup, shredded\"\n"
)

// tableFile writes a table into a folder of the release's name.
func tableFile(t *testing.T, release, rows string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), release, "ABBREV.csv")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(tableHead+rows), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// starterBench is a bench with the foods that come with the program.
func starterBench(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, Options{Starter: func() ([]*food.Food, error) { return food.ReadStarter(assets.Foods) }})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "x.parewell"), then) })
	return b
}

func (b *bench) importTables(t *testing.T, paths ...string) (done []ImportedTable, err error) {
	t.Helper()
	err = b.wait(t, func(then func(error)) {
		b.ImportTable(paths, nil, func(d []ImportedTable, err error) { done = d; then(err) })
	})
	return done, err
}

func (b *bench) hits(t *testing.T, query string) string {
	t.Helper()
	table, err := b.Foods()
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, h := range table.Search(query, 3) {
		out = append(out, h.Food.Ref.String())
	}
	return strings.Join(out, " ")
}

func TestImportTable(t *testing.T) {
	b := starterBench(t)
	if got := b.hits(t, "emu fillet"); got != "" {
		t.Fatalf("emu before the import: %s", got)
	}
	last, calls := -1, 0
	var done []ImportedTable
	b.must(t, func(then func(error)) {
		b.ImportTable([]string{tableFile(t, "sr27", tableRows)}, func(done, total int) {
			if done < last || done > total {
				t.Errorf("%d after %d of %d", done, last, total)
			}
			last = done
			calls++
		}, func(d []ImportedTable, err error) { done = d; then(err) })
	})
	if len(done) != 1 || done[0].Already || done[0].Count.Rows != 3 || done[0].Release.Key() != "usda/sr27" || calls == 0 {
		t.Fatalf("%+v after %d calls", done, calls)
	}
	if got := b.Releases(); len(got) != 1 || got[0].Name != "USDA Standard Reference, Release 27" || !got[0].Imported.Equal(noon) {
		t.Errorf("%+v", got)
	}
	if got := b.hits(t, "emu fillet"); got != "usda/sr27/17343" {
		t.Errorf("emu: %s", got)
	}
	if got := b.hits(t, "cheddar"); !strings.HasPrefix(got, "usda/sr28/01009") || !strings.Contains(got, "usda/sr27/01009") {
		t.Errorf("cheddar: %s", got) // the starter's first
	}
	if b.View().Undo != "Imported USDA Standard Reference, Release 27 (3 foods)" {
		t.Errorf("undo %q", b.View().Undo)
	}
	done, err := b.importTables(t, tableFile(t, "sr27", tableRows))
	if err != nil || !done[0].Already || len(b.Releases()) != 1 {
		t.Errorf("again: %+v, %v", done, err)
	}
	if _, err := b.importTables(t, tableFile(t, "sr25", otherRows), tableFile(t, "sr27", otherRows)); err == nil || len(b.Releases()) != 1 {
		t.Errorf("other foods under a taken name, and one beside: %v, %d tables", err, len(b.Releases()))
	}
	b.must(t, b.Undo)
	if got := b.hits(t, "emu fillet"); got != "" {
		t.Errorf("emu after undo: %s", got)
	}
}

// TestImportedFoodsSurviveReopening reads them from the file, and once only.
func TestImportedFoodsSurviveReopening(t *testing.T) {
	b := starterBench(t)
	if _, err := b.importTables(t, tableFile(t, "sr27", tableRows)); err != nil {
		t.Fatal(err)
	}
	first, _ := b.Foods()
	path := b.View().Path
	b.must(t, func(then func(error)) { b.Open(path, then) })
	second, err := b.Foods()
	if err != nil || first != second {
		t.Errorf("made again for the same block: %v", err)
	}
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "empty.parewell"), then) })
	if got := b.hits(t, "emu fillet"); got != "" {
		t.Errorf("emu in an empty workbook: %s", got)
	}
	other := newBench(t, Options{})
	other.must(t, func(then func(error)) { other.Open(path, then) })
	if got := other.hits(t, "emu fillet"); got != "usda/sr27/17343" {
		t.Errorf("emu in another window: %s", got)
	}
}

// TestPinningAnImportedFood makes no table anew: it is the very row.
func TestPinningAnImportedFood(t *testing.T) {
	b := starterBench(t)
	if _, err := b.importTables(t, tableFile(t, "sr27", tableRows)); err != nil {
		t.Fatal(err)
	}
	before, _ := b.Foods()
	emu := before.Get(food.Ref{Source: "usda", Release: "sr27", Code: "17343"})
	r := &recipes.Recipe{ID: "r", Title: "Emu", Servings: 2, Lines: []*recipes.Line{
		{ID: "l", Text: "400 g emu fillet", Grams: 400, GramsFrom: recipes.GramsWeight, Food: emu.Ref, PartEaten: 1},
	}}
	if err := b.do(t, recipes.AddRecipe(r, []*food.Food{emu})); err != nil {
		t.Fatal(err)
	}
	if after, _ := b.Foods(); after != before {
		t.Error("the table was made anew")
	}
	path := b.View().Path
	b.must(t, func(then func(error)) { b.Open(path, then) }) // now from JSON
	if after, _ := b.Foods(); after != before {
		t.Error("the table was made anew after opening")
	}
	if err := b.do(t, recipes.RemoveRelease("usda", "sr27")); err != nil {
		t.Fatal(err)
	}
	if got := b.hits(t, "emu fillet"); got != "usda/sr27/17343" { // pinned by its line
		t.Errorf("emu after taking the table off: %s", got)
	}
}

// TestCancelledImport leaves the workbook as it was.
func TestCancelledImport(t *testing.T) {
	rows := strings.Builder{}
	for i := range 20_000 {
		rows.WriteString(strings.Replace("10000,\"EMU,FAN FILLET,RAW\",75.37,103,22.5,0.74,81,,\n", "10000", digits(100_000+i), 1))
	}
	b := starterBench(t)
	before := b.Book()
	var cancel func()
	err := b.wait(t, func(then func(error)) {
		cancel = b.ImportTable([]string{tableFile(t, "sr27", rows.String())}, func(done, total int) { cancel() },
			func(d []ImportedTable, err error) { then(err) })
	})
	if !errors.Is(err, context.Canceled) || b.Book() != before || b.View().Undo != "" || b.hits(t, "emu fillet") != "" {
		t.Errorf("%v, %d tables, undo %q", err, len(b.Releases()), b.View().Undo)
	}
}

func digits(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return digits(n/10) + string(rune('0'+n%10))
}

func TestImportTableFaults(t *testing.T) {
	b := starterBench(t)
	soup := filepath.Join(t.TempDir(), "soup.txt")
	if err := os.WriteFile(soup, []byte("Leek soup\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, paths := range map[string][]string{
		"missing": {soup + "x"}, "no table": {soup}, "one of two": {tableFile(t, "sr27", tableRows), soup}, "half bad": {tableFile(t, "sr27", tableRows+"x\ny\n")},
	} {
		if done, err := b.importTables(t, paths...); err == nil || done != nil || len(b.Releases()) != 0 {
			t.Errorf("%s: %v, %v", name, done, err)
		}
	}
	none := newBench(t, Options{})
	if _, err := none.importTables(t, tableFile(t, "sr27", tableRows)); err == nil {
		t.Error("imported into nothing")
	}
}

func TestRelinkPreview(t *testing.T) {
	b := starterBench(t)
	if _, err := b.importTables(t, tableFile(t, "sr27", tableRows), tableFile(t, "sr25", otherRows)); err != nil {
		t.Fatal(err)
	}
	ref := func(release, code string) food.Ref { return food.Ref{Source: "usda", Release: release, Code: code} }
	for _, r := range []struct {
		name, to  string
		line      food.Ref
		sodium    float64
		sodiumNew float64
		fault     string
	}{
		{"starter to another release", "sr25", ref("sr28", "01009"), 653, 621, ""},
		{"one release to another", "sr27", ref("sr25", "01009"), 621, 653, ""},
		{"not in the other", "sr25", ref("sr27", "01255"), 0, 0, "USDA Standard Reference, Release 25 has no food of the same number"},
		{"no food yet", "sr25", food.Ref{}, 0, 0, "this ingredient is not linked to a food yet"},
		{"own food", "sr25", food.Ref{Source: "own", Code: "01009"}, 0, 0, "this ingredient is not linked to a food yet"},
	} {
		link, err := b.RelinkPreview(&recipes.Line{Text: "cheddar", Food: r.line}, b.Book().Release("usda", r.to))
		if r.fault != "" {
			if err == nil || !strings.Contains(err.Error(), r.fault) {
				t.Errorf("%s: %v", r.name, err)
			}
			continue
		}
		if err != nil {
			t.Fatal(r.name, err)
		}
		was, _ := link.Before(food.Sodium)
		is, _ := link.After(food.Sodium)
		if was != r.sodium || is != r.sodiumNew || link.To.Release != r.to {
			t.Errorf("%s: %v to %v", r.name, was, is)
		}
		if _, known := link.After(food.TransFat); known {
			t.Errorf("%s: trans fat known", r.name)
		}
	}
}

// TestRelinkingIsUndone links a line to another release's row and takes it back.
func TestRelinkingIsUndone(t *testing.T) {
	b := starterBench(t)
	if _, err := b.importTables(t, tableFile(t, "sr25", otherRows)); err != nil {
		t.Fatal(err)
	}
	table, _ := b.Foods()
	old := table.Get(food.Ref{Source: "usda", Release: "sr28", Code: "01009"})
	l := &recipes.Line{ID: "l", Text: "50 g cheddar", Grams: 50, GramsFrom: recipes.GramsWeight, Food: old.Ref, PartEaten: 1}
	if err := b.do(t, recipes.AddRecipe(&recipes.Recipe{ID: "r", Title: "Gratin", Servings: 4, Lines: []*recipes.Line{l}}, []*food.Food{old})); err != nil {
		t.Fatal(err)
	}
	link, err := b.RelinkPreview(l, b.Releases()[0])
	if err != nil {
		t.Fatal(err)
	}
	next := *l
	next.Food = link.To.Ref
	if err := b.do(t, recipes.SetLine("r", &next, []*food.Food{link.To})); err != nil {
		t.Fatal(err)
	}
	if got := b.Book().Recipe("r").Lines[0].Food.Release; got != "sr25" {
		t.Errorf("linked to %s", got)
	}
	b.must(t, b.Undo)
	if got := b.Book().Recipe("r").Lines[0].Food.Release; got != "sr28" {
		t.Errorf("after undo linked to %s", got)
	}
}

// TestALostTableIsTold and does not keep the other foods away.
func TestALostTableIsTold(t *testing.T) {
	b := starterBench(t)
	gone := &recipes.Release{Source: "usda", Release: "sr20", Name: "USDA Standard Reference, Release 20", Foods: 1, Block: "none", Digest: "d", Content: "c", Imported: noon}
	if err := b.do(t, recipes.ImportRelease(gone)); err != nil {
		t.Fatal(err)
	}
	if _, err := b.importTables(t, tableFile(t, "sr27", tableRows)); err != nil {
		t.Fatal(err)
	}
	if got := b.hits(t, "emu fillet"); got != "usda/sr27/17343" {
		t.Errorf("emu: %s", got)
	}
	if m := b.View().Message; !strings.Contains(m, "a photo or table this workbook refers to is not in it") || !strings.Contains(m, gone.Name) {
		t.Errorf("told %q", m)
	}
}
