// Package stats holds the numerics behind the analysis of taste tests: tail
// probabilities and critical points, multiple comparisons, rank tests, t tests
// and least squares. It is pure: no files, no clock, no hidden randomness.
//
// Input that makes no sense (a negative number of degrees of freedom, an
// infinite score, too few values) gives NaN, or a *problem.Error where there is
// an error result; nothing here panics. NaN therefore always means "cannot be
// reckoned" and must be said in words.
//
// # Accuracy
//
// Tails are computed as tails, never as one less the other side. Normal, t, F
// and chi-square tails are good to 1e-10 relative (2e-12 in the worst case tried,
// down to 1e-300), Tukey's and one-factor Dunnett's to 1e-9 (2e-11 tried); see
// [DunnettAbove] for other correlations. Means, spreads, analysis of variance and
// least squares run in double-double arithmetic (about 31 digits). Digits reached
// on the NIST Statistical Reference Datasets, the least over all certified values
// of a set and at most the 15 certified; the tests log them:
//
//	univariate  lower and average difficulty: Mavro 13, Michelso 13, NumAcc1 15,
//	            NumAcc2 15, NumAcc3 9.5; higher: NumAcc4 8.3
//	one-way     lower: SiRstv 13, SmLs01-03 15; average: AtmWtAg 10, SmLs04-06 9.9;
//	            higher: SmLs07-09 3.9
//	regression  lower: Norris 13.7; higher: Longley 14.6, Wampler1 15, Wampler2 13,
//	            Wampler3-5 14, Filip 7.9
//
// What is missing on the hard sets is lost before the sums begin, in rounding the
// input to float64: 1000000000000.4 has no nearer neighbour than 2e-5 away, and
// Filip's tenth powers are rounded ones.
package stats
