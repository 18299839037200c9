package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// Sizes of photos: of a thumbnail in units of the window, of what is read for
// one (for dense screens), of what is read to be looked at, and how many
// thumbnails are kept.
const (
	thumbWide, thumbHigh = 112, 84
	thumbPixels          = 2 * thumbWide
	photoPixels          = 2048
	thumbsKept           = 200
)

// photoStrip shows a test's photos small, with a button to add one.
type photoStrip struct {
	w      *Window
	view   *fyne.Container
	add    *parts.Button
	test   *recipes.Batch
	thumbs map[string]image.Image // by hash
}

func newPhotoStrip(w *Window) *photoStrip {
	s := &photoStrip{w: w, view: parts.Flow(parts.GapSmall), thumbs: map[string]image.Image{}}
	s.add = parts.NewButton(parts.Quiet, "photo", words.Say("tests.add-photo"), func() { w.addPhoto(s.test) })
	w.pin("tests.add-photo", s.add)
	return s
}

func (s *photoStrip) show(t *recipes.Batch) {
	s.test = t
	s.view.Objects = nil
	for i, hash := range t.Photos {
		p := newPhotoThumb(words.Say("tests.photo", i+1, len(t.Photos)), func() { s.w.viewPhoto(t.ID, i) }, func() { s.w.removePhoto(t, hash) })
		if i == 0 {
			s.w.pin("tests.photo", p)
		}
		s.view.Add(p)
		s.fetch(hash, p)
	}
	s.view.Add(s.add)
	s.view.Refresh()
}

// fetch has a thumbnail read beside the window; what was read once is kept.
func (s *photoStrip) fetch(hash string, p *photoThumb) {
	if img := s.thumbs[hash]; img != nil {
		p.set(img)
		return
	}
	s.w.desk.Photo(hash, thumbPixels, func(img image.Image, err error) {
		if err != nil {
			s.w.problem(err)
			return
		}
		if len(s.thumbs) >= thumbsKept {
			clear(s.thumbs)
		}
		s.thumbs[hash] = img
		p.set(img)
	})
}

// addPhoto asks for a file and adds it to a test; it is read beside the window.
func (w *Window) addPhoto(t *recipes.Batch) {
	if t == nil {
		return
	}
	w.chooseFile(fileWish{
		title: words.Say("tests.photo.title"), ok: words.Say("tests.photo.ok"), endings: desk.PhotoEndings,
		then: func(path string) { w.takePhoto(t, path) },
	})
}

func (w *Window) takePhoto(t *recipes.Batch, path string) {
	work := w.status.StartWork(words.Say("tests.photo.reading"), "", nil)
	w.desk.AddPhoto(t.Recipe, t.ID, path, func(already bool, err error) {
		work.Done()
		switch {
		case err != nil:
			w.problemDialog(err)
		case already:
			w.status.SetMessage(words.Say("tests.photo.already"))
		}
	})
}

func (w *Window) removePhoto(t *recipes.Batch, hash string) {
	w.do(desk.WithoutPhoto(t.Recipe, t.ID, hash))
}

// photoView shows photos of a test large, one at a time.
type photoView struct {
	w       *Window
	test    recipes.ID
	at      int
	img     *canvas.Image
	caption *parts.Text
	dialog  *parts.Dialog
}

func (w *Window) viewPhoto(test recipes.ID, at int) {
	v := &photoView{w: w, test: test, at: at, img: &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth}}
	v.caption = parts.NewCaption("")
	before := parts.NewIconButton("left", words.Say("tests.photo.before"), func() { v.turn(-1) })
	after := parts.NewIconButton("right", words.Say("tests.photo.after"), func() { v.turn(1) })
	remove := parts.NewButton(parts.Plain, "delete", words.Say("tests.photo.remove"), v.remove)
	w.pin("photo.before", before)
	w.pin("photo.after", after)
	w.pin("photo.remove", remove)
	foot := parts.Stretch(parts.GapSmall, 2, before, after, v.caption, remove)
	first := fyne.Focusable(after)
	v.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: sheets.Capital(sheets.TestName(w.book(), v.batch())), First: first,
		Content: parts.Fill(parts.GapSmall, 0, v.img, foot), Cancel: words.Say("button.close"), Width: 1100, Height: 760,
	})
	v.turn(0)
}

func (v *photoView) batch() *recipes.Batch { return v.w.book().Test(v.w.at.recipe, v.test) }

// turn shows another photo, round and round.
func (v *photoView) turn(by int) {
	t := v.batch()
	if t == nil || len(t.Photos) == 0 {
		v.dialog.Close()
		return
	}
	n := len(t.Photos)
	v.at = ((v.at+by)%n + n) % n
	v.caption.SetText(words.Say("tests.photo", v.at+1, n))
	hash := t.Photos[v.at]
	v.w.desk.Photo(hash, photoPixels, func(img image.Image, err error) {
		if err != nil {
			v.w.problem(err)
			return
		}
		if t := v.batch(); t != nil && v.at < len(t.Photos) && t.Photos[v.at] == hash {
			v.img.Image = img
			v.img.Refresh()
		}
	})
}

func (v *photoView) remove() {
	if t := v.batch(); t != nil && v.at < len(t.Photos) {
		v.dialog.Close()
		v.w.removePhoto(t, t.Photos[v.at])
	}
}

// photoThumb is a small photo: Enter, Space or a click opens it, Delete takes
// it away, the other button has a menu.
type photoThumb struct {
	widget.BaseWidget
	img     *canvas.Image
	ground  *canvas.Rectangle
	ring    *canvas.Rectangle
	name    string
	open    func()
	remove  func()
	focused bool
}

func newPhotoThumb(name string, open, remove func()) *photoThumb {
	p := &photoThumb{name: name, open: open, remove: remove, ground: canvas.NewRectangle(nil), ring: canvas.NewRectangle(color.Transparent)}
	p.img = &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth}
	p.img.SetMinSize(fyne.NewSize(thumbWide, thumbHigh))
	p.ExtendBaseWidget(p)
	return p
}

func (p *photoThumb) set(img image.Image) {
	p.img.Image = img
	p.img.Refresh()
}

// CreateRenderer is part of fyne.Widget.
func (p *photoThumb) CreateRenderer() fyne.WidgetRenderer {
	p.ground.CornerRadius, p.ring.CornerRadius = 4, 4
	p.paint()
	return widget.NewSimpleRenderer(container.NewStack(p.ground, container.NewPadded(p.img), p.ring))
}

func (p *photoThumb) paint() {
	p.ground.FillColor = parts.Colour(p, parts.RoleZebra)
	p.ring.StrokeColor, p.ring.StrokeWidth = parts.Colour(p, parts.RoleHairline), 1
	if p.focused {
		p.ring.StrokeColor, p.ring.StrokeWidth = parts.Colour(p, parts.RoleAccent), 2
	}
}

// Refresh draws it again, in the colours of the theme.
func (p *photoThumb) Refresh() {
	p.paint()
	p.BaseWidget.Refresh()
}

// Tapped opens the photo.
func (p *photoThumb) Tapped(*fyne.PointEvent) { p.open() }

// TappedSecondary offers what can be done with it.
func (p *photoThumb) TappedSecondary(e *fyne.PointEvent) {
	parts.ShowMenu(p, e.AbsolutePosition,
		parts.MenuItem{Icon: "photo", Label: words.Say("tests.photo.view"), Do: p.open},
		parts.MenuItem{Icon: "delete", Label: words.Say("tests.photo.remove"), Do: p.remove})
}

// Cursor shows that it can be pressed.
func (p *photoThumb) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained is part of fyne.Focusable.
func (p *photoThumb) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost is part of fyne.Focusable.
func (p *photoThumb) FocusLost() { p.focused = false; p.Refresh() }

// TypedRune is part of fyne.Focusable.
func (p *photoThumb) TypedRune(rune) {}

// TypedKey opens or removes the photo.
func (p *photoThumb) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		p.open()
	case fyne.KeyDelete, fyne.KeyBackspace:
		p.remove()
	}
}
