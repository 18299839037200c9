package parts

import (
	"fmt"
	"image"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

func press(o desktop.Mouseable, x, y float32) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = fyne.NewPos(x, y)
	o.MouseDown(e)
	o.MouseUp(e)
}

func TestButtonPresses(t *testing.T) {
	tests := []struct {
		name string
		do   func(b *Button)
		want int
	}{
		{"enter", func(b *Button) { keys(b, fyne.KeyReturn) }, 1},
		{"keypad enter", func(b *Button) { keys(b, fyne.KeyEnter) }, 1},
		{"space", func(b *Button) { keys(b, fyne.KeySpace) }, 1},
		{"tap", func(b *Button) { test.Tap(b) }, 1},
		{"mouse and the tap that follows", func(b *Button) { press(b, 5, 5); b.Tapped(&fyne.PointEvent{}) }, 1},
		{"mouse twice", func(b *Button) {
			press(b, 5, 5)
			b.Tapped(&fyne.PointEvent{})
			press(b, 5, 5)
			b.Tapped(&fyne.PointEvent{})
		}, 2},
		{"released outside", func(b *Button) {
			b.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
			e := &desktop.MouseEvent{}
			e.Position = fyne.NewPos(-5, 2)
			b.MouseUp(e)
		}, 0},
		{"secondary button", func(b *Button) {
			e := &desktop.MouseEvent{Button: desktop.MouseButtonSecondary}
			b.MouseDown(e)
			b.MouseUp(e)
		}, 0},
		{"disabled", func(b *Button) { b.Disable(); keys(b, fyne.KeyReturn); press(b, 5, 5) }, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			n := 0
			b := NewButton(Primary, "add", "Version", func() { n++ })
			show1(t, fyne.NewSize(300, 100), Line(0, b))
			tt.do(b)
			if n != tt.want {
				t.Errorf("pressed %d times, want %d", n, tt.want)
			}
		})
	}
}

func TestButtonFocusRing(t *testing.T) {
	useClock(t)
	b := NewButton(Quiet, "", "Print", nil)
	w := show1(t, fyne.NewSize(300, 100), Line(0, b))
	r, ok := test.WidgetRenderer(b).(*buttonRenderer)
	if !ok {
		t.Fatal("no renderer")
	}
	if r.ring.StrokeColor == Colour(b, RoleAccent) {
		t.Error("the ring shows without the keyboard")
	}
	w.Canvas().Focus(b)
	if r.ring.StrokeColor != Colour(b, RoleAccent) || r.ring.StrokeWidth != 2 {
		t.Error("no ring of 2 in the accent colour")
	}
}

func TestButtonCommitsTyping(t *testing.T) {
	useClock(t)
	var order []string
	e := NewEntry("a", "", func(s string) { order = append(order, "commit "+s) })
	b := NewButton(Quiet, "", "Go", func() { order = append(order, "press") })
	w := show1(t, fyne.NewSize(300, 100), Line(0, e, b))
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
			w := show1(t, fyne.NewSize(300, 100), Line(0, e))
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
	w := show1(t, fyne.NewSize(300, 100), Line(0, e))
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
		{"mouse", func(e *Entry) { test.Type(e, "cr"); press(e.complete.list, 20, 4+1.5*e.complete.list.rowHeight()) }, "2", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			picked := ""
			e := NewSuggestEntry("", "", foods, func(s Suggestion) { picked = s.Key })
			w := show1(t, fyne.NewSize(500, 400), Rows(8, e))
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
	w := show1(t, fyne.NewSize(400, 420), Fill(0, 0, Spring(), p))
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
		{"mouse", func(p *Picker) { press(p, 5, 5); press(p.list, 10, 4+1.5*p.list.rowHeight()) }, []string{"f"}},
		{"disabled", func(p *Picker) { p.Disable(); press(p, 5, 5) }, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			var got []string
			p := NewPicker(items, "b", "", func(s Suggestion) { got = append(got, s.Key) })
			w := show1(t, fyne.NewSize(400, 400), Rows(0, p))
			w.Canvas().Focus(p)
			tt.do(p)
			if fmt.Sprint(got) != fmt.Sprint(tt.want) {
				t.Errorf("picked %v, want %v", got, tt.want)
			}
		})
	}
}

func TestNavAndTabs(t *testing.T) {
	useClock(t)
	var went []string
	n := NewNav([]NavItem{{Key: "r", Label: "Recipes"}, {Key: "f", Label: "Foods", Gap: true}, {Key: "t", Label: "Tasters"}}, func(k string) { went = append(went, k) })
	w := show1(t, fyne.NewSize(400, 400), Frame(nil, n, NewText("page"), nil, nil))
	w.Canvas().Focus(n)
	keys(n, fyne.KeyDown, fyne.KeyEnd, fyne.KeyDown, fyne.KeyHome)
	n.TypedRune('t')
	press(n, 20, n.top(1)+5)
	if fmt.Sprint(went) != "[f t r t f]" || n.Selected() != "f" {
		t.Errorf("went %v, at %s", went, n.Selected())
	}
	n.SetItems([]NavItem{{Key: "f", Label: "Foods"}, {Key: "r", Label: "Recipes"}})
	if n.Selected() != "f" || len(went) != 5 {
		t.Errorf("at %s after the places changed, told %v", n.Selected(), went)
	}
	wide := n.MinSize().Width
	n.SetNarrow(true)
	if n.MinSize().Width >= wide {
		t.Error("no narrower without words")
	}
	var tabs []string
	x := NewTabs([]Tab{{Key: "v", Label: "Versions"}, {Key: "s", Label: "Swaps"}, {Key: "k", Label: "Keep or drop"}}, func(k string) { tabs = append(tabs, k) })
	w.SetContent(WithLayer(Rows(0, x)))
	w.Canvas().Focus(x)
	keys(x, fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft)
	press(x, 10, 10)
	x.SetSelected("k")
	if fmt.Sprint(tabs) != "[s k s v]" || x.Selected() != "k" {
		t.Errorf("tabs %v, at %s", tabs, x.Selected())
	}
}

func TestCheckAndSegmented(t *testing.T) {
	useClock(t)
	var heard []bool
	c := NewCheck("Show kilojoules too", false, func(on bool) { heard = append(heard, on) })
	show1(t, fyne.NewSize(400, 200), Rows(0, c))
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
	show1(t, fyne.NewSize(400, 200), Rows(0, s))
	keys(s, fyne.KeyLeft, fyne.KeyLeft)
	press(s, s.width(0)+10, 5)
	if fmt.Sprint(picked) != "[s g]" || s.Key() != "g" {
		t.Errorf("picked %v, at %s", picked, s.Key())
	}
}

func TestStatusLineWork(t *testing.T) {
	c := useClock(t)
	s := NewStatusLine()
	show1(t, fyne.NewSize(800, 100), Rows(0, s))
	stopped := false
	quick := s.StartWork("Reading", "Stop", nil)
	c.pass(200 * time.Millisecond)
	quick.Done()
	c.pass(time.Second)
	if s.Working() {
		t.Error("quick work showed its progress")
	}
	slow := s.StartWork("Reading the table", "Stop", func() { stopped = true })
	if s.Working() {
		t.Error("progress shows at once")
	}
	c.pass(301 * time.Millisecond)
	slow.Progress(0.5)
	if !s.Working() || !s.cancel.Visible() {
		t.Error("no progress or no way to stop after 300 ms")
	}
	s.cancel.Press()
	if !stopped {
		t.Error("the button did not stop the work")
	}
	slow.Done()
	slow.Progress(0.9)
	if s.Working() || s.cancel.Visible() {
		t.Error("progress stayed")
	}
}

func TestStatusLineUndo(t *testing.T) {
	useClock(t)
	s := NewStatusLine()
	show1(t, fyne.NewSize(800, 100), Rows(0, s))
	undone := 0
	s.SetMessageAction("Taster removed from the list.", "undo", "Undo", func() { undone++ })
	s.Act()
	s.SetMessage("Done.")
	s.Act()
	if undone != 1 || s.Message() != "Done." || s.action.Visible() {
		t.Errorf("undone %d times, message %q", undone, s.Message())
	}
}

func TestChartView(t *testing.T) {
	c := useClock(t)
	var background []func()
	timing.Go = func(f func()) { background = append(background, f) }
	var drawn []string
	v := NewChartView(fyne.NewSize(100, 50), func(w, h int, _ float32, isDark bool) image.Image {
		drawn = append(drawn, fmt.Sprintf("%dx%d %v", w, h, isDark))
		return image.NewNRGBA(image.Rect(0, 0, w, h))
	})
	run := func() {
		jobs := background
		background = nil
		for _, f := range jobs {
			f()
		}
	}
	w := show1(t, fyne.NewSize(400, 300), v)
	c.pass(0)
	run()
	if v.img.Image == nil || v.img.Image.Bounds().Dx() != 400 {
		t.Fatalf("first drawing %v", drawn)
	}
	for i := range 10 { // a window being dragged wider
		w.Resize(fyne.NewSize(float32(410+10*i), 300))
		c.pass(20 * time.Millisecond)
	}
	c.pass(200 * time.Millisecond)
	run()
	if fmt.Sprint(drawn) != "[400x300 false 500x300 false]" {
		t.Errorf("drawn %v: one drawing for the whole drag", drawn)
	}
	v.Invalidate()
	c.pass(0)
	late := background
	background = nil
	v.Invalidate()
	c.pass(0)
	run()
	now := v.img.Image
	for _, f := range late {
		f()
	}
	if v.img.Image != now {
		t.Error("a drawing that was overtaken replaced the newer one")
	}
}

func TestChartViewThemeAndMenu(t *testing.T) {
	c := useClock(t)
	var isDark []bool
	v := NewChartView(fyne.NewSize(100, 50), func(w, h int, _ float32, d bool) image.Image {
		isDark = append(isDark, d)
		return image.NewNRGBA(image.Rect(0, 0, w, h))
	})
	show1(t, fyne.NewSize(400, 300), v)
	c.pass(0)
	fyne.CurrentApp().Settings().SetTheme(NewTheme(true, 1))
	v.Refresh()
	c.pass(0)
	if fmt.Sprint(isDark) != "[false true]" {
		t.Errorf("drawn dark %v", isDark)
	}
	opened := false
	v.OnMenu = func(fyne.Position) { opened = true }
	v.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary})
	if !opened {
		t.Error("no menu on a secondary click")
	}
}

func TestDialogKeys(t *testing.T) {
	tests := []struct {
		name string
		do   func(w fyne.Window, e *Entry)
		want string
		open bool
	}{
		{"enter in the field confirms", func(_ fyne.Window, e *Entry) { test.Type(e, "x"); keys(e, fyne.KeyReturn) }, "ok x", false},
		{"escape in the field closes", func(_ fyne.Window, e *Entry) { keys(e, fyne.KeyEscape) }, "closed", false},
		{"escape in a changed field first restores", func(_ fyne.Window, e *Entry) { test.Type(e, "x"); keys(e, fyne.KeyEscape) }, "", true},
		{"escape with nothing focused", func(w fyne.Window, _ *Entry) {
			w.Canvas().Unfocus()
			w.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}, "closed", false},
		{"refused", func(_ fyne.Window, e *Entry) { test.Type(e, "no"); keys(e, fyne.KeyReturn) }, "", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			w := show1(t, fyne.NewSize(800, 600), NewText("page"))
			got := ""
			e := NewEntry("", "Name", nil)
			d := ShowDialog(w, DialogOptions{
				Title: "New version", Content: e, First: e, Confirm: "Make it", Cancel: "Cancel",
				OnOK: func() bool {
					if e.Text == "no" {
						return false
					}
					got = "ok " + e.Text
					return true
				},
				OnClosed: func() { got = "closed" },
			})
			if w.Canvas().Focused() != e {
				t.Fatal("the first field has not the keyboard")
			}
			tt.do(w, e)
			if got != tt.want || (dialogOn(w.Canvas()) == d) != tt.open {
				t.Errorf("got %q, open %v", got, dialogOn(w.Canvas()) == d)
			}
			d.Close()
		})
	}
}

func TestConfirmAndProblem(t *testing.T) {
	useClock(t)
	w := show1(t, fyne.NewSize(800, 600), NewText("page"))
	done := false
	Confirm(w, "Remove this taster?", "Her details go for good.", "Remove", "Keep", true, func() { done = true })
	b, ok := w.Canvas().Focused().(*Button)
	if !ok || b.Text() != "Remove" {
		t.Fatalf("focus on %T", w.Canvas().Focused())
	}
	keys(b, fyne.KeyReturn)
	if !done || w.Canvas().Overlays().Top() != nil {
		t.Error("Enter did not confirm")
	}
	ShowProblem(w, "The workbook cannot be opened", "gratin.parewell", "Choose another folder.", "Close")
	w.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Overlays().Top() != nil || w.Canvas().OnTypedKey() != nil {
		t.Error("Esc did not close the message, or left its keys behind")
	}
}

func TestChoose(t *testing.T) {
	useClock(t)
	w := show1(t, fyne.NewSize(900, 700), NewText("page"))
	items := []Suggestion{{Text: "Leek gratin", Key: "g"}, {Text: "Bean chilli", Key: "c"}, {Text: "Bean stew", Detail: "draft", Key: "s"}}
	open := func() (*chooseEntry, *string) {
		picked := ""
		Choose(w, ChooseOptions{Title: "Open", Choose: "Open", Cancel: "Cancel", Empty: "Nothing like that.", Items: items}, func(s Suggestion) { picked = s.Key })
		e, ok := w.Canvas().Focused().(*chooseEntry)
		if !ok {
			t.Fatalf("focus on %T", w.Canvas().Focused())
		}
		return e, &picked
	}
	e, picked := open()
	test.Type(e, "bean")
	keys(e, fyne.KeyDown, fyne.KeyReturn)
	if *picked != "s" {
		t.Errorf("picked %q, want the second bean", *picked)
	}
	e, picked = open()
	test.Type(e, "zzz")
	keys(e, fyne.KeyReturn)
	if *picked != "" || dialogOn(w.Canvas()) == nil {
		t.Error("something was picked from an empty list")
	}
	keys(e, fyne.KeyEscape)
	if dialogOn(w.Canvas()) != nil {
		t.Error("Esc did not close the list")
	}
}

func TestDialogFieldsFindTheirLayer(t *testing.T) {
	useClock(t)
	w := show1(t, fyne.NewSize(800, 600), NewText("page"))
	p := NewPicker([]Suggestion{{Text: "Baking", Key: "b"}}, "", "How", nil)
	d := ShowDialog(w, DialogOptions{Title: "T", Content: p, First: p, Confirm: "OK"})
	keys(p, fyne.KeySpace)
	if p.list == nil || p.list.layer != findLayer(d.overlay, 6) {
		t.Error("the list is not on the dialog's layer")
	}
	d.Close()
}

func TestShareList(t *testing.T) {
	useClock(t)
	s := NewShareList([]Share{{Key: "a", Name: "Cream", Share: .5, Value: "1"}, {Key: "b", Name: "Butter", Share: .2, Value: "2"}})
	w := show1(t, fyne.NewSize(500, 200), Rows(0, s))
	picked := ""
	s.OnPick = func(k string) { picked = k }
	w.Canvas().Focus(s)
	keys(s, fyne.KeyDown, fyne.KeyReturn)
	if picked != "b" {
		t.Errorf("picked %q", picked)
	}
	if a, b := s.views[0].bar.Size().Width, s.views[1].bar.Size().Width; a < b*2.4 || a > b*2.6 {
		t.Errorf("bars of %v and %v for shares of .5 and .2", a, b)
	}
	s.SetRows([]Share{{Key: "b", Name: "Butter"}})
	if s.Selected() != "b" {
		t.Error("the selection did not follow its row")
	}
}

func TestFormRows(t *testing.T) {
	useClock(t)
	f := NewForm()
	row := f.Row("Servings", NewNumberEntry("6", "", nil), "people", "")
	f.Row("A rather long label that wraps in its column", NewEntry("", "", nil), "", "Some help.")
	show1(t, fyne.NewSize(500, 400), Rows(0, f))
	h := f.HeightFor(500)
	row.SetError("Write a number.")
	if f.HeightFor(500) <= h || !row.problem.Visible() {
		t.Error("the error takes no room")
	}
	row.SetError("")
	if f.HeightFor(500) != h {
		t.Error("the error's room stayed")
	}
	row.Hide()
	if f.HeightFor(500) >= h || row.unit.Visible() {
		t.Error("a hidden row takes room")
	}
	row.Show()
	if f.HeightFor(500) != h || !row.unit.Visible() || row.help.Visible() {
		t.Error("the row did not come back as it was")
	}
}

func TestLayoutsFollowTheWidth(t *testing.T) {
	useClock(t)
	long := strings.Repeat("word ", 40)
	tests := []struct {
		name string
		o    fyne.CanvasObject
	}{
		{"text", NewText(long)},
		{"card", NewCard("Title", long, NewText(long))},
		{"banner", NewBanner(ToneLook, long)},
		{"columns", Columns(8, nil, NewText(long), NewText(long))},
		{"flow", Flow(8, NewChip(ToneGood, "met", "One of two"), NewChip(ToneGood, "met", "Two of two"), NewChip(ToneLook, "", "Three of two"))},
		{"limit", Limit(4000, NewText(long))},
		{"check", NewCheck(long, false, nil)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			show1(t, fyne.NewSize(900, 700), Rows(0, tt.o))
			if wide, narrow := heightFor(tt.o, 900), heightFor(tt.o, 230); narrow <= wide {
				t.Errorf("height %v when narrow, %v when wide", narrow, wide)
			}
		})
	}
}

func TestTextWrapsInsideItsWidth(t *testing.T) {
	useClock(t)
	x := NewText("Plan a tasting to find out whether your friends like a version as much as the original.")
	w := show1(t, fyne.NewSize(220, 400), Rows(0, x))
	if len(x.lines) < 3 || x.Size().Height != x.HeightFor(220) {
		t.Errorf("%d lines in a height of %v", len(x.lines), x.Size().Height)
	}
	for _, l := range x.lines {
		if fyne.MeasureText(l.Text, l.TextSize, l.TextStyle).Width > 221 {
			t.Errorf("%q is wider than its column", l.Text)
		}
	}
	_ = w
}

func TestTabOrderIsReadingOrder(t *testing.T) {
	useClock(t)
	b := map[string]*Button{}
	for _, n := range []string{"top", "left", "centre", "right", "bottom"} {
		b[n] = NewButton(Quiet, "", n, nil)
	}
	w := show1(t, fyne.NewSize(600, 400), Frame(b["top"], b["left"], b["centre"], b["right"], b["bottom"]))
	for _, n := range []string{"top", "left", "centre", "right", "bottom"} {
		w.Canvas().FocusNext()
		if f, ok := w.Canvas().Focused().(*Button); !ok || f.Text() != n {
			t.Errorf("Tab came to %v, want %s", f, n)
		}
	}
}

func TestIconsAreDrawn(t *testing.T) {
	test.NewTempApp(t)
	for _, n := range iconNames() {
		r := inColour(n, hex(0x123456))
		if r == nil || !strings.Contains(string(r.Content()), "#123456") || strings.Contains(string(r.Content()), "#000000") {
			t.Errorf("%s is not recoloured", n)
		}
		img := canvas.NewImageFromResource(r)
		img.Resize(fyne.NewSize(24, 24))
		if img.Refresh(); img.Aspect() != 1 {
			t.Errorf("%s is not square", n)
		}
	}
	for m, i := range markIcons {
		if inColour(i.name, hex(0)) == nil {
			t.Errorf("mark %d has no drawing %q", m, i.name)
		}
	}
	if IconResource("no such drawing") != nil {
		t.Error("an unknown name gives a drawing")
	}
}
