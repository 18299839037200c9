package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

// TestKeysAreTold: every shortcut of the menus is on the list of keys under a name
// of its own, and no two are the same.
func TestKeysAreTold(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	told := map[string]string{}
	for _, r := range k.menuKeys() {
		if was := told[r.key]; was != "" || r.what == "" {
			t.Errorf("%s is %q and %q", r.key, was, r.what)
		}
		told[r.key] = r.what
	}
	n := 0
	for _, m := range k.menu.main.Items {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				n++
			}
		}
	}
	if n != len(told) || n < 20 {
		t.Errorf("%d keys told, %d on the menus", len(told), n)
	}
	for key, what := range map[string]string{"Ctrl+Shift+P": "Paste a recipe", "Ctrl+K": "Printed page", "Ctrl+H": "Book", "F1": "Guide"} {
		if told[key] != what {
			t.Errorf("%s: %q, want %q", key, told[key], what)
		}
	}
	k.showKeys()
	k.settle()
	k.picture("keys")
}
