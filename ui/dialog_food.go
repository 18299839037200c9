package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// foodDialog writes an own food down from its label; what 100 g come to and
// what does not fit stand beside the fields as they are typed.
type foodDialog struct {
	w       *Window
	base    *food.Food
	fresh   bool // to be added, not changed
	then    func(food.Ref)
	dialog  *parts.Dialog
	entries map[string]*parts.Entry // by name of field or figure
	rows    map[string]*parts.FormRow
	per     *parts.Segmented
	basis   *parts.Segmented
	state   *parts.Picker
	read    *parts.Check
	ticks   *parts.Matrix
	unread  *parts.Text
	figures *parts.Matrix
	said    *fyne.Container
	left    *fyne.Container // laid out again when a field comes or goes
	side    *fyne.Container
	has     food.Allergens
	tried   bool // saving was tried: faults are shown
}

// foodForm opens the form of an own food; fresh is one the workbook does not
// hold yet. then gets it once it is saved.
func (w *Window) foodForm(base *food.Food, fresh bool, then func(food.Ref)) {
	d := &foodDialog{
		w: w, base: base, fresh: fresh, then: then, has: base.Allergens,
		entries: map[string]*parts.Entry{}, rows: map[string]*parts.FormRow{},
	}
	title := words.Say("label.new")
	if !fresh {
		title = words.Say("label.edit", base.Name)
	}
	f := sheets.LabelOf(base)
	form, side := d.form(f), d.counted()
	var body fyne.CanvasObject
	if size := w.win.Canvas().Size(); size.Width < foodFormNarrow*w.factor {
		scroll := parts.Scrolled(parts.Pad(2, 14, 2, 2, parts.Rows(parts.GapLarge, form, side)))
		d.figures.Outer, d.ticks.Outer, body = scroll, scroll, scroll
	} else {
		left, right := parts.Scrolled(parts.Pad(2, 14, 2, 2, form)), parts.Scrolled(parts.Pad(2, 14, 2, 2, side))
		d.figures.Outer, d.ticks.Outer = right, left
		body = parts.Columns(20, []float32{1.62, 1}, left, right)
	}
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: body, First: d.entries[sheets.FoodNameKey], Width: 1120, Height: 720,
		Confirm: words.Say("label.save"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
	d.update()
}

// foodFormNarrow is the width of the window below which all stands in one column.
const foodFormNarrow = 860

// counted shows what the fields come to.
func (d *foodDialog) counted() fyne.CanvasObject {
	d.figures = parts.NewMatrix()
	d.figures.Whole, d.figures.WholeRow, d.figures.Stretch = true, true, true
	d.figures.SetData(matrixOf(sheets.UnitsOf(d.w.book()).FoodFigures(d.base)))
	d.w.pin("label.live", d.figures)
	d.said = parts.Rows(parts.GapSmall)
	d.side = parts.Rows(parts.GapMedium, parts.NewSection(words.Say("label.live")), d.said, parts.NewTableCard("", "", d.figures))
	return d.side
}

// fields is the form as it stands.
func (d *foodDialog) fields() sheets.LabelFields {
	e := func(name string) string { return d.entries[name].Text }
	f := sheets.LabelFields{
		Name: e(sheets.FoodNameKey), Per: d.per.Key(), Portion: e(sheets.PortionKey), Figures: map[string]string{},
		NoFibre: d.basis.Key() == basisEU, Measures: e(sheets.MeasuresKey), Density: e(sheets.DensityKey),
		Edible: e(sheets.EdibleKey), State: food.State(d.state.Key()[len("s:"):]), Note: e(noteField), Allergens: d.has,
	}
	for _, x := range sheets.LabelFigures {
		if t := e(x.Key); t != "" {
			f.Figures[x.Key] = t
		}
	}
	return f
}

// update shows what the fields so far come to and what does not fit.
func (d *foodDialog) update() {
	if d.dialog == nil {
		return // still being built
	}
	f := d.fields()
	d.showPortion(f.Per == sheets.PerPortion)
	made, faults := sheets.ReadLabel(f, d.base)
	data := matrixOf(sheets.UnitsOf(d.w.book()).FoodFigures(made))
	data.Columns[0].Min = 130
	d.figures.SetData(data)
	d.said.Objects = nil
	if d.tried {
		for key, row := range d.rows {
			row.SetError(faults[key])
		}
		d.left.Refresh()
		if name := sheets.FirstFault(faults); name != "" {
			d.said.Add(parts.NewBanner(parts.ToneError, name))
		}
	}
	doubts := sheets.LabelDoubts(f, made)
	if sheets.Impossible(made) {
		d.said.Add(parts.NewBanner(parts.ToneError, words.Say("fault.impossible")))
	}
	for _, s := range doubts {
		d.said.Add(parts.NewBanner(parts.ToneLook, s))
	}
	if len(d.said.Objects) == 0 {
		d.said.Add(parts.NewCaption(words.Say("label.fits")))
	}
	d.unread.SetText(unreadText(d.has.Recorded))
	d.said.Refresh()
	d.side.Refresh()
}

// showPortion has the field for a serving's weight only where the figures are
// for one.
func (d *foodDialog) showPortion(on bool) {
	if e := d.entries[sheets.PortionKey]; e.Visible() == on {
		return
	}
	if row := d.rows[sheets.PortionKey]; on {
		row.Show()
	} else {
		row.Hide()
	}
	d.left.Refresh()
}

func unreadText(recorded bool) string {
	if recorded {
		return ""
	}
	return words.Say("label.allergens.unknown")
}

// save keeps the food; where it is a correction of one that recipes use, what
// that does to them is shown first.
func (d *foodDialog) save() bool {
	made, faults := sheets.ReadLabel(d.fields(), d.base)
	if len(faults) > 0 {
		d.tried = true
		d.update()
		return false
	}
	if !d.fresh && sheets.SameFood(made, d.base) {
		return true
	}
	keep := func() {
		d.w.do(recipes.PutFood(made), func(ok bool) {
			if ok {
				d.then(made.Ref)
			}
		})
	}
	uses := sheets.FoodUses(d.w.book(), made.Ref)
	confirmed := func() {
		d.dialog.Close()
		keep()
	}
	if d.fresh || len(uses) == 0 || !d.w.showEffect(recipes.PutFood(made), uses, confirmed) {
		keep()
		return true
	}
	return false // until the effect is confirmed
}

// showEffect shows what a change of a food does to the recipes before it is
// made; false when it does nothing to any, and then nothing is shown.
func (w *Window) showEffect(v recipes.Verb, uses []sheets.FoodUse, do func()) bool {
	e, err := effectOf(w.book(), v, uses)
	if err != nil {
		w.problemDialog(err)
		return true
	}
	if e.Recipes == 0 {
		return false
	}
	table := effectTable(e)
	w.pin("effect.table", table)
	var ask *parts.Dialog
	ask = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("foods.effect.title", e.Recipes), Width: 880, Height: 460,
		Content: parts.Fill(parts.GapMedium, 1, parts.NewText(words.Say("foods.effect.text")), parts.NewTableCard("", "", table)),
		Confirm: words.Say("foods.effect.ok"), Cancel: words.Say("button.cancel"),
		OnOK: func() bool {
			ask.Close() // before the form under it
			do()
			return true
		},
	})
	return true
}

func effectTable(e sheets.Effect) *parts.Matrix {
	m := parts.NewMatrix()
	m.WholeRow, m.Stretch = true, true
	d := matrixOf(e.Sheet)
	d.Columns[0].Min, d.Columns[0].Max = 130, 220
	d.Empty = words.Say("foods.effect.none")
	m.SetData(d)
	return m
}

// effectOf works out what a verb would do, without doing it.
func effectOf(b *recipes.Book, v recipes.Verb, uses []sheets.FoodUse) (sheets.Effect, error) {
	c, err := v(b)
	if err != nil {
		return sheets.Effect{}, err
	}
	after, err := b.With(c)
	if err != nil {
		return sheets.Effect{}, err
	}
	return sheets.EffectOf(b, after, uses), nil
}
