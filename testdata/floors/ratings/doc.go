// Package ratings holds swap effects and their lack of fit against the same
// model in R:
//
//	go test -tags floors -count=1 -v ./testdata/floors/ratings
//	go test -tags floors -run xxx -bench BesideR -benchtime 1x ./testdata/floors/ratings
//
// Measured 25 November 2026, two cores with other work on them, 200 panelists x
// 12 versions x 6 attributes, 8 swaps; R 4.2.2, lme4 1.1-31; medians of five turns
// in R and eleven here. The budget is 50 ms and 20 times faster than lm:
//
//	                         R lm     R lmer   ours     lm / ours
//	complete                 645 ms   143 ms   6.3 ms   102
//	a tenth of them missing  529 ms   131 ms   8.5 ms    62
//
// lm does effects and lack of fit, as ours does; lmer effects alone (23 and 15
// times). Coefficients agree to 6e-13 (lm) and 2e-9 (lmer).
package ratings
