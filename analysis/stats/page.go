package stats

import "math"

// PageResult is Page's test of an order named before tasting. NaN or nil where
// there is nothing to reckon.
type PageResult struct {
	L, Mean, Variance float64 // statistic; its mean and variance without ties if nothing differs
	Z, P              float64 // one-sided, normal: the ranks rise in the order named
	Exact             *float64
}

// Page tests whether ranks rise in the order named: order[j] is the expected rank
// of column j, 1 for the smallest (Page 1963, J. Am. Stat. Assoc. 58:216). Exact
// is the tail over all orders within tasters, given their ties; nil beyond eight
// versions or for expected ranks that are not whole.
func Page(rows [][]float64, order []float64) PageResult {
	nan := math.NaN()
	r := PageResult{L: nan, Mean: nan, Variance: nan, Z: nan, P: nan}
	k, whole := shape(rows)
	if !whole || k < 2 || len(order) != k || !finite(order) {
		return r
	}
	n, kf := float64(len(rows)), float64(k)
	table, low := map[int]float64{0: 1}, 0
	r.L = 0
	for _, row := range rows {
		ranks, _ := Ranks(row)
		for j, v := range ranks {
			r.L += order[j] * v
		}
		if table != nil {
			table = pageStep(table, doubled(ranks), order)
		}
	}
	low = int(math.Round(2 * r.L))
	r.Mean = n * kf * square(kf+1) / 4
	r.Variance = n * square(kf) * (kf + 1) * (kf*kf - 1) / 144
	r.Z = (r.L - r.Mean) / math.Sqrt(r.Variance)
	r.P = NormalAbove(r.Z)
	if table != nil {
		sum := 0.0
		for at, p := range table {
			if at >= low {
				sum += p
			}
		}
		sum = math.Min(1, sum)
		r.Exact = &sum
	}
	return r
}

// pageStep adds one taster to the distribution of twice L; nil if it cannot be
// kept in whole numbers or is too long to list.
func pageStep(table map[int]float64, twice []int, order []float64) map[int]float64 {
	if len(twice) > 7 {
		return nil
	}
	one := map[int]float64{}
	orders := distinctOrders(twice)
	for _, o := range orders {
		at := 0
		for j, v := range o {
			if order[j] != math.Trunc(order[j]) || math.Abs(order[j]) > 1000 {
				return nil
			}
			at += v * int(order[j])
		}
		one[at] += 1 / float64(len(orders))
	}
	next := map[int]float64{}
	for a, p := range table {
		for b, q := range one {
			next[a+b] += p * q
		}
	}
	return next
}
