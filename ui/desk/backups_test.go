package desk

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// backed is a desk that makes backups, with a new workbook open and backed up.
func backed(t *testing.T) *bench {
	t.Helper()
	b := newBench(t, Options{BackupAfter: time.Nanosecond})
	path := filepath.Join(t.TempDir(), "supper.parewell")
	b.must(t, func(then func(error)) { b.Create(path, then) })
	b.eventually(t, 1)
	return b
}

// backups are those of the open workbook.
func (b *bench) backups(t *testing.T) []Backup {
	t.Helper()
	var all []Backup
	b.must(t, func(then func(error)) {
		b.Backups(func(got []Backup, err error) {
			all = got
			then(err)
		})
	})
	return all
}

func (b *bench) eventually(t *testing.T, n int) {
	t.Helper()
	for range 1000 {
		if len(b.backups(t)) == n {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Fatalf("%d backups, want %d", len(b.backups(t)), n)
}

func TestABackupOpensAsAWorkbookOfItsOwn(t *testing.T) {
	b := backed(t)
	first := b.View().Path
	if err := b.do(t, loaf("r")); err != nil {
		t.Fatal(err)
	}
	b.must(t, func(then func(error)) { b.Open(first, then) })
	b.eventually(t, 2)
	all := b.backups(t)
	if err := b.wait(t, func(then func(error)) { b.OpenBackup(all[1], first, then) }); err == nil || !strings.Contains(err.Error(), words.Say("workbook.exists")) {
		t.Errorf("over the open workbook: %v", err)
	}
	if b.View().Path != first || b.Book().Recipe("r") == nil {
		t.Error("the open workbook is another")
	}
	to := filepath.Join(t.TempDir(), "from before.parewell")
	b.must(t, func(then func(error)) { b.OpenBackup(all[1], to, then) })
	if b.View().Path != to || b.Book().Recipe("r") != nil || b.View().ReadOnly != "" {
		t.Errorf("%+v", b.View())
	}
	b.eventually(t, 1) // of the copy itself, which is another workbook
	b.must(t, func(then func(error)) { b.Open(first, then) })
	if b.Book().Recipe("r") == nil || len(b.backups(t)) != 2 {
		t.Error("the workbook or its backups are not as they were")
	}
}

func TestABackupHasNoBackups(t *testing.T) {
	b := backed(t)
	all := b.backups(t)
	b.must(t, func(then func(error)) { b.Open(all[0].Path, then) })
	if got := b.backups(t); got != nil {
		t.Errorf("listed %+v", got)
	}
	if err := b.do(t, loaf("r")); err != nil {
		t.Fatal(err)
	}
}

func TestRemovingAPersonRenewsTheBackups(t *testing.T) {
	b := backed(t)
	first := b.View().Path
	person := &recipes.Panelist{ID: "person1", Code: "Zephyrine", Asked: true, DoesNotEat: []string{"quincejelly"}, Consent: "2026-03-01"}
	if err := b.do(t, tasting.PutTaster(person)); err != nil {
		t.Fatal(err)
	}
	b.must(t, func(then func(error)) { b.Open(first, then) })
	b.eventually(t, 2)
	dir := filepath.Dir(b.backups(t)[0].Path)
	half := filepath.Join(dir, ".x.part")
	must(t, os.WriteFile(half, []byte("Zephyrine"), 0o600))
	if !holds(t, b.StateDir(), "Zephyrine") {
		t.Fatal("the backups do not hold her, so this test shows nothing")
	}
	b.must(t, func(then func(error)) { b.RemovePerson(tasting.RemoveTaster("person1"), then) })
	if got := b.View().Message; got != words.Say("backups.renewed") {
		t.Errorf("tells %q", got)
	}
	if all := b.backups(t); len(all) != 1 || all[0].seq != 3 {
		t.Errorf("backups: %+v", all)
	}
	for _, secret := range []string{"Zephyrine", "quincejelly"} {
		if holds(t, b.StateDir(), secret) {
			t.Errorf("a backup still says %q", secret)
		}
	}
}

func TestForgettingMeasuresRenewsTheBackups(t *testing.T) {
	b := backed(t)
	first := b.View().Path
	if err := b.do(t, recipes.Set(recipes.BodyMeasures, `{"height":171.25}`)); err != nil {
		t.Fatal(err)
	}
	b.must(t, func(then func(error)) { b.Open(first, then) })
	b.eventually(t, 2)
	if !holds(t, b.StateDir(), "171.25") || !holds(t, filepath.Dir(first), "171.25") {
		t.Fatal("the files do not hold the measures, so this test shows nothing")
	}
	b.must(t, b.ForgetMeasures)
	if got := b.View().Message; got != words.Say("backups.forgotten") {
		t.Errorf("tells %q", got)
	}
	if b.Book().Setting(recipes.BodyMeasures) != "" {
		t.Error("not forgotten")
	}
	for _, dir := range []string{b.StateDir(), filepath.Dir(first)} {
		if holds(t, dir, "171.25") {
			t.Errorf("%s still holds the measures", dir)
		}
	}
}

// holds tells whether any file below dir has the text in it.
func holds(t *testing.T, dir, what string) bool {
	t.Helper()
	found := false
	must(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := os.ReadFile(path)
		found = found || strings.Contains(string(raw), what)
		return err
	}))
	return found
}

// TestOldBackupsGoEvenWhenNoFreshOneFits removes a person on a full disk.
func TestOldBackupsGoEvenWhenNoFreshOneFits(t *testing.T) {
	f, v := stocked(t)
	edit(t, f, tasting.PutTaster(&recipes.Panelist{ID: "person1", Code: "Zephyrine"}))
	mustAdd(t, v, f, day(3))
	edit(t, f, recipes.SetServings("r", 3))
	mustAdd(t, v, f, day(4))
	edit(t, f, tasting.RemoveTaster("person1"))
	must(t, f.Compact(ctx))
	fullDrive(t, v.dir)
	err := v.renew(ctx, f, day(5)) // the old ones leave room for the fresh one
	if all := mustList(t, v); err != nil || len(all) != 1 || all[0].seq != 3 {
		t.Errorf("%v: %+v", err, all)
	}
	if holds(t, v.dir, "Zephyrine") {
		t.Error("she is still in a backup")
	}
}

// TestClosingDoesNotWaitForABackup closes the workbook before the backup's time
// has come, and while the window takes no calls.
func TestClosingDoesNotWaitForABackup(t *testing.T) {
	for _, after := range []time.Duration{time.Nanosecond, time.Hour} {
		b := newBench(t, Options{BackupAfter: after})
		b.Create(filepath.Join(t.TempDir(), "supper.parewell"), nil)
		soon, cancel := context.WithTimeout(ctx, 5*time.Second)
		if err := b.CloseWait(soon); err != nil {
			t.Error(err)
		}
		cancel()
	}
}

func TestAFailedBackupIsTold(t *testing.T) {
	state := t.TempDir()
	must(t, os.WriteFile(filepath.Join(state, backupsName), nil, 0o600))
	b := newBench(t, Options{BackupAfter: time.Nanosecond, StateDir: state})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "supper.parewell"), then) })
	stem, _, _ := strings.Cut(words.Say("backups.failed", "\x00"), "\x00")
	for !strings.HasPrefix(b.View().Message, stem) {
		b.w.next(t)
	}
}
