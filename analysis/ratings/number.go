package ratings

import (
	"math"
	"strconv"
)

// Number is a figure of the report: NaN, "cannot be reckoned", is null in JSON.
type Number float64

// MarshalJSON writes the figure, null where there is none.
func (n Number) MarshalJSON() ([]byte, error) {
	v := float64(n)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, v, 'g', -1, 64), nil
}

// Known tells whether there is a figure.
func (n Number) Known() bool { return !math.IsNaN(float64(n)) && !math.IsInf(float64(n), 0) }

var none = math.NaN()

// ratio is a/b, NaN where b is not above 0.
func ratio(a, b float64) float64 {
	if !(b > 0) {
		return none
	}
	return a / b
}
