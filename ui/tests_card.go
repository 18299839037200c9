package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// testCard shows one test whole, with what can be done with it.
type testCard struct {
	p        *testsPage
	view     fyne.CanvasObject
	title    *parts.Text
	caption  *parts.Text
	average  *parts.Text
	aside    *parts.Button
	banner   *fyne.Container // why it does not count
	facts    *fyne.Container
	asCooked *parts.Matrix
	noCooked *parts.Text
	cooked   fyne.CanvasObject
	notes    *fyne.Container
	photos   *photoStrip
	scroll   *container.Scroll
	test     recipes.ID
}

func newTestCard(p *testsPage) *testCard {
	c := &testCard{p: p, title: parts.NewSubheading(""), caption: parts.NewCaption(""), average: parts.NewCaption("")}
	c.banner, c.facts, c.notes = parts.Rows(0), parts.Rows(3), parts.Rows(parts.GapSmall)
	c.asCooked = parts.NewMatrix()
	c.asCooked.Whole, c.asCooked.WholeRow = true, true
	c.asCooked.SetData(oneColumn())
	p.w.pin("tests.as-cooked", c.asCooked)
	c.noCooked = parts.NewCaption(words.Say("tests.as-written"))
	c.cooked = parts.NewTableCard("", "", c.asCooked)
	c.photos = newPhotoStrip(p.w)
	body := parts.Rows(parts.GapMedium, c.banner, c.facts,
		parts.NewSection(words.Say("tests.as-cooked.title")), c.noCooked, c.cooked,
		c.notes, parts.NewSection(words.Say("tests.photos")), c.photos.view)
	c.scroll = parts.Scrolled(parts.Pad(2, 12, 4, 0, body))
	c.asCooked.Outer = c.scroll
	head := parts.Rows(2, c.title, c.caption, c.average)
	c.view = parts.NewPanel(parts.GapMedium, parts.Fill(parts.GapSmall, 2, head, c.actions(), c.scroll))
	return c
}

// actions are the buttons of a test.
func (c *testCard) actions() fyne.CanvasObject {
	on := func(do func(*recipes.Batch)) func() {
		return func() {
			if t := c.p.current(); t != nil {
				do(t)
			}
		}
	}
	edit := parts.NewButton(parts.Plain, "edit", words.Say("tests.edit"), on(c.p.w.editTest))
	c.aside = parts.NewButton(parts.Plain, "remove", words.Say("tests.set-aside"), on(func(t *recipes.Batch) {
		if t.SetAside != "" {
			c.p.w.takeBack(t)
			return
		}
		c.p.w.setAside(t)
	}))
	remove := parts.NewButton(parts.Plain, "delete", words.Say("tests.remove"), on(c.p.remove))
	for name, b := range map[string]*parts.Button{"tests.edit": edit, "tests.set-aside": c.aside, "tests.remove": remove} {
		c.p.w.pin(name, b)
	}
	return parts.Flow(2, edit, c.aside, remove)
}

// show puts a test into the card.
func (c *testCard) show(t *recipes.Batch) {
	x := c.p.bench.TestCard(t)
	c.title.SetText(x.Title)
	c.caption.SetText(x.Caption)
	c.average.SetText(x.Average)
	key := "tests.set-aside"
	if t.SetAside != "" {
		key = "tests.take-back"
	}
	c.aside.SetText(words.Say(key))
	c.banner.Objects = nil
	if x.Aside != "" {
		c.banner.Add(parts.NewBanner(parts.ToneLook, x.Aside))
	}
	visible(c.banner, x.Aside != "")
	c.facts.Objects = nil
	for _, f := range x.Facts {
		c.facts.Add(parts.Columns(parts.GapSmall, []float32{1, 1}, muted(f.Name), parts.NewText(f.Value)))
	}
	visible(c.facts, len(x.Facts) > 0)
	c.showAsCooked(x.AsCooked)
	c.notes.Objects = nil
	for _, f := range x.Notes {
		c.notes.Add(parts.NewSection(f.Name))
		c.notes.Add(parts.NewText(f.Value))
	}
	visible(c.notes, len(x.Notes) > 0)
	c.photos.show(t)
	if c.test != t.ID {
		c.test = t.ID
		c.scroll.ScrollToTop()
	}
	c.scroll.Content.Refresh()
	c.scroll.Refresh()
}

func (c *testCard) showAsCooked(s sheets.Sheet) {
	some := len(s.Rows) > 0
	if some {
		d := matrixOf(s)
		d.Columns[0].Min, d.Columns[0].Max = 80, 112
		c.asCooked.SetData(d)
	}
	visible(c.cooked, some)
	visible(c.noCooked, !some)
}
