package ui

import (
	"time"

	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// backupsDialog lists the copies of safety of the open workbook; one of them can
// be opened as a workbook of its own.
type backupsDialog struct {
	w      *Window
	all    []desk.Backup
	table  *parts.Matrix
	open   *parts.Button
	dialog *parts.Dialog
}

// showBackups opens the list once it has been read.
func (w *Window) showBackups() {
	if w.view.Path == "" {
		return
	}
	w.desk.Backups(func(all []desk.Backup, err error) {
		if err != nil {
			w.problemDialog(err)
			return
		}
		(&backupsDialog{w: w, all: all}).show()
	})
}

func (d *backupsDialog) show() {
	d.open = parts.NewButton(parts.Primary, "open", words.Say("backups.open"), func() {
		row, _ := d.table.Selected()
		d.choose(row)
	})
	d.table = parts.NewMatrix()
	d.table.WholeRow, d.table.Stretch = true, true
	d.table.OnActivate = func(row, _ int) { d.choose(row) }
	d.table.OnSelect = func(row, _ int) { d.open.SetEnabled(d.at(row) != nil) }
	data := matrixOf(sheets.Backups(d.all, time.Local))
	data.Empty = words.Say("backups.none")
	d.table.SetData(data)
	d.w.pin("backups.list", d.table)
	d.w.pin("backups.open", d.open)
	if len(d.all) > 0 {
		d.table.Select(0, 0)
	}
	d.open.SetEnabled(len(d.all) > 0)
	d.dialog = parts.ShowDialog(d.w.win, parts.DialogOptions{
		Title: words.Say("backups.title"),
		Content: parts.Fill(parts.GapMedium, 1,
			parts.Rows(parts.GapSmall, parts.NewText(words.Say("backups.caption", d.w.view.Name())), parts.NewCaption(words.Say("backups.where", d.w.desk.BackupsFolder()))),
			parts.NewTableCard("", "", d.table), parts.Line(parts.GapSmall, d.open)),
		First: d.table, Cancel: words.Say("button.close"), Width: 620, Height: 560,
	})
}

func (d *backupsDialog) at(row int) *desk.Backup {
	if row < 0 || row >= len(d.all) {
		return nil
	}
	return &d.all[row]
}

// choose asks where the copy is to be kept, and opens it there.
func (d *backupsDialog) choose(row int) {
	b := d.at(row)
	if b == nil {
		return
	}
	d.dialog.Close()
	d.w.chooseFile(fileWish{
		title: words.Say("backups.open.title"), ok: words.Say("backups.open"), name: sheets.BackupName(d.w.view.Name(), *b, time.Local),
		endings: []string{desk.Extension}, save: true,
		then: func(path string) { d.w.desk.OpenBackup(*b, path, d.w.problemDialogOrNil) },
	})
}
