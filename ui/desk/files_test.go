package desk

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

func TestAFailedOpenKeepsTheOpenWorkbook(t *testing.T) {
	b := newBenchWithWorkbook(t)
	path := b.View().Path
	if err := b.wait(t, func(then func(error)) { b.Open(filepath.Join(t.TempDir(), "nowhere.parewell"), then) }); err == nil {
		t.Fatal("opened nothing")
	}
	if b.View().Path != path {
		t.Errorf("now at %q", b.View().Path)
	}
	if err := b.do(t, loaf("r")); err != nil {
		t.Error(err)
	}
}

func TestOpeningAnotherWorkbookStartsAfresh(t *testing.T) {
	b := newBenchWithWorkbook(t)
	if err := b.do(t, loaf("r")); err != nil {
		t.Fatal(err)
	}
	first := b.View().Path
	b.Select(Selection{Page: PageVersions, Recipe: "r"})
	second := filepath.Join(t.TempDir(), "second.parewell")
	b.must(t, func(then func(error)) { b.Create(second, then) })
	if v := b.View(); v.Path != second || v.Name() != "second" || v.Selection != (Selection{}) || v.Undo != "" {
		t.Errorf("%+v", v)
	}
	b.must(t, func(then func(error)) { b.Open(first, then) })
	if v := b.View(); v.Book.Recipe("r") == nil || v.Undo != "Added Lemon loaf" {
		t.Errorf("%+v", v)
	}
}

func TestCloseWaitsForEveryEdit(t *testing.T) {
	b := newBenchWithWorkbook(t)
	path := b.View().Path
	hold := make(chan struct{})
	b.Do(func(book *recipes.Book) (recipes.Change, error) { <-hold; return loaf("r")(book) }, nil)
	b.Do(recipes.SetTitle("r", "Orange loaf"), nil)
	soon, cancel := context.WithCancel(context.Background())
	cancel()
	if err := b.CloseWait(soon); err == nil || !strings.Contains(err.Error(), "2 edits are still being written") {
		t.Errorf("got %v", err)
	}
	var late error
	b.Do(recipes.SetTitle("r", "Too late"), func(err error) { late = err })
	close(hold)
	if err := b.CloseWait(context.Background()); err != nil {
		t.Fatal(err)
	}
	for len(b.w.come) > 0 {
		b.w.next(t)
	}
	if late == nil {
		t.Error("an edit was taken after closing")
	}
	f, err := workbook.Open(path, workbook.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if r := f.Book().Recipe("r"); r == nil || r.Title != "Orange loaf" {
		t.Errorf("on disk: %+v", r)
	}
}

func TestReadOnlySaysSo(t *testing.T) {
	b := newBench(t, Options{})
	b.must(t, func(then func(error)) {
		b.Open(filepath.Join("..", "..", "testdata", "workbooks", "v1-newer.parewell"), then)
	})
	v := b.View()
	if why := words.Say("workbook.only.newer"); v.ReadOnly != why || v.Message != words.Say("desk.read-only", why) {
		t.Errorf("read-only %q, message %q", v.ReadOnly, v.Message)
	}
	if err := b.do(t, recipes.SetServings("gratin", 2)); err == nil {
		t.Error("it was written to")
	}
	b.must(t, func(then func(error)) { b.SaveCopy(filepath.Join(t.TempDir(), "copy.parewell"), then) })
}

func TestOpenedIsCalledOnceShown(t *testing.T) {
	var at []string
	b := newBench(t, Options{Opened: func(_ context.Context, f *workbook.File) { at = append(at, f.UUID()) }})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "x.parewell"), then) })
	b.must(t, func(then func(error)) { b.SaveCopy(filepath.Join(t.TempDir(), "copy.parewell"), then) })
	if len(at) != 1 || len(at[0]) != 36 {
		t.Errorf("opened %q", at)
	}
}

func TestHistoryCheckAndBlocks(t *testing.T) {
	b := newBenchWithWorkbook(t)
	photo := workbook.NewBlock("photo", []byte("x"))
	b.must(t, func(then func(error)) { b.DoAs(recipes.ByImport, loaf("r"), then, photo) })
	b.must(t, func(then func(error)) {
		b.History("r", 0, func(h []recipes.HistoryEntry, err error) {
			if len(h) != 1 || h[0].Origin != recipes.ByImport || !h[0].At.Equal(noon) {
				t.Errorf("%+v", h)
			}
			then(err)
		})
	})
	b.must(t, func(then func(error)) {
		b.Block(photo.Hash, func(p []byte, err error) {
			if string(p) != "x" {
				t.Errorf("%q", p)
			}
			then(err)
		})
	})
	b.must(t, func(then func(error)) {
		b.Check(func(found []*problem.Error, err error) {
			if len(found) != 0 {
				t.Errorf("%v", found)
			}
			then(err)
		})
	})
}

func TestWithoutAWorkbookNothingIsDone(t *testing.T) {
	b := newBench(t, Options{})
	err := b.do(t, loaf("r"))
	if err == nil || !strings.Contains(err.Error(), words.Say("desk.no-workbook")) {
		t.Errorf("got %v", err)
	}
	if b.Book() == nil {
		t.Error("no Book at all")
	}
	b.Refresh()
	if err := b.wait(t, func(then func(error)) { b.SaveCopy(filepath.Join(t.TempDir(), "x"), then) }); err == nil {
		t.Error("a copy of nothing was saved")
	}
}
