package mixed

import (
	"slices"
	"sort"
)

// cell is one entry of a sparse row.
type cell struct {
	at int
	v  float64
}

// products are the cross-products of a data set: everything the likelihood
// needs. Levels of all factors are numbered through, the factor with most levels
// first.
type products struct {
	n       int
	base    *basis
	level   []float64 // basis parts of y: its least squares fit
	resid   []float64 // y less that fit
	order   []int     // factors by falling number of levels
	start   []int     // first level of order[k]; one more entry ends the last
	labels  [][]string
	zz      [][]cell    // Z'Z by rows, sorted
	zx      [][]float64 // Z'Q, one row a level
	zr      []float64   // Z' resid
	rr      float64     // resid' resid
	factorC []int       // the factor (place in order) of each level
}

func newProducts(y []float64, x [][]float64, factors []Factor) *products {
	d := &products{n: len(y), base: newBasis(x)}
	d.resid = append([]float64(nil), y...)
	d.level, _, _ = d.base.reduce(d.resid)
	d.rr = dot(d.resid, d.resid)
	of := d.number(factors)
	d.cross(of)
	return d
}

// number gives all levels of all factors their numbers; of[k][row] is the level
// of a row in factor order[k].
func (d *products) number(factors []Factor) (of [][]int) {
	raw, labels := make([][]int, len(factors)), make([][]string, len(factors))
	for i, f := range factors {
		raw[i], labels[i] = f.numbered()
		d.order = append(d.order, i)
	}
	sort.SliceStable(d.order, func(a, b int) bool { return len(labels[d.order[a]]) > len(labels[d.order[b]]) })
	d.start = []int{0}
	for k, i := range d.order {
		at := make([]int, d.n)
		for row, l := range raw[i] {
			at[row] = d.start[k] + l
		}
		of = append(of, at)
		d.labels = append(d.labels, labels[i])
		d.start = append(d.start, d.start[k]+len(labels[i]))
		for range labels[i] {
			d.factorC = append(d.factorC, k)
		}
	}
	return of
}

func (d *products) cross(of [][]int) {
	levels, p := d.start[len(d.order)], len(d.base.q)
	sums := make([]map[int]float64, levels)
	d.zr = make([]float64, levels)
	d.zx = make([][]float64, levels)
	for j := range levels {
		sums[j] = map[int]float64{}
		d.zx[j] = make([]float64, p)
	}
	for row := range d.n {
		for _, at := range of {
			j := at[row]
			d.zr[j] += d.resid[row]
			for k := range p {
				d.zx[j][k] += d.base.q[k][row]
			}
			for _, other := range of {
				sums[j][other[row]]++
			}
		}
	}
	for _, m := range sums {
		var row []cell
		for at, v := range m {
			row = append(row, cell{at, v})
		}
		slices.SortFunc(row, func(a, b cell) int { return a.at - b.at })
		d.zz = append(d.zz, row)
	}
}

// levels is the number of levels of all factors together.
func (d *products) levels() int { return len(d.zr) }

// first is the number of levels of the largest factor, which is taken out first.
func (d *products) first() int {
	if len(d.order) == 0 {
		return 0
	}
	return d.start[1]
}

// spare is the degrees of freedom the fixed effects leave.
func (d *products) spare() int { return d.n - len(d.base.q) }
