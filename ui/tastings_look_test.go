package ui

import (
	"os"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/ui/sheets"
)

// The tab of tastings in other sizes and by dark, for the eye.
func TestTastingsLook(t *testing.T) {
	if os.Getenv("PAREWELL_LOOK") == "" {
		t.Skip("PAREWELL_LOOK names no folder for pictures")
	}
	for _, row := range []struct {
		name   string
		dark   bool
		size   fyne.Size
		factor float32
	}{
		{"dark", true, fyne.NewSize(1280, 800), 1},
		{"wide", false, fyne.NewSize(1920, 1080), 1},
		{"wide-dark", true, fyne.NewSize(1920, 1080), 1},
		{"narrow", false, fyne.NewSize(900, 700), 1},
		{"large", false, fyne.NewSize(1280, 800), 1.5},
	} {
		k := openKitchen(t, row.dark, row.size)
		k.setTheme(row.dark, row.factor)
		r := k.setTable("AB", "CD", "EF", "GH", "IK", "LM", "NO", "PQ")
		k.do(tasting.PutTaster(&recipes.Panelist{ID: "nobody-asked", Code: "XY"}))
		k.settle()
		old := k.plan(r, func(f *sheets.PlanFields) { f.Name = "first try"; delete(f.Tasters, "nobody-asked") })
		k.do(tasting.Begin(old.ID))
		k.do(tasting.Close(old.ID, "2026-03-04T21:00:00Z", "a try"))
		k.plan(r, func(f *sheets.PlanFields) { f.Time = "19:30"; f.Cooks = "Jo" })
		k.settle()
		k.showTastings(r.ID, k.book().TastingsOf(r.ID)[1].ID)
		k.settle()
		k.picture("look-planned-" + row.name)
		tt := k.plan(r, func(f *sheets.PlanFields) { f.Name = "second evening"; delete(f.Tasters, "nobody-asked") })
		k.do(tasting.Begin(tt.ID))
		k.settle()
		k.showTastings(r.ID, tt.ID)
		k.settle()
		k.gridAt()
		k.types("567834567891")
		k.picture("look-serving-" + row.name)
		s := k.ballotHere(k.book().Tasting(tt.ID), 3)
		s.key(fyne.KeyReturn)
		k.picture("look-ballot-" + row.name)
		s.leave()
		k.do(tasting.Close(tt.ID, "2026-03-04T21:00:00Z", "late"))
		k.settle()
		k.picture("look-closed-" + row.name)
	}
}
