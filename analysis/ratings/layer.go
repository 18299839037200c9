package ratings

// layer is one factor (samples, or pots) within blocks: its information matrix
// once the blocks are absorbed, in the size of the factor alone.
type layer struct {
	levels int
	count  []float64 // rows by level
	info   [][]float64
	inv    [][]float64 // a generalised inverse of info, right for sums over a component that add to 0
	part   []int       // by level: the component of levels that chains of blocks join
	parts  int
	share  []float64 // by level: mean over blocks of its part of the block
	recip  float64   // mean over blocks of 1/size, over the number of blocks
}

// rank is that of block + factor beyond the blocks.
func (l *layer) rank() int { return l.levels - l.parts }

// joined tells whether two levels can be compared.
func (l *layer) joined(a, b int) bool { return l.part[a] == l.part[b] }

// newLayer absorbs the blocks. Rows go by block.
func newLayer(block, level []int, size []float64, levels int) *layer {
	l := &layer{levels: levels, count: make([]float64, levels), info: square0(levels), share: make([]float64, levels)}
	l.part = make([]int, levels)
	for i := range l.part {
		l.part[i] = i
	}
	inBlock := make([]float64, levels)
	for from := 0; from < len(block); {
		to := from
		var here []int
		for ; to < len(block) && block[to] == block[from]; to++ {
			if inBlock[level[to]] == 0 {
				here = append(here, level[to])
			}
			inBlock[level[to]]++
		}
		l.takeBlock(here, inBlock, float64(to-from), float64(len(size)))
		from = to
	}
	l.numberParts()
	l.invert()
	return l
}

func (l *layer) takeBlock(here []int, n []float64, size, blocks float64) {
	for _, a := range here {
		l.count[a] += n[a]
		l.share[a] += n[a] / size / blocks
		l.info[a][a] += n[a]
		for _, b := range here {
			l.info[a][b] -= n[a] * n[b] / size
		}
		if old, to := l.part[a], l.part[here[0]]; old != to {
			for i, p := range l.part {
				if p == old {
					l.part[i] = to
				}
			}
		}
	}
	for _, a := range here {
		n[a] = 0
	}
	l.recip += 1 / size / blocks / blocks
}

// numberParts numbers the components from 0 in order of appearance.
func (l *layer) numberParts() {
	at := map[int]int{}
	for i, p := range l.part {
		l.part[i] = number(at, p)
	}
	l.parts = len(at)
}

// invert adds a constant within each component, which the information of
// differences does not see, and inverts.
func (l *layer) invert() {
	m := square0(l.levels)
	for i := range m {
		for j := range m[i] {
			m[i][j] = l.info[i][j]
			if l.joined(i, j) {
				m[i][j]++
			}
		}
	}
	l.inv = inverse(m)
}

// fit is the factor fitted to scores beside the blocks.
type fit struct {
	effect []float64 // by level; adds to 0 over a component, up to rounding
	total  []float64 // by level: scores less their block's mean
	rss    float64
	df     int // of the residual
}

// fit fits y (any level; blocks take it) by the factor and the blocks.
func (l *layer) fit(block, level []int, size, y []float64) *fit {
	blocks := len(size)
	f := &fit{total: make([]float64, l.levels), df: len(y) - blocks - l.rank()}
	mean := blockMeans(block, size, y)
	for i, v := range y {
		f.total[level[i]] += v - mean[block[i]]
	}
	f.effect = times(l.inv, f.total)
	f.rss = residual(block, level, size, y, f.effect)
	return f
}

func blockMeans(block []int, size, y []float64) []float64 {
	m := make([]float64, len(size))
	for i, v := range y {
		m[block[i]] += v
	}
	for b := range m {
		m[b] /= size[b]
	}
	return m
}

// residual is the sum of squares about block + effect of the level.
func residual(block, level []int, size, y, effect []float64) float64 {
	r := make([]float64, len(y))
	for i, v := range y {
		r[i] = v - effect[level[i]]
	}
	mean := blockMeans(block, size, r)
	s := 0.0
	for i, v := range r {
		d := v - mean[block[i]]
		s += d * d
	}
	return s
}

// variance is that of an adjusted mean over the error variance.
func (l *layer) variance(level int) float64 {
	c := make([]float64, l.levels)
	for i, w := range l.share {
		c[i] = -w
	}
	c[level]++
	return form(l.inv, c) + l.recip
}

// between is the variance of a difference over the error variance.
func (l *layer) between(a, b int) float64 {
	return l.inv[a][a] + l.inv[b][b] - 2*l.inv[a][b]
}
