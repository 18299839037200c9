package ui

import (
	"context"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// ledgerPage is Keep or drop: what every swap takes off beside what it does to
// liking, the whole versions that outrank them, the best trade-offs and what to
// cook and taste next. What takes long is worked out beside the window.
type ledgerPage struct {
	w      *Window
	recipe recipes.ID
	ask    sheets.LedgerAsk
	l      *sheets.Ledger
	view   *sheets.LedgerView
	trades *sheets.Trades
	book   *recipes.Book // l is of, or is being made of
	chosen string        // key of the row chosen
	picked bool          // the nutrient was, not only taken
	tight  bool          // the tables have little room
	close  bool          // and even less
	narrow bool          // all stands under one another

	attribute, nutrient *parts.Picker
	limit               *parts.Entry
	limitRow            fyne.CanvasObject
	limitFault          *parts.Text // what is wrong with what was typed
	banners             *fyne.Container
	table               *parts.Matrix
	detail              *fyne.Container
	chart               *ledgerChart
	best                *ledgerBest
	next                *ledgerNext
	full, empty, wait   fyne.CanvasObject
	left, right         *container.Scroll
	main, side          *fyne.Container // what the two scroll
	why                 *parts.Panel    // around the detail
	outrank, ranges     *parts.Text
	under               fyne.CanvasObject // both, under the table, with what more is better of
}

func newLedgerPage(w *Window) page {
	return &ledgerPage{w: w, ask: sheets.LedgerAsk{Nutrient: food.EnergyKcal}}
}

func (p *ledgerPage) build() fyne.CanvasObject {
	p.banners = parts.Rows(parts.GapSmall)
	p.table = parts.NewMatrix()
	p.table.Whole, p.table.WholeRow = true, true
	p.table.OnSelect = func(row, _ int) { p.choose(row) }
	p.table.SetData(oneColumn())
	p.w.pin("ledger.table", p.table)
	p.detail = parts.Rows(parts.GapSmall)
	p.chart, p.best, p.next = newLedgerChart(p), newLedgerBest(p), newLedgerNext(p)
	p.why = parts.NewPanel(parts.GapLarge, p.detail)
	p.outrank = parts.NewCaption(words.Say("keep.wholes.outrank"))
	p.ranges = parts.NewCaption(words.Say("keep.range.plain"))
	p.under = parts.Pad(6, 12, 8, 12, parts.Rows(4, p.outrank, p.ranges, parts.NewCaption(words.Say("keep.lighter.not"))))
	p.main = parts.Rows(parts.GapMedium, p.tools(), p.banners, parts.NewTableCard("", "", parts.Rows(0, p.table, p.under)), p.chart.view, p.best.view)
	p.side = parts.Rows(parts.GapMedium, p.why, p.next.view)
	p.narrow, p.tight = false, false
	p.left = parts.Scrolled(parts.Pad(2, 12, 8, 2, p.main))
	p.right = parts.Scrolled(parts.Pad(2, 10, 8, 2, p.side))
	p.table.Outer, p.best.table.Outer = p.left, p.left
	p.full = container.New(&ledgerLayout{p}, p.left, p.right)
	p.empty = parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtScales, words.Say("keep.empty"), words.Say("keep.empty.sentence"),
		p.w.pin("ledger.empty.swaps", parts.NewButton(parts.Primary, "swaps", words.Say("versions.look-swaps"), func() {
			p.w.goTo(place{page: pageRecipe, recipe: p.w.at.recipe, tab: tabSwaps})
		}))))
	p.wait = parts.NewPanel(parts.GapMedium, parts.NewCaption(words.Say("keep.working")))
	p.full.Hide()
	p.empty.Hide()
	return stackOf(p.full, p.empty, parts.Rows(0, p.wait))
}

// tools choose what is shown: which score, which nutrient, which limit.
func (p *ledgerPage) tools() fyne.CanvasObject {
	p.attribute = parts.NewPicker(nil, "", "", func(s parts.Suggestion) { p.ask.Attribute = s.Key; p.lay(); p.trade() })
	p.nutrient = parts.NewPicker(ledgerNutrients(p.w.book()), p.ask.Nutrient.Key(), "", func(s parts.Suggestion) {
		p.ask.Nutrient, p.picked = nutrientOf(s.Key), true
		p.lay()
		p.trade()
	})
	p.limit = parts.NewEntry("", "", p.tryLimit) // takes letters too: what is no number is said to be none
	p.limitFault = parts.NewCaption("")
	p.limitFault.SetRole(parts.RoleError)
	p.limitFault.Hide()
	p.limit.Width = 64
	p.w.pin("ledger.attribute", p.attribute)
	p.w.pin("ledger.nutrient", p.nutrient)
	p.w.pin("ledger.limit", p.limit)
	named := func(label string, o fyne.CanvasObject) fyne.CanvasObject {
		return parts.Line(parts.GapSmall, parts.NewCaption(words.Say(label)), o)
	}
	p.limitRow = parts.Line(parts.GapSmall, parts.NewCaption(words.Say("keep.limit")), p.limit, parts.NewCaption(words.Say("keep.limit.unit")))
	return parts.Rows(4, parts.Flow(parts.GapLarge, named("keep.score", p.attribute), named("keep.saving", p.nutrient), p.limitRow), p.limitFault)
}

func ledgerNutrients(b *recipes.Book) []parts.Suggestion {
	var out []parts.Suggestion
	u := sheets.UnitsOf(b)
	for _, n := range sheets.LighterBy(u) {
		out = append(out, parts.Suggestion{Key: n.Key(), Text: u.Label(n)})
	}
	return out
}

// tryLimit sets another limit for the screen only; the recorded one stays.
func (p *ledgerPage) tryLimit(text string) {
	if p.l == nil {
		return
	}
	text = strings.TrimSpace(text)
	v, ok := reading.Number(text)
	if text != "" && (!ok || v <= 0 || v > 8) {
		p.refuseLimit(sheets.Wrongly("keep.limit.wrong", text))
		p.limit.Set(p.limitText())
		return
	}
	p.refuseLimit(nil)
	if text == "" || math.Abs(v-p.l.Limit()) < 1e-9 {
		v = 0
	}
	p.ask.Limit = v
	p.lay()
	p.trade()
}

// refuseLimit says beside the field why a limit was not taken, until one is; nil
// takes it off.
func (p *ledgerPage) refuseLimit(err error) {
	text := ""
	if err != nil {
		text = sheets.Sentence(err)
	}
	p.limitFault.SetText(text)
	visible(p.limitFault, err != nil)
	p.main.Refresh()
	p.left.Refresh()
}

// limitText is the limit in use, as the field shows it.
func (p *ledgerPage) limitText() string {
	switch {
	case p.ask.Limit > 0:
		return words.Field(p.ask.Limit, 2)
	case p.l != nil && p.l.Limit() > 0:
		return words.Field(p.l.Limit(), 2)
	}
	return ""
}

func (p *ledgerPage) show() {
	r := p.w.recipe()
	if p.limitFault != nil && p.limitFault.Visible() {
		p.refuseLimit(nil)
	}
	if r.ID != p.recipe {
		p.recipe, p.l, p.view, p.trades, p.book, p.chosen = r.ID, nil, nil, nil, nil, ""
		p.ask.Limit, p.ask.Attribute = 0, ""
	}
	if p.book != p.w.book() {
		p.book = p.w.book()
		if !p.picked {
			p.ask.Nutrient = sheets.UnitsOf(p.book).Of(food.EnergyKcal)
		}
		p.gather(r.ID)
	}
	p.lay()
}

// gathered is what came of working the ledger out.
type gathered struct {
	l   *sheets.Ledger
	err error
}

// gather works the ledger out beside the window; until then what was shown
// before stays.
func (p *ledgerPage) gather(id recipes.ID) {
	desk.Background(p.w.desk, "ledger", func(_ context.Context, b *recipes.Book) gathered {
		r := b.Recipe(id)
		if r == nil {
			return gathered{}
		}
		l, err := sheets.NewLedger(b, r)
		return gathered{l, err}
	}, func(g gathered) {
		if g.err != nil {
			p.w.problem(g.err)
		}
		if g.l == nil || g.err != nil || p.recipe != id {
			return
		}
		p.l, p.trades = g.l, nil
		p.lay()
		p.trade()
	})
}

// trade searches the combinations beside the window.
func (p *ledgerPage) trade() {
	l, ask := p.l, p.ask
	if l == nil || l.Swaps() == 0 {
		return
	}
	desk.Background(p.w.desk, "ledger.trades", func(ctx context.Context, _ *recipes.Book) sheets.Trades {
		return l.Trade(ctx, ask)
	}, func(t sheets.Trades) {
		if p.l != l {
			return
		}
		p.trades = &t
		p.lay()
	})
}

// lay puts what is known into the page.
func (p *ledgerPage) lay() {
	if p.table == nil {
		return
	}
	visible(p.wait, p.l == nil)
	visible(p.empty, p.l != nil && p.l.Swaps() == 0)
	visible(p.full, p.l != nil && p.l.Swaps() > 0)
	if p.l == nil || p.l.Swaps() == 0 {
		return
	}
	v, err := p.l.View(p.ask)
	if err != nil {
		p.w.problem(err)
		return
	}
	p.view = v
	p.showTools()
	p.showBanners()
	p.showTable()
	visible(p.outrank, len(v.Table.Wholes) > 0)
	visible(p.ranges, p.l.Tasted())
	p.under.Refresh()
	if p.chosen == "" || v.Detail(p.chosen).Title == "" {
		p.chosen = v.Sheet.Rows[0].Key
	}
	if p.table.SelectedKey() != p.chosen {
		p.table.SelectKey(p.chosen)
	}
	p.showDetail()
	p.chart.show()
	p.best.show()
	p.next.show()
	p.left.Content.Refresh()
	p.right.Content.Refresh()
	p.w.offerKeys() // the table was not there when the page was come to
}

// showTable gives each column its room; whole versions stand out.
func (p *ledgerPage) showTable() {
	if p.view == nil {
		return
	}
	d := matrixOf(p.view.Sheet)
	d.Columns[0].Min, d.Columns[0].Max = 150, 420
	d.Columns[3].Min, d.Columns[3].Max = 190, 420
	if p.tight {
		d.Columns[0].Max, d.Columns[3].Min = 180, 140
	}
	if p.close {
		d.Columns[0].Min, d.Columns[0].Max = 116, 134
	}
	for i := range d.Rows {
		if sheets.IsWhole(d.Rows[i].Key) {
			d.Rows[i].Kind = parts.RowTotal
		}
	}
	p.table.SetData(d)
}

func (p *ledgerPage) choose(row int) {
	if p.view == nil || row < 0 || row >= len(p.view.Sheet.Rows) || p.view.Sheet.Rows[row].Band {
		return
	}
	if key := p.view.Sheet.Rows[row].Key; key != p.chosen {
		p.chosen = key
		p.showDetail()
		p.right.Content.Refresh()
		p.right.ScrollToTop() // what was read there before may have been far down
	}
}

// ledger is the page, for the window's own acts on it.
func (w *Window) ledger() *ledgerPage {
	r, _ := w.pages[pageRecipe].(*recipePage)
	p, _ := r.inner[tabLedger].(*ledgerPage)
	return p
}
