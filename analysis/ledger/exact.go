package ledger

import (
	"fmt"
	"math/big"
	"slices"
)

// nullBasis returns integer vectors that span the null space of the rows over n
// columns, one for each free column, each with coprime entries. It is worked
// out in exact fractions and depends only on the row space; ok is false when an
// entry does not fit 64 bits.
func nullBasis(rows [][]int64, n int) (basis [][]int64, ok bool) {
	pivots, at := echelon(rows, n)
	for free := range n {
		if slices.Contains(at, free) {
			continue
		}
		v := make([]*big.Rat, n)
		for i := range v {
			v[i] = new(big.Rat)
		}
		v[free].SetInt64(1)
		for i, col := range at {
			v[col].Neg(pivots[i][free])
		}
		whole, fits := coprime(v)
		if !fits {
			return nil, false
		}
		basis = append(basis, whole)
	}
	return basis, true
}

// echelon reduces the rows fully: pivots[i] has a one in column at[i], where
// all others have zero.
func echelon(rows [][]int64, n int) (pivots [][]*big.Rat, at []int) {
	done := map[string]bool{}
	for _, row := range rows {
		if key := fmt.Sprint(row); done[key] || len(at) == n {
			continue
		} else {
			done[key] = true
		}
		r := make([]*big.Rat, n)
		for i := range r {
			r[i] = new(big.Rat).SetInt64(row[i])
		}
		for i, col := range at {
			subtract(r, pivots[i], r[col])
		}
		lead := slices.IndexFunc(r, func(x *big.Rat) bool { return x.Sign() != 0 })
		if lead < 0 {
			continue
		}
		scale := new(big.Rat).Inv(r[lead])
		for _, x := range r {
			x.Mul(x, scale)
		}
		for _, p := range pivots {
			subtract(p, r, p[lead])
		}
		pivots, at = append(pivots, r), append(at, lead)
	}
	return pivots, at
}

// subtract takes times·b off a.
func subtract(a, b []*big.Rat, times *big.Rat) {
	if times.Sign() == 0 {
		return
	}
	t := new(big.Rat).Set(times)
	for i := range a {
		a[i].Sub(a[i], new(big.Rat).Mul(t, b[i]))
	}
}

// coprime multiplies fractions to the smallest whole numbers.
func coprime(v []*big.Rat) (whole []int64, ok bool) {
	lcm, gcd := big.NewInt(1), new(big.Int)
	for _, x := range v {
		g := new(big.Int).GCD(nil, nil, lcm, x.Denom())
		lcm.Mul(lcm, new(big.Int).Div(x.Denom(), g))
	}
	ints := make([]*big.Int, len(v))
	for i, x := range v {
		ints[i] = new(big.Int).Mul(x.Num(), new(big.Int).Div(lcm, x.Denom()))
		gcd.GCD(nil, nil, gcd, new(big.Int).Abs(ints[i]))
	}
	for _, x := range ints {
		x.Div(x, gcd)
		if !x.IsInt64() || x.BitLen() > 58 { // twenty such add up within 64 bits
			return nil, false
		}
		whole = append(whole, x.Int64())
	}
	return whole, true
}

// differences are the rows of each block less its first: what taster effects
// leave of a block.
func differences(on [][]int64, blocks [][]int) [][]int64 {
	var out [][]int64
	for _, b := range blocks {
		for _, v := range b[min(1, len(b)):] {
			d := slices.Clone(on[v])
			for i, x := range on[b[0]] {
				d[i] -= x
			}
			out = append(out, d)
		}
	}
	return out
}

// tied puts columns that share a smallest null vector in one group: tied[i] is
// the others of i's group, nil where i can be estimated. Two columns lie in one
// such vector exactly when a chain of vectors of the reduced basis joins them
// (connected components of a matroid).
func tied(null [][]int64, n int) [][]int {
	group := make([]int, n)
	for i := range group {
		group[i] = i
	}
	for _, v := range null {
		first := -1
		for i, x := range v {
			if x == 0 {
				continue
			}
			if first < 0 {
				first = group[i]
			}
			old := group[i]
			for j := range group {
				if group[j] == old {
					group[j] = first
				}
			}
		}
	}
	out := make([][]int, n)
	for i := range out {
		for j := range group {
			if j != i && group[j] == group[i] {
				out[i] = append(out[i], j)
			}
		}
	}
	return out
}

// estimable tells whether every null vector is square to c.
func estimable(null [][]int64, c []bool) bool {
	for _, v := range null {
		sum := int64(0)
		for i, x := range v {
			if c[i] {
				sum += x
			}
		}
		if sum != 0 {
			return false
		}
	}
	return true
}
