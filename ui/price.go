package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// priceFields are what the cook pays for a food: an amount of money and the
// weight it buys. Both kept, the price is kept; both emptied, it goes.
type priceFields struct {
	w            *Window
	ref          food.Ref
	money, grams *parts.Entry
	row          *parts.FormRow
	view         fyne.CanvasObject
}

// newPriceFields returns the fields for a food the workbook holds.
func newPriceFields(w *Window, ref food.Ref) *priceFields {
	p := &priceFields{w: w, ref: ref}
	money, grams := sheets.PriceFields(w.book(), ref)
	p.money = parts.NewNumberEntry(money, "", func(string) { p.keep() })
	p.grams = parts.NewEntry(grams, "500 g", func(string) { p.keep() })
	p.money.Width, p.grams.Width = 90, 110
	w.pin("price.money", p.money)
	w.pin("price.grams", p.grams)
	form := parts.NewForm()
	fields := parts.Line(parts.GapSmall, p.money, parts.NewCaption(w.book().Setting(sheets.MoneySetting)), parts.NewCaption(words.Say("price.for")), p.grams)
	p.row = form.Row(words.Say("price.pay"), fields, "", "")
	p.view = form
	return p
}

// show puts the newest price of a food into the fields; what is being typed
// stays.
func (p *priceFields) show(ref food.Ref) {
	p.ref = ref
	money, grams := sheets.PriceFields(p.w.book(), ref)
	p.money.Set(money)
	p.grams.Set(grams)
	p.row.SetError("")
}

// keep sets the price once both fields can be read.
func (p *priceFields) keep() {
	p.row.SetError("")
	if p.money.Text == "" && p.grams.Text == "" {
		p.w.do(recipes.SetPrice(p.ref, nil))
		return
	}
	if p.money.Text == "" || p.grams.Text == "" {
		return // the other field is still to come
	}
	money, okMoney := reading.Number(p.money.Text)
	grams, okGrams := reading.Grams(p.grams.Text)
	if !okMoney || !okGrams || grams <= 0 {
		p.row.SetError(sheets.Wrongly("price.wrong", p.money.Text+" / "+p.grams.Text).Error())
		return
	}
	p.w.do(recipes.SetPrice(p.ref, &recipes.Price{Money: money, Grams: grams}))
}
