package recipes

import (
	"math"
	"reflect"
	"slices"

	"parewell/recipes/words"
)

// Correct makes a verb a correction of the record: the pot was the same, what was
// written of it was wrong. Numbers change everywhere, served records are renewed,
// and the correction stands, with its date, what it replaces and the reason (""
// for none), under every tasting it touches. A swap whose amount is corrected
// stays the same swap in every version that had it.
func Correct(at, why string, verb Verb) Verb {
	return func(b *Book) (Change, error) {
		c, err := verb(b)
		if err != nil || c.Empty() {
			return c, err
		}
		c = b.sameSwaps(c)
		c.Label, c.Correction = words.P("did.correct", c.Label.String()), true
		next, err := b.With(c)
		if err != nil {
			return Change{}, err
		}
		e := &edits{book: b, change: c}
		for _, t := range next.Tastings() {
			if t.State == TastingPlanned || next.Recipe(t.Recipe) == nil || next.Recipe(t.Recipe).Edition != t.Edition {
				continue
			}
			next.renew(e, t, LateNote{At: at, What: c.Label.String(), Why: why})
		}
		return e.done()
	}
}

// renew puts fresh records of the samples of t that b no longer has as served;
// each keeps, under note's date and reason, what it said before.
func (b *Book) renew(e *edits, t *Tasting, note LateNote) {
	for _, s := range b.Samples(t.ID) {
		if s.Served == nil || s.Dish != "" {
			continue
		}
		fresh := b.ServedRecord(b.Recipe(t.Recipe), b.Version(t.Recipe, s.Version))
		if sameDish(s.Served, fresh) && reflect.DeepEqual(s.Served.Foods, fresh.Foods) {
			continue
		}
		fresh.Corrected = append(slices.Clone(s.Served.Corrected), servedDiff(s.Served, fresh, note, func(id ID) string {
			for _, book := range []*Book{b, e.book} {
				if x := book.Swap(t.Recipe, id); x != nil {
					return x.Name
				}
			}
			return string(id)
		})...)
		c := *s
		c.Served = fresh
		e.put(&c)
	}
}

// sameSwaps turns a new swap that stands in a served version for one it had, in
// another amount, into that one corrected: typing over a cell makes a swap beside
// one that other versions share, and a correction must not tear them apart.
func (b *Book) sameSwaps(c Change) Change {
	for _, e := range c.Edits {
		y, ok := e.After.(*Swap)
		if !ok || e.Before != nil {
			continue
		}
		if x := b.corrected(c, y); x != nil {
			c = b.folded(c, y, x)
		}
	}
	return c
}

// corrected is the served swap as the new one y corrects it; nil when y is no
// correction of one but another swap.
func (b *Book) corrected(c Change, y *Swap) *Swap {
	for _, e := range c.Edits {
		v, is := e.After.(*Version)
		was, had := e.Before.(*Version)
		if !is || !had || !v.Has(y.ID) || was.Has(y.ID) || !b.VersionServed(v.Recipe, v.ID) {
			continue
		}
		for _, x := range b.On(was) {
			if !v.Has(x.ID) && strengthOf(x, y) {
				out := *x
				if out.Ops = y.Ops; x.Typed {
					out.Name = y.Name
				}
				return &out
			}
		}
		if len(v.Swaps) == len(was.Swaps)+1 {
			return b.reweighed(was, y)
		}
	}
	return nil
}

// strengthOf tells whether y was made by typing over what x makes of a dish: the
// same operations with another amount, or with other lines.
func strengthOf(x, y *Swap) bool {
	if y.Ladder == "" || y.Ladder != x.Ladder && y.Ladder != "swap:"+string(x.ID) || len(x.Ops) != len(y.Ops) {
		return false
	}
	for i := range x.Ops {
		o, p := x.Ops[i], y.Ops[i]
		if o.Lines, p.Lines = nil, nil; x.Typed && y.Typed {
			o.Factor = p.Factor
		}
		if !reflect.DeepEqual(o, p) {
			return false
		}
	}
	return x.Typed == y.Typed && x.Idea == y.Idea
}

// reweighed is the swap of was that sets the amount of the line that y, typed
// over that line, multiplies once more: the same swap with the amount as typed.
// Nil when none of its swaps sets it, or the amount is none that swap can give.
func (b *Book) reweighed(was *Version, y *Swap) *Swap {
	if !y.Typed || len(y.Ops) != 1 || y.Ops[0].Kind != OpMultiply {
		return nil
	}
	line, factor, left := y.Ops[0].Line, y.Ops[0].Factor, 1.0
	for _, x := range b.On(was) {
		left -= x.share(line)
	}
	for _, kind := range []OpKind{OpMultiply, OpExchange} {
		for _, x := range b.On(was) {
			at := slices.IndexFunc(x.Ops, func(o Op) bool { return o.Kind == kind && o.Line == line })
			if at < 0 {
				continue
			}
			out := *x
			out.Ops = slices.Clone(x.Ops)
			if o := &out.Ops[at]; kind == OpMultiply {
				o.Factor *= factor
			} else {
				o.Share += left * (1 - factor)
			}
			if o := out.Ops[at]; o.Share < 0 || o.Share > 1 || o.Factor < 0 || math.IsInf(o.Factor, 0) {
				return nil
			}
			out.Name = words.Say("swap.corrected", x.Name, y.Name)
			return &out
		}
	}
	return nil
}

// folded puts x, a served swap corrected, in the place of the new swap y.
func (b *Book) folded(c Change, y, x *Swap) Change {
	edits := []Edit{{Before: b.Swap(x.Recipe, x.ID), After: x.settled()}}
	for _, e := range c.Edits {
		switch z := e.After.(type) {
		case *Swap:
			if z.ID == y.ID || z.ID == x.ID {
				continue
			}
		case *Version:
			if !z.Has(y.ID) {
				break
			}
			w := *z
			if w.Swaps = without(z.Swaps, y.ID); !w.Has(x.ID) {
				w.Swaps = append(w.Swaps, x.ID)
			}
			slices.Sort(w.Swaps)
			if e.After = &w; Same(e.Before, &w) {
				continue
			}
		}
		edits = append(edits, e)
	}
	c.Edits = edits
	return c
}
