package ui

import (
	"strconv"

	"fyne.io/fyne/v2"

	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// openMakeUp takes a number of column i apart, ingredient by ingredient; each
// opens its own facts.
func (p *versionsPage) openMakeUp(n food.Nutrient, i int) {
	title, notes := parts.NewBold(""), parts.Rows(2)
	list := parts.NewShareList(nil)
	var rows []sheets.MakeUpRow
	version := p.bench.Versions[i]
	fill := func() {
		at := 0
		if version != nil {
			if at = p.bench.ColumnOf(version.ID); at == 0 {
				return // the version has gone
			}
		}
		m := p.bench.MakeUp(n, at, p.options.Basis)
		rows = m.Rows
		title.SetText(m.Title)
		notes.Objects = nil
		for _, s := range m.Notes {
			notes.Add(parts.NewCaption(s))
		}
		notes.Refresh()
		list.SetRows(sharesOf(rows))
	}
	var dialog *parts.Dialog
	open := func() {
		at, err := strconv.Atoi(list.Selected())
		switch {
		case err != nil || at >= len(rows):
		case rows[at].Line.Sub != nil:
			dialog.Close()
			p.w.openSub(*rows[at].Line.Sub)
		default:
			p.w.lineDetails(rows[at].Line, version)
		}
	}
	list.OnPick = func(string) { open() }
	fill()
	p.makeUp = fill
	p.w.pin("makeup.list", list)
	done := func() { p.makeUp = nil }
	dialog = parts.ShowDialog(p.w.win, parts.DialogOptions{
		Title: words.Say("makeup.title"), First: fyne.Focusable(list), Width: 640, Height: 560,
		Content: parts.Fill(parts.GapSmall, 2, title, notes, parts.Scrolled(parts.Pad(2, 12, 2, 2, list))),
		Confirm: words.Say("makeup.open"), Cancel: words.Say("button.close"),
		OnOK: func() bool { open(); return false }, OnClosed: done,
	})
}

func sharesOf(rows []sheets.MakeUpRow) []parts.Share {
	out := make([]parts.Share, len(rows))
	for i, r := range rows {
		out[i] = parts.Share{Key: strconv.Itoa(i), Name: r.Name, Share: r.Share, Value: r.Value, Note: r.Note, Loud: !r.Known}
	}
	return out
}
