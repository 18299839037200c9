package ratings

import "math/big"

// square tells whether every null vector is at right angles to c, that is
// whether c can be estimated. Exact for whole c.
func square(null [][]int64, c []float64) bool {
	for _, v := range null {
		sum := new(big.Rat)
		for i, x := range c {
			if x == 0 || v[i] == 0 {
				continue
			}
			r := new(big.Rat)
			if r.SetFloat64(x) == nil {
				return false
			}
			sum.Add(sum, r.Mul(r, new(big.Rat).SetInt64(v[i])))
		}
		if sum.Sign() != 0 {
			return false
		}
	}
	return true
}
