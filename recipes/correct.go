package recipes

import (
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
// one that other versions share, and a correction must not tear them apart. What
// the version comes to stays the same.
func (b *Book) sameSwaps(c Change) Change {
	for _, find := range []func(*correcting, *Swap) *Swap{(*correcting).strength, (*correcting).reweighed} {
		for _, e := range slices.Clone(c.Edits) {
			y, ok := e.After.(*Swap)
			if !ok || e.Before != nil {
				continue
			}
			k := b.correctingWith(c, y)
			if k == nil {
				continue
			}
			if x := find(k, y); x != nil {
				c = b.folded(c, y, x)
			}
		}
	}
	return c
}

// correcting is a served version that gets a new swap: the swaps it had, as the
// change leaves them, and which of them it keeps.
type correcting struct {
	had  []*Swap
	now  *Version
	more int // how many more swaps it has now
}

// correctingWith finds the served version that c gives the new swap y; nil when
// there is none.
func (b *Book) correctingWith(c Change, y *Swap) *correcting {
	for _, e := range c.Edits {
		v, is := e.After.(*Version)
		was, had := e.Before.(*Version)
		if !is || !had || !v.Has(y.ID) || was.Has(y.ID) || !b.VersionServed(v.Recipe, v.ID) {
			continue
		}
		k := &correcting{now: v, more: len(v.Swaps) - len(was.Swaps)}
		for _, x := range b.On(was) {
			for _, other := range c.Edits {
				if z, ok := other.After.(*Swap); ok && z.ID == x.ID {
					x = z
				}
			}
			k.had = append(k.had, x)
		}
		return k
	}
	return nil
}

// strength is the swap that the version had in the place of y, as y corrects it:
// y was made by typing over what it makes of the dish, so it has the same
// operations with another amount or other lines. Nil when there is none.
func (k *correcting) strength(y *Swap) *Swap {
	for _, x := range k.had {
		if k.now.Has(x.ID) || !strengthOf(x, y) {
			continue
		}
		out := *x
		if out.Ops = y.Ops; x.Typed {
			out.Name = y.Name
		}
		return &out
	}
	return nil
}

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

// reweighed is the swap of the version that sets the amount of the line that y,
// typed over that line, multiplies once more: the same swap with the amount as
// typed. Nil when none sets it alone, or the amount is none it can give.
func (k *correcting) reweighed(y *Swap) *Swap {
	if !y.Typed || len(y.Ops) != 1 || y.Ops[0].Kind != OpMultiply || k.more != 1 {
		return nil
	}
	var sets []*Swap
	for _, x := range k.had {
		if k.now.Has(x.ID) && slices.ContainsFunc(x.Ops, func(o Op) bool {
			return o.Line == y.Ops[0].Line && (o.Kind == OpMultiply || o.Kind == OpExchange)
		}) {
			sets = append(sets, x)
		}
	}
	for _, x := range sets {
		if out := timesOn(x, y.Ops[0], len(sets) == 1); out != nil {
			out.Name = words.Say("swap.corrected", x.Name, y.Name)
			return out
		}
	}
	return nil
}

// timesOn is swap x with a multiply of one of its lines worked into it; nil where
// it cannot be: a multiply goes into a multiply, and into an exchange when no
// other swap exchanges the line.
func timesOn(x *Swap, y Op, alone bool) *Swap {
	out := *x
	out.Ops = slices.Clone(x.Ops)
	for i := range out.Ops {
		if o := &out.Ops[i]; o.Kind == OpMultiply && o.Line == y.Line {
			o.Factor *= y.Factor
			return &out
		}
	}
	left := 1 - x.share(y.Line)
	if !alone || left <= shareSlack {
		return nil
	}
	for i, first := 0, true; i < len(out.Ops); i++ {
		o := &out.Ops[i]
		if o.Kind != OpExchange || o.Line != y.Line {
			continue
		}
		if first {
			o.Share, first = o.Share+left*(1-y.Factor), false
		}
		lines := make([]*Line, len(o.Lines))
		for j, l := range o.Lines {
			n := *l
			n.Grams *= y.Factor
			n.Amount *= y.Factor
			lines[j] = &n
		}
		if o.Lines = lines; o.Share <= 0 || o.Share > 1 {
			return nil
		}
	}
	return &out
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
