package sensory

import (
	"math"
	"strings"
	"testing"
)

// Two pairs and the odd one out are right as often by guessing, so the same count
// shows the same share; but two pairs find a smaller difference, and the plan says so.
func TestTwoPairsFindASmallerDifference(t *testing.T) {
	for _, row := range []struct {
		n                         int
		triangle, duoTrio, tetrad string
	}{
		{16, "2.2", "2.4", "1.5"}, // 2.139, 2.359, 1.470 by the integrals of sensory-facts, reckoned apart
		{24, "2.0", "2.1", "1.4"}, // 1.998, 2.082, 1.378
		{61, "1.5", "1.6", "1.0"}, // 1.405, 1.511, 0.980: 61 tasters for d-prime 1
	} {
		one, two := Reach(Triangle, row.n), Reach(Tetrad, row.n)
		if *one.MinCorrect != *two.MinCorrect || *one.NoticeShare != *two.NoticeShare || *one.NoticeD < 1.3**two.NoticeD {
			t.Errorf("%d: %v %v, d-prime %v and %v", row.n, *one.NoticeShare, *two.NoticeShare, *one.NoticeD, *two.NoticeD)
		}
		for test, own := range map[Test]string{Triangle: row.triangle, DuoTrio: row.duoTrio, Tetrad: row.tetrad} {
			if got := points(*Reach(test, row.n).NoticeD); got != own {
				t.Errorf("%s of %d: %s, want %s", test, row.n, got, own)
			}
			all := ""
			for _, p := range explainTell(test, row.n, 0) {
				all += p.String() + "\n"
			}
			for _, want := range []string{"is " + own + " in size", "The size tells which test finds more"} {
				if !strings.Contains(all, want) {
					t.Errorf("%s of %d does not say %q:\n%s", test, row.n, want, all)
				}
			}
			if test == Triangle && !strings.Contains(all, row.tetrad+" by “two pairs”") {
				t.Errorf("no word of two pairs:\n%s", all)
			}
		}
	}
	// The power itself, by the model: at d-prime 1 61 tasters sort the pairs often
	// enough, and find the odd one far less often.
	at := func(test Test) float64 { return Power(test, 61, UsualAlpha, test.AtDPrime(1)) }
	if math.Abs(at(Tetrad)-0.8) > 0.03 || at(Triangle) > 0.45 {
		t.Errorf("power at d-prime 1: two pairs %.3f, odd one out %.3f", at(Tetrad), at(Triangle))
	}
}
