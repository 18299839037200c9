package sheets

import (
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// byLimit says of each version whether the limit was kept, in the words and by the
// verdict of Keep or drop; nothing where no limit was set, or the recipe is of
// another edition by now.
func (r *Results) byLimit() []string {
	t := r.Tasting
	recipe := r.Book.Recipe(t.Recipe)
	if t.Limit <= 0 || recipe == nil || recipe.Edition != t.Edition {
		return nil
	}
	table := r.judged(recipe)
	if table == nil || len(table.Wholes) == 0 {
		return nil
	}
	key, others := "results.limit", 0
	for _, x := range r.Book.TastingsOf(t.Recipe) {
		if x.ID != t.ID && x.State == recipes.TastingClosed && outcome.Rated(x) && x.Edition == t.Edition {
			others++
		}
	}
	if others > 0 {
		key = "results.limit.alone"
	}
	var out []string
	for i := range table.Wholes {
		out = append(out, table.Wholes[i].Line().String())
	}
	return []string{words.Say(key, strings.Join(out, "; "))}
}

// judged is the table of Keep or drop from this tasting alone, nil where nothing can
// be judged.
func (r *Results) judged(recipe *recipes.Recipe) *ledger.Table {
	p := r.sitting.Pool
	if p.Table.Swaps == nil {
		return nil
	}
	report, err := ratings.SwapEffects(p.Table, ratings.Options{Original: p.Original(), Limit: r.Tasting.Limit})
	if err != nil {
		return nil
	}
	for _, res := range report.Results {
		if !r.overall(res.Attribute) {
			continue
		}
		if res.Samples == nil {
			res.Samples = counted(p.Table, res.Attribute)
		}
		e, err := outcome.EvidenceOf(r.Book, recipe, p, res)
		if err != nil {
			return nil
		}
		if table, err := ledger.Judge(e, food.EnergyKcal.Key()); err == nil {
			return table
		}
	}
	return nil
}
