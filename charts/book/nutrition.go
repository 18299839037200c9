package book

import (
	"math"
	"strings"

	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// Nutrition is one serving's figures by a rule, counted from the amounts that
// are printed in one system of measures.
type Nutrition struct {
	System string `json:"system"`
	Rows   []Row  `json:"rows"`
}

// Row is one line of the table. Exact is the figure before rounding, in Unit;
// it is NaN in Go and left out of JSON where nothing is known.
type Row struct {
	Key    string        `json:"key"`
	Name   string        `json:"name"`
	Inside bool          `json:"inside,omitempty"` // a part of the row above
	Text   string        `json:"text"`             // as printed: "at least 12 g"
	Unit   string        `json:"unit"`
	Exact  *float64      `json:"exact,omitempty"`
	Status claims.Status `json:"status,omitempty"`
	Bound  string        `json:"bound,omitempty"` // "at least", "about" or "unknown"

	nutrient food.Nutrient
}

// shown lists a rule's rows in its order. Optional rows are left out where the
// figure is not known. Sources: 21 CFR 101.9(c); Regulation (EU) 1169/2011
// Annex XV.
type shown struct {
	nutrient         food.Nutrient
	inside, optional bool
}

var usRows = []shown{
	{food.EnergyKcal, false, false},
	{food.Fat, false, false},
	{food.SaturatedFat, true, false},
	{food.TransFat, true, true},
	{food.Cholesterol, false, false},
	{food.Sodium, false, false},
	{food.Carbohydrate, false, false},
	{food.Fibre, true, false},
	{food.Sugars, true, false},
	{food.AddedSugars, true, true},
	{food.Protein, false, false},
}

var euRows = []shown{
	{food.EnergyKcal, false, false},
	{food.Fat, false, false},
	{food.SaturatedFat, true, false},
	{food.Carbohydrate, false, false},
	{food.Sugars, true, false},
	{food.Fibre, false, false},
	{food.Protein, false, false},
	{food.Sodium, false, false},
}

// kitchen reckons by the page's rule: the EU's factors and carbohydrate, else
// the workbook's own basis. Recipes inside recipes are reckoned by it too.
func kitchenOf(b *recipes.Book, rule claims.Authority) nutrition.Kitchen {
	k := nutrition.In(b)
	switch {
	case rule != claims.US:
		k.Basis = nutrition.EUEnergy
	case k.Basis == nutrition.EUEnergy:
		k.Basis = nutrition.TableEnergy
	}
	k.Sub = func(s recipes.SubRecipe) *nutrition.Account {
		r := b.Recipe(s.Recipe)
		if r == nil {
			return nil
		}
		return k.Of(b.Draft(r, b.Version(s.Recipe, s.Version))) // the Book refuses loops
	}
	return k
}

// EnergyLine says by which factors a kitchen counts energy. Where the window counts by
// others, it says so over the paper: nobody who reads the page has it before them.
func EnergyLine(k nutrition.Kitchen) string {
	return words.Say("book.energy." + string(basisOf(k)))
}

// basisOf names a kitchen's basis of energy, the usual one too.
func basisOf(k nutrition.Kitchen) nutrition.EnergyBasis {
	if k.Basis == "" {
		return nutrition.TableEnergy
	}
	return k.Basis
}

// AsPrinted returns the draft with each line in the amount that is printed of
// it; the draft given is not changed.
func AsPrinted(d *recipes.Draft, amounts map[recipes.ID]float64) *recipes.Draft {
	c := *d
	c.Lines = make([]recipes.DraftLine, len(d.Lines))
	for i, l := range d.Lines {
		if ratio, ok := amounts[l.Line.ID]; ok {
			l.Scale *= ratio
		}
		c.Lines[i] = l
	}
	return &c
}

// Ratios are what is printed over what the draft holds, by line, in the page's
// n-th system.
func (p *Page) Ratios(n int) map[recipes.ID]float64 { return ratios(p.Sections, n) }

func ratios(all []Section, n int) map[recipes.ID]float64 {
	out := map[recipes.ID]float64{}
	for _, s := range all {
		for _, l := range s.Lines {
			out[l.Line] = l.Amounts[n].Ratio
		}
	}
	return out
}

// nutrition counts the page's figures, the change and what rounding moved.
func (m *maker) nutrition() {
	k := kitchenOf(m.book, m.o.Rule)
	m.out.Energy = basisOf(k)
	original := m.book.Draft(m.recipe, nil)
	before := sections(original, m.book.Food, m.houses())
	exact := k.Of(m.draft)
	for n, h := range m.houses() {
		a := k.Of(AsPrinted(m.draft, m.out.Ratios(n)))
		base := k.Of(AsPrinted(original, ratios(before, n)))
		nutrition.CommonBasis([]*nutrition.Account{a, base})
		m.out.Nutrition = append(m.out.Nutrition, Nutrition{System: h.to.String(), Rows: rowsOf(a, m.o)})
		m.out.Editor = append(m.out.Editor, moved(exact, a, h.to, m.o)...)
		if n > 0 {
			continue
		}
		m.out.account, m.out.base, m.out.Weight = a, base, weightOf(a, m.o.Units)
		m.out.Moved = m.movedOf(exact, a)
		if m.version != nil {
			m.out.Change = changeOf(base, a, m.o)
			m.out.Picture = m.picture(base, a)
		}
	}
	m.out.Editor = append(m.out.Editor, m.swapped()...)
}

// rowsOf is the table of an account's serving.
func rowsOf(a *nutrition.Account, o Options) []Row {
	list := euRows
	if o.Rule == claims.US {
		list = usRows
	}
	var out []Row
	for _, s := range list {
		f := a.PerServing(s.nutrient)
		if s.optional && (f.Nowhere || f.AtLeast || f.About) {
			continue
		}
		out = append(out, rowOf(a, s, f, o))
	}
	return out
}

func rowOf(a *nutrition.Account, s shown, f nutrition.Figure, o Options) Row {
	r := Row{Key: s.nutrient.Key(), Inside: s.inside, nutrient: s.nutrient}
	r.Name = rowName(s, o)
	if f.Nowhere {
		r.Text, r.Bound, r.Unit = words.Say("book.unknown"), "unknown", s.nutrient.Unit()
		return r
	}
	v := f.Amount
	r.Exact = &v
	p := printed(s.nutrient, f, o)
	r.Unit, r.Status, r.Text = p.Unit, p.Status, p.Text+" "+p.Unit
	if s.nutrient == food.EnergyKcal {
		r.Text = energyText(a, p.Text, o)
	}
	if s.nutrient == food.Sodium && o.SaltNotSodium {
		r.Key = "salt_g"
		v = nutrition.SaltGrams(v)
	}
	switch {
	case f.AtLeast:
		r.Bound, r.Text = "at least", words.Say("book.at-least", r.Text)
	case f.About:
		r.Bound, r.Text = "about", words.Say("book.about", r.Text)
	}
	return r
}

// energyText is energy in one unit or, by the EU's rules, in both.
func energyText(a *nutrition.Account, kcal string, o Options) string {
	kj := claims.RoundEU(food.EnergyKJ, a.PerServing(food.EnergyKJ).Amount).Text + " kJ"
	kcal += " kcal"
	switch {
	case o.KJFirst:
		return kj + " / " + kcal
	case o.Rule == claims.US:
		return kcal
	}
	return kcal + " / " + kj
}

// rowName names a row in the rule's own words.
func rowName(s shown, o Options) string {
	key := s.nutrient.Key()
	if s.nutrient == food.Sodium && o.SaltNotSodium {
		key = "salt"
	}
	if o.Rule == claims.US {
		return words.Say("book.row.us." + key)
	}
	return words.Say("book.row.eu." + key)
}

// printed rounds a figure by the rule. A figure that is "at least" so much is
// never printed as more than is known of it.
func printed(n food.Nutrient, f nutrition.Figure, o Options) claims.Printed {
	round := func(v float64) claims.Printed {
		switch {
		case n == food.Sodium && o.SaltNotSodium:
			return claims.RoundSaltEU(nutrition.SaltGrams(v))
		case o.Rule == claims.US:
			return claims.RoundUS(n, v)
		}
		return claims.RoundEU(n, v)
	}
	p := round(f.Amount)
	if !f.AtLeast {
		return p
	}
	known := f.Amount // in the unit it is printed in
	switch {
	case n == food.Sodium && o.SaltNotSodium:
		known = nutrition.SaltGrams(known)
	case n == food.Sodium && o.Rule != claims.US:
		known /= 1000
	}
	for v := f.Amount; p.Value > known && v > 1e-6; {
		v *= 0.97 // down to the next step of the rule, whatever that is
		p = round(v)
	}
	return p
}

// editorShare is what rounding may move before the editor is told: 2 %.
const editorShare = 0.02

// moved tells where the printed amounts give another figure than the recipe.
func moved(exact, asPrinted *nutrition.Account, s measure.System, o Options) []Open {
	var out []Open
	for _, n := range []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium} {
		was, is := exact.PerServing(n), asPrinted.PerServing(n)
		if was.Nowhere || was.Amount <= 0 || math.Abs(is.Amount/was.Amount-1) <= editorShare {
			continue
		}
		x := Open{Kind: OpenRounding, Text: words.Say("book.editor.moved",
			words.Say("book.system."+s.String()), words.Say("nutrient."+n.Key()),
			words.Signed(100*(is.Amount/was.Amount-1), 1), amountOf(n, was.Amount), amountOf(n, is.Amount))}
		if lines := movedLines(exact, asPrinted, n); len(lines) > 0 {
			l := lines[0]
			x.Line = l.Line
			x.Text += " " + words.Say("book.editor.moved.most", l.Name, words.Trim(l.Was, 1)+" g", words.Trim(l.Is, 1)+" g")
		}
		out = append(out, x)
	}
	return out
}

func amountOf(n food.Nutrient, v float64) string {
	return words.Number(v, words.Decimals(n.Unit())) + " " + n.Unit()
}

// swapped tells of eggs and packs that were made whole: the grams follow.
func (m *maker) swapped() []Open {
	var out []Open
	for n, h := range m.houses() {
		for _, s := range m.out.Sections {
			for _, l := range s.Lines {
				if r := l.Amounts[n].Ratio; math.Abs(r-1) > 0.1 {
					out = append(out, Open{Kind: OpenRounding, Line: l.Line, Text: words.Say("book.editor.line",
						words.Say("book.system."+h.to.String()), strings.TrimSpace(l.In(n)), words.Signed(100*(r-1), 0))})
				}
			}
		}
	}
	return out
}
