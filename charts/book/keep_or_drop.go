package book

import (
	"math"
	"strconv"
	"strings"

	"parewell/analysis/ledger"
	"parewell/charts"
	"parewell/recipes/food"
)

// KeepOrDrop is a ledger's table against its recorded limit as rows for a file, the
// first of them the heads: a row a swap, after swaps that were always served
// together one for all of them, and a row a whole version. saved is what a version
// takes off; nil leaves that out. Numbers have a point, what is not known is
// empty, and each verdict stands as its code and in the window's words. liking tells
// that the score is one of which more is better.
func KeepOrDrop(t *ledger.Table, n food.Nutrient, score string, liking bool, saved func(version int) ledger.Saving) [][]string {
	k := keeping{table: t, nutrient: n, score: score, liking: liking, rows: [][]string{{
		"kind", "name", "nutrient", "unit", "lighter_by", "attribute", "effect", "low", "high", "level", "verdict", "verdict_words", "limit", "pots",
	}}}
	groups := t.Groups()
	for i := range t.Rows {
		r := &t.Rows[i]
		k.put("swap", r.Name, r.Saving, r.Interval, r.Kind, r.Pots)
		if last := lastOf(groups, i); last {
			k.together(groups, groups[i])
		}
	}
	for _, w := range t.Wholes {
		s := ledger.Saving{}
		if saved != nil {
			s = saved(w.Version)
		}
		k.put("version", w.Name, s, w.Interval, w.Kind, w.Pots)
	}
	return k.rows
}

// keeping gathers the rows.
type keeping struct {
	table    *ledger.Table
	nutrient food.Nutrient
	score    string
	liking   bool
	rows     [][]string
}

// lastOf tells that row i is the last of its group.
func lastOf(groups []int, i int) bool {
	if groups[i] == 0 {
		return false
	}
	for _, g := range groups[i+1:] {
		if g == groups[i] {
			return false
		}
	}
	return true
}

// together is the row of swaps that cannot be told apart: what all of them save,
// each alone, and what all of them do to the score.
func (k *keeping) together(groups []int, group int) {
	var names []string
	sum, joint, pots := ledger.Saving{Known: true}, ledger.Interval{}, 0
	for i := range k.table.Rows {
		if r := &k.table.Rows[i]; groups[i] == group {
			names = append(names, r.Name)
			sum.Amount, sum.Known = sum.Amount+r.Saving.Amount, sum.Known && r.Saving.Known
			joint, pots = r.Joint, r.Pots
		}
	}
	kind := ledger.Of(joint, k.table.Recorded)
	k.put("together", strings.Join(names, "; "), sum, joint, kind, pots)
}

func (k *keeping) put(kind, name string, s ledger.Saving, i ledger.Interval, v ledger.Kind, pots int) {
	saving, limit := math.NaN(), math.NaN()
	if s.Known {
		saving = s.Amount
	}
	if k.table.Recorded > 0 {
		limit = k.table.Recorded
	}
	said := charts.Verdict(v)
	if !k.liking {
		said = said.Neutral()
	}
	said = said.On(i.Effect, i.Low, i.High)
	k.rows = append(k.rows, []string{
		kind, safeCell(name), k.nutrient.Key(), k.nutrient.Unit(), known(saving), safeCell(k.score),
		known(i.Effect), known(i.Low), known(i.High), known(ledger.Level), string(said), said.Words(), known(limit), strconv.Itoa(pots),
	})
}

// known writes a number as it is, "" for what is not known.
func known(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
