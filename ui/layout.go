package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// stack gives each object the whole room.
type stack struct{}

// MinSize is the largest of the visible objects'.
func (stack) MinSize(o []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, x := range o {
		if x.Visible() {
			m = m.Max(x.MinSize())
		}
	}
	return m
}

// Layout gives every object all the room.
func (stack) Layout(o []fyne.CanvasObject, s fyne.Size) {
	for _, x := range o {
		x.Move(fyne.NewPos(0, 0))
		x.Resize(s)
	}
}

// pageBody is the frame of a page: a heading and what fills the rest.
func pageBody(head fyne.CanvasObject, rest ...fyne.CanvasObject) fyne.CanvasObject {
	all := append([]fyne.CanvasObject{head}, rest...)
	return parts.Pad(parts.GapLarge, 20, parts.GapMedium, 20, parts.Fill(parts.GapMedium, len(all)-1, all...))
}

func visible(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

// matrixOf turns a sheet into what the table widget takes.
func matrixOf(s sheets.Sheet) parts.MatrixData {
	d := parts.MatrixData{Columns: []parts.Column{{Key: "label", Title: s.Corner, Text: true, Min: 160, Max: 360}}}
	for _, c := range s.Columns {
		d.Columns = append(d.Columns, columnOf(c))
	}
	for _, r := range s.Rows {
		d.Rows = append(d.Rows, rowOf(r))
	}
	return d
}

func columnOf(c sheets.Column) parts.Column {
	out := parts.Column{Key: c.Key, Title: c.Title, Sub: c.Sub, Text: !c.Number && !c.Tight}
	if c.Number && c.Index < 0 {
		out.Align = parts.AlignEnd
	}
	if c.Index >= 0 {
		out.Version = &parts.VersionMark{Index: c.Index - 1, Letter: c.Letter}
		if c.Key == "" {
			out.Key = "original"
		}
		if !c.Number { // a column of ticks
			out.Align, out.Text = parts.AlignCentre, false
		}
	}
	return out
}

func rowOf(r sheets.Row) parts.Row {
	out := parts.Row{Key: r.Key, Cells: []parts.Cell{cellOf(r.Label)}}
	if r.Band {
		out.Kind = parts.RowSection
	}
	for _, c := range r.Cells {
		out.Cells = append(out.Cells, cellOf(c))
	}
	return out
}

var markOf = map[sheets.Mark]parts.Mark{
	sheets.Look: parts.MarkLook, sheets.Wrong: parts.MarkError, sheets.Met: parts.MarkMet, sheets.Missed: parts.MarkMissed,
}

// markFor is a sheet's mark as the table draws it.
func markFor(m sheets.Mark) parts.Mark {
	if v, ok := m.Verdict(); ok {
		return parts.VerdictMark(v)
	}
	return markOf[m]
}

var tickOf = map[sheets.TickState]parts.Tick{sheets.TickOff: parts.TickOff, sheets.TickOn: parts.TickOn, sheets.TickDisabled: parts.TickDisabled}

func cellOf(c sheets.Cell) parts.Cell {
	out := parts.Cell{
		Text: c.Text, Sub: c.Sub, Mark: markFor(c.Mark), Tick: tickOf[c.Tick], Editable: c.Editable,
		Muted: c.Muted, Struck: c.Struck, Bold: c.Strong, Wrap: c.Wrap, Tip: c.Tip,
	}
	if c.Number {
		out.Align = parts.AlignEnd
	}
	if !math.IsNaN(c.Bar) {
		out.Bar = c.Bar
	}
	return out
}

// sideLayout puts a column of fixed width at the right of the main thing, in
// that order for Tab; a hidden column leaves all the room.
type sideLayout struct{}

// sideShare is the column's share of the width, within its bounds.
const (
	sideShare = 0.34
	sideLeast = 320
	sideMost  = 460
)

// MinSize is the main thing's.
func (sideLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	m := o[0].MinSize()
	if o[1].Visible() {
		m.Width += sideLeast
	}
	return m
}

// Layout gives the column its share and the main thing the rest.
func (sideLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	width := float32(0)
	if o[1].Visible() {
		f := parts.Factor(o[0])
		width = min(max(s.Width*sideShare, sideLeast*f), sideMost*f, s.Width*0.5)
		o[1].Move(fyne.NewPos(s.Width-width, 0))
		o[1].Resize(fyne.NewSize(width, s.Height))
		width += parts.GapLarge
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(s.Width-width, s.Height))
}

// split shares the height between two tables, the first getting more.
func split(a, b fyne.CanvasObject) fyne.CanvasObject { return container.New(splitLayout{}, a, b) }

type splitLayout struct{}

// MinSize is that of both, one above the other.
func (splitLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height+parts.GapMedium)
}

// Layout gives the first three fifths.
func (splitLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	h := (s.Height - parts.GapMedium) * 0.6
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(s.Width, h))
	o[1].Move(fyne.NewPos(0, h+parts.GapMedium))
	o[1].Resize(fyne.NewSize(s.Width, s.Height-h-parts.GapMedium))
}

// bringIntoSight scrolls no further than it takes to see something inside.
func bringIntoSight(s *container.Scroll, o fyne.CanvasObject) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	top := at(o).Y - at(s.Content).Y
	switch bottom := top + o.Size().Height; {
	case top < s.Offset.Y:
		s.ScrollToOffset(fyne.NewPos(0, max(0, top-parts.GapLarge)))
	case bottom > s.Offset.Y+s.Size().Height:
		s.ScrollToOffset(fyne.NewPos(0, bottom+parts.GapLarge-s.Size().Height))
	}
}

// sideBySide puts side at the right of main in a column of its own.
func sideBySide(main, side fyne.CanvasObject) fyne.CanvasObject {
	return container.New(sideLayout{}, main, side)
}

// told lays a thing out in all the room there is and tells how wide that is.
func told(o fyne.CanvasObject, width func(float32)) fyne.CanvasObject {
	return container.New(&toldLayout{tell: width}, o)
}

type toldLayout struct{ tell func(float32) }

// MinSize is the thing's.
func (*toldLayout) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout gives the thing all the room.
func (l *toldLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	l.tell(s.Width)
	put(o[0], 0, 0, s.Width, s.Height)
}
