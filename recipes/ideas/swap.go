package ideas

import (
	"math"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Swap makes the swap of the idea for a line: id is the new swap's, line the
// original's line it is for (the idea's own, or one like it). Weights of new
// lines are rounded as a cook weighs. Foods must be pinned with it.
func (x Idea) Swap(id recipes.ID, line *recipes.Line) *recipes.Swap {
	e := x.Entry
	s := &recipes.Swap{
		ID: id, Name: x.Title(), Idea: e.ID,
		Function: e.Function, WorksIn: e.WorksIn, FailsWhen: e.FailsWhen,
		Ops: append([]recipes.Op{x.op(line)}, x.steps...),
	}
	if e.Ladder != "" {
		s.Ladder, s.Strength = e.Ladder+":"+string(line.ID), e.Strength
	}
	if e.Step != "" && x.after != "" {
		s.Ops = append(s.Ops, recipes.Op{Kind: recipes.OpStepAdd, Step: x.after, Text: e.Step})
	} else {
		s.Note = e.Step
	}
	return s
}

// SwapFor is Swap for the idea's own line, of the recipe it was fitted to.
func (x Idea) SwapFor(id, recipe recipes.ID) *recipes.Swap {
	s := x.Swap(id, x.Line)
	s.Recipe = recipe
	return s
}

// op is the idea's one operation on the line.
func (x Idea) op(line *recipes.Line) recipes.Op {
	e := x.Entry
	switch {
	case e.Kind == LeaveOut:
		return recipes.Op{Kind: recipes.OpRemove, Line: line.ID}
	case e.Kind == Replace:
		lines := append([]*recipes.Line{x.instead(line)}, x.helpers(e.Share)...)
		return recipes.Op{Kind: recipes.OpExchange, Line: line.ID, Share: e.Share, Lines: lines}
	case len(e.Helpers) > 0 && line.Known():
		gone := 1 - e.Factor()
		return recipes.Op{Kind: recipes.OpExchange, Line: line.ID, Share: gone, Lines: x.helpers(gone)}
	}
	return recipes.Op{Kind: recipes.OpMultiply, Line: line.ID, Factor: e.Factor()}
}

func (x Idea) helpers(share float64) []*recipes.Line {
	var out []*recipes.Line
	for _, h := range x.Entry.Helpers {
		out = append(out, x.line(h.Food, h.Name, x.grams*share*h.PerGram))
	}
	return out
}

// instead is the line that takes the old one's place. A liquid measured in
// millilitres is measured so again where one that pours goes in one for one.
func (x Idea) instead(line *recipes.Line) *recipes.Line {
	e := x.Entry
	n := x.line(e.To, e.ToName, x.grams*e.Share*e.Ratio)
	if e.ByVolume && line.Unit == "ml" && line.Amount > 0 && e.Ratio == 1 && e.To.Density > 0 {
		n.Amount, n.Unit = line.Amount*e.Share, "ml"
		n.Grams, n.GramsFrom = n.Amount*e.To.Density, recipes.GramsDensity
		n.Text = words.Say("ideas.line.ml", words.Trim(n.Amount, 0), e.ToName)
	}
	return n
}

// line is a new ingredient: weighed, settled, eaten and cooked as the old one.
func (x Idea) line(f *food.Food, name string, grams float64) *recipes.Line {
	g := kitchenGrams(grams)
	return &recipes.Line{
		Section: x.Line.Section, Text: words.Say("ideas.line", words.Grams(g), name), Name: name,
		Amount: g, Unit: "g", Grams: g, GramsFrom: recipes.GramsWeight,
		Food: f.Ref, State: f.State, PartEaten: x.Line.PartEaten, Technique: x.Line.Technique, Settled: true,
	}
}

// kitchenGrams rounds a weight as a cook would weigh it: to 5 g from 100 g, to
// whole grams from 10 g, to half grams from 1 g, else to a tenth.
func kitchenGrams(g float64) float64 {
	step := 0.1
	switch {
	case g >= 100:
		step = 5
	case g >= 10:
		step = 1
	case g >= 1:
		step = 0.5
	}
	return math.Max(step, math.Round(g/step)*step)
}

// Title names the swap in plain words: "strained yogurt for half the double
// cream", "25 % less salt".
func (x Idea) Title() string {
	e, noun := x.Entry, x.Line.Name
	if noun == "" {
		noun = e.FromName
	}
	switch {
	case e.Name != "":
		return strings.ReplaceAll(e.Name, "{0}", noun)
	case e.Kind == LeaveOut:
		return words.Say("ideas.name.without", noun)
	case e.Kind != Replace:
		return words.Say("ideas.name.less", noun, words.Share(1-e.Factor()))
	case e.Share == 1:
		return words.Say("ideas.name.for", e.ToName, noun)
	}
	return words.Say("ideas.name.for-part", e.ToName, noun, part(e.Share))
}

// part says a share as a cook does, "half" or "a third of".
func part(share float64) string {
	for _, p := range []struct {
		share float64
		key   string
	}{{0.25, "quarter"}, {1.0 / 3, "third"}, {0.5, "half"}, {2.0 / 3, "two-thirds"}, {0.75, "three-quarters"}} {
		if math.Abs(share-p.share) < 0.02 {
			return words.Say("ideas.part." + p.key)
		}
	}
	return words.Say("ideas.part.other", words.Share(share))
}
