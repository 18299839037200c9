// Package claims answers "may I call it light?": it holds a version's figures
// against the published conditions of nutrient claims, sorts the words of a
// headnote, and rounds figures as labels print them. It returns codes and
// numbers; recipes/words turns them into sentences.
package claims

import "math"

// Value is a figure known to lie from Low to High, both inside. A known figure
// has Low equal to High; one of which nothing is known runs to +Inf.
type Value struct{ Low, High float64 }

// Exactly is a known figure.
func Exactly(v float64) Value { return Value{v, v} }

// Anything is a figure of which nothing is known but that it is not negative.
var Anything = Value{0, math.Inf(1)}

// anySign is a figure of which nothing at all is known.
var anySign = Value{math.Inf(-1), math.Inf(1)}

// Known tells whether the figure is exact.
func (v Value) Known() bool { return v.Low == v.High }

// Number returns the figure if it is exact, else NaN.
func (v Value) Number() float64 {
	if v.Known() {
		return v.Low
	}
	return math.NaN()
}

func (v Value) times(f float64) Value { return Value{v.Low * f, v.High * f} }

func (v Value) plus(w Value) Value { return Value{v.Low + w.Low, v.High + w.High} }

func (v Value) minus(w Value) Value {
	low, high := v.Low-w.High, v.High-w.Low
	if math.IsNaN(low) {
		low = math.Inf(-1)
	}
	if math.IsNaN(high) {
		high = math.Inf(1)
	}
	return Value{low, high}
}

// product multiplies two figures that are not negative.
func (v Value) product(w Value) Value { return Value{mul(v.Low, w.Low), mul(v.High, w.High)} }

// over divides two figures that are not negative. Nothing over nothing is
// nothing known.
func (v Value) over(w Value) Value {
	return Value{div(v.Low, w.High, 0), div(v.High, w.Low, math.Inf(1))}
}

// mul takes nothing times anything as nothing.
func mul(a, b float64) float64 {
	if a == 0 || b == 0 {
		return 0
	}
	return a * b
}

// div returns a over b, or other where the quotient has no meaning.
func div(a, b, other float64) float64 {
	q := a / b
	if math.IsNaN(q) {
		return other
	}
	return q
}

// reduction returns by how many per cent v is less than before, times scale
// (the ratio that brings both to the same amount of food). Where before may be
// nothing, the per cent has no lower end; of nothing, nothing can be taken off
// and both ends are -Inf.
func reduction(before, v, scale Value) Value {
	if before.High == 0 {
		return Value{math.Inf(-1), math.Inf(-1)}
	}
	left := v.product(scale)
	low, high := math.Inf(-1), 100.0
	if before.Low > 0 {
		low = 100 * (1 - left.High/before.Low)
	}
	if !math.IsInf(before.High, 1) {
		high = 100 * (1 - left.Low/before.High)
	}
	return Value{low, high}
}

// closeTo is how near a figure counts as at its limit, so that sums of floats
// fall on the side the hand calculation does.
const closeTo = 1e-9

func near(a, b float64) bool { return math.Abs(a-b) <= closeTo*max(1, math.Abs(b)) }

// truth is yes, no, or open while something is unknown.
type truth int8

const (
	no truth = iota
	open
	yes
)

// holds tells whether the figure stands in the given order to the limit.
func (v Value) holds(op Op, limit float64) truth {
	low, high := compare(v.Low, op, limit), compare(v.High, op, limit)
	switch {
	case low && high:
		return yes
	case !low && !high:
		return no
	}
	return open
}

func compare(v float64, op Op, limit float64) bool {
	at := near(v, limit)
	switch op {
	case Below:
		return v < limit && !at
	case AtMost:
		return v < limit || at
	case AtLeast:
		return v > limit || at
	}
	return v > limit && !at
}
