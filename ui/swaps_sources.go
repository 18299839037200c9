package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// sourceList says where the original's calories (or another nutrient) are and
// lets an ingredient be chosen, by mouse or keyboard.
type sourceList struct {
	p      *swapsPage
	view   fyne.CanvasObject
	head   *fyne.Container
	title  *parts.Text
	pick   *parts.Picker
	list   *parts.ShareList
	scroll *container.Scroll
	empty  *parts.Text
	rows   int
	line   recipes.ID // whose ideas are shown
}

func newSourceList(p *swapsPage) *sourceList {
	s := &sourceList{p: p, title: parts.NewBold(""), empty: parts.NewCaption(words.Say("sources.empty"))}
	s.title.OneLine = true
	s.list = parts.NewShareList(nil)
	s.list.OnSelect = s.choose
	s.list.OnPick = s.choose
	s.pick = parts.NewPicker(sourceNutrients(sheets.UnitsOf(p.w.book())), food.EnergyKcal.Key(), "", func(parts.Suggestion) { s.show() })
	s.scroll = parts.Scrolled(parts.Pad(0, 8, 0, 0, parts.Rows(0, s.list, s.empty)))
	s.head = parts.Line(parts.GapSmall, s.title, parts.Spring(), s.pick)
	s.view = parts.NewPanel(parts.GapMedium, parts.Fill(parts.GapSmall, 1, s.head, s.scroll))
	p.w.pin("swaps.sources", s.list)
	p.w.pin("swaps.nutrient", s.pick)
	return s
}

// forget drops the chosen ingredient: another recipe is shown.
func (s *sourceList) forget() { s.line = "" }

func (s *sourceList) nutrient() food.Nutrient { return nutrientOf(s.pick.Key()) }

// show lists the sources. Until an ingredient is chosen the largest one is.
func (s *sourceList) show() {
	n, u := s.nutrient(), sheets.UnitsOf(s.p.w.book())
	s.pick.SetItems(sourceNutrients(u))
	headed(s.head, s.title, u.SourceTitle(n))
	rows := s.p.bench.Sources(n)
	var shares []parts.Share
	for _, r := range rows {
		shares = append(shares, parts.Share{Key: string(r.Line), Name: r.Name, Share: r.Share, Value: r.Value, Note: r.Note, Loud: r.Loud})
	}
	s.rows = len(shares)
	s.list.SetRows(shares)
	visible(s.empty, len(shares) == 0)
	if s.p.w.recipe().Line(s.line) == nil && len(rows) > 0 {
		s.line = rows[0].Line
	}
	s.scroll.Refresh()
}

// choose shows the ideas for an ingredient and keeps its row in sight.
func (s *sourceList) choose(key string) {
	s.line = recipes.ID(key)
	s.reveal(key)
	s.p.look()
}

func (s *sourceList) reveal(key string) {
	rows := s.p.bench.Sources(s.nutrient())
	for i, r := range rows {
		if string(r.Line) != key || s.rows == 0 {
			continue
		}
		tall := s.list.MinSize().Height / float32(s.rows)
		top, room := float32(i)*tall, s.scroll.Size().Height
		switch at := s.scroll.Offset.Y; {
		case top < at:
			s.scroll.ScrollToOffset(fyne.NewPos(0, top))
		case top+tall > at+room:
			s.scroll.ScrollToOffset(fyne.NewPos(0, top+tall-room))
		}
	}
}

// headed changes the words of a heading and lays its line out again.
func headed(line *fyne.Container, title *parts.Text, text string) {
	if title.Text() != text {
		title.SetText(text)
		line.Refresh()
	}
}
