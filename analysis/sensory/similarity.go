package sensory

import "math"

// PSimilar is the chance of so few right answers, or fewer, if the share pd
// truly told the samples apart: the risk of calling them similar when they are
// not that similar. ISO 4120 and ISO 10399, similarity clauses.
func PSimilar(t Test, n, correct int, pd float64) float64 {
	return AtMost(n, correct, t.Right(pd))
}

// MaxCorrect is the most right answers of n that show that fewer than pd tell,
// at risk beta; ok is false when not even none would.
func MaxCorrect(t Test, n int, pd, beta float64) (x int, ok bool) {
	if !t.Counts() || n < 1 || !reached(PSimilar(t, n, 0, pd), beta) {
		return 0, false
	}
	low, high := 0, n // the chance rises with x; at n it is 1
	for high-low > 1 {
		if mid := (low + high) / 2; reached(PSimilar(t, n, mid, pd), beta) {
			low = mid
		} else {
			high = mid
		}
	}
	return low, true
}

// UpperShare is the exact one-sided upper limit of the share who truly tell, at
// a level such as 0.95, cut to 0-1. It is at or under pd exactly when PSimilar
// is at or under 1-level.
func UpperShare(t Test, n, correct int, level float64) float64 {
	return unit(t.Share(exactHigh(n, correct, 1-level)))
}

// Showable is the smallest limit pd that n tasters can be expected to show: if
// nobody can tell, they show with the asked power that fewer than pd can, at
// risk beta. ok is false when no limit under 1 can be.
func Showable(t Test, n int, beta, power float64) (pd float64, ok bool) {
	if !t.Counts() || n < 1 {
		return math.NaN(), false
	}
	for x := range n { // the fewest right answers that guessing stays under often enough
		if AtMost(n, x, t.Guess()) >= power {
			pd = UpperShare(t, n, x, 1-beta)
			return pd, pd < 1
		}
	}
	return math.NaN(), false
}
