package stats

import (
	"math"
	"slices"
)

// exactWork bounds the steps of the exact count (well under a second).
const exactWork = 6_000_000

// exactFriedman is the tail of the sum of squared rank sums over all orders
// within each taster, given the ties; nil when the count would be too long. Any
// order within tasters being as likely as any other, only the sorted rank sums
// matter: that keeps the table small.
func exactFriedman(ranks [][]float64) *float64 {
	k := len(ranks[0])
	if k > 7 {
		return nil
	}
	work := 0
	table := map[[7]int32]float64{{}: 1}
	total := make([]int, k)
	for n, row := range ranks {
		twice := doubled(row)
		for j, v := range twice {
			total[j] += v
		}
		orders := distinctOrders(twice)
		if work += len(table) * len(orders); work > exactWork {
			return nil
		}
		if n == len(ranks)-1 {
			p := lastRow(table, orders, k, squareSum(ranks))
			return &p
		}
		table = spreadOut(table, orders, k)
	}
	return nil
}

// doubled makes whole numbers of mean ranks.
func doubled(ranks []float64) []int {
	out := make([]int, len(ranks))
	for i, v := range ranks {
		out[i] = int(math.Round(2 * v))
	}
	return out
}

// squareSum is the sum of squared doubled rank sums as they came out.
func squareSum(ranks [][]float64) int {
	sum := 0
	for j := range ranks[0] {
		s := 0
		for _, row := range ranks {
			s += int(math.Round(2 * row[j]))
		}
		sum += s * s
	}
	return sum
}

func spreadOut(table map[[7]int32]float64, orders [][]int, k int) map[[7]int32]float64 {
	next := make(map[[7]int32]float64, 2*len(table))
	each := 1 / float64(len(orders))
	for state, p := range table {
		for _, o := range orders {
			s := state
			for j, v := range o {
				s[j] += int32(v)
			}
			slices.Sort(s[:k])
			next[s] += p * each
		}
	}
	return next
}

// lastRow sums the chances of ending at least as far apart as seen.
func lastRow(table map[[7]int32]float64, orders [][]int, k, seen int) float64 {
	sum := 0.0
	for state, p := range table {
		hits := 0
		for _, o := range orders {
			s := 0
			for j := range k {
				v := int(state[j]) + o[j]
				s += v * v
			}
			if s >= seen {
				hits++
			}
		}
		sum += p * float64(hits) / float64(len(orders))
	}
	return math.Min(1, sum)
}

// distinctOrders lists the different orders of values, in rising sequence.
func distinctOrders(values []int) [][]int {
	v := append([]int{}, values...)
	slices.Sort(v)
	out := [][]int{append([]int{}, v...)}
	for nextOrder(v) {
		out = append(out, append([]int{}, v...))
	}
	return out
}

// nextOrder moves to the next order in rising sequence; false after the last.
func nextOrder(v []int) bool {
	i := len(v) - 2
	for i >= 0 && v[i] >= v[i+1] {
		i--
	}
	if i < 0 {
		return false
	}
	j := len(v) - 1
	for v[j] <= v[i] {
		j--
	}
	v[i], v[j] = v[j], v[i]
	slices.Reverse(v[i+1:])
	return true
}
