package ledger

import (
	"context"
	"math"
	"math/bits"
	"slices"
)

// walker goes through combinations of the usable swaps in Gray code, so that
// each differs from the last by one swap and prediction, variance, saving,
// clashes and the null-space test are kept up by that swap alone.
type walker struct {
	m     *model
	use   []int // usable swaps of the model; bit j of a mask is use[j]
	beta  []float64
	cov   [][]float64 // among usable swaps
	clash []uint32    // by usable swap
	null  [][]nullTerm
	save  []Saving // of each usable swap
	extra []group

	mask     uint32
	effect   float64
	variance float64
	w        []float64 // cov times the mask
	dots     []int64   // of each null vector with the mask
	open     int       // dots that are not zero
	clashes  int
	saving   float64
	unknown  int // swaps and groups on whose saving is not known
}

type nullTerm struct {
	vector int
	times  int64
}

// group is a correction of savings among usable swaps.
type group struct {
	mask uint32
	s    Saving
}

// refresh is how often sums kept up step by step are made anew.
const refresh = 1 << 12

// newWalker takes swaps that can be part of an estimable combination: tasted,
// sometimes left out or tied to others, and not failed in the pan.
func newWalker(m *model, nutrient string) *walker {
	w := &walker{m: m}
	for i, a := range m.at {
		if m.usable(i) {
			w.use = append(w.use, i)
			w.beta = append(w.beta, m.beta[i])
			w.save = append(w.save, m.e.Swaps[a].Savings[nutrient])
		}
	}
	w.w = make([]float64, len(w.use))
	w.dots = make([]int64, len(m.null))
	w.null = make([][]nullTerm, len(w.use))
	for j, i := range w.use {
		row := make([]float64, len(w.use))
		clash := uint32(0)
		for k, l := range w.use {
			row[k] = m.cov[i][l]
			if i < 64 && l < 64 && m.bars[i]>>l&1 == 1 && k < 32 {
				clash |= 1 << k
			}
		}
		w.cov, w.clash = append(w.cov, row), append(w.clash, clash)
		for v, null := range m.null {
			if null[i] != 0 {
				w.null[j] = append(w.null[j], nullTerm{v, null[i]})
			}
		}
	}
	w.groups(nutrient)
	return w
}

// usable tells whether any estimable combination can hold swap i.
func (m *model) usable(i int) bool {
	return !m.skipped[i] && m.e.tasted(m.at[i]) && (m.apart[i] || len(m.tied[i]) > 0)
}

// groups turns corrections of savings into masks; one with a swap that is not
// usable never comes on.
func (w *walker) groups(nutrient string) {
	for _, t := range w.m.e.Together {
		s, ok := t.Savings[nutrient]
		mask := uint32(0)
		for _, id := range t.Swaps {
			j := slices.IndexFunc(w.use, func(i int) bool { return w.m.e.Swaps[w.m.at[i]].ID == id })
			if j < 0 {
				ok = false
				break
			}
			mask |= 1 << j
		}
		if ok {
			w.extra = append(w.extra, group{mask, s})
		}
	}
}

// flip switches usable swap j.
func (w *walker) flip(j int) {
	bit := uint32(1) << j
	sign, step := 1.0, 1
	if w.mask&bit != 0 {
		sign, step = -1, -1
		w.mask &^= bit
	}
	others := w.mask
	w.effect += sign * w.beta[j]
	row := w.cov[j]
	if step > 0 {
		w.variance += 2*w.w[j] + row[j]
	} else {
		w.variance -= 2*w.w[j] - row[j]
	}
	for k, c := range row {
		w.w[k] += sign * c
	}
	for _, t := range w.null[j] {
		was := w.dots[t.vector]
		now := was + int64(step)*t.times
		w.dots[t.vector] = now
		if was == 0 {
			w.open++
		} else if now == 0 {
			w.open--
		}
	}
	w.clashes += step * bits.OnesCount32(w.clash[j]&others)
	w.count(w.save[j], sign, step)
	for _, g := range w.extra {
		if g.mask&bit != 0 && (g.mask&^bit)&^others == 0 {
			w.count(g.s, sign, step)
		}
	}
	if step > 0 {
		w.mask |= bit
	}
}

func (w *walker) count(s Saving, sign float64, step int) {
	if s.Known {
		w.saving += sign * s.Amount
	} else {
		w.unknown += step
	}
}

// anew works the sums of the present mask out from nothing, always in the same
// order, so that a combination's figures do not depend on the way there.
func (w *walker) anew() {
	w.effect, w.variance, w.saving, w.unknown = 0, 0, 0, 0
	for k := range w.w {
		w.w[k] = 0
	}
	for j := range w.use {
		if w.mask>>j&1 == 0 {
			continue
		}
		w.effect += w.beta[j]
		w.count(w.save[j], 1, 1)
		for k, c := range w.cov[j] {
			w.w[k] += c
		}
	}
	for j := range w.use {
		if w.mask>>j&1 == 1 {
			w.variance += w.w[j]
		}
	}
	for _, g := range w.extra {
		if g.mask&^w.mask == 0 {
			w.count(g.s, 1, 1)
		}
	}
}

// low is the low end of the present combination's interval.
func (w *walker) low() float64 {
	return w.effect - w.m.t*math.Sqrt(math.Max(w.variance, 0))
}

// walk calls visit for every combination but the empty one that can be
// estimated and cooked. It stops with the context's error.
func (w *walker) walk(ctx context.Context, visit func()) error {
	for i := uint32(1); i < 1<<len(w.use); i++ {
		w.flip(bits.TrailingZeros32(i))
		if i%refresh == 0 {
			w.anew()
			if ctx.Err() != nil {
				return ctx.Err()
			}
		}
		if w.open == 0 && w.clashes == 0 {
			visit()
		}
	}
	return nil
}

// ticks are the present combination in the order of the evidence.
func (w *walker) ticks(mask uint32) []bool {
	on := make([]bool, len(w.m.at))
	for j, i := range w.use {
		if mask>>j&1 == 1 {
			on[w.m.at[i]] = true
		}
	}
	return on
}

// maskOf is the mask of ticks in the model's order; ok is false when a swap
// that is not usable is on.
func (w *walker) maskOf(on []bool) (mask uint32, ok bool) {
	left := onCount(on)
	for j, i := range w.use {
		if on[i] {
			mask |= 1 << j
			left--
		}
	}
	return mask, left == 0
}
