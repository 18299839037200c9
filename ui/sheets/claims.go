package sheets

import (
	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// ClaimSheet is the page of claims for one version: every term by
// every authority, what may be said first.
type ClaimSheet struct {
	Sheet
	Results []claims.Result // by row; rows that are bands have none (Rule is nil)
	May     int
	NeedCup bool
	Asked   []claims.Question // questions whose answer some term waits for
}

// Claims judges a version of the bench; 0 is the original, which can only be
// "low" or "free", never "reduced".
func (x *Bench) Claims(i int) ClaimSheet {
	results := claims.JudgeRecipe(x.book, x.Recipe, x.Versions[i])
	s := ClaimSheet{Sheet: Sheet{Corner: words.Say("claims.page.term"), Columns: []Column{
		{Key: "authority", Title: words.Say("claims.page.authority"), Tight: true, Index: -1},
		{Key: "why", Title: words.Say("claims.page.why"), Index: -1},
		{Key: "section", Title: words.Say("claims.page.section"), Tight: true, Index: -1},
	}}}
	for _, v := range []claims.Verdict{claims.May, claims.CannotDecide, claims.MayNot} {
		s.addVerdict(v, results)
	}
	s.ask(results)
	return s
}

func (s *ClaimSheet) addVerdict(v claims.Verdict, results []claims.Result) {
	n := 0
	for i := range results {
		if results[i].Verdict == v {
			n++
		}
	}
	if n == 0 {
		return
	}
	s.Rows = append(s.Rows, Row{Key: "band." + string(v), Band: true, Label: text(words.Say("claims.page.band", v.Phrase().String(), n))})
	s.Results = append(s.Results, claims.Result{})
	for i := range results {
		if results[i].Verdict == v {
			s.Rows = append(s.Rows, claimRow(&results[i]))
			s.Results = append(s.Results, results[i])
		}
	}
	if v == claims.May {
		s.May = n
	}
}

var claimMark = map[claims.Verdict]Mark{claims.May: Met, claims.CannotDecide: Look, claims.MayNot: Missed}

func claimRow(r *claims.Result) Row {
	section := r.Section
	if r.Status == claims.FromMemory {
		section = words.Say("claims.page.from-memory", section)
	}
	return Row{
		Key:   r.Rule.ID,
		Label: Cell{Text: r.Term.Phrase().String(), Mark: claimMark[r.Verdict], Bar: noBar(), Strong: r.Verdict == claims.May},
		Cells: []Cell{
			text(words.Say("claims.page.by." + string(r.Authority))),
			{Text: r.Why().String(), Wrap: true, Bar: noBar()},
			{Text: section, Muted: true, Wrap: true, Bar: noBar()},
		},
	}
}

// ask gathers what the open verdicts wait for.
func (s *ClaimSheet) ask(results []claims.Result) {
	asked := map[claims.Question]bool{}
	for i := range results {
		for _, m := range results[i].Missing {
			switch m.What {
			case claims.NoDensity:
				s.NeedCup = true
			case claims.NoAnswer:
				asked[m.Question] = true
			}
		}
	}
	for _, q := range claims.Questions {
		if asked[q] {
			s.Asked = append(s.Asked, q)
		}
	}
}

// Block is a headed part of the details of something.
type Block struct {
	Title string
	Lines []string
}

// ClaimDetail says all about one verdict: the sentence, what must be printed
// beside the term, every way that was tried, and where the rule stands.
func ClaimDetail(r *claims.Result, original string) []Block {
	out := []Block{{Title: r.Term.Phrase().String() + " – " + r.Verdict.Phrase().String(), Lines: []string{r.Why().String()}}}
	var needs, missing []string
	for _, n := range r.Needs {
		needs = append(needs, n.Phrase(original).String())
	}
	for _, m := range r.Missing {
		missing = append(missing, m.Phrase().String())
	}
	if len(needs) > 0 {
		out = append(out, Block{Title: words.Say("claims.page.needs"), Lines: needs})
	}
	if len(missing) > 0 {
		out = append(out, Block{Title: words.Say("claims.page.missing"), Lines: missing})
	}
	return append(out, Block{Title: words.Say("claims.page.rule"), Lines: []string{r.Section, r.Rule.Source}})
}

// Headline is one word of a headnote that makes a claim, and what is to be said
// of it.
type Headline struct {
	Word, Says string
	Mark       Mark
}

// Headnote checks the words above a recipe against the numbers of a version.
func (x *Bench) Headnote(i int, headnote string) []Headline {
	us, eu := claims.OfRecipe(x.book, x.Recipe, x.Versions[i])
	bySort := claims.CheckWords(headnote, us, claims.US)
	other := claims.CheckWords(headnote, eu, claims.EU, claims.Codex)
	var out []Headline
	for k := range bySort {
		s := &bySort[k]
		h := Headline{Word: s.Word, Says: s.Says().String(), Mark: headMark(s)}
		if k < len(other) && len(s.Results)+len(other[k].Results) > 0 {
			if eu := other[k].Says().String(); eu != h.Says {
				h.Says = words.Say("claims.page.both", h.Says, eu)
			}
		}
		out = append(out, h)
	}
	return out
}

func headMark(s *claims.Said) Mark {
	switch s.Sort {
	case claims.Health, claims.Disease, claims.WeightLoss, claims.Feeling:
		return Wrong
	case claims.Taste:
		return Look
	}
	mark := Met
	for i := range s.Results {
		if s.Results[i].Verdict != claims.May {
			mark = Look
		}
	}
	if s.Verdict == claims.MayNot {
		return Missed
	}
	return mark
}

// printedNutrients are the figures a label or a page prints.
var printedNutrients = []food.Nutrient{
	food.EnergyKcal, food.Fat, food.SaturatedFat, food.Carbohydrate, food.Sugars, food.Fibre, food.Protein, food.Sodium, food.Cholesterol,
}

// Printed lays out a version's numbers rounded as the US rule and the EU
// guidance print them, per serving and, for the EU, per 100 g as well.
func (x *Bench) Printed(i int) Sheet {
	us := x.rebased(i, nutrition.TableEnergy)
	eu := x.rebased(i, nutrition.EUEnergy)
	s := Sheet{Corner: words.Say("claims.page.printed"), Columns: []Column{
		{Key: "us", Title: words.Say("claims.page.by.us"), Sub: words.Say("versions.corner.serving"), Number: true, Index: -1},
		{Key: "eu", Title: words.Say("claims.page.by.eu"), Sub: words.Say("versions.corner.serving"), Number: true, Index: -1},
		{Key: "eu100", Title: words.Say("claims.page.by.eu"), Sub: words.Say("versions.corner.100g"), Number: true, Index: -1},
	}}
	for _, n := range printedNutrients {
		r := Row{Key: n.Key(), Label: text(words.Say("nutrient." + n.Key()))}
		r.Cells = append(r.Cells, printedCell(us.PerServing(n), n, claims.RoundUS), printedCell(eu.PerServing(n), n, claims.RoundEU), printedCell(eu.Per100g(n), n, claims.RoundEU))
		s.Rows = append(s.Rows, r)
	}
	return s
}

// rebased reckons a version in one energy basis, whatever the workbook's.
func (x *Bench) rebased(i int, basis nutrition.EnergyBasis) *nutrition.Account {
	k := x.Kitchen
	k.Basis = basis
	a := k.Of(x.book.Draft(x.Recipe, x.Versions[i]))
	a.CookedBy = x.Weight
	return a
}

func printedCell(f nutrition.Figure, n food.Nutrient, round func(food.Nutrient, float64) claims.Printed) Cell {
	c := Cell{Number: true, Bar: noBar(), Text: words.Unknown}
	if f.Nowhere {
		return c
	}
	p := round(n, f.Amount)
	if p.Section == "" {
		return Cell{Number: true, Muted: true, Bar: noBar(), Text: words.Say("library.none")}
	}
	c.Text = p.Text + " " + p.Unit
	if f.AtLeast {
		c.Text = words.Say("amount.at-least", c.Text)
	}
	c.Tip = p.Section
	return c
}

// CupField is the weight of a cup for a field, empty when it is not known.
func CupField(g float64) string {
	if g <= 0 {
		return ""
	}
	return words.Field(g, 1)
}
