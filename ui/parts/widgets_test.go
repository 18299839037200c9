package parts

import (
	"fmt"
	"image"
	"testing"
	"time"

	"fyne.io/fyne/v2"
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
			inWindow(t, fyne.NewSize(300, 100), Line(0, b))
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
	w := inWindow(t, fyne.NewSize(300, 100), Line(0, b))
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

func TestNavAndTabs(t *testing.T) {
	useClock(t)
	var went []string
	n := NewNav([]NavItem{{Key: "r", Label: "Recipes"}, {Key: "f", Label: "Foods", Gap: true}, {Key: "t", Label: "Tasters"}}, func(k string) { went = append(went, k) })
	w := inWindow(t, fyne.NewSize(400, 400), Frame(nil, n, NewText("page"), nil, nil))
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
	x.TypedRune('S')
	x.TypedRune('q')
	x.SetSelected("k")
	if fmt.Sprint(tabs) != "[s k s v s]" || x.Selected() != "k" {
		t.Errorf("tabs %v, at %s", tabs, x.Selected())
	}
}

func TestStatusLineWork(t *testing.T) {
	c := useClock(t)
	s := NewStatusLine()
	inWindow(t, fyne.NewSize(800, 100), Rows(0, s))
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
	inWindow(t, fyne.NewSize(800, 100), Rows(0, s))
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
	w := inWindow(t, fyne.NewSize(400, 300), v)
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
	inWindow(t, fyne.NewSize(400, 300), v)
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

func TestShareList(t *testing.T) {
	useClock(t)
	s := NewShareList([]Share{{Key: "a", Name: "Cream", Share: .5, Value: "1"}, {Key: "b", Name: "Butter", Share: .2, Value: "2"}})
	w := inWindow(t, fyne.NewSize(500, 200), Rows(0, s))
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
	s.TypedRune('c')
	if s.Selected() != "a" {
		t.Errorf("a letter went to %q", s.Selected())
	}
	s.TypedRune('B')
	s.TypedRune('x')
	if s.Selected() != "b" {
		t.Errorf("letters went to %q", s.Selected())
	}
	s.SetRows([]Share{{Key: "b", Name: "Butter"}})
	if s.Selected() != "b" {
		t.Error("the selection did not follow its row")
	}
}
