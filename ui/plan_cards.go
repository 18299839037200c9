package ui

import (
	"maps"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

const (
	aimFind    = "find"
	aimSimilar = "similar"
)

// entry makes a field of the plan; what is typed is worked out at once.
func (p *planPage) entry(name, hint string, width float32) *parts.Entry {
	e := parts.NewEntry("", hint, nil)
	e.OnChanged = func(string) { p.work() }
	e.Width = width
	p.entries[name] = e
	p.w.pin("plan."+name, e)
	return e
}

// askCard is the question, and what belongs to it.
func (p *planPage) askCard() fyne.CanvasObject {
	p.ask = parts.NewMatrix()
	p.ask.WholeRow, p.ask.Headless, p.ask.Whole, p.ask.Stretch = true, true, true, true
	p.ask.SetData(matrixOf(sheets.PlanQuestions()))
	p.ask.OnSelect = func(row, _ int) {
		if row >= 0 && row < len(sheets.PlanTests) && sheets.PlanTests[row] != p.f.Test {
			if !tasting.Trays(p.f.Test) {
				p.read()
				p.wide = p.f
			}
			p.f = p.f.For(sheets.PlanTests[row], p.book(), p.base.Recipe, p.wide)
			p.entries["benchmark"].Set(p.f.Benchmark)
			p.limitFor()
			p.work()
		}
	}
	p.w.pin("plan.ask", p.ask)
	p.aim = parts.NewSegmented([]parts.Suggestion{{Key: aimFind, Text: words.Say("plan.aim.find")}, {Key: aimSimilar, Text: words.Say("plan.aim.similar")}}, aimFind,
		func(string) { p.work() })
	p.w.pin("plan.aim", p.aim)
	f := parts.NewForm()
	p.rows["aim"] = f.Row(words.Say("plan.aim"), p.aim, "", "")
	p.rows[sheets.PlanNamesField] = f.Row(words.Say("plan.attributes"), p.entry("attributes", words.Say("plan.attributes.hint"), 0), "", words.Say("plan.attributes.help"))
	p.rows["one"] = f.Row(words.Say("plan.one-thing"), p.entry("one", "", 220), "", words.Say("plan.one-thing.help"))
	p.rows[sheets.PlanLimitField] = f.Row(words.Say("plan.limit"), p.entry("limit", "", 90), words.Say("plan.limit.unit"), words.Say("plan.limit.help"))
	p.questions = f
	return parts.NewCard(words.Say("plan.ask"), "", parts.Rows(parts.GapMedium, p.ask, f))
}

// limitFor gives the limit the usual of another test: points of liking or a share
// of people.
func (p *planPage) limitFor() {
	limit := "0.5"
	if sheets.PlanLimitIsShare(p.f.Test) {
		limit = "0.3"
	}
	p.f.Limit = limit
	p.entries["limit"].Set(limit)
}

// servedCard is what is tasted.
func (p *planPage) servedCard() fyne.CanvasObject {
	p.served = parts.NewMatrix()
	p.served.Whole = true
	p.served.OnToggle = func(row, col int) {
		p.toggleServed(row, col)
		p.work()
	}
	p.w.pin("plan.served", p.served)
	f := parts.NewForm()
	f.Row(words.Say("plan.benchmark"), p.entry("benchmark", words.Say("plan.benchmark.hint"), 0), "", words.Say("plan.benchmark.help"))
	p.bench = p.packRow("benchmark", func() string { return p.f.Benchmark })
	p.rows["bench"] = f.Row("", p.bench.view, "", "")
	return parts.NewCard(words.Say("plan.served-title"), words.Say("plan.served.caption"),
		parts.Rows(parts.GapMedium, p.served, p.fault(sheets.PlanSamplesField), f))
}

// fault is the line under a table that says what is wrong with it.
func (p *planPage) fault(field string) *parts.Text {
	t := parts.NewCaption("")
	t.SetRole(parts.RoleError)
	t.Hide()
	p.faults[field] = t
	return t
}

// toggleServed takes a sample in or out, or gives it a second pot.
func (p *planPage) toggleServed(row, col int) {
	rows := p.served.Data().Rows
	if row < 0 || row >= len(rows) || col < 1 || col > 2 {
		return
	}
	if rows[row].Key == sheets.ServedOriginal {
		if col == 1 {
			p.f.Original = !p.f.Original
		} else {
			p.f.Twice = !p.f.Twice
		}
		return
	}
	id := recipes.ID(rows[row].Key)
	switch pots := p.f.Versions[id]; {
	case col == 1 && pots > 0:
		delete(p.f.Versions, id)
	case col == 1, pots > 1:
		p.f.Versions[id] = 1
	default:
		p.f.Versions[id] = 2
	}
}

// tastersCard is who sits down.
func (p *planPage) tastersCard() fyne.CanvasObject {
	p.tasters = parts.NewMatrix()
	p.tasters.Whole = true
	p.tasters.OnToggle = func(row, _ int) {
		if rows := p.tasters.Data().Rows; row >= 0 && row < len(rows) {
			id := recipes.ID(rows[row].Key)
			if _, out := p.plan.TasterAgainst(p.book().Panelist(id)); out {
				return // nobody can override it
			}
			p.f.Tasters[id] = !p.f.Tasters[id]
			p.work()
		}
	}
	p.w.pin("plan.tasters", p.tasters)
	f := parts.NewForm()
	p.rows[sheets.PlanEmptyField] = f.Row(words.Say("plan.empty"), p.entry("empty", "0", 80), "", "")
	return parts.NewCard(words.Say("plan.who"), words.Say("plan.who.caption"),
		parts.Rows(parts.GapMedium, p.tasters, p.fault(sheets.PlanSeatsField), f))
}

// howCard is day, time, portions and hands.
func (p *planPage) howCard() fyne.CanvasObject {
	a, b := parts.NewForm(), parts.NewForm()
	add := func(f *parts.Form, field, name, label, hint, unit, help string, width float32) {
		p.rows[field] = f.Row(words.Say(label), p.entry(name, hint, width), unit, help)
	}
	add(a, sheets.PlanDateField, "date", "plan.date", "", "", "", 130)
	add(a, sheets.PlanTimeField, "time", "plan.time", words.Say("plan.time.hint"), "", "", 90)
	add(a, sheets.PlanPortionField, "portion", "plan.portion", "", "g", "", 90)
	add(a, sheets.PlanSpareField, "spare", "plan.spare", "", "%", "", 90)
	add(a, sheets.PlanHoldsField, "holds", "plan.holds", "", "min", "", 90)
	add(a, sheets.PlanHeatField, "heat", "plan.heat", "", "°C", "", 90)
	add(a, sheets.PlanPerField, "per", "plan.per", words.Say("plan.per.hint"), "", "", 90)
	add(b, "name", "name", "plan.name", words.Say("plan.name.hint"), "", "", 0)
	add(b, "cooks", "cooks", "plan.cooks", "", "", "", 0)
	add(b, "codes", "codes", "plan.codes", "", "", "", 0)
	add(b, "serves", "serves", "plan.serves", "", "", words.Say("plan.hands.help"), 0)
	add(b, "cleanser", "cleanser", "plan.cleanser", words.Say("plan.cleanser.hint"), "", words.Say("plan.cleanser.help"), 0)
	p.clean = p.packRow("cleanser", func() string { return p.f.Cleanser })
	p.rows["clean"] = b.Row("", p.clean.view, "", "")
	add(b, "note", "note", "plan.note", "", "", "", 0)
	return parts.NewCard(words.Say("plan.how"), "", parts.Columns(parts.GapLarge, []float32{1, 1.3}, a, b))
}

// fill puts the plan into the fields.
func (p *planPage) fill() {
	f := p.f
	for name, text := range map[string]string{
		"attributes": f.Attributes, "one": f.Attributes, "limit": f.Limit, "benchmark": f.Benchmark, "empty": f.Empty, "date": f.Date, "time": f.Time,
		"portion": f.Portion, "spare": f.Spare, "holds": f.Holds, "heat": f.Heat, "per": f.PerSitting, "name": f.Name,
		"cooks": f.Cooks, "codes": f.Codes, "serves": f.Serves, "cleanser": f.Cleanser, "note": f.Note,
	} {
		p.entries[name].Set(text)
	}
	aim := aimFind
	if f.Similar {
		aim = aimSimilar
	}
	p.aim.SetKey(aim)
}

// read takes the fields back.
func (p *planPage) read() {
	e := func(name string) string { return p.entries[name].Text }
	f := &p.f
	f.Attributes = e("attributes")
	if f.Test == sheets.PlanOneThing {
		f.Attributes = e("one")
	}
	f.Limit, f.Benchmark, f.Empty, f.Date, f.Time = e("limit"), e("benchmark"), e("empty"), e("date"), e("time")
	f.Portion, f.Spare, f.Holds, f.Heat, f.PerSitting = e("portion"), e("spare"), e("holds"), e("heat"), e("per")
	f.Name, f.Cooks, f.Codes, f.Serves, f.Cleanser, f.Note = e("name"), e("cooks"), e("codes"), e("serves"), e("cleanser"), e("note")
	f.Similar = p.aim.Key() == aimSimilar
}

// showAsk marks the question and shows the fields that belong to it.
func (p *planPage) showAsk() {
	p.ask.SelectKey(p.f.Test)
	want := sheets.PlanWants(p.f.Test, p.f.Similar)
	for key, on := range map[string]bool{"aim": want.Aim, sheets.PlanNamesField: want.Names, "one": want.One, sheets.PlanLimitField: want.Limit} {
		if on {
			p.rows[key].Show()
		} else {
			p.rows[key].Hide()
		}
	}
	if want.Limit {
		row := p.rows[sheets.PlanLimitField]
		label, unit, help := sheets.PlanLimitWords(p.f.Test)
		row.SetLabel(label)
		row.SetUnit(unit)
		row.SetHelp(help)
	}
	p.clean.show(p.rows["clean"])
	p.bench.show(p.rows["bench"])
}

// packRow says what is written down of a thing's allergens, with the way to write
// it.
type packRow struct {
	p    *planPage
	name func() string
	view fyne.CanvasObject
	says *parts.Text
}

func (p *planPage) packRow(pin string, name func() string) *packRow {
	r := &packRow{p: p, name: func() string { return strings.TrimSpace(name()) }, says: parts.NewCaption("")}
	read := parts.NewButton(parts.Plain, "edit", words.Say("plan.check"), func() { p.readPack(r.name()) })
	p.w.pin("plan."+pin+".pack", read)
	r.view = parts.Rows(parts.GapSmall, r.says, parts.Line(0, read)) // below one another: the column is narrow
	return r
}

// show shows the row while there is such a thing.
func (r *packRow) show(row *parts.FormRow) {
	if r.name() == "" {
		row.Hide()
		return
	}
	r.says.SetText(sheets.PackText(r.p.f, r.name()))
	row.Show()
}

// readPack asks what the pack of a thing says, and works the plan out with it.
func (p *planPage) readPack(name string) {
	p.w.packDialog(name, food.Allergens{Contains: p.f.Packs[name]}, func(has food.Allergens) {
		packs := maps.Clone(p.f.Packs)
		if packs == nil {
			packs = map[string]food.Allergen{}
		}
		packs[name] = has.Contains | has.Depends
		p.f.Packs = packs
		p.work()
	})
}

// showTables brings what is served and who tastes up to date.
func (p *planPage) showTables() {
	served := matrixOf(sheets.PlanServed(p.book(), p.w.recipe(), p.f))
	served.Columns[0].Min = 190
	for i := 1; i <= 2; i++ {
		served.Columns[i].Align, served.Columns[i].Min = parts.AlignCentre, 76
	}
	p.served.SetData(served)
	who := matrixOf(sheets.PlanTasters(p.book(), p.f, p.plan))
	who.Columns[0].Min, who.Columns[0].Text = 130, false
	who.Columns[1].Align, who.Columns[1].Min = parts.AlignCentre, 76
	who.Columns[2].Max = 900
	who.Empty = words.Say("plan.who.none")
	p.tasters.SetData(who)
}
