package book

import (
	"cmp"

	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/food"
)

// tasted is what the closed tastings of a recipe's present edition say.
type tasted struct {
	pool     *outcome.Pool
	report   *ratings.Report
	liked    string           // the question of liking as a whole; "" none was asked
	score    string           // the question swaps are judged by: liking unless another is wanted
	evidence *ledger.Evidence // of that score; nil where it could not be worked out
	table    *ledger.Table    // of that score, by energy; nil likewise
}

// tastedOf works the tastings out, every question or that of liking alone; nil
// where none is closed or its scores cannot be analysed. score is the question that
// swaps are judged by, "" for liking.
func tastedOf(b *recipes.Book, r *recipes.Recipe, all bool, score string) *tasted {
	p, err := outcome.PoolOf(b, r.ID)
	if err != nil {
		return nil
	}
	x := &tasted{pool: p, liked: likedAs(p)}
	x.score = cmp.Or(score, x.liked)
	o := ratings.Options{Original: p.Original(), Limit: p.Limit}
	if !all {
		o.Attribute = x.score
	}
	if x.report, err = ratings.Analyse(p.Table, o); err != nil {
		return nil
	}
	res := x.result(x.score)
	if res == nil {
		return x
	}
	if x.evidence, err = outcome.EvidenceOf(b, r, p, res); err != nil {
		x.evidence = nil
		return x
	}
	if x.table, err = ledger.Judge(x.evidence, food.EnergyKcal.Key()); err != nil {
		x.table = nil
	}
	return x
}

// countBy sets what swaps take off as a kitchen counts it, so that the table says
// the same of a swap as every figure beside it. Sums over several swaps are left
// out: no figure shows any.
func (x *tasted) countBy(k nutrition.Kitchen, b *recipes.Book, r *recipes.Recipe) {
	if x.evidence == nil {
		return
	}
	x.evidence.Together = nil
	name := outcome.LineNames(b, r)
	for i, s := range b.Swaps(r.ID) {
		savings, err := k.Alone(r, s)
		if err != nil {
			x.table = nil // never two ways of counting side by side
			return
		}
		of := map[string]ledger.Saving{}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			of[n.Key()] = outcome.SavingOf(savings.Of(0, n), name)
		}
		x.evidence.Swaps[i].Savings = of
	}
	var err error
	if x.table, err = ledger.Judge(x.evidence, food.EnergyKcal.Key()); err != nil {
		x.table = nil
	}
}

// likedAs is the first question of liking that the tastings asked.
func likedAs(p *outcome.Pool) string {
	for _, t := range p.Tastings {
		for _, a := range t.Attributes {
			if a.Kind == recipes.AskLiking {
				return a.Name
			}
		}
	}
	return ""
}

// result is the analysis of one question, nil where there is none.
func (x *tasted) result(asked string) *ratings.Result {
	for _, r := range x.report.Results {
		if r.Attribute == asked {
			return r
		}
	}
	return nil
}
