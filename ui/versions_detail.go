package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// detailPanel says in words what the chosen field holds, with a button to what
// lies behind it.
type detailPanel struct {
	title  *parts.Text
	text   *parts.Text
	act    *parts.Button
	inside *fyne.Container
	view   *parts.Panel
}

func newDetailPanel(act func()) *detailPanel {
	d := &detailPanel{title: parts.NewBold(""), text: parts.NewText(""), act: parts.NewButton(parts.Quiet, "info", "", act)}
	d.text.SetRole(parts.RoleMuted)
	d.title.OneLine = true
	d.inside = container.New(&detailLayout{}, d.title, parts.Scrolled(d.text), d.act)
	d.view = parts.NewPanel(parts.GapSmall, d.inside)
	return d
}

func (d *detailPanel) set(x sheets.Detail) {
	d.title.SetText(x.Title)
	d.text.SetText(x.Text)
	if d.act.Text() != x.Act {
		d.act.SetText(x.Act)
		visible(d.act, x.Act != "")
		d.inside.Refresh()
	}
}

// detailLayout puts title, words and button under each other in a column, or
// the button at the right in a strip.
type detailLayout struct{}

// MinSize is that of a strip.
func (detailLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[2].MinSize().Width+120, o[0].MinSize().Height*2)
}

// Layout places title, words and button.
func (detailLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const inset = 6
	title, text, act := o[0], o[1], o[2]
	line, button := title.MinSize().Height, act.MinSize()
	if s.Height < 4*line { // a strip
		right := float32(0)
		if act.Visible() {
			right = button.Width + parts.GapMedium
			put(act, s.Width-button.Width, (s.Height-button.Height)/2, button.Width, button.Height)
		}
		put(title, inset, 0, s.Width-right-2*inset, line)
		put(text, inset, line+1, s.Width-right-2*inset, s.Height-line-1)
		return
	}
	low := float32(0)
	if act.Visible() {
		low = button.Height + parts.GapSmall
		put(act, inset, s.Height-button.Height-2, min(button.Width, s.Width-2*inset), button.Height)
	}
	put(title, inset, 4, s.Width-2*inset, line)
	put(text, inset, line+8, s.Width-2*inset, s.Height-line-8-low)
}

// showDetail describes the chosen field.
func (p *versionsPage) showDetail() {
	row, col := p.table.Selected()
	if row < 0 || row >= len(p.keys) {
		p.detail.set(sheets.Detail{Text: p.bench.Detail("", 0, p.options.Basis).Text})
		return
	}
	i := min(max(col-1, 0), len(p.bench.Versions)-1)
	p.detail.set(p.bench.Detail(p.keys[row], i, p.options.Basis))
}
