package sensory

// incompleteBlocks chooses which k of t samples each of n tasters gets, after
// those of earlier tasters (fixed). always puts sample 0 in every block.
func incompleteBlocks(t, k, n int, always bool, fixed [][]int, d *dice) [][]int {
	if always {
		rest := incompleteBlocks(t-1, k-1, n, false, without(fixed), d)
		for i, b := range rest {
			rest[i] = append([]int{0}, raised(b)...)
		}
		return rest
	}
	var out [][]int
	base := exactBlocks(t, k)
	if len(fixed) == 0 && base != nil {
		for range n / len(base) {
			out = append(out, disguise(base, t, d)...)
		}
	}
	if left := n - len(out); left > 0 {
		out = append(out, nearlyBalanced(t, k, left, base, fixed, d)...)
	}
	return out
}

// blockTries is how often a search for blocks begins anew at most.
const blockTries = 8

// nearlyBalanced searches n blocks of k of t samples; the best of some tries
// counts, and one within 1 everywhere ends it.
func nearlyBalanced(t, k, n int, base, fixed [][]int, d *dice) [][]int {
	var best [][]int
	least := 1 << 30
	for range blockTries {
		try := evenBlocks(someOf(base, t, k, n, d), fixed, t, d)
		served, together := company(t, try, fixed)
		if u := 100*served + together; u < least {
			best, least = try, u
		}
		if served <= 1 && together <= 1 {
			break
		}
	}
	return best
}

// company is by how much servings and pairs spread.
func company(t int, sets ...[][]int) (served, together int) {
	var p pairing
	for _, set := range sets {
		for _, b := range set {
			p.add(b, 1)
		}
	}
	return spread(p.served[:t]), spreadOfPairs(cut(p.together, t, t), false)
}

// without takes sample 0 out of the blocks and counts the others from 0.
func without(blocks [][]int) [][]int {
	out := make([][]int, len(blocks))
	for i, b := range blocks {
		for _, x := range b {
			if x > 0 {
				out[i] = append(out[i], x-1)
			}
		}
	}
	return out
}

func raised(block []int) []int {
	out := make([]int, len(block))
	for i, x := range block {
		out[i] = x + 1
	}
	return out
}

// someOf draws n blocks to begin a search with: from an exact design as long as
// it lasts, else at random.
func someOf(base [][]int, t, k, n int, d *dice) [][]int {
	var deal [][]int
	if base != nil {
		deal = disguise(base, t, d)
	}
	out := make([][]int, n)
	for i := range out {
		if i < len(deal) {
			out[i] = deal[i]
		} else {
			out[i] = d.perm(t)[:k]
		}
	}
	return out
}

// pairing counts how often samples are served, and two of them together.
type pairing struct {
	served   [maxSamples]int
	together [maxSamples][maxSamples]int
}

func (p *pairing) add(block []int, by int) {
	for i, x := range block {
		p.served[x] += by
		for _, y := range block[i+1:] {
			p.together[x][y] += by
			p.together[y][x] += by
		}
	}
}

// patience is how many steps back a search looks.
const patience = 60

// servedWeight makes an uneven number of servings dearer than uneven company.
const servedWeight = 8

// gain is by how much putting y in for x in a block lowers the unevenness
// (sums of squares); negative when it raises it.
func (p *pairing) gain(block []int, x, y int) int {
	g := servedWeight * 2 * (p.served[x] - p.served[y] - 1)
	for _, z := range block {
		if z != x {
			g += 2 * (p.together[x][z] - p.together[y][z] - 1)
		}
	}
	return g
}

// evenBlocks exchanges samples of blocks until servings and company are as even
// as the search can make them. It keeps to whole numbers, so that it goes the
// same way on every machine: a step is taken when it is not worse than where
// the search stood some steps ago (late acceptance: Burke and Bykov 2017,
// doi 10.1016/j.ejor.2016.07.012).
func evenBlocks(blocks, fixed [][]int, t int, d *dice) [][]int {
	var p pairing
	for _, b := range fixed {
		p.add(b, 1)
	}
	for _, b := range blocks {
		p.add(b, 1)
	}
	best, cost, least := copied(blocks), 0, 0
	past := make([]int, patience)
	for step := range 20000 + 500*len(blocks) {
		b := blocks[d.below(len(blocks))]
		at, y := d.below(len(b)), d.below(t)
		if x := b[at]; setOf(b)&(1<<y) == 0 {
			after := cost - p.gain(b, x, y)
			if after <= max(cost, past[step%len(past)]) {
				p.add(b, -1)
				b[at] = y
				p.add(b, 1)
				cost = after
			}
		}
		if cost < least {
			least, best = cost, copied(blocks)
		}
		past[step%len(past)] = min(cost, past[step%len(past)])
	}
	return best
}

func copied(rows [][]int) [][]int {
	out := make([][]int, len(rows))
	for i, r := range rows {
		out[i] = append([]int(nil), r...)
	}
	return out
}
