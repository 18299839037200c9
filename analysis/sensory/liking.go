package sensory

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Usual settings of a liking plan. The scatter is that of one taster's scores
// on nine points once her own level is taken out; 1.2 to 1.9 is typical, and
// home panels were reckoned with 1.4 (Hough et al. 2006, Food Qual. Prefer.
// 17:522, mean 0.23 of the scale; the choice of 1.4 is judgement).
const (
	UsualScatter = 1.4
	UsualAlpha   = 0.05
	UsualPower   = 0.80
)

// LikingPlan says how finely a liking test can see: the error of the difference
// between a version and the original, and the degrees of freedom behind it.
type LikingPlan struct {
	Panelists, Samples int
	Scatter            float64 // residual SD, panelist x sample, points
	SE                 float64 // of version - original, points; +Inf if it cannot be had
	DF                 float64 // of the residual; 0: no scatter can be estimated
	Versions           int     // how many are held against the original
}

// NewLikingPlan reckons with complete blocks: everybody tastes every sample.
func NewLikingPlan(panelists, samples int, scatter float64) LikingPlan {
	p := LikingPlan{Panelists: panelists, Samples: samples, Scatter: scatter, Versions: samples - 1}
	p.SE = scatter * math.Sqrt(2/float64(panelists))
	p.DF = float64((panelists - 1) * (samples - 1))
	return p
}

// WithinScatter is the residual SD when the SD of single scores over people and
// that of their personal levels are known: sqrt(total² - between²); 0 when the
// levels explain all of it.
func WithinScatter(total, between float64) float64 {
	return math.Sqrt(math.Max(0, total*total-between*between))
}

// LikingPlan reckons with the design as it stands, incomplete blocks and left
// out tasters included: within tasters, the least precise version counts.
func (d *Design) LikingPlan(scatter float64) LikingPlan {
	n, t := len(d.Trays), d.Ask.Samples
	if d.Ask.PerSitting == t {
		return NewLikingPlan(n, t, scatter)
	}
	p := LikingPlan{Panelists: n, Samples: t, Scatter: scatter, Versions: t - 1, SE: math.Inf(1)}
	if worst, ok := d.worstVariance(); ok {
		p.SE = scatter * math.Sqrt(worst)
		p.DF = float64(max(0, n*d.Ask.PerSitting-n-t+1))
	}
	return p
}

// worstVariance is the largest variance of a version less the original, in
// units of the residual variance, from the blocks' information matrix; ok is
// false when the blocks hang in two pieces.
func (d *Design) worstVariance() (worst float64, ok bool) {
	t, k := d.Ask.Samples, float64(d.Ask.PerSitting)
	var p pairing
	for _, tray := range d.Trays {
		p.add(tray.Samples, 1)
	}
	info := mat.NewDense(t, t, nil)
	for i := range t {
		for j := range t {
			v := 1.0 // J added: the sum of all effects is not estimable
			if i == j {
				v += float64(p.served[i]) * (1 - 1/k)
			} else {
				v -= float64(p.together[i][j]) / k
			}
			info.Set(i, j, v)
		}
	}
	var inverse mat.Dense
	if inverse.Inverse(info) != nil {
		return math.Inf(1), false
	}
	for i := 1; i < t; i++ {
		worst = math.Max(worst, inverse.At(0, 0)+inverse.At(i, i)-2*inverse.At(0, i))
	}
	return worst, true
}

// PairPower is the chance that a two-sided t test at level alpha shows a true
// difference (both tails: a difference shown the wrong way round counts too).
func PairPower(se, df, difference, alpha float64) float64 {
	if df < 1 {
		return 0
	}
	point, ncp := tPoint(alpha/2, df), difference/se
	return noncentralT(point, df, ncp) + noncentralT(point, df, -ncp)
}

// RangePower is the chance that the F test of blocks shows that k samples differ
// when the best and the worst are truly range apart and the others lie half-way
// between, which is the hardest to see.
func RangePower(panelists, samples int, span, scatter, alpha float64) float64 {
	df1, df2 := float64(samples-1), float64((panelists-1)*(samples-1))
	if df2 < 1 {
		return 0
	}
	ncp := float64(panelists) * span * span / (2 * scatter * scatter)
	return noncentralF(fPoint(alpha, df1, df2), df1, df2, ncp)
}

// LimitPower is the chance to show at risk alpha that a version loses less than
// limit, when it truly loses loss: the low end of its 1-2·alpha interval lies
// above -limit.
func LimitPower(se, df, loss, limit, alpha float64) float64 {
	if df < 1 {
		return 0
	}
	return noncentralT(tPoint(alpha, df), df, (limit-loss)/se)
}

// EquivalencePower is the chance to show by two one-sided tests that a version
// is within limit of the original either way, when it truly differs by
// difference (Schuirmann 1987, doi 10.1007/BF01068419; Phillips 1990).
func EquivalencePower(se, df, difference, limit, alpha float64) float64 {
	if df < 1 {
		return 0
	}
	point := tPoint(alpha, df)
	return overScatter(df, limit/(se*point), func(s float64) float64 {
		room := limit/se - point*s
		return normalBelow(room-difference/se) - normalBelow(-room-difference/se)
	})
}

// Notice is the smallest true drop of one version that the panel shows with the
// asked power; the level is shared out over the versions (Bonferroni, a trace
// more careful than the Dunnett test of the result). +Inf when it cannot.
func (p LikingPlan) Notice(alpha, power float64) float64 {
	share := alpha / float64(max(1, p.Versions))
	return p.smallest(power, func(drop float64) float64 { return PairPower(p.SE, p.DF, drop, share) })
}

// Limit is the smallest limit that the panel can be expected to show: a version
// that truly loses nothing is shown to lose less than it with the asked power.
func (p LikingPlan) Limit(alpha, power float64) float64 {
	return p.smallest(power, func(limit float64) float64 { return LimitPower(p.SE, p.DF, 0, limit, alpha) })
}

// Equal is the same for "neither liked less nor more by this much".
func (p LikingPlan) Equal(alpha, power float64) float64 {
	return p.smallest(power, func(limit float64) float64 { return EquivalencePower(p.SE, p.DF, 0, limit, alpha) })
}

// smallest finds where a power that rises with size comes to the asked one.
func (p LikingPlan) smallest(power float64, of func(float64) float64) float64 {
	if p.DF < 1 || math.IsInf(p.SE, 0) || !(p.SE > 0) {
		return math.Inf(1)
	}
	high := p.SE
	for of(high) < power {
		if high *= 2; high > 1e4*p.SE {
			return math.Inf(1)
		}
	}
	low := 0.0
	for range 40 { // to a millionth of a point
		mid := (low + high) / 2
		if of(mid) < power {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// TastersFor is the smallest number of tasters, from 2 on, for whom ok holds;
// 0 when mostTasters are not enough. ok must not be lost again by more tasters.
func TastersFor(ok func(panelists int) bool) int {
	if !ok(mostTasters) {
		return 0
	}
	low, high := 1, mostTasters
	for high-low > 1 {
		if mid := (low + high) / 2; ok(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// RoughTasters is the panel size for a difference of d with the scatter rmsl,
// both in parts of the scale, from two separate groups by the normal
// approximation, unrounded (Hough et al. 2006, Food Qual. Prefer. 17:522).
func RoughTasters(rmsl, d, alpha, power float64) float64 {
	z := normalPoint(1-alpha/2) + normalPoint(power)
	return 2 * z * z * rmsl * rmsl / (d * d)
}
