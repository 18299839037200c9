package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

func (k *kitchenWindow) openSwaps() *swapsPage {
	k.openRecipe(0, tabSwaps)
	return k.swaps()
}

// version is the version of a letter as the book has it now.
func (p *swapsPage) version(letter string) *recipes.Version {
	for _, v := range p.w.book().Versions(p.recipe) {
		if v.Letter == letter {
			return v
		}
	}
	return nil
}

func (p *swapsPage) rowOf(sw *recipes.Swap) int {
	for i, s := range p.sheet.Swaps {
		if s != nil && s.ID == sw.ID {
			return i
		}
	}
	return -1
}

func TestSpaceTicksAndTheNumbersFollow(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	cream := p.swapNamed("fat-free soft cheese for two thirds of the double cream")
	a := p.version("A")
	before := p.table.Data().Columns[1].Sub
	k.win.Canvas().Focus(p.table)
	p.table.Select(p.rowOf(cream), 1)
	if got := k.status.Message(); !strings.Contains(got, "Either/or") {
		t.Errorf("on the box the status line says %q", got)
	}
	p.table.TypedRune(' ')
	k.settle()
	if !p.version("A").Has(cream.ID) {
		t.Fatal("Space did not tick")
	}
	yogurt := p.swapNamed("strained yogurt for half the double cream")
	if p.version("A").Has(yogurt.ID) {
		t.Error("the either/or swap is still on")
	}
	if got := k.status.Message(); !strings.Contains(got, yogurt.Name) {
		t.Errorf("the status line says %q", got)
	}
	want := sheets.Amount(nutrition.Of(k.book().Draft(k.recipe(), p.version("A")), k.book().Food).PerServing(food.EnergyKcal), food.EnergyKcal)
	if got := p.table.Data().Columns[1].Sub; got != want || got == before {
		t.Errorf("heading says %s, want %s (before %s)", got, want, before)
	}
	if p.detail.swap.ID != cream.ID || !p.detail.view.Visible() || p.ideas.view.Visible() {
		t.Error("the card does not show the chosen swap")
	}
	k.undo()
	k.settle()
	if v := p.version("A"); v.Has(cream.ID) || !v.Has(a.Swaps[0]) {
		t.Error("undo did not bring the ticks back")
	}
}

func TestIdeasAreFoundByKeyboardAndTaken(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	k.until("ideas are there", func() bool { return p.ideas.shown.recipe != nil })
	first := p.sources.line
	k.win.Canvas().Focus(p.sources.list)
	p.sources.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	k.settle()
	if p.sources.line == first || !p.ideas.view.Visible() {
		t.Fatal("Down did not choose the next ingredient")
	}
	k.until("ideas for it are there", func() bool { return p.ideas.shown.line == p.sources.line && len(p.ideas.shown.ideas) > 0 })
	cards := sheets.Units{}.IdeaCards(p.ideas.found.ideas, k.book().Swaps(p.recipe))
	var card sheets.IdeaCard
	for _, c := range cards {
		if c.Taken == nil {
			card = c
			break
		}
	}
	if card.Key == "" {
		t.Fatal("every idea is taken")
	}
	p.ideas.into.SetKey(string(p.version("B").ID))
	p.ideas.cards()
	k.pins["idea.tick:"+card.Key].(*parts.Button).Press()
	k.settle()
	made := p.swapNamed(card.Title)
	if made == nil || !p.version("B").Has(made.ID) {
		t.Fatalf("%q was not added and ticked in B", card.Title)
	}
	if again := (sheets.Units{}).IdeaCards(p.ideas.found.ideas, k.book().Swaps(p.recipe)); !anyTaken(again, made.ID) {
		t.Error("the idea is not marked as taken")
	}
	n := len(k.book().Versions(p.recipe))
	p.ideas.take(cards[len(cards)-1], newVersionKey)
	k.settle()
	if versions := k.book().Versions(p.recipe); len(versions) != n+1 || len(versions[n].Swaps) != 1 {
		t.Errorf("no new version with the idea on: %d versions", len(versions))
	} else if k.settle(); p.ideas.into.Key() != string(versions[n].ID) {
		t.Errorf("the next idea would go into %q, not into the version just made", p.ideas.into.Key())
	}
}

func anyTaken(cards []sheets.IdeaCard, id recipes.ID) bool {
	for _, c := range cards {
		if c.Taken != nil && c.Taken.ID == id {
			return true
		}
	}
	return false
}

func TestMakingAndChangingASwapByHand(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	k.editSwap(nil)
	k.pins["swapedit.name"].(*parts.Entry).SetText("less cream")
	value := k.pins["swapedit.value"].(*parts.Entry)
	value.SetText("!!")
	k.confirm()
	if p.swapNamed("less cream") != nil {
		t.Fatal("nonsense was saved")
	}
	value.SetText("-30 %")
	k.confirm()
	k.settle()
	made := p.swapNamed("less cream")
	if made == nil || made.Ops[0].Kind != recipes.OpMultiply || made.Ops[0].Factor < .699 || made.Ops[0].Factor > .701 {
		t.Fatalf("made %+v", made)
	}
	k.editSwap(made)
	k.pins["swapedit.name"].(*parts.Entry).SetText("a good deal less cream")
	k.pins["swapedit.value"].(*parts.Entry).SetText("half")
	k.confirm()
	k.settle()
	again := k.book().Swap(p.recipe, made.ID)
	if again.Name != "a good deal less cream" || again.Ops[0].Factor < .499 || again.Ops[0].Factor > .501 {
		t.Errorf("changed to %+v", again)
	}
	k.swapStrengths(again)
	k.confirm()
	k.settle()
	ladder := 0
	for _, s := range k.book().Swaps(p.recipe) {
		if s.Ladder == sheets.LadderOf(again) {
			ladder++
		}
	}
	if ladder != 4 {
		t.Errorf("%d strengths, want the first and three more", ladder)
	}
	p.remove(k.book().Swap(p.recipe, made.ID))
	k.settle()
	if k.book().Swap(p.recipe, made.ID) != nil {
		t.Error("not removed")
	}
}

func TestTheKeyboardStaysInTheEditor(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	k.editSwap(nil)
	e := k.win.Canvas().Focused()
	if e != fyne.Focusable(k.pins["swapedit.name"].(*parts.Entry)) {
		t.Fatalf("the name has not the keyboard but %T", e)
	}
	k.win.Canvas().FocusNext()
	kind, ok := k.win.Canvas().Focused().(*parts.Picker)
	if !ok {
		t.Fatalf("Tab leads to %T", k.win.Canvas().Focused())
	}
	kind.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown}) // the next choice
	again, ok := k.win.Canvas().Focused().(*parts.Picker)
	if !ok || again.Key() != string(sheets.ReplaceWith) {
		t.Fatalf("after choosing, the keyboard is at %T", k.win.Canvas().Focused())
	}
	k.pins["swapedit.line"].(*parts.Entry).SetText("100 g Greek yogurt, plain, nonfat")
	k.confirm()
	k.settle()
	made := k.book().Swaps(p.recipe)
	last := made[len(made)-1]
	if last.Ops[0].Kind != recipes.OpExchange || last.Ops[0].Share != 1 || last.Ops[0].Lines[0].Grams != 100 || last.Name == "" {
		t.Errorf("made %+v", last)
	}
	if k.book().Food(last.Ops[0].Lines[0].Food) == nil {
		t.Error("the food is not pinned")
	}
}

func TestSavingAnUntouchedSwapChangesNothing(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	for _, sw := range k.book().Swaps(p.recipe) {
		before := nutrition.Of(recipes.Compose(k.recipe(), nil, []*recipes.Swap{sw}), k.book().Food).Total(food.EnergyKcal)
		k.editSwap(sw)
		k.confirm()
		k.settle()
		again := k.book().Swap(p.recipe, sw.ID)
		after := nutrition.Of(recipes.Compose(k.recipe(), nil, []*recipes.Swap{again}), k.book().Food).Total(food.EnergyKcal)
		if before.Amount != after.Amount || len(again.Ops) != len(sw.Ops) || again.Name != sw.Name {
			t.Errorf("%s: %v kcal became %v", sw.Name, before.Amount, after.Amount)
		}
	}
}

func TestJoining(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	oil, crumb := p.swapNamed("olive oil for the butter under the leeks"), p.swapNamed("crumbs brushed with oil, not butter")
	k.joinSwaps(oil)
	box := k.pins["join:"+crumb.Name].(*parts.Check)
	box.MouseDown(nil)
	if got := k.pins["join.name"].(*parts.Entry).Text; got != oil.Name+" and "+crumb.Name {
		t.Errorf("name %q", got)
	}
	k.confirm()
	k.settle()
	if k.book().Swap(p.recipe, crumb.ID) != nil || len(k.book().Swap(p.recipe, oil.ID).Ops) != len(oil.Ops)+len(crumb.Ops) {
		t.Error("not joined")
	}
}

func TestALighterDraftBecomesAVersion(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	n, swaps := len(k.book().Versions(p.recipe)), len(k.book().Swaps(p.recipe))
	d := k.openDraft(lighter)
	if len(d.all) < 5 || len(d.notes.Objects) == 0 {
		t.Fatalf("%d differences, %d notes", len(d.all), len(d.notes.Objects))
	}
	d.flip(0)
	d.rename(1, 0, "fewer leeks")
	d.table.Select(2, 0)
	d.joinUp()
	taken := sheets.TakenOf(d.all)
	d.dialog.Confirm()
	k.settle()
	versions := k.book().Versions(p.recipe)
	if len(versions) != n+1 {
		t.Fatalf("%d versions", len(versions))
	}
	made := versions[n]
	if len(made.Swaps) != len(taken) || made.Servings != 4 || len(k.book().Swaps(p.recipe)) != swaps+len(taken) {
		t.Errorf("version %+v with %d taken", made, len(taken))
	}
	if s := k.book().Swap(p.recipe, taken[0].ID); !strings.HasPrefix(s.Name, "fewer leeks and ") {
		t.Errorf("joined as %q", s.Name)
	}
	k.undo()
	k.settle()
	if len(k.book().Versions(p.recipe)) != n || len(k.book().Swaps(p.recipe)) != swaps {
		t.Errorf("one undo does not take the draft back: %s", k.status.Message())
	}
}

func TestNothingIsSavedOfADraftLeft(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	book := k.book()
	for _, text := range []string{lighter, "   ", "nothing like a recipe"} {
		d := k.showDraft(k.recipe())
		d.text.SetText(text)
		d.now()
		k.settle()
		d.dialog.Close()
		k.settle()
	}
	if k.book() != book || p.recipe != k.recipe().ID {
		t.Error("the book changed")
	}
}

func TestNotebookShowsWhatWasDone(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	p.toggle(0, 1)
	k.settle()
	p.toggle(0, 1)
	k.settle()
	k.undo()
	k.settle()
	k.goTo(place{page: pageRecipe, recipe: p.recipe, tab: tabNotebook})
	k.settle()
	n := k.pages[pageRecipe].(*recipePage).inner[tabNotebook].(*notebookPage)
	rows := n.table.Data().Rows
	if len(rows) != 3 || rows[0].Kind != parts.RowSection || !rows[1].Cells[1].Struck || rows[2].Cells[1].Struck {
		t.Fatalf("rows %+v", rows)
	}
	n.undo.Press()
	k.settle()
	if rows = n.table.Data().Rows; !rows[2].Cells[1].Struck {
		t.Error("undo is not shown")
	}
}

func TestEmptySwapsPage(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := &recipes.Recipe{ID: k.newID(), Title: "Toast", Servings: 1, Edition: 1}
	k.do(recipes.AddRecipe(r, nil))
	k.settle()
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabSwaps})
	k.settle()
	p := k.swaps()
	if !p.noSwaps.Visible() || p.tableIn.Visible() || p.noTicks.Visible() || !p.sources.empty.Visible() {
		t.Error("an empty page does not say what to do")
	}
	k.picture("swaps-empty")
	l, foods, err := k.readLine("50 g butter", "")
	if err != nil {
		t.Fatal(err)
	}
	l.ID = k.newID()
	k.do(recipes.AddLine(r.ID, l, "end", foods))
	k.settle()
	k.picture("swaps-empty-butter")
	k.until("ideas for butter", func() bool { return len(p.ideas.shown.ideas) > 0 })
	p.ideas.take(sheets.Units{}.IdeaCards(p.ideas.found.ideas, nil)[0], "")
	k.settle()
	if p.noSwaps.Visible() || !p.tableIn.Visible() || !p.noTicks.Visible() {
		t.Error("swaps without a version: the page does not say so")
	}
	k.picture("swaps-no-versions")
}

// BenchmarkSwapsShow is every number of the page and its card worked out and
// put into the widgets. The painting is left out: the test's painter is far
// slower than a window's.
func BenchmarkSwapsShow(b *testing.B) {
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	p.choose(p.sheet.Swaps[0].ID)
	for b.Loop() {
		p.show()
	}
}

// BenchmarkSwapsToggle is a tick with the commit to disk and all numbers shown.
func BenchmarkSwapsToggle(b *testing.B) {
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	p := k.openSwaps()
	p.choose(p.sheet.Swaps[2].ID)
	for b.Loop() {
		on := p.version("A").Has(p.sheet.Swaps[2].ID)
		p.toggle(2, 1)
		k.until("ticked", func() bool { return p.version("A").Has(p.sheet.Swaps[2].ID) != on })
	}
}
