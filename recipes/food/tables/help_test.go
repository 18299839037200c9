package tables_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"parewell/recipes/food"
	"parewell/recipes/food/tables"
)

// reference is a file or folder of the published tables; the test is skipped
// where they are not.
func reference(t testing.TB, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
	path := filepath.Join(dir, "..", "shared", "reference", name)
	if _, err := os.Stat(path); err != nil {
		t.Skip("the reference folder is not here; the published tables cannot be read")
	}
	return path
}

// published reads a reference table whole, without a bad row.
func published(t testing.TB, name string) *tables.Import {
	t.Helper()
	im, err := tables.Read(context.Background(), reference(t, name), tables.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range im.Bad {
		t.Error(p)
	}
	return im
}

// files are the files of a table by name.
type files map[string]string

func (f files) fs() fstest.MapFS {
	out := fstest.MapFS{}
	for name, text := range f {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

// read reads a table that is well enough to be taken.
func read(t testing.TB, f files, name string) *tables.Import {
	t.Helper()
	im, err := tables.ReadFS(context.Background(), f.fs(), name, tables.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return im
}

// foodOf finds a food by its code.
func foodOf(t testing.TB, im *tables.Import, code string) *food.Food {
	t.Helper()
	for _, f := range im.Foods {
		if f.Code == code {
			return f
		}
	}
	t.Fatalf("no food %s among %d", code, len(im.Foods))
	return nil
}

// want holds a value per 100 g; NaN-free: known false for unknown.
func want(t testing.TB, f *food.Food, n food.Nutrient, v float64, known bool) {
	t.Helper()
	got, ok := f.Per100.Get(n)
	if ok != known || ok && !near(got, v) {
		t.Errorf("%s %s: %v (known %v), want %v (known %v)", f.Code, n.Key(), got, ok, v, known)
	}
}

func near(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }

// badRows are the bad rows as a person reads them.
func badRows(im *tables.Import) []string {
	var out []string
	for _, p := range im.Bad {
		out = append(out, p.Error())
	}
	return out
}

// head is the header of ABBREV.csv (USDA SR28) as far as tests need it.
const head = "NDB_No,Shrt_Desc,Water_(g),Energ_Kcal,Protein_(g),Lipid_Tot_(g),Ash_(g),Carbohydrt_(g),Fiber_TD_(g),Sugar_Tot_(g)," +
	"Sodium_(mg),FA_Sat_(g),GmWt_1,GmWt_Desc1,GmWt_2,GmWt_Desc2,Refuse_Pct\n"

// butter and cheddar are rows under head, of USDA SR28.
const (
	butter  = `01001,"BUTTER,WITH SALT",15.87,717,0.85,81.11,2.11,0.06,0,0.06,643,51.368,5,"1 pat,  (1"" sq, 1/3"" high)",14.2,1 tbsp,0` + "\n"
	cheddar = `01009,"CHEESE,CHEDDAR",36.75,404,22.87,33.31,3.71,3.09,0,0.48,653,18.867,132,"1 cup, diced",,,0` + "\n"
)

// filler is n good rows under head, so that one bad row among them is few.
func filler(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Replace(butter, "01001", "9"+string(rune('0'+i/100%10))+string(rune('0'+i/10%10))+string(rune('0'+i%10))+"0", 1))
	}
	return b.String()
}
