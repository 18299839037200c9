package stats

import (
	"fmt"
	"math"

	"parewell/recipes/problem"
)

// Fit is a least squares fit. A column that the others can make up takes its
// coefficients with it: those that the data cannot tell apart are NaN, and
// [Fit.Contrast] says what can still be estimated.
type Fit struct {
	Coef []float64 // one a column; NaN: cannot be estimated alone
	SE   []float64 // of Coef; NaN there, and everywhere when DF is 0
	Rank int       // columns that say something of their own
	N    int       // rows
	DF   int       // N - Rank
	RSS  float64   // sum of squared residuals
	TSS  float64   // sum of squared departures of y from its mean
	Sq   float64   // sum of squares of y
	// Sigma is the residual SD, sqrt(RSS/DF); NaN when DF is 0.
	Sigma float64
	// Fitted and Residual have one value a row.
	Fitted, Residual []float64
	// Cov is the covariance matrix of Coef, Sigma² (X'X)^-1; rows and columns
	// of coefficients that cannot be estimated are NaN, all if DF is 0.
	Cov [][]float64
	// Null spans the combinations of coefficients that change no fitted value:
	// one vector for each column found to be made up of others, empty at full rank.
	Null [][]float64

	q *factor
}

// LeastSquares fits y by the columns of x (rows of equal length; put in a column
// of ones for a level). It factors by Householder reflections with columns scaled
// to unit length and the longest left taken first, all in double-double
// arithmetic, so that even badly conditioned columns keep their digits. Columns
// whose remaining length falls below 1e-12 of their own count as made up of the
// others. Errors (*problem.Error): no rows or columns, ragged rows, unequal
// lengths, values NaN, infinite or beyond 1e140.
func LeastSquares(x [][]float64, y []float64) (*Fit, error) {
	if err := fitInput(x, y); err != nil {
		return nil, err
	}
	q := factorise(x)
	f := &Fit{Rank: q.rank, N: len(y), DF: len(y) - q.rank, q: q}
	coef := q.solve(y)
	f.residuals(x, y, coef)
	f.Null = q.null()
	f.report(coef)
	return f, nil
}

func fitInput(x [][]float64, y []float64) error {
	bad := func(format string, args ...any) error {
		return problem.New("least squares", fmt.Sprintf(format, args...), "give one row of finite numbers for each score")
	}
	if len(x) == 0 || len(x[0]) == 0 {
		return bad("there is nothing to fit")
	}
	if len(x) != len(y) {
		return bad("%d rows for %d scores", len(x), len(y))
	}
	if !finite(y) {
		return bad("a score is missing, infinite or far too large")
	}
	for i, row := range x {
		if len(row) != len(x[0]) {
			return bad("row %d has %d numbers, not %d", i+1, len(row), len(x[0]))
		}
		if !finite(row) {
			return bad("row %d holds a number that is missing, infinite or far too large", i+1)
		}
	}
	return nil
}

// residuals come from the data, not from the factors, so that a perfect fit
// shows as one.
func (f *Fit) residuals(x [][]float64, y []float64, coef []double) {
	f.Fitted, f.Residual = make([]float64, len(y)), make([]float64, len(y))
	var rss, sq double
	for i, row := range x {
		var fit double
		for j, v := range row {
			fit = fit.add(coef[j].mul(of(v)))
		}
		r := of(y[i]).sub(fit)
		rss = rss.add(r.mul(r))
		sq = sq.add(exactProduct(y[i], y[i]))
		f.Fitted[i], f.Residual[i] = fit.value(), r.value()
	}
	f.Sq, f.TSS = sq.value(), squares(y, mean(y)).value()
	if f.RSS = rss.value(); f.RSS < 1e-28*f.Sq {
		f.RSS = 0 // beyond what rounded scores can tell from a perfect fit
	}
	f.Sigma = math.NaN()
	if f.DF > 0 {
		f.Sigma = of(f.RSS).div(of(float64(f.DF))).sqrt().value()
	}
}

// report turns the basic solution into coefficients a person may read.
func (f *Fit) report(coef []double) {
	p := len(coef)
	f.Coef, f.SE, f.Cov = make([]float64, p), make([]float64, p), make([][]float64, p)
	free := make([]bool, p) // moved by some null vector
	for _, v := range f.Null {
		for j, c := range v {
			free[j] = free[j] || c != 0
		}
	}
	for i := range coef {
		f.Coef[i], f.SE[i], f.Cov[i] = coef[i].value(), math.NaN(), make([]float64, p)
		if free[i] {
			f.Coef[i] = math.NaN()
		}
	}
	inverse := f.q.inverse()
	s2 := f.Sigma * f.Sigma
	for i := range coef {
		for j := range coef {
			f.Cov[i][j] = s2 * inverse[i][j].value()
			if free[i] || free[j] {
				f.Cov[i][j] = math.NaN()
			}
		}
		if !free[i] {
			f.SE[i] = f.Sigma * inverse[i][i].sqrt().value()
		}
	}
	f.q.coef = coef
}
