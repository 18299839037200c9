package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// MenuItem is one line of a menu; an empty label is a line between groups.
type MenuItem struct {
	Icon     string
	Label    string
	Do       func()
	Disabled bool
}

// ShowMenu opens a menu at a place in the window, as OnMenu gives it. The arrows
// move, Enter takes, Esc leaves.
func ShowMenu(over fyne.CanvasObject, at fyne.Position, items ...MenuItem) {
	c := fyne.CurrentApp().Driver().CanvasForObject(over)
	if c == nil || len(items) == 0 {
		return
	}
	menu := fyne.NewMenu("")
	for _, it := range items {
		menu.Items = append(menu.Items, menuItem(it))
	}
	CommitEdits(c)
	m := widget.NewPopUpMenu(menu, c)
	m.ShowAtPosition(at)
	// Opened by a press, the driver takes the keyboard away once the press is
	// handled: ask again after it, or Esc and the arrows reach nothing.
	timing.Do(func() {
		if m.Visible() && c.Focused() == nil {
			c.Focus(m)
		}
	})
}

func menuItem(it MenuItem) *fyne.MenuItem {
	if it.Label == "" {
		return fyne.NewMenuItemSeparator()
	}
	m := fyne.NewMenuItem(it.Label, it.Do)
	m.Disabled = it.Disabled
	if r := IconResource(it.Icon); r != nil {
		m.Icon = r
	}
	return m
}

// ShowMenuUnder opens a menu under an object, such as the button that was pressed.
func ShowMenuUnder(o fyne.CanvasObject, items ...MenuItem) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	ShowMenu(o, at.AddXY(0, o.Size().Height+4), items...)
}
