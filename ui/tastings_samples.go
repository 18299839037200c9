package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// sampleFacts writes down, by pot, who cooked each sample and how it was served.
// Codes are left out: beside a pot they would tell what is in the cups.
func (w *Window) sampleFacts(t *recipes.Tasting) {
	list := sheets.Pots(w.book(), t)
	var forms []sampleForm
	body := parts.Rows(parts.GapLarge, parts.NewCaption(words.Say("tastings.cooked.help")))
	for _, c := range list {
		f := w.sampleForm(c)
		forms = append(forms, f)
		body.Add(parts.Rows(parts.GapSmall, parts.NewSection(c.Name), f.view))
	}
	if len(forms) == 0 {
		return
	}
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tastings.cooked"), Content: parts.Scrolled(parts.Pad(2, 14, 2, 2, body)), First: forms[0].cook,
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), Width: 680, Height: 600,
		OnOK: func() bool { return w.saveSamples(t, forms) },
	})
}

type sampleForm struct {
	sample                    *recipes.Sample
	view                      fyne.CanvasObject
	cook, cooked, heat, held  *parts.Entry
	cookedRow, heatRow, heldR *parts.FormRow
}

func (w *Window) sampleForm(c sheets.Pot) sampleForm {
	text := sheets.SampleFieldsOf(c.Sample)
	entry := func(name, value, hint string, width float32) *parts.Entry {
		e := parts.NewEntry(value, hint, nil)
		e.Width = width
		w.pin("tastings.sample."+name+"."+c.Name, e)
		return e
	}
	f := sampleForm{
		sample: c.Sample, cook: entry("cook", text.Cook, "", 0), cooked: entry("cooked", text.Cooked, "", 120),
		heat: entry("heat", text.Heat, "", 70), held: entry("held", text.Held, "", 70),
	}
	left, right := parts.NewForm(), parts.NewForm()
	left.Row(words.Say("tastings.sample.cook"), f.cook, "", "")
	f.cookedRow = left.Row(words.Say("tastings.sample.cooked"), f.cooked, "", "")
	f.heatRow = right.Row(words.Say("tastings.sample.heat"), f.heat, "°C", "")
	f.heldR = right.Row(words.Say("tastings.sample.held"), f.held, "min", "")
	f.view = parts.Columns(parts.GapLarge, []float32{1, 1}, left, right)
	return f
}

// saveSamples keeps what was changed; a field that is wrong says so and nothing
// is kept.
func (w *Window) saveSamples(t *recipes.Tasting, forms []sampleForm) bool {
	var verbs []recipes.Verb
	fine := true
	for _, f := range forms {
		to, faults := sheets.ReadSample(sheets.SampleFields{Cook: f.cook.Text, Cooked: f.cooked.Text, Heat: f.heat.Text, Held: f.held.Text}, f.sample)
		f.cookedRow.SetError(faults[sheets.SampleCookedField])
		f.heatRow.SetError(faults[sheets.SampleHeatField])
		f.heldR.SetError(faults[sheets.SampleHeldField])
		fine = fine && len(faults) == 0
		if !recipes.Same(to, f.sample) {
			verbs = append(verbs, tasting.SampleAs(t.ID, to))
		}
	}
	if fine && len(verbs) > 0 {
		w.do(recipes.All(words.P("did.sample"), t.Recipe, verbs...))
	}
	return fine
}
