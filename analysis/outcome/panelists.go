package outcome

import (
	"parewell/analysis/ratings"
	"parewell/analysis/sensory"
	"parewell/recipes"
)

// Askable counts the people whom the cook can ask to taste: those the planner
// invites when nothing else is said.
func Askable(b *recipes.Book) int {
	n := 0
	for _, p := range b.Panelists() {
		if !p.Removed {
			n++
		}
	}
	return n
}

// Overall tells whether an attribute is how much a sample is liked, all in all: the
// one the limit is about.
func (p *Pool) Overall(attribute string) bool {
	for _, t := range p.Tastings {
		if len(t.Attributes) > 0 && t.Attributes[0].Kind == recipes.AskLiking && t.Attributes[0].Name == attribute {
			return true
		}
	}
	return false
}

// Scatter is how far scores of liking of a recipe scatter round each taster's own
// level, in points: as its closed tastings show it, or as is usual where they do
// not. Whatever is said of a tasting before it is held goes by this.
func Scatter(b *recipes.Book, recipe recipes.ID) float64 {
	p, err := PoolOf(b, recipe)
	if err != nil || p.Table.Swaps == nil {
		return sensory.UsualScatter
	}
	all := p.Attributes()
	if len(all) == 0 || !p.Overall(all[0]) {
		return sensory.UsualScatter
	}
	report, err := ratings.SwapEffects(p.Table, ratings.Options{Original: p.Original(), Attribute: all[0]})
	if err != nil || report.Results[0].Effects == nil || !(report.Results[0].Effects.ResidualSD > 0) {
		return sensory.UsualScatter
	}
	return report.Results[0].Effects.ResidualSD
}
