//go:build race

package sensory

// racing: the race detector makes searches ten to thirty times slower; proofs
// and times are then left to the plain run.
const racing = true
