package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// gaussNodes and gaussWeights are the positive half of the 16 point
// Gauss-Legendre rule on -1 to 1.
var gaussNodes, gaussWeights = positiveHalf(16)

func positiveHalf(n int) (x, w []float64) {
	allX, allW := make([]float64, n), make([]float64, n)
	quad.Legendre{}.FixedLocations(allX, allW, -1, 1)
	for i, v := range allX {
		if v > 0 {
			x, w = append(x, v), append(w, allW[i])
		}
	}
	return x, w
}

// cuts are the panel ends from 0 outwards: unit steps, and for each comparison
// with a narrow rest of its own, steps about the place where its centre crosses x.
func (f *factorTail) cuts(x float64) []float64 {
	end := math.Max(9, x+9)
	var c []float64
	for z := 0.0; z < end; z++ {
		c = append(c, z)
	}
	c = append(c, end)
	for i, l := range f.load {
		l = math.Abs(l)
		if l == 0 || f.rest[i]/l > 0.9 {
			continue
		}
		cross, width := x/l, f.rest[i]/l
		for _, s := range []float64{-9, -5.5, -3, -1.5, 0, 1.5, 3, 5.5, 9} {
			if z := cross + s*width; z > 0 && z < end {
				c = append(c, z)
			}
		}
	}
	slices.Sort(c)
	return slices.Compact(c)
}
