package stats

import "math"

// slack is how far correlations may be off by rounding.
const slack = 1e-9

// isCorrelation holds for a square symmetric matrix of ones and values in [-1, 1].
// Whether it is also positive is seen when it is factored.
func isCorrelation(c [][]float64) bool {
	for i, row := range c {
		if len(row) != len(c) {
			return false
		}
		for j := range i + 1 {
			if len(c[j]) != len(c) {
				return false
			}
			r := row[j]
			if !(math.Abs(r) <= 1+slack) || !(math.Abs(r-c[j][i]) <= slack) {
				return false
			}
		}
		if math.Abs(row[i]-1) > slack {
			return false
		}
	}
	return len(c) > 0
}

// withoutTwins leaves out comparisons perfectly correlated with an earlier one:
// |T| is the same, so the largest stays the same.
func withoutTwins(c [][]float64) [][]float64 {
	var keep []int
	for i := range c {
		twin := false
		for _, j := range keep {
			twin = twin || math.Abs(c[i][j]) >= 1-1e-13
		}
		if !twin {
			keep = append(keep, i)
		}
	}
	out := make([][]float64, len(keep))
	for a, i := range keep {
		for _, j := range keep {
			out[a] = append(out[a], c[i][j])
		}
	}
	return out
}

// oneFactor finds loads l with c_ij = l_i l_j off the diagonal, if there are any;
// misfit bounds what their rounding changes in a tail.
func oneFactor(c [][]float64) (load []float64, misfit float64, ok bool) {
	load = make([]float64, len(c))
	lead, second := largestPair(c)
	if lead < 0 { // all independent
		return load, 0, true
	}
	r := c[lead][second]
	load[lead] = math.Sqrt(math.Abs(r))
	if third := bestThird(c, lead, second); third >= 0 {
		square := r * c[lead][third] / c[second][third]
		if !(square > 0 && square <= 1+slack) {
			return nil, 0, false
		}
		load[lead] = math.Min(1, math.Sqrt(square))
	}
	for j := range c {
		if j != lead {
			load[j] = c[lead][j] / load[lead]
		}
	}
	return fits(c, load)
}

// largestPair is the pair with the strongest correlation; -1 if all are 0.
func largestPair(c [][]float64) (a, b int) {
	a, b, most := -1, -1, 0.0
	for i := range c {
		for j := range i {
			if r := math.Abs(c[i][j]); r > most && r > 1e-12 {
				a, b, most = i, j, r
			}
		}
	}
	return a, b
}

// bestThird is the comparison most correlated with both of a pair; -1 if none is.
func bestThird(c [][]float64, a, b int) int {
	third, most := -1, 1e-12
	for k := range c {
		if r := math.Min(math.Abs(c[a][k]), math.Abs(c[b][k])); k != a && k != b && r > most {
			third, most = k, r
		}
	}
	return third
}

func fits(c [][]float64, load []float64) ([]float64, float64, bool) {
	off := 0.0
	for i, l := range load {
		if math.Abs(l) > 1+slack {
			return nil, 0, false
		}
		load[i] = math.Max(-1, math.Min(1, l))
	}
	for i := range c {
		for j := range i {
			off = math.Max(off, math.Abs(c[i][j]-load[i]*load[j]))
		}
	}
	if off > 1e-8 {
		return nil, 0, false
	}
	if off < 1e-14 { // no more than rounding of the input
		off = 0
	}
	return load, off * float64(len(c)*len(c)), true
}
