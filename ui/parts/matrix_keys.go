package parts

import (
	"strings"
	"time"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// FocusGained is part of fyne.Focusable; something is selected from then on.
func (m *Matrix) FocusGained() {
	m.focused = true
	if m.sel.row < 0 {
		m.sel = cellID{m.nearest(0, 1), m.sel.col}
	}
	m.showSelection()
}

// FocusLost is part of fyne.Focusable.
func (m *Matrix) FocusLost() {
	m.focused = false
	m.hint.hide()
	m.showSelection()
}

// TypedKey is the keyboard of the table.
func (m *Matrix) TypedKey(k *fyne.KeyEvent) {
	m.hint.hide()
	ctrl := modifiers()&fyne.KeyModifierShortcutDefault != 0
	if m.moveKey(k.Name, ctrl) {
		return
	}
	cell := m.data.cell(m.sel.row, m.sel.col)
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2:
		m.enter(cell, k)
	case fyne.KeyDelete, fyne.KeyBackspace:
		m.clear(cell)
	case desktop.KeyMenu:
		if m.OnMenu != nil && m.sel.row >= 0 {
			m.OnMenu(m.sel.row, m.sel.col, m.menuSpot())
		}
	case fyne.KeySpace:
		// The rune that follows toggles; see TypedRune.
	default:
		passKey(m, k)
	}
}

// moveKey moves the selection and says whether the key does that.
func (m *Matrix) moveKey(k fyne.KeyName, ctrl bool) bool {
	last, end := len(m.data.Rows)-1, len(m.data.Columns)-1
	to, typed := m.sel, m.typed
	m.typed = typeAhead{} // a search ends where the selection is moved by hand
	switch k {
	case fyne.KeyUp:
		m.step(-1)
		return true
	case fyne.KeyDown:
		m.step(1)
		return true
	case fyne.KeyPageUp:
		to.row = m.pageFrom(-1)
	case fyne.KeyPageDown:
		to.row = m.pageFrom(1)
	case fyne.KeyLeft:
		to.col--
	case fyne.KeyRight:
		to.col++
	case fyne.KeyHome:
		to.col = 0
		if ctrl {
			to.row = 0
		}
	case fyne.KeyEnd:
		to.col = end
		if ctrl {
			to.row = last
		}
	default:
		m.typed = typed
		return false
	}
	if last >= 0 {
		direction := 1
		if to.row > m.sel.row {
			direction = -1
		}
		m.Select(m.nearest(max(0, min(to.row, last)), direction), max(0, min(to.col, end)))
	}
	return true
}

// step selects the next row up or down that can be; sections are skipped.
func (m *Matrix) step(d int) {
	for r := m.sel.row + d; r >= 0 && r < len(m.data.Rows); r += d {
		if m.data.selectable(r) {
			m.Select(r, m.sel.col)
			return
		}
	}
	m.reveal()
}

// pageFrom returns the row a page away.
func (m *Matrix) pageFrom(d float32) int {
	g := &m.geo
	if !m.sized || m.sel.row < 0 {
		return 0
	}
	y := g.y[m.sel.row] + d*fyne.Max(m.room().Height-g.line*2, g.line)
	return m.rowAt(fyne.Max(0, fyne.Min(y, g.height()-1)))
}

func (m *Matrix) enter(cell *Cell, k *fyne.KeyEvent) {
	switch {
	case m.sel.row < 0:
		passKey(m, k)
	case cell.Editable:
		m.startEdit(m.editText(cell), true)
	case k.Name == fyne.KeyF2:
	case m.OnActivate != nil:
		m.OnActivate(m.sel.row, m.sel.col)
	case cell.Tick != TickNone:
		m.toggle()
	default:
		passKey(m, k)
	}
}

func (m *Matrix) clear(cell *Cell) {
	switch {
	case m.sel.row < 0:
	case cell.Editable && m.OnEdit != nil:
		if m.editText(cell) != "" {
			m.OnEdit(m.sel.row, m.sel.col, "")
		}
	case m.OnDelete != nil:
		m.OnDelete(m.sel.row, m.sel.col)
	}
}

func (m *Matrix) menuSpot() fyne.Position {
	p := m.panes[paneBody]
	if m.sel.col == 0 {
		p = m.panes[paneSide]
	}
	f := m.cellFrame(m.sel)
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(p).AddXY(f.x+cellPad, f.y+f.h)
}

// TypedRune toggles a tick, starts an edit with what is typed, or looks for a row
// that starts so. A word that began as a search goes on as one, or its second
// letter would be typed over a field of the row it found; figures never search,
// because they are meant for a field.
func (m *Matrix) TypedRune(r rune) {
	if m.sel.row < 0 {
		return
	}
	cell := m.data.cell(m.sel.row, m.sel.col)
	switch {
	case r == ' ' && cell.Tick != TickNone:
		m.toggle()
	case m.typed.going():
		m.seek(r)
	case cell.Editable && unicode.IsPrint(r) && r != ' ':
		m.startEdit(string(r), false)
	case !cell.Editable && m.OnType != nil && m.OnType(m.sel.row, m.sel.col, r):
	case unicode.IsLetter(r):
		m.seek(r)
	}
}

func (m *Matrix) toggle() {
	t := m.data.cell(m.sel.row, m.sel.col).Tick
	if m.OnToggle != nil && (t == TickOn || t == TickOff) {
		m.OnToggle(m.sel.row, m.sel.col)
	}
}

// typeAhead gathers what is typed in quick succession.
type typeAhead struct {
	text string
	last time.Time
}

const typePause = 900 * time.Millisecond

func (t *typeAhead) going() bool { return t.text != "" && timing.Now().Sub(t.last) < typePause }

func (t *typeAhead) add(r rune) string {
	if !t.going() {
		t.text = ""
	}
	t.text += strings.ToLower(string(r))
	t.last = timing.Now()
	return t.text
}

// seek selects the next row whose first cell starts with what was typed.
func (m *Matrix) seek(r rune) {
	text := m.typed.add(r)
	n := len(m.data.Rows)
	from := m.sel.row
	if len([]rune(text)) == 1 {
		from++ // the same letter again goes on to the next
	}
	for i := range n {
		row := (from + i) % n
		if m.data.selectable(row) && strings.HasPrefix(strings.ToLower(m.data.cell(row, 0).Text), text) {
			m.Select(row, m.sel.col)
			return
		}
	}
}

func (m *Matrix) editText(cell *Cell) string {
	if cell.EditText != "" {
		return cell.EditText
	}
	return cell.Text
}

// EditSelected starts editing the selected cell, if it can be edited.
func (m *Matrix) EditSelected() {
	if cell := m.data.cell(m.sel.row, m.sel.col); cell.Editable {
		m.startEdit(m.editText(cell), true)
	}
}

// startEdit opens a field over the selected cell.
func (m *Matrix) startEdit(text string, selectAll bool) {
	m.closeEditor()
	m.reveal()
	id := m.sel
	cell := *m.data.cell(id.row, id.col)
	edit := Edit{Text: text, SelectAll: selectAll, Multi: cell.Wrap}
	if m.Suggest != nil {
		edit.Source = func(s string) []Suggestion { return m.Suggest(id.row, id.col, s) }
	}
	key := m.data.Rows[id.row].Key
	m.editKey = key
	edit.Done = func(s string, picked *Suggestion, move Move) { m.edited(id, key, s, picked, move) }
	edit.Cancel = func() { m.afterEdit(MoveNone, true) }
	m.editing = id
	p, f := m.editArea(id)
	m.editor = OpenEditor(p, fyne.NewPos(f.x, f.y), fyne.NewSize(f.w, f.h), edit)
}

// edited hands a finished edit on, unless nothing changed or its row has gone.
func (m *Matrix) edited(id cellID, key, text string, picked *Suggestion, move Move) {
	row := sameKeyRow(m.data.Rows, key, id.row)
	if row >= 0 && row < len(m.data.Rows) {
		cell := m.data.cell(row, id.col)
		switch {
		case picked != nil && m.OnPick != nil:
			m.OnPick(row, id.col, *picked)
		case text != m.editText(cell) && m.OnEdit != nil:
			m.OnEdit(row, id.col, text)
		}
	}
	m.afterEdit(move, move != MoveNone)
	if picked != nil { // the driver takes the keyboard away after a press on the list
		timing.Do(func() { m.takeFocus() })
	}
}

// editArea is where the field over a cell goes, in the cell's pane.
func (m *Matrix) editArea(id cellID) (*pane, frame) {
	p, f := m.panes[paneBody], m.cellFrame(id)
	if id.col == 0 {
		p = m.panes[paneSide]
	}
	f.w, f.y, f.h = fyne.Max(f.w, 90*m.geo.factor), f.y-1, f.h+1
	if m.data.cell(id.row, id.col).Wrap {
		f.h = fyne.Max(f.h, 3*m.geo.line)
	}
	return p, f
}

// followEdit keeps an open field over its cell when the table changes under it,
// and drops it when its row has gone.
func (m *Matrix) followEdit() {
	if !m.editor.Open() {
		return
	}
	row := m.editing.row
	if m.editKey != "" {
		row = sameKeyRow(m.data.Rows, m.editKey, -1)
	}
	if row < 0 || row >= len(m.data.Rows) || m.editing.col >= len(m.data.Columns) {
		m.editor.Close(false)
		return
	}
	m.editing.row = row
	p, f := m.editArea(m.editing)
	m.editor.move(p, f)
}

func (m *Matrix) afterEdit(move Move, refocus bool) {
	m.editor, m.editing = nil, cellID{-1, -1}
	if refocus {
		focusOn(m)
	}
	switch move {
	case MoveDown:
		m.step(1)
	case MoveRight:
		m.moveKey(fyne.KeyRight, false)
	case MoveLeft:
		m.moveKey(fyne.KeyLeft, false)
	}
}

// closeEditor ends an edit going on, keeping what was typed.
func (m *Matrix) closeEditor() {
	if m.editor.Open() {
		m.editor.Close(true)
	}
}

// TypedShortcut copies, cuts and pastes the selected cell, and takes Ctrl+Home
// and Ctrl+End, which the driver sends as shortcuts. Others go to the window.
func (m *Matrix) TypedShortcut(s fyne.Shortcut) {
	cell := m.data.cell(m.sel.row, m.sel.col)
	switch x := s.(type) {
	case *fyne.ShortcutCopy:
		fyne.CurrentApp().Clipboard().SetContent(copyText(cell))
	case *fyne.ShortcutCut:
		fyne.CurrentApp().Clipboard().SetContent(copyText(cell))
		if cell.Editable {
			m.clear(cell)
		}
	case *fyne.ShortcutPaste:
		m.paste(cell, fyne.CurrentApp().Clipboard().Content())
	case *desktop.CustomShortcut:
		if x.Modifier == fyne.KeyModifierShortcutDefault && m.shift(x.KeyName) {
			return
		}
		if x.Modifier != fyne.KeyModifierShortcutDefault || !m.moveKey(x.KeyName, true) {
			passShortcut(m, s)
		}
	default:
		passShortcut(m, s)
	}
}

// shift asks for the selected row to change its place; false when nothing here
// does.
func (m *Matrix) shift(key fyne.KeyName) bool {
	by := map[fyne.KeyName]int{fyne.KeyUp: -1, fyne.KeyDown: 1}[key]
	if by == 0 || m.OnShift == nil || m.sel.row < 0 {
		return false
	}
	m.OnShift(m.sel.row, by)
	return true
}

func copyText(cell *Cell) string {
	if cell.Sub == "" {
		return cell.Text
	}
	return cell.Text + " " + cell.Sub
}

// paste replaces an editable cell's text with the first line of what was copied.
func (m *Matrix) paste(cell *Cell, text string) {
	line, _, _ := strings.Cut(strings.TrimSpace(text), "\n")
	line, _, _ = strings.Cut(line, "\t")
	if cell.Editable && line != "" && m.OnEdit != nil {
		m.OnEdit(m.sel.row, m.sel.col, strings.TrimSpace(line))
	}
}
