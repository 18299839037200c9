package manuscript

import (
	"strconv"

	"parewell/recipes/words"
)

// Sizes of labels in points: five cups across, two trays.
const (
	cupsAcross   = 5
	cupTall      = 46.0
	traysAcross  = 2
	trayTall     = 78.0
	trayCodes    = 6 // codes in a row of a tray's label
	trayCodeLead = 17.0
)

// labels sets a grid of labels to cut: one for each tray, then one for each cup.
// They carry codes and seats, nothing of what is in the cup.
func (f *flow) labels(p *TastingPapers) {
	if len(p.Trays) == 0 {
		return
	}
	waves := false
	most := 0
	for _, t := range p.Trays {
		waves = waves || t.Wave > 1
		most = max(most, len(t.Codes))
	}
	tall := trayTall + float64(max(0, (most-1)/trayCodes))*trayCodeLead
	f.grid(say("labels.trays"), traysAcross, tall, len(p.Trays), func(i int, x, y, w float64) {
		f.trayLabel(&p.Trays[i], waves, x, y, w)
	})
	type cup struct {
		tray *Tray
		at   int // -1 the open sample
	}
	var cups []cup
	for i := range p.Trays {
		t := &p.Trays[i]
		if t.Open {
			cups = append(cups, cup{t, -1})
		}
		for at := range t.Codes {
			cups = append(cups, cup{t, at})
		}
	}
	f.grid(say("labels.cups"), cupsAcross, cupTall, len(cups), func(i int, x, y, w float64) {
		f.cupLabel(cups[i].tray, cups[i].at, x, y, w)
	})
	f.number(0, f.part.Name())
}

// grid lays n cells out in rows, on pages of their own, with lines to cut along.
func (f *flow) grid(head string, across int, tall float64, n int, draw func(i int, x, y, w float64)) {
	if n == 0 {
		return
	}
	w := f.wide() / float64(across)
	f.open()
	f.para(head, bodySize, true, false)
	for i := 0; i < n; i += across {
		if f.y+tall > f.bottom() {
			f.open()
			f.para(head, bodySize, true, false)
		}
		for j := i; j < min(i+across, n); j++ {
			x := marginSide + float64(j-i)*w
			cutBox(f.now(), x, f.y, w, tall)
			draw(j, x, f.y, w)
		}
		f.y += tall
	}
}

// cutBox is a cell with fine grey lines.
func cutBox(p *Page, x, y, w, h float64) {
	p.rule(x, y, x+w, y, thin, true)
	p.rule(x+w, y, x+w, y+h, thin, true)
	p.rule(x+w, y+h, x, y+h, thin, true)
	p.rule(x, y+h, x, y, thin, true)
}

func (f *flow) trayLabel(t *Tray, waves bool, x, y, w float64) {
	p := f.now()
	seat := words.Say("tasting.seat", t.Seat)
	f.put(p, x+10, y+22, 15, true, false, seat)
	right := t.Taster
	if waves {
		right = say("labels.wave", t.Wave)
		if t.Taster != "" {
			right = t.Taster + " · " + right
		}
	}
	room := w - 30 - f.width(seat, 15, true)
	f.putRight(p, x+w-10, y+22, 10, false, false, f.oneLine(right, 10, room, false))
	f.put(p, x+10, y+38, smallSize, false, true, say("labels.order"))
	step := (w - 20) / trayCodes
	row, at := 0, 0
	put := func(text string, bold bool) {
		f.put(p, x+10+float64(at)*step, y+56+float64(row)*trayCodeLead, 13, bold, false, text)
		if at++; at == trayCodes {
			row, at = row+1, 0
		}
	}
	for _, c := range t.Codes {
		put(strconv.Itoa(c), true)
	}
	if t.Open {
		f.putRight(p, x+w-10, y+38, smallSize, true, false, say("labels.open-too"))
	}
}

func (f *flow) cupLabel(t *Tray, at int, x, y, w float64) {
	p := f.now()
	code, size := say("labels.open"), 15.0
	if at >= 0 {
		code, size = strconv.Itoa(t.Codes[at]), 21
	}
	f.putMiddle(p, x+w/2, y+25, size, true, false, code)
	under := words.Say("tasting.seat", t.Seat)
	if at >= 0 {
		under = say("labels.cup", t.Seat, at+1)
	}
	f.putMiddle(p, x+w/2, y+39, 7.5, false, true, f.oneLine(under, 7.5, w-8, false))
}
