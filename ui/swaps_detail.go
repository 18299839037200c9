package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// swapCard shows one swap: what it does, its part in each version, when it
// works and fails, what to mind, and what can be done with it.
type swapCard struct {
	p         *swapsPage
	view      fyne.CanvasObject
	title     *parts.Text
	buttons   *fyne.Container
	strengths *parts.Button
	join      *parts.Button
	versions  *fyne.Container
	body      *fyne.Container
	grid      *fyne.Container // its part in each version
	notes     *fyne.Container // sentences, rebuilt when the swap changes
	note      *parts.Entry
	scroll    *container.Scroll
	catalogue *ideas.Catalogue
	swap      *recipes.Swap
}

func newSwapCard(p *swapsPage) *swapCard {
	c := &swapCard{p: p, title: parts.NewBold(""), notes: parts.Rows(parts.GapSmall), versions: parts.Line(6)}
	c.grid = parts.Rows(4)
	c.note = parts.NewTextArea("", words.Say("swap.note.hint"), 2, c.keepNote)
	p.w.pin("swap.note", c.note)
	c.scroll = parts.Scrolled(parts.Pad(0, 12, 4, 0, parts.Rows(parts.GapMedium, c.grid, c.notes, c.note)))
	head := parts.Line(parts.GapSmall, c.title, parts.Spring(), c.versions)
	c.body = parts.Fill(4, 2, head, c.actions(), c.scroll)
	c.view = parts.NewPanel(parts.GapMedium, c.body)
	return c
}

// actions are the buttons of a swap.
func (c *swapCard) actions() fyne.CanvasObject {
	button := func(icon, key string, do func(*recipes.Swap)) *parts.Button {
		b := parts.NewButton(parts.Plain, icon, words.Say(key), func() {
			if c.swap != nil {
				do(c.swap)
			}
		})
		c.p.w.pin(key, b)
		return b
	}
	c.strengths = button("swaps", "swap.strengths", c.p.w.swapStrengths)
	c.join = button("add", "swap.join", c.p.w.joinSwaps)
	c.buttons = parts.Line(2,
		button("note", "swap.rename", c.p.rename), button("edit", "swap.edit", c.p.w.editSwap),
		c.strengths, c.join, button("delete", "swap.remove", c.p.remove))
	return c.buttons
}

// show puts a swap into the card. Its cautions need the catalogue, which is
// fetched beside the window the first time.
func (c *swapCard) show(sw *recipes.Swap) {
	if sw == nil {
		return
	}
	if c.catalogue == nil {
		c.fetch()
	}
	other := c.swap == nil || c.swap.ID != sw.ID
	c.swap = sw
	d := c.p.bench.SwapDetail(sw, c.catalogue)
	c.title.SetText(sw.Name)
	c.showParts(d.Parts)
	c.showVersions(sw)
	c.showSays(d)
	c.note.Set(sw.Note)
	c.strengths.SetEnabled(sheets.HasStrengths(sw))
	c.join.SetEnabled(len(c.p.w.book().Swaps(sw.Recipe)) > 1)
	if other {
		c.scroll.ScrollToTop()
	}
	c.body.Refresh() // a longer name or more versions move what stands beside them
}

func (c *swapCard) fetch() {
	desk.Background(c.p.w.desk, "ideas.catalogue", func(context.Context, *recipes.Book) *ideas.Catalogue {
		found, err := c.p.w.desk.Ideas()
		if err != nil {
			return nil // the ideas beside it say why
		}
		return found
	}, func(found *ideas.Catalogue) {
		if c.catalogue = found; found != nil && c.view.Visible() {
			c.show(c.swap)
		}
	})
}

// showVersions offers a box a version to tick the swap in.
func (c *swapCard) showVersions(sw *recipes.Swap) {
	c.versions.Objects = nil
	if len(c.p.sheet.Versions) > 0 {
		c.versions.Add(parts.NewCaption(words.Say("swap.on-in")))
	}
	for _, v := range c.p.sheet.Versions {
		box := parts.NewCheck(v.Letter, v.Has(sw.ID), func(on bool) { c.p.tick(sw, v, on) })
		c.p.w.pin("swap.in:"+v.Letter, box)
		c.versions.Add(box)
	}
	visible(c.versions, len(c.versions.Objects) > 0)
}

// showParts sets what the swap does alone beside its part in each version.
func (c *swapCard) showParts(s sheets.Sheet) {
	head := []fyne.CanvasObject{parts.NewCaption(s.Corner)}
	for _, col := range s.Columns {
		t := parts.NewCaption(words.Say("nutrient.with-unit", col.Title, col.Sub))
		t.Align = fyne.TextAlignTrailing
		head = append(head, t)
	}
	c.grid.Objects = []fyne.CanvasObject{partsRow(head), parts.NewRule()}
	for _, r := range s.Rows {
		row := []fyne.CanvasObject{parts.NewText(r.Label.Text)}
		for _, cell := range r.Cells {
			t := parts.NewText(cell.Text)
			t.Align = fyne.TextAlignTrailing
			if cell.Mark == sheets.Look {
				t.Bold = true
				t.SetText(words.Say("swap.part-other", cell.Text))
			}
			row = append(row, t)
		}
		c.grid.Add(partsRow(row))
	}
}

// partsRow is one row of that table: the name, then the figures.
func partsRow(cells []fyne.CanvasObject) fyne.CanvasObject {
	shares := []float32{1.8}
	for range cells[1:] {
		shares = append(shares, 1)
	}
	return parts.Columns(parts.GapSmall, shares, cells...)
}

// showSays writes the sentences about the swap.
func (c *swapCard) showSays(d sheets.SwapDetail) {
	c.notes.Objects = nil
	if d.Differs {
		c.notes.Add(parts.NewCaption(words.Say("swap.differs")))
	}
	if d.Rises != "" {
		c.notes.Add(lookLine(words.Say("tip.slipped", d.Rises)))
	}
	for _, s := range d.Cautions {
		c.notes.Add(lookLine(s))
	}
	c.notes.Add(passage(words.Say("swap.does"), strings.Join(d.Does, "\n")))
	for _, f := range d.Says {
		c.notes.Add(passage(f.Head, f.Text))
	}
}

// lookLine is a sentence worth a look, with its mark.
func lookLine(text string) fyne.CanvasObject {
	return parts.Stretch(6, 1, parts.NewIcon("look", parts.RoleLook, 16), parts.NewText(text))
}

// passage is a small heading with a text beside it.
func passage(head, text string) fyne.CanvasObject {
	return parts.Columns(parts.GapMedium, []float32{1, 4}, parts.NewCaption(head), parts.NewText(text))
}

func (c *swapCard) keepNote(text string) {
	if c.swap == nil {
		return
	}
	changed := *c.swap
	changed.Note = strings.TrimSpace(text)
	c.p.w.do(recipes.EditSwap(&changed, nil))
}
