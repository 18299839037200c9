package ui

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/sheets"
)

// otherCups is an evening that a taster could not tell from the one of t: the same
// codes on the same trays and the same answers, with other dishes under the codes.
func otherCups(t *recipes.Tasting) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		was, all := b.Tasting(t.ID), tasting.InOrder(b, t.ID)
		to := map[recipes.ID]recipes.ID{}
		for i, s := range all {
			to[s.ID] = all[(i+1)%len(all)].ID
		}
		c := recipes.Change{Label: words.P("did.nothing")}
		n := *was
		n.Seats = slices.Clone(was.Seats)
		for i := range n.Seats {
			seat := &n.Seats[i]
			seat.Cups = slices.Clone(seat.Cups)
			for j := range seat.Cups {
				seat.Cups[j].Sample = to[was.Seats[i].Cups[j].Sample]
				if k := (j + 1) % len(seat.Cups); tasting.Trays(was.Test) { // another cup is the odd one
					seat.Cups[j].Sample = was.Seats[i].Cups[k].Sample
				}
			}
		}
		c.Edits = append(c.Edits, recipes.Edit{Before: was, After: &n})
		for _, s := range all {
			m := *b.Sample(t.ID, to[s.ID])
			m.Code = s.Code
			c.Edits = append(c.Edits, recipes.Edit{Before: b.Sample(t.ID, m.ID), After: &m})
		}
		return c, nil
	}
}

var shownText = regexp.MustCompile(`<text [^>]*>([^<]*)</text>`)

// reads is what the whole window says, dialogs too.
func (k *kitchenWindow) reads() string {
	var out []string
	for _, m := range shownText.FindAllStringSubmatch(test.RenderToMarkup(k.win.Canvas()), -1) {
		out = append(out, m[1])
	}
	return strings.Join(out, "\n")
}

// Before closing nothing on the pages of a tasting depends on which code is which
// dish: with other dishes under the same codes every page reads the same.
func TestNoPageTellsWhatACupHolds(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1600, 1000))
	r := k.setTable("AB", "CD", "EF")
	for _, kind := range []string{recipes.TestLiking, string(sensory.Triangle), string(sensory.DuoTrio), string(sensory.Tetrad), string(sensory.Ranking)} {
		t.Run(kind, func(t *testing.T) {
			tt := k.plan(r, func(f *sheets.PlanFields) {
				if f.Test = kind; tasting.Trays(kind) {
					*f = f.For(kind, k.book(), r.ID, *f)
				} else {
					f.Twice = true
				}
			})
			page := func() string {
				k.showTastings(r.ID, tt.ID)
				k.settle()
				return k.reads()
			}
			dialog := func(open func(*recipes.Tasting)) func() string {
				return func() string {
					open(k.book().Tasting(tt.ID))
					k.settle()
					said := k.reads()
					k.pressAnywhere(fyne.KeyEscape)
					return said
				}
			}
			sameWithOtherCups(t, k, tt, page)
			k.do(tasting.Begin(tt.ID))
			sameWithOtherCups(t, k, tt, page, dialog(k.sampleFacts), dialog(k.closeTasting))
		})
	}
}

func sameWithOtherCups(t *testing.T, k *kitchenWindow, tt *recipes.Tasting, views ...func() string) {
	t.Helper()
	k.do(otherCups(tt)) // the status line says the same from here on
	for i, view := range views {
		before := view()
		k.do(otherCups(tt))
		k.settle()
		if after := view(); after != before || len(before) < 100 {
			t.Errorf("view %d tells dishes apart:\n%s", i, firstDifference(before, after))
		}
	}
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return fmt.Sprintf("%q, with other dishes %q", x[max(0, i-2):i+1], y[i])
		}
	}
	return fmt.Sprint(len(x), " texts, then ", len(y))
}
