package desk

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

var ctx = context.Background()

func day(n int) time.Time { return time.Date(2026, 3, n, 9, 0, 0, 0, time.UTC) }

// made are backups of a MB each, the newest first.
func made(times ...time.Time) []Backup {
	out := make([]Backup, len(times))
	for i, at := range times {
		out[i] = Backup{Path: fmt.Sprint(len(times) - i), Made: at, Size: 1 << 20, seq: len(times) - i}
	}
	return out
}

func many(n int, at func(i int) time.Time) []Backup {
	var times []time.Time
	for i := range n {
		times = append(times, at(i))
	}
	return made(times...)
}

func TestWhichBackupsAreLetGo(t *testing.T) {
	rows := []struct {
		name string
		all  []Backup
		most int64
		want string // paths
	}{
		{"none", nil, bytesKept, ""},
		{"ten of one day", many(10, func(i int) time.Time { return day(4) }), bytesKept, ""},
		{"twelve of one day", many(12, func(i int) time.Time { return day(4) }), bytesKept, "2 1"},
		{"one a day for 14 days", many(16, func(i int) time.Time { return day(30 - i) }), bytesKept, "2 1"},
		{
			"the last of a day stays", many(24, func(i int) time.Time { return day(30 - i/2) }), bytesKept,
			"13 11 9 7 5 3 1", // the second ones of the days beyond the newest ten
		},
		{"a clock set back", made(day(2), day(20), day(19)), bytesKept, ""},
		{
			"a clock that was in another century for a while", append(many(12, func(i int) time.Time { return day(4) }), made(time.Date(2126, 1, 1, 0, 0, 0, 0, time.UTC), day(3))...),
			bytesKept, "2 1",
		},
		{"room for two", many(4, func(i int) time.Time { return day(20 - i) }), 2 << 20, "2 1"},
		{"no room even for the newest", many(2, func(i int) time.Time { return day(20 - i) }), 1, "1"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			var got []string
			for _, b := range spare(r.all, r.most, time.UTC) {
				got = append(got, b.Path)
			}
			if strings.Join(got, " ") != r.want {
				t.Errorf("lets go of %q, want %q", got, r.want)
			}
		})
	}
}

func TestADayIsThatOfTheZone(t *testing.T) {
	all := many(12, func(i int) time.Time { return time.Date(2026, 3, 4, 23-2*i, 0, 0, 0, time.UTC) })
	if n := len(spare(all, bytesKept, time.FixedZone("", -4*3600))); n != 1 {
		t.Errorf("%d let go, want 1: in this zone the last ones are of the day before", n)
	}
}

// stocked is a workbook and the vault of its backups, apart from any desk.
func stocked(t *testing.T) (*workbook.File, *vault) {
	t.Helper()
	f, err := workbook.Create(filepath.Join(t.TempDir(), "supper.parewell"), workbook.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	edit(t, f, loaf("r"))
	return f, &vault{dir: filepath.Join(t.TempDir(), "backups", folderOf(f.UUID()))}
}

func edit(t *testing.T, f *workbook.File, v recipes.Verb) {
	t.Helper()
	if _, err := f.Apply(ctx, v, recipes.ByCook); err != nil {
		t.Fatal(err)
	}
}

func mustAdd(t *testing.T, v *vault, f *workbook.File, now time.Time) bool {
	t.Helper()
	made, err := v.add(ctx, f, now)
	if err != nil {
		t.Fatal(err)
	}
	return made
}

func mustList(t *testing.T, v *vault) []Backup {
	t.Helper()
	all, err := v.list()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestABackupIsMadeWhenTheWorkbookChanged(t *testing.T) {
	f, v := stocked(t)
	if !mustAdd(t, v, f, day(4)) {
		t.Error("none was made")
	}
	if mustAdd(t, v, f, day(5)) {
		t.Error("a second one of the same state")
	}
	edit(t, f, recipes.SetServings("r", 3))
	if !mustAdd(t, v, f, day(5)) {
		t.Error("none after a change")
	}
	all := mustList(t, v)
	if len(all) != 2 || !all[0].Made.Equal(day(5)) || !all[1].Made.Equal(day(4)) || all[0].Size == 0 {
		t.Fatalf("%+v", all)
	}
	for i, servings := range []float64{3, 8} {
		g, err := workbook.Open(all[i].Path, workbook.Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		if got := g.Book().Recipe("r").Servings; got != servings {
			t.Errorf("backup %d serves %v, want %v", i, got, servings)
		}
		if h, _ := g.History(ctx, "", 0); len(h) != 2-i {
			t.Errorf("backup %d has %d entries in its notebook", i, len(h))
		}
		g.Close()
	}
}

// TestTheClockMayJump sets the clock back and forth between backups: none is lost
// for it, and the newest is the one made last.
func TestTheClockMayJump(t *testing.T) {
	f, v := stocked(t)
	for i, at := range []time.Time{day(4), time.Date(2090, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC), day(5)} {
		edit(t, f, recipes.SetServings("r", float64(20+i)))
		mustAdd(t, v, f, at)
		all := mustList(t, v)
		if len(all) != i+1 || !all[0].Made.Equal(at) {
			t.Fatalf("after %v: %+v", at, all)
		}
	}
	if mustAdd(t, v, f, day(1)) {
		t.Error("the newest was not known again")
	}
}

func TestOnlySoManyBackupsStay(t *testing.T) {
	f, v := stocked(t)
	for i := range 14 {
		edit(t, f, recipes.SetServings("r", float64(20+i)))
		mustAdd(t, v, f, day(4).Add(time.Duration(i)*time.Minute))
	}
	if all := mustList(t, v); len(all) != newestKept || all[0].seq != 14 {
		t.Errorf("%d stay: %+v", len(all), all)
	}
}

// TestABackupThatCannotBeMade leaves those there are and nothing half written.
func TestABackupThatCannotBeMade(t *testing.T) {
	rows := []struct {
		name  string
		spoil func(t *testing.T, v *vault)
		says  string
	}{
		{"full disk", func(t *testing.T, v *vault) { fullDrive(t, v.dir) }, words.Say("workbook.disk-full")},
		{"a file where the folder should be", func(t *testing.T, v *vault) {
			must(t, os.RemoveAll(v.dir))
			must(t, os.WriteFile(v.dir, nil, 0o600))
		}, words.Say("backups.unreadable")},
		{"no folder can be made", func(t *testing.T, v *vault) {
			must(t, os.RemoveAll(filepath.Dir(v.dir)))
			must(t, os.WriteFile(filepath.Dir(v.dir), nil, 0o600))
		}, ""},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			f, v := stocked(t)
			mustAdd(t, v, f, day(4))
			edit(t, f, recipes.SetServings("r", 3))
			r.spoil(t, v)
			before, _ := v.list()
			_, err := v.add(ctx, f, day(5))
			var p *problem.Error
			if !errors.As(err, &p) || !strings.HasPrefix(p.What, r.says) {
				t.Fatalf("got %v, want %s", err, r.says)
			}
			after, _ := v.list()
			if len(after) != len(before) || len(v.unfinished()) > 0 {
				t.Errorf("%d backups, then %d; unfinished %v", len(before), len(after), v.unfinished())
			}
			edit(t, f, recipes.SetServings("r", 4)) // the work goes on
		})
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// fullDrive puts a drive of its own over a folder, with what was in it and no
// room left.
func fullDrive(t *testing.T, dir string) {
	t.Helper()
	kept, err := os.ReadDir(dir)
	must(t, err)
	files := map[string][]byte{}
	for _, e := range kept {
		if files[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=2m"); err != nil {
		t.Skip("no drive of our own to fill:", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, 0) }) //nolint:errcheck // the test is over
	for name, b := range files {
		must(t, os.WriteFile(filepath.Join(dir, name), b, 0o600))
	}
	fill, err := os.Create(filepath.Join(dir, "fill"))
	must(t, err)
	defer fill.Close()
	for {
		if _, err := fill.Write(make([]byte, 4096)); err != nil {
			return
		}
	}
}

func TestWhatKilledProgramsLeftIsSweptAway(t *testing.T) {
	f, v := stocked(t)
	must(t, os.MkdirAll(v.dir, 0o700))
	old, fresh := filepath.Join(v.dir, ".abc.part"), filepath.Join(v.dir, ".def.part")
	strange := filepath.Join(v.dir, "shopping.txt")
	for _, p := range []string{old, fresh, strange} {
		must(t, os.WriteFile(p, []byte("half"), 0o600))
	}
	must(t, os.Chtimes(old, day(4), day(4)))
	must(t, os.Chtimes(fresh, day(5), day(5)))
	mustAdd(t, v, f, day(5))
	if _, err := os.Stat(old); err == nil {
		t.Error("a copy left yesterday is still there")
	}
	for _, p := range []string{fresh, strange} {
		if _, err := os.Stat(p); err != nil {
			t.Errorf("%s is gone", filepath.Base(p))
		}
	}
	if all := mustList(t, v); len(all) != 1 {
		t.Errorf("listed %+v", all)
	}
}

func TestAFolderIsNamedByAUUIDOnly(t *testing.T) {
	for _, uuid := range []string{"../../etc", "", "a/b", strings.Repeat("x", 300)} {
		if got := folderOf(uuid); len(got) != 32 || strings.ContainsAny(got, "./\\") {
			t.Errorf("%q goes to %q", uuid, got)
		}
	}
	const uuid = "0123abcd-0123-4abc-8abc-0123456789ab"
	if folderOf(uuid) != uuid {
		t.Error("a uuid is not its folder")
	}
}
