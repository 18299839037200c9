package sensory

// family is a balanced incomplete block design given by blocks to be moved
// round: points are set in rings of mod points, each block is added 0...mod-1
// within its rings; points of an unfinished last ring stay where they are.
// Repeats of a block are left out, so short orbits count once.
type family struct {
	mod  int
	base []string
}

// families are the smallest designs for t samples in blocks of k, 3 <= k <= t/2,
// that are smaller than "every choice of k". Found by search over difference
// families; the tests verify every one.
var families = map[[2]int]family{
	{6, 3}:  {5, []string{"012", "025"}},
	{7, 3}:  {7, []string{"013"}},
	{8, 4}:  {7, []string{"0124", "0137"}},
	{9, 3}:  {8, []string{"013", "048"}},
	{9, 4}:  {9, []string{"0124", "0146"}},
	{10, 3}: {9, []string{"012", "025", "049", "036"}},
	{10, 4}: {5, []string{"0125", "0278", "0679"}},
	{10, 5}: {9, []string{"01235", "01469"}},
	{11, 3}: {11, []string{"012", "014", "026", "026", "036"}},
	{11, 4}: {11, []string{"0123", "0136", "0147", "0157", "0247"}},
	{11, 5}: {11, []string{"01247"}},
	{12, 3}: {12, []string{"012", "027", "036", "048", "048"}},
	{12, 4}: {12, []string{"0125", "0138", "0268", "0369"}},
	{12, 6}: {12, []string{"012357", "013679", "014589"}},
}

// mostBlocks is how many blocks a design may have to be of use here.
const mostBlocks = 70

// exactBlocks returns the smallest balanced incomplete block design for t
// samples in blocks of k, 1 <= k < t: every sample in as many blocks, every two
// together in as many. nil where the smallest has more than mostBlocks, as for
// 12 samples in fives (132). Every balanced design for (t, k) has a multiple of
// its number of blocks, for t <= 12: r = λ(t-1)/(k-1) and b = rt/k must be
// whole, and these are the smallest that are.
func exactBlocks(t, k int) [][]int {
	if 2*k > t {
		return complements(exactBlocks(t, t-k), t)
	}
	if f, ok := families[[2]int{t, k}]; ok {
		return f.blocks(t)
	}
	return everyChoice(t, k)
}

func (f family) blocks(t int) [][]int {
	var out [][]int
	for _, b := range f.base {
		first := orderOf(b)
		for s := range f.mod {
			block := f.moved(first, s, t)
			if s > 0 && sameSet(block, first) {
				break // a short orbit has come round
			}
			out = append(out, block)
		}
	}
	return out
}

func (f family) moved(block []int, by, t int) []int {
	out := make([]int, len(block))
	for i, p := range block {
		out[i] = p
		if ring := p / f.mod * f.mod; ring+f.mod <= t {
			out[i] = ring + (p-ring+by)%f.mod
		}
	}
	return out
}

func sameSet(a, b []int) bool { return setOf(a) == setOf(b) }

// setOf is a block as bits.
func setOf(block []int) (bits uint) {
	for _, x := range block {
		bits |= 1 << x
	}
	return bits
}

func complements(blocks [][]int, t int) [][]int {
	var out [][]int
	for _, b := range blocks {
		in := setOf(b)
		var rest []int
		for x := range t {
			if in&(1<<x) == 0 {
				rest = append(rest, x)
			}
		}
		out = append(out, rest)
	}
	return out
}

// everyChoice is all blocks of k of t samples; nil when they are too many.
func everyChoice(t, k int) [][]int {
	var out [][]int
	block := make([]int, 0, k)
	var more func(from int)
	more = func(from int) {
		if len(block) == k {
			out = append(out, append([]int(nil), block...))
			return
		}
		for x := from; x < t && len(out) <= mostBlocks; x++ {
			block = append(block, x)
			more(x + 1)
			block = block[:len(block)-1]
		}
	}
	more(0)
	if len(out) > mostBlocks {
		return nil
	}
	return out
}
