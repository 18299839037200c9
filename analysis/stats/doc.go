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
// and chi-square tails are good to 1e-10 relative, Tukey's and one-factor
// Dunnett's to 1e-9; see [DunnettAbove] for other correlations. Means, spreads,
// analysis of variance and least squares run in double-double arithmetic (about
// 31 digits).
package stats
