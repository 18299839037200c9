package charts

import (
	"math"

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
