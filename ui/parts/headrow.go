package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// HeadRow puts a title and the buttons beside it on one line, or the buttons
// under the title where it would be cut.
func HeadRow(title *Text, acts ...fyne.CanvasObject) *fyne.Container {
	return container.New(&headRow{title: title}, title, Line(GapMedium, acts...))
}

type headRow struct {
	title *Text
	width float32 // last width laid out for
}

// below tells whether the buttons have no room beside the title.
func (l *headRow) below(o []fyne.CanvasObject, width float32) bool {
	return width > 0 && l.title.Natural()+1+GapMedium+o[1].MinSize().Width > width
}

func (l *headRow) heightFor(o []fyne.CanvasObject, width float32) float32 {
	title, acts := o[0].MinSize().Height, o[1].MinSize().Height
	if l.below(o, width) {
		return title + GapSmall + acts
	}
	return fyne.Max(title, acts)
}

// MinSize is that of the buttons, and of the title under which they may stand.
func (l *headRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[1].MinSize().Width, l.heightFor(o, l.width))
}

// Layout places title and buttons.
func (l *headRow) Layout(o []fyne.CanvasObject, s fyne.Size) {
	l.width = s.Width
	title, acts := o[0].MinSize().Height, o[1].MinSize()
	if l.below(o, s.Width) {
		place(o[0], 0, 0, s.Width, title)
		place(o[1], 0, title+GapSmall, s.Width, acts.Height)
		return
	}
	high := fyne.Max(title, acts.Height)
	place(o[0], 0, (high-title)/2, s.Width-acts.Width-GapMedium, title)
	place(o[1], s.Width-acts.Width, (high-acts.Height)/2, acts.Width, acts.Height)
}
