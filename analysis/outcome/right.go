package outcome

import (
	"slices"

	"parewell/analysis/justright"
	"parewell/analysis/panel"
	"parewell/recipes"
	"parewell/recipes/tasting"
)

// RightOf is how one sample's named things were found: too little, just right,
// too much, and what went with it in liking.
type RightOf struct {
	Name   string // of the sample
	Asked  []string
	Counts map[string][5]int // answers 1 to 5 by what was asked
	Result *justright.Result // nil when there is too little to reckon with
}

// rightRow is one taster's answers on one sample.
type rightRow struct {
	liking float64
	known  bool
	said   map[string]int
}

// RightsOf reads the answers of just about right of a closed tasting, a sample
// each in the plan's order. Tasters set aside are left out.
func RightsOf(b *recipes.Book, t *recipes.Tasting) ([]RightOf, error) {
	rows, err := tasting.Rows(b, t.ID)
	if err != nil {
		return nil, err
	}
	var asked []string
	overall := ""
	for _, a := range t.Attributes {
		switch {
		case a.Kind == recipes.AskJustRight:
			asked = append(asked, a.Name)
		case a.Kind == recipes.AskLiking && overall == "":
			overall = a.Name
		}
	}
	if len(asked) == 0 {
		return nil, nil
	}
	by := map[string]map[recipes.ID]*rightRow{}
	for _, r := range rows {
		if b.Panelist(r.Panelist).Aside[t.ID] != "" {
			continue
		}
		if by[r.Name] == nil {
			by[r.Name] = map[recipes.ID]*rightRow{}
		}
		at := by[r.Name][r.Panelist]
		if at == nil {
			at = &rightRow{said: map[string]int{}}
			by[r.Name][r.Panelist] = at
		}
		if r.Attribute == overall {
			at.liking, at.known = r.Score, true
		} else if slices.Contains(asked, r.Attribute) {
			at.said[r.Attribute] = int(r.Score)
		}
	}
	var out []RightOf
	for _, s := range tasting.InOrder(b, t.ID) {
		name := tasting.NameOf(b, t, s)
		if people := by[name]; people != nil && !slices.ContainsFunc(out, func(x RightOf) bool { return x.Name == name }) {
			out = append(out, rightOf(name, asked, people))
		}
	}
	return out, nil
}

func rightOf(name string, asked []string, people map[recipes.ID]*rightRow) RightOf {
	x := RightOf{Name: name, Asked: asked, Counts: map[string][5]int{}}
	var liking []float64
	answers := make([][]int, len(asked))
	for _, id := range sortedIDs(people) {
		row := people[id]
		for i, a := range asked {
			if v := row.said[a]; v >= 1 && v <= 5 {
				c := x.Counts[a]
				c[v-1]++
				x.Counts[a] = c
			}
			if row.known {
				answers[i] = append(answers[i], row.said[a])
			}
		}
		if row.known {
			liking = append(liking, row.liking)
		}
	}
	var questions []justright.Question
	for i, a := range asked {
		questions = append(questions, justright.Question{Attribute: a, Answers: answers[i]})
	}
	if r, err := justright.Analyse(liking, questions...); err == nil {
		x.Result = r // too few or all alike: the counts alone are shown
	}
	return x
}

func sortedIDs[V any](m map[recipes.ID]V) []recipes.ID {
	ids := make([]recipes.ID, 0, len(m))
	for id := range m {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// PanelOf looks at how the tasters of a pool used the scale for one attribute.
// A sample from two pots is a repeat.
func PanelOf(p *Pool, attribute string) (*panel.Panel, error) {
	var scores []panel.Score
	for i := range p.Table.Scores {
		s := &p.Table.Scores[i]
		if s.Attribute == attribute {
			scores = append(scores, panel.Score{Panelist: s.Panelist, Sample: s.Sample, Value: s.Value})
		}
	}
	return panel.Analyse(scores)
}
