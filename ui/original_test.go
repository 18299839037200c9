package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// pasted reads a recipe's text and opens its original.
func (k *kitchenWindow) pasted(text string) (*recipes.Recipe, *originalPage) {
	k.t.Helper()
	var got readText
	done := false
	k.read(text, measure.Metric, func(r readText) { got, done = r, true })
	k.until("the text is read", func() bool { return done })
	if got.err != nil {
		k.t.Fatal(got.err)
	}
	k.do(recipes.AddRecipe(got.recipe, got.foods))
	k.settle()
	k.goTo(place{page: pageRecipe, recipe: got.recipe.ID, tab: tabOriginal})
	k.settle()
	p, _ := k.pages[pageRecipe].(*recipePage).inner[tabOriginal].(*originalPage)
	return got.recipe, p
}

const piesText = `Mince and leek pie
Serves 4
500 g minced beef, 20% fat, browned and fat poured off
2 leeks, boiled and drained
500 g smoked trout
300 ml chicken stock
200 ml cream
100 g cheese
75 g butter
1 tin tomatoes
Salt to taste

1. Simmer the leeks for 10 minutes.
2. Bake 45 minutes.
`

// TestDoubtCardsFitTheirColumn: nothing in the column is cut off at its right
// edge, however long a food's name is.
func TestDoubtCardsFitTheirColumn(t *testing.T) {
	for _, c := range []struct {
		name   string
		factor float32
		size   fyne.Size
	}{
		{"original-doubts-1280", 1, fyne.NewSize(1280, 800)},
		{"original-doubts-large", 1.6, fyne.NewSize(1280, 800)},
		{"original-doubts-900", 1, fyne.NewSize(900, 700)},
	} {
		k := openKitchen(t, false, c.size)
		k.setTheme(false, c.factor)
		_, p := k.pasted(piesText)
		k.picture(c.name)
		if len(p.doubts.Objects) < 4 {
			t.Fatalf("%s: %d cards", c.name, len(p.doubts.Objects))
		}
		for i, o := range p.doubts.Objects {
			if least := o.MinSize().Width; least > p.scroll.Size().Width-10 {
				t.Errorf("%s: card %d needs %v of %v", c.name, i, least, p.scroll.Size().Width)
			}
		}
	}
}

// TestIngredientsDoNotScrollSideways: beside the doubts, too, the table does with
// the width it has, and what is typed goes where it is seen.
func TestIngredientsDoNotScrollSideways(t *testing.T) {
	for _, c := range []struct {
		name    string
		text    string
		size    fyne.Size
		columns int
		eaten   float64 // of the butter
	}{
		{"all", "Soup\nServes 4\n500 g leeks\n75 g salted butter\n1 tbsp olive oil\n", fyne.NewSize(1280, 800), 7, 1},
		{"beside doubts", piesText, fyne.NewSize(1280, 800), 5, 1},
		{"part eaten, beside doubts", piesText, fyne.NewSize(1280, 800), 6, 0.8},
		{"beside doubts, wide", piesText, fyne.NewSize(1920, 1080), 7, 1},
	} {
		k := openKitchen(t, false, c.size)
		r, p := k.pasted(c.text)
		p.set(r.Line(recipes.ID(lineKey(t, r, "butter"))).WithPartEaten(c.eaten))
		k.settle()
		k.picture("original-" + c.name)
		p.table.SetScroll(fyne.NewPos(999, 0))
		if x := p.table.Scroll().X; x > 0 || len(p.columns) != c.columns {
			t.Errorf("%s: %d columns, and %v are to the right of the table", c.name, len(p.columns), x)
		}
		butter := slices.Index(p.lines, recipes.ID(lineKey(t, r, "butter")))
		p.table.OnEdit(butter, 1+slices.Index(p.columns, sheets.OrigGrams), "90 g")
		k.settle()
		if l := k.book().Recipe(r.ID).Line(p.lines[butter]); l.Grams != 90 {
			t.Errorf("%s: butter weighs %v", c.name, l.Grams)
		}
	}
}

// TestFatPouredOffIsTakenOff: the doubt leads to the fields, its fat is chosen,
// and once it is taken off nothing asks about it.
func TestFatPouredOffIsTakenOff(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r, _ := k.pasted(piesText)
	beef := r.Lines[0]
	press(k, "doubt.poured:"+beef.Text)
	if e := k.pins["line.off.food"].(*parts.Entry); e.Text != "beef tallow" {
		t.Errorf("the fat offered is %q", e.Text)
	}
	setEntry(k, "line.off.grams", "45")
	press(k, "line.off.add")
	k.picture("dialog-line-poured")
	k.confirm()
	k.settle()
	now := k.book().Recipe(r.ID)
	if l := now.Lines[1]; l.Kind != recipes.TakenOff || l.Grams != 45 || l.OffOf != beef.ID {
		t.Errorf("taken off %+v", l)
	}
	for _, d := range now.Line(beef.ID).Doubts {
		if d.Kind == recipes.DoubtPoured {
			t.Error("it still asks about fat poured off")
		}
	}
}

// TestTheDialogFollowsItsFields: what is chosen at the left is reckoned at the
// right before anything is saved.
func TestTheDialogFollowsItsFields(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r, _ := k.pasted(piesText)
	leeks := r.Lines[1]
	k.lineDetails(leeks, nil)
	figures := func() string {
		m := k.pins["line.figures"].(*parts.Matrix)
		return m.Data().Rows[0].Cells[2].Text
	}
	before := figures()
	e := k.pins["line.eaten"].(*parts.Entry)
	k.win.Canvas().Focus(e)
	e.SetText("50")
	k.win.Canvas().Unfocus()
	if after := figures(); after == before {
		t.Errorf("half of it eaten still holds %s", after)
	}
	k.win.Canvas().Focus(e)
	k.press(fyne.KeyEscape)
	k.settle()
	if l := k.book().Recipe(r.ID).Line(leeks.ID); l.PartEaten != 1 {
		t.Error("Cancel kept the share")
	}
}

// TestPastingIsReadyForTheKeyboard: the field has the keyboard as the page opens.
func TestPastingIsReadyForTheKeyboard(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.goTo(place{page: pagePaste})
	k.settle()
	if k.win.Canvas().Focused() != k.pins["paste.text"].(fyne.Focusable) {
		t.Errorf("%T has the keyboard", k.win.Canvas().Focused())
	}
}

// TestClaimsHeadKeepsItsRoom: the questions of a dish measured by the cup stand
// under the head, not on it.
func TestClaimsHeadKeepsItsRoom(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabClaims)
	k.do(recipes.SetSays(r.ID, recipes.Says{Dish: "mixed-cup"}))
	k.settle()
	k.picture("claims-cup-1280")
	p, _ := k.pages[pageRecipe].(*recipePage).inner[tabClaims].(*claimsPage)
	top := func(o fyne.CanvasObject) float32 {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y
	}
	if !p.cupRow.Visible() || len(p.asked.Objects) == 0 {
		t.Fatal("the head does not grow: the test says nothing")
	}
	if bottom := top(p.liquid) + p.liquid.Size().Height; top(p.asked) < bottom {
		t.Errorf("the questions begin at %v, the head ends at %v", top(p.asked), bottom)
	}
	for i, o := range p.cards.Objects {
		if has, needs := o.Size().Height, o.MinSize().Height; has < needs-1 {
			t.Errorf("card %d at the right is %v high and needs %v", i, has, needs)
		}
	}
}

// TestTheMethodOffersItsCooking: "Bake 45 minutes" may be taken with a press.
func TestTheMethodOffersItsCooking(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r, p := k.pasted(piesText)
	if !p.offer.Visible() || !strings.Contains(p.offer.Text(), "baked, 45 minutes") {
		t.Fatalf("offered: %q, shown %v", p.offer.Text(), p.offer.Visible())
	}
	press(k, "original.offer")
	k.settle()
	if d := k.book().Recipe(r.ID).Dish; d != (recipes.Technique{Method: "baked", Minutes: 45}) {
		t.Errorf("the dish is %+v", d)
	}
	if p.offer.Visible() {
		t.Error("it is offered again")
	}
}

// TestSaltOfTheWaterIsAdded: where the method salts the water and no ingredient is
// that salt, one press adds it and the question is gone.
func TestSaltOfTheWaterIsAdded(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r, _ := k.pasted("Supper\nServes 4\n400 g penne\n200 g cheddar\n\n1. Cook the pasta in boiling salted water.\n2. Drain it and stir in the cheddar.\n")
	k.picture("original-salted")
	k.pushPin("doubt.salted:400 g penne")
	k.settle()
	now := k.book().Recipe(r.ID)
	if len(now.Lines) != 3 || now.Lines[1].Grams != 32 || now.Lines[1].PartEaten == 1 || sheets.Asks(now.Lines[0], recipes.DoubtSalted) {
		t.Errorf("%d lines, the second %+v", len(now.Lines), now.Lines[1])
	}
	k.Window.undo()
	k.until("it is undone", func() bool { return len(k.book().Recipe(r.ID).Lines) == 2 })
}

// TestEnterOpensWhatCannotBeTypedOver: Enter opens the details of an ingredient
// from every field that is not typed over, and the words of a step from its number.
func TestEnterOpensWhatCannotBeTypedOver(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1600, 900))
	_, p := k.pasted(piesText)
	p.fit(2000)
	d := p.table.Data()
	tried := 0
	for col, c := range d.Rows[0].Cells {
		if c.Editable {
			continue
		}
		tried++
		k.win.Canvas().Focus(p.table)
		p.table.Select(0, col)
		p.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		k.settle()
		if !strings.Contains(k.reads(), d.Rows[0].Cells[0].Text) || len(k.win.Canvas().Overlays().List()) == 0 {
			t.Errorf("Enter on %q opens nothing", d.Columns[col].Title)
		}
		for len(k.win.Canvas().Overlays().List()) > 0 {
			k.win.Canvas().Overlays().Remove(k.win.Canvas().Overlays().Top())
		}
	}
	if tried < 3 {
		t.Errorf("%d fields are not typed over", tried)
	}
	k.win.Canvas().Focus(p.steps)
	p.steps.Select(1, 0)
	p.steps.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	k.settle()
	if _, col := p.steps.Selected(); col != 1 {
		t.Error("Enter on a step's number does nothing")
	}
}
