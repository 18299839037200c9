package ui

import (
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/crash"
)

func TestABreakOffIsToldAtTheNextStart(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := crash.Report{Path: "/home/cook/.local/state/parewell/crash/20260304T120000Z.txt", At: time.Now(), Text: strings.Join([]string{
		"Parewell 0.1.0 (build 1), linux/amd64, go1.26.8", "broke off 2026-03-04T12:00:00Z", "", "done last, oldest first:", "  did.tick-on", "  did.title", "",
		"where it was:", "  panic: runtime error: index out of range [3] with length 3", "  goroutine 1 [running]:", "  parewell/ui.(*versionsPage).show", "      ui/page_versions.go:61",
	}, "\n")}
	k.TellCrash(r)
	if k.status.Message() != words.Say("crash.told") {
		t.Errorf("says %q", k.status.Message())
	}
	k.picture("crash-told")
	k.status.Act()
	if k.win.Canvas().Overlays().Top() == nil {
		t.Fatal("nothing is shown")
	}
	k.picture("crash-shown")
	k.pushPin("crash.copy")
	if got := k.app.Clipboard().Content(); got != r.Text {
		t.Errorf("copied %q", got)
	}
	k.escape()
	if k.win.Canvas().Overlays().Top() != nil {
		t.Error("Escape does not close it")
	}
}

// TestTheKeysOfWhatWasDoneAreNoted holds that the desk gives keys, in order, and
// nothing of what they were said of.
func TestTheKeysOfWhatWasDoneAreNoted(t *testing.T) {
	noted := &noted{}
	k := openBackedUp(t, noted.did)
	k.do(recipes.SetTitle("r", "Zephyrine’s loaf"))
	k.settle()
	k.undo()
	k.settle()
	if got := strings.Join(noted.all(), " "); got != "did.add-recipe did.title did.title" {
		t.Errorf("noted %q", got)
	}
}

// noted are the keys a desk gave.
type noted struct {
	mu   sync.Mutex
	keys []string
}

func (n *noted) did(key string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.keys = append(n.keys, key)
}

func (n *noted) all() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.keys
}
