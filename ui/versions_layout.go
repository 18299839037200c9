package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

// Sizes of the Versions page at text factor 1.
const (
	chartBeside = 1230 // from this width of the page on the chart stands beside the table
	emptyBeside = 760  // the same for the empty state
	chartHigh   = 210  // height of the chart under the table
	detailHigh  = 66   // height of the details as a strip
	detailWrap  = 86   // the same where the words take two lines
	stripWide   = 900  // from this width on one line will do
	detailCard  = 176  // height of the details in a column
	matrixLeast = 200  // the chart gives way before the table is lower than this
)

// versionsLayout places the table, the details of the chosen field, the chart
// and the empty state. In a wide window chart and details share a column at the
// right; else they stand side by side under the table. Without a chart the
// details are a strip.
type versionsLayout struct{ p *versionsPage }

// MinSize is what half a laptop's screen has room for.
func (l *versionsLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(420, 240) }

// Layout places card, details, chart and empty state. A chart there is no room
// for is out of sight until there is.
func (l *versionsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	card, detail, chart, empty := o[0], o[1], o[2], o[3]
	f := l.p.w.factor
	beside := s.Width >= chartBeside*f
	fits := beside || s.Height-(chartHigh+parts.GapMedium)*f >= matrixLeast*f
	on := !empty.Visible() && l.p.chartWanted()
	visible(chart, on && fits)
	visible(detail, !empty.Visible() || s.Width >= emptyBeside*f)
	l.p.toggle.SetEnabled(fits)
	switch {
	case empty.Visible():
		l.withEmpty(card, detail, empty, s, f)
	case on && beside:
		side := min(max(s.Width*0.3, 430*f), 620*f)
		left := s.Width - side - parts.GapMedium
		put(card, 0, 0, left, s.Height)
		put(chart, left+parts.GapMedium, 0, side, s.Height-detailCard*f-parts.GapMedium)
		put(detail, left+parts.GapMedium, s.Height-detailCard*f, side, detailCard*f)
	case on && fits:
		low := max(chartHigh*f, min(s.Height*0.32, 320*f))
		put(card, 0, 0, s.Width, s.Height-low-parts.GapMedium)
		side := max(s.Width*0.34, 260*f)
		put(detail, 0, s.Height-low, side, low)
		put(chart, side+parts.GapMedium, s.Height-low, s.Width-side-parts.GapMedium, low)
	default:
		l.withStrip(card, detail, s, f)
	}
}

func (l *versionsLayout) withStrip(card, detail fyne.CanvasObject, s fyne.Size, f float32) {
	high := float32(detailHigh) * f
	if s.Width < stripWide*f {
		high = detailWrap * f
	}
	put(card, 0, 0, s.Width, s.Height-high-parts.GapMedium)
	put(detail, 0, s.Height-high, s.Width, high)
}

// withEmpty gives the empty state the larger half beside the original's own
// column, or the height it needs below it.
func (l *versionsLayout) withEmpty(card, detail, empty fyne.CanvasObject, s fyne.Size, f float32) {
	if s.Width >= emptyBeside*f {
		side := s.Width * 0.46
		l.withStrip(card, detail, fyne.NewSize(s.Width-side-parts.GapMedium, s.Height), f)
		put(empty, s.Width-side, 0, side, s.Height)
		return
	}
	low := min(empty.MinSize().Height, s.Height*0.6)
	put(card, 0, 0, s.Width, s.Height-low-parts.GapMedium)
	put(empty, 0, s.Height-low, s.Width, low)
}

func put(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(max(w, 0), max(h, 0)))
}
