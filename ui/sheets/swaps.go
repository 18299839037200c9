package sheets

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// SwapFigures are the nutrients of a swap's "lighter by" columns.
var SwapFigures = []food.Nutrient{food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sodium}

// SwapSheet is the tick table: a row a swap, a column of ticks a version, then
// what the swap does alone on the original and what it changes. Strengths of
// one swap stand together under a heading of their own.
type SwapSheet struct {
	Sheet
	Under    string               // what the second line of a version's heading counts
	Swaps    []*recipes.Swap      // by row; nil for headings and totals
	Inside   []bool               // by row: a strength under its heading
	Versions []*recipes.Version   // by column of ticks
	Figures  int                  // index of the first "lighter by" column
	savings  []*nutrition.Savings // by column of ticks, nil where they cannot be worked out
}

// Swaps lays out the tick table. A swap whose effect cannot be worked out says
// why in its row's tip.
func (x *Bench) Swaps() SwapSheet {
	energy := x.units.Of(food.EnergyKcal)
	s := SwapSheet{Under: words.Say("swaps.under", energy.Unit()), Versions: x.Versions[1:], Figures: len(x.Versions) - 1}
	s.Corner = words.Say("swaps.corner")
	for i, v := range s.Versions {
		c := Column{Key: string(v.ID), Letter: v.Letter, Index: i + 1, Sub: x.as(energy).amount(x.Accounts[i+1].PerServing(energy))}
		s.Columns = append(s.Columns, c)
		s.savings = append(s.savings, x.savings(v))
	}
	for _, n := range x.units.all(SwapFigures) {
		c := x.figureColumn(n.Key(), n)
		c.Sub = words.Say("swaps.per-serving", c.Sub)
		s.Columns = append(s.Columns, c)
	}
	s.Columns = append(s.Columns, Column{Key: "changes", Title: words.Say("swaps.touches"), Index: -1})
	all := x.book.Swaps(x.Recipe.ID)
	for _, group := range ladders(all) {
		x.addGroup(&s, group)
	}
	scaleBars(s.Rows, s.Figures, len(SwapFigures))
	if len(all) > 0 && len(s.Versions) > 0 {
		for _, r := range append(x.totalRows(&s), x.sumRows(&s)...) {
			s.add(r, nil, false)
		}
	}
	return s
}

func (s *SwapSheet) add(r Row, sw *recipes.Swap, inside bool) {
	s.Rows, s.Swaps, s.Inside = append(s.Rows, r), append(s.Swaps, sw), append(s.Inside, inside)
}

// scaleBars makes the widest change in some columns a full bar.
func scaleBars(rows []Row, from, columns int) {
	widest := 0.01
	each := func(f func(*Cell)) {
		for i := range rows {
			for k := from; k < from+columns && k < len(rows[i].Cells); k++ {
				if c := &rows[i].Cells[k]; !math.IsNaN(c.Bar) {
					f(c)
				}
			}
		}
	}
	each(func(c *Cell) { widest = math.Max(widest, math.Abs(c.Bar)) })
	each(func(c *Cell) { c.Bar /= widest })
}

// slippedBriefly names what a swap makes worse, for the line under its name.
func (x *Bench) slippedBriefly(slips []nutrition.Slip) string {
	var out []string
	for _, s := range slips {
		as := x.as(s.Nutrient)
		by := words.Signed(s.Amount*as.times, as.decimals) + " " + as.unit
		if !math.IsNaN(s.Percent) {
			by = words.Percent(s.Percent)
		}
		out = append(out, as.name+" "+by)
	}
	return strings.Join(out, ", ")
}

// savings shares a version's change out to its swaps, nil where that cannot be
// done.
func (x *Bench) savings(v *recipes.Version) *nutrition.Savings {
	s, err := x.Kitchen.SavingsOf(x.Recipe, v, x.book.On(v))
	if err != nil {
		return nil
	}
	return s
}

// ladders puts strengths of one swap together, weakest first, where the first
// of them stood; every other swap is a group of its own.
func ladders(all []*recipes.Swap) [][]*recipes.Swap {
	at := map[string]int{}
	var out [][]*recipes.Swap
	for _, s := range all {
		i, known := at[s.Ladder]
		if s.Ladder == "" || !known {
			at[s.Ladder] = len(out)
			out = append(out, []*recipes.Swap{s})
			continue
		}
		out[i] = append(out[i], s)
	}
	for _, g := range out {
		slices.SortStableFunc(g, func(a, b *recipes.Swap) int { return cmp.Compare(a.Strength, b.Strength) })
	}
	return out
}

// addGroup adds the rows of one swap, or of the strengths of one under a
// heading.
func (x *Bench) addGroup(s *SwapSheet, group []*recipes.Swap) {
	inside := len(group) > 1
	if inside {
		head := Row{Key: "ladder:" + group[0].Ladder, Label: Cell{Text: x.ladderName(group), Muted: true, Bar: noBar(), Wrap: true, Tip: words.Say("tip.ladder")}}
		head.Cells = blanks(len(s.Columns))
		s.add(head, nil, false)
	}
	for _, sw := range group {
		s.add(x.swapRow(s, sw), sw, inside)
	}
}

// ladderName heads strengths: "salt: one of 3".
func (x *Bench) ladderName(group []*recipes.Swap) string {
	names := x.touchedNames(group[0])
	if names == "" {
		names = words.Say("swaps.ladder.step")
	}
	return words.Say("swaps.ladder", names, len(group))
}

func (x *Bench) swapRow(s *SwapSheet, sw *recipes.Swap) Row {
	r := Row{Key: string(sw.ID), Label: Cell{Text: sw.Name, Bar: noBar(), Wrap: true, Editable: true}}
	alone, err := x.Kitchen.Alone(x.Recipe, sw)
	var slips []nutrition.Slip
	if err == nil {
		slips = nutrition.Slips(x.Original(), func(n food.Nutrient) nutrition.Change { return alone.Of(0, n) })
	}
	if len(slips) > 0 {
		r.Label.Mark, r.Label.Tip = Look, words.Say("tip.slipped", x.slipped(slips))
		r.Label.Sub = words.Say("swaps.rises", x.slippedBriefly(slips))
	}
	for i, v := range s.Versions {
		r.Cells = append(r.Cells, x.tickCell(s, i, v, sw, alone))
	}
	for _, n := range x.units.all(SwapFigures) {
		c := Cell{Number: true, Bar: noBar(), Text: words.Unknown}
		if err != nil {
			c.Tip = err.Error()
		} else {
			c = x.as(n).alone(alone.Of(0, n))
		}
		r.Cells = append(r.Cells, c)
	}
	does := x.touches(sw)
	r.Cells = append(r.Cells, Cell{Text: does, Muted: true, Tip: does, Bar: noBar()})
	return r
}

// alone says one figure of a swap alone on the original; the part of the
// original's serving is its bar.
func (s shownAs) alone(ch nutrition.Change) Cell {
	c := Cell{Number: true, Bar: noBar(), Tip: s.change(ch) + " " + s.unit}
	c.Text = s.short(ch)
	if !math.IsNaN(ch.Percent) {
		c.Bar = math.Max(-1, math.Min(1, ch.Percent/100))
	}
	return c
}

// tickCell is the box of a swap in a version. Its tip says what it is either/or
// with, or what part it has there where that differs from the swap alone.
func (x *Bench) tickCell(s *SwapSheet, i int, v *recipes.Version, sw *recipes.Swap, alone *nutrition.Savings) Cell {
	c := Cell{Tick: TickOff, Bar: noBar()}
	if !v.Has(sw.ID) {
		if other := x.alternativeOn(v, sw); other != nil {
			c.Muted, c.Tip = true, words.Say("tip.either-or", other.Name)
		}
		return c
	}
	c.Tick = TickOn
	n := x.units.Of(food.EnergyKcal)
	as := x.as(n)
	if part, ok := partIn(s.savings[i], sw, n); ok && alone != nil && as.differ(part, alone.Of(0, n)) {
		c.Tip = words.Say("tip.part-differs", v.Letter, as.change(part), as.change(alone.Of(0, n)), as.unit)
	}
	return c
}

// partIn returns a swap's share of a version's change; false where the version
// does not have it on.
func partIn(s *nutrition.Savings, sw *recipes.Swap, n food.Nutrient) (nutrition.Change, bool) {
	if s == nil {
		return nutrition.Change{}, false
	}
	i := slices.IndexFunc(s.Swaps, func(on *recipes.Swap) bool { return on.ID == sw.ID })
	if i < 0 {
		return nutrition.Change{}, false
	}
	return s.Of(i, n), true
}

// touches says a swap's kind and the ingredients it changes.
func (x *Bench) touches(sw *recipes.Swap) string {
	kind, names := words.Say("kind."+string(sw.Sort())), x.touchedNames(sw)
	if names == "" {
		return kind
	}
	return words.Say("swaps.kind-of", kind, names)
}

func (x *Bench) touchedNames(sw *recipes.Swap) string { return Names(x.Recipe, sw.Touches()) }

// EitherOr lists the swaps of the recipe that cannot be on together with one.
func (x *Bench) EitherOr(sw *recipes.Swap) []*recipes.Swap {
	var out []*recipes.Swap
	for _, other := range x.book.Swaps(x.Recipe.ID) {
		if recipes.Alternatives(sw, other) != recipes.NoClash {
			out = append(out, other)
		}
	}
	return out
}

func (x *Bench) alternativeOn(v *recipes.Version, sw *recipes.Swap) *recipes.Swap {
	for _, on := range x.book.On(v) {
		if recipes.Alternatives(sw, on) != recipes.NoClash {
			return on
		}
	}
	return nil
}

// Unticked names the swaps that ticking sw in a version switches off.
func (x *Bench) Unticked(v *recipes.Version, sw *recipes.Swap) string {
	var out []string
	for _, on := range x.book.On(v) {
		if recipes.Alternatives(sw, on) != recipes.NoClash {
			out = append(out, on.Name)
		}
	}
	return words.Join(out)
}

// totalRows close the tick table: what each version comes to, and how far that
// is from the original.
func (x *Bench) totalRows(s *SwapSheet) []Row {
	rows := []Row{{Key: "total", Band: true, Label: text(words.Say("swaps.total"))}}
	for _, n := range x.units.all(SwapFigures) {
		as := x.as(n)
		orig := as.amount(x.Original().PerServing(n))
		r := Row{Key: "total." + n.Key(), Label: Cell{Text: as.label(), Sub: words.Say("swaps.original-has", orig), Bar: noBar(), Strong: x.units.leads(n)}}
		for i := range s.Versions {
			ch := x.Change(i+1, n)
			r.Cells = append(r.Cells, Cell{
				Text: as.amount(x.Accounts[i+1].PerServing(n)), Strong: x.units.leads(n), Bar: noBar(),
				Tip: as.change(ch) + " " + as.unit,
			})
		}
		r.Cells = append(r.Cells, blanks(len(s.Columns)-len(r.Cells))...)
		rows = append(rows, r)
	}
	return rows
}

// sumRows say how a version's change in energy adds up, exactly: its swaps'
// parts and a smaller or larger helping.
func (x *Bench) sumRows(s *SwapSheet) []Row {
	n := x.units.Of(food.EnergyKcal)
	as := x.as(n)
	rows := []Row{
		{Key: "sum", Band: true, Label: text(words.Say("swaps.sum", as.unit))},
		{Key: "sum.swaps", Label: text(words.Say("swaps.sum.swaps"))},
		{Key: "sum.helping", Label: text(words.Say("swaps.sum.helping"))},
		{Key: "sum.change", Label: Cell{Text: words.Say("swaps.sum.change"), Strong: true, Bar: noBar()}},
	}
	for i := range s.Versions {
		whole := x.Change(i+1, n)
		three := [3]Cell{text(words.Unknown), text(words.Unknown), {Text: as.short(whole), Strong: true, Bar: noBar(), Tip: as.change(whole) + " " + as.unit}}
		if sv := s.savings[i]; sv != nil && whole.Bound == nutrition.Exact {
			helping := sv.Helping(n)
			parts := whole
			parts.Amount -= helping.Amount
			three[0].Text, three[1].Text = as.short(parts), as.short(helping)
		}
		for k := range three {
			rows[k+1].Cells = append(rows[k+1].Cells, three[k])
		}
	}
	for k := 1; k < len(rows); k++ {
		rows[k].Cells = append(rows[k].Cells, blanks(len(s.Columns)-len(rows[k].Cells))...)
	}
	return rows
}
