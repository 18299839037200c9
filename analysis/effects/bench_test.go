package effects

import "testing"

// BenchmarkBiggest times what the Swaps page asks for at once.
func BenchmarkBiggest(b *testing.B) {
	c, table := must(b)
	r := chowder()
	for b.Loop() {
		_, _ = Biggest(c, r, table.Get, ids(), 10)
	}
}
