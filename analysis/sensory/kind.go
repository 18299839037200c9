// Package sensory plans tastings and reads their results: codes, serving
// orders, how much a panel can show, and the statistics of the forced-choice
// tests. It is pure: randomness comes as a seed, and the same seed gives the
// same design on every machine.
package sensory

import (
	"math"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Test is a kind of tasting by its stable name, as workbooks and commands
// write it.
type Test string

// Tests. The first three serve every sample once; the others put two samples
// on a tray and count right answers.
const (
	Liking     Test = "liking"           // 9-point liking
	JustRight  Test = "just-about-right" // too little, just right, too much
	Ranking    Test = "ranking"          // put them in order
	Triangle   Test = "triangle"         // odd one out
	DuoTrio    Test = "duo-trio"         // match the sample
	Tetrad     Test = "tetrad"           // two pairs
	TwoAFC     Test = "2-afc"            // which has more
	ThreeAFC   Test = "3-afc"            // which of three has more
	Preference Test = "preference"       // which do they prefer
)

// Tests lists what a cook can plan.
var Tests = []Test{Liking, JustRight, Ranking, Triangle, DuoTrio, Tetrad, TwoAFC, Preference}

// ParseTest reads a test's name; case, blanks and hyphens do not matter.
func ParseTest(name string) (Test, error) {
	plain := func(s string) string {
		return strings.NewReplacer("-", "", " ", "", "_", "").Replace(strings.ToLower(s))
	}
	for _, t := range append(Tests, ThreeAFC) {
		if plain(name) == plain(string(t)) {
			return t, nil
		}
	}
	return "", problem.New("test", words.Say("sensory.bad.test", name), words.Say("sensory.bad.test.hint"))
}

// Guess is the share of right answers that guessing alone gives; NaN for tests
// without a right answer. ISO 4120 (triangle), ISO 10399 (duo-trio), ISO 5495
// (2-AFC), ASTM E3009 (tetrad); in a preference one half is "no preference
// either way".
func (t Test) Guess() float64 {
	switch t {
	case Triangle, Tetrad, ThreeAFC:
		return 1.0 / 3
	case DuoTrio, TwoAFC, Preference:
		return 0.5
	}
	return math.NaN()
}

// Counts tells whether answers are counted right or wrong: two samples, trays
// of coded glasses.
func (t Test) Counts() bool { return !math.IsNaN(t.Guess()) }

// TwoSided tells whether either answer can be the surprise: in a preference
// nobody knows beforehand which is liked more.
func (t Test) TwoSided() bool { return t == Preference }
