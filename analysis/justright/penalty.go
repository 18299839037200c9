package justright

import (
	"math"

	"parewell/analysis/stats"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Answers on the five-point scale; Blank is a question left out.
const (
	Blank         = 0
	MuchTooLittle = 1
	TooLittle     = 2
	JustRight     = 3
	TooMuch       = 4
	MuchTooMuch   = 5
)

const (
	// fifth is the part of the tasters from which a side is worth a look: one in
	// fifth (20 %; practice rule, MNL63 from memory).
	fifth = 5
	// fewTasters is the size below which a group is read as a hint (common
	// practice, no source).
	fewTasters = 10
	// mostLiking keeps sums exact enough for the self-check.
	mostLiking = 1e6
)

// Question is one attribute with the answer of every taster, in the order of
// the likings.
type Question struct {
	Attribute string
	Answers   []int
}

// Group is the tasters of one answer: how many, their part of those who
// answered (0 to 1), their mean liking (NaN for none).
type Group struct {
	N           int
	Share, Mean float64
}

// Side is those who found too little, or too much, against those who found it
// just right. All but the group itself are NaN when either has nobody; limits
// and tests also when they cannot be reckoned from so few or so equal likings.
type Side struct {
	Group
	Drop    float64 // mean liking of just right less that of the side, in points
	Penalty float64 // Share times Drop; 0 for an empty side
	// Welch and Pooled test the drop, two-sided, without and with equal spreads;
	// Low and High are Welch's 95 % limits.
	Welch, Pooled stats.TResult
	Low, High     float64
	// SE and P test the drop with the spread of all three groups.
	SE, P float64
	Holm  float64 // Welch's p, adjusted for all sides of the analysis
	Flag  bool    // at least one taster in five
	Few   bool    // too few to be more than a hint, nobody excepted
}

// Attribute is the penalty analysis of one question.
type Attribute struct {
	Name         string
	Counts       [5]int // answers 1 to 5
	N, Blank     int    // who answered; who did not
	Mean         float64
	Right        Group
	Little, Much Side
	Total        float64 // both penalties together; NaN without a just-right group
	Sigma        float64 // spread of liking within the three groups, on DF
	DF           int
	Direction    float64 // exact two-sided p for too little against too much
}

// Result holds the attributes in the order asked.
type Result struct{ Attributes []Attribute }

// Analyse reckons the penalties of each question against overall liking (one a
// taster, any scale where more is better). Errors (*problem.Error): fewer than
// two tasters, no question, lengths that differ, an answer outside 0 to 5, a
// liking that is no number, all likings equal.
func Analyse(liking []float64, questions ...Question) (*Result, error) {
	if err := check(liking, questions); err != nil {
		return nil, err
	}
	r := &Result{}
	for _, q := range questions {
		a := analyse(liking, q)
		if !a.AddsUp() {
			return nil, bad("justright.bad.sum", q.Attribute)
		}
		r.Attributes = append(r.Attributes, a)
	}
	r.adjust()
	return r, nil
}

func check(liking []float64, questions []Question) error {
	switch {
	case len(liking) == 0:
		return bad("justright.bad.empty")
	case len(liking) == 1:
		return bad("justright.bad.one")
	case len(questions) == 0:
		return bad("justright.bad.no-question")
	}
	same := true
	for i, v := range liking {
		if !(math.Abs(v) <= mostLiking) {
			return bad("justright.bad.liking", i+1)
		}
		same = same && v == liking[0]
	}
	if same {
		return bad("justright.bad.same")
	}
	for _, q := range questions {
		if len(q.Answers) != len(liking) {
			return bad("justright.bad.length", q.Attribute, len(q.Answers), len(liking))
		}
		if i := outside(q.Answers); i >= 0 {
			return bad("justright.bad.answer", q.Attribute, i+1, q.Answers[i])
		}
	}
	return nil
}

// outside is the first answer that is none, -1 if all are.
func outside(answers []int) int {
	for i, a := range answers {
		if a < Blank || a > MuchTooMuch {
			return i
		}
	}
	return -1
}

// bad is a fault of the data, with its mend where the sentences have one.
func bad(key string, args ...any) error {
	hint := ""
	if words.Current().Has(key + ".hint") {
		hint = words.Say(key + ".hint")
	}
	return problem.New(words.Say("justright.where"), words.Say(key, args...), hint)
}

// third folds the scale: 0 too little, 1 just right, 2 too much.
func third(answer int) int {
	switch {
	case answer < JustRight:
		return 0
	case answer > JustRight:
		return 2
	}
	return 1
}

func analyse(liking []float64, q Question) Attribute {
	a := Attribute{Name: q.Attribute}
	var groups [3][]float64
	var all []float64
	for i, answer := range q.Answers {
		if answer == Blank {
			a.Blank++
			continue
		}
		a.Counts[answer-1]++
		groups[third(answer)] = append(groups[third(answer)], liking[i])
		all = append(all, liking[i])
	}
	a.N, a.Mean = len(all), stats.Mean(all)
	a.Right = group(groups[1], a.N)
	within := stats.OneWay(groups[:])
	a.Sigma, a.DF = within.ResidualSD, within.DFWithin
	a.Little, a.Much = a.side(groups[0], groups[1]), a.side(groups[2], groups[1])
	a.Total = math.NaN()
	if a.Right.N > 0 {
		a.Total = a.Little.Penalty + a.Much.Penalty
	}
	a.Direction = even(a.Little.N, a.Much.N)
	return a
}

func group(likings []float64, of int) Group {
	g := Group{N: len(likings), Mean: stats.Mean(likings)}
	if of > 0 {
		g.Share = float64(g.N) / float64(of)
	}
	return g
}

func (a *Attribute) side(off, right []float64) Side {
	s := Side{Group: group(off, a.N)}
	s.Welch = stats.Welch(right, off)
	s.Drop, s.Penalty = s.Welch.Estimate, s.Share*s.Welch.Estimate
	if s.N == 0 {
		s.Penalty = 0
	}
	s.Low, s.High = s.Welch.Interval(0.95)
	if !(s.Welch.SE > 0) {
		s.Low, s.High = math.NaN(), math.NaN()
	}
	both := stats.OneWay([][]float64{right, off})
	s.Pooled = withSpread(s.Drop, both.ResidualSD, both.DFWithin, len(right), len(off))
	whole := withSpread(s.Drop, a.Sigma, a.DF, len(right), len(off))
	s.SE, s.P = whole.SE, whole.P
	s.Holm = math.NaN()
	s.Flag = s.N > 0 && fifth*s.N >= a.N
	s.Few = s.N > 0 && (s.N < fewTasters || len(right) < fewTasters)
	return s
}

// withSpread tests a difference of two means with a common spread.
func withSpread(drop, sigma float64, df, n, m int) stats.TResult {
	r := stats.TResult{
		N: n + m, Estimate: drop, SD: math.NaN(), Effect: math.NaN(), DF: float64(df), T: math.NaN(), P: math.NaN(),
		SE: sigma * math.Sqrt(1/float64(n)+1/float64(m)),
	}
	if n == 0 || m == 0 {
		r.SE = math.NaN()
	}
	if r.SE > 0 {
		r.T = drop / r.SE
		r.P = 2 * stats.TAbove(math.Abs(r.T), r.DF)
	}
	return r
}

// AddsUp is the self-check of penalty analysis: both penalties together must be
// the mean liking of just right less that of all. True where there is no
// just-right group to compare with.
func (a *Attribute) AddsUp() bool {
	if a.Right.N == 0 {
		return true
	}
	gap := a.Total - (a.Right.Mean - a.Mean)
	return math.Abs(gap) <= 1e-9*(1+math.Abs(a.Right.Mean)+math.Abs(a.Mean))
}

// adjust puts Holm's p over all sides that can be tested into them.
func (r *Result) adjust() {
	var p []float64
	for i := range r.Attributes {
		p = append(p, r.Attributes[i].Little.Welch.P, r.Attributes[i].Much.Welch.P)
	}
	p = stats.Holm(p)
	for i := range r.Attributes {
		r.Attributes[i].Little.Holm, r.Attributes[i].Much.Holm = p[2*i], p[2*i+1]
	}
}

// even is the exact two-sided chance of so uneven a split of a and b if both
// were as likely; 1 for nobody.
func even(a, b int) float64 {
	n := float64(a + b)
	all, _ := math.Lgamma(n + 1)
	sum := 0.0
	for k := range min(a, b) + 1 {
		x, _ := math.Lgamma(float64(k) + 1)
		y, _ := math.Lgamma(n - float64(k) + 1)
		sum += math.Exp(all - x - y - n*math.Ln2)
	}
	return math.Min(1, 2*sum)
}
