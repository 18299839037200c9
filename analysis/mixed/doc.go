// Package mixed fits linear mixed models to scores: fixed effects (versions,
// swaps, positions) plus random levels of tasters, pots and the like, which may
// be crossed or nested. It is pure: no files, no clock, no randomness.
//
// The variances are found by restricted maximum likelihood (REML; Patterson &
// Thompson 1971, Biometrika 58:545): the deviance with the residual variance
// profiled out is minimised by Newton steps on the observed information until
// nothing moves. Degrees of freedom are Satterthwaite's, with the inverse
// observed information of the variances (doi 10.18637/jss.v082.i13); several
// rows are tested together as Fai & Cornelius 1996 (J. Stat. Comput. Simul.
// 54:363) have it.
//
// A variance whose likelihood is highest at 0 is set to 0 and named in
// [Model.AtZero]: the model is then the one without that factor, degrees of
// freedom included, and whoever shows the result must say so.
//
// # Cost
//
// After one pass over the rows everything runs on cross-products. The factor
// with most levels is taken out first, its part of the equations being diagonal;
// what remains is solved densely. One factor of any size is therefore quick, and
// so are a large nested one and some small ones.
package mixed
