package stats

import "math"

const (
	tinyStep = 1e-300 // keeps Lentz's fractions away from 0/0
	maxSteps = 2_000_000
)

// lentz sums b0 + a1/(b1 + a2/(b2 + ...)) by the modified Lentz algorithm; term
// gives a_n and b_n.
func lentz(b0 float64, term func(n int) (a, b float64)) float64 {
	f := b0
	if f == 0 {
		f = tinyStep
	}
	c, d := f, 0.0
	for n := 1; n < maxSteps; n++ {
		a, b := term(n)
		if d = b + a*d; d == 0 {
			d = tinyStep
		}
		if c = b + a/c; c == 0 {
			c = tinyStep
		}
		d = 1 / d
		step := c * d
		f *= step
		if math.Abs(step-1) < 1e-16 {
			return f
		}
	}
	return f
}

// betaBelow is the regularised incomplete beta function I_x(a, b); y = 1-x is
// given apart so that neither tail loses digits. Continued fraction: DLMF 8.17.22.
func betaBelow(a, b, x, y float64) float64 {
	switch {
	case x <= 0:
		return 0
	case y <= 0:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - betaFraction(b, a, y, x)
	}
	return betaFraction(a, b, x, y)
}

func betaFraction(a, b, x, y float64) float64 {
	front := betaFront(a, b, x, y) / a
	if front == 0 {
		return 0
	}
	return front / lentz(1, func(n int) (float64, float64) {
		m := float64(n / 2)
		if n%2 == 0 {
			return m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m)), 1
		}
		return -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1)), 1
	})
}

// gammaAbove is the regularised upper incomplete gamma function Q(a, x):
// series DLMF 8.11.4 below the mean, continued fraction 8.9.2 above.
func gammaAbove(a, x float64) float64 {
	if x <= 0 {
		return 1
	}
	front := gammaFront(a, x)
	if x < a+1 {
		sum, term := 1/a, 1/a
		for n := 1; n < maxSteps && term > 1e-17*sum; n++ {
			term *= x / (a + float64(n))
			sum += term
		}
		return 1 - front*sum
	}
	if front == 0 {
		return 0
	}
	return front / lentz(x+1-a, func(n int) (float64, float64) {
		m := float64(n)
		return m * (a - m), x + 2*m + 1 - a
	})
}
