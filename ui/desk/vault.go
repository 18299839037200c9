package desk

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// How many backups of a workbook are kept: the newest, and the newest of each of
// the last days on which there was one, while they take no more room than this.
// Days without a backup do not count, so that a clock that was wrong for a while
// costs nothing.
const (
	newestKept = 10
	daysKept   = 14
	bytesKept  = 1 << 30
)

// Backup is one copy of safety.
type Backup struct {
	Path string
	Made time.Time // in UTC, by the clock of then
	Size int64     // bytes
	seq  int       // counts the backups of the workbook: their order, whatever the clock said
	mark string    // of the state it holds
}

// vault is the folder with the backups of one workbook.
type vault struct{ dir string }

// uuidForm is the form of a UUID (RFC 9562).
var uuidForm = regexp.MustCompile(`^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$`)

// folderOf names a workbook's folder: its uuid, unless a strange file has one
// that is none.
func folderOf(uuid string) string {
	if uuidForm.MatchString(uuid) {
		return uuid
	}
	sum := sha256.Sum256([]byte(uuid))
	return hex.EncodeToString(sum[:16])
}

// nameForm is the name of a backup: its number, when it was made, its mark.
var nameForm = regexp.MustCompile(`^(\d{6,9})-(\d{8}T\d{6}Z)-([0-9a-f]+)` + regexp.QuoteMeta(workbook.Extension) + `$`)

const stamp = "20060102T150405Z"

func (v *vault) path(seq int, at time.Time, mark string) string {
	return filepath.Join(v.dir, fmt.Sprintf("%06d-%s-%s%s", seq, at.UTC().Format(stamp), mark, workbook.Extension))
}

// list returns the backups, the newest first; none when there is no folder yet.
func (v *vault) list() ([]Backup, error) {
	entries, err := os.ReadDir(v.dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, problem.Wrap(err, v.dir, words.Say("backups.unreadable"), "")
	}
	var all []Backup
	for _, e := range entries {
		m := nameForm.FindStringSubmatch(e.Name())
		info, err := e.Info()
		if m == nil || err != nil || !info.Mode().IsRegular() {
			continue
		}
		seq, err := strconv.Atoi(m[1])
		if err != nil {
			continue
		}
		at, err := time.Parse(stamp, m[2])
		if err != nil {
			continue
		}
		all = append(all, Backup{Path: filepath.Join(v.dir, e.Name()), Made: at, Size: info.Size(), seq: seq, mark: m[3]})
	}
	slices.SortFunc(all, func(a, b Backup) int { return cmp.Or(cmp.Compare(b.seq, a.seq), b.Made.Compare(a.Made)) })
	return all, nil
}

// add makes a backup of f unless the newest one holds the same state, then lets
// go of those that need not be kept. made tells whether there is a new one.
func (v *vault) add(ctx context.Context, f *workbook.File, now time.Time) (made bool, err error) {
	all, err := v.list()
	if err != nil {
		return false, err
	}
	mark, err := f.Mark(ctx)
	if err != nil {
		return false, err
	}
	if len(all) > 0 && all[0].mark == mark {
		return false, nil
	}
	v.sweep(now)
	if err := v.copy(ctx, f, all, now, mark); err != nil {
		return false, err
	}
	if all, err = v.list(); err != nil {
		return true, err
	}
	var drop []string
	for _, b := range spare(all, bytesKept, now.Location()) {
		drop = append(drop, b.Path)
	}
	return true, removeAll(drop)
}

// copy writes one more backup beside all.
func (v *vault) copy(ctx context.Context, f *workbook.File, all []Backup, now time.Time, mark string) error {
	if st, err := os.Stat(f.Path()); err == nil && st.Size() > bytesKept {
		return problem.New(f.Path(), words.Say("backups.too-large"), "")
	}
	if err := os.MkdirAll(v.dir, 0o700); err != nil {
		return problem.Wrap(err, v.dir, words.Say("backups.no-folder", v.dir), "")
	}
	next := 1
	if len(all) > 0 {
		next = all[0].seq + 1
	}
	return f.BackupTo(ctx, v.path(next, now, mark))
}

// renew makes one fresh backup and removes all others. Those go even when the
// fresh one cannot be made at once; it is then tried again in the room they left.
func (v *vault) renew(ctx context.Context, f *workbook.File, now time.Time) error {
	all, err := v.list()
	if err != nil {
		return err
	}
	mark, err := f.Mark(ctx)
	if err != nil {
		return err
	}
	failed := v.copy(ctx, f, all, now, mark)
	old := v.unfinished()
	for _, b := range all {
		old = append(old, b.Path)
	}
	if err := removeAll(old); err != nil {
		return problem.Wrap(err, v.dir, words.Say("backups.stay"), words.Say("backups.stay.hint"))
	}
	if failed != nil {
		failed = v.copy(ctx, f, all, now, mark)
	}
	if failed != nil {
		return problem.Wrap(failed, "", words.Say("backups.gone", plainly(failed)), "")
	}
	return nil
}

// spare returns those of the backups, the newest first, that need not be kept:
// days are those of the zone. The newest is always kept.
func spare(all []Backup, most int64, zone *time.Location) []Backup {
	var out []Backup
	days, room := map[string]bool{}, most
	full := false
	for i, b := range all {
		day := b.Made.In(zone).Format(time.DateOnly)
		firstOfDay := !days[day] && len(days) < daysKept
		days[day] = days[day] || firstOfDay
		full = full || b.Size > room // an older one that would fit is no reason to let a newer one go
		if i > 0 && (full || i >= newestKept && !firstOfDay) {
			out = append(out, b)
			continue
		}
		room -= b.Size
	}
	return out
}

// longestCopy is how long a backup may take to be written: what is older and
// still unfinished was left by a program that was killed.
const longestCopy = time.Hour

// sweep removes what killed programs left behind.
func (v *vault) sweep(now time.Time) {
	var old []string
	for _, p := range v.unfinished() {
		if st, err := os.Stat(p); err == nil && now.Sub(st.ModTime()) > longestCopy {
			old = append(old, p)
		}
	}
	removeAll(old) //nolint:errcheck // they are only in the way
}

// unfinished lists the backups under way, and those that were left so.
func (v *vault) unfinished() []string {
	entries, err := os.ReadDir(v.dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if name := e.Name(); strings.HasPrefix(name, ".") && strings.Contains(name, ".part") {
			out = append(out, filepath.Join(v.dir, name))
		}
	}
	return out
}
