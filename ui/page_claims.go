package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/analysis/claims"
	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// claimsPage answers "may I call it light?": every term by three sets of rules,
// for one version against the original, with what would have to stand beside it.
type claimsPage struct {
	w        *Window
	version  *parts.Picker
	dish     *parts.Picker
	kind     *parts.Segmented
	cup      *parts.Entry
	cupRow   fyne.CanvasObject
	liquid   *parts.Check
	asked    *fyne.Container
	main     *fyne.Container
	cards    *fyne.Container // at the right: the term chosen, the headnote, the figures for print
	side     *container.Scroll
	table    *parts.Matrix
	detail   *fyne.Container
	headnote *parts.Entry
	words    *fyne.Container
	printed  *parts.Matrix
	at       recipes.ID // the version in sight, "" the original
	recipe   recipes.ID
	said     string // the headnote as it was last shown
	sheet    sheets.ClaimSheet
	bench    *sheets.Bench
}

func newClaimsPage(w *Window) page { return &claimsPage{w: w} }

func (p *claimsPage) build() fyne.CanvasObject {
	p.recipe = "" // what is built anew is shown anew
	p.table = parts.NewMatrix()
	p.table.OnSelect = func(row, _ int) {
		p.showDetail(row)
		p.fit()
	}
	p.w.pin("claims.table", p.table)
	p.detail = parts.Rows(parts.GapSmall)
	p.words = parts.Rows(parts.GapSmall)
	p.headnote = parts.NewTextArea("", words.Say("claims.page.headnote.hint"), 3, func(text string) {
		p.w.do(recipes.SetHeadnote(p.w.at.recipe, text))
	})
	p.headnote.OnChanged = func(string) {
		p.showWords()
		p.fit()
	}
	p.w.pin("claims.headnote", p.headnote)
	p.printed = parts.NewMatrix()
	p.printed.Whole = true
	care := parts.NewBanner(parts.ToneLook, words.Say("claims.page.care"))
	p.main = parts.Fill(parts.GapSmall, 2, p.head(), care, parts.NewTableCard("", "", p.table))
	p.cards = parts.Rows(parts.GapMedium,
		parts.NewPanel(parts.GapLarge, p.detail),
		parts.NewCard(words.Say("claims.page.headnote"), "", parts.Rows(parts.GapSmall, p.headnote, p.words)),
		parts.NewTableCard(words.Say("claims.page.rounding"), "", p.printed))
	side := parts.Scrolled(parts.Pad(0, 10, 0, 0, p.cards))
	p.printed.Outer = side
	p.side = side
	return sideBySide(p.main, side)
}

// head is what the cook says of the dish.
func (p *claimsPage) head() fyne.CanvasObject {
	p.version = parts.NewPicker(nil, "", "", func(s parts.Suggestion) {
		p.at = recipes.ID(s.Key)
		p.show()
	})
	p.dish = parts.NewPicker(p.dishes(), "", words.Say("claims.page.dish.hint"), func(s parts.Suggestion) {
		p.say(func(x *recipes.Says) { x.Dish = s.Key })
	})
	p.kind = parts.NewSegmented([]parts.Suggestion{
		{Key: string(claims.SingleFood), Text: claims.SingleFood.Phrase().String()},
		{Key: string(claims.MainDish), Text: claims.MainDish.Phrase().String()},
		{Key: string(claims.Meal), Text: claims.Meal.Phrase().String()},
	}, string(claims.SingleFood), func(key string) { p.say(func(x *recipes.Says) { x.Kind = key }) })
	p.cup = parts.NewNumberEntry("", "g", p.weighCup)
	p.cup.Width = 90
	p.cupRow = parts.Line(parts.GapSmall, parts.NewCaption(words.Say("claims.page.cup")), p.cup)
	p.liquid = parts.NewCheck(words.Say("claims.page.liquid"), false, func(on bool) { p.say(func(x *recipes.Says) { x.Liquid = on }) })
	p.asked = parts.Rows(parts.GapSmall)
	for name, o := range map[string]fyne.CanvasObject{"claims.version": p.version, "claims.dish": p.dish, "claims.kind": p.kind, "claims.cup": p.cup} {
		p.w.pin(name, o)
	}
	return parts.Rows(parts.GapSmall,
		parts.Flow(parts.GapMedium,
			parts.Line(parts.GapSmall, parts.NewCaption(words.Say("claims.page.version")), parts.Sized(200, p.version.MinSize().Height, p.version)),
			parts.Line(parts.GapSmall, parts.NewCaption(words.Say("claims.page.dish")), parts.Sized(320, p.dish.MinSize().Height, p.dish)),
			parts.Line(parts.GapSmall, parts.NewCaption(words.Say("claims.page.kind")), p.kind),
			p.cupRow, p.liquid),
		p.asked)
}

func (p *claimsPage) dishes() []parts.Suggestion {
	var out []parts.Suggestion
	for _, c := range claims.Categories() {
		out = append(out, parts.Suggestion{Key: c.Key, Text: c.Phrase().String()})
	}
	return out
}

// say keeps a changed answer about the dish.
func (p *claimsPage) say(change func(*recipes.Says)) {
	says := p.w.recipe().Says
	answers := map[string]string{}
	for q, a := range says.Answers {
		answers[q] = a
	}
	says.Answers = answers
	change(&says)
	p.w.do(recipes.SetSays(p.w.at.recipe, says))
}

func (p *claimsPage) weighCup(text string) {
	g, ok := reading.Grams(text)
	if text != "" && !ok {
		p.w.problem(sheets.Wrongly("claims.page.cup.wrong", text))
		return
	}
	p.say(func(x *recipes.Says) { x.CupG = g })
}

func (p *claimsPage) show() {
	r := p.w.recipe()
	p.bench = sheets.NewBench(p.w.book(), r)
	if p.recipe != r.ID {
		p.recipe, p.at, p.said = r.ID, "", ""
		p.headnote.Set("")
		if v := book.Printed(p.w.book(), r); v != nil {
			p.at = v.ID
		}
	}
	if p.said != r.Headnote { // written here before or on the printed page since
		p.said = r.Headnote
		p.headnote.Set(r.Headnote)
	}
	p.version.SetItems(p.versions())
	p.version.SetKey(string(p.at))
	p.dish.SetKey(r.Says.Dish)
	if r.Says.Kind != "" {
		p.kind.SetKey(r.Says.Kind)
	}
	p.liquid.Set(r.Says.Liquid)
	p.cup.Set(sheets.CupField(r.Says.CupG))
	p.sheet = p.bench.Claims(p.index())
	visible(p.cupRow, p.sheet.NeedCup || r.Says.CupG > 0)
	p.showAsked(r)
	p.main.Refresh() // the head may have got taller
	p.table.SetData(matrixOf(p.sheet.Sheet))
	printed := matrixOf(p.bench.Printed(p.index()))
	printed.Columns[0].Min, printed.Columns[0].Max = 96, 120
	p.printed.SetData(printed)
	row, _ := p.table.Selected()
	p.showDetail(row)
	p.showWords()
	p.fit()
}

// fit gives the cards at the right the height of what now stands in them.
func (p *claimsPage) fit() {
	p.cards.Refresh()
	p.side.Refresh()
}

func (p *claimsPage) versions() []parts.Suggestion {
	out := []parts.Suggestion{{Text: words.Say("original")}}
	for _, v := range p.bench.Versions[1:] {
		out = append(out, parts.Suggestion{Key: string(v.ID), Text: sheets.VersionName(v)})
	}
	return out
}

// index is the column of the version in sight.
func (p *claimsPage) index() int {
	for i, v := range p.bench.Versions {
		if v != nil && v.ID == p.at {
			return i
		}
	}
	p.at = ""
	return 0
}

// showAsked puts the questions some term waits for, with their answers.
func (p *claimsPage) showAsked(r *recipes.Recipe) {
	p.asked.Objects = nil
	for _, q := range claims.Questions {
		given := r.Says.Answers[string(q)]
		if given == "" && !waits(p.sheet.Asked, q) {
			continue
		}
		answer := parts.NewSegmented([]parts.Suggestion{
			{Key: "", Text: words.Say("claims.page.not-asked")},
			{Key: string(claims.Yes), Text: words.Say("claims.page.yes")},
			{Key: string(claims.No), Text: words.Say("claims.page.no")},
		}, given, func(key string) { p.say(func(x *recipes.Says) { x.Answers[string(q)] = key }) })
		p.w.pin("claims.ask:"+string(q), answer)
		p.asked.Add(parts.Stretch(parts.GapMedium, 0, parts.NewText(q.Phrase().String()), answer))
	}
	p.asked.Refresh()
}

func waits(asked []claims.Question, q claims.Question) bool {
	for _, a := range asked {
		if a == q {
			return true
		}
	}
	return false
}

// showDetail says all about the term in the selected row.
func (p *claimsPage) showDetail(row int) {
	p.detail.Objects = nil
	if row < 0 || row >= len(p.sheet.Results) || p.sheet.Results[row].Rule == nil {
		row = p.firstRow()
	}
	if row >= 0 {
		for _, b := range sheets.ClaimDetail(&p.sheet.Results[row], p.w.recipe().Title) {
			p.detail.Add(parts.NewBold(b.Title))
			for _, l := range b.Lines {
				p.detail.Add(parts.NewText(l))
			}
		}
	}
	p.detail.Refresh()
}

func (p *claimsPage) firstRow() int {
	for i := range p.sheet.Results {
		if p.sheet.Results[i].Rule != nil {
			return i
		}
	}
	return -1
}

// showWords checks the headnote as it stands in the field.
func (p *claimsPage) showWords() {
	p.words.Objects = nil
	found := p.bench.Headnote(p.index(), book.TitleOf(p.w.recipe())+". "+p.headnote.Text)
	for _, h := range found {
		p.words.Add(headBanner(h))
	}
	if len(found) == 0 && p.headnote.Text != "" {
		p.words.Add(parts.NewCaption(words.Say("claims.page.no-words")))
	}
	p.words.Refresh()
}

// headBanner says what is to be said of a word above a recipe.
func headBanner(h sheets.Headline) fyne.CanvasObject {
	tone := parts.ToneLook
	switch h.Mark {
	case sheets.Met:
		tone = parts.ToneGood
	case sheets.Wrong:
		tone = parts.ToneError
	}
	return parts.NewBanner(tone, words.Say("claims.page.word", h.Word, h.Says))
}
