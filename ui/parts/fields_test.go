package parts

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestButtonCommitsTyping(t *testing.T) {
	useClock(t)
	var order []string
	e := NewEntry("a", "", func(s string) { order = append(order, "commit "+s) })
	b := NewButton(Quiet, "", "Go", func() { order = append(order, "press") })
	w := inWindow(t, fyne.NewSize(300, 100), Line(0, e, b))
	w.Canvas().Focus(e)
	test.Type(e, "b")
	press(b, 5, 5)
	if fmt.Sprint(order) != "[commit ab press]" {
		t.Errorf("order %v: the field must commit before the button acts", order)
	}
}

func TestEntryCommits(t *testing.T) {
	tests := []struct {
		name string
		do   func(e *Entry, w fyne.Window)
		want []string
		text string
	}{
		{"enter", func(e *Entry, _ fyne.Window) { e.SetText("6"); keys(e, fyne.KeyReturn) }, []string{"6"}, "6"},
		{"leaving", func(e *Entry, w fyne.Window) { e.SetText("6"); w.Canvas().Unfocus() }, []string{"6"}, "6"},
		{"enter then leaving commits once", func(e *Entry, w fyne.Window) { e.SetText("6"); keys(e, fyne.KeyReturn); w.Canvas().Unfocus() }, []string{"6"}, "6"},
		{"escape brings the old back", func(e *Entry, w fyne.Window) { e.SetText("6"); keys(e, fyne.KeyEscape); w.Canvas().Unfocus() }, nil, "4"},
		{"nothing typed", func(e *Entry, w fyne.Window) { keys(e, fyne.KeyReturn); w.Canvas().Unfocus() }, nil, "4"},
		{"set from outside is no commit", func(e *Entry, w fyne.Window) { e.Set("9"); w.Canvas().Unfocus() }, nil, "9"},
		{"set from outside keeps typing", func(e *Entry, _ fyne.Window) { e.SetText("6"); e.Set("9"); keys(e, fyne.KeyReturn) }, []string{"6"}, "6"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			var got []string
			e := NewEntry("4", "", func(s string) { got = append(got, s) })
			w := inWindow(t, fyne.NewSize(300, 100), Line(0, e))
			w.Canvas().Focus(e)
			tt.do(e, w)
			if fmt.Sprint(got) != fmt.Sprint(tt.want) || e.Text != tt.text {
				t.Errorf("committed %v with text %q, want %v and %q", got, e.Text, tt.want, tt.text)
			}
		})
	}
}

func TestNumberEntryFilters(t *testing.T) {
	useClock(t)
	e := NewNumberEntry("", "", nil)
	w := inWindow(t, fyne.NewSize(300, 100), Line(0, e))
	w.Canvas().Focus(e)
	test.Type(e, "a1x2,5 g½")
	if e.Text != "12,5 ½" {
		t.Errorf("holds %q", e.Text)
	}
}

func TestSuggestEntry(t *testing.T) {
	foods := func(s string) []Suggestion {
		if s == "none" {
			return nil
		}
		return []Suggestion{{Text: "Cream", Key: "1"}, {Text: "Cream cheese", Key: "2"}, {Text: "Crème fraîche", Key: "3"}}
	}
	tests := []struct {
		name string
		do   func(e *Entry)
		want string
		open bool
	}{
		{"opens while typing", func(e *Entry) { test.Type(e, "cr") }, "", true},
		{"down and enter", func(e *Entry) { test.Type(e, "cr"); keys(e, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn) }, "2", false},
		{"up takes the last", func(e *Entry) { test.Type(e, "cr"); keys(e, fyne.KeyUp, fyne.KeyReturn) }, "3", false},
		{"escape closes", func(e *Entry) { test.Type(e, "cr"); keys(e, fyne.KeyEscape) }, "", false},
		{"enter without a choice picks nothing", func(e *Entry) { test.Type(e, "cr"); keys(e, fyne.KeyReturn) }, "", false},
		{"nothing found closes", func(e *Entry) { e.SetText("none") }, "", false},
		{"mouse", func(e *Entry) { test.Type(e, "cr"); press(e.complete.list, 20, popTop+1.5*e.complete.list.rowHeight()) }, "2", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			picked := ""
			e := NewSuggestEntry("", "", foods, func(s Suggestion) { picked = s.Key })
			w := inWindow(t, fyne.NewSize(500, 400), Rows(8, e))
			w.Canvas().Focus(e)
			tt.do(e)
			if picked != tt.want || (e.complete.list != nil) != tt.open {
				t.Errorf("picked %q, open %v", picked, e.complete.list != nil)
			}
			if w.Canvas().Focused() != e {
				t.Error("the field lost the keyboard")
			}
		})
	}
}

func TestPopListStaysInWindowAndScrolls(t *testing.T) {
	useClock(t)
	var items []Suggestion
	for i := range 30 {
		items = append(items, Suggestion{Text: fmt.Sprint("Food ", i), Key: fmt.Sprint(i)})
	}
	p := NewPicker(items, "20", "", nil)
	w := inWindow(t, fyne.NewSize(400, 420), Fill(0, 0, Spring(), p))
	w.Canvas().Focus(p)
	keys(p, fyne.KeyReturn)
	if p.list == nil {
		t.Fatal("Enter did not open the list")
	}
	at, size := p.list.Position(), p.list.Size()
	if at.Y < 0 || at.Y+size.Height > 420 || at.Y > p.Position().Y {
		t.Errorf("list at %v of %v under a field at the bottom, %v", at, size, p.Position())
	}
	if p.list.top > 20 || p.list.top+p.list.shown() <= 20 {
		t.Errorf("the chosen row is out of sight: top %d", p.list.top)
	}
	p.list.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -10)})
	if p.list.top != 13 {
		t.Errorf("top %d after a turn of the wheel", p.list.top)
	}
	w.Canvas().Unfocus()
	if p.list != nil {
		t.Error("the list stayed open")
	}
}

func TestPicker(t *testing.T) {
	items := []Suggestion{{Text: "Baking", Key: "b"}, {Text: "Frying", Key: "f"}, {Text: "Steaming", Key: "s"}, {Text: "Simmering", Key: "m"}}
	tests := []struct {
		name string
		do   func(p *Picker)
		want []string
	}{
		{"down", func(p *Picker) { keys(p, fyne.KeyDown) }, []string{"f"}},
		{"up at the top", func(p *Picker) { keys(p, fyne.KeyUp) }, nil},
		{"letter", func(p *Picker) { p.TypedRune('s') }, []string{"s"}},
		{"letter again", func(p *Picker) { p.TypedRune('s'); p.TypedRune('S') }, []string{"s", "m"}},
		{"list", func(p *Picker) { keys(p, fyne.KeySpace, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn) }, []string{"s"}},
		{"list left", func(p *Picker) { keys(p, fyne.KeySpace, fyne.KeyDown, fyne.KeyEscape) }, nil},
		{"mouse", func(p *Picker) { press(p, 5, 5); press(p.list, 10, popTop+1.5*p.list.rowHeight()) }, []string{"f"}},
		{"disabled", func(p *Picker) { p.Disable(); press(p, 5, 5) }, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			var got []string
			p := NewPicker(items, "b", "", func(s Suggestion) { got = append(got, s.Key) })
			w := inWindow(t, fyne.NewSize(400, 400), Rows(0, p))
			w.Canvas().Focus(p)
			tt.do(p)
			if fmt.Sprint(got) != fmt.Sprint(tt.want) {
				t.Errorf("picked %v, want %v", got, tt.want)
			}
		})
	}
}

func TestCheckAndSegmented(t *testing.T) {
	useClock(t)
	var heard []bool
	c := NewCheck("Show kilojoules too", false, func(on bool) { heard = append(heard, on) })
	inWindow(t, fyne.NewSize(400, 200), Rows(0, c))
	c.TypedRune(' ')
	press(c, 5, 5)
	c.Set(true)
	c.Disable()
	press(c, 5, 5)
	if fmt.Sprint(heard) != "[true false]" || !c.On() {
		t.Errorf("heard %v, on %v", heard, c.On())
	}
	var picked []string
	s := NewSegmented([]Suggestion{{Text: "Per serving", Key: "s"}, {Text: "Per 100 g", Key: "g"}}, "g", func(k string) { picked = append(picked, k) })
	inWindow(t, fyne.NewSize(400, 200), Rows(0, s))
	keys(s, fyne.KeyLeft, fyne.KeyLeft)
	press(s, s.width(0)+10, 5)
	if fmt.Sprint(picked) != "[s g]" || s.Key() != "g" {
		t.Errorf("picked %v, at %s", picked, s.Key())
	}
}
