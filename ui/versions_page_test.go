package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"parewell/recipes"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// cellAt finds the row of a key and the column of a version's letter ("" is
// the original).
func (k *kitchenWindow) cellAt(key, letter string) (row, col int) {
	k.t.Helper()
	p := k.versions()
	row, col = -1, 1
	for r, have := range p.keys {
		if have == key {
			row = r
		}
	}
	for i, v := range p.bench.Versions {
		if v != nil && v.Letter == letter {
			col = i + 1
		}
	}
	if row < 0 {
		k.t.Fatalf("no row %q", key)
	}
	return row, col
}

func (k *kitchenWindow) cell(key, letter string) parts.Cell {
	k.t.Helper()
	row, col := k.cellAt(key, letter)
	return k.versions().table.Data().Rows[row].Cells[col]
}

// typeIn types over a field as a person does and presses Enter.
func (k *kitchenWindow) typeIn(key, letter, text string) {
	k.t.Helper()
	k.beginTyping(key, letter, text)
	k.press(fyne.KeyReturn)
	k.settle()
}

func (k *kitchenWindow) beginTyping(key, letter, text string) {
	k.t.Helper()
	p := k.versions()
	p.table.Select(k.cellAt(key, letter))
	k.win.Canvas().Focus(p.table)
	for _, r := range text {
		k.win.Canvas().Focused().TypedRune(r)
	}
}

func (k *kitchenWindow) press(name fyne.KeyName) {
	k.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
}

// lineKey finds the original's ingredient whose text holds words.
func lineKey(t testing.TB, r *recipes.Recipe, words string) string {
	t.Helper()
	for _, l := range r.Lines {
		if strings.Contains(l.Text, words) {
			return string(l.ID)
		}
	}
	t.Fatalf("no ingredient with %q", words)
	return ""
}

func TestTypingOverMakesASwap(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	butter := lineKey(t, r, "butter")
	before := len(k.book().Swaps(r.ID))
	rows := []struct{ name, typed, want string }{
		{"another amount", "20 g", "20 g"},
		{"a bare number", "25", "25 g"},
		{"half of what is there", "half", "12.5 g"},
		{"another food", "20 g olive oil", "20 g olive oil"},
		{"the food it had", "30 g salted butter", "30 g"},
		{"leave out", "-", "left out"},
		{"from left out to an amount", "40 g", "40 g"},
		{"back by equals", "=", "="},
	}
	for _, row := range rows {
		k.typeIn(butter, "A", row.typed)
		if got := k.cell(butter, "A").Text; got != row.want {
			t.Errorf("%s: %q, want %q (%s)", row.name, got, row.want, k.status.Message())
		}
	}
	if n := len(k.book().Swaps(r.ID)); n != before+1 {
		t.Errorf("%d swaps more, want one that was changed each time", n-before)
	}
}

func TestTypingNonsenseKeepsWhatWasThere(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	butter := lineKey(t, r, "butter")
	undo := k.view.Undo
	for _, typed := range []string{"20 g oil and 10 g butter", "???", "10 g zzyzxqq"} {
		k.typeIn(butter, "A", typed)
		if got := k.cell(butter, "A").Text; got != "=" {
			t.Errorf("%q left %q", typed, got)
		}
		if m := k.status.Message(); !strings.Contains(m, typed[:3]) && !strings.Contains(m, "zzyzxqq") {
			t.Errorf("%q: the status line says %q", typed, m)
		}
	}
	k.beginTyping(butter, "A", "5 g")
	k.press(fyne.KeyEscape)
	k.settle()
	if k.cell(butter, "A").Text != "=" || k.view.Undo != undo {
		t.Error("Escape should leave everything as it was")
	}
}

func TestUndoOfTypingOver(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	butter := lineKey(t, r, "butter")
	energy := k.cell("energy_kcal", "A").Text
	k.typeIn(butter, "A", "10 g")
	if k.cell("energy_kcal", "A").Text == energy {
		t.Error("the energy should have moved")
	}
	k.undo()
	k.settle()
	if k.cell("energy_kcal", "A").Text != energy || k.cell(butter, "A").Text != "=" {
		t.Error("undo should bring both back")
	}
}

func TestTypingOverTheOriginal(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	flour := lineKey(t, r, "plain flour")
	k.typeIn(flour, "", "30 g")
	l := k.book().Recipe(r.ID).Line(recipes.ID(flour))
	if l.Text != "30 g plain flour" || l.Grams != 30 {
		t.Errorf("the original has %q, %v g", l.Text, l.Grams)
	}
}

func TestFieldsOfSeveralThings(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	cream := lineKey(t, r, "double cream")
	if got := k.cell(cream, "A").Text; got != "150 g + 150 g strained yogurt + 2.7 g cornflour" {
		t.Fatalf("A has %q", got)
	}
	k.typeIn(cream, "A", "150 g + 100 g strained yogurt + 2.7 g cornflour")
	if got := k.cell(cream, "A").Text; got != "150 g + 100 g strained yogurt + 2.7 g cornflour" {
		t.Errorf("one changed: %q (%s)", got, k.status.Message())
	}
	if got := k.cell(cream, "B").Text; !strings.Contains(got, "150 g strained yogurt") {
		t.Errorf("B shares the swap and should keep it: %q", got)
	}
	k.typeIn(cream, "A", "120 g + 100 g strained yogurt + 2.7 g cornflour")
	if got := k.cell(cream, "A").Text; got != "120 g + 100 g strained yogurt + 2.7 g cornflour" {
		t.Errorf("the original's part changed: %q (%s)", got, k.status.Message())
	}
	k.typeIn(cream, "A", "100 g")
	if got := k.cell(cream, "A").Text; !strings.HasPrefix(got, "120 g + ") {
		t.Errorf("an amount alone cannot say of which: %q", got)
	}
	before := k.cell(cream, "A").Text
	k.typeIn(cream, "A", "200 g whole milk")
	if got := k.cell(cream, "A").Text; got != "200 g whole milk" {
		t.Errorf("one for all: %q (%s)", got, k.status.Message())
	}
	k.undo()
	k.settle()
	if got := k.cell(cream, "A").Text; got != before {
		t.Errorf("undone: %q, want %q (%s)", got, before, k.status.Message())
	}
	k.typeIn(cream, "A", "200 g whole milk")
	k.typeIn(cream, "A", "=")
	if got := k.cell(cream, "A").Text; got != "=" {
		t.Errorf("back: %q", got)
	}
}

func TestAddingInAVersion(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	k.typeIn(sheets.AddLineKey, "A", "5 g cornflour")
	found := ""
	p := k.versions()
	for _, key := range p.keys {
		if p.bench.KindOf(key) == sheets.AddedRow && k.cell(key, "A").Text == "5 g cornflour" {
			found = key
		}
	}
	if found == "" {
		t.Fatalf("nothing was added (%s)", k.status.Message())
	}
	if k.cell(found, "B").Text != "" {
		t.Error("B should not have it")
	}
	k.typeIn(found, "A", "8 g")
	if got := k.cell(found, "A").Text; got != "8 g cornflour" {
		t.Errorf("changed to %q (%s)", got, k.status.Message())
	}
	n := len(k.book().Recipe(r.ID).Lines)
	k.typeIn(sheets.AddLineKey, "", "1 egg")
	if got := len(k.book().Recipe(r.ID).Lines); got != n+1 {
		t.Errorf("the original has %d ingredients, want %d", got, n+1)
	}
}

func TestTypingOverSteps(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	k.versions().options.AllSteps = true
	k.versions().showTable()
	step := r.Steps[0]
	k.typeIn(string(step.ID), "A", "Sweat slowly.")
	if got := k.cell(string(step.ID), "A").Text; got != "Sweat slowly." {
		t.Errorf("A has %q (%s)", got, k.status.Message())
	}
	k.typeIn(string(step.ID), "A", "=")
	if got := k.cell(string(step.ID), "A").Text; got != "=" {
		t.Errorf("back: %q", got)
	}
	k.typeIn(string(step.ID), "", "Begin.")
	if got := k.book().Recipe(r.ID).Steps[0].Text; got != "Begin." {
		t.Errorf("the original has %q", got)
	}
	k.typeIn(sheets.AddStepKey, "A", "Rest ten minutes.")
	last := k.book().Draft(k.book().Recipe(r.ID), k.versions().bench.Versions[1])
	if s := last.Steps[len(last.Steps)-1]; s.Texts[0] != "Rest ten minutes." {
		t.Errorf("the last step is %q", s.Texts)
	}
}

func TestTogglesAndBasis(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	p := k.versions()
	few := len(p.keys)
	serving := k.cell("energy_kcal", "").Text
	test.Tap(p.toggle)
	if p.chart.view.Visible() {
		t.Error("the chart should be hidden")
	}
	p.toggleChart()
	if !p.chart.view.Visible() {
		t.Error("the chart should be back")
	}
	p.basis.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := k.cell("energy_kcal", "").Text; got == serving || k.cell("energy_kcal", "A").Sub != "" {
		t.Errorf("per 100 g: %q", got)
	}
	p.basis.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := k.cell("energy_kcal", "").Text; len(got) < 4 {
		t.Errorf("whole dish: %q", got)
	}
	p.options.All, p.options.AllSteps = true, true
	p.showTable()
	if len(p.keys) <= few {
		t.Error("all nutrients and steps should show more rows")
	}
}

func TestCompletingAFood(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	row, col := k.cellAt(lineKey(t, r, "butter"), "A")
	p := k.versions()
	got := p.suggest(row, col, "20 g olive oi")
	if len(got) == 0 || !strings.HasPrefix(got[0].Text, "20 g ") || got[0].Key == "" {
		t.Fatalf("suggestions %v", got)
	}
	if s := p.suggest(row, col, "20 g"); s != nil {
		t.Errorf("an amount completes to %v", s)
	}
	if s := p.suggest(0, col, "oliv"); s != nil {
		t.Errorf("a number completes to %v", s)
	}
	p.table.OnPick(row, col, got[0])
	k.settle()
	if c := k.cell(p.keys[row], "A"); !strings.HasPrefix(c.Text, "20 g ") || !strings.Contains(c.Text, "oil") {
		t.Errorf("picked %q became %q (%s)", got[0].Text, c.Text, k.status.Message())
	}
}

func TestNewVersionIsChosen(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabOriginal)
	n := len(k.book().Versions(r.ID))
	k.newVersion()
	k.settle()
	all := k.book().Versions(r.ID)
	if len(all) != n+1 || len(all[n].Swaps) != 0 {
		t.Fatalf("%d versions", len(all))
	}
	p := k.versions()
	row, col := p.table.Selected()
	if k.at.tab != tabVersions || p.version(col) == nil || p.version(col).ID != all[n].ID || p.bench.KindOf(p.key(row)) != sheets.LineRow {
		t.Errorf("on %s, row %q, column %d", k.at.tab, p.key(row), col)
	}
	if k.win.Canvas().Focused() != fyne.Focusable(p.table) {
		t.Error("the table should have the keyboard")
	}
}
