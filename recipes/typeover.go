package recipes

import (
	"slices"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// TypeOver is what the cook typed over an ingredient in a version's column.
// Line is what stood in the cell: a line of the original or one a ticked swap
// brought. Typed is how the new text was read; nil leaves the ingredient out.
// NewSwap is the ID a new swap gets if one is needed.
type TypeOver struct {
	Recipe, Version, Line ID
	Typed                 *Line
	NewSwap               ID
	Foods                 []*food.Food
}

// Verb turns typing over a cell into a swap: the same food in another amount
// becomes "butter 60 to 20 g", another food takes the line's place, nothing
// leaves it out, the original's own amount switches the typed swap off again.
// Typing over a swap that only this version has on changes that swap; one that
// other versions share is left alone and a strength beside it is made.
func (t TypeOver) Verb() Verb {
	return func(b *Book) (Change, error) {
		r, v, err := b.mustVersion(t.Recipe, t.Version)
		if err != nil {
			return Change{}, err
		}
		for _, d := range b.Draft(r, v).Lines {
			if d.Line.ID != t.Line {
				continue
			}
			if d.Swap == "" {
				return t.overOriginal(b, r, v, d)
			}
			return t.overBrought(b, v, d)
		}
		if at := t.moved(b, v); at != "" {
			t.Line = at
			return t.Verb()(b)
		}
		return Change{}, gone("error.line-gone")
	}
}

// moved is the line that stands for one a shared swap brought, once typing over
// another line of it has put a strength of that swap in the version's own; empty
// when there is none.
func (t TypeOver) moved(b *Book, v *Version) ID {
	for _, s := range b.Swaps(t.Recipe) {
		for i, o := range s.Ops {
			j := slices.IndexFunc(o.Lines, func(l *Line) bool { return l.ID == t.Line })
			if j < 0 || s.Ladder == "" || v.Has(s.ID) {
				continue
			}
			for _, z := range b.On(v) {
				if z.Ladder == s.Ladder && i < len(z.Ops) && j < len(z.Ops[i].Lines) {
					return z.Ops[i].Lines[j].ID
				}
			}
		}
	}
	return ""
}

// overOriginal handles a cell that shows a line of the original.
func (t TypeOver) overOriginal(b *Book, r *Recipe, v *Version, d DraftLine) (Change, error) {
	old := typedSwapOn(b, v, d.Line.ID)
	op, name, err := t.op(d, b.othersOn(r, v, old, d.Line.ID))
	if err != nil {
		return Change{}, err
	}
	if op == nil { // back to the original
		if old == nil {
			return Change{Label: words.P("did.nothing"), Recipe: t.Recipe}, nil
		}
		return Tick(t.Recipe, t.Version, old.ID, false)(b)
	}
	if same := sameSwap(b, v, []Op{*op}); same != nil {
		return instead(v, old, same)(b)
	}
	s := &Swap{ID: t.NewSwap, Recipe: t.Recipe, Name: name, Ops: []Op{*op}, Typed: true, Ladder: "line:" + string(d.Line.ID)}
	if old != nil && onlyIn(b, old, v) {
		s.ID = old.ID
		return relabel(EditSwap(s, t.Foods), "did.type-over", name, v.Letter)(b)
	}
	return relabel(AddSwap(s, t.Foods, t.Version), "did.type-over", name, v.Letter)(b)
}

// op makes the operation that turns d into what was typed; nil when the cell
// says what the original says. others is what the version's other swaps do to
// the line, so that the cell shows what was typed.
func (t TypeOver) op(d DraftLine, others effect) (*Op, string, error) {
	l := d.Line
	if t.Typed == nil {
		return &Op{Kind: OpRemove, Line: l.ID}, words.Say("swap.without", lineName(l)), nil
	}
	same := t.Typed.Food == l.Food && !l.Food.Zero() || l.Sub != nil && t.Typed.Sub != nil && *t.Typed.Sub == *l.Sub
	switch {
	case same && !t.Typed.Known():
		return nil, "", refuse(t.Typed.Text, "error.typed-amount")
	case same && l.Known() && l.Grams > 0 && others.scale > 0:
		factor := t.Typed.Grams / (l.Grams * others.scale)
		if factor > 1-1e-9 && factor < 1+1e-9 {
			return nil, "", nil
		}
		name := words.Say("swap.amount", lineName(l), words.Grams(l.Grams*others.scale), words.Grams(t.Typed.Grams))
		return &Op{Kind: OpMultiply, Line: l.ID, Factor: factor}, name, nil
	}
	n := *t.Typed
	n.Section = l.Section
	if others.product > 0 {
		n.Grams /= others.product
		n.Amount /= others.product
	}
	name := words.Say("swap.for", lineName(&n), lineName(l))
	return &Op{Kind: OpExchange, Line: l.ID, Share: 1, Lines: []*Line{&n}}, name, nil
}

// overBrought handles a cell that shows a line some swap brought: that swap is
// changed, or a strength beside it is made where others share it.
func (t TypeOver) overBrought(b *Book, v *Version, d DraftLine) (Change, error) {
	s := b.Swap(t.Recipe, d.Swap)
	c := *s
	c.Ops = slices.Clone(s.Ops)
	for i, o := range c.Ops {
		at := slices.IndexFunc(o.Lines, func(l *Line) bool { return l.ID == d.Line.ID })
		if at < 0 {
			continue
		}
		lines := slices.Clone(o.Lines)
		if t.Typed == nil {
			lines = slices.Delete(lines, at, at+1)
		} else {
			n := *t.Typed
			n.Section = d.Line.Section
			if d.Scale > 0 {
				n.Grams /= d.Scale
				n.Amount /= d.Scale
			}
			lines[at] = &n
		}
		c.Ops[i].Lines = lines
	}
	if same := sameSwap(b, v, c.Ops); same != nil {
		return instead(v, s, same)(b)
	}
	if onlyIn(b, s, v) {
		return relabel(EditSwap(&c, t.Foods), "did.type-over", s.Name, v.Letter)(b)
	}
	ladder := s.Ladder
	if ladder == "" {
		ladder = "swap:" + string(s.ID)
	}
	parent := *s
	parent.Ladder = ladder
	c.ID, c.Ladder, c.Order = t.NewSwap, ladder, s.Order+0.5
	c.Name = words.Say("swap.variant", s.Name, t.variant(d))
	return All(words.P("did.type-over", c.Name, v.Letter), t.Recipe,
		EditSwap(&parent, nil), AddSwap(&c, t.Foods, t.Version))(b)
}

func (t TypeOver) variant(d DraftLine) string {
	if t.Typed == nil {
		return words.Say("swap.without", lineName(d.Line))
	}
	return t.Typed.Text
}

// typedSwapOn returns the swap that typing over the line made in the version,
// nil if there is none on.
func typedSwapOn(b *Book, v *Version, line ID) *Swap {
	for _, s := range b.On(v) {
		if s.Typed && slices.Contains(s.Touches(), line) {
			return s
		}
	}
	return nil
}

// effect is what swaps do to one line: the product of their multiplies, and
// scale, what is left of it after their exchanges as well.
type effect struct{ product, scale float64 }

// othersOn returns what the version's swaps other than but do to a line.
func (b *Book) othersOn(r *Recipe, v *Version, but *Swap, line ID) effect {
	e := effect{product: 1, scale: 1}
	var on []*Swap
	for _, s := range b.On(v) {
		if but != nil && s.ID == but.ID {
			continue
		}
		on = append(on, s)
		for i := range s.Ops {
			if s.Ops[i].Kind == OpMultiply && s.Ops[i].Line == line {
				e.product *= s.Ops[i].Factor
			}
		}
	}
	for _, d := range Compose(r, v, on).Lines {
		if d.Line.ID == line && d.Swap == "" {
			e.scale = d.Scale
		}
	}
	return e
}

// onlyIn tells whether no version but v has the swap on.
func onlyIn(b *Book, s *Swap, v *Version) bool {
	for _, w := range b.Versions(v.Recipe) {
		if w.ID != v.ID && w.Has(s.ID) {
			return false
		}
	}
	return true
}

// lineName names an ingredient in a swap's name.
func lineName(l *Line) string {
	if l.Name != "" {
		return l.Name
	}
	return strings.TrimSpace(l.Text)
}

// relabel runs a verb under another label.
func relabel(v Verb, key string, args ...any) Verb {
	return func(b *Book) (Change, error) {
		c, err := v(b)
		c.Label = words.P(key, args...)
		return c, err
	}
}

// TypeOverStep turns typing over a step in a version's column into a swap that
// rewrites it; the original's own text switches that swap off again, an empty
// text drops the step.
func TypeOverStep(recipe, version, step ID, text string, newSwap ID) Verb {
	return func(b *Book) (Change, error) {
		r, v, err := b.mustVersion(recipe, version)
		if err != nil {
			return Change{}, err
		}
		orig := r.Step(step)
		if orig == nil {
			return Change{}, gone("error.step-gone")
		}
		text = strings.TrimSpace(text)
		old := typedStepSwap(b, v, step)
		if text == orig.Text {
			if old == nil {
				return Change{Label: words.P("did.nothing"), Recipe: recipe}, nil
			}
			return Tick(recipe, version, old.ID, false)(b)
		}
		if old == nil && rewritten(b, v, step) {
			return JoinStep(recipe, version, step, text)(b)
		}
		op := Op{Kind: OpStepReplace, Step: step, Text: text}
		if text == "" {
			op = Op{Kind: OpStepDrop, Step: step}
		}
		s := &Swap{
			ID: newSwap, Recipe: recipe, Name: words.Say("swap.step", stepNumber(r, step)), Ops: []Op{op},
			Typed: true, Ladder: "step:" + string(step),
		}
		if same := sameSwap(b, v, s.Ops); same != nil {
			return instead(v, old, same)(b)
		}
		if old != nil && onlyIn(b, old, v) {
			s.ID = old.ID
			return EditSwap(s, nil)(b)
		}
		return AddSwap(s, nil, version)(b)
	}
}

func typedStepSwap(b *Book, v *Version, step ID) *Swap {
	for _, s := range b.On(v) {
		for i := range s.Ops {
			if s.Typed && s.Ops[i].Step == step {
				return s
			}
		}
	}
	return nil
}

// rewritten tells whether some ticked swap rewrites the step.
func rewritten(b *Book, v *Version, step ID) bool {
	for _, s := range b.On(v) {
		for i := range s.Ops {
			if s.Ops[i].Kind == OpStepReplace && s.Ops[i].Step == step {
				return true
			}
		}
	}
	return false
}

func stepNumber(r *Recipe, step ID) int {
	return 1 + slices.IndexFunc(r.Steps, func(s *Step) bool { return s.ID == step })
}
