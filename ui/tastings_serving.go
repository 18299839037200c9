package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// servingTasting takes the scores of a tasting that is serving. It is blind: only
// codes are here, in the order of the codes.
type servingTasting struct {
	w              *Window
	t              *recipes.Tasting
	title, caption *parts.Text
	grid           *scoreGrid
	tools          *fyne.Container // question, order, second entry
	missing        *parts.Text
	settle         *parts.Button
	phone          *parts.Button
	laid           string // the tasting the tools were laid out for
	page           *fyne.Container
}

func (p *servingTasting) build() fyne.CanvasObject {
	p.title, p.caption = parts.NewSubheading(""), parts.NewCaption("")
	p.grid = newScoreGrid(p.w)
	p.grid.menu = p.seatMenu
	p.w.pin("tastings.grid", p.grid.table)
	p.w.pin("tastings.where", p.grid.where)
	end := p.w.pin("tastings.close", parts.NewButton(parts.Primary, "check", words.Say("tastings.close"), func() { p.w.closeTasting(p.t) }))
	p.phone = parts.NewButton(parts.Quiet, "phone", words.Say("tastings.phones"), func() { p.w.phones(p.t) })
	p.w.pin("tastings.phones", p.phone)
	buttons := parts.Flow(
		parts.GapSmall,
		p.w.pin("tastings.screen", parts.NewButton(parts.Quiet, "tasters", words.Say("tastings.screen"), func() { p.w.ballotHere(p.t, 0) })),
		p.phone,
		p.w.pin("tastings.people", p.menuButton("tasters", "tastings.people", p.peopleItems)),
		p.w.pin("tastings.more", p.menuButton("more", "tastings.more", p.moreItems)),
	)
	p.tools = parts.Flow(parts.GapMedium)
	p.missing = parts.NewBold("")
	p.settle = parts.NewButton(parts.Quiet, "look", words.Say("tastings.settle"), func() { p.w.settleDifferences(p.t) })
	p.w.pin("tastings.settle", p.settle)
	p.w.pin("tastings.missing", p.missing)
	foot := parts.Stretch(parts.GapSmall, 0, p.missing, p.settle)
	head := parts.Rows(2, parts.Stretch(parts.GapSmall, 0, p.title, end), p.caption)
	p.page = parts.Fill(parts.GapSmall, 4, head, buttons, p.tools, p.grid.where, parts.NewTableCard("", "", p.grid.table), foot)
	return parts.Pad(0, mealEdge, 0, mealEdge, p.page)
}

// menuButton is a button that opens a menu under itself.
func (p *servingTasting) menuButton(icon, key string, items func() []parts.MenuItem) *parts.Button {
	var b *parts.Button
	b = parts.NewButton(parts.Quiet, icon, words.Say(key), func() { parts.ShowMenuUnder(b, items()...) })
	return b
}

func (p *servingTasting) show(t *recipes.Tasting) {
	p.t = t
	p.title.SetText(sheets.TastingTitle(t))
	p.caption.SetText(sheets.ServingCaption(p.w.book(), t))
	p.grid.show(t)
	if p.laid != string(t.ID) {
		p.laid = string(t.ID)
		p.showTools()
		p.grid.say(parts.RoleMuted, words.Say("tastings.grid.hint"))
	}
	p.missing.SetText(sheets.MissingText(p.w.book(), t))
	visible(p.settle, len(tasting.Disagreements(p.w.book(), t)) > 0)
	label := words.Say("tastings.phones")
	if p.w.phonesOn(t.ID) {
		label = words.Say("tastings.phones.on")
	}
	p.phone.SetText(label)
	p.page.Refresh()
}

// showTools offers which question is shown where there are several, how the
// keyboard goes on, and the second entry.
func (p *servingTasting) showTools() {
	p.tools.Objects = nil
	g := p.grid
	if all := sheets.ScoreQuestions(p.t); len(all) > 2 || len(g.grid.Columns) > 12 {
		items := []parts.Suggestion{{Key: allQuestions, Text: words.Say("tastings.questions.all")}}
		for _, q := range all {
			items = append(items, parts.Suggestion{Key: q[0], Text: q[1]})
		}
		p.tools.Add(p.w.pin("tastings.question", parts.NewSegmented(items, allQuestions, func(key string) {
			if g.only = key; key == allQuestions {
				g.only = ""
			}
			g.show(p.t)
		})))
	}
	way := goAlongTray
	if !g.tray {
		way = goAlongRow
	}
	p.tools.Add(p.w.pin("tastings.order", parts.NewSegmented([]parts.Suggestion{
		{Key: goAlongTray, Text: words.Say("tastings.order.tray")}, {Key: goAlongRow, Text: words.Say("tastings.order.row")},
	}, way, func(key string) { g.tray = key == goAlongTray })))
	p.tools.Add(p.w.pin("tastings.second", parts.NewCheck(words.Say("tastings.second"), g.source == recipes.FromSecond, func(on bool) {
		if g.source = recipes.FromPaper; on {
			g.source = recipes.FromSecond
		}
		clear(g.wrong)
		g.show(p.t)
		g.begin(-1)
	})))
	if !tasting.Blind(p.t) {
		p.tools.Add(p.dateField())
	}
	p.tools.Refresh()
}

// dateField is the day that answers of a dish taken home are of.
func (p *servingTasting) dateField() fyne.CanvasObject {
	var e *parts.Entry
	e = parts.NewEntry(p.grid.date, words.Say("tastings.day.hint"), func(text string) {
		day, ok := sheets.ReadDay(text)
		if !ok {
			p.w.trouble(words.Say("error.date", text))
			e.Set(p.grid.date)
			return
		}
		p.w.mended()
		p.grid.date = sheets.Today(day)
		p.grid.show(p.t)
	})
	e.Width = 130
	p.w.pin("tastings.day", e)
	return parts.Line(parts.GapSmall, parts.NewCaption(words.Say("tastings.day")), e)
}

func (p *servingTasting) moreItems() []parts.MenuItem {
	return []parts.MenuItem{
		{Icon: "pot", Label: words.Say("tastings.cooked"), Do: func() { p.w.sampleFacts(p.t) }},
		{Icon: "print", Label: words.Say("tastings.papers"), Do: func() { p.w.printPapers(p.t) }},
		{},
		{Icon: "import", Label: words.Say("tastings.read"), Do: func() { p.w.readScores(p.t, "") }},
		{Icon: "export", Label: words.Say("tastings.write"), Do: func() { p.w.writeBallots(p.t, false) }},
		{Icon: "export", Label: words.Say("tastings.write-blank"), Do: func() { p.w.writeBallots(p.t, true) }},
	}
}

func (p *servingTasting) peopleItems() []parts.MenuItem {
	return []parts.MenuItem{
		{Icon: "add", Label: words.Say("tastings.late-taster"), Do: func() { p.w.lateTaster(p.t) }},
		{Icon: "tasters", Label: words.Say("tastings.seat-somebody"), Do: func() { p.w.seatSomebody(p.t, 0) }, Disabled: len(sheets.EmptySeats(p.t)) == 0},
		{Icon: "clock", Label: words.Say("tastings.away"), Do: func() { p.w.stayedAway(p.t, 0) }},
	}
}

// seatMenu is what can be done with one seat.
func (p *servingTasting) seatMenu(row int, at fyne.Position) {
	if row < 0 || row >= len(p.t.Seats) {
		return
	}
	seat := p.t.Seats[row]
	if seat.Panelist == "" {
		parts.ShowMenu(p.grid.table, at, parts.MenuItem{Icon: "tasters", Label: words.Say("tastings.seat-somebody"), Do: func() { p.w.seatSomebody(p.t, seat.Number) }})
		return
	}
	away := parts.MenuItem{Icon: "clock", Label: words.Say("tastings.away"), Do: func() { p.w.stayedAway(p.t, seat.Number) }}
	if seat.Away != "" {
		away = parts.MenuItem{Icon: "check", Label: words.Say("tastings.came"), Do: func() { p.w.do(tasting.Away(p.t.ID, seat.Number, "")) }}
	}
	parts.ShowMenu(p.grid.table, at,
		parts.MenuItem{Icon: "edit", Label: words.Say("tastings.type-ballot"), Do: func() { p.grid.begin(row) }},
		parts.MenuItem{Icon: "tasters", Label: words.Say("tastings.screen"), Do: func() { p.w.ballotHere(p.t, seat.Number) }},
		away)
}
