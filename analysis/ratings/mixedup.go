package ratings

import (
	"encoding/binary"
	"slices"

	"parewell/analysis/stats"
)

// MixedUp is a swap that could be told from the other swaps, but not from them
// and what else changed with the pots.
type MixedUp struct {
	Swap string   `json:"swap"`
	With []string `json:"with"` // "cook", "day", "position"
}

// conditions are what may go with a swap.
var conditions = []string{"cook", "day", "position"}

// mixedUp sets swaps beside cook, day and position and asks, in whole numbers,
// which can still be told.
func (l *layout) mixedUp(s *swapPlan, swaps int) []MixedUp {
	out := []MixedUp{}
	levels, kind := l.conditionLevels(s.columns)
	columns := s.columns + len(kind)
	if len(kind) == 0 {
		return out
	}
	e := &stats.Echelon{Columns: columns}
	seen := map[string]bool{}
	var first []int64
	for i, b := range l.block {
		row := make([]int64, columns)
		copy(row, s.whole[l.sample[i]])
		for _, at := range levels(i) {
			row[at] = 1
		}
		if i == 0 || l.block[i-1] != b {
			first = row
			continue
		}
		d := less(row, first)
		if key := packed(d); !seen[key] {
			seen[key] = true
			if e.Add(d); e.Full() {
				return out
			}
		}
	}
	null, ok := e.Null()
	if !ok {
		return out
	}
	group := stats.Circuits(null, columns)
	for i := range swaps {
		if !s.alone[i] || group[i] < 0 {
			continue
		}
		m := MixedUp{Swap: s.table.Names[i]}
		for c, name := range conditions {
			for j, k := range kind {
				if k == c && group[s.columns+j] == group[i] && !slices.Contains(m.With, name) {
					m.With = append(m.With, name)
				}
			}
		}
		out = append(out, m)
	}
	return out
}

func packed(row []int64) string {
	b := make([]byte, 0, len(row))
	for _, v := range row {
		b = binary.AppendVarint(b, v)
	}
	return string(b)
}

// conditionLevels numbers the levels of each condition that varies, but the
// first of each, as columns from at; kind is the condition of each such column.
func (l *layout) conditionLevels(at int) (levels func(row int) []int, kind []int) {
	values := [][]int{l.cook, l.day, l.position}
	columnOf := make([]map[int]int, len(values))
	for c, list := range values {
		columnOf[c] = map[int]int{}
		distinct := slices.Compact(slices.Sorted(slices.Values(list)))
		for _, v := range distinct[min(1, len(distinct)):] {
			columnOf[c][v] = at + len(kind)
			kind = append(kind, c)
		}
	}
	return func(row int) []int {
		out := make([]int, 0, len(values))
		for c, list := range values {
			if col, ok := columnOf[c][list[row]]; ok {
				out = append(out, col)
			}
		}
		return out
	}, kind
}
