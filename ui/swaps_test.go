package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

func (k *kitchenWindow) swaps() *swapsPage {
	return k.pages[pageRecipe].(*recipePage).inner[tabSwaps].(*swapsPage)
}

func TestSwapsLook(t *testing.T) {
	for _, c := range []struct {
		name string
		dark bool
		size fyne.Size
	}{
		{"light-1280", false, fyne.NewSize(1280, 800)},
		{"dark-1920", true, fyne.NewSize(1920, 1080)},
	} {
		k := openKitchen(t, c.dark, c.size)
		k.openRecipe(0, tabSwaps)
		k.picture("swaps-" + c.name + "-ideas")
		p := k.swaps()
		p.table.Select(0, 1)
		k.settle()
		k.picture("swaps-" + c.name + "-detail")
		k.editSwap(p.sheet.Swaps[0])
		k.settle()
		k.picture("swaps-" + c.name + "-edit")
	}
	_ = parts.GapSmall
}
