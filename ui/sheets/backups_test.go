package sheets

import (
	"testing"
	"time"

	"parewell/recipes/words"
	"parewell/ui/desk"
)

func TestBackupsAreListedInTheZoneOfTheReader(t *testing.T) {
	b := desk.Backup{Path: "x", Made: time.Date(2026, 3, 4, 23, 30, 0, 0, time.UTC), Size: 1_234_567}
	east := time.FixedZone("", 3600)
	s := Backups([]desk.Backup{b}, east)
	if len(s.Rows) != 1 || s.Rows[0].Key != "x" || s.Rows[0].Label.Text != "5 Mar 2026  00:30" || s.Rows[0].Cells[0].Text != words.Say("file.kb", "1235") {
		t.Errorf("%+v", s.Rows)
	}
	if got := BackupName("Supper", b, east); got != words.Say("backups.open.name", "Supper", "2026-03-05") {
		t.Errorf("called %q", got)
	}
}
