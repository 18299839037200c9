package sensory

import (
	"math/bits"
	"math/rand/v2"
)

// dice draws whole numbers from a seeded PCG. It uses only the generator's
// 64-bit output, which its definition fixes; the library's own drawing
// functions may change from release to release.
type dice struct{ pcg *rand.PCG }

// Streams keep one seed's uses apart, so that codes do not change when orders
// need more draws.
const (
	streamOrders uint64 = 0x6f72646572
	streamCodes  uint64 = 0x636f646573
	streamLate   uint64 = 0x6c617465
)

func newDice(seed, stream uint64) *dice { return &dice{rand.NewPCG(seed, stream)} }

// below draws 0...n-1, each as likely (multiply and reject: Lemire 2019,
// doi 10.1145/3230636).
func (d *dice) below(n int) int {
	bound := uint64(n)
	for {
		hi, lo := bits.Mul64(d.pcg.Uint64(), bound)
		if lo >= bound || lo >= -bound%bound {
			return int(hi)
		}
	}
}

// perm is 0...n-1 in random order.
func (d *dice) perm(n int) []int {
	p := make([]int, n)
	for i := range p {
		p[i] = i
	}
	shuffle(d, p)
	return p
}

// shuffle puts items in random order, in place.
func shuffle[T any](d *dice, items []T) {
	for i := len(items) - 1; i > 0; i-- {
		j := d.below(i + 1)
		items[i], items[j] = items[j], items[i]
	}
}
