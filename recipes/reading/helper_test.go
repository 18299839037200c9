package reading

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
)

var starter = sync.OnceValues(func() (*food.Table, error) {
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		return nil, err
	}
	return food.NewTable(foods), nil
})

// table returns the starter foods.
func table(t testing.TB) *food.Table {
	t.Helper()
	tab, err := starter()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// compact renders a line as amount|unit|name|grams from|food|status and what
// else is set: part eaten, as bought, doubts.
func compact(l *recipes.Line) string {
	amount := figure(l.Amount)
	if l.High > 0 {
		amount += "-" + figure(l.High)
	}
	grams := "?"
	if l.Known() {
		grams = figure(l.Grams) + " g " + string(l.GramsFrom)
	}
	out := []string{amount, l.Unit, l.Name, grams, l.Food.Code, string(l.Status())}
	var more []string
	if l.PartEaten != 1 {
		more = append(more, fmt.Sprintf("eaten %s", figure(l.PartEaten)))
	}
	if l.AsBought {
		more = append(more, "as bought")
	}
	for _, d := range l.Doubts {
		more = append(more, string(d.Kind))
	}
	if len(more) > 0 {
		out = append(out, strings.Join(more, ", "))
	}
	return strings.Join(out, "|")
}
