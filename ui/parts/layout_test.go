package parts

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"parewell/charts"
)

func TestFormRows(t *testing.T) {
	useClock(t)
	f := NewForm()
	row := f.Row("Servings", NewNumberEntry("6", "", nil), "people", "")
	f.Row("A rather long label that wraps in its column", NewEntry("", "", nil), "", "Some help.")
	inWindow(t, fyne.NewSize(500, 400), Rows(0, f))
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
		{"long chip", Flow(8, NewChip(ToneNeutral, "info", long))},
		{"check", NewCheck(long, false, nil)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			inWindow(t, fyne.NewSize(900, 700), Rows(0, tt.o))
			if wide, narrow := heightFor(tt.o, 900), heightFor(tt.o, 230); narrow <= wide {
				t.Errorf("height %v when narrow, %v when wide", narrow, wide)
			}
		})
	}
}

func TestTextWrapsInsideItsWidth(t *testing.T) {
	useClock(t)
	x := NewText("Plan a tasting to find out whether your friends like a version as much as the original.")
	w := inWindow(t, fyne.NewSize(220, 400), Rows(0, x))
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

func TestALongChipStaysInsideItsCard(t *testing.T) {
	useClock(t)
	c := NewChip(ToneNeutral, "info", "always served together with olive oil for the butter under the leeks")
	row := Flow(8, c)
	inWindow(t, fyne.NewSize(900, 400), Rows(0, row))
	if c.Size().Width > 800 || c.Size().Height != NewChip(ToneNeutral, "", "x").MinSize().Height {
		t.Errorf("with room the chip is %v", c.Size())
	}
	inWindow(t, fyne.NewSize(200, 400), Rows(0, row))
	if row.MinSize().Width > 200 || c.Size().Width > 200 {
		t.Errorf("a row 200 wide asks for %v, its chip for %v", row.MinSize(), c.Size())
	}
	for _, l := range c.words.lines {
		if w := fyne.MeasureText(l.Text, l.TextSize, l.TextStyle).Width; c.words.Position().X+w > 200 {
			t.Errorf("%q sticks out", l.Text)
		}
	}
}

func TestTabOrderIsReadingOrder(t *testing.T) {
	useClock(t)
	b := map[string]*Button{}
	for _, n := range []string{"top", "left", "centre", "right", "bottom"} {
		b[n] = NewButton(Quiet, "", n, nil)
	}
	w := inWindow(t, fyne.NewSize(600, 400), Frame(b["top"], b["left"], b["centre"], b["right"], b["bottom"]))
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
	for _, v := range charts.Verdicts {
		r := inColour(VerdictIcon(v), hex(0x123456))
		if name, _ := markIcon(canvas.NewRectangle(nil), VerdictMark(v)); r == nil || !strings.Contains(string(r.Content()), "#123456") || name != VerdictIcon(v) {
			t.Errorf("the mark of %s is not drawn", v)
		}
	}
	if IconResource("no such drawing") != nil {
		t.Error("an unknown name gives a drawing")
	}
}

func TestControlsLineUp(t *testing.T) {
	test.NewTempApp(t)
	for _, factor := range []float32{0.9, 1, 1.25, 1.6} {
		fyne.CurrentApp().Settings().SetTheme(NewTheme(false, factor))
		want := NewEntry("x", "", nil).MinSize().Height
		for name, o := range map[string]fyne.CanvasObject{
			"picker": NewPicker(nil, "", "", nil), "button": NewButton(Primary, "add", "Version", nil),
			"segmented": NewSegmented([]Suggestion{{Text: "a"}}, "", nil),
		} {
			if h := o.MinSize().Height; h < want-0.1 || h > want+0.1 {
				t.Errorf("factor %v: %s is %v high, a field %v", factor, name, h, want)
			}
		}
	}
}

func TestDialogGrowsWithItsForm(t *testing.T) {
	useClock(t)
	w := inWindow(t, fyne.NewSize(800, 600), NewText("page"))
	f := NewForm()
	row := f.Row("Servings", NewNumberEntry("6", "", nil), "", "")
	d := ShowDialog(w, DialogOptions{Title: "T", Content: f, Confirm: "OK"})
	defer d.Close()
	before := d.overlay.sheet.Size().Height
	row.SetError("Write a number.")
	if after := d.overlay.sheet.Size().Height; after <= before {
		t.Errorf("the dialog stayed %v high", after)
	}
}
