package stats

import "testing"

// pontius is NIST's Pontius set, lower difficulty: y, and x in units of 150,000.
var pontius = [][]float64{
	{0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146, 1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844},
	{0.11052, 0.22018, 0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.98300, 1.09150, 1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829},
}

// TestNISTPontius: lower difficulty, a quadratic over three million
// (NIST StRD, linear regression, Pontius).
func TestNISTPontius(t *testing.T) {
	var x [][]float64
	var y []float64
	for _, run := range pontius {
		for i, v := range run {
			x, y = append(x, powers(150000*float64(i+1), 2)), append(y, v)
		}
	}
	certified(t, "Pontius", 9, x, y,
		[]float64{0.673565789473684e-03, 0.732059160401003e-06, -0.316081871345029e-14},
		[]float64{0.107938612033077e-03, 0.157817399981659e-09, 0.486652849992036e-16}, 0.205177424076185e-03)
}

// TestNISTNoIntercept: average difficulty, a line through the origin
// (NIST StRD, linear regression, NoInt1 and NoInt2).
func TestNISTNoIntercept(t *testing.T) {
	var x [][]float64
	var y []float64
	for i := range 11 {
		x, y = append(x, []float64{float64(60 + i)}), append(y, float64(130+i))
	}
	certified(t, "NoInt1", 9, x, y, []float64{2.07438016528926}, []float64{0.165289256198347e-01}, 3.56753034006338)
	certified(t, "NoInt2", 9, [][]float64{{4}, {5}, {6}}, []float64{3, 4, 4},
		[]float64{0.727272727272727}, []float64{0.420827318078432e-01}, 0.369274472937998)
}
