package justright

import (
	"math"

	"parewell/analysis/stats"
	"parewell/recipes/words"
)

// Table counts tasters by what they found in the first version (rows) and in the
// second (columns): too little, just right, too much.
type Table [3][3]int

// ChiSquare is a statistic with its degrees of freedom and tail. All are NaN
// and DF 0 where nobody changed the answer.
type ChiSquare struct {
	Chi2 float64
	DF   int
	P    float64
}

// McNemar is one answer of two versions by the same tasters: Gained gave it to
// the second only, Lost to the first only; P is exact, two-sided, and 1 when
// nobody changed.
type McNemar struct {
	First, Second int // who gave the answer
	Gained, Lost  int
	P             float64
}

// Comparison is two versions tasted by the same people.
type Comparison struct {
	Table Table
	N     int
	Blank int // tasters who did not answer for both
	// Marginal is Stuart and Maxwell's test that the answers as a whole have not
	// moved; Symmetry is Bowker's, that as many went each way between each two
	// answers. Categories between which nobody moved take a degree of freedom.
	Marginal, Symmetry  ChiSquare
	Right, Little, Much McNemar
	Few                 bool // too few changed for chi-square; trust the exact counts
}

// Compare compares the answers of the same tasters, in the same order, for two
// versions. Errors (*problem.Error): lengths that differ, an answer outside 0
// to 5, fewer than two tasters who answered both.
func Compare(first, second []int) (*Comparison, error) {
	if len(first) != len(second) {
		return nil, bad("justright.bad.pairs", len(first), len(second))
	}
	if i := outside(first); i >= 0 {
		return nil, bad("justright.bad.answer", words.Say("justright.first"), i+1, first[i])
	}
	if i := outside(second); i >= 0 {
		return nil, bad("justright.bad.answer", words.Say("justright.second"), i+1, second[i])
	}
	var t Table
	blank := 0
	for i, a := range first {
		if a == Blank || second[i] == Blank {
			blank++
			continue
		}
		t[third(a)][third(second[i])]++
	}
	c, err := t.Compare()
	if c != nil {
		c.Blank = blank
	}
	return c, err
}

// Compare is the same from counts. A negative count is an error too.
func (t Table) Compare() (*Comparison, error) {
	c := &Comparison{Table: t}
	for _, row := range t {
		for _, n := range row {
			if n < 0 || n > mostLiking {
				return nil, bad("justright.bad.count", n)
			}
			c.N += n
		}
	}
	if c.N < 2 {
		return nil, bad("justright.bad.both")
	}
	c.Little, c.Right, c.Much = t.mcnemar(0), t.mcnemar(1), t.mcnemar(2)
	c.Marginal, c.Symmetry = t.stuartMaxwell(), t.bowker()
	c.Few = c.changed() < fewTasters
	return c, nil
}

func (c *Comparison) changed() int {
	return c.N - c.Table[0][0] - c.Table[1][1] - c.Table[2][2]
}

func (t Table) mcnemar(k int) McNemar {
	var m McNemar
	for j := range 3 {
		m.First += t[k][j]
		m.Second += t[j][k]
	}
	m.Gained, m.Lost = m.Second-t[k][k], m.First-t[k][k]
	m.P = even(m.Gained, m.Lost)
	return m
}

// moved counts who moved between two answers, either way.
func (t Table) moved(i, j int) float64 { return float64(t[i][j] + t[j][i]) }

// stuartMaxwell in the closed form for three answers (Fleiss & Everitt 1971, Br.
// J. Math. Stat. Psychol. 24:117, from memory; held to the general form in a
// test): squared shifts, each weighed by the traffic between the other two.
func (t Table) stuartMaxwell() ChiSquare {
	var d [3]float64
	for k := range 3 {
		m := t.mcnemar(k)
		d[k] = float64(m.First - m.Second)
	}
	a, b, c := t.moved(1, 2), t.moved(0, 2), t.moved(0, 1)
	if all := a*b + a*c + b*c; all > 0 {
		return chiSquare((a*d[0]*d[0]+b*d[1]*d[1]+c*d[2]*d[2])/all, 2)
	}
	// All traffic is between one pair, if there is any.
	if one := a + b + c; one > 0 {
		return chiSquare((d[0]*d[0]+d[1]*d[1]+d[2]*d[2])/2/one, 1)
	}
	return chiSquare(0, 0)
}

func (t Table) bowker() ChiSquare {
	sum, df := 0.0, 0
	for i := range 3 {
		for j := i + 1; j < 3; j++ {
			if m := t.moved(i, j); m > 0 {
				d := float64(t[i][j] - t[j][i])
				sum += d * d / m
				df++
			}
		}
	}
	return chiSquare(sum, df)
}

func chiSquare(x float64, df int) ChiSquare {
	if df == 0 {
		return ChiSquare{math.NaN(), 0, math.NaN()}
	}
	return ChiSquare{x, df, stats.Chi2Above(x, float64(df))}
}
