package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes/words"
	"parewell/ui/parts"
)

func TestTheLanguageIsItsUsers(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	k.settings()
	pick, _ := k.pins["settings.language"].(*parts.Segmented)
	if pick == nil || pick.Key() != "en" {
		t.Fatalf("the language is %v", pick)
	}
	pick.SetKey("fr")
	k.picture("dialog-settings-language")
	k.confirm()
	k.settle()
	if got := k.desk.Prefs().Language; got != "fr" {
		t.Errorf("%q is remembered", got)
	}
	if words.Current().Code != "en" {
		t.Error("the window in sight should keep its language until the next start")
	}
}

// TestNumbersAreWrittenAsTheirReaderWants: a comma for all workbooks from the next
// start, whatever the language.
func TestNumbersAreWrittenAsTheirReaderWants(t *testing.T) {
	t.Cleanup(func() { words.Choose("en") })
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.settings()
	k.pins["settings.numbers"].(*parts.Segmented).SetKey(",")
	k.picture("dialog-settings-numbers")
	k.confirm()
	k.settle()
	if p := k.desk.Prefs(); p.Decimal != "," {
		t.Fatalf("remembered %+v", p)
	}
	chooseMarks(k.desk.Prefs()) // the next start
	k.openRecipe(0, tabVersions)
	if got := k.cell("fat_g", "").Text; got != "46,0" {
		t.Errorf("fat is shown as %q", got)
	}
	k.settings()
	press(k, "settings.print")
	if k.at.page != pageBook || k.win.Canvas().Overlays().Top() != nil {
		t.Errorf("at %s, not where printing is set", k.at.page)
	}
}

// TestAWindowInFrench shows a page in the second language: its heads, and its
// numbers with commas.
func TestAWindowInFrench(t *testing.T) {
	t.Cleanup(func() { words.Choose("en") })
	words.Choose("fr")
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	k.picture("versions-french")
	row, _ := k.cellAt("fat_g", "A")
	cells := k.versions().table.Data().Rows[row].Cells
	if got := cells[0].Text; got != "matières grasses, g" {
		t.Errorf("the row is called %q", got)
	}
	if got := k.cell("fat_g", "").Text; len(got) < 3 || got[len(got)-2] != ',' {
		t.Errorf("fat is shown as %q", got)
	}
}

func TestTheLabelsBasisIsRemembered(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	if k.firstBasis() != basisUS {
		t.Error("the usual basis")
	}
	k.keepBasis(basisEU)
	if k.firstBasis() != basisEU {
		t.Error("the EU basis is forgotten")
	}
	k.keepBasis(basisUS)
	if k.firstBasis() != basisUS {
		t.Error("the US basis does not come back")
	}
}
