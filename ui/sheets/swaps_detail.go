package sheets

import (
	"math"
	"strings"

	"parewell/analysis/effects"
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
)

// SwapDetail is all there is to say about one swap of a recipe.
type SwapDetail struct {
	Swap     *recipes.Swap
	Does     []string // its operations, one sentence each
	Parts    Sheet    // alone on the original, then its part in each version that has it on
	Differs  bool     // in some version its part is not what it does alone
	Rises    string   // what it makes worse, "" for nothing
	Says     []Passage
	Cautions []string // one line each, with where it comes from
}

// Passage is a heading with what stands under it.
type Passage struct{ Head, Text string }

// SwapDetail works out one swap. The cautions need the catalogue; without one
// they are left out.
func (x *Bench) SwapDetail(sw *recipes.Swap, c *ideas.Catalogue) SwapDetail {
	d := SwapDetail{Swap: sw}
	for i := range sw.Ops {
		d.Does = append(d.Does, OpText(x.Recipe, &sw.Ops[i]))
	}
	e, err := effects.Of(x.Recipe, sw, x.book.Food)
	d.Parts, d.Differs = x.partsSheet(sw, e, err)
	if err == nil {
		d.Rises = x.slipped(e.Slips)
		d.addFact("swap.lost", ideas.AllergenWords(e.Lost))
	}
	d.addFact("swap.function", sw.Function)
	d.addFact("swap.works-in", sw.WorksIn)
	d.addFact("swap.fails-when", sw.FailsWhen)
	var others []string
	for _, o := range x.EitherOr(sw) {
		others = append(others, o.Name)
	}
	d.addFact("swap.either-or", words.Join(others))
	if c != nil {
		d.Cautions = cautionLines(c.Cautions(x.Recipe, sw, x.book.Food))
	}
	return d
}

func (d *SwapDetail) addFact(key, text string) {
	if text != "" {
		d.Says = append(d.Says, Passage{Head: words.Say(key), Text: text})
	}
}

// cautionLines says each caution in one line with its source.
func cautionLines(all []ideas.Caution) []string {
	var out []string
	for _, c := range all {
		out = append(out, words.Say("swap.caution", c.Say.String(), c.From.String()))
	}
	return out
}

// partsSheet sets what a swap does alone beside its part in each version that
// has it on; a part that differs is marked.
func (x *Bench) partsSheet(sw *recipes.Swap, e *effects.Effect, err error) (s Sheet, differ bool) {
	s.Corner = words.Say("swap.parts")
	for _, n := range x.units.all(SwapFigures) {
		s.Columns = append(s.Columns, x.figureColumn(n.Key(), n))
	}
	alone := Row{Key: "alone", Label: text(words.Say("swap.alone"))}
	for _, n := range x.units.all(SwapFigures) {
		c := Cell{Text: words.Unknown, Number: true, Bar: noBar()}
		if err == nil {
			c = x.as(n).part(e.Changes[n])
		} else {
			c.Tip = err.Error()
		}
		alone.Cells = append(alone.Cells, c)
	}
	s.Rows = append(s.Rows, alone)
	for _, v := range x.Versions[1:] {
		if r, other, ok := x.partRow(v, sw, e); ok {
			differ = differ || other
			s.Rows = append(s.Rows, r)
		}
	}
	return s, differ
}

// partRow is a swap's part in one version; ok is false where it is off or
// cannot be worked out, other tells that the part differs from the swap alone.
func (x *Bench) partRow(v *recipes.Version, sw *recipes.Swap, e *effects.Effect) (r Row, other, ok bool) {
	if !v.Has(sw.ID) || e == nil {
		return Row{}, false, false
	}
	sv := x.savings(v)
	r = Row{Key: string(v.ID), Label: text(words.Say("swap.in", LetterName(v)))}
	for _, n := range x.units.all(SwapFigures) {
		part, found := partIn(sv, sw, n)
		if !found {
			return Row{}, false, false
		}
		c := x.as(n).part(part)
		if x.as(n).differ(part, e.Changes[n]) {
			other = true
			c.Mark, c.Tip = Look, words.Say("tip.part-shared")
		}
		r.Cells = append(r.Cells, c)
	}
	return r, other, true
}

func (s shownAs) part(ch nutrition.Change) Cell {
	return Cell{Text: s.change(ch), Number: true, Bar: noBar()}
}

// changeWith says a change with its unit for a sentence: "–143 kcal (–21 %)".
func changeWith(c nutrition.Change, decimals int, unit string) string {
	if c.Bound == nutrition.NotSure {
		return words.Say("change.unknown")
	}
	s := words.Signed(c.Amount, decimals) + " " + unit
	if !math.IsNaN(c.Percent) && printsSome(s) {
		s += " (" + words.Percent(c.Percent) + ")"
	}
	switch c.Bound {
	case nutrition.AtLeast:
		return words.Say("change.at-least", s)
	case nutrition.AtMost:
		return words.Say("change.at-most", s)
	}
	return s
}

// printsSome tells whether a printed figure is more than zeros.
func printsSome(s string) bool { return strings.ContainsAny(s, "123456789") }

// LetterName is a version's letter and name: "B, yogurt and oil".
func LetterName(v *recipes.Version) string {
	if v.Name == "" {
		return v.Letter
	}
	return words.Say("swap.version", v.Letter, v.Name)
}

// OpText says an operation of a swap in plain words.
func OpText(r *recipes.Recipe, o *recipes.Op) string {
	name := opLine(r, o.Line)
	switch o.Kind {
	case recipes.OpExchange:
		return exchangeText(o, name)
	case recipes.OpMultiply:
		return multiplyText(r, o, name)
	case recipes.OpRemove:
		return words.Say("op.remove", name)
	case recipes.OpAdd:
		return words.Say("op.add", lineTexts(o.Lines))
	case recipes.OpPartEaten:
		return words.Say("op.part", name, words.Share(o.Part))
	case recipes.OpTechnique:
		return words.Say("op.technique", name, o.Technique.Method)
	case recipes.OpState:
		return words.Say("op.state", name, words.Say("state."+string(o.State)))
	case recipes.OpDish:
		return words.Say("op.dish", o.Technique.Method)
	case recipes.OpStepReplace:
		return words.Say("op.step", stepNumber(r, o.Step), o.Text)
	case recipes.OpStepDrop:
		return words.Say("op.step-drop", stepNumber(r, o.Step))
	}
	if n := stepNumber(r, o.Step); n > 0 {
		return words.Say("op.step-after", n, o.Text)
	}
	return words.Say("op.step-start", o.Text)
}

func opLine(r *recipes.Recipe, id recipes.ID) string {
	if l := r.Line(id); l != nil {
		return LineName(l)
	}
	return words.Unknown
}

func lineTexts(lines []*recipes.Line) string {
	var out []string
	for _, l := range lines {
		out = append(out, strings.TrimSpace(l.Text))
	}
	return words.Join(out)
}

func exchangeText(o *recipes.Op, name string) string {
	switch whole := o.Share > 1-1e-9; {
	case len(o.Lines) == 0:
		return words.Say("op.leave-share", words.Share(o.Share), name)
	case whole:
		return words.Say("op.replace", name, lineTexts(o.Lines))
	}
	return words.Say("op.replace-share", words.Share(o.Share), name, lineTexts(o.Lines))
}

func multiplyText(r *recipes.Recipe, o *recipes.Op, name string) string {
	l := r.Line(o.Line)
	if l == nil || !l.Known() {
		return words.Say("op.times", name, words.Trim(o.Factor, 2))
	}
	key, share := "op.less", 1-o.Factor
	if o.Factor > 1 {
		key, share = "op.more-of", o.Factor-1
	}
	return words.Say(key, words.Share(share), name, words.Grams(l.Grams), words.Grams(l.Grams*o.Factor))
}

// stepNumber is a step's place from 1, 0 for none.
func stepNumber(r *recipes.Recipe, id recipes.ID) int {
	for i, s := range r.Steps {
		if s.ID == id {
			return i + 1
		}
	}
	return 0
}
