package manuscript

import (
	"strconv"

	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Sizes of a ballot in points.
const (
	askLabel   = 104.0 // the column of what is asked
	answerTall = 19.0  // a row of boxes
	answerBox  = 11.0
	wordSize   = 7.0
	wordLead   = 8.0
	noteTall   = 23.0
	foldTall   = 30.0 // the fold and its word
)

// ballots sets one ballot a seat, on pages of its own.
func (f *flow) ballots(p *TastingPapers) {
	for _, b := range p.Ballots {
		f.pages = append(f.pages, f.oneBallot(b)...)
	}
}

// oneBallot sets a ballot on as few pages as it can: closer together where that
// saves one.
func (f *flow) oneBallot(b *tasting.Ballot) []Page {
	var best []Page
	for _, tight := range []float64{0, 2.5, 4} {
		g := &flow{paper: f.paper, part: f.part, title: f.title, tight: tight}
		g.open()
		g.ballot(b)
		g.number(0, words.Say("tasting.seat", b.Seat))
		if best == nil || len(g.pages) < len(best) {
			best = g.pages
		}
		if len(best) == 1 {
			break
		}
	}
	return best
}

func (f *flow) answerTall() float64 { return answerTall - f.tight }
func (f *flow) noteTall() float64   { return noteTall - 2*f.tight }

func (f *flow) ballot(b *tasting.Ballot) {
	f.ballotHead(b)
	f.again = func() { // a second page says whose it is
		f.put(f.now(), marginSide, f.y+12, 12, true, false, words.Say("tasting.seat", b.Seat))
		f.y += 22
	}
	last := f.closing(b)
	if len(b.Ask) > 0 {
		for i, code := range b.Cups {
			if i > 0 && i == len(b.Cups)-1 { // so that the last questions are not alone on a page
				f.need(min(f.cupHeight(b)+f.foldHeight(last), f.bottom()-marginTop-60))
			}
			f.cup(b, i, code)
		}
	} else {
		f.order(b)
		for i := range b.Whole {
			f.whole(&b.Whole[i])
		}
		f.need(f.noteTall())
		f.blankLine(marginSide, f.y+13, f.wide(), say("ballot.note"), "")
		f.y += f.noteTall() + 8
	}
	f.again = nil
	if len(last) == 0 {
		f.need(20)
		f.para(b.Thanks, bodySize, true, false)
		return
	}
	f.fold(b, last)
}

// closing are the questions under the fold: those asked once after scores.
func (f *flow) closing(b *tasting.Ballot) []tasting.Question {
	if len(b.Ask) == 0 {
		return nil
	}
	return b.Whole
}

// ballotHead is the day, the seat in a square, and what to do.
func (f *flow) ballotHead(b *tasting.Ballot) {
	p := f.now()
	seat := words.Say("tasting.seat", b.Seat)
	w := f.width(seat, 15, true)
	p.box(marginSide+f.wide()-w-20, f.y, w+20, 26, thick)
	f.put(p, marginSide+f.wide()-w-10, f.y+18.5, 15, true, false, seat)
	f.put(p, marginSide, f.y+18.5, 15, true, false, f.oneLine(b.Title, 15, f.wide()-w-40, true))
	f.y += 36
	f.para(b.Intro, bodySize, false, false)
	if b.Open {
		f.para(say("ballot.open"), bodySize, true, false)
	}
	f.y += 2
}

// order lists the codes of a tray that is answered at once.
func (f *flow) order(b *tasting.Ballot) {
	if len(b.Cups) == 0 {
		return
	}
	f.need(40)
	f.put(f.now(), marginSide, f.y+9, smallSize, false, true, say("ballot.order"))
	f.y += 14
	x := marginSide
	for i, c := range b.Cups {
		text := say("ballot.place", i+1, strconv.Itoa(c))
		if x+f.width(text, 14, true) > marginSide+f.wide() {
			x, f.y = marginSide, f.y+20
			f.need(24)
		}
		f.put(f.now(), x, f.y+14, 14, true, false, text)
		x += f.width(text, 14, true) + 30
	}
	f.y += 30
}

// cup sets all that is asked of one cup: its code, the words along each scale
// once, a row of boxes a question, a line for a note. A row is never parted from
// the words that belong to it unless a page is too short for them all.
func (f *flow) cup(b *tasting.Ballot, at, code int) {
	h := f.cupHeight(b)
	if h > f.bottom()-marginTop-60 {
		h = 80 // more is asked than a page holds: it goes on overleaf
	}
	f.need(h)
	outer := f.again
	begin := f.cupHead(b, at, code)
	f.again = func() { outer(); f.cupMore(at, code) }
	for i := range b.Ask {
		q := &b.Ask[i]
		if i > 0 {
			f.need(f.askHeight(b, i))
		} else if f.y = begin; f.band(b, i) {
			f.y -= f.anchorsHeight(q)
		}
		if f.band(b, i) {
			f.anchors(q)
		}
		f.answer(q)
	}
	f.need(f.noteTall())
	f.blankLine(marginSide, f.y+13, f.wide(), say("ballot.note"), "")
	f.y += f.noteTall()
	f.again = outer
	f.now().rule(marginSide, f.y, marginSide+f.wide(), f.y, thin, true)
	f.y += 5
}

const cupHead = 18.0 // at least, and where it goes on overleaf

// headTall is the height of a cup's code beside the words of its first scale.
func (f *flow) headTall(b *tasting.Ballot) float64 {
	if len(b.Ask) > 0 && f.band(b, 0) {
		return max(cupHead, f.anchorsHeight(&b.Ask[0]))
	}
	return cupHead
}

// cupHead sets a cup's code and returns where the boxes of its first question
// begin: the words along that scale stand beside the code.
func (f *flow) cupHead(b *tasting.Ballot, at, code int) float64 {
	h := f.headTall(b)
	f.put(f.now(), marginSide, f.y+h-3, 14, true, false, say("ballot.place", at+1, strconv.Itoa(code)))
	return f.y + h
}

// cupMore sets the code again where a cup goes on overleaf.
func (f *flow) cupMore(at, code int) {
	f.put(f.now(), marginSide, f.y+14, 14, true, false, say("ballot.more", say("ballot.place", at+1, strconv.Itoa(code))))
	f.y += cupHead
}

// band tells whether the words along the scale stand over question i: where the
// question before it has others.
func (f *flow) band(b *tasting.Ballot, i int) bool {
	q := &b.Ask[i]
	if q.Kind != tasting.AskScale || len(q.Anchors) == 0 {
		return false
	}
	if i == 0 {
		return true
	}
	before := &b.Ask[i-1]
	if before.Kind != q.Kind || len(before.Anchors) != len(q.Anchors) {
		return true
	}
	for j := range q.Anchors {
		if q.Anchors[j] != before.Anchors[j] {
			return true
		}
	}
	return false
}

func (f *flow) cupHeight(b *tasting.Ballot) float64 {
	h := f.headTall(b) + f.noteTall() + 5
	for i := range b.Ask {
		h += f.askHeight(b, i)
	}
	if f.band(b, 0) {
		h -= f.anchorsHeight(&b.Ask[0])
	}
	return h
}

func (f *flow) askHeight(b *tasting.Ballot, i int) float64 {
	q := &b.Ask[i]
	h := f.labelHeight(f.wrap(q.Label, bodySize, askLabel-8, false))
	if f.band(b, i) {
		h += f.anchorsHeight(q)
	}
	return h
}

// labelHeight is that of a row of boxes beside so many lines.
func (f *flow) labelHeight(lines []string) float64 {
	return max(f.answerTall(), float64(len(lines))*bodySize*1.2+5-f.tight)
}

func (f *flow) step(q *tasting.Question) float64 {
	n := int(q.High-q.Low) + 1
	if q.Kind == tasting.AskYesNo {
		n = len(q.Options)
	}
	return (f.wide() - askLabel) / float64(max(1, n))
}

func (f *flow) anchorsHeight(q *tasting.Question) float64 {
	n := 1
	for _, a := range q.Anchors {
		n = max(n, len(f.wrap(a, wordSize, f.step(q)-4, false)))
	}
	return float64(n)*wordLead + 3
}

// anchors sets the words along a scale, each over its box.
func (f *flow) anchors(q *tasting.Question) {
	h, step := f.anchorsHeight(q), f.step(q)
	for i, a := range q.Anchors {
		lines := f.wrap(a, wordSize, step-4, false)
		for j, l := range lines {
			y := f.y + h - 3 - float64(len(lines)-1-j)*wordLead
			f.putMiddle(f.now(), marginSide+askLabel+(float64(i)+0.5)*step, y, wordSize, false, false, l)
		}
	}
	f.y += h
}

// answer sets a question with its boxes.
func (f *flow) answer(q *tasting.Question) {
	p := f.now()
	lines := f.wrap(q.Label, bodySize, askLabel-8, false)
	for i, l := range lines {
		f.put(p, marginSide, f.y+12+float64(i)*bodySize*1.2, bodySize, false, false, l)
	}
	step := f.step(q)
	if q.Kind == tasting.AskYesNo {
		for i, o := range q.Options {
			x := marginSide + askLabel + float64(i)*step
			p.box(x, f.y+3, answerBox, answerBox, thick)
			f.put(p, x+answerBox+5, f.y+12, bodySize, false, false, f.oneLine(o, bodySize, step-answerBox-10, false))
		}
	} else {
		for v := int(q.Low); v <= int(q.High); v++ {
			x := marginSide + askLabel + (float64(v-int(q.Low))+0.5)*step
			p.box(x-answerBox/2, f.y+3, answerBox, answerBox, thick)
			f.putRight(p, x-answerBox/2-3, f.y+11.5, wordSize, false, true, strconv.Itoa(v))
		}
	}
	f.y += f.labelHeight(lines)
}

// options are what a question of the whole tray can be answered with.
func options(q *tasting.Question) []string {
	out := q.Options
	for _, c := range q.Codes {
		out = append(out, strconv.Itoa(c))
	}
	if q.Nothing != "" {
		out = append(out, q.Nothing)
	}
	return out
}

// whole sets a question of the whole tray: the sentence, then its boxes.
func (f *flow) whole(q *tasting.Question) {
	f.need(f.wholeHeight(q))
	f.para(q.Label, 11, true, false)
	x, tall := marginSide, 22.0
	for _, o := range options(q) {
		w := f.width(o, 11, false) + answerBox + 8
		if x+w > marginSide+f.wide() {
			x, f.y = marginSide, f.y+tall
		}
		f.now().box(x, f.y+3, answerBox, answerBox, thick)
		f.put(f.now(), x+answerBox+6, f.y+12.5, 11, false, false, o)
		x += w + 26
	}
	f.y += tall + 6
}

func (f *flow) wholeHeight(q *tasting.Question) float64 {
	h := float64(len(f.wrap(q.Label, 11, f.wide(), true)))*11*lineHeight + 11*0.4
	x, rows := 0.0, 1
	for _, o := range options(q) {
		w := f.width(o, 11, false) + answerBox + 8
		if x+w > f.wide() {
			x, rows = 0, rows+1
		}
		x += w + 26
	}
	return h + float64(rows)*22 + 6
}

// foldHeight is that of what stands under the fold; 0 for nothing.
func (f *flow) foldHeight(last []tasting.Question) float64 {
	if len(last) == 0 {
		return 0
	}
	h := foldTall + 8 - 2*f.tight + bodySize*lineHeight + 4
	for i := range last {
		h += f.wholeHeight(&last[i])
	}
	return h
}

// fold sets the last questions at the foot of the last page, under a line to fold
// up along, so that nobody reads them before all is scored.
func (f *flow) fold(b *tasting.Ballot, last []tasting.Question) {
	h := f.foldHeight(last)
	f.need(h)
	f.y = f.bottom() - h
	p := f.now()
	p.dashes(marginSide, marginSide+f.wide(), f.y+4)
	f.put(p, marginSide, f.y+16, smallSize, false, true, say("ballot.fold"))
	f.y += foldTall - f.tight
	for i := range last {
		f.whole(&last[i])
	}
	f.para(b.Thanks, bodySize, true, false)
}
