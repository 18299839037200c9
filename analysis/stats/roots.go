package stats

import "math"

// pivotedRoot is L with L L' = c and as many columns as c has rank, the largest
// remaining variance taken first, and the rows in the order taken (the pivots
// only); nil if c has a negative direction.
func pivotedRoot(c [][]float64) (root [][]float64, order []int) {
	m := len(c)
	left := make([]float64, m) // variance not yet accounted for
	root = make([][]float64, m)
	for i := range left {
		left[i] = c[i][i]
	}
	for range m {
		best := 0
		for i, v := range left {
			if v < -1e-7 {
				return nil, nil
			}
			if v > left[best] {
				best = i
			}
		}
		if left[best] < 1e-10 {
			break
		}
		addColumn(c, root, left, best)
		order = append(order, best)
	}
	for i := range m {
		for j := range i {
			if math.Abs(inner(root[i], root[j])-c[i][j]) > 1e-6 {
				return nil, nil
			}
		}
	}
	return root, order
}

func addColumn(c, root [][]float64, left []float64, pivot int) {
	top := math.Sqrt(left[pivot])
	next := make([]float64, len(c))
	for i := range c {
		next[i] = (c[i][pivot] - inner(root[i], root[pivot])) / top
		if left[i] < 1e-10 {
			next[i] = 0
		}
	}
	for i, v := range next {
		root[i] = append(root[i], v)
		left[i] -= v * v
	}
}

func inner(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// rootInOrder is the plain Cholesky root, nil if c is singular.
func rootInOrder(c [][]float64) [][]float64 {
	root := make([][]float64, len(c))
	for i := range c {
		root[i] = make([]float64, len(c))
		for j := range i + 1 {
			v := c[i][j] - inner(root[i][:j], root[j][:j])
			switch {
			case j < i:
				root[i][j] = v / root[j][j]
			case v < 1e-10:
				return nil
			default:
				root[i][i] = math.Sqrt(v)
			}
		}
	}
	return root
}

// nearLoads are loads l for which l_i l_j comes near c_ij: each in turn by least
// squares given the others, from the row with the strongest correlations.
func nearLoads(c [][]float64) []float64 {
	lead, most := 0, 0.0
	for i, row := range c {
		if s := inner(row, row); s > most {
			lead, most = i, s
		}
	}
	load := make([]float64, len(c))
	for i := range load {
		load[i] = 0.7 * c[lead][i]
	}
	for range 60 {
		for i := range load {
			top, low := 0.0, 0.0
			for j, l := range load {
				if j != i {
					top, low = top+c[i][j]*l, low+l*l
				}
			}
			if low > 0 {
				load[i] = math.Max(-0.999, math.Min(0.999, top/low))
			}
		}
	}
	return load
}
