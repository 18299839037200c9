package ui

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// recordAllergens writes down which allergens a food holds, from its pack. An
// ingredient without a food is given one first, where it stands.
func (w *Window) recordAllergens(l recipes.ServedLine) {
	f := w.book().Food(l.Food)
	if f == nil {
		w.status.SetTone(parts.ToneLook, words.Say("allergens.no-food", l.Name))
		return
	}
	w.packDialog(f.Name, f.Allergens, func(has food.Allergens) {
		w.do(recipes.RecordAllergens(f.Ref, food.Allergens{Contains: has.Contains, Depends: has.Depends}))
	})
}

// packDialog asks which allergens a thing holds, from its pack, and gives save what
// was ticked.
func (w *Window) packDialog(name string, has food.Allergens, save func(food.Allergens)) {
	ticks := parts.NewMatrix()
	ticks.Whole = true
	show := func() {
		m := matrixOf(sheets.AllergenTicks(has))
		m.Columns[0].Min = 190
		for i := range m.Columns[1:] {
			m.Columns[i+1].Align, m.Columns[i+1].Min = parts.AlignCentre, 100
		}
		ticks.SetData(m)
	}
	ticks.OnToggle = func(row, col int) {
		has = sheets.ToggleAllergen(has, row, col)
		show()
	}
	show()
	w.pin("allergens.ticks", ticks)
	scroll := parts.Scrolled(parts.Pad(2, 12, 2, 2, parts.Rows(parts.GapMedium, parts.NewText(words.Say("allergens.help")), parts.NewTableCard("", "", ticks))))
	ticks.Outer = scroll
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("allergens.title", name), Content: scroll, First: ticks, Width: 520, Height: 640,
		Confirm: words.Say("allergens.save"), Cancel: words.Say("button.cancel"),
		OnOK: func() bool {
			save(has)
			return true
		},
	})
}
