package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

func (p *versionsPage) newTable() *parts.Matrix {
	m := parts.NewMatrix()
	m.OnSelect = func(int, int) { p.showDetail() }
	m.OnEdit = func(row, col int, text string) { p.typeOver(p.key(row), col-1, text, "") }
	m.OnPick = func(row, col int, s parts.Suggestion) { p.typeOver(p.key(row), col-1, s.Text, s.Key) }
	m.OnActivate = p.activate
	m.OnHeader = p.openColumn
	m.OnMenu = p.menu
	m.Suggest = p.suggest
	p.w.pin("versions.table", m)
	return m
}

func (p *versionsPage) key(row int) string {
	if row < 0 || row >= len(p.keys) {
		return ""
	}
	return p.keys[row]
}

// version is that of a column of the table, nil for the original.
func (p *versionsPage) version(col int) *recipes.Version {
	if i := col - 1; i > 0 && i < len(p.bench.Versions) {
		return p.bench.Versions[i]
	}
	return nil
}

// inner are nutrients that are a part of the one above them.
var inner = map[string]bool{
	food.SaturatedFat.Key(): true, food.TransFat.Key(): true, food.Sugars.Key(): true, food.AddedSugars.Key(): true,
}

// lighterIsBetter are the nutrients whose changes have a bar and a colour; more
// protein or fibre is nothing to warn of.
var lighterIsBetter = map[string]bool{
	food.EnergyKcal.Key(): true, food.EnergyKJ.Key(): true, food.Fat.Key(): true, food.SaturatedFat.Key(): true, food.TransFat.Key(): true,
	food.Sugars.Key(): true, food.AddedSugars.Key(): true, food.Sodium.Key(): true, food.Cholesterol.Key(): true, food.Alcohol.Key(): true,
}

// versionsData is the sheet for the table, with what editing starts from.
func versionsData(x *sheets.Bench, s sheets.Sheet) parts.MatrixData {
	d := matrixOf(s)
	d.Columns[0].Max, d.Columns[0].Min = 340, 210
	d.Columns[0].Sub = x.WeightNote()
	for c := range d.Columns[1:] {
		d.Columns[c+1].Tip = x.ColumnTip(c) + "\n" + x.WeightText(c)
	}
	indentOff(x, d)
	for r := range d.Rows {
		row := &d.Rows[r]
		if inner[row.Key] {
			row.Cells[0].Indent = 1
		}
		_, number := food.ByKey(row.Key)
		for c := 1; c < len(row.Cells); c++ {
			cell := &row.Cells[c]
			if number && !lighterIsBetter[row.Key] {
				cell.Bar, cell.Trend = 0, parts.TrendNone
			}
			if cell.Editable {
				cell.EditText = x.EditText(row.Key, c-1)
			}
		}
	}
	return d
}

// indentOff sets what is taken off an ingredient in from it.
func indentOff(x *sheets.Bench, d parts.MatrixData) {
	for r := range d.Rows {
		if x.IsOff(d.Rows[r].Key) {
			d.Rows[r].Cells[0].Indent = 1
		}
	}
}

// activate opens what lies behind a field: what makes up a number, the facts of
// an ingredient.
func (p *versionsPage) activate(row, col int) {
	key, i := p.key(row), max(col-1, 0)
	switch p.bench.KindOf(key) {
	case sheets.NumberRow:
		n, _ := food.ByKey(key)
		p.openMakeUp(n, i)
	case sheets.WeightRow:
		p.w.cookingDialog()
	case sheets.LineRow, sheets.AddedRow:
		stands := p.bench.Stands(i, recipes.ID(key))
		switch {
		case len(stands) > 0 && stands[0].Line.Sub != nil:
			p.w.openSub(*stands[0].Line.Sub)
		case len(stands) > 0:
			p.w.lineDetails(stands[0].Line, p.bench.Versions[i])
		case p.bench.Recipe.Line(recipes.ID(key)) != nil:
			p.w.lineDetails(p.bench.Recipe.Line(recipes.ID(key)), nil)
		}
	}
}

// selectVersion chooses the first ingredient in a version's column and gives
// the table the keyboard.
func (p *versionsPage) selectVersion(id recipes.ID) {
	col := p.bench.ColumnOf(id) + 1
	row, _ := p.table.Selected()
	for r, key := range p.keys {
		if p.bench.KindOf(key) == sheets.LineRow {
			row = r
			break
		}
	}
	p.table.Select(row, col)
	p.w.win.Canvas().Focus(fyne.Focusable(p.table))
}
