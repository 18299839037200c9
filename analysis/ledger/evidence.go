package ledger

import (
	"fmt"
	"math"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Saving is what a swap or a set of swaps takes off one serving of one
// nutrient, in the nutrient's unit: positive is lighter. Where it is not Known
// Amount is the Bound's, or means nothing without one.
type Saving struct {
	Amount float64
	Known  bool
	Bound  Bound  // where it is not Known
	Lacks  string // where it is not Known: the ingredients that have no figure, in words
}

// Bound says of a saving that is not known that it is at least, or at most, an
// amount; the empty one says nothing.
type Bound string

// Bounds of a saving.
const (
	AtLeast Bound = "at-least"
	AtMost  Bound = "at-most"
)

// SwapFact is one swap as the ledger needs it.
type SwapFact struct {
	ID, Name     string
	Savings      map[string]Saving // by nutrient key ("energy_kcal"), of the swap alone on the original; a missing key is unknown
	Alternatives []string          // IDs of swaps that cannot be on with it; saying it on one side is enough
	FailsWith    []string          // IDs of swaps with any of which it fails; saying it on one side is enough
	DoesNotWork  bool              // marked "does not work in the pan": in no combination
}

// Together corrects the sum of swaps' savings where all the named swaps are on
// (they touch one line): what they save together less what their parts and
// smaller groups give. A nutrient that is not there needs no correction.
type Together struct {
	Swaps   []string
	Savings map[string]Saving
}

// VersionFact is one version with what has been done with it. The original is
// the version with nothing on.
type VersionFact struct {
	ID, Name    string
	On          []bool // one for each swap, in the order of Evidence.Swaps
	Servings    int    // scored servings; above 0 it was tasted
	Pots        int    // pots those servings came from
	Cooked      bool   // cooked at least once, tasted or not
	DoesNotWork bool   // this very combination failed in the pan: not offered

	// Direct is its own difference from the original (version as factor, no swap
	// model), which outranks the sum of its swaps; nil when not worked out.
	Direct *Estimate
}

// Estimate is a difference in liking and its standard error, both in points.
type Estimate struct{ Effect, SE float64 }

// Evidence is all the ledger is made from. It is never changed.
type Evidence struct {
	Swaps    []SwapFact
	Versions []VersionFact
	Together []Together

	// Beta is one least-squares solution of score = taster within tasting + swap
	// effects (any one when swaps are tied), Cov the covariance of it that is
	// right for estimable sums (pseudo-inverse of the information, times the
	// variance, pot part included), DF its degrees of freedom. ResidualSD is the
	// scatter of one taster's score, PotSD that of pots; NaN when not known.
	// Where nothing was tasted Beta and Cov are nil.
	Beta              []float64
	Cov               [][]float64
	DF                float64
	ResidualSD, PotSD float64

	Panelists int     // tasters she has for an evening; 0 not known
	Limit     float64 // acceptable drop as recorded, points; 0 or NaN none set
	Peeked    bool    // results were seen before more scores were added

	// LackOfFit is the p value of the test that swaps get in each other's way;
	// NaN or 0 when there is none.
	LackOfFit float64

	// Blocks decide what can be told apart: the versions (by index) that one
	// taster scored in one tasting, each distinct set once. Nil: every tasted
	// version in one block. Null, if not nil, is used instead: integer vectors
	// over the swaps that span what no score depends on.
	Blocks [][]int
	Null   [][]int64
}

// MaxSwaps is the most swaps whose combinations are walked.
const MaxSwaps = 20

// check refuses evidence that does not fit together: a fault of the caller's,
// worded for the log.
func (e *Evidence) check() error {
	n := len(e.Swaps)
	seen := map[string]bool{}
	for _, s := range e.Swaps {
		if s.ID == "" || seen[s.ID] {
			return misfit(fmt.Sprintf("swap id %q", s.ID))
		}
		seen[s.ID] = true
	}
	for _, v := range e.Versions {
		if len(v.On) != n {
			return misfit("ticks of " + v.Name)
		}
	}
	for _, b := range e.Blocks {
		for _, v := range b {
			if v < 0 || v >= len(e.Versions) {
				return misfit("versions of a block")
			}
		}
	}
	return e.checkFit(n)
}

func (e *Evidence) checkFit(n int) error {
	if e.Beta != nil && (len(e.Beta) != n || len(e.Cov) != n) || e.Beta == nil && e.Cov != nil {
		return misfit("effects")
	}
	for i, b := range e.Beta {
		if !finite(b) || len(e.Cov[i]) != n {
			return misfit("effects")
		}
		for _, c := range e.Cov[i] {
			if !finite(c) {
				return misfit("covariances")
			}
		}
	}
	for _, v := range e.Null {
		if len(v) != n {
			return misfit("what cannot be told apart")
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func misfit(what string) error {
	return problem.New("", words.Say("ledger.bad.evidence", what), words.Say("ledger.bad.evidence.hint"))
}

// tasted tells whether any scored serving had the swap.
func (e *Evidence) tasted(swap int) bool {
	for _, v := range e.Versions {
		if v.Servings > 0 && v.On[swap] {
			return true
		}
	}
	return false
}

// pots counts the pots of tasted versions that had the swap.
func (e *Evidence) pots(swap int) int {
	n := 0
	for _, v := range e.Versions {
		if v.Servings > 0 && v.On[swap] {
			n += v.Pots
		}
	}
	return n
}

// onCount is the number of swaps that are on.
func onCount(on []bool) int {
	n := 0
	for _, b := range on {
		if b {
			n++
		}
	}
	return n
}
