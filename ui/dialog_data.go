package ui

import (
	"context"
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
	dialog := parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("data.out.title"), Content: parts.Rows(parts.GapMedium, parts.NewText(words.Say("data.out.text")), form),
		First: folder.entry, Confirm: words.Say("data.out.ok"), Cancel: words.Say("button.cancel"), Width: 600,
		OnOK: func() bool {
			to := folder.where()
			if to == "" {
				return false
			}
			ctx, done := w.dataWork()
			w.desk.DataFiles(ctx, people.On(), func(files []desk.ExportFile, err error) {
				if done(err) {
					w.export(to, files)
				}
			})
			return true
		},
	})
	folder.again = dialog.Confirm
}

// dataWork shows in the status line that data are being read, and the way to stop
// it. done tells how that ended and says whether there is anything to go on with.
func (w *Window) dataWork() (ctx context.Context, done func(error) bool) {
	ctx, stop := context.WithCancel(context.Background())
	work := w.status.StartWork(words.Say("data.reading"), words.Say("data.stop"), stop)
	return ctx, func(err error) bool {
		work.Done()
		switch {
		case ctx.Err() != nil && err != nil:
			w.status.SetMessage(words.Say("data.stopped"))
		case err != nil:
			w.problemDialog(err)
		}
		return err == nil
	}
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
					ctx, done := w.dataWork()
					w.desk.OpenData(ctx, filepath.Dir(from), path, func(err error) { done(err) })
				},
			})
		},
	})
}
