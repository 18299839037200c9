package sheets

import (
	"math"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// SwapFigures are the nutrients of a swap's "lighter by" columns.
var SwapFigures = []food.Nutrient{food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sodium}

// SwapSheet is the tick table: a row a swap, its figures alone on the
// original, then a column of ticks a version. FirstTick is the column index
// where ticks begin.
type SwapSheet struct {
	Sheet
	Swaps     []*recipes.Swap
	FirstTick int
}

// Swaps lays out the tick table. A swap whose effect cannot be worked out says
// why in its row's tip.
func (x *Bench) Swaps() SwapSheet {
	s := SwapSheet{Swaps: x.book.Swaps(x.Recipe.ID), FirstTick: 1 + len(SwapFigures)}
	s.Corner = words.Say("swaps.corner")
	s.Columns = append(s.Columns, Column{Key: "kind", Title: words.Say("swaps.touches"), Index: -1})
	for _, n := range SwapFigures {
		s.Columns = append(s.Columns, Column{Key: n.Key(), Index: -1, Title: words.Say("nutrient." + n.Key()), Sub: words.Say("swaps.per-serving", n.Unit()), Number: true})
	}
	for i, v := range x.Versions {
		if v != nil {
			s.Columns = append(s.Columns, Column{Key: string(v.ID), Letter: v.Letter, Index: i, Title: v.Name})
		}
	}
	for _, sw := range s.Swaps {
		s.Rows = append(s.Rows, x.swapRow(sw))
	}
	if len(s.Swaps) > 0 {
		s.Rows = append(s.Rows, x.totalRows()...)
	}
	return s
}

func (x *Bench) swapRow(sw *recipes.Swap) Row {
	r := Row{Key: string(sw.ID), Label: Cell{Text: sw.Name, Bar: noBar(), Wrap: true}}
	r.Cells = append(r.Cells, Cell{Text: x.touches(sw), Muted: true, Wrap: true, Bar: noBar()})
	alone, err := nutrition.Alone(x.Recipe, sw, x.book.Food)
	var slips []nutrition.Slip
	if err == nil {
		slips = nutrition.Slips(x.Original(), func(n food.Nutrient) nutrition.Change { return alone.Of(0, n) })
	}
	if len(slips) > 0 {
		r.Label.Mark, r.Label.Tip = Look, words.Say("tip.slipped", Slipped(slips))
		r.Label.Sub = words.Say("swaps.rises", Slipped(slips))
	}
	for _, n := range SwapFigures {
		c := Cell{Number: true, Bar: noBar()}
		if err != nil {
			c.Text, c.Tip = words.Unknown, err.Error()
		} else {
			ch := alone.Of(0, n)
			c.Text = ChangeText(ch, n)
			if !math.IsNaN(ch.Percent) {
				c.Bar = math.Max(-1, math.Min(1, ch.Percent/100))
			}
		}
		r.Cells = append(r.Cells, c)
	}
	for _, v := range x.Versions {
		if v == nil {
			continue
		}
		c := Cell{Tick: TickOff, Bar: noBar()}
		if v.Has(sw.ID) {
			c.Tick = TickOn
		} else if other := x.alternativeOn(v, sw); other != nil {
			c.Muted, c.Tip = true, words.Say("tip.either-or", other.Name)
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// touches says a swap's kind and the ingredients it changes.
func (x *Bench) touches(sw *recipes.Swap) string {
	var names []string
	for _, id := range sw.Touches() {
		if l := x.Recipe.Line(id); l != nil {
			names = append(names, LineName(l))
		}
	}
	kind := words.Say("kind." + string(sw.Sort()))
	if len(names) == 0 {
		return kind
	}
	return words.Say("swaps.kind-of", kind, words.Join(names))
}

func (x *Bench) alternativeOn(v *recipes.Version, sw *recipes.Swap) *recipes.Swap {
	for _, on := range x.book.On(v) {
		if recipes.Alternatives(sw, on) != recipes.NoClash {
			return on
		}
	}
	return nil
}

// totalRows close the tick table: what each version comes to.
func (x *Bench) totalRows() []Row {
	rows := []Row{{Key: "total", Band: true, Label: text(words.Say("swaps.total"))}}
	for _, n := range SwapFigures {
		r := Row{Key: "total." + n.Key(), Label: text(WithUnit(n))}
		orig := Cell{Text: Amount(x.Original().PerServing(n), n), Number: true, Bar: noBar(), Tip: words.Say("original")}
		r.Cells = append(r.Cells, Cell{Text: words.Say("swaps.original-has", orig.Text), Muted: true, Bar: noBar()})
		r.Cells = append(r.Cells, blanks(len(SwapFigures))...)
		for i, v := range x.Versions {
			if v == nil {
				continue
			}
			r.Cells = append(r.Cells, Cell{
				Text: Amount(x.Accounts[i].PerServing(n), n), Sub: ChangeText(x.Change(i, n), n), Number: true, Bar: noBar(),
			})
		}
		rows = append(rows, r)
	}
	return rows
}
