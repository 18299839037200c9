package stats

import "math"

// double is an unevaluated sum hi + lo with |lo| at most half a unit in the last
// place of hi: about 31 digits (Dekker 1971, Numer. Math. 18:224). Sums of many
// scores keep their digits in it.
type double struct{ hi, lo float64 }

func of(x float64) double { return double{hi: x} }

// quick sums two values, the larger first.
func quick(a, b float64) double {
	s := a + b
	return double{s, b - (s - a)}
}

// exactSum is a + b without error (Knuth).
func exactSum(a, b float64) double {
	s := a + b
	t := s - a
	return double{s, (a - (s - t)) + (b - t)}
}

// exactProduct is a b without error.
func exactProduct(a, b float64) double {
	p := a * b
	return double{p, math.FMA(a, b, -p)}
}

func (x double) add(y double) double {
	s := exactSum(x.hi, y.hi)
	t := exactSum(x.lo, y.lo)
	s = quick(s.hi, s.lo+t.hi)
	return quick(s.hi, s.lo+t.lo)
}

func (x double) neg() double         { return double{-x.hi, -x.lo} }
func (x double) sub(y double) double { return x.add(y.neg()) }

func (x double) mul(y double) double {
	p := exactProduct(x.hi, y.hi)
	return quick(p.hi, p.lo+(x.hi*y.lo+x.lo*y.hi))
}

func (x double) div(y double) double {
	a := x.hi / y.hi
	r := x.sub(y.mul(of(a)))
	b := r.hi / y.hi
	r = r.sub(y.mul(of(b)))
	return quick(a, b).add(of(r.hi / y.hi))
}

func (x double) sqrt() double {
	if x.hi <= 0 {
		return of(math.Sqrt(x.hi))
	}
	a := math.Sqrt(x.hi)
	r := x.sub(exactProduct(a, a))
	return quick(a, r.hi/(2*a))
}

func (x double) value() float64 { return x.hi + x.lo }
