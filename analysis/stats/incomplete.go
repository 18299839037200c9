package stats

import "math"

// incomplete is the rank test when tasters had only some of the versions: Durbin's
// where every taster ranked as many, every version was ranked as often and every
// pair met as often (Durbin 1951, Br. J. Psychol. 4:85; with ties by the variance
// of the ranks given, Conover 1999 sec. 5.8), else Skillings and Mack's (1981,
// Technometrics 23:171). Tasters with fewer than two versions say nothing.
func incomplete(rows [][]float64, k int) FriedmanResult {
	r := emptyFriedman()
	var ranks [][]float64
	for _, row := range rows {
		rank, ties := Ranks(row)
		if count(rank) >= 2 {
			ranks = append(ranks, rank)
			r.TieSum += ties
		}
	}
	if len(ranks) == 0 {
		return r
	}
	r.N, r.K, r.Incomplete = len(ranks), k, true
	r.RankSums, r.MeanRanks = make([]float64, k), make([]float64, k)
	for j := range k {
		had := 0
		for _, rank := range ranks {
			if !math.IsNaN(rank[j]) {
				r.RankSums[j] += rank[j]
				had++
			}
		}
		r.MeanRanks[j] = ratio(r.RankSums[j], float64(had))
	}
	if balance(&r, ranks); r.Lambda > 0 {
		r.durbin(ranks)
	} else {
		r.skillingsMack(ranks)
	}
	return r
}

func count(x []float64) int { return len(present(x)) }

// balance fills in the numbers of a balanced plan; Lambda stays 0 if it is none.
func balance(r *FriedmanResult, ranks [][]float64) {
	met := make([][]int, r.K)
	for i := range met {
		met[i] = make([]int, r.K)
	}
	size := count(ranks[0])
	for _, rank := range ranks {
		if count(rank) != size {
			return
		}
		for i, a := range rank {
			for j, b := range rank {
				if !math.IsNaN(a) && !math.IsNaN(b) {
					met[i][j]++
				}
			}
		}
	}
	for i := range met {
		for j := range met {
			if i == j && met[i][i] != met[0][0] || i != j && met[i][j] != met[0][1] {
				return
			}
		}
	}
	r.PerBlock, r.Replicates, r.Lambda = size, met[0][0], met[0][1]
	t, b := float64(r.K), float64(size)
	r.Efficiency = t * (b - 1) / (b * (t - 1))
}

func (r *FriedmanResult) durbin(ranks [][]float64) {
	t, b, rep := float64(r.K), float64(r.PerBlock), float64(r.Replicates)
	sum, squareSum := 0.0, 0.0
	for _, s := range r.RankSums {
		sum += square(s - rep*(b+1)/2)
	}
	for _, rank := range ranks {
		for _, v := range present(rank) {
			squareSum += square(v - (b+1)/2)
		}
	}
	r.DF = t - 1
	r.Uncorrected = 12 * (t - 1) / (rep * t * (b - 1) * (b + 1)) * sum
	r.Tie = squareSum / (float64(r.N) * b * (b*b - 1) / 12)
	if r.Tie > 1e-12 {
		r.Chi2 = r.Uncorrected / r.Tie
		r.P = Chi2Above(r.Chi2, r.DF)
	} else {
		r.Tie = 0
	}
	r.LSD, r.HSD = r.LeastDifferences(lsdLevel, true)
	r.LSDPlain, r.HSDPlain = r.LeastDifferences(lsdLevel, false)
}

// skillingsMack weighs each taster's ranks by sqrt(12/(b+1)) about the middle
// rank and measures the version totals by their own covariances. Versions that
// never met, even through others, lower the degrees of freedom.
func (r *FriedmanResult) skillingsMack(ranks [][]float64) {
	a := make([]float64, r.K)
	cov := make([][]float64, r.K)
	for i := range cov {
		cov[i] = make([]float64, r.K)
	}
	for _, rank := range ranks {
		b := float64(count(rank))
		for i, v := range rank {
			if math.IsNaN(v) {
				continue
			}
			a[i] += math.Sqrt(12/(b+1)) * (v - (b+1)/2)
			for j, w := range rank {
				if i != j && !math.IsNaN(w) {
					cov[i][i]++
					cov[i][j]--
				}
			}
		}
	}
	fit, err := LeastSquares(cov, a)
	if err != nil {
		return
	}
	stat := 0.0
	for j, c := range fit.q.coef {
		stat += a[j] * c.value()
	}
	r.Chi2, r.Uncorrected, r.DF = stat, stat, float64(fit.Rank)
	r.P = Chi2Above(stat, r.DF)
}
