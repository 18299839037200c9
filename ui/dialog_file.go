package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"

	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// fileWish is what a file dialog is for.
type fileWish struct {
	title   string
	ok      string
	name    string   // what stands in the field at first
	endings []string // of the files that fit; the first is added to a bare name when saving
	save    bool     // the file is to be written, so need not be there
	folder  string   // words of the button that takes the folder itself; "" for none
	help    string   // what fits, above the list; "" for none
	start   string   // the folder it opens at; "" the usual
	folders bool     // a folder is wanted: the one that is listed
	then    func(path string)
}

// fileDialog is our own: a path can be typed, the keyboard works throughout,
// Esc leaves, and choosing where to save touches no file.
type fileDialog struct {
	w       *Window
	wish    fileWish
	dir     string
	entries []desk.Entry
	field   *parts.Entry
	where   *parts.Text
	list    *parts.Matrix
	dialog  *parts.Dialog
	trouble *parts.Text
}

// chooseFile opens the dialog at the folder of the open workbook, else of the
// last one, else at home.
func (w *Window) chooseFile(wish fileWish) {
	d := &fileDialog{w: w, wish: wish, dir: wish.start}
	if d.dir == "" {
		d.dir = w.startFolder()
	}
	d.field = parts.NewSuggestEntry(wish.name, words.Say("file.hint"), d.complete, func(s parts.Suggestion) { d.enterName(s.Key) })
	d.field.OnSubmitted = func(string) { d.dialog.Confirm() }
	d.where, d.trouble = parts.NewCaption(""), parts.NewCaption("")
	d.trouble.SetRole(parts.RoleError)
	d.list = parts.NewMatrix()
	d.list.OnActivate = func(row, _ int) { d.open(row) }
	d.list.OnSelect = func(row, _ int) { d.name(row) }
	w.pin("file.name", d.field)
	content := parts.Fill(parts.GapSmall, 3, d.head(), d.field, d.trouble, parts.NewTableCard("", "", d.list))
	d.enter(d.dir)
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: wish.title, Content: content, First: d.field, Confirm: wish.ok, Cancel: words.Say("button.cancel"),
		Width: 640, Height: 520, OnOK: d.done,
	})
}

// chooseFolder has a folder chosen, from start on: rows are walked into, and the
// folder that is listed is taken.
func (w *Window) chooseFolder(start string, then func(path string)) {
	w.chooseFile(fileWish{
		title: words.Say("folder.title"), ok: words.Say("folder.take"), help: words.Say("folder.help"),
		endings: []string{string(filepath.Separator)}, start: start, folders: true, then: then, // no file has that ending
	})
}

// head is the folder that is listed, with what fits and the button that takes
// the folder itself where the wish has them.
func (d *fileDialog) head() fyne.CanvasObject {
	if d.wish.folders {
		return parts.Rows(parts.GapSmall, parts.NewCaption(d.wish.help), d.where)
	}
	if d.wish.folder == "" {
		return d.where
	}
	take := parts.NewButton(parts.Quiet, "open", d.wish.folder, func() {
		d.dialog.Close()
		d.wish.then(d.dir)
	})
	d.w.pin("file.folder", take)
	return parts.Rows(parts.GapSmall, parts.NewCaption(d.wish.help), parts.Stretch(parts.GapSmall, 0, d.where, take))
}

func (w *Window) startFolder() string {
	if w.view.Path != "" {
		return filepath.Dir(w.view.Path)
	}
	if recent := w.desk.Prefs().Recent; len(recent) > 0 {
		if dir := filepath.Dir(recent[0].Path); folderThere(dir) {
			return dir
		}
	}
	return desk.Home()
}

func folderThere(dir string) bool {
	_, folder := desk.Exists(dir)
	return folder
}

// enter lists another folder; the first row leads up.
func (d *fileDialog) enter(dir string) {
	d.dir = dir
	d.entries = append([]desk.Entry{{Name: "..", Folder: true}}, desk.Folder(dir, d.wish.endings...)...)
	d.where.SetText(dir)
	d.list.SetData(matrixOf(sheets.Folder(d.entries)))
}

// complete offers what in the folder starts as typed.
func (d *fileDialog) complete(typed string) []parts.Suggestion {
	var out []parts.Suggestion
	for _, e := range sheets.Starting(d.entries, typed) {
		out = append(out, parts.Suggestion{Text: e.Name, Key: e.Name})
	}
	return out
}

func (d *fileDialog) entry(row int) (desk.Entry, bool) {
	if row < 0 || row >= len(d.entries) {
		return desk.Entry{}, false
	}
	return d.entries[row], true
}

// name puts a file's name into the field; a folder's leaves it.
func (d *fileDialog) name(row int) {
	if e, ok := d.entry(row); ok && !e.Folder {
		d.field.Set(e.Name)
	}
}

func (d *fileDialog) open(row int) {
	e, ok := d.entry(row)
	switch {
	case !ok:
	case e.Folder:
		d.enter(filepath.Join(d.dir, e.Name))
	default:
		d.field.Set(e.Name)
		d.dialog.Confirm()
	}
}

func (d *fileDialog) enterName(name string) {
	path := filepath.Join(d.dir, name)
	if folderThere(path) {
		d.enter(path)
		d.field.Set("")
		return
	}
	d.field.Set(name)
}

// done takes the path in the field; a folder is entered, a file that is not
// there is told of.
func (d *fileDialog) done() bool {
	if d.wish.folders && d.field.Text == "" {
		d.wish.then(d.dir)
		return true
	}
	if d.field.Text == "" {
		return d.refuse(words.Say("file.none"))
	}
	ending := ""
	if d.wish.save {
		ending = d.wish.endings[0]
	}
	plain := desk.FullPath(d.field.Text, d.dir, "")
	if folderThere(plain) {
		d.enter(plain)
		d.field.Set("")
		return false
	}
	path := desk.FullPath(d.field.Text, d.dir, ending)
	there, _ := desk.Exists(path)
	switch {
	case d.wish.folders && !there: // it is made where files are to go
	case !d.wish.save && !there:
		return d.refuse(words.Say("file.missing", filepath.Base(path)))
	case d.wish.save && !folderThere(filepath.Dir(path)):
		return d.refuse(words.Say("file.no-folder", filepath.Dir(path)))
	}
	d.wish.then(path)
	return true
}

func (d *fileDialog) refuse(why string) bool {
	d.trouble.SetText(why)
	d.w.win.Canvas().Focus(fyne.Focusable(d.field))
	return false
}
