package archive

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"parewell/recipes"
	"parewell/recipes/workbook"
)

// everyWorkbook are workbooks of all sorts by name: the demo with a photo, a table,
// people and their details; tastings planned, under way and closed; the files of
// every format as they were written, damaged ones recovered, and newer ones.
func everyWorkbook(t *testing.T) map[string]*workbook.File {
	t.Helper()
	all := map[string]*workbook.File{"the demo with all there is": harbour(t)}
	for _, state := range []recipes.TastingState{recipes.TastingPlanned, recipes.TastingServing, recipes.TastingClosed} {
		all["tastings "+string(state)] = evening(t, state, [3]recipes.ID{"b", "c", "a"}, 1)
	}
	kept, err := filepath.Glob(filepath.Join("..", "..", "testdata", "workbooks", "*.parewell"))
	if err != nil || len(kept) < 6 {
		t.Fatalf("workbooks that are kept: %q %v", kept, err)
	}
	for _, from := range kept {
		b, err := os.ReadFile(from)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), filepath.Base(from))
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
		if ok, _ := filepath.Match("*-damaged.parewell", filepath.Base(from)); ok {
			path = recovered(t, path)
		}
		all[filepath.Base(from)] = open(t, path)
	}
	return all
}

func recovered(t *testing.T, bad string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "recovered.parewell")
	if _, err := workbook.Recover(ctx, bad, path, clock); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestEveryWorkbookGoesOutAndInByteForByte: out, in and out again gives the very
// same files, each byte of each, with people and without; with them it is the same
// book too, and the new workbook is sound.
func TestEveryWorkbookGoesOutAndInByteForByte(t *testing.T) {
	for name, f := range everyWorkbook(t) {
		for _, people := range []bool{true, false} {
			t.Run(fmt.Sprintf("%s, people %t", name, people), func(t *testing.T) {
				first := out(t, f, people)
				g := in(t, first)
				wantSameFiles(t, first, out(t, g, people))
				if people {
					wantSameBook(t, f.Book(), g.Book())
				}
				if found, err := g.Check(ctx); err != nil || len(found) > 0 {
					t.Errorf("check: %v %v", found, err)
				}
			})
		}
	}
}

func wantSameFiles(t *testing.T, first, second fstest.MapFS) {
	t.Helper()
	if len(first) != len(second) {
		t.Errorf("%d files, then %d", len(first), len(second))
	}
	for name, file := range first {
		if second[name] == nil || !bytes.Equal(file.Data, second[name].Data) {
			t.Errorf("%s differs", name)
		}
	}
}
