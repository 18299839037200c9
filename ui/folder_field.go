package ui

import (
	"path/filepath"

	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// folderField asks for a folder, and makes it when it is not there and the cook
// says so.
type folderField struct {
	w     *Window
	entry *parts.Entry
	row   *parts.FormRow
	again func() // goes on once a folder has been made
}

// newFolderField puts the field into a form, with the folder that files were saved
// to last, else that of the workbook.
func newFolderField(w *Window, form *parts.Form) *folderField {
	start := w.desk.Prefs().Folder
	if !folderThere(start) {
		start = w.startFolder()
	}
	f := &folderField{w: w, entry: parts.NewEntry(start, "", nil)}
	browse := parts.NewButton(parts.Quiet, "open", words.Say("folder.browse"), f.browse)
	f.row = form.Row(words.Say("export.folder"), parts.Stretch(parts.GapSmall, 0, f.entry, browse), "", words.Say("export.folder.help"))
	w.pin("print.folder", f.entry)
	w.pin("print.browse", browse)
	return f
}

// path is the folder that is typed, in full.
func (f *folderField) path() string { return desk.FullPath(f.entry.Text, f.w.startFolder(), "") }

// browse has a folder chosen from those that are there.
func (f *folderField) browse() {
	start := f.path()
	for !folderThere(start) && start != filepath.Dir(start) {
		start = filepath.Dir(start)
	}
	f.w.chooseFolder(start, func(path string) {
		f.row.SetError("")
		f.entry.Set(path)
	})
}

// where is the folder, kept for the next time; "" when it is not there: then that
// is said, and asked whether to make it.
func (f *folderField) where() string {
	f.row.SetError("")
	folder := f.path()
	if folderThere(folder) {
		f.w.desk.SetPrefs(func(p *desk.Prefs) { p.Folder = folder })
		return folder
	}
	f.row.SetError(words.Say("export.no-folder"))
	parts.Confirm(f.w.win, words.Say("folder.make"), words.Say("folder.make.text", folder), words.Say("folder.make.ok"), words.Say("button.cancel"), false, func() {
		if err := desk.MakeFolder(folder); err != nil {
			f.row.SetError(err.Error())
			return
		}
		f.row.SetError("")
		if f.again != nil {
			f.again()
		}
	})
	return ""
}
