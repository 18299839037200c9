package ui

import (
	"path/filepath"

	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// dataOut asks where the plain files of the whole workbook go.
func (w *Window) dataOut() {
	if w.view.Path == "" {
		return
	}
	form := parts.NewForm()
	folder := newFolderField(w, form)
	people := parts.NewCheck(words.Say("data.out.people"), false, nil)
	w.pin("data.people", people)
	form.Row("", people, "", "")
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("data.out.title"), Content: parts.Rows(parts.GapMedium, parts.NewText(words.Say("data.out.text")), form),
		First: folder.entry, Confirm: words.Say("data.out.ok"), Cancel: words.Say("button.cancel"), Width: 600,
		OnOK: func() bool {
			to := folder.where()
			if to == "" {
				return false
			}
			w.desk.DataFiles(people.On(), func(files []desk.ExportFile, err error) {
				if err != nil {
					w.problemDialog(err)
					return
				}
				w.export(to, files)
			})
			return true
		},
	})
}

// dataIn asks for the file that is read back and where the new workbook goes.
func (w *Window) dataIn() {
	w.chooseFile(fileWish{
		title: words.Say("data.in.title"), ok: words.Say("data.in.ok"), endings: []string{".json"}, help: words.Say("data.in.text"),
		then: func(from string) {
			w.chooseFile(fileWish{
				title: words.Say("file.new.title"), ok: words.Say("file.new.ok"), name: words.Say("file.new.name"),
				endings: []string{desk.Extension}, save: true,
				then: func(path string) {
					w.desk.OpenData(filepath.Dir(from), path, func(err error) {
						if err != nil {
							w.problemDialog(err)
						}
					})
				},
			})
		},
	})
}
