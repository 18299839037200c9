package sheets

import (
	"math"

	"parewell/analysis/effects"
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// Proposal is one difference between a pasted draft and the original, as a swap
// that may be taken.
type Proposal struct {
	Swap *recipes.Swap
	On   bool
}

// Proposals gives the differences IDs; all are taken until the cook says no.
func Proposals(swaps []recipes.Swap, newID func() recipes.ID) []Proposal {
	var out []Proposal
	for i := range swaps {
		s := swaps[i]
		s.ID = newID()
		out = append(out, Proposal{Swap: &s, On: true})
	}
	return out
}

// TakenOf returns the swaps of the proposals that are on.
func TakenOf(all []Proposal) []*recipes.Swap {
	var out []*recipes.Swap
	for _, p := range all {
		if p.On {
			out = append(out, p.Swap)
		}
	}
	return out
}

// JoinProposals makes one of proposals i and the one before it; false, with the
// list as it was, where there is none or they cannot both be.
func JoinProposals(all []Proposal, i int) ([]Proposal, bool) {
	if i < 1 || i >= len(all) || recipes.Alternatives(all[i-1].Swap, all[i].Swap) != recipes.NoClash {
		return all, false
	}
	a := *all[i-1].Swap
	a.Name = words.Join([]string{a.Name, all[i].Swap.Name})
	a.Ops = append(append([]recipes.Op(nil), a.Ops...), all[i].Swap.Ops...)
	out := append([]Proposal(nil), all[:i-1]...)
	out = append(out, Proposal{Swap: &a, On: all[i-1].On || all[i].On})
	return append(out, all[i+1:]...), true
}

// DraftSheet is what a lighter draft comes to.
type DraftSheet struct {
	Sheet
	Total string   // the version all taken ones make
	Rises string   // what it makes worse
	Notes []string // what was not understood, or needs looking at
}

// draftFigures are the columns of the draft's table.
var draftFigures = []food.Nutrient{food.EnergyKcal, food.Sodium}

// DraftOf lays out the proposals against the original r; servings is what the
// new version is to serve, 0 for the original's.
func (u Units) DraftOf(r *recipes.Recipe, foods nutrition.Foods, all []Proposal, servings float64) DraftSheet {
	s := DraftSheet{Sheet: Sheet{Corner: words.Say("draft.corner")}}
	s.Columns = []Column{{Key: "take", Title: words.Say("draft.take"), Index: -1}}
	for _, n := range u.all(draftFigures) {
		as := u.as(n)
		s.Columns = append(s.Columns, Column{Key: n.Key(), Index: -1, Number: true, Title: as.name, Sub: words.Say("swaps.per-serving", as.unit)})
	}
	s.Columns = append(s.Columns, Column{Key: "does", Title: words.Say("draft.does"), Index: -1})
	for i := range all {
		s.Rows = append(s.Rows, u.proposalRow(r, foods, &all[i]))
	}
	scaleBars(s.Rows, 1, len(draftFigures))
	before := nutrition.Of(recipes.Compose(r, nil, nil), foods)
	after := nutrition.Of(recipes.Compose(r, &recipes.Version{Servings: servings}, TakenOf(all)), foods)
	change := func(n food.Nutrient) nutrition.Change { return nutrition.Compare(before, after, n) }
	energy, sodium := u.Of(food.EnergyKcal), u.as(food.Sodium)
	s.Total = words.Say("draft.total", u.energy(after.PerServing), u.as(energy).change(change(energy)),
		u.as(food.Fat).with(change(food.Fat)), sodium.name, sodium.with(change(food.Sodium)))
	s.Rises = u.slipped(nutrition.Slips(before, change))
	return s
}

func (u Units) proposalRow(r *recipes.Recipe, foods nutrition.Foods, p *Proposal) Row {
	row := Row{Key: string(p.Swap.ID), Label: Cell{Text: p.Swap.Name, Editable: true, Wrap: true, Muted: !p.On, Bar: noBar()}}
	tick := Cell{Tick: TickOff, Bar: noBar()}
	if p.On {
		tick.Tick = TickOn
	}
	row.Cells = append(row.Cells, tick)
	e, err := effects.Of(r, p.Swap, foods)
	for _, n := range u.all(draftFigures) {
		c := Cell{Text: words.Unknown, Number: true, Bar: noBar()}
		if err == nil {
			c.Text, c.Tip = u.as(n).short(e.Changes[n]), u.as(n).change(e.Changes[n])
			if pc := e.Changes[n].Percent; !math.IsNaN(pc) {
				c.Bar = math.Max(-1, math.Min(1, pc/100))
			}
		}
		row.Cells = append(row.Cells, c)
	}
	does := ""
	for i := range p.Swap.Ops {
		does = joinLines(does, OpText(r, &p.Swap.Ops[i]))
	}
	row.Cells = append(row.Cells, Cell{Text: does, Muted: true, Wrap: true, Bar: noBar()})
	if doubt := swapDoubts(p.Swap); doubt != "" {
		row.Label.Mark, row.Label.Tip = Look, doubt
	}
	return row
}

func joinLines(a, b string) string {
	if a == "" {
		return b
	}
	return a + "\n" + b
}

// swapDoubts says what is not sure about the ingredients a swap brings.
func swapDoubts(s *recipes.Swap) string {
	out := ""
	for _, o := range s.Ops {
		for _, l := range o.Lines {
			if l.Status() != recipes.StatusMatched {
				out = joinLines(out, words.Say("draft.doubt", LineName(l), DoubtText(l)))
			}
		}
	}
	return out
}

// DraftNotes says what of a draft was not understood: text left out, doubtful
// ingredients, more recipes in the same text.
func DraftNotes(d *reading.Draft, all []Proposal, more int) []string {
	out := Skipped(d, more)
	for i := range all {
		if doubt := swapDoubts(all[i].Swap); doubt != "" {
			out = append(out, doubt)
		}
	}
	return out
}

// TakeDraft adds the swaps of a draft and a version with all of them on, which
// serves another number where servings is above 0. It is one change with one
// edit a thing, so that one undo takes all of it back.
func TakeDraft(r *recipes.Recipe, version recipes.ID, name string, taken []*recipes.Swap, foods []*food.Food, servings float64) recipes.Verb {
	verbs := []recipes.Verb{recipes.AcceptDraft(r.ID, version, name, taken, foods)}
	if servings > 0 {
		verbs = append(verbs, recipes.ServeVersion(r.ID, version, servings))
	}
	all := recipes.All(words.P("did.accept-draft", r.Title), r.ID, verbs...)
	return func(b *recipes.Book) (recipes.Change, error) {
		c, err := all(b)
		c.Edits = oneEach(c.Edits)
		return c, err
	}
}

// oneEach joins the edits of one thing: as it was before the first, as it is
// after the last.
func oneEach(edits []recipes.Edit) []recipes.Edit {
	type thing struct {
		kind recipes.Kind
		key  string
	}
	at := map[thing]int{}
	var out []recipes.Edit
	for _, e := range edits {
		x := e.After
		if x == nil {
			x = e.Before
		}
		k := thing{x.Kind(), x.Key()}
		if i, known := at[k]; known {
			out[i].After = e.After
			continue
		}
		at[k] = len(out)
		out = append(out, e)
	}
	return out
}
