package crash

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestAReportOnAFullDisk is told all the same, and leaves no half file.
func TestAReportOnAFullDisk(t *testing.T) {
	state := t.TempDir()
	if err := syscall.Mount("tmpfs", state, "tmpfs", 0, "size=64k"); err != nil {
		t.Skip("no drive of our own to fill:", err)
	}
	defer syscall.Unmount(state, 0) //nolint:errcheck // the test is over
	dir := filepath.Join(state, folderName)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	// A short run with a long stack, so that the room it leaves is not enough.
	said := headMark + "Parewell 9.8.7\n" + keyMark + "did.title\npanic: runtime error: integer divide by zero\n\ngoroutine 1 [running]:\n" +
		strings.Repeat("parewell/ui.work(...)\n\t/src/parewell/ui/work.go:7 +0x1\n", 800)
	if err := os.WriteFile(filepath.Join(dir, "running-1.txt"), []byte(said), 0o600); err != nil {
		t.Fatal(err)
	}
	fill, err := os.Create(filepath.Join(state, "fill"))
	if err != nil {
		t.Fatal(err)
	}
	io.Copy(fill, endless{}) //nolint:errcheck // it ends when the drive is full
	fill.Close()             //nolint:errcheck // likewise
	// The run's own file is removed before: keep it open, so that its room stays taken.
	held, err := os.Open(filepath.Join(dir, "running-1.txt"))
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close() //nolint:errcheck // it was read only
	r, ok := Collect(state, time.Now())
	if !ok || r.Path != "" || !strings.Contains(r.Text, "integer divide by zero") {
		t.Errorf("%v, kept at %q: %.80q", ok, r.Path, r.Text)
	}
	wantOnly(t, state)
}

type endless struct{}

func (endless) Read(b []byte) (int, error) { return len(b), nil }
