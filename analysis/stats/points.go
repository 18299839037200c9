package stats

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// NormalPoint is the z that a standard normal value exceeds with chance upper;
// -Inf for 1, +Inf for 0, NaN outside [0, 1].
func NormalPoint(upper float64) float64 {
	switch {
	case !(upper >= 0 && upper <= 1):
		return math.NaN()
	case upper == 0:
		return math.Inf(1)
	case upper > 0.5:
		return -NormalPoint(1 - upper)
	}
	z := -mathext.NormalQuantile(upper)
	density := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
	if density > 0 { // one Newton step mends the last digits
		z += (NormalAbove(z) - upper) / density
	}
	return z
}

// TPoint is the t that Student's t on df degrees of freedom exceeds with chance
// upperTail (for a two-sided level give half of it); +Inf for 0, -Inf for 1, NaN
// outside [0, 1] or unless df is at least 0.01. df may be +Inf.
func TPoint(upperTail, df float64) float64 {
	switch {
	case !(upperTail >= 0 && upperTail <= 1) || !(df >= leastDF):
		return math.NaN()
	case math.IsInf(df, 1):
		return NormalPoint(upperTail)
	case upperTail == 0:
		return math.Inf(1)
	case upperTail > 0.5:
		return -TPoint(1-upperTail, df)
	case upperTail == 0.5:
		return 0
	}
	return pointOf(func(t float64) float64 { return TAbove(t, df) }, upperTail, NormalPoint(upperTail), 1e-15)
}

// pointOf finds x > 0 with above(x) = p, above falling from 1 or 1/2 to 0. It
// works on the logs of both, where tails are nearly straight, until the tail is
// off by a share fine at most; NaN if above is.
func pointOf(above func(float64) float64, p, guess, fine float64) float64 {
	miss := func(v float64) float64 {
		return math.Max(math.Log(above(math.Exp(v))), -750) - math.Log(p)
	}
	lo := math.Log(math.Max(guess, 1e-3))
	fLo := miss(lo)
	hi, fHi, stride := lo, fLo, 0.25
	for fHi > 0 && hi < 700 {
		lo, fLo = hi, fHi
		hi += stride
		stride *= 2
		fHi = miss(hi)
	}
	for fLo < 0 && lo > -700 {
		hi, fHi = lo, fLo
		lo -= stride
		stride *= 2
		fLo = miss(lo)
	}
	if math.IsNaN(fLo) || math.IsNaN(fHi) {
		return math.NaN()
	}
	if fHi > 0 {
		return math.Inf(1)
	}
	if fLo < 0 {
		return 0
	}
	return math.Exp(root(miss, [2]float64{lo, hi}, [2]float64{fLo, fHi}, fine))
}

// root closes in on the zero of f between two ends, falling from one to the other, by
// false position with the Illinois correction, halving when that is slow, until
// |f| is at most fine or the ends meet.
func root(f func(float64) float64, ends, values [2]float64, fine float64) float64 {
	lo, hi, fLo, fHi := ends[0], ends[1], values[0], values[1]
	last := 0
	for i := 0; i < 200 && hi-lo > 1e-15*math.Max(1, math.Abs(lo)); i++ {
		mid := lo + (hi-lo)/2
		if i%5 != 4 && fLo > fHi {
			mid = lo + (hi-lo)*fLo/(fLo-fHi)
		}
		v := f(mid)
		switch {
		case math.IsNaN(v):
			return v
		case v == 0:
			return mid
		case v > 0:
			lo, fLo = mid, v
			if last == 1 {
				fHi /= 2
			}
			last = 1
		default:
			hi, fHi = mid, v
			if last == -1 {
				fLo /= 2
			}
			last = -1
		}
		if math.Abs(v) <= fine || mid == lo && mid == hi {
			return mid
		}
	}
	return lo + (hi-lo)/2
}
