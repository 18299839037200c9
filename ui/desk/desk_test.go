package desk

import (
	"context"
	"errors"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

var noon = time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)

// window stands for the window's thread: calls wait in it until run.
type window struct {
	mu    sync.Mutex
	calls []func()
	come  chan struct{}
}

func newWindow() *window { return &window{come: make(chan struct{}, 1000)} }

func (w *window) post(f func()) {
	w.mu.Lock()
	w.calls = append(w.calls, f)
	w.mu.Unlock()
	w.come <- struct{}{}
}

// next waits for a call and runs it.
func (w *window) next(t *testing.T) {
	t.Helper()
	select {
	case <-w.come:
	case <-time.After(10 * time.Second):
		t.Fatal("no call came")
	}
	w.mu.Lock()
	f := w.calls[0]
	w.calls = w.calls[1:]
	w.mu.Unlock()
	f()
}

// bench is a desk with a new workbook open and everything it shows.
type bench struct {
	*Desk
	w     *window
	shown []View
}

func newBench(t *testing.T, o Options) *bench {
	t.Helper()
	b := &bench{w: newWindow()}
	o.Post, o.Now = b.w.post, func() time.Time { return noon }
	if o.StateDir == "" {
		o.StateDir = t.TempDir()
	}
	b.Desk = New(o)
	b.Watch(func(v View) { b.shown = append(b.shown, v) })
	t.Cleanup(func() {
		if err := b.CloseWait(context.Background()); err != nil {
			t.Error(err)
		}
	})
	return b
}

func newBenchWithWorkbook(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, Options{})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "supper.parewell"), then) })
	return b
}

// wait has act done and returns what it came to, on the window's thread.
func (b *bench) wait(t *testing.T, act func(then func(error))) error {
	t.Helper()
	var out error
	called := false
	act(func(err error) { out, called = err, true })
	for !called {
		b.w.next(t)
	}
	return out
}

func (b *bench) must(t *testing.T, act func(then func(error))) {
	t.Helper()
	if err := b.wait(t, act); err != nil {
		t.Fatal(err)
	}
}

func (b *bench) do(t *testing.T, v recipes.Verb) error {
	t.Helper()
	return b.wait(t, func(then func(error)) { b.Do(v, then) })
}

func loaf(id recipes.ID) recipes.Verb {
	return recipes.AddRecipe(&recipes.Recipe{ID: id, Title: "Lemon loaf", Servings: 8}, nil)
}

func TestDoShowsTheNewBookThenAnswers(t *testing.T) {
	b := newBenchWithWorkbook(t)
	shown := len(b.shown)
	var order []string
	b.Watch(func(v View) { order = append(order, "shown "+v.Book.Recipe("r").Title) })
	b.must(t, func(then func(error)) {
		b.Do(loaf("r"), func(err error) { order = append(order, "answered"); then(err) })
	})
	if !reflect.DeepEqual(order, []string{"shown Lemon loaf", "answered"}) {
		t.Errorf("got %v after %d", order, shown)
	}
	f, err := workbook.Open(b.View().Path, workbook.Options{ReadOnly: true})
	if err != nil || f.Book().Recipe("r") == nil {
		t.Error("the edit was answered before it was on disk", err)
	}
	f.Close()
}

func TestEditsRunInOrderAgainstTheNewestBook(t *testing.T) {
	b := newBenchWithWorkbook(t)
	n := 0
	b.Do(loaf("r"), nil)
	for i := range 20 {
		b.Do(func(book *recipes.Book) (recipes.Change, error) {
			return recipes.SetServings("r", book.Recipe("r").Servings+1)(book)
		}, func(err error) {
			if err != nil {
				t.Error(err)
			}
			if n != i {
				t.Errorf("answer %d came as %d", i, n)
			}
			n++
		})
	}
	for n < 20 {
		b.w.next(t)
	}
	if s := b.Book().Recipe("r").Servings; s != 28 {
		t.Errorf("%v servings", s)
	}
	if p := b.View().Pending; p != 0 {
		t.Errorf("%d pending", p)
	}
}

func TestPendingCountsEditsNotYetOnDisk(t *testing.T) {
	b := newBenchWithWorkbook(t)
	hold, go_ := make(chan struct{}), make(chan struct{})
	b.Do(func(book *recipes.Book) (recipes.Change, error) {
		close(hold)
		<-go_
		return loaf("r")(book)
	}, nil)
	<-hold
	b.Do(recipes.SetTitle("r", "Orange loaf"), nil)
	if p := b.View().Pending; p != 2 {
		t.Errorf("%d pending, want 2", p)
	}
	if b.Book().Recipe("r") != nil {
		t.Error("shown before it was written")
	}
	close(go_)
	b.must(t, func(then func(error)) { b.Do(recipes.SetServings("r", 9), then) })
	if p := b.View().Pending; p != 0 {
		t.Errorf("%d pending, want 0", p)
	}
}

func TestARefusedEditShowsNothingNewAndSaysWhy(t *testing.T) {
	b := newBenchWithWorkbook(t)
	before := b.Book()
	err := b.do(t, recipes.SetTitle("nobody", "x"))
	var p *problem.Error
	if !errors.As(err, &p) || p.What != words.Say("error.recipe-gone") {
		t.Errorf("got %v", err)
	}
	if b.Book() != before {
		t.Error("the Book changed")
	}
}

func TestUndoAndRedoAreNamedAndTold(t *testing.T) {
	b := newBenchWithWorkbook(t)
	if err := b.do(t, loaf("r")); err != nil {
		t.Fatal(err)
	}
	if v := b.View(); v.Undo != "Added Lemon loaf" || v.Redo != "" {
		t.Errorf("undo %q redo %q", v.Undo, v.Redo)
	}
	b.must(t, b.Undo)
	if v := b.View(); v.Undo != "" || v.Redo != "Added Lemon loaf" || v.Message != "Undone: Added Lemon loaf" || v.Book.Recipe("r") != nil {
		t.Errorf("after undo: %+v", v)
	}
	b.must(t, b.Redo)
	if v := b.View(); v.Message != "Done again: Added Lemon loaf" || v.Book.Recipe("r") == nil {
		t.Errorf("after redo: %+v", v)
	}
	if err := b.wait(t, b.Redo); err == nil {
		t.Error("redo of nothing")
	}
}

func TestSelectionLeavesWhatIsGone(t *testing.T) {
	b := newBenchWithWorkbook(t)
	if err := b.do(t, loaf("r")); err != nil {
		t.Fatal(err)
	}
	if err := b.do(t, recipes.AddVersion("r", "a", "", "")); err != nil {
		t.Fatal(err)
	}
	b.Select(Selection{Page: PageVersions, Recipe: "r", Version: "a", Swap: "none"})
	b.w.next(t)
	if s := b.shown[len(b.shown)-1].Selection; s != (Selection{Page: PageVersions, Recipe: "r", Version: "a"}) {
		t.Errorf("selection %+v", s)
	}
	b.must(t, b.Undo)
	if s := b.View().Selection; s.Version != "" || s.Recipe != "r" {
		t.Errorf("after the version went: %+v", s)
	}
	b.must(t, b.Undo)
	if s := b.View().Selection; s != (Selection{Page: PageRecipes}) {
		t.Errorf("after the recipe went: %+v", s)
	}
}

func TestWhatAnotherProgramWroteIsToldAndKept(t *testing.T) {
	b := newBenchWithWorkbook(t)
	other, err := workbook.Open(b.View().Path, workbook.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	apply := func(v recipes.Verb) {
		t.Helper()
		if _, err := other.Apply(context.Background(), v, recipes.ByOther); err != nil {
			t.Fatal(err)
		}
	}
	apply(loaf("theirs"))
	b.Refresh()
	b.w.next(t)
	if v := b.View(); v.Book.Recipe("theirs") == nil || v.Message != "Another program changed the workbook: Added Lemon loaf" {
		t.Errorf("after refresh: %q", v.Message)
	}
	apply(recipes.SetTitle("theirs", "Theirs"))
	apply(recipes.SetServings("theirs", 3))
	if err := b.do(t, loaf("ours")); err != nil {
		t.Fatal(err)
	}
	v := b.View()
	if v.Book.Recipe("theirs").Title != "Theirs" || v.Book.Recipe("ours") == nil {
		t.Error("something was lost")
	}
	if want := "Another program changed the workbook: Set the original to 3 servings and 1 more"; v.Message != want {
		t.Errorf("told %q, want %q", v.Message, want)
	}
}

func TestApplyWaitsForTheDisk(t *testing.T) {
	b := newBenchWithWorkbook(t)
	if err := b.Apply(context.Background(), recipes.ByPanelist, loaf("r")); err != nil {
		t.Fatal(err)
	}
	f, err := workbook.Open(b.View().Path, workbook.Options{ReadOnly: true})
	if err != nil || f.Book().Recipe("r") == nil {
		t.Error("not on disk", err)
	}
	f.Close()
	if err := b.Apply(context.Background(), recipes.ByPanelist, recipes.SetTitle("none", "x")); err == nil {
		t.Error("a refused edit was answered as written")
	}
}

func TestBackgroundDropsWhatIsOvertaken(t *testing.T) {
	b := newBenchWithWorkbook(t)
	started, cancelled := make(chan struct{}), make(chan struct{})
	Background(b.Desk, "trade-offs", func(ctx context.Context, _ *recipes.Book) int {
		close(started)
		<-ctx.Done()
		close(cancelled)
		return 1
	}, func(int) { t.Error("the overtaken answer was shown") })
	<-started
	var got []int
	Background(b.Desk, "trade-offs", func(context.Context, *recipes.Book) int { return 2 }, func(n int) { got = append(got, n) })
	Background(b.Desk, "another", func(context.Context, *recipes.Book) int { return 3 }, func(n int) { got = append(got, n) })
	<-cancelled
	for range 3 {
		b.w.next(t)
	}
	if len(got) != 2 || got[0]+got[1] != 5 {
		t.Errorf("got %v", got)
	}
}

func TestBackgroundSeesTheBookItStartedWith(t *testing.T) {
	b := newBenchWithWorkbook(t)
	book := b.Book()
	var saw *recipes.Book
	Background(b.Desk, "x", func(_ context.Context, at *recipes.Book) *recipes.Book { return at }, func(at *recipes.Book) { saw = at })
	b.w.next(t)
	if saw != book {
		t.Error("another Book")
	}
}

func TestFoodsAreTheStartersAndTheWorkbooks(t *testing.T) {
	read := 0
	salt := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: "02047"}, Name: "salt"}
	b := newBench(t, Options{Starter: func() ([]*food.Food, error) { read++; return []*food.Food{salt}, nil }})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "x.parewell"), then) })
	first, err := b.Foods()
	if err != nil {
		t.Fatal(err)
	}
	own := &food.Food{Ref: food.Ref{Source: "own", Code: "1"}, Name: "our double cream"}
	if err := b.do(t, recipes.PutFood(own)); err != nil {
		t.Fatal(err)
	}
	if err := b.do(t, recipes.PutFood(salt)); err != nil { // pinned: the starter's own row
		t.Fatal(err)
	}
	second, err := b.Foods()
	if err != nil {
		t.Fatal(err)
	}
	third, _ := b.Foods()
	if first.Len() != 1 || second.Len() != 2 || second.Get(own.Ref) == nil || third != second || read != 1 {
		t.Errorf("%d, %d foods, starter read %d times", first.Len(), second.Len(), read)
	}
}

func TestAFailureNobodyWaitsForIsTold(t *testing.T) {
	b := newBenchWithWorkbook(t)
	b.Do(recipes.SetTitle("nobody", "x"), nil)
	b.w.next(t)
	if m := b.View().Message; !strings.HasPrefix(m, words.Say("error.recipe-gone")) {
		t.Errorf("told %q", m)
	}
}
