package stats

import "math"

// logRoot2Pi is log(sqrt(2 pi)).
const logRoot2Pi = 0.91893853320467274178032973640561763986139747363778

// stirling is log(Gamma(n+1)) less Stirling's n log n - n + log(2 pi n)/2. It is
// what keeps point probabilities exact when n is large and the logs cancel.
func stirling(n float64) float64 {
	if n < 15 {
		g, _ := math.Lgamma(n + 1)
		return g - (n+0.5)*math.Log(n) + n - logRoot2Pi
	}
	// The series of the Stirling correction: Abramowitz & Stegun 6.1.41.
	s := 1 / (n * n)
	return (1./12 - s*(1./360-s*(1./1260-s*(1./1680-s*(1./1188-s*(691./360360)))))) / n
}

// deviance is x log(x/m) + m - x for x, m > 0 without cancellation near x = m
// (the saddle point form of point probabilities, Loader 2000).
func deviance(x, m float64) float64 {
	if math.Abs(x-m) >= 0.1*(x+m) {
		return x*math.Log(x/m) + m - x
	}
	v := (x - m) / (x + m)
	s := (x - m) * v
	term := 2 * x * v
	for j := 1; j < 1000; j++ {
		term *= v * v
		next := s + term/float64(2*j+1)
		if next == s {
			break
		}
		s = next
	}
	return s
}

// betaFront is x^a y^b Gamma(a+b) / (Gamma(a) Gamma(b)) with y = 1-x given apart.
func betaFront(a, b, x, y float64) float64 {
	n := a + b
	e := stirling(n) - stirling(a) - stirling(b) - deviance(a, n*x) - deviance(b, n*y)
	return math.Exp(e) * math.Sqrt(a*b/n/(2*math.Pi))
}

// gammaFront is x^a exp(-x) / Gamma(a).
func gammaFront(a, x float64) float64 {
	return math.Exp(-stirling(a)-deviance(a, x)) * math.Sqrt(a/(2*math.Pi))
}
