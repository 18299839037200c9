package food_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"parewell/recipes/food"
)

// root walks up to the folder with go.mod.
func root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

// sr28Rows reads the published abbreviated table by column name; the test is
// skipped where the reference folder is absent.
func sr28Rows(t testing.TB) []map[string]string {
	t.Helper()
	path := filepath.Join(root(t), "..", "shared", "reference", "usda-sr28", "ABBREV.csv")
	f, err := os.Open(path)
	if err != nil {
		t.Skip("the reference folder is not here; values cannot be compared")
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := make([]map[string]string, 0, len(all)-1)
	for _, line := range all[1:] {
		r := make(map[string]string, len(line))
		for i, name := range all[0] {
			r[name] = line[i]
		}
		out = append(out, r)
	}
	return out
}

// sr28 gives all 8,790 foods of SR28 under their published names.
func sr28(t testing.TB) []*food.Food {
	t.Helper()
	var out []*food.Food
	for _, r := range sr28Rows(t) {
		f := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: r["NDB_No"]}, Name: r["Shrt_Desc"]}
		if v, err := strconv.ParseFloat(r["Energ_Kcal"], 64); err == nil {
			f.Per100.Set(food.EnergyKcal, v)
		}
		out = append(out, f)
	}
	if len(out) != 8790 {
		t.Fatalf("%d foods in SR28, want 8790", len(out))
	}
	return out
}
