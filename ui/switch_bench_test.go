package ui

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
)

// BenchmarkSwitch goes through the pages of the side bar and the tabs of
// a recipe with tastings, each built before. One op is one round; slowest-ms is
// the median of the page that takes longest. The painting is left out: the test's
// painter is far slower than a window's. Budget: 50 ms.
func BenchmarkSwitch(b *testing.B) {
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	round := []place{{page: pageRecipes}, {page: pageFoods}, {page: pageMeals}, {page: pageTasters}}
	for _, tab := range []string{tabVersions, tabSwaps, tabOriginal, tabTests, tabTastings, tabLedger, tabClaims, tabNotebook} {
		round = append(round, place{page: pageRecipe, recipe: r.ID, tab: tab})
	}
	for _, at := range round {
		k.goTo(at)
		k.settle()
	}
	took := map[place][]float64{}
	for b.Loop() {
		for _, at := range round {
			start := time.Now()
			k.goTo(at)
			took[at] = append(took[at], float64(time.Since(start).Microseconds())/1000)
			b.StopTimer()
			k.settle() // what the page asked for in the background
			b.StartTimer()
		}
	}
	slowest := 0.0
	for at, all := range took {
		slices.Sort(all)
		m := all[len(all)/2]
		b.Logf("%s %s: %.1f ms", at.page, at.tab, m)
		slowest = max(slowest, m)
	}
	b.ReportMetric(slowest, "slowest-ms")
}
