package manuscript

import (
	"strconv"
	"strings"

	"parewell/recipes/words"
)

// say is short for the words of the papers.
func say(key string, args ...any) string { return words.Say("papers."+key, args...) }

// named is a column with its name from the words of the papers.
func named(key string, share float64) column { return column{head: say("col." + key), share: share} }

func (c column) numbers() column { c.right = true; return c }
func (c column) toWrite() column { c.blank = true; return c }
func (c column) inBold() column  { c.bold = true; return c }

// amounts sets what to cook of each pot, and the shopping list.
func (f *flow) amounts(p *TastingPapers) {
	if len(p.Pots) == 0 {
		return
	}
	f.open()
	f.heading(say("amounts.head", p.Dish), 15, 40)
	var rows []cells
	notes := map[string]bool{}
	for _, pot := range p.Pots {
		rows = append(rows, cells{text: []string{pot.Pot, strconv.Itoa(pot.Cups), pot.Need, pot.Once, pot.Times, pot.Makes, pot.From}})
		notes["amounts.at-least"] = notes["amounts.at-least"] || pot.AtLeast
		notes["amounts.unknown"] = notes["amounts.unknown"] || pot.Unknown
		notes["amounts.no-sheet"] = notes["amounts.no-sheet"] || pot.NoSheet
	}
	f.table([]column{
		named("pot", 3).inBold(), named("cups", 1.1).numbers(), named("needed", 1.6).numbers(), named("once", 1.9).numbers(),
		named("times", 1.7).numbers(), named("makes", 1.6).numbers(), named("from", 2.4),
	}, rows)
	for _, key := range []string{"amounts.at-least", "amounts.unknown", "amounts.no-sheet"} {
		if notes[key] {
			f.para(say(key), smallSize, false, true)
		}
	}
	f.shopping(p)
	f.number(0, f.part.Name())
}

// shopping sets the list: what is on hand struck off, what is not known said.
func (f *flow) shopping(p *TastingPapers) {
	if len(p.Shopping) == 0 {
		return
	}
	f.y += 6
	f.heading(say("shopping.head"), 13, 50)
	f.para(say("shopping.note"), smallSize, false, true)
	var rows []cells
	for _, x := range p.Shopping {
		rows = append(rows, cells{text: []string{"", x.FoodText(), x.Buy, x.About, x.OnHand, x.For}, struck: x.Done})
	}
	f.table([]column{
		{share: 0.35, box: true}, named("food", 4.3), named("buy", 1.8).numbers(), named("about", 1.8), named("on-hand", 1.4).numbers(), named("for", 2.1),
	}, rows)
}

// tests sets a test sheet for each pot, and marks them as the kitchen's.
func (f *flow) tests(p *TastingPapers) {
	for i := range p.Tests {
		pages := setSheet(f.paper, &p.Tests[i])
		for j := range pages {
			f.put(&pages[j], marginSide, f.paper.Height-footBase, smallSize, true, false, words.Say("papers.kitchen-only"))
			if len(pages) == 1 { // a longer sheet has its own
				f.putRight(&pages[j], f.paper.Width-marginSide, f.paper.Height-footBase, smallSize, false, true, say("sheet", i+1, len(p.Tests)))
			}
		}
		f.pages = append(f.pages, pages...)
	}
}

// run sets the run sheet: who does what, each wave worked back from its serving,
// then the trays, where codes meet samples.
func (f *flow) run(p *TastingPapers) {
	r := &p.Run
	f.open()
	f.heading(say("run.head", p.Dish), 15, 60)
	f.people(r)
	f.para(strings.Join(r.Facts, " · "), bodySize, false, false)
	for _, w := range r.Warnings {
		f.para(w, bodySize, true, false)
	}
	for _, s := range r.Sources {
		f.para(s, smallSize, false, true)
	}
	for i := range r.Waves {
		f.wave(&r.Waves[i], len(r.Waves))
	}
	f.trays(r)
	f.number(0, f.part.Name())
}

// people says who does what, with a line to write on for whom nobody has named; a
// name too long for its third of the line has a line of its own.
func (f *flow) people(r *Run) {
	third := (f.wide() - 2*columnGap) / 3
	var long []string
	f.y += 12
	for i, who := range []struct{ key, name string }{{"cooks", r.Cooks}, {"codes", r.Codes}, {"serves", r.Serves}} {
		label := say("run." + who.key)
		if f.width(label, smallSize, false)+5+f.width(f.printable(who.name), bodySize, true) > third {
			long = append(long, say("run.who", label, who.name))
			who.name = say("run.below")
		}
		f.blankLine(marginSide+float64(i)*(third+columnGap), f.y, third, label, who.name)
	}
	f.y += 12
	for _, l := range long {
		f.para(l, bodySize, false, false)
	}
}

// wave sets one round: what goes into the heat and when, then the cups.
func (f *flow) wave(w *Wave, of int) {
	f.y += 4
	head := say("run.one", w.Serve)
	if of > 1 {
		head = say("run.wave", w.Number, of, w.Serve)
	}
	fires, cups := fireRows(w), portionRows(w)
	f.heading(head, 12, min(f.tableHeight(fireColumns(), fires)+f.tableHeight(portionColumns(), cups)+20, f.bottom()-150))
	f.para(say("run.seats", spans(w.Seats)), smallSize, false, true)
	f.table(fireColumns(), fires)
	f.table(portionColumns(), cups)
}

func fireColumns() []column {
	return []column{
		named("pot", 2.4).inBold(), named("vessel", 2.6).toWrite(), named("heat", 1.2).toWrite(), named("on", 1.1).toWrite(), named("in", 1).toWrite(),
		named("minutes", 0.7).toWrite(), named("out", 1).toWrite(), named("portion", 1), named("late", 1.2), named("cooked", 1.3).numbers(),
	}
}

func fireRows(w *Wave) []cells {
	var rows []cells
	for _, x := range w.Fires {
		rows = append(rows, cells{text: []string{x.Pot, x.Vessel, x.Heat, x.On, x.In, x.Minutes, x.Out, x.Portion, x.Late, x.Grams}})
	}
	return rows
}

func portionColumns() []column {
	return []column{
		named("code", 1).inBold(), named("sample", 2.6), named("cups", 0.8).numbers(), named("each", 1).numbers(), named("all", 1.1).numbers(),
		named("celsius", 1.8).toWrite(), named("held", 1.8).toWrite(),
	}
}

func portionRows(w *Wave) []cells {
	var rows []cells
	for _, x := range w.Portions {
		code := x.Code
		if code == "" {
			code = say("run.by-tray")
		}
		rows = append(rows, cells{text: []string{code, x.Sample, strconv.Itoa(x.Cups), x.Each, x.All, "", ""}})
	}
	return rows
}

// trays sets what stands on each tray, with what is in it.
func (f *flow) trays(r *Run) {
	if len(r.Sheet) == 0 {
		return
	}
	most, open := 0, false
	for _, s := range r.Sheet {
		most, open = max(most, len(s.Cups)), open || s.Open.Sample != ""
	}
	cols := []column{named("wave", 0.7), named("seat", 0.7).inBold(), named("taster", 1.3)}
	if open {
		cols = append(cols, named("open", 1))
	}
	for i := range most {
		cols = append(cols, column{head: say("run.place", i+1), share: 9 / float64(max(6, most))})
	}
	var rows []cells
	for _, s := range r.Sheet {
		row := []string{strconv.Itoa(s.Wave), strconv.Itoa(s.Seat), s.Taster}
		if open {
			row = append(row, s.Open.Short)
		}
		for _, c := range s.Cups {
			row = append(row, say("run.cup", strconv.Itoa(c.Code), c.Short))
		}
		for len(row) < len(cols) {
			row = append(row, "")
		}
		rows = append(rows, cells{text: row})
	}
	f.y += 4
	// on one page where it can be, so that no row stands alone overleaf
	f.heading(say("run.trays"), 12, min(f.tableHeight(cols, rows)+20, f.bottom()-150))
	f.para(say("run.trays.note"), smallSize, false, true)
	f.table(cols, rows)
}

// spans writes numbers in rows as "1-8, 10, 12-14".
func spans(n []int) string {
	var out []string
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		switch {
		case j == i:
			out = append(out, strconv.Itoa(n[i]))
		default:
			out = append(out, strconv.Itoa(n[i])+"–"+strconv.Itoa(n[j]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}
