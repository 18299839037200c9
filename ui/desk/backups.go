package desk

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// backupsName is the folder of all backups within the state folder; each
// workbook has one of its own in it, under its uuid.
const backupsName = "backups"

// safety makes the copy of safety of the open workbook, one at a time.
type safety struct {
	mu     sync.Mutex
	cancel context.CancelFunc // of the one under way; nil for none
	done   chan struct{}      // closed when that has ended
}

// begin makes cancel and done those of the copy under way.
func (s *safety) begin(cancel context.CancelFunc, done chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.cancel, s.done = cancel, done
}

// stop ends the copy under way and waits until it has ended: a moment.
func (s *safety) stop() {
	s.mu.Lock()
	cancel, done := s.cancel, s.done
	s.cancel, s.done = nil, nil
	s.mu.Unlock()
	if cancel != nil {
		cancel()
		<-done
	}
}

// backUp has a copy of safety made of a workbook just opened, if it changed since
// the last one: beside the queue, a while after the window has shown it. A copy
// that fails is told in the status line; the work goes on.
func (d *Desk) backUp(f *workbook.File) {
	v := d.vaultOf(f)
	if d.opts.BackupAfter <= 0 || v == nil {
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	done, shown := make(chan struct{}), make(chan struct{})
	d.safety.begin(cancel, done)
	d.opts.Post(func() { close(shown) })
	go func() {
		defer close(done)
		defer cancel()
		select {
		case <-shown:
		case <-ctx.Done():
			return
		}
		select {
		case <-time.After(d.opts.BackupAfter):
		case <-ctx.Done():
			return
		}
		if _, err := v.add(ctx, f, d.opts.Now()); err != nil && ctx.Err() == nil {
			d.Tell(words.Say("backups.failed", plainly(err)))
		}
	}()
}

// plainly is what an error says, without the mend.
func plainly(err error) string {
	var p *problem.Error
	if errors.As(err, &p) {
		return p.What
	}
	return err.Error()
}

// vaultOf is where the backups of a workbook are kept; nil for a workbook that is
// a backup itself.
func (d *Desk) vaultOf(f *workbook.File) *vault {
	all := filepath.Join(full(d.opts.StateDir), backupsName)
	if strings.HasPrefix(full(f.Path()), all+string(filepath.Separator)) {
		return nil
	}
	return &vault{dir: filepath.Join(all, folderOf(f.UUID()))}
}

// renewBackups puts one fresh copy in the place of all backups of a workbook, so
// that what was removed from it is in none of them. For the queue.
func (d *Desk) renewBackups(ctx context.Context, f *workbook.File) error {
	v := d.vaultOf(f)
	if v == nil {
		return nil
	}
	d.safety.stop()
	return v.renew(ctx, f, d.opts.Now())
}

// Backups has the copies of safety of the open workbook listed, the newest first;
// none without a workbook. then is called on the window's thread.
func (d *Desk) Backups(then func([]Backup, error)) {
	var all []Backup
	d.with(func(err error) { then(all, err) }, func(f *workbook.File) (err error) {
		if v := d.vaultOf(f); v != nil {
			all, err = v.list()
		}
		return err
	})
}

// OpenBackup writes a backup as a new workbook to path, where nothing may be yet,
// and opens that, like Open. The backup and the workbook it was made of stay as
// they are.
func (d *Desk) OpenBackup(b Backup, path string, then func(error)) {
	d.bring(then, func() (*workbook.File, error) {
		if err := workbook.Restore(context.Background(), b.Path, path, d.fileOptions()); err != nil {
			return nil, err
		}
		return workbook.Open(path, d.fileOptions())
	})
}

// BackupsFolder is where the backups of all workbooks are.
func (d *Desk) BackupsFolder() string { return filepath.Join(d.opts.StateDir, backupsName) }

// removeAll removes files and goes on past those that cannot be.
func removeAll(paths []string) error {
	var faults []error
	for _, p := range paths {
		if err := os.Remove(p); err != nil && !errors.Is(err, os.ErrNotExist) {
			faults = append(faults, err)
		}
	}
	return errors.Join(faults...)
}
