package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
)

func TestAddingFromARecipe(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabOriginal)
	other := k.book().Recipes()[1]
	press(k, "original.sub")
	choose(k, "sub.recipe", recipeKeys+string(other.ID))
	choose(k, "sub.version", versionKeys+string(k.book().Versions(other.ID)[0].ID))
	setEntry(k, "sub.amount", "none")
	k.confirm()
	if n := len(k.book().Recipe(r.ID).Lines); n != len(r.Lines) {
		t.Fatal("an amount that cannot be read was kept")
	}
	setEntry(k, "sub.amount", "200")
	k.picture("dialog-sub")
	k.confirm()
	k.settle()
	all := k.book().Recipe(r.ID).Lines
	l := all[len(all)-1]
	if l.Sub == nil || l.Sub.Recipe != other.ID || l.Sub.Grams != 200 || !strings.HasPrefix(l.Text, "200 g of "+other.Title) {
		t.Fatalf("the line is %+v", l)
	}
	k.picture("original-sub")
	p, _ := k.pages[pageRecipe].(*recipePage).inner[tabOriginal].(*originalPage)
	p.weigh(l, "300 g")
	k.settle()
	if s := k.book().Recipe(r.ID).Line(l.ID).Sub; s == nil || s.Grams < 299.9 || s.Grams > 300.1 {
		t.Errorf("weighed anew it is %+v", s)
	}
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabVersions})
	k.settle()
	k.typeIn(string(l.ID), "A", "150 g")
	if got := k.cell(string(l.ID), "A").Text; got != "150 g" {
		t.Errorf("half of it typed in A: %q (%s)", got, k.status.Message())
	}
	k.typeIn(string(l.ID), "B", "100 g butter")
	if got := k.cell(string(l.ID), "B").Text; !strings.HasPrefix(got, "100 g butter") && !strings.HasPrefix(got, "100 g ") || strings.Contains(got, other.Title) {
		t.Errorf("another ingredient in B: %q (%s)", got, k.status.Message())
	}
	k.picture("versions-sub")
	v := k.versions()
	v.activate(k.cellAt(string(l.ID), ""))
	k.settle()
	if k.at.recipe != other.ID {
		t.Error("it should open the other recipe")
	}
	before := k.book()
	loop := recipes.AddLine(other.ID, &recipes.Line{ID: k.newID(), Text: "loop", PartEaten: 1, GramsFrom: recipes.GramsTyped, Grams: 1, Sub: &recipes.SubRecipe{Recipe: r.ID, Servings: 1}}, "end", nil)
	k.do(loop)
	k.settle()
	if k.book() != before || k.status.Message() == "" {
		t.Errorf("a loop: %q", k.status.Message())
	}
}

func TestASectionUsedInPart(t *testing.T) {
	k := openKitchen(t, true, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabOriginal)
	name := ""
	for _, l := range r.Lines {
		if l.Section != "" {
			name = l.Section
		}
	}
	for _, item := range k.originalItems() {
		if item.Label == name {
			item.Do()
		}
	}
	setEntry(k, "section.used", "0")
	k.confirm()
	if len(k.book().Recipe(r.ID).Sections) != 0 {
		t.Error("none of a section was kept")
	}
	k.picture("dialog-section")
	setEntry(k, "section.used", "50")
	setEntry(k, "section.weighs", "90")
	k.confirm()
	k.settle()
	if got := k.book().Recipe(r.ID).Section(name); got.ShareUsed != .5 || got.CookedGrams != 90 {
		t.Errorf("section %+v", got)
	}
	k.picture("original-section")
	k.undo()
	k.settle()
	if len(k.book().Recipe(r.ID).Sections) != 0 {
		t.Error("undo should take it back")
	}
}

// TestOriginalLooks opens the original's page at the sizes it must look right at;
// with PAREWELL_LOOK it leaves pictures there.
func TestOriginalLooks(t *testing.T) {
	for _, c := range []struct {
		name   string
		dark   bool
		factor float32
		size   fyne.Size
		recipe int
	}{
		{"original-light-1280", false, 1, fyne.NewSize(1280, 800), 0},
		{"original-dark-1920", true, 1, fyne.NewSize(1920, 1080), 1},
		{"original-light-900", false, 1, fyne.NewSize(900, 700), 0},
		{"original-large-text", false, 1.6, fyne.NewSize(1280, 800), 0},
	} {
		k := openKitchen(t, c.dark, c.size)
		k.setTheme(c.dark, c.factor)
		k.openRecipe(c.recipe, tabOriginal)
		p, _ := k.pages[pageRecipe].(*recipePage).inner[tabOriginal].(*originalPage)
		if !strings.Contains(p.care.Text(), "°C") || !p.care.Visible() {
			t.Errorf("%s: cautions %q", c.name, p.care.Text())
		}
		if s := p.table.Size(); s.Width < 300 || s.Height < 80 {
			t.Errorf("%s: the table is %v", c.name, s)
		}
		k.picture(c.name)
	}
}

// BenchmarkOriginalShow is the original's page brought in line with the Book.
func BenchmarkOriginalShow(b *testing.B) {
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabOriginal)
	p, _ := k.pages[pageRecipe].(*recipePage).inner[tabOriginal].(*originalPage)
	for b.Loop() {
		p.show()
	}
}
