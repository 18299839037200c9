package parts

import (
	"strings"

	"fyne.io/fyne/v2"
)

// ChooseOptions says what a list to choose from shows.
type ChooseOptions struct {
	Title  string
	Hint   string // in the search field
	Empty  string // when nothing matches
	Choose string // words of the confirming button
	Cancel string
	Items  []Suggestion
	Find   func(string) []Suggestion // search of one's own; nil: words within Items
	Key    string                    // selected at first
	Width  float32                   // 0: 560
}

// Choose opens a list with a search field: type to narrow it, Up and Down move,
// Enter takes a row, Esc leaves.
func Choose(w fyne.Window, o ChooseOptions, pick func(Suggestion)) *Dialog {
	c := &chooser{options: o, pick: pick, table: NewMatrix()}
	c.field = &chooseEntry{c: c}
	c.field.setUp(c.field, "", o.Hint)
	c.field.OnChanged = c.find
	c.table.Headless, c.table.WholeRow, c.table.Stretch = true, true, true
	c.table.OnActivate = func(int, int) { c.dialog.Confirm() }
	width := o.Width
	if width == 0 {
		width = 560
	}
	c.find("")
	body := Fill(GapMedium, 1, c.field, NewPanel(1, c.table))
	c.dialog = ShowDialog(w, DialogOptions{
		Title: o.Title, Content: body, First: c.field, Confirm: o.Choose, Cancel: o.Cancel,
		Width: width, Height: 520, OnOK: c.take,
	})
	c.table.SelectKey(o.Key)
	return c.dialog
}

type chooser struct {
	options ChooseOptions
	pick    func(Suggestion)
	dialog  *Dialog
	field   *chooseEntry
	table   *Matrix
	items   []Suggestion
}

// find narrows the list to what is typed.
func (c *chooser) find(text string) {
	if c.options.Find != nil {
		c.items = c.options.Find(text)
	} else {
		c.items = matching(c.options.Items, text)
	}
	d := MatrixData{Empty: c.options.Empty, Columns: []Column{{Max: 900}, {Align: AlignEnd, Max: 320}}}
	for _, it := range c.items {
		d.Rows = append(d.Rows, Row{Key: it.Key, Cells: []Cell{{Text: it.Text}, {Text: it.Detail, Muted: true}}})
	}
	c.table.SetData(d)
	c.table.Select(0, 0)
}

// matching returns the items that hold every word typed.
func matching(items []Suggestion, text string) []Suggestion {
	words := strings.Fields(strings.ToLower(text))
	var out []Suggestion
	for _, it := range items {
		hay, all := strings.ToLower(it.Text+" "+it.Detail), true
		for _, w := range words {
			all = all && strings.Contains(hay, w)
		}
		if all {
			out = append(out, it)
		}
	}
	return out
}

func (c *chooser) take() bool {
	row, _ := c.table.Selected()
	if row < 0 || row >= len(c.items) {
		return false
	}
	it := c.items[row]
	timing.Do(func() { c.pick(it) })
	return true
}

// chooseEntry sends the arrows to the list.
type chooseEntry struct {
	Entry
	c *chooser
}

// TypedKey moves in the list or types.
func (e *chooseEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyPageUp, fyne.KeyPageDown:
		e.c.table.moveKey(k.Name, false)
	case fyne.KeyReturn, fyne.KeyEnter:
		e.c.dialog.Confirm()
	case fyne.KeyEscape:
		e.c.dialog.Close()
	default:
		e.Entry.TypedKey(k)
	}
}
