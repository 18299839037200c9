package desk

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// TestAPhotoOnAFullDisk is refused in a sentence; the test stays without it, and
// takes it once there is room.
func TestAPhotoOnAFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=2m"); err != nil {
		t.Skip("no drive of our own to fill:", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) }) //nolint:errcheck // the test is over
	b := newBench(t, Options{})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(dir, "book.parewell"), then) })
	for _, v := range []recipes.Verb{loaf("loaf"), recipes.AddTest(&recipes.Batch{ID: "one", Recipe: "loaf", Date: "2026-03-04"})} {
		if err := b.do(t, v); err != nil {
			t.Fatal(err)
		}
	}
	photo := filepath.Join(t.TempDir(), "crust.jpg")
	must(t, os.WriteFile(photo, asJPEG(t, corners4(300, 200), nil), 0o600))
	fill, err := os.Create(filepath.Join(dir, "fill"))
	must(t, err)
	for err == nil {
		_, err = fill.Write(make([]byte, 4096))
	}
	must(t, fill.Close())
	_, err = b.photo(t, "one", photo)
	var p *problem.Error
	if !errors.As(err, &p) || p.What != words.Say("workbook.disk-full") || p.Hint == "" {
		t.Errorf("got %v", err)
	}
	if n := len(b.Book().Test("loaf", "one").Photos); n != 0 {
		t.Errorf("%d photos are shown that are not kept", n)
	}
	must(t, os.Remove(filepath.Join(dir, "fill")))
	if _, err := b.photo(t, "one", photo); err != nil || len(b.Book().Test("loaf", "one").Photos) != 1 {
		t.Errorf("with room again: %v", err)
	}
}
