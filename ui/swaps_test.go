package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
)

func (k *kitchenWindow) swaps() *swapsPage {
	return k.pages[pageRecipe].(*recipePage).inner[tabSwaps].(*swapsPage)
}

// TestSwapsLook draws the page, its cards and dialogs in both themes and at the
// sizes a cook has; PAREWELL_LOOK keeps the pictures.
func TestSwapsLook(t *testing.T) {
	for _, c := range []struct {
		name   string
		dark   bool
		size   fyne.Size
		factor float32
	}{
		{"light-1280", false, fyne.NewSize(1280, 800), 1},
		{"dark-1280", true, fyne.NewSize(1280, 800), 1},
		{"light-1920", false, fyne.NewSize(1920, 1080), 1},
		{"dark-1920", true, fyne.NewSize(1920, 1080), 1},
		{"narrow-900", false, fyne.NewSize(900, 800), 1},
		{"large-1280", false, fyne.NewSize(1280, 800), 1.6},
	} {
		k := openKitchen(t, c.dark, c.size)
		k.setTheme(c.dark, c.factor)
		k.openRecipe(0, tabSwaps)
		k.picture("swaps-" + c.name + "-1ideas")
		p := k.swaps()
		p.table.Select(0, 1)
		k.settle()
		k.picture("swaps-" + c.name + "-2detail")
		p.table.Select(2, 1)
		p.detail.scroll.ScrollToBottom()
		k.settle()
		k.picture("swaps-" + c.name + "-3detail")
		k.look("swaps-"+c.name+"-4edit", func() { k.editSwap(p.sheet.Swaps[0]) })
		k.look("swaps-"+c.name+"-5make", func() { k.editSwap(nil) })
		k.look("swaps-"+c.name+"-6strengths", func() { k.swapStrengths(p.swapNamed("25 % less fine salt")) })
		k.look("swaps-"+c.name+"-7join", func() { k.joinSwaps(p.sheet.Swaps[0]) })
		d := k.openDraft(lighter)
		k.picture("swaps-" + c.name + "-9draft")
		d.dialog.Close()
		p.toggle(0, 1)
		k.settle()
		k.undo()
		k.settle()
		k.goTo(place{page: pageRecipe, recipe: k.at.recipe, tab: tabNotebook})
		k.settle()
		k.picture("swaps-" + c.name + "-8notebook")
	}
}

// look takes a picture of a dialog and closes it.
func (k *kitchenWindow) look(name string, open func()) {
	open()
	k.settle()
	k.picture(name)
	k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	k.settle()
}

func (p *swapsPage) swapNamed(name string) *recipes.Swap {
	for _, s := range p.sheet.Swaps {
		if s != nil && s.Name == name {
			return s
		}
	}
	return nil
}

// lighter is a lighter gratin as a cook might paste it.
const lighter = `Smoked haddock and leek gratin
Serves 4

400 g undyed smoked haddock fillet
800 g floury potatoes
3 leeks
20 g olive oil
30 g plain flour
400 ml semi-skimmed milk
150 g strained yogurt
80 g Gruyère
some strange dust from a shelf

1. Bake it.`

// openDraft opens the dialog and has a text read in it.
func (k *kitchenWindow) openDraft(text string) *draftDialog {
	d := k.showDraft(k.recipe())
	d.text.SetText(text)
	d.now()
	k.until("the draft is read", func() bool { return d.got.draft != nil || d.got.err != nil })
	return d
}
