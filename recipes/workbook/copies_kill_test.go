package workbook

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// copyUntilKilled makes copies for ever and says so after each; the role is "copy
// way path". A copy that fails is told and ends it.
func copyUntilKilled(role, from string) error {
	parts := strings.SplitN(role, " ", 3)
	w, path := copyWayOf(parts[1]), parts[2]
	f, err := Open(from, testOptions())
	if err != nil {
		return err
	}
	defer f.Close()
	for {
		if w.fresh {
			os.Remove(path)
		}
		if err := w.write(ctx, f, path); err != nil {
			fmt.Println(err)
			return nil
		}
		fmt.Println("copied")
	}
}

// TestKillingACopyLeavesTheOldOrTheNew kills a program in the middle of copying:
// what stands at the target is whole, and the workbook is untouched.
func TestKillingACopyLeavesTheOldOrTheNew(t *testing.T) {
	f := laden(t)
	f.Close()
	before := mustRead(t, f.Path())
	book := mustOpen(t, f.Path()).Book()
	rnd := rand.New(rand.NewPCG(4, 4))
	for _, w := range copyWays {
		t.Run(w.name, func(t *testing.T) {
			dir, none, half := t.TempDir(), 0, 0
			path, _ := target(t, w, dir)
			for range max(2, kills(t)/5) {
				p := start(t, "copy "+w.name+" "+path, f.Path(), 0)
				for range 1 + rnd.IntN(3) {
					if !p.lines.Scan() || p.lines.Text() != "copied" {
						t.Fatalf("the other program said %q", p.lines.Text())
					}
				}
				time.Sleep(time.Duration(rnd.IntN(15000)) * time.Microsecond)
				p.Process.Kill() //nolint:errcheck // Wait tells
				p.Wait()         //nolint:errcheck // it was killed
				if mustRead(t, path) == "" && w.fresh {
					none++ // it had made room for the next one
				} else {
					wantCopy(t, w, path, book)
				}
				left, _ := filepath.Glob(filepath.Join(dir, ".*.part*"))
				half += len(left)
				for _, l := range left {
					os.Remove(l)
				}
				wantOnlyIn(t, dir, "copy.parewell")
			}
			if mustRead(t, f.Path()) != before {
				t.Error("the workbook was changed")
			}
			t.Logf("%d kills left a half copy under a passing name, %d none", half, none)
		})
	}
}
