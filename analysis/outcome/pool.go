// Package outcome brings together what a workbook holds of a recipe's tastings
// and what the analyses need: tables of scores for ratings, evidence for the
// ledger, counts for the tests of trays. It reads closed tastings only.
package outcome

import (
	"slices"
	"time"

	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Pool is every score of liking and how strong things are that counts, of the
// closed tastings of one edition of a recipe.
type Pool struct {
	Book     *recipes.Book
	Recipe   *recipes.Recipe
	Edition  int
	Tastings []*recipes.Tasting // that gave scores, by date
	Table    *ratings.Table
	Swaps    []*recipes.Swap // that were on in something served, by their place; the columns of Table.Swaps
	Names    map[string]recipes.ID
	Limit    float64 // the strictest that was recorded
	Peeked   bool    // results of one were open before another began
	Aside    []Aside
	Knew     []Knew
	Missing  []string // tasters whose seat has no answers at all
}

// Aside is a taster whose scores were set aside, and why.
type Aside struct {
	Tasting recipes.ID
	Taster  string
	Reason  string
	On      string // the day, "" where none was kept
}

// reason is why, with the day where one was kept.
func (a *Aside) reason() string {
	if day, err := time.Parse(time.DateOnly, a.On); err == nil {
		return words.Say("outcome.left-out.on", a.Reason, words.Day(day))
	}
	return a.Reason
}

// Rated tells whether a tasting's answers are scores of samples: those that
// enter the swap analysis.
func Rated(t *recipes.Tasting) bool {
	return t.Test == recipes.TestLiking || t.Test == "just-about-right"
}

// PoolOf gathers the closed tastings of a recipe's present edition, or of the
// ones named alone. It refuses when there is none.
func PoolOf(b *recipes.Book, recipe recipes.ID, only ...recipes.ID) (*Pool, error) {
	r := b.Recipe(recipe)
	if r == nil {
		return nil, problem.New("", words.Say("error.recipe-gone"), words.Say("error.gone.hint"))
	}
	p := &Pool{Book: b, Recipe: r, Edition: r.Edition, Names: map[string]recipes.ID{}}
	for _, t := range b.TastingsOf(recipe) {
		wanted := t.Edition == r.Edition
		if len(only) > 0 {
			wanted = slices.Contains(only, t.ID)
		}
		if wanted && t.State == recipes.TastingClosed && Rated(t) {
			p.Tastings = append(p.Tastings, t)
		}
	}
	if len(p.Tastings) == 0 {
		return nil, problem.New(r.Title, words.Say("outcome.none"), words.Say("outcome.none.hint"))
	}
	p.Table = &ratings.Table{}
	for i, t := range p.Tastings {
		if err := p.take(t); err != nil {
			return nil, err
		}
		if i == 0 || t.Limit > 0 && t.Limit < p.Limit {
			p.Limit = t.Limit
		}
		p.Peeked = p.Peeked || t.Peeked || i > 0 && p.Tastings[i-1].Closed != ""
		if k, ok := KnewOf(b, t); ok {
			p.Knew = append(p.Knew, k)
		}
	}
	if len(p.Table.Scores) == 0 {
		return nil, problem.New(r.Title, words.Say("outcome.empty"), words.Say("outcome.none.hint"))
	}
	p.swaps()
	return p, nil
}

// take adds a tasting's scores, without those of tasters set aside. Answers of
// just about right have a scale of their own and are read by justright.
func (p *Pool) take(t *recipes.Tasting) error {
	rows, err := tasting.Rows(p.Book, t.ID)
	if err != nil {
		return err
	}
	for _, s := range t.Seats {
		if x := p.Book.Panelist(s.Panelist); x != nil && x.Aside[t.ID] != "" {
			p.Aside = append(p.Aside, Aside{t.ID, x.Code, x.Aside[t.ID], x.AsideOn[t.ID]})
		}
	}
	seen := map[[3]string]int{}
	for _, r := range rows {
		a, ok := t.Attribute(r.Attribute)
		if x := p.Book.Panelist(r.Panelist); !ok || a.Kind == recipes.AskJustRight || x.Aside[t.ID] != "" {
			continue
		}
		s := p.Book.Sample(t.ID, r.Sample)
		key := [3]string{string(r.Panelist), r.Name, r.Attribute}
		seen[key]++
		p.Names[r.Name] = r.Version
		p.Table.Scores = append(p.Table.Scores, ratings.Score{
			Tasting: string(t.ID), Panelist: string(r.Panelist), Sample: r.Name, Attribute: r.Attribute, Value: r.Score,
			Pot: r.Pot, Replicate: words.Trim(float64(seen[key]), 0), Position: r.Position, Cook: s.Cook, Day: s.Cooked,
		})
	}
	return nil
}

// swaps fills in which swaps were on in each sample, from the served records.
func (p *Pool) swaps() {
	on := map[string]map[recipes.ID]bool{}
	dish := map[string]bool{}
	for _, t := range p.Tastings {
		for _, s := range tasting.InOrder(p.Book, t.ID) {
			name := tasting.NameOf(p.Book, t, s)
			dish[name] = s.Dish != ""
			if s.Served == nil || on[name] != nil {
				continue
			}
			on[name] = map[recipes.ID]bool{}
			for _, x := range s.Served.Swaps {
				on[name][x.ID] = true
			}
		}
	}
	for _, s := range p.Book.Swaps(p.Recipe.ID) {
		for _, m := range on {
			if m[s.ID] {
				p.Swaps = append(p.Swaps, s)
				break
			}
		}
	}
	if len(p.Swaps) == 0 {
		return
	}
	table := &ratings.Swaps{}
	for _, s := range p.Swaps {
		table.Names = append(table.Names, uniqueName(table.Names, s))
	}
	for _, name := range p.Table.Samples() {
		table.Samples = append(table.Samples, name)
		var row []bool
		if !dish[name] {
			row = make([]bool, len(p.Swaps))
			for i, s := range p.Swaps {
				row[i] = on[name][s.ID]
			}
		}
		table.On = append(table.On, row)
	}
	p.Table.Swaps = table
}

// uniqueName is the swap's name; one that another has too gets its ID behind it.
func uniqueName(have []string, s *recipes.Swap) string {
	if slices.Contains(have, s.Name) {
		return s.Name + " (" + string(s.ID) + ")"
	}
	return s.Name
}

// CookedOnce are the samples that were scored from one pot only, by their names.
func (p *Pool) CookedOnce() []string {
	pots := map[string]map[string]bool{}
	for i := range p.Table.Scores {
		s := &p.Table.Scores[i]
		if pots[s.Sample] == nil {
			pots[s.Sample] = map[string]bool{}
		}
		pots[s.Sample][s.Tasting+"/"+s.Pot] = true
	}
	return slices.DeleteFunc(slices.Clone(p.Table.Samples()), func(name string) bool { return len(pots[name]) != 1 })
}

// TastersKnew tells whether at one of the tastings more knew the usual recipe than
// guessing explains.
func (p *Pool) TastersKnew() bool {
	return slices.ContainsFunc(p.Knew, func(k Knew) bool { return k.Told() })
}

// Original is the name that the original has among the samples.
func Original() string { return words.Say("the-original") }

// Panelists counts the people whose scores are in the pool.
func (p *Pool) Panelists() int {
	seen := map[string]bool{}
	for i := range p.Table.Scores {
		seen[p.Table.Scores[i].Panelist] = true
	}
	return len(seen)
}

// Attributes lists what was scored, in the order it was asked: liking as a whole
// comes first.
func (p *Pool) Attributes() []string {
	var out []string
	scored := p.Table.Attributes()
	for _, t := range p.Tastings {
		for _, a := range t.Attributes {
			if slices.Contains(scored, a.Name) && !slices.Contains(out, a.Name) {
				out = append(out, a.Name)
			}
		}
	}
	return out
}
