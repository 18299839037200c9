package ledger

import (
	"context"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// search looks for the samples of the next tasting. A design is a set of masks
// over the free swaps; its worth is the log determinant of the information on
// the swaps asked about (D-optimality; Atkinson, Donev & Tobias 2007, ch. 11),
// with what earlier tastings told counted in.
type search struct {
	m     *model
	ask   Ask
	free  []int // swaps switched, those asked about last
	asked int   // how many were asked about
	prior [][]float64
	info  [][]float64 // of all swaps so far
	clash []uint32
	known map[uint32]int
	bad   map[uint32]bool
	work  [][]float64
	mean  []float64
}

// speck is added to all information, so that what is not known at all has a
// large but finite variance: making it known is worth more than anything else.
const speck = 1e-7

func newSearch(m *model, a Ask, targets []int) *search {
	s := &search{m: m, ask: a, asked: len(targets), known: map[uint32]int{}, bad: map[uint32]bool{}}
	for _, i := range targets {
		for _, j := range m.tied[i] {
			if !m.skipped[j] && !slices.Contains(targets, j) && !slices.Contains(s.free, j) {
				s.free = append(s.free, j)
			}
		}
	}
	slices.Sort(s.free)
	s.free = append(s.free, targets...)
	n := len(s.free)
	s.info = m.information()
	s.prior = s.marginal()
	s.work, s.mean = square(n), make([]float64, n)
	s.clash = make([]uint32, n)
	for j, i := range s.free {
		for k, l := range s.free {
			if i < 64 && l < 64 && k < 32 && m.bars[i]>>l&1 == 1 {
				s.clash[j] |= 1 << k
			}
		}
	}
	for v, on := range m.on {
		mask, left := uint32(0), onCount(on)
		for j, i := range s.free {
			if on[i] && j < 32 {
				mask |= 1 << j
				left--
			}
		}
		if left > 0 {
			continue
		}
		if old, twice := s.known[mask]; !twice || better(m.e.Versions[v], m.e.Versions[old]) {
			s.known[mask] = v
		}
		s.bad[mask] = s.bad[mask] || m.e.Versions[v].DoesNotWork && mask != 0
	}
	return s
}

func square(n int) [][]float64 {
	flat, out := make([]float64, n*n), make([][]float64, n)
	for i := range out {
		out[i] = flat[i*n : (i+1)*n]
	}
	return out
}

// ticks are a mask's swaps in the model's order.
func (s *search) ticks(mask uint32) []bool {
	on := make([]bool, len(s.m.at))
	for j, i := range s.free {
		on[i] = mask>>j&1 == 1
	}
	return on
}

// marginal is the information so far on the free swaps, whatever the others do
// (Schur complement), in the order of free.
func (s *search) marginal() [][]float64 {
	order := []int{}
	for i := range s.m.at {
		if !slices.Contains(s.free, i) {
			order = append(order, i)
		}
	}
	others := len(order)
	order = append(order, s.free...)
	a := square(len(order))
	for i, x := range order {
		for j, y := range order {
			a[i][j] = s.info[x][y]
		}
		a[i][i] += speck
	}
	for c := range others {
		for i := c + 1; i < len(a); i++ {
			f := a[i][c] / a[c][c]
			for j := c + 1; j < len(a); j++ {
				a[i][j] -= f * a[c][j]
			}
		}
	}
	out := square(len(s.free))
	for i := range out {
		copy(out[i], a[others+i][others:])
	}
	return out
}

// perMean is the variance of one sample's mean at so many pots each.
func (s *search) perMean(pots int) float64 {
	return sq(s.ask.Scatter)/float64(s.ask.Tasters) + s.m.potVariance()/float64(pots)
}

// mostPots is how many pots of a sample are worth thinking about: one, unless
// pots are known to differ.
func (s *search) mostPots() int {
	if s.m.potVariance() > 0 {
		return 2
	}
	return 1
}

// worth of a design: the log determinant, and a trace for versions that exist
// and for few swaps, which decides between equals.
func (s *search) worth(design []uint32, variance float64) float64 {
	s.add(s.work, design, variance)
	n, w := len(s.work), 0.0
	for c := range n { // Cholesky without roots
		row := s.work[c]
		pivot := row[c]
		if pivot <= 0 {
			return math.Inf(-1)
		}
		if c >= n-s.asked {
			w += math.Log(pivot)
		}
		for i := c + 1; i < n; i++ {
			if row[i] == 0 {
				continue
			}
			f := row[i] / pivot
			below := s.work[i]
			for j := i; j < n; j++ {
				below[j] -= f * row[j]
			}
		}
	}
	for _, mask := range design {
		if _, ok := s.known[mask]; ok {
			w += 1e-5
		}
		w -= 1e-7 * float64(bits.OnesCount32(mask))
	}
	return w
}

// add puts prior and new information into a (its upper half).
func (s *search) add(a [][]float64, design []uint32, variance float64) {
	n, k := len(a), float64(len(design))
	for i := range n {
		copy(a[i], s.prior[i])
		s.mean[i] = 0
		for _, mask := range design {
			s.mean[i] += float64(mask >> i & 1)
		}
	}
	for _, mask := range design {
		for b := mask; b != 0; b &= b - 1 {
			i := bits.TrailingZeros32(b)
			for c := b; c != 0; c &= c - 1 {
				a[i][bits.TrailingZeros32(c)] += 1 / variance
			}
		}
	}
	for i := range n {
		for j := i; j < n; j++ {
			a[i][j] -= s.mean[i] * s.mean[j] / k / variance
		}
	}
}

// fits tells whether a mask can be cooked.
func (s *search) fits(mask uint32) bool {
	if s.bad[mask] {
		return false
	}
	for b := mask; b != 0; b &= b - 1 {
		if s.clash[bits.TrailingZeros32(b)]&mask != 0 {
			return false
		}
	}
	return true
}

// mostTried is how many designs are tried one by one before exchange is used.
const mostTried = 6000

// design finds the best of k samples; nil when there are not so many different
// ones. Small cases are tried in full, others by coordinate exchange from
// several seeded starts (Meyer & Nachtsheim 1995).
func (s *search) design(ctx context.Context, k int) ([]uint32, error) {
	fixed := 1
	if s.ask.WithoutOriginal {
		fixed = 0
	}
	if len(s.free) <= 12 {
		var cands []uint32
		for mask := uint32(0); mask < 1<<len(s.free); mask++ {
			if s.fits(mask) && (mask != 0 || fixed == 0) {
				cands = append(cands, mask)
			}
		}
		if len(cands) < k-fixed {
			return nil, nil
		}
		if choose(len(cands), k-fixed) <= mostTried {
			return s.tryAll(ctx, cands, k, fixed)
		}
	}
	return s.exchange(ctx, k, fixed)
}

func choose(n, k int) float64 {
	c := 1.0
	for i := range k {
		c *= float64(n-i) / float64(i+1)
	}
	return c
}

// tryAll goes through every set of candidates beside the fixed original.
func (s *search) tryAll(ctx context.Context, cands []uint32, k, fixed int) ([]uint32, error) {
	at := make([]int, k-fixed)
	for i := range at {
		at[i] = i
	}
	design, best := make([]uint32, k), []uint32(nil)
	top, variance := math.Inf(-1), s.perMean(1)
	for n := 0; ; n++ {
		for i, c := range at {
			design[fixed+i] = cands[c]
		}
		if w := s.worth(design, variance); w > top+1e-9 {
			top, best = w, slices.Clone(design)
		}
		i := len(at) - 1
		for i >= 0 && at[i] == len(cands)-len(at)+i {
			i--
		}
		if i < 0 {
			return best, nil
		}
		at[i]++
		for j := i + 1; j < len(at); j++ {
			at[j] = at[j-1] + 1
		}
		if n%256 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
	}
}

// exchange improves seeded designs one tick at a time until none helps.
func (s *search) exchange(ctx context.Context, k, fixed int) ([]uint32, error) {
	r := rand.New(rand.NewPCG(s.ask.Seed, uint64(k)))
	var best []uint32
	top, variance := math.Inf(-1), s.perMean(1)
	for range starts {
		d := s.start(r, k, fixed)
		if d == nil {
			continue
		}
		w := s.worth(d, variance)
		for better := true; better; {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			better = false
			for i := fixed; i < k; i++ {
				for j := range s.free {
					if now := s.switched(d, i, j, w, variance); now > w {
						w, better = now, true
					}
				}
			}
		}
		if w > top+1e-9 {
			top, best = w, slices.Clone(d)
		}
	}
	if best != nil {
		slices.Sort(best[fixed:])
	}
	return best, nil
}

// starts is how many designs exchange begins from.
const starts = 6

// start draws k different samples that can be cooked; nil if luck runs out.
func (s *search) start(r *rand.Rand, k, fixed int) []uint32 {
	d := make([]uint32, fixed, k)
	for tries := 0; len(d) < k; tries++ {
		if tries > 500 {
			return nil
		}
		mask := uint32(0)
		for _, j := range r.Perm(len(s.free)) {
			if r.IntN(2) == 1 && s.clash[j]&mask == 0 {
				mask |= 1 << j
			}
		}
		if s.fits(mask) && !slices.Contains(d, mask) {
			d = append(d, mask)
		}
	}
	return d
}

// switched switches swap j in sample i, its alternatives off, and keeps that if
// it is better; the worth now.
func (s *search) switched(d []uint32, i, j int, now, variance float64) float64 {
	old := d[i]
	mask := old ^ 1<<j
	if mask>>j&1 == 1 {
		mask &^= s.clash[j]
	}
	if s.bad[mask] || slices.Contains(d, mask) {
		return now
	}
	d[i] = mask
	if w := s.worth(d, variance); w > now+1e-9 {
		return w
	}
	d[i] = old
	return now
}
