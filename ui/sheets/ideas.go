package sheets

import (
	"slices"

	"parewell/analysis/effects"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
)

// Sources are the nutrients the page can say the sources of.
var Sources = []food.Nutrient{food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sodium, food.Sugars}

// SourceRow is one ingredient's share of a nutrient in the original.
type SourceRow struct {
	Line  recipes.ID
	Name  string
	Share float64 // 0-1 of the known total
	Value string
	Note  string
	Loud  bool // not known
}

// traceShare is the share below which an ingredient is no source: it would be
// printed as 0.0 %.
const traceShare = 0.0005

// Sources says where the original's nutrient comes from, largest first; an
// ingredient that holds none, or a trace, is left out, one that is not known
// comes last.
func (x *Bench) Sources(n food.Nutrient) []SourceRow {
	n = x.units.Of(n)
	var out []SourceRow
	for _, c := range x.Original().Contributions(n) {
		row := SourceRow{Line: c.Line.ID, Name: LineName(c.Line), Share: c.Share}
		switch {
		case !c.Known:
			row.Value, row.Note, row.Loud = words.Unknown, words.Say("sources.unknown"), true
		case c.Amount <= 0 || c.Share < traceShare:
			continue
		default:
			row.Value, row.Note = words.Say("sources.share", words.Share(c.Share)), x.servingAmount(c.Amount/x.Recipe.Servings, n)
		}
		out = append(out, row)
	}
	return out
}

func (x *Bench) servingAmount(v float64, n food.Nutrient) string {
	s := x.as(n)
	return words.Number(v*s.times, s.decimals) + " " + s.unit
}

// SourceTitle heads the list: "Where the original's calories are".
func (u Units) SourceTitle(n food.Nutrient) string { return words.Say("sources.title." + u.source(n)) }

// SourceName is a nutrient as the cook picks it.
func (u Units) SourceName(n food.Nutrient) string { return words.Say("sources.name." + u.source(n)) }

func (u Units) source(n food.Nutrient) string {
	if u.salt && n == food.Sodium {
		return SaltKey
	}
	return n.Key()
}

// IdeaCard is one idea of the catalogue for an ingredient, with what it would
// do to this dish.
type IdeaCard struct {
	Key      string // of the catalogue's entry
	Title    string
	Figures  []Figure // changes a serving
	Rises    string   // what it makes worse, "" for nothing
	Says     []Passage
	Cautions []string
	Taken    *recipes.Swap // the swap already made of it, nil if none
	Fitted   effects.Fitted
}

// Figure is a change with its name: "energy" "–143 kcal (–21 %)".
type Figure struct {
	Name, Text string
	Lighter    bool
	Heavier    bool
}

// ideaFigures are the changes an idea is judged by.
var ideaFigures = []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium}

// IdeaCards lays out the ideas for one line. swaps are the recipe's own, so
// that an idea already taken is known.
func (u Units) IdeaCards(fitted []effects.Fitted, swaps []*recipes.Swap) []IdeaCard {
	var out []IdeaCard
	for _, f := range fitted {
		e := f.Idea.Entry
		c := IdeaCard{Key: e.ID, Title: f.Idea.Title(), Fitted: f, Rises: u.slipped(f.Effect.Slips)}
		for _, n := range u.all(ideaFigures) {
			c.Figures = append(c.Figures, u.as(n).figure(f.Effect.Changes[n]))
		}
		c.addFact("swap.works-in", e.WorksIn)
		c.addFact("swap.fails-when", e.FailsWhen)
		c.addFact("swap.function", e.Function)
		c.addFact("swap.lost", ideas.AllergenWords(f.Effect.Lost))
		c.Cautions = cautionLines(f.Idea.Cautions)
		if i := slices.IndexFunc(swaps, func(s *recipes.Swap) bool { return takenFrom(s, f) }); i >= 0 {
			c.Taken = swaps[i]
		}
		out = append(out, c)
	}
	return out
}

func (c *IdeaCard) addFact(key, text string) {
	if text != "" {
		c.Says = append(c.Says, Passage{Head: words.Say(key), Text: text})
	}
}

// takenFrom tells whether a swap was made of an idea for the same line.
func takenFrom(s *recipes.Swap, f effects.Fitted) bool {
	return s.Idea == f.Idea.Entry.ID && slices.Contains(s.Touches(), f.Idea.Line.ID)
}

// EffectLine says in one line what a swap does to a serving of the original,
// for an editor: "energy –143 kcal (–21 %) · fat ...".
func (u Units) EffectLine(e *effects.Effect) string {
	out := ""
	for i, n := range u.all(SwapFigures) {
		if i > 0 {
			out += "  ·  "
		}
		f := u.as(n).figure(e.Changes[n])
		out += f.Name + " " + f.Text
	}
	return out
}

// TickChoices are the versions a swap can be ticked in: ID and words.
func TickChoices(versions []*recipes.Version) [][2]string {
	var out [][2]string
	for _, v := range versions {
		out = append(out, [2]string{string(v.ID), LetterName(v)})
	}
	return out
}
