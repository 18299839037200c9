package sensory

import "math"

// logChance is the log of the binomial chance of exactly x of n at p, 0 < p < 1.
func logChance(n, x int, p float64) float64 {
	lf := func(k int) float64 { v, _ := math.Lgamma(float64(k) + 1); return v }
	return lf(n) - lf(x) - lf(n-x) + float64(x)*math.Log(p) + float64(n-x)*math.Log1p(-p)
}

// AtLeast is the exact binomial chance of x or more right answers of n when each
// is right with chance p. Small tails are summed themselves, never as 1 less
// the rest, and keep about 11 digits.
func AtLeast(n, x int, p float64) float64 {
	switch {
	case x <= 0:
		return 1
	case x > n || p <= 0:
		return 0
	case p >= 1:
		return 1
	case float64(x) < float64(n)*p:
		return 1 - AtMost(n, x-1, p)
	}
	term := math.Exp(logChance(n, x, p))
	sum, odds := term, p/(1-p)
	for k := x; k < n && term > sum*1e-17; k++ {
		term *= float64(n-k) / float64(k+1) * odds
		sum += term
	}
	return math.Min(sum, 1)
}

// AtMost is the exact binomial chance of x or fewer right answers of n.
func AtMost(n, x int, p float64) float64 {
	switch {
	case x < 0:
		return 0
	case x >= n || p <= 0:
		return 1
	case p >= 1:
		return 0
	case float64(x) > float64(n)*p:
		return 1 - AtLeast(n, x+1, p)
	}
	term := math.Exp(logChance(n, x, p))
	sum, odds := term, (1-p)/p
	for k := x; k > 0 && term > sum*1e-17; k-- {
		term *= float64(k) / float64(n-k+1) * odds
		sum += term
	}
	return math.Min(sum, 1)
}

// PGuess is the chance that guessing alone gives as many right answers or more:
// P(X >= correct). For a preference it is two-sided: twice the smaller tail, at
// most 1. Tests without right answers give NaN.
func PGuess(t Test, n, correct int) float64 {
	p := AtLeast(n, correct, t.Guess())
	if !t.Counts() {
		return math.NaN()
	}
	if t.TwoSided() {
		return math.Min(1, 2*math.Min(p, AtMost(n, correct, t.Guess())))
	}
	return p
}

// reached tells whether a chance is at or under a level. The hair's breadth
// makes one that equals the level exactly count, whatever the last digit.
func reached(p, level float64) bool { return p <= level*(1+1e-12) }

// MinCorrect is the fewest right answers of n that show a difference at level
// alpha (ISO 4120, 10399 and 5495 tables; for a preference the larger of the
// two counts). ok is false when not even n of n would.
func MinCorrect(t Test, n int, alpha float64) (x int, ok bool) {
	if t.TwoSided() {
		alpha /= 2
	}
	if !t.Counts() || n < 1 || !reached(AtLeast(n, n, t.Guess()), alpha) {
		return 0, false
	}
	low, high := 0, n // AtLeast falls from 1 to what n of n gives
	for high-low > 1 {
		if mid := (low + high) / 2; reached(AtLeast(n, mid, t.Guess()), alpha) {
			high = mid
		} else {
			low = mid
		}
	}
	return high, true
}

// Share turns a share of right answers into the share of people who truly tell:
// (pc - guess) / (1 - guess), not cut.
func (t Test) Share(pc float64) float64 { return (pc - t.Guess()) / (1 - t.Guess()) }

// Right is the reverse: the share of right answers when the share pd truly tell
// and the others guess.
func (t Test) Right(pd float64) float64 { return t.Guess() + pd*(1-t.Guess()) }

func unit(v float64) float64 { return math.Max(0, math.Min(1, v)) }
