package stats

import (
	"fmt"
	"math/big"
	"slices"
)

// Echelon is a set of whole rows being eliminated without fractions: each kept
// row has coprime entries and its first entry that is not 0 in a column of its
// own, where every other kept row has 0.
type Echelon struct {
	Columns int
	Rows    [][]*big.Int
	Lead    []int // of each row
}

// Full tells that no row can add to the rank.
func (e *Echelon) Full() bool { return len(e.Rows) == e.Columns }

// Add takes a row in and tells whether the rank rose.
func (e *Echelon) Add(row []int64) bool {
	if e.Full() {
		return false
	}
	r := make([]*big.Int, e.Columns)
	for i, x := range row {
		r[i] = big.NewInt(x)
	}
	for i, kept := range e.Rows {
		clearEntry(r, kept, e.Lead[i])
	}
	lead := slices.IndexFunc(r, func(x *big.Int) bool { return x.Sign() != 0 })
	if lead < 0 {
		return false
	}
	reduce(r)
	for _, kept := range e.Rows {
		clearEntry(kept, r, lead)
	}
	e.Rows, e.Lead = append(e.Rows, r), append(e.Lead, lead)
	return true
}

// clearEntry makes row[at] 0: row = row·by[at] - by·row[at], over their common
// factor.
func clearEntry(row, by []*big.Int, at int) {
	if row[at].Sign() == 0 {
		return
	}
	a, b := new(big.Int).Set(by[at]), new(big.Int).Set(row[at])
	for i, x := range row {
		x.Mul(x, a)
		x.Sub(x, new(big.Int).Mul(by[i], b))
	}
	reduce(row)
}

// reduce divides a row by what its entries have in common.
func reduce(row []*big.Int) {
	g := new(big.Int)
	for _, x := range row {
		g.GCD(nil, nil, g, new(big.Int).Abs(x))
	}
	if g.Sign() == 0 || g.IsInt64() && g.Int64() == 1 {
		return
	}
	for _, x := range row {
		x.Quo(x, g)
	}
}

// Null spans what the rows say nothing of: one vector a column without a lead,
// with coprime entries. An entry beyond 58 bits, which 0/1 designs of a few
// dozen columns do not reach, gives ok false.
func (e *Echelon) Null() (basis [][]int64, ok bool) {
	for free := range e.Columns {
		if slices.Contains(e.Lead, free) {
			continue
		}
		v := make([]*big.Int, e.Columns)
		for i := range v {
			v[i] = new(big.Int)
		}
		scale := big.NewInt(1)
		for i, r := range e.Rows {
			scale.Mul(scale, new(big.Int).Abs(r[e.Lead[i]]))
		}
		v[free].Set(scale)
		for i, r := range e.Rows {
			x := new(big.Int).Mul(scale, r[free])
			v[e.Lead[i]].Neg(x.Quo(x, r[e.Lead[i]]))
		}
		reduce(v)
		w, fits := small(v)
		if !fits {
			return nil, false
		}
		basis = append(basis, w)
	}
	return basis, true
}

func small(v []*big.Int) ([]int64, bool) {
	out := make([]int64, len(v))
	for i, x := range v {
		if x.BitLen() > 58 {
			return nil, false
		}
		out[i] = x.Int64()
	}
	return out, true
}

// Circuits groups columns that lie together in a smallest null vector: group[i]
// is a number they share, -1 where a column is in none. Two columns do exactly
// when a chain of vectors of the reduced basis joins them (the connected
// components of a matroid are those of its fundamental circuits).
func Circuits(null [][]int64, columns int) []int {
	group := make([]int, columns)
	for i := range group {
		group[i] = -1
	}
	for n, v := range null {
		for i, x := range v {
			if x == 0 {
				continue
			}
			if old := group[i]; old >= 0 && old != n {
				for j := range group {
					if group[j] == old {
						group[j] = n
					}
				}
			}
			group[i] = n
		}
	}
	return group
}

// NullBasis returns integer vectors that span the null space of the rows over n
// columns, as [Echelon.Null] does; it depends only on the row space.
func NullBasis(rows [][]int64, n int) (basis [][]int64, ok bool) {
	e, done := &Echelon{Columns: n}, map[string]bool{}
	for _, row := range rows {
		if e.Full() {
			break
		}
		if key := fmt.Sprint(row); !done[key] {
			done[key] = true
			e.Add(row)
		}
	}
	return e.Null()
}
