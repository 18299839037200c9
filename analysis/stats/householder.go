package stats

import "math"

// dependent is the remaining length, as a share of its own, below which a column
// counts as made up of those before it. Columns rounded to float64 keep about
// 1e-15 even when they are; the hardest honest columns we know (powers up to ten,
// NIST's Filip) keep 1e-9.
const dependent = 1e-12

// factor is X = Q R of the scaled and reordered columns.
type factor struct {
	rows, cols, rank int
	order            []int      // column at each place
	scale            []float64  // length of each column, 1 for an empty one
	col              [][]double // by place: R above the diagonal, reflectors from it down
	diag             []double   // diagonal of R
	twist            []double   // 2 / |reflector|²
	coef             []double   // basic solution, 0 for dependent columns
}

func factorise(x [][]float64) *factor {
	f := &factor{rows: len(x), cols: len(x[0])}
	f.load(x)
	for f.rank < min(f.rows, f.cols) {
		if !f.bringLongest(f.rank) {
			break
		}
		f.reflect(f.rank)
		f.rank++
	}
	return f
}

func (f *factor) load(x [][]float64) {
	for j := range f.cols {
		most := 0.0
		for _, row := range x {
			most = math.Max(most, math.Abs(row[j]))
		}
		unit := 1.0
		if most > 0 { // a power of two scales without rounding
			_, e := math.Frexp(most)
			unit = math.Ldexp(1, max(-1000, min(1000, e)))
		}
		c := make([]double, f.rows)
		for i, row := range x {
			c[i] = of(row[j] / unit)
		}
		length := dot(c, c).sqrt().value()
		if length > 0 {
			_, e := math.Frexp(length)
			unit *= math.Ldexp(1, e)
			for i, row := range x {
				c[i] = of(row[j] / unit)
			}
		}
		f.col, f.scale, f.order = append(f.col, c), append(f.scale, unit), append(f.order, j)
	}
}

// bringLongest swaps the column with most length left to place k; false if none
// has any to speak of. Lengths are summed afresh: keeping them up to date by
// subtraction would lose the digits that decide the rank.
func (f *factor) bringLongest(k int) bool {
	best, most := k, -1.0
	for j := k; j < f.cols; j++ {
		tail := f.col[j][k:]
		if l := dot(tail, tail).hi; l > most {
			best, most = j, l
		}
	}
	f.col[k], f.col[best] = f.col[best], f.col[k]
	f.scale[k], f.scale[best] = f.scale[best], f.scale[k]
	f.order[k], f.order[best] = f.order[best], f.order[k]
	return math.Sqrt(most) > dependent
}

// reflect makes column k zero below its place and turns the later ones along.
func (f *factor) reflect(k int) {
	v := f.col[k][k:]
	length := dot(v, v).sqrt()
	if v[0].hi > 0 {
		length = length.neg()
	}
	f.diag = append(f.diag, length)
	v[0] = v[0].sub(length)
	f.twist = append(f.twist, of(2).div(dot(v, v)))
	for j := k + 1; j < f.cols; j++ {
		f.turn(k, f.col[j])
	}
}

// turn applies reflection k to a full column.
func (f *factor) turn(k int, c []double) {
	v, tail := f.col[k][k:], c[k:]
	by := dot(v, tail).mul(f.twist[k]).neg()
	if by.hi == 0 {
		return
	}
	for i := range tail {
		tail[i] = tail[i].add(by.mul(v[i]))
	}
}

func dot(a, b []double) double {
	var sum double
	for i := range a {
		if a[i].hi != 0 && b[i].hi != 0 {
			sum = sum.add(a[i].mul(b[i]))
		}
	}
	return sum
}

// back solves R z = b for the first rank places, in place.
func (f *factor) back(b []double) {
	for i := f.rank - 1; i >= 0; i-- {
		for j := i + 1; j < f.rank; j++ {
			b[i] = b[i].sub(f.col[j][i].mul(b[j]))
		}
		b[i] = b[i].div(f.diag[i])
	}
}

// solve is the basic solution: dependent columns get 0.
func (f *factor) solve(y []float64) []double {
	b := make([]double, f.rows)
	for i, v := range y {
		b[i] = of(v)
	}
	for k := range f.rank {
		f.turn(k, b)
	}
	f.back(b)
	out := make([]double, f.cols)
	for k := range f.rank {
		out[f.order[k]] = b[k].div(of(f.scale[k]))
	}
	return out
}

// inverse is (X'X)^-1 of the independent columns, 0 elsewhere.
func (f *factor) inverse() [][]double {
	half := make([][]double, f.rank) // columns of R^-1
	for k := range half {
		half[k] = make([]double, f.rank)
		half[k][k] = of(1)
		f.back(half[k])
	}
	out := make([][]double, f.cols)
	for i := range out {
		out[i] = make([]double, f.cols)
	}
	for a := range f.rank {
		for b := a; b < f.rank; b++ {
			var sum double
			for k := b; k < f.rank; k++ {
				sum = sum.add(half[k][a].mul(half[k][b]))
			}
			sum = sum.div(of(f.scale[a])).div(of(f.scale[b]))
			i, j := f.order[a], f.order[b]
			out[i][j], out[j][i] = sum, sum
		}
	}
	return out
}

// null is one vector for each dependent column: 1 for it and less what the
// independent ones need to make it up. Rounding dust becomes 0.
func (f *factor) null() [][]float64 {
	var out [][]float64
	for d := f.rank; d < f.cols; d++ {
		b := append([]double{}, f.col[d][:min(f.rank, len(f.col[d]))]...)
		f.back(b)
		v := make([]float64, f.cols)
		v[f.order[d]] = 1
		for k := range f.rank {
			if share := b[k].value(); math.Abs(share) > 1e-10 {
				v[f.order[k]] = -share * f.scale[d] / f.scale[k]
			}
		}
		out = append(out, v)
	}
	return out
}
