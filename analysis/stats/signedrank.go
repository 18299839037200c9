package stats

import (
	"math"
	"slices"
)

// ZeroRule says what becomes of tasters who see no difference.
type ZeroRule int

// DropZeros leaves zeros out before ranking (Wilcoxon); PrattZeros ranks them and
// then leaves them out (Pratt 1959, J. Am. Stat. Assoc. 54:655).
const (
	DropZeros ZeroRule = iota
	PrattZeros
)

// SignedRankResult is Wilcoxon's signed-rank test of differences, the sign test
// and the Hodges-Lehmann estimate. With nothing but zeros the exact p values are
// 1 and the normal ones NaN; with no differences at all everything is NaN.
type SignedRankResult struct {
	Pairs, Zeros, N int // differences; those that are 0; the others
	Plus, Minus     float64
	Mean, Variance  float64 // of Plus if nothing differs, given the ties

	// Exact tails over all changes of sign, given the ties; NaN above
	// [MostExact] non-zero differences.
	P, PLess, PGreater float64

	Z, PNormal                       float64 // normal approximation
	ZCorrected, PCorrected, PCorLess float64 // with half a unit towards the mean
	RankBiserial                     float64 // (Plus - Minus)/(Plus + Minus), -1 to 1

	// HodgesLehmann is the median of the means of all pairs of differences, each
	// with itself too, zeros kept: the shift, in the unit of the scores.
	HodgesLehmann float64

	Positive, Negative int
	PSign              float64 // two-sided exact sign test, zeros left out
}

// MostExact is the largest number of non-zero differences counted exactly.
const MostExact = 200

// equalWithin is how near two differences count as equal, as a share of the
// largest: 1.1 - -0.2 and 0.1 - -1.2 are the same difference, not so in float64.
const equalWithin = 1e-11

// SignedRank tests whether differences (one per taster) are as often and as
// widely above 0 as below. NaN values, unpaired scores, are left out; all is NaN
// for no values, an infinite one or an unknown rule.
func SignedRank(d []float64, zero ZeroRule) SignedRankResult {
	nan := math.NaN()
	r := SignedRankResult{
		Plus: nan, Minus: nan, Mean: nan, Variance: nan, P: nan, PLess: nan, PGreater: nan, Z: nan, PNormal: nan,
		ZCorrected: nan, PCorrected: nan, PCorLess: nan, RankBiserial: nan, HodgesLehmann: nan, PSign: nan,
	}
	d = present(d)
	if !finite(d) || zero != DropZeros && zero != PrattZeros {
		return r
	}
	slack := equalWithin * largest(d)
	r.Pairs, r.HodgesLehmann = len(d), middleOfPairs(d)
	ranks, signs := r.signed(d, slack, zero)
	r.Plus, r.Minus = 0, 0
	for i, v := range ranks {
		if signs[i] > 0 {
			r.Plus += v
		} else {
			r.Minus += v
		}
	}
	r.exact(ranks)
	r.approximate(ranks)
	r.PSign = signTest(r.Positive, r.Negative)
	return r
}

func largest(d []float64) float64 {
	most := 0.0
	for _, v := range d {
		most = math.Max(most, math.Abs(v))
	}
	return most
}

// signed ranks the sizes of the differences that are not 0 and counts the signs.
func (r *SignedRankResult) signed(d []float64, slack float64, zero ZeroRule) (ranks, signs []float64) {
	var sizes []float64
	for _, v := range d {
		switch {
		case math.Abs(v) <= slack:
			r.Zeros++
			continue
		case v > 0:
			r.Positive++
		default:
			r.Negative++
		}
		sizes, signs = append(sizes, math.Abs(v)), append(signs, v)
	}
	r.N = len(sizes)
	ranks, _ = ranksWithin(sizes, slack)
	if zero == PrattZeros {
		for i := range ranks {
			ranks[i] += float64(r.Zeros)
		}
	}
	return ranks, signs
}

// exact counts the sign changes by their doubled sums, one rank at a time.
func (r *SignedRankResult) exact(ranks []float64) {
	if len(ranks) > MostExact {
		return
	}
	chance := []float64{1}
	for _, step := range doubled(ranks) {
		next := make([]float64, len(chance)+step)
		for s, p := range chance {
			next[s] += p / 2
			next[s+step] += p / 2
		}
		chance = next
	}
	seen := int(math.Round(2 * r.Plus))
	r.PLess, r.PGreater = 0, 0
	for s, p := range chance {
		if s <= seen {
			r.PLess += p
		}
		if s >= seen {
			r.PGreater += p
		}
	}
	r.P = math.Min(1, 2*math.Min(r.PLess, r.PGreater))
}

// approximate uses mean and variance of the rank sum; the variance is the sum of
// squared ranks over four, which is n(n+1)(2n+1)/24 - sum(t^3-t)/48 when zeros
// are dropped and its counterpart when they are ranked.
func (r *SignedRankResult) approximate(ranks []float64) {
	r.Mean, r.Variance = 0, 0
	for _, v := range ranks {
		r.Mean += v / 2
		r.Variance += v * v / 4
	}
	if r.Variance == 0 {
		return
	}
	root, off := math.Sqrt(r.Variance), r.Plus-r.Mean
	r.Z = off / root
	r.PNormal = 2 * NormalAbove(math.Abs(r.Z))
	r.ZCorrected = math.Copysign(math.Max(0, math.Abs(off)-0.5), off) / root
	r.PCorrected = 2 * NormalAbove(math.Abs(r.ZCorrected))
	r.PCorLess = NormalAbove(-(off + 0.5) / root)
	r.RankBiserial = (r.Plus - r.Minus) / (r.Plus + r.Minus)
}

// middleOfPairs is the median of the Walsh averages.
func middleOfPairs(d []float64) float64 {
	walsh := make([]float64, 0, len(d)*(len(d)+1)/2)
	for i, a := range d {
		for _, b := range d[:i+1] {
			walsh = append(walsh, a/2+b/2)
		}
	}
	slices.Sort(walsh)
	n := len(walsh)
	return walsh[(n-1)/2]/2 + walsh[n/2]/2
}

// signTest is the two-sided exact binomial tail at one half; 1 for no signs.
func signTest(positive, negative int) float64 {
	n, few := positive+negative, min(positive, negative)
	if 2*few >= n {
		return 1
	}
	// The chance of at most few of n at one half is a tail of the beta function.
	return math.Min(1, 2*betaBelow(float64(n-few), float64(few+1), 0.5, 0.5))
}
