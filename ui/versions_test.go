package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/ui/sheets"
)

// TestLook opens the page at the sizes it must look right at; with PAREWELL_LOOK
// it leaves pictures there.
func TestLook(t *testing.T) {
	for _, c := range []struct {
		name   string
		dark   bool
		factor float32
		size   fyne.Size
		recipe int
		before func(p *versionsPage)
	}{
		{"light-1280", false, 1, fyne.NewSize(1280, 800), 0, nil},
		{"dark-1280", true, 1, fyne.NewSize(1280, 800), 2, func(p *versionsPage) { p.chart.kind.SetKey(chartShare); p.chart.draw() }},
		{"light-1920", false, 1, fyne.NewSize(1920, 1080), 1, func(p *versionsPage) {
			p.options.All, p.options.AllSteps = true, true
			p.showTable()
			p.table.Select(p.rowOf(sheets.AddLineKey), 2)
		}},
		{"dark-1920", true, 1, fyne.NewSize(1920, 1080), 0, nil},
		{"light-900", false, 1, fyne.NewSize(900, 700), 0, nil},
		{"light-large-text", false, 1.6, fyne.NewSize(1280, 800), 0, nil},
		{"light-small-text", false, 0.9, fyne.NewSize(1280, 800), 0, func(p *versionsPage) { p.toggleChart() }},
	} {
		k := openKitchen(t, c.dark, c.size)
		k.setTheme(c.dark, c.factor)
		k.openRecipe(c.recipe, tabVersions)
		p := k.versions()
		if c.before != nil {
			c.before(p)
		}
		if s := p.card.Size(); s.Width < 400 || s.Height < 100 {
			t.Errorf("%s: the table is %v", c.name, s)
		}
		k.picture(c.name)
	}
}

func (p *versionsPage) rowOf(key string) int {
	for r, have := range p.keys {
		if have == key {
			return r
		}
	}
	return -1
}

// BenchmarkShowAfterEdit is the page brought in line with a Book that has
// changed: the bench reckoned, the table laid out and drawn.
func BenchmarkShowAfterEdit(b *testing.B) {
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	p := k.versions()
	for b.Loop() {
		p.book = nil
		p.show()
	}
}

// BenchmarkBasis switches what the numbers are counted for.
func BenchmarkBasis(b *testing.B) {
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	p := k.versions()
	keys := []string{"serving", "100g", "dish"}
	n := 0
	for b.Loop() {
		n++
		p.setBasis(keys[n%len(keys)])
	}
}
