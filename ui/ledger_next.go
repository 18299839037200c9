package ui

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"

	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// ledgerBest is the list of the best trade-offs, with what stands beside it.
type ledgerBest struct {
	p      *ledgerPage
	table  *parts.Matrix
	note   *parts.Text
	beside *fyne.Container
	view   *parts.Panel
}

func newLedgerBest(p *ledgerPage) *ledgerBest {
	b := &ledgerBest{p: p, table: parts.NewMatrix(), note: parts.NewCaption(""), beside: parts.Rows(2)}
	b.table.Whole, b.table.WholeRow = true, true
	b.table.SetData(oneColumn())
	p.w.pin("ledger.best", b.table)
	under := parts.Pad(8, parts.GapLarge, parts.GapMedium, parts.GapLarge, parts.Rows(4, b.note, b.beside))
	b.view = parts.NewTableCard(words.Say("keep.best.title"), words.Say("keep.best.caption"), parts.Rows(0, b.table, under))
	return b
}

// show lists what the search found.
func (b *ledgerBest) show() {
	t := b.p.trades
	if b.p.l == nil {
		return
	}
	visible(b.view, b.p.l.Tasted())
	if t == nil {
		b.say(words.Say("keep.best.working"), nil)
		return
	}
	if t.Err != nil {
		text := ""
		if !errors.Is(t.Err, context.Canceled) {
			text = t.Err.Error()
		}
		b.say(text, nil)
		return
	}
	s := t.Sheet()
	d := matrixOf(s)
	d.Columns[0].Min, d.Columns[0].Max = 170, 480
	d.Columns[3].Min, d.Columns[3].Max = 180, 420
	if b.p.tight {
		d.Columns[0].Max = 210
	}
	b.table.SetData(d)
	visible(b.table, len(s.Rows) > 0)
	b.say(t.Foot(), t.Beside())
}

func (b *ledgerBest) say(text string, beside []string) {
	b.note.SetText(text)
	visible(b.note, text != "")
	b.beside.Objects = nil
	for _, s := range beside {
		b.beside.Add(parts.NewCaption(s))
	}
	b.beside.Refresh()
}

// ledgerNext says the one thing to do next, why, and offers it and the other way
// on.
type ledgerNext struct {
	p    *ledgerPage
	body *fyne.Container
	view fyne.CanvasObject
}

func newLedgerNext(p *ledgerPage) *ledgerNext {
	n := &ledgerNext{p: p, body: parts.Rows(parts.GapSmall)}
	n.view = parts.NewCard(words.Say("keep.next"), "", n.body)
	return n
}

func (n *ledgerNext) show() {
	t := n.p.trades
	n.body.Objects = nil
	visible(n.view, t == nil || t.Next != nil)
	if t == nil {
		n.body.Add(parts.NewCaption(words.Say("keep.best.working")))
		n.body.Refresh()
		return
	}
	c := t.Card()
	n.body.Add(parts.NewBold(c.Step))
	n.say(c.Why)
	n.act(c.First, parts.Quiet)
	n.act(c.Second, parts.Plain)
	if len(c.Samples) > 0 {
		n.body.Add(parts.NewSection(words.Say("keep.next.serves")))
		for _, s := range c.Samples {
			n.body.Add(parts.Stretch(parts.GapSmall, 1, parts.NewIcon("pot", parts.RoleMuted, 16), parts.NewText(s)))
		}
		n.body.Add(parts.NewSection(words.Say("keep.next.tells")))
		n.say(c.Tells)
	}
	n.body.Refresh()
}

// act puts in the button of an act, if there is one.
func (n *ledgerNext) act(a sheets.NextAct, kind parts.ButtonKind) {
	switch a.Kind {
	case sheets.NextDraft:
		n.add("ledger.draft", kind, "add", a.Label, func() { n.p.draftVersion(a.On) })
	case sheets.NextOpen:
		n.add("ledger.open", kind, "open", a.Label, func() { n.p.w.showVersion(n.p.recipe, a.Version) })
	case sheets.NextHeld:
		n.add("ledger.held", kind, "tasting", a.Label, func() { n.p.w.showTastings(n.p.recipe, a.Tasting) })
	case sheets.NextPlan:
		n.add("ledger.plan-next", kind, "tasting", a.Label, n.plan)
	}
}

func (n *ledgerNext) say(all []string) {
	for _, s := range all {
		n.body.Add(parts.NewText(s))
	}
}

func (n *ledgerNext) add(pin string, kind parts.ButtonKind, icon, label string, press func()) {
	b := parts.NewButton(kind, icon, label, press)
	n.p.w.pin(pin, b)
	n.body.Add(parts.Line(0, b))
}

// plan opens the planner on the proposed tasting; versions it lacks are drafted
// when the plan is kept.
func (n *ledgerNext) plan() {
	if t := n.p.trades; t != nil {
		n.p.w.planOf(n.p.l.PlanNext(t.Card().Plan, n.p.w.newID))
	}
}
