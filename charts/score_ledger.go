package charts

import (
	"math"
	"slices"

	"parewell/analysis/ledger"
)

// MapSwaps are the swaps of a ledger's table as the keep-or-drop map takes them:
// a swap that was always served with others stands at the effect of all of them.
func MapSwaps(t *ledger.Table) []MapSwap {
	out := make([]MapSwap, len(t.Rows))
	for i, group := range t.Groups() {
		r := &t.Rows[i]
		m := MapSwap{Name: r.Name, Saving: math.NaN(), Verdict: Verdict(r.Kind), Group: group}
		if r.Saving.Known {
			m.Saving = r.Saving.Amount
		}
		span := r.Interval
		if r.Kind == ledger.Tied {
			span = r.Joint
		}
		m.Effect, m.Low, m.High = span.Effect, span.Low, span.High
		out[i] = m
	}
	return out
}

// JudgeSteps adds to the steps of a waterfall what a ledger's table says of their
// swaps, to the digit: step i is of the swap at place swaps[i] of the table's
// evidence. Swaps that were always served together share their effect where all
// of them are among the steps; else nobody knows what these alone did.
func JudgeSteps(steps []WaterfallStep, swaps []int, t *ledger.Table) {
	groups := t.Groups()
	asked, here := map[int]int{}, map[int]int{}
	for i, group := range groups {
		asked[group]++
		if slices.Contains(swaps, t.Rows[i].Swap) {
			here[group]++
		}
	}
	for i := range steps {
		at := slices.IndexFunc(t.Rows, func(r ledger.Verdict) bool { return r.Swap == swaps[i] })
		if at < 0 {
			continue
		}
		st, r, group := &steps[i], &t.Rows[at], groups[at]
		st.Effect, st.Low, st.High, st.Verdict = r.Effect, r.Low, r.High, Verdict(r.Kind)
		if r.Kind == ledger.Tied && here[group] == asked[group] {
			st.Effect, st.Low, st.High, st.Group = r.Joint.Effect, r.Joint.Low, r.Joint.High, group
		}
	}
}
