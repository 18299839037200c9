//go:build race

package ratings

// racing: the race detector makes everything ten to thirty times slower; times
// are then left to the plain run.
const racing = true
