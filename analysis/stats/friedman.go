package stats

import "math"

// FriedmanResult is the rank test of several versions by the same tasters.
// Ranks run upwards within a taster, 1 for the smallest value, equal values
// sharing the mean rank. What cannot be reckoned is NaN, the slices nil.
type FriedmanResult struct {
	N, K      int // tasters who count, versions
	RankSums  []float64
	MeanRanks []float64
	TieSum    float64 // sum of t^3 - t over all groups of equal values

	Uncorrected float64 // statistic without regard to ties
	Tie         float64 // what it is divided by for ties: 1 without, 0 if all are tied
	Chi2, DF, P float64 // corrected statistic, degrees of freedom, chi-square tail

	F, FDF1, FDF2, PF float64 // Iman and Davenport's F
	W                 float64 // Kendall's agreement, 0 to 1

	// Exact is the tail over all orders within tasters, given their ties; nil
	// where there are too many to count quickly or blocks are incomplete.
	Exact *float64

	// Least differences between rank sums at the 5 % level: LSD and HSD allow
	// for ties, LSDPlain and HSDPlain (as printed in ISO 8587) do not; LSDConover
	// is Conover's with t. LSD only after a significant test; HSD holds for all
	// pairs at once.
	LSD, HSD, LSDPlain, HSDPlain, LSDConover float64

	// Incomplete says that tasters ranked only some of the versions each.
	Incomplete bool
	// Balanced incomplete blocks only: versions a taster ranked,
	// tasters a version had, tasters a pair shared, efficiency; 0 and NaN elsewhere.
	PerBlock, Replicates, Lambda int
	Efficiency                   float64
}

// lsdLevel is the level of the least differences in a result.
const lsdLevel = 0.05

// Friedman tests whether versions differ by ranks, one row a taster and one column
// a version (Friedman 1937; Hollander & Wolfe 1999 ch. 7; ISO 8587). NaN marks a
// version not tasted: then Incomplete holds and the test is
// Durbin's (Skillings and Mack's where the plan is not balanced). Rows are never
// ragged in a result that holds numbers.
func Friedman(rows [][]float64) FriedmanResult {
	r := emptyFriedman()
	k, whole := shape(rows)
	if k < 2 {
		return r
	}
	if !whole {
		return incomplete(rows, k)
	}
	r.N, r.K = len(rows), k
	r.RankSums, r.MeanRanks = make([]float64, k), make([]float64, k)
	ranks, squareSum := make([][]float64, r.N), 0.0
	for i, row := range rows {
		var ties float64
		ranks[i], ties = Ranks(row)
		r.TieSum += ties
		for j, v := range ranks[i] {
			r.RankSums[j] += v
			squareSum += v * v
		}
	}
	n, kf := float64(r.N), float64(k)
	for j, s := range r.RankSums {
		r.MeanRanks[j] = s / n
	}
	r.statistic(n, kf)
	r.leasts(n, kf, squareSum)
	r.Exact = exactFriedman(ranks)
	if r.Tie == 0 {
		r.Exact = nil
	}
	return r
}

func emptyFriedman() FriedmanResult {
	nan := math.NaN()
	return FriedmanResult{
		Uncorrected: nan, Tie: nan, Chi2: nan, DF: nan, P: nan, F: nan, FDF1: nan, FDF2: nan, PF: nan, W: nan,
		LSD: nan, HSD: nan, LSDPlain: nan, HSDPlain: nan, LSDConover: nan, Efficiency: nan,
	}
}

// shape is the number of versions, 0 when rows are ragged, there are none or one
// holds an infinity; whole holds when nothing is missing.
func shape(rows [][]float64) (k int, whole bool) {
	whole = true
	for _, row := range rows {
		if len(row) != len(rows[0]) {
			return 0, false
		}
		for _, v := range row {
			if math.IsInf(v, 0) {
				return 0, false
			}
			whole = whole && !math.IsNaN(v)
		}
		k = len(row)
	}
	return k, whole
}

func (r *FriedmanResult) statistic(n, k float64) {
	sum := 0.0 // about the mean, which loses nothing
	for _, s := range r.RankSums {
		sum += square(s - n*(k+1)/2)
	}
	r.Uncorrected = 12 / (n * k * (k + 1)) * sum
	r.Tie = 1 - r.TieSum/(n*k*(k*k-1))
	r.DF, r.FDF1, r.FDF2 = k-1, k-1, (n-1)*(k-1)
	if r.Tie <= 1e-12 { // everybody put everything equal
		r.Tie = 0
		return
	}
	r.Chi2 = r.Uncorrected / r.Tie
	r.P = Chi2Above(r.Chi2, r.DF)
	r.W = r.Chi2 / (n * (k - 1))
	if spare := n*(k-1) - r.Chi2; spare > 1e-9*n && n > 1 {
		r.F = (n - 1) * r.Chi2 / spare
		r.PF = FAbove(r.F, r.FDF1, r.FDF2)
	}
}

func (r *FriedmanResult) leasts(n, k, squareSum float64) {
	r.LSDPlain, r.HSDPlain = r.LeastDifferences(lsdLevel, false)
	r.LSD, r.HSD = r.LeastDifferences(lsdLevel, true)
	sums := 0.0
	for _, s := range r.RankSums {
		sums += s * s
	}
	if n > 1 {
		left := math.Max(0, n*squareSum-sums)
		r.LSDConover = TPoint(lsdLevel/2, r.FDF2) * math.Sqrt(2*left/r.FDF2)
	}
}

// pairVariance is that of the difference of two rank sums if nothing differs.
func (r *FriedmanResult) pairVariance(ties bool) float64 {
	n, k := float64(r.N), float64(r.K)
	if r.Incomplete {
		b, rep := float64(r.PerBlock), float64(r.Replicates)
		v := (b + 1) * (rep*b - rep + float64(r.Lambda)) / 6
		switch {
		case r.Lambda == 0:
			return math.NaN()
		case ties:
			return v * r.Tie
		}
		return v
	}
	v := n * k * (k + 1) / 6
	if ties {
		v -= r.TieSum / (6 * (k - 1))
	}
	return math.Max(0, v)
}

// LeastDifferences are the differences of rank sums significant at a level: lsd
// for a pair named beforehand or after a significant test, hsd for all pairs at
// once (studentized range); with ties or without regard to them. NaN for a level
// outside (0, 1), no result, or an unbalanced plan.
func (r *FriedmanResult) LeastDifferences(alpha float64, ties bool) (lsd, hsd float64) {
	if r.K < 2 || !(alpha > 0 && alpha < 1) {
		return math.NaN(), math.NaN()
	}
	root := math.Sqrt(r.pairVariance(ties))
	return NormalPoint(alpha/2) * root, TukeyPoint(alpha, r.K, math.Inf(1)) / math.Sqrt2 * root
}

// RankPair compares two versions by their rank sums.
type RankPair struct {
	I, J       int     // versions, from 0
	Difference float64 // rank sum of I less that of J
	Z, P, Holm float64 // two-sided normal; NaN if all is tied
}

// Pairs compares all pairs of versions, with ties allowed for; nil if there is no
// result or, with incomplete blocks, no balance.
func (r *FriedmanResult) Pairs() []RankPair {
	root := math.Sqrt(r.pairVariance(true))
	if math.IsNaN(root) {
		return nil
	}
	var out []RankPair
	var p []float64
	for i := range r.RankSums {
		for j := i + 1; j < len(r.RankSums); j++ {
			d := r.RankSums[i] - r.RankSums[j]
			z := ratio(d, root)
			p = append(p, 2*NormalAbove(math.Abs(z)))
			out = append(out, RankPair{I: i, J: j, Difference: d, Z: z, P: p[len(p)-1]})
		}
	}
	for i, h := range Holm(p) {
		out[i].Holm = h
	}
	return out
}
