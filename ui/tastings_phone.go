package ui

import (
	"context"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/phone"
	"parewell/ui/sheets"
)

// phoneHouse lets tasters answer on their own phones while a tasting serves. It
// is off until the cook turns it on.
type phoneHouse struct {
	w       *Window
	id      recipes.ID // the tasting it serves
	server  *phone.Server
	seats   []int
	tickets map[recipes.ID]*phone.Tickets // handed out before, by tasting
	busy    bool                          // opening or closing
	dialog  *phoneDialog
}

// phonesOn tells whether phones can answer at a tasting now.
func (w *Window) phonesOn(id recipes.ID) bool {
	h := w.tastings().phones
	return h.server != nil && h.id == id
}

// phonesOff stops taking answers from phones at a tasting.
func (w *Window) phonesOff(id recipes.ID) {
	if h := w.tastings().phones; h.server != nil && h.id == id {
		h.turn(nil)
	}
}

// turn opens the page for a tasting, or closes it with nil. It works beside the
// window: an answer that is being saved is let finish.
func (h *phoneHouse) turn(t *recipes.Tasting) {
	if h.busy {
		return
	}
	h.busy = true
	old, was := h.server, h.id
	if old != nil {
		h.tickets[was] = old.Tickets()
	}
	var o phone.Options
	if t != nil {
		o = phone.Options{Kitchen: h.w.desk.Kitchen(t.ID, h.w.newID), Seats: answering(t), Again: h.tickets[t.ID]}
	}
	type outcome struct {
		server *phone.Server
		err    error
	}
	desk.Background(h.w.desk, "phones", func(context.Context, *recipes.Book) outcome {
		if old != nil {
			_ = old.Close() // what it says is of connections that were cut
		}
		if o.Kitchen == nil {
			return outcome{}
		}
		s, err := phone.Open(o)
		return outcome{s, err}
	}, func(r outcome) {
		h.busy, h.server, h.seats = false, r.server, o.Seats
		if t != nil {
			h.id = t.ID
		}
		if r.err != nil {
			h.server = nil
			h.w.problemDialog(r.err)
		}
		h.told()
	})
}

// told shows the page and the dialog again.
func (h *phoneHouse) told() {
	if h.w.at.tab == tabTastings {
		h.w.enter(h.w.at)
	}
	if h.dialog != nil {
		h.dialog.show()
	}
}

// follow keeps the page in line with the tasting: it ends with it, and opens to
// those who sit down later.
func (h *phoneHouse) follow(b *recipes.Book) {
	if h.server == nil || h.busy {
		return
	}
	t := b.Tasting(h.id)
	switch {
	case t == nil || t.State != recipes.TastingServing:
		h.turn(nil)
	case !slices.Equal(answering(t), h.seats):
		h.turn(t)
	}
}

// answering are the seats whose tasters are there.
func answering(t *recipes.Tasting) []int {
	var out []int
	for _, s := range t.Seats {
		if s.Panelist != "" && s.Away == "" {
			out = append(out, s.Number)
		}
	}
	return out
}

// phoneDialog shows the link, its picture, and what each seat's phone has sent.
type phoneDialog struct {
	w      *Window
	t      *recipes.Tasting
	on     *parts.Check
	link   *parts.Text
	help   *parts.Text
	copied *parts.Button
	qr     *canvas.Image
	table  *parts.Matrix
	d      *parts.Dialog
	live   *fyne.Container
	open   bool
}

// phones opens the dialog of answers from phones.
func (w *Window) phones(t *recipes.Tasting) {
	p := &phoneDialog{w: w, t: t, open: true}
	p.on = parts.NewCheck(words.Say("tastings.phone.on"), w.phonesOn(t.ID), func(on bool) {
		if on {
			w.tastings().phones.turn(w.book().Tasting(t.ID))
		} else {
			w.phonesOff(t.ID)
		}
	})
	w.pin("phone.on", p.on)
	p.link, p.help = parts.NewBold(""), parts.NewCaption(words.Say("tastings.phone.help"))
	w.pin("phone.link", p.link)
	p.copied = parts.NewButton(parts.Quiet, "copy", words.Say("tastings.phone.copy"), func() {
		w.app.Clipboard().SetContent(p.link.Text())
		w.status.SetMessage(words.Say("tastings.phone.copied"))
	})
	p.qr = &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScalePixels}
	p.table = parts.NewMatrix()
	p.table.Stretch, p.table.WholeRow = true, true
	p.table.SetData(oneColumn())
	w.pin("phone.table", p.table)
	left := parts.Rows(parts.GapSmall, parts.Sized(260, 260, p.qr), p.link, parts.Line(0, p.copied, parts.Spring()))
	p.live = parts.Columns(20, []float32{1, 1.25}, left, parts.NewTableCard("", "", p.table))
	plain := parts.NewBanner(parts.ToneLook, words.Say("tastings.phone.plain"))
	w.tastings().phones.dialog = p
	p.show()
	p.d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tastings.phones"), First: p.on, Width: 800, Height: 580, Cancel: words.Say("button.close"),
		Content:  parts.Fill(parts.GapMedium, 3, p.on, p.help, plain, p.live),
		OnClosed: func() { p.open, w.tastings().phones.dialog = false, nil },
	})
	p.tick()
}

// show shows the link and each seat's progress; nothing of them while it is off.
func (p *phoneDialog) show() {
	h := p.w.tastings().phones
	on := p.w.phonesOn(p.t.ID)
	p.on.Set(on)
	if on != p.live.Visible() {
		visible(p.live, on)
		if p.d != nil {
			defer p.d.Fit()
		}
	}
	if !on {
		return
	}
	links := h.server.Links()
	link := words.Say("tastings.phone.nowhere")
	p.qr.Image = nil
	if len(links) > 0 {
		link = links[0]
		img, err := h.server.QR(link)
		p.w.problemOrNil(err)
		p.qr.Image = img
	}
	p.copied.SetEnabled(len(links) > 0)
	p.link.SetText(link)
	visible(p.qr, p.qr.Image != nil)
	p.qr.Refresh()
	if t := p.w.book().Tasting(p.t.ID); t != nil {
		d := matrixOf(sheets.PhoneSeats(p.w.book(), t, h.server.Codes(), h.server.Progress()))
		d.Columns[0].Min, d.Columns[0].Max, d.Columns[0].Text = 56, 70, false
		p.table.SetData(d)
	}
	p.live.Refresh()
}

// phoneLook is how often the dialog looks at what phones have sent.
const phoneLook = 2 * time.Second

// tick looks again after a while, as long as the dialog is open.
func (p *phoneDialog) tick() {
	desk.Background(p.w.desk, "phones.look", func(ctx context.Context, _ *recipes.Book) bool {
		select {
		case <-time.After(phoneLook):
			return true
		case <-ctx.Done():
			return false
		}
	}, func(more bool) {
		if more && p.open {
			p.show()
			p.tick()
		}
	})
}
