package sensory

import "math"

// Power is the chance that n tasters show a difference at level alpha when the
// share of right answers is truly pc (for a preference: that either side wins).
// It is 0 when n is too few to show any.
func Power(t Test, n int, alpha, pc float64) float64 {
	x, ok := MinCorrect(t, n, alpha)
	if !ok {
		return 0
	}
	p := AtLeast(n, x, pc)
	if t.TwoSided() {
		p += AtMost(n, n-x, pc)
	}
	return p
}

// Panel is a number of tasters and what it does.
type Panel struct {
	N           int
	MinCorrect  int     // right answers that show a difference
	MaxCorrect  int     // right answers that show similarity: one fewer
	ActualAlpha float64 // the exact risk, at or under the asked one
	Power       float64
}

// mostTasters is how far panel sizes are looked for.
const mostTasters = 1500

// PanelFor finds the smallest panel that shows a true share of right answers pc
// with the asked power at level alpha, and the smallest from which every larger
// one does too: the power goes up like the teeth of a saw, and one more taster
// can lower it. The same panel shows similarity with alpha and 1-power changing
// places. ok is false when mostTasters are not enough.
func PanelFor(t Test, alpha, power, pc float64) (first, stable Panel, ok bool) {
	for n := 1; n <= mostTasters; n++ {
		p := Power(t, n, alpha, pc)
		switch {
		case p < power:
			stable = Panel{}
		case first.N == 0:
			first = panelOf(t, n, alpha, p)
			stable = first
		case stable.N == 0:
			stable = panelOf(t, n, alpha, p)
		}
	}
	return first, stable, stable.N > 0
}

func panelOf(t Test, n int, alpha, power float64) Panel {
	x, _ := MinCorrect(t, n, alpha)
	return Panel{N: n, MinCorrect: x, MaxCorrect: x - 1, ActualAlpha: AtLeast(n, x, t.Guess()), Power: power}
}

// RoughPanel is the panel size of the normal approximation, unrounded: too few,
// for comparison with printed formulas only.
func RoughPanel(t Test, alpha, power, pc float64) float64 {
	g := t.Guess()
	root := normalPoint(1-alpha)*math.Sqrt(g*(1-g)) + normalPoint(power)*math.Sqrt(pc*(1-pc))
	return root * root / ((pc - g) * (pc - g))
}

// Noticed is the smallest share of right answers that n tasters show with the
// asked power at level alpha; ok is false when they cannot show any.
func Noticed(t Test, n int, alpha, power float64) (pc float64, ok bool) {
	if _, ok := MinCorrect(t, n, alpha); !ok {
		return math.NaN(), false
	}
	return rising(func(p float64) float64 { return Power(t, n, alpha, p) }, power, t.Guess(), 1), true
}
