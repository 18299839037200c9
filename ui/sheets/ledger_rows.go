package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// lay makes the rows: swaps, then whole versions, which outrank them. Swaps that
// were always served together stand under one another, with what they did
// together in a row of its own, because it is no effect of any one of them.
func (v *LedgerView) lay() {
	as := v.as()
	v.Sheet = Sheet{Corner: words.Say("keep.swap"), Columns: []Column{
		{Key: "saving", Title: words.Say("keep.lighter"), Sub: as.label(), Number: true, Index: -1},
		{Key: "effect", Title: v.effectTitle(), Sub: words.Say("keep.effect.range"), Index: -1, Tight: true},
		{Key: "verdict", Title: words.Say("keep.verdict"), Index: -1},
		{Key: "pots", Title: words.Say("keep.pots"), Sub: words.Say("keep.pots.tasted"), Number: true, Index: -1},
	}}
	for _, set := range v.sets() {
		for _, i := range set {
			v.Sheet.Rows = append(v.Sheet.Rows, v.swapRow(i, len(set) > 1))
		}
		if len(set) > 1 {
			v.Sheet.Rows = append(v.Sheet.Rows, v.togetherRow(set))
		}
	}
	if len(v.Table.Wholes) == 0 {
		return
	}
	v.Sheet.Rows = append(v.Sheet.Rows, Row{Key: "wholes", Band: true, Label: text(words.Say("keep.wholes"))})
	for i, version := range v.l.versions {
		if version != nil && len(v.l.Book.On(version)) > 0 {
			v.Sheet.Rows = append(v.Sheet.Rows, v.wholeRow(i))
		}
	}
}

// wholeRow is the row of a version with swaps on, tasted or not.
func (v *LedgerView) wholeRow(at int) Row {
	version := v.l.versions[at]
	row := Row{
		Key:   LedgerWholeKey + string(version.ID),
		Label: Cell{Text: words.Say("keep.whole", version.Letter, words.Join(shortNames(v.l.Book.On(version)))), Strong: true, Wrap: true, Bar: noBar()},
	}
	saved := v.as().saving(v.l.saved(at, v.Ask.Nutrient))
	w := v.whole(at)
	if w == nil {
		row.Label.Strong = false
		row.Cells = []Cell{saved, v.effectCell(ledger.Interval{Effect: math.NaN()}), notTasted(), potsCell(0)}
		return row
	}
	row.Cells = []Cell{saved, v.effectCell(w.Interval), v.wholeVerdict(w), potsCell(w.Pots)}
	return row
}

// whole is what was tasted of a version as a whole; nil for nothing.
func (v *LedgerView) whole(at int) *ledger.Whole {
	for i := range v.Table.Wholes {
		if v.Table.Wholes[i].Version == at {
			return &v.Table.Wholes[i]
		}
	}
	return nil
}

// notTasted is the verdict on what nobody has tasted.
func notTasted() Cell {
	return Cell{Text: words.Say("ledger.kind.not-tasted"), Mark: VerdictMark(charts.NotTasted), Muted: true, Wrap: true, Bar: noBar()}
}

// sets are the table's rows by place, in their order: each by itself, or with
// those it shares one effect with.
func (v *LedgerView) sets() [][]int {
	var out [][]int
	at := map[int]int{}
	for i, group := range v.Table.Groups() {
		if math.IsNaN(v.Table.Rows[i].Joint.Effect) {
			group = 0
		}
		if k, seen := at[group]; seen && group > 0 {
			out[k] = append(out[k], i)
			continue
		}
		at[group] = len(out)
		out = append(out, []int{i})
	}
	return out
}

func (v *LedgerView) swapRow(i int, shares bool) Row {
	r := &v.Table.Rows[i]
	effect := v.effectCell(r.Interval)
	if shares {
		effect = Cell{Text: words.Say("keep.joint.part"), Tip: words.Say("keep.joint"), Muted: true, Bar: noBar()}
	}
	return Row{
		Key: LedgerSwapKey + string(v.l.swaps[r.Swap].ID), Label: Cell{Text: r.Name, Wrap: true, Bar: noBar()},
		Cells: []Cell{v.as().saving(r.Saving), effect, v.swapVerdict(r), potsCell(r.Pots)},
	}
}

// togetherRow is what swaps did that were always served together: one effect,
// shown once.
func (v *LedgerView) togetherRow(set []int) Row {
	first := &v.Table.Rows[set[0]]
	verdict := v.jointVerdict(first)
	verdict.Text = words.Say("keep.joint.verdict", verdict.Text, len(set))
	return Row{
		Key: LedgerTogetherKey + string(v.l.swaps[first.Swap].ID), Label: Cell{Text: words.Say("keep.together", len(set)), Wrap: true, Bar: noBar()},
		Cells: []Cell{v.as().saving(v.l.savedTogether(v.swapsOf(set), v.Ask.Nutrient)), v.effectCell(first.Joint), verdict, potsCell(first.Pots)},
	}
}

// jointVerdict is the verdict on swaps that were always served together, as one.
func (v *LedgerView) jointVerdict(r *ledger.Verdict) Cell {
	c := Cell{Text: v.advice(r.Whole, words.Say("ledger.kind."+string(r.Whole))), Mark: VerdictMark(v.chartVerdict(r.Whole)), Muted: !judged(r.Whole), Wrap: true, Bar: noBar()}
	if !v.Overall {
		c.Text, c.Muted = otherLabel(r.Whole, c.Text), true
	}
	return c
}

// swapsOf are the swaps of a set of rows.
func (v *LedgerView) swapsOf(set []int) []*recipes.Swap {
	var out []*recipes.Swap
	for _, i := range set {
		out = append(out, v.l.swaps[v.Table.Rows[i].Swap])
	}
	return out
}

// savedTogether is what swaps take off a serving when all of them are on.
func (l *Ledger) savedTogether(on []*recipes.Swap, n food.Nutrient) ledger.Saving {
	v := &recipes.Version{Recipe: l.Recipe.ID}
	for _, s := range on {
		v.Swaps = append(v.Swaps, s.ID)
	}
	slices.Sort(v.Swaps)
	savings, err := l.kitchen.SavingsOf(l.Recipe, v, on)
	if err != nil {
		return ledger.Saving{}
	}
	sum := ledger.Saving{Known: true}
	for i := range on {
		c := savings.Of(i, n)
		sum.Amount -= c.Amount
		sum.Known = sum.Known && c.Bound == nutrition.Exact
	}
	return sum
}

// shortNames names swaps in short, for a line that holds several: what comes in,
// without what it is for; in full where two would be called the same.
func shortNames(on []*recipes.Swap) []string {
	out := make([]string, len(on))
	for i, s := range on {
		out[i] = ShortSwap(s.Name)
	}
	for i, s := range on {
		for k := range on {
			if k != i && ShortSwap(on[k].Name) == ShortSwap(s.Name) {
				out[i] = s.Name
			}
		}
	}
	return out
}

// ShortSwap is a swap's name up to what it is for ("strained yogurt" of "strained
// yogurt for half the cream").
func ShortSwap(name string) string {
	end := len(name)
	for _, mark := range words.List("keep.short.ends") {
		if i := strings.Index(name, mark+" "); i > 0 {
			if mark[0] != ',' && name[i-1] != ' ' {
				continue
			}
			end = min(end, i)
		}
	}
	return strings.TrimSpace(name[:end])
}

// effectCell shows an effect with its range.
func (v *LedgerView) effectCell(i ledger.Interval) Cell {
	if math.IsNaN(i.Effect) {
		return Cell{Text: words.Say("keep.no-effect"), Muted: true, Bar: noBar()}
	}
	c := Cell{Bar: noBar()}
	c.Text, c.Sub = effectIn(i, v.Table.Digits())
	return c
}

// effectIn says an effect and its range to so many decimals.
func effectIn(i ledger.Interval, d int) (effect, span string) {
	if math.IsNaN(i.Low) {
		return words.Signed(i.Effect, d), words.Say("keep.no-range")
	}
	return words.Signed(i.Effect, d), words.Say("keep.range", words.Signed(i.Low, d), words.Signed(i.High, d))
}

// as says how the nutrient asked for is shown.
func (v *LedgerView) as() shownAs { return v.l.bench.as(v.Ask.Nutrient) }

// saving is what is taken off.
func (as shownAs) saving(s ledger.Saving) Cell {
	c := Cell{Number: true, Bar: noBar()}
	s.Amount *= as.times
	switch d := as.decimals; {
	case !s.Known && s.Bound != "":
		c.Text, c.Muted, c.Tip = boundedSaving(s, d), true, s.Note(as.name).String()
	case !s.Known:
		if s.Lacks != "" {
			c.Tip = s.Note(as.name).String()
		}
		c.Text, c.Muted = words.Say("keep.not-known"), true
	case words.Signed(s.Amount, d) == words.Signed(0, d):
		c.Text, c.Muted = words.Number(0, d), true
	case s.Amount < 0:
		c.Text, c.Sub, c.Mark = words.Number(-s.Amount, d), words.Say("keep.heavier"), Look
		c.Tip = words.Say("keep.heavier.tip", as.name)
	default:
		c.Text = words.Number(s.Amount, d)
	}
	return c
}

// boundedSaving says what is known of a saving: at least or at most so much, and
// of one that may be none in which direction.
func boundedSaving(s ledger.Saving, decimals int) string {
	key := "change.at-least"
	if (s.Bound == ledger.AtMost) == (s.Amount >= 0) {
		key = "change.at-most"
	}
	text := words.Say(key, words.Number(math.Abs(s.Amount), decimals))
	if s.Amount < 0 {
		text += " " + words.Say("keep.heavier")
	}
	return text
}

func (v *LedgerView) swapVerdict(r *ledger.Verdict) Cell {
	c := Cell{Text: v.advice(r.Kind, r.Label().String()), Mark: VerdictMark(v.chartVerdict(r.Kind)), Wrap: true, Muted: !judged(r.Kind), Bar: noBar()}
	if !v.Overall {
		c.Text, c.Muted = otherLabel(r.Kind, r.Label().String()), true
	}
	return c
}

// advice puts before a verdict on how much the dish is liked what it comes to: keep,
// drop, or not sure yet.
func (v *LedgerView) advice(k ledger.Kind, verdict string) string {
	if !v.Overall {
		return verdict
	}
	return advised(k, verdict)
}

func advised(k ledger.Kind, verdict string) string {
	switch {
	case k.Fits():
		return words.Say("keep.say.keep", verdict)
	case k == ledger.TooMuch:
		return words.Say("keep.say.drop", verdict)
	case k == ledger.NotEnough || k == ledger.LessUnsettled:
		return words.Say("keep.say.open", verdict)
	}
	return verdict
}

// judged tells the verdicts that say something of the swap and not only of the
// tasting.
func judged(k ledger.Kind) bool {
	return k.Settled() || k == ledger.LessUnsettled
}

// otherLabel is the verdict on something that is not how much the dish is liked:
// there no way is better than the other, and no limit was set.
func otherLabel(k ledger.Kind, verdict string) string {
	switch k {
	case ledger.LikedMore, ledger.LessUnsettled, ledger.NoLimit:
		return words.Say("keep.other." + string(k))
	}
	return verdict
}

func (v *LedgerView) wholeVerdict(w *ledger.Whole) Cell {
	c := Cell{Text: v.advice(w.Kind, wholeLabel(w.Kind)), Mark: VerdictMark(v.chartVerdict(w.Kind)), Wrap: true, Bar: noBar()}
	switch {
	case !v.Overall:
		c.Text = otherLabel(w.Kind, c.Text)
	case v.Overall:
		c.Strong = true
	}
	if w.Outranks {
		c.Text, c.Tip = words.Say("keep.outranks", c.Text), w.Warning().String()
	}
	return c
}

// wholeLabel is the verdict on a whole version, in the words that swaps have.
func wholeLabel(k ledger.Kind) string {
	if k == ledger.Tied {
		return words.Say("ledger.whole.tied")
	}
	return words.Say("ledger.kind." + string(k))
}

func potsCell(pots int) Cell {
	if pots == 0 {
		return Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar()}
	}
	return Cell{Text: words.Number(float64(pots), 0), Number: true, Bar: noBar()}
}
