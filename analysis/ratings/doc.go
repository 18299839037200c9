// Package ratings analyses scores given to samples (liking, how strong a taste
// is): what one tasting or several say of the samples, and what each swap does to
// the score. It reads SCORES.csv and SWAPS.csv and gives numbers, codes and
// phrases. Pure: the same tables give the same report.
//
// # The model
//
// A block is one panelist in one tasting. The model "blocks" is score = block +
// sample + error by least squares with everything fixed, so that neither a
// panelist's level nor an evening's is mistaken for a sample's. A term is tested
// given all terms that do not contain it (Type II), against the residual.
// Adjusted means give each block the same weight. Missing servings leave every
// difference unbiased; a panelist with a single score adds nothing to them.
// Samples that no chain of panelists joins are not compared: null.
//
// # Swaps
//
// Score = block + the effects of the swaps that are on + pot + error. What can
// be told apart is decided in whole numbers, never by a small one. A pot is one
// cooking of a sample: the rows of one sample with one name in the column pot,
// and where the name is blank those of one tasting.
//
// Where no sample was cooked twice, standard errors use the residual of block +
// sample, and the note "one_pot_each" says that they cannot hold what a good or
// bad pot does. Where some sample was, pots are random: the estimates stay least
// squares; their variance is a·MSb + b·MSr, MSr being the residual of block +
// pot and MSb the mean square of pots around the swap model (so that both pots
// of one version and versions that miss the sum of their swaps count), taken no
// smaller than MSr; a and b come from the design, and the degrees of freedom are
// Satterthwaite's. Where all panelists taste all pots this is exact t on the
// pots' degrees of freedom. The pots' SD is sqrt((MSb-MSr)/n), at least 0.
//
// Lack of fit tests whether versions miss the sum of their swaps, against the
// residual, or, where pots are known, against what they make of such a mean
// square. "No lack of fit found" never means that swaps do not interact.
//
// Share of 90 % intervals that contain the truth, over 2,500 simulated tastings of
// six versions and four swaps (24 tasters, scatter 0.95; 16 on the two
// evenings; the test TestSwapIntervalsCover):
//
//	one pot each, no pot-to-pot difference     89.6 %   width 0.59
//	a fifth of the servings missing            89.6 %   0.69
//	pots' SD 0.3, each version cooked once     62.9 %   0.59, and the note
//	pots' SD 0.3, every version cooked twice   89.8 %   0.86
//	pots' SD 0.3, one version cooked twice     95.8 %   1.78
//	pots' SD 0.3, same versions on 2 evenings  91.1 %   0.95
//	no pot-to-pot difference, all cooked twice 95.9 %   0.53
//	no pot-to-pot difference, 2 df for pots    99.8 %   1.34
//
// The last two are wide on purpose: pots that happen to agree are not believed.
//
// # The report as JSON
//
// The keys are those of `parewell analyse --json`: results[] with attribute,
// panelists, servings, model, samples[name n mean adjusted_mean se low high],
// anova{sample panelist tasting residual}, pairs[a b difference se p_tukey low
// high], against_original[sample difference se p_dunnett low high
// equivalent{margin p}], friedman{chi2 df p}, mixed, swaps[swap effect se low
// high level p p_holm estimable tied_to pots], lack_of_fit{f df1 df2 p}. What
// cannot be reckoned is null; swaps and lack_of_fit are absent without a table
// of swaps, and lack_of_fit is null with df1 0. Beside them stand:
//
//   - original; residual_sd; notes: codes of [Result.Explain]; blank: rows
//     without a score; p_holm: of the samples' p over the attributes (several);
//   - samples[].distribution[score count];
//   - against_original[].equivalent.p_holm: over all samples, as worded;
//   - dunnett_error: numerical error to allow for in p_dunnett, 0 when exact;
//   - friedman.exact (null when too long to count), friedman.w (Kendall);
//   - mixed: panelist random, REML, Satterthwaite: var_panelist, var_residual,
//     boundary (that variance is 0; the fixed model is then the answer),
//     samples[name adjusted_mean se df], against_original[sample difference se
//     df p], test{f df1 df2 p}, and with swaps[swap effect se df p];
//   - order, when positions are given: position{df ss f p},
//     first_vs_later{estimate se df p}, carryover{df ss f p} (score of later
//     positions on what came before), samples[name adjusted_mean] for it;
//   - swaps[].df, servings, reason ("never_on", "always_on", "tied", or "");
//   - together[swaps effect se low high p]: swaps that were never apart;
//   - mixed_up[swap with]: swaps that could not be told from the cook, the day
//     or the position ("cook", "day", "position");
//   - pots{count replicated df sd n}, null without any;
//   - interactions[a b effect se df p p_holm]: pairs that get in each other's
//     way, where the versions can show them;
//   - not_served: versions of SWAPS.csv without a score.
//
// Attributes are families of their own: Tukey, Dunnett and Holm hold within one.
package ratings
