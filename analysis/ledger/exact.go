package ledger

import (
	"slices"

	"parewell/analysis/stats"
)

// differences are the rows of each block less its first: what taster effects
// leave of a block.
func differences(on [][]int64, blocks [][]int) [][]int64 {
	var out [][]int64
	for _, b := range blocks {
		for _, v := range b[min(1, len(b)):] {
			d := slices.Clone(on[v])
			for i, x := range on[b[0]] {
				d[i] -= x
			}
			out = append(out, d)
		}
	}
	return out
}

// tied puts columns that share a smallest null vector in one group: tied[i] is
// the others of i's group, nil where i can be estimated.
func tied(null [][]int64, n int) [][]int {
	group := stats.Circuits(null, n)
	out := make([][]int, n)
	for i := range out {
		for j := range group {
			if j != i && group[i] >= 0 && group[j] == group[i] {
				out[i] = append(out[i], j)
			}
		}
	}
	return out
}

// estimable tells whether every null vector is square to c.
func estimable(null [][]int64, c []bool) bool {
	for _, v := range null {
		sum := int64(0)
		for i, x := range v {
			if c[i] {
				sum += x
			}
		}
		if sum != 0 {
			return false
		}
	}
	return true
}
