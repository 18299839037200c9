package sensory

import "math"

// Discrimination is the result of a test with right answers, or of a
// preference, as stable JSON. Shares run from 0 to 1.
type Discrimination struct {
	Test        Test    `json:"test"`
	N           int     `json:"n"`
	Correct     int     `json:"correct"`
	PGuess      float64 `json:"p_guess"`
	PDifference float64 `json:"p_difference"` // exact; two-sided for a preference, else one-sided
	PC          float64 `json:"pc"`           // share of right answers
	PD          float64 `json:"pd"`           // share who truly tell, cut to 0-1

	PDLow  float64 `json:"pd_low"`  // exact two-sided 95 % limits, cut to 0-1
	PDHigh float64 `json:"pd_high"` //

	DPrime   *float64 `json:"d_prime"`    // nil when all are right
	DPrimeSE *float64 `json:"d_prime_se"` // nil at or under guessing, and when all are right

	Similar *Similar `json:"similar,omitempty"` // nil when not asked for
}

// Similar is a test of similarity: the risk P of so few right answers if the
// share PDLimit truly told.
type Similar struct {
	PDLimit float64 `json:"pd_limit"`
	P       float64 `json:"p"`
}

// mostAnswers keeps counts where the exact sums keep their digits.
const mostAnswers = 100000

// Discriminate reads correct answers of n. In a preference correct counts those
// who prefer the first sample; answers "no preference" are left out before. A
// limit from 0 to 1 asks for similarity too; nil does not. Errors name the field.
func Discriminate(t Test, n, correct int, limit *float64) (*Discrimination, error) {
	switch {
	case !t.Counts():
		return nil, refuse("test", "sensory.bad.no-right", string(t))
	case n < 1:
		return nil, refuse("n", "sensory.bad.n")
	case n > mostAnswers:
		return nil, refuse("n", "sensory.bad.n-most", mostAnswers)
	case correct < 0:
		return nil, refuse("correct", "sensory.bad.negative")
	case correct > n:
		return nil, refuse("correct", "sensory.bad.correct", correct, n)
	case limit != nil && t.TwoSided():
		return nil, refuse("pd", "sensory.bad.pd-preference")
	case limit != nil && !(*limit > 0 && *limit < 1):
		return nil, refuse("pd", "sensory.bad.pd")
	}
	pc := float64(correct) / float64(n)
	exact := Exact(n, correct, 0.95)
	d := &Discrimination{
		Test: t, N: n, Correct: correct, PGuess: t.Guess(), PDifference: PGuess(t, n, correct),
		PC: pc, PD: unit(t.Share(pc)), PDLow: unit(t.Share(exact.Low)), PDHigh: unit(t.Share(exact.High)),
	}
	if v, ok := t.DPrime(pc); ok {
		d.DPrime = &v
	}
	if v, ok := t.DPrimeSE(n, correct); ok {
		d.DPrimeSE = &v
	}
	if limit != nil {
		d.Similar = &Similar{*limit, PSimilar(t, n, correct, *limit)}
	}
	return d, nil
}

// Different tells whether a difference (a preference) is shown at 5 %.
func (d *Discrimination) Different() bool { return reached(d.PDifference, UsualAlpha) }

// ShownSimilar tells whether similarity was asked for and is shown at 5 % risk.
func (d *Discrimination) ShownSimilar() bool {
	return d.Similar != nil && reached(d.Similar.P, UsualAlpha)
}

// upTo rounds v up to hundredths, so that what is promised is kept; nil for
// what cannot be promised.
func upTo(v float64, ok bool) *float64 {
	if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = math.Ceil(v*100-1e-6) / 100
	return &v
}
