package stats

import (
	"math"
	"testing"

	"parewell/testdata/reference"
)

type object = reference.Object

// read opens a check file of the reference folder and its input.
func read(t *testing.T, name string, input any) *reference.File {
	t.Helper()
	return reference.Sensory(t, name, input)
}

// num is nil for what JSON cannot hold.
func num(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return v
}

// near holds for values that agree to rel, or both NaN or infinite alike.
func near(got, want, rel float64) bool {
	return got == want || math.IsNaN(got) && math.IsNaN(want) || math.Abs(got-want) <= rel*math.Abs(want)
}

// equalCorrelation is the matrix of m comparisons, rho between any two.
func equalCorrelation(m int, rho float64) [][]float64 {
	c := make([][]float64, m)
	for i := range c {
		for j := range m {
			c[i] = append(c[i], rho)
			if i == j {
				c[i][j] = 1
			}
		}
	}
	return c
}
