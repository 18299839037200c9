package sheets

import (
	"time"

	"parewell/recipes/words"
	"parewell/ui/desk"
)

// Backups lists copies of safety by when they were made, in the zone; the key of
// a row is the file's path.
func Backups(all []desk.Backup, zone *time.Location) Sheet {
	s := Sheet{Corner: words.Say("backups.made"), Columns: []Column{
		{Key: "size", Title: words.Say("backups.size"), Number: true, Index: -1},
	}}
	for _, b := range all {
		s.Rows = append(s.Rows, Row{Key: b.Path, Label: text(BackupTime(b, zone)), Cells: []Cell{
			{Text: words.Say("file.kb", words.Number(float64(b.Size)/1000, 0)), Number: true, Bar: noBar()},
		}})
	}
	return s
}

// BackupTime says when a backup was made: "4 Mar 2026  12:00".
func BackupTime(b desk.Backup, zone *time.Location) string {
	at := b.Made.In(zone)
	return words.Day(at) + "  " + words.Clock(at)
}

// BackupName is what the workbook of a backup is called unless she says
// otherwise: the workbook's name and the day, in figures that sort.
func BackupName(name string, b desk.Backup, zone *time.Location) string {
	return words.Say("backups.open.name", name, b.Made.In(zone).Format(time.DateOnly))
}
