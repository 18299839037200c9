package ui

import (
	"strings"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// buildTable makes the tick table.
func (p *swapsPage) buildTable() {
	m := parts.NewMatrix()
	m.OnSelect = p.selected
	m.OnToggle = p.toggle
	m.OnEdit = p.typed
	m.OnActivate = func(row, _ int) {
		if sw := p.swapAt(row); sw != nil {
			p.w.editSwap(sw)
		}
	}
	m.OnDelete = func(row, _ int) { p.remove(p.swapAt(row)) }
	m.OnMenu = p.menu
	p.table = m
	p.tableIn = parts.NewTableCard("", "", m)
	p.w.pin("swaps.table", m)
}

// selected shows the swap in the card. What a box has to say stands in the
// status line too, for those who come by keyboard.
func (p *swapsPage) selected(row, col int) {
	sw := p.swapAt(row)
	if sw == nil {
		return
	}
	p.choose(sw.ID)
	if p.versionAt(col) != nil {
		if tip := p.sheet.Rows[row].Cells[col-1].Tip; tip != "" {
			p.w.status.SetMessage(tip)
		}
	}
}

// typed takes a new name; an emptied one takes the swap away, as Delete does.
func (p *swapsPage) typed(row, col int, text string) {
	sw := p.swapAt(row)
	switch {
	case sw == nil || col != 0:
	case strings.TrimSpace(text) == "":
		p.remove(sw)
	default:
		p.w.do(recipes.RenameSwap(p.recipe, sw.ID, text))
	}
}

// nameLeast keeps a swap's name readable where versions are many: what it
// changes is scrolled to.
const nameLeast = 280

// showTable puts the sheet into the table.
func (p *swapsPage) showTable() {
	d := matrixOf(p.sheet.Sheet)
	d.Columns[0].Sub, d.Columns[0].Min, d.Columns[0].Max = p.sheet.Under, nameLeast, 420
	for i, v := range p.sheet.Versions {
		d.Columns[1+i].Tip = v.Name
	}
	last := len(d.Columns) - 1
	d.Columns[last].Min = 170
	for i := range d.Rows {
		p.dressRow(&d.Rows[i], i)
	}
	p.table.SetData(d)
	visible(p.noSwaps, len(p.sheet.Rows) == 0)
	visible(p.tableIn, len(p.sheet.Rows) > 0)
	visible(p.noTicks, len(p.sheet.Rows) > 0 && len(p.sheet.Versions) == 0)
}

// dressRow gives a swap's row its indentation and puts what it makes worse
// under its name; totals stand out.
func (p *swapsPage) dressRow(r *parts.Row, i int) {
	first := &r.Cells[0]
	if p.sheet.Inside[i] {
		first.Indent = 1
	}
	if p.sheet.Swaps[i] == nil {
		return
	}
	first.EditText = first.Text
	if first.Sub != "" {
		first.Text, first.Sub = first.Text+"\n"+first.Sub, ""
	}
}

func (p *swapsPage) swapAt(row int) *recipes.Swap {
	if row < 0 || row >= len(p.sheet.Swaps) {
		return nil
	}
	return p.sheet.Swaps[row]
}

func (p *swapsPage) versionAt(col int) *recipes.Version {
	if col < 1 || col > len(p.sheet.Versions) {
		return nil
	}
	return p.sheet.Versions[col-1]
}

func (p *swapsPage) toggle(row, col int) {
	if sw, v := p.swapAt(row), p.versionAt(col); sw != nil && v != nil {
		p.tick(sw, v, !v.Has(sw.ID))
	}
}

// tick switches a swap on or off in a version, and says which others went off
// because they are either/or with it.
func (p *swapsPage) tick(sw *recipes.Swap, v *recipes.Version, on bool) {
	off := ""
	if on {
		off = p.bench.Unticked(v, sw)
	}
	p.w.do(recipes.Tick(p.recipe, v.ID, sw.ID, on), func(ok bool) {
		if ok && off != "" {
			p.w.status.SetMessageAction(words.Say("swaps.either-or", sw.Name, v.Letter, off), "undo", words.Say("menu.undo"), p.w.undo)
		}
	})
}

func (p *swapsPage) remove(sw *recipes.Swap) {
	if sw != nil {
		p.w.do(recipes.RemoveSwap(p.recipe, sw.ID))
	}
}

// rename opens the name in the table to be typed over.
func (p *swapsPage) rename(sw *recipes.Swap) {
	p.table.SelectKey(string(sw.ID))
	row, _ := p.table.Selected()
	p.table.Select(row, 0)
	p.table.EditSelected()
}

// menu is the context menu of a swap.
func (p *swapsPage) menu(row, col int, at fyne.Position) {
	sw := p.swapAt(row)
	if sw == nil {
		return
	}
	p.table.Select(row, col)
	var items []parts.MenuItem
	if v := p.versionAt(col); v != nil {
		key := "swap.tick-in"
		if v.Has(sw.ID) {
			key = "swap.untick-in"
		}
		items = append(items, parts.MenuItem{Icon: "check", Label: words.Say(key, v.Letter), Do: func() { p.tick(sw, v, !v.Has(sw.ID)) }}, parts.MenuItem{})
	}
	items = append(items,
		parts.MenuItem{Icon: "note", Label: words.Say("swap.rename"), Do: func() { p.rename(sw) }},
		parts.MenuItem{Icon: "edit", Label: words.Say("swap.edit"), Do: func() { p.w.editSwap(sw) }},
		parts.MenuItem{Icon: "swaps", Label: words.Say("swap.strengths"), Do: func() { p.w.swapStrengths(sw) }, Disabled: !sheets.HasStrengths(sw)},
		parts.MenuItem{Icon: "add", Label: words.Say("swap.join"), Do: func() { p.w.joinSwaps(sw) }},
		parts.MenuItem{Icon: "delete", Label: words.Say("swap.remove"), Do: func() { p.remove(sw) }})
	parts.ShowMenu(p.table, at, items...)
}
