package parts

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// progressDelay is how long work runs before its progress shows.
const progressDelay = 300 * time.Millisecond

// StatusLine is the line at the bottom of the window: what just happened, a way
// to take it back, and long work with its progress and a way to stop it.
type StatusLine struct {
	widget.BaseWidget
	icon    *Icon
	message *Text
	action  *Button
	pending *Icon
	label   *Text
	bar     *progress
	cancel  *Button
	note    *Text
	work    *Work
}

// NewStatusLine returns an empty status line.
func NewStatusLine() *StatusLine {
	s := &StatusLine{
		icon: NewIcon("info", RoleMuted, 16), message: newText("", SizeBody, RoleInk, false),
		action: NewButton(Plain, "", "", nil), pending: NewIcon("pending", RoleMuted, 16),
		label: newText("", SizeCaption, RoleMuted, false), bar: newProgress(),
		cancel: NewButton(Plain, "close", "", nil), note: newText("", SizeCaption, RoleMuted, false),
	}
	s.message.OneLine, s.note.OneLine, s.label.OneLine = true, true, true
	for _, o := range []fyne.CanvasObject{s.icon, s.action, s.pending, s.label, s.bar, s.cancel} {
		o.Hide()
	}
	s.ExtendBaseWidget(s)
	return s
}

// SetMessage says what happened; it stays until the next message.
func (s *StatusLine) SetMessage(text string) { s.say(ToneNeutral, text, "", "", nil) }

// SetMessageAction says what happened beside a button, such as Undo.
func (s *StatusLine) SetMessageAction(text, icon, action string, f func()) {
	s.say(ToneNeutral, text, icon, action, f)
}

// SetTone says something with a drawing: look here, or an error.
func (s *StatusLine) SetTone(tone Tone, text string) { s.say(tone, text, "", "", nil) }

func (s *StatusLine) say(tone Tone, text, icon, action string, f func()) {
	s.message.SetText(text)
	_, ink := tone.roles()
	s.icon.Set(tone.icon(), ink)
	show(s.icon, tone != ToneNeutral)
	s.action.SetIcon(icon)
	s.action.SetText(action)
	s.action.OnPress = f
	show(s.action, f != nil)
	s.Refresh()
}

// Message returns the words shown.
func (s *StatusLine) Message() string { return s.message.Text() }

// Act presses the message's button, if there is one.
func (s *StatusLine) Act() {
	if s.action.Visible() {
		s.action.Press()
	}
}

// SetPending marks that an edit is on its way to the disk.
func (s *StatusLine) SetPending(on bool) {
	if s.pending.Visible() != on {
		show(s.pending, on)
		s.Refresh()
	}
}

// SetNote sets the quiet words at the right.
func (s *StatusLine) SetNote(text string) {
	s.note.SetText(text)
	s.Refresh()
}

// Work is a long task shown in the status line.
type Work struct {
	s      *StatusLine
	cancel func() // stops the wait before it shows
	done   bool
}

// StartWork announces a task; its progress and the button that stops it show
// only when it takes longer than 300 ms. A nil stop shows no button.
func (s *StatusLine) StartWork(label, stopTip string, stop func()) *Work {
	if s.work != nil {
		s.work.Done()
	}
	w := &Work{s: s}
	s.work = w
	s.label.SetText(label)
	s.bar.set(0)
	s.cancel.SetTip(stopTip)
	s.cancel.OnPress = stop
	w.cancel = timing.After(progressDelay, func() {
		if !w.done {
			s.showWork(true)
		}
	})
	return w
}

// Progress sets how much is done, 0 to 1.
func (w *Work) Progress(share float64) {
	if !w.done {
		w.s.bar.set(float32(max(0, min(1, share))))
	}
}

// Done takes the progress away; calling it again does nothing.
func (w *Work) Done() {
	if w.done {
		return
	}
	w.done = true
	if w.cancel != nil {
		w.cancel()
	}
	w.s.work = nil
	w.s.showWork(false)
}

func (s *StatusLine) showWork(on bool) {
	show(s.label, on)
	show(s.bar, on)
	show(s.cancel, on && s.cancel.OnPress != nil)
	s.Refresh()
}

// StopWork stops the running task as its button does.
func (s *StatusLine) StopWork() {
	if s.work != nil && s.cancel.OnPress != nil {
		s.cancel.OnPress()
	}
}

// Working says whether progress is in sight.
func (s *StatusLine) Working() bool { return s.bar.Visible() }

// CreateRenderer is part of fyne.Widget.
func (s *StatusLine) CreateRenderer() fyne.WidgetRenderer {
	line := canvas.NewRectangle(nil)
	d := &drawn{objects: []fyne.CanvasObject{line, s.icon, s.message, s.action, s.pending, s.label, s.bar, s.cancel, s.note}}
	d.min = func() fyne.Size { return fyne.NewSize(200, 36*factorOf(s.Theme())) }
	d.layout = func(size fyne.Size) {
		place(line, 0, 0, size.Width, 1)
		s.arrange(size)
	}
	d.refresh = func() {
		setFill(line, Colour(s, RoleHairline))
		d.layout(s.Size())
	}
	return d.start()
}

// arrange puts the message and its button at the left and the rest at the right.
func (s *StatusLine) arrange(size fyne.Size) {
	right := size.Width - 14
	put := func(o fyne.CanvasObject, w, h float32) {
		if o.Visible() {
			right -= w
			place(o, right, (size.Height-h)/2, w, h)
			right -= 10
		}
	}
	small := lineHeight(SizeCaption.in(s.Theme()))
	put(s.note, fyne.Min(s.note.Natural()+1, size.Width*0.3), small)
	put(s.cancel, s.cancel.MinSize().Width, 28*factorOf(s.Theme()))
	put(s.bar, 120, 6)
	put(s.label, fyne.Min(s.label.Natural()+1, size.Width*0.3), small)
	put(s.pending, s.pending.MinSize().Width, s.pending.MinSize().Height)
	left := float32(14)
	if s.icon.Visible() {
		side := s.icon.MinSize().Width
		place(s.icon, left, (size.Height-side)/2, side, side)
		left += side + 8
	}
	room := right - left
	if s.action.Visible() {
		room -= s.action.MinSize().Width + 8
	}
	w := fyne.Max(0, fyne.Min(s.message.Natural()+1, room))
	h := lineHeight(SizeBody.in(s.Theme()))
	place(s.message, left, (size.Height-h)/2, w, h)
	ah := 28 * factorOf(s.Theme())
	place(s.action, left+w+8, (size.Height-ah)/2, s.action.MinSize().Width, ah)
}

// progress is a slim bar that fills.
type progress struct {
	widget.BaseWidget
	share float32
}

func newProgress() *progress {
	p := &progress{}
	p.ExtendBaseWidget(p)
	return p
}

func (p *progress) set(share float32) {
	if p.share != share {
		p.share = share
		p.Refresh()
	}
}

func (p *progress) CreateRenderer() fyne.WidgetRenderer {
	track, fill := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	track.CornerRadius, fill.CornerRadius = 3, 3
	d := &drawn{objects: []fyne.CanvasObject{track, fill}}
	d.min = func() fyne.Size { return fyne.NewSize(120, 6) }
	d.layout = func(s fyne.Size) {
		track.Resize(s)
		place(fill, 0, 0, s.Width*p.share, s.Height)
	}
	d.refresh = func() {
		setFill(track, Colour(p, RoleHairline))
		setFill(fill, Colour(p, RoleAccent))
		d.layout(p.Size())
	}
	return d.start()
}
