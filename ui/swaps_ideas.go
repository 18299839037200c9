package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/analysis/effects"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// ideaCards shows the catalogue's ideas for one ingredient, each with what it
// would do to this dish before it is taken.
type ideaCards struct {
	p      *swapsPage
	view   fyne.CanvasObject
	head   *fyne.Container
	title  *parts.Text
	into   *parts.Picker
	intoIn fyne.CanvasObject
	list   *fyne.Container
	scroll *container.Scroll
	found  found
	shown  found           // what the cards were made of
	swaps  []*recipes.Swap // that were there when they were made
	ticks  string
	next   recipes.ID // a version being made for an idea, chosen once it is there
}

// found is what the catalogue had for a line.
type found struct {
	recipe *recipes.Recipe
	line   recipes.ID
	ideas  []effects.Fitted
	err    error
}

// newVersionKey stands for a version not made yet.
const newVersionKey = "new"

func newIdeaCards(p *swapsPage) *ideaCards {
	c := &ideaCards{p: p, title: parts.NewBold(""), list: parts.Rows(parts.GapMedium)}
	c.into = parts.NewPicker(nil, "", "", func(parts.Suggestion) { c.cards() })
	c.intoIn = parts.Line(parts.GapSmall, parts.NewCaption(words.Say("ideas.into")), c.into)
	p.w.pin("ideas.into", c.into)
	c.scroll = parts.Scrolled(parts.Pad(0, 12, 0, 0, c.list))
	c.head = parts.Line(parts.GapSmall, c.title, parts.Spring(), c.intoIn)
	c.view = parts.NewPanel(parts.GapMedium, parts.Fill(parts.GapSmall, 1, c.head, c.scroll))
	return c
}

// show brings the cards up to date, fetching the ideas beside the window when
// the ingredient or the recipe is another.
func (c *ideaCards) show() {
	r, line := c.p.w.recipe(), c.p.sources.line
	l := r.Line(line)
	if l == nil {
		headed(c.head, c.title, words.Say("ideas.title.none"))
		c.say(words.Say("ideas.none.sentence"))
		return
	}
	headed(c.head, c.title, words.Say("ideas.title", sheets.LineName(l)))
	c.showInto()
	if c.found.recipe == r && c.found.line == line {
		c.cards()
		return
	}
	desk.Background(c.p.w.desk, "ideas.fit", func(_ context.Context, b *recipes.Book) found {
		return c.fit(b, r, l)
	}, func(f found) {
		c.found = f
		if now := c.p.w.recipe(); now == r && c.p.sources.line == line {
			c.cards()
		}
	})
}

func (c *ideaCards) fit(b *recipes.Book, r *recipes.Recipe, l *recipes.Line) found {
	f := found{recipe: r, line: l.ID}
	catalogue, err := c.p.w.desk.Ideas()
	if err != nil {
		f.err = err
		return f
	}
	f.ideas, f.err = effects.Fit(catalogue, r, l, b.Food, c.p.w.newID)
	return f
}

// showInto lists the versions an idea can be ticked in.
func (c *ideaCards) showInto() {
	key := c.into.Key()
	if c.next != "" && c.p.w.book().Version(c.p.recipe, c.next) != nil {
		key, c.next = string(c.next), ""
	}
	var items []parts.Suggestion
	for _, v := range sheets.TickChoices(c.p.sheet.Versions) {
		items = append(items, parts.Suggestion{Key: v[0], Text: v[1]})
	}
	items = append(items, parts.Suggestion{Key: newVersionKey, Text: words.Say("ideas.new-version")})
	c.into.SetItems(items)
	c.into.SetKey(key)
	if c.into.Key() == "" {
		c.into.SetKey(items[0].Key)
	}
}

// cards makes the cards anew when what they say has changed.
func (c *ideaCards) cards() {
	swaps := c.p.w.book().Swaps(c.p.recipe)
	if c.same(swaps) {
		return
	}
	other := c.shown.line != c.found.line || c.shown.recipe == nil || c.shown.recipe.ID != c.found.recipe.ID
	c.shown, c.swaps, c.ticks = c.found, swaps, c.into.Key()
	switch {
	case c.found.err != nil:
		c.say(c.found.err.Error())
	case len(c.found.ideas) == 0:
		c.say(words.Say("ideas.empty"))
	default:
		c.list.Objects = nil
		for _, card := range sheets.UnitsOf(c.p.w.book()).IdeaCards(c.found.ideas, swaps) {
			c.list.Add(c.card(card))
		}
		c.list.Refresh()
	}
	if other {
		c.scroll.ScrollToTop()
	}
	c.scroll.Refresh()
}

func (c *ideaCards) same(swaps []*recipes.Swap) bool {
	if c.shown.recipe != c.found.recipe || c.shown.line != c.found.line || c.ticks != c.into.Key() || len(swaps) != len(c.swaps) {
		return false
	}
	for i := range swaps {
		if swaps[i] != c.swaps[i] {
			return false
		}
	}
	return true
}

// say puts one sentence in place of the cards.
func (c *ideaCards) say(sentence string) {
	c.shown = found{}
	c.list.Objects = []fyne.CanvasObject{parts.NewCaption(sentence)}
	c.list.Refresh()
}

// card is one idea: its name and buttons, what it does, what to mind.
func (c *ideaCards) card(card sheets.IdeaCard) fyne.CanvasObject {
	head := append([]fyne.CanvasObject{parts.NewBold(card.Title), parts.Spring()}, c.takers(card)...)
	figures := parts.Line(parts.GapMedium)
	for _, f := range card.Figures {
		figures.Add(figureText(f))
	}
	rows := []fyne.CanvasObject{parts.Line(parts.GapSmall, head...), figures}
	if card.Rises != "" {
		rows = append(rows, lookLine(words.Say("tip.slipped", card.Rises)))
	}
	for _, s := range card.Cautions {
		rows = append(rows, lookLine(s))
	}
	for _, f := range card.Says {
		rows = append(rows, passage(f.Head, f.Text))
	}
	return parts.Rows(6, append(rows, parts.NewRule())...)
}

// figureText is a change with its name, in the colour of its way.
func figureText(f sheets.Figure) fyne.CanvasObject {
	value := parts.NewText(f.Text)
	value.OneLine = true
	switch {
	case f.Lighter:
		value.SetRole(parts.RoleLighter)
	case f.Heavier:
		value.SetRole(parts.RoleHeavier)
	}
	return parts.Line(5, parts.NewCaption(f.Name), value)
}

// takers are the buttons that take an idea, or the mark that it is taken.
func (c *ideaCards) takers(card sheets.IdeaCard) []fyne.CanvasObject {
	if card.Taken != nil {
		see := parts.NewButton(parts.Plain, "swaps", words.Say("ideas.see"), func() { c.p.table.SelectKey(string(card.Taken.ID)); c.p.choose(card.Taken.ID) })
		return []fyne.CanvasObject{parts.NewChip(parts.ToneGood, "check", words.Say("ideas.taken")), see}
	}
	add := parts.NewButton(parts.Quiet, "add", words.Say("ideas.add"), func() { c.take(card, "") })
	c.p.w.pin("idea.add:"+card.Key, add)
	key := c.into.Key()
	label := words.Say("ideas.add-new")
	if v := c.p.w.book().Version(c.p.recipe, recipes.ID(key)); v != nil {
		label = words.Say("ideas.add-tick", v.Letter)
	}
	tick := parts.NewButton(parts.Quiet, "check", label, func() { c.take(card, key) })
	c.p.w.pin("idea.tick:"+card.Key, tick)
	return []fyne.CanvasObject{add, tick}
}

// take makes the swap of an idea, and ticks it in a version, or in a new one.
func (c *ideaCards) take(card sheets.IdeaCard, version string) {
	s := *card.Fitted.Effect.Swap
	foods := card.Fitted.Idea.Foods
	if version != newVersionKey {
		c.p.w.do(recipes.AddSwap(&s, foods, recipes.ID(version)))
		return
	}
	id := c.p.w.newID()
	c.next = id // the next idea goes into the version just made
	c.p.w.do(recipes.All(words.P("did.add-swap", s.Name), c.p.recipe,
		recipes.AddVersion(c.p.recipe, id, "", ""), recipes.AddSwap(&s, foods, id)))
}
