package sheets

import (
	"math"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/cautions"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Basis is what the numbers of the Versions page are counted for.
type Basis int

// Bases of the numbers.
const (
	PerServing Basis = iota
	Per100g
	WholeDish
)

// Shown are the nutrients of the Versions page, in the order of its rows.
var Shown = []food.Nutrient{
	food.EnergyKcal, food.EnergyKJ, food.Fat, food.SaturatedFat, food.Carbohydrate, food.Sugars,
	food.AddedSugars, food.Fibre, food.Protein, food.Sodium, food.Cholesterol, food.Alcohol,
	food.Potassium, food.Calcium, food.Iron, food.TransFat,
}

// Leading are the nutrients that the page shows before "more" is asked for.
var Leading = []food.Nutrient{
	food.EnergyKcal, food.Fat, food.SaturatedFat, food.Carbohydrate, food.Sugars, food.Fibre,
	food.Protein, food.Sodium,
}

// Bench is one recipe reckoned for the Versions page: the original first. It
// remembers changes it has worked out and is for one goroutine at a time.
type Bench struct {
	Recipe   *recipes.Recipe
	Versions []*recipes.Version // nil first: the original
	Accounts []*nutrition.Account
	Kitchen  nutrition.Kitchen
	Weight   nutrition.CookedFrom // what all cooked weights rest on
	book     *recipes.Book
	units    Units
	changes  [][]*nutrition.Change // by column and nutrient, nil until asked for
	slips    [][]nutrition.Slip    // by column; nil until asked for
	cautions map[int][]cautions.Caution
}

// NewBench reckons the original and every version of a recipe.
func NewBench(b *recipes.Book, r *recipes.Recipe) *Bench {
	x := &Bench{Recipe: r, book: b, units: UnitsOf(b), Kitchen: nutrition.In(b), Versions: append([]*recipes.Version{nil}, b.Versions(r.ID)...)}
	for _, v := range x.Versions {
		x.Accounts = append(x.Accounts, x.Kitchen.Of(b.Draft(r, v)))
	}
	x.Weight = nutrition.CommonBasis(x.Accounts)
	return x
}

// Original is the account every version is held against.
func (x *Bench) Original() *nutrition.Account { return x.Accounts[0] }

// Change returns the change of a nutrient in column i, per serving.
func (x *Bench) Change(i int, n food.Nutrient) nutrition.Change {
	if x.changes == nil {
		x.changes = make([][]*nutrition.Change, len(x.Accounts))
	}
	if x.changes[i] == nil {
		x.changes[i] = make([]*nutrition.Change, food.NutrientCount)
	}
	if x.changes[i][n] == nil {
		c := nutrition.Compare(x.Original(), x.Accounts[i], n)
		x.changes[i][n] = &c
	}
	return *x.changes[i][n]
}

// Slips returns what column i made worse than the original, none for the
// original.
func (x *Bench) Slips(i int) []nutrition.Slip {
	if i == 0 {
		return nil
	}
	if x.slips == nil {
		x.slips = make([][]nutrition.Slip, len(x.Accounts))
	}
	if x.slips[i] == nil {
		found := nutrition.Slips(x.Original(), func(n food.Nutrient) nutrition.Change { return x.Change(i, n) })
		x.slips[i] = append(make([]nutrition.Slip, 0, len(found)), found...)
	}
	return x.slips[i]
}

// Options choose what the Versions sheet shows.
type Options struct {
	Basis    Basis
	All      bool // every nutrient, not only the leading ones
	AllSteps bool // every step, not only those that differ
	Sure     bool // how far numbers may be off
}

// Sheet lays out the page: numbers, ingredients aligned, steps that differ.
func (x *Bench) Sheet(o Options) Sheet {
	s := Sheet{Corner: words.Say("versions.corner." + basisKey[o.Basis]), Columns: x.columns()}
	s.Rows = append(s.Rows, x.numberRows(o)...)
	s.Rows = append(s.Rows, x.lineRows()...)
	s.Rows = append(s.Rows, x.addRow(AddLineKey, words.Say("versions.add-line"), words.Say("versions.add-line.tip")))
	s.Rows = append(s.Rows, x.stepRows(o.AllSteps)...)
	if o.AllSteps || len(x.Recipe.Steps) == 0 {
		s.Rows = append(s.Rows, x.addRow(AddStepKey, words.Say("versions.add-step"), words.Say("versions.add-step.tip")))
	}
	return s
}

var basisKey = [...]string{"serving", "100g", "dish"}

// Keys of the rows that stand for no nutrient, ingredient or step.
const (
	EffectKey  = "effect"   // from the recipe, from a smaller helping
	SlipsKey   = "slips"    // what got worse
	AddLineKey = "add-line" // typed over, it adds an ingredient
	AddStepKey = "add-step" // typed over, it adds a step
)

func (x *Bench) columns() []Column {
	out := make([]Column, len(x.Versions))
	for i, v := range x.Versions {
		a := x.Accounts[i]
		g, whole := a.ServingGrams()
		weight := words.Grams(g)
		if !whole {
			weight = words.Say("amount.at-least", weight)
		}
		c := Column{Index: i, Number: true, Title: words.Say("original"), Sub: words.Say("versions.serves", words.Trim(a.Draft.Servings, 2), weight)}
		if v != nil {
			c.Key, c.Letter, c.Title = string(v.ID), v.Letter, v.Name
		}
		out[i] = c
	}
	return out
}

func (x *Bench) numberRows(o Options) []Row {
	var rows []Row
	list := x.leading(o.All)
	widest := x.widest(list)
	for _, n := range list {
		rows = append(rows, x.numberRow(n, o, widest))
	}
	if o.Basis == PerServing && len(x.Versions) > 1 {
		rows = append(rows, x.effectRow(food.EnergyKcal))
		rows = append(rows, x.slipRow()...)
		if o.Sure {
			rows = append(rows, x.sureRow())
		}
	}
	return append(append(rows, x.weightRow()), x.costRow(o.Basis)...)
}

// widest is the largest change in percent of any shown nutrient: full bar.
func (x *Bench) widest(list []food.Nutrient) float64 {
	w := 0.0
	for _, n := range list {
		for i := 1; i < len(x.Accounts); i++ {
			if c := x.Change(i, n); !math.IsNaN(c.Percent) {
				w = math.Max(w, math.Min(math.Abs(c.Percent), 100))
			}
		}
	}
	return math.Max(w, 1)
}

func (x *Bench) figure(i int, n food.Nutrient, b Basis) nutrition.Figure {
	switch b {
	case Per100g:
		return x.Accounts[i].Per100g(n)
	case WholeDish:
		return x.Accounts[i].Total(n)
	}
	return x.Accounts[i].PerServing(n)
}

func (x *Bench) numberRow(n food.Nutrient, o Options, widest float64) Row {
	b := o.Basis
	r := Row{Key: n.Key(), Label: text(x.energyLabel(n))}
	target := x.target(n)
	if target != nil && b == PerServing {
		r.Label.Sub = x.as(n).target(*target)
	}
	r.Label.Strong = n == food.EnergyKcal
	for i := range x.Accounts {
		f := x.figure(i, n, b)
		c := Cell{Text: x.as(n).amount(f), Number: true, Bar: noBar(), Strong: n == food.EnergyKcal}
		c.Muted = c.Text == words.Unknown
		c.Tip = gapsText(x.Accounts[i].Draft, f)
		if o.Sure && b == PerServing {
			x.addBand(&c, i, n)
		}
		if b == PerServing {
			x.addChange(&c, i, n, widest)
			x.addVerdict(&c, i, target)
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// gapsText says what a figure lacks; empty when it is whole.
func gapsText(d *recipes.Draft, f nutrition.Figure) string {
	if len(f.Gaps) == 0 {
		return ""
	}
	if f.About {
		return words.Say("tip.about", lineNames(d, f.Gaps))
	}
	return words.Say("tip.at-least", lineNames(d, f.Gaps))
}

// amountText is Amount, but for "at least 0" and "about 0", which says no more than that
// nothing is known.
func amountText(f nutrition.Figure, n food.Nutrient) string {
	if (f.AtLeast || f.About) && strings.Trim(words.Number(f.Amount, words.Decimals(n.Unit())), "0.,") == "" {
		return words.Unknown
	}
	return Amount(f, n)
}

// leastBar is the change, in per cent, from which it has a bar and a colour: it
// would be printed as 0 % below.
const leastBar = 0.5

// addChange puts the change against the original beside a version's number.
func (x *Bench) addChange(c *Cell, i int, n food.Nutrient, widest float64) {
	if i == 0 {
		return
	}
	if c.Text == words.Unknown {
		return // a change of what is not known says nothing
	}
	ch := x.Change(i, n)
	c.Sub = x.as(n).change(ch)
	c.Tip = join(x.roundedApart(i, n), c.Tip)
	if math.Abs(ch.Percent) >= leastBar { // false for NaN
		c.Bar = math.Max(-1, math.Min(1, ch.Percent/widest))
	}
	for _, s := range x.Slips(i) {
		if s.Nutrient == n {
			c.Mark = Look
			c.Tip = strings.TrimSpace(c.Tip + " " + words.Say("tip.slipped", x.slipped([]nutrition.Slip{s})))
		}
	}
}

// roundedApart says, where a change is not the difference of the two rounded
// numbers beside it, that it is counted before rounding; empty else.
func (x *Bench) roundedApart(i int, n food.Nutrient) string {
	ch, s := x.Change(i, n), x.as(n)
	was, is := x.Original().PerServing(n), x.Accounts[i].PerServing(n)
	if i == 0 || ch.Bound != nutrition.Exact || was.AtLeast || was.About || is.AtLeast || is.About {
		return ""
	}
	unit := math.Pow10(s.decimals)
	shown := func(v float64) float64 { return math.RoundToEven(v * s.times * unit) }
	if shown(is.Amount)-shown(was.Amount) == shown(ch.Amount) {
		return ""
	}
	more := s.decimals + 1
	return words.Say("tip.rounded", words.Number(was.Amount*s.times, more), words.Number(is.Amount*s.times, more), words.Signed(ch.Amount*s.times, more))
}

// addVerdict marks a number met or missed against the brief; a slip keeps its
// own mark only where there is no target.
func (x *Bench) addVerdict(c *Cell, i int, t *recipes.Target) {
	if t == nil {
		return
	}
	want := x.as(t.Nutrient).target(*t)
	switch x.Accounts[i].Judge(*t) {
	case nutrition.Met:
		c.Mark, c.Tip = Met, join(words.Say("tip.met", want), c.Tip)
	case nutrition.Missed:
		c.Mark, c.Tip = Missed, join(words.Say("tip.missed", want), c.Tip)
	case nutrition.CannotTell:
		c.Mark, c.Tip = Look, join(words.Say("tip.cannot-tell", want), c.Tip)
	}
}

func join(a, b string) string {
	if b == "" {
		return a
	}
	return a + " " + b
}

func (x *Bench) target(n food.Nutrient) *recipes.Target {
	for _, t := range x.Recipe.Brief.Targets {
		if t.Nutrient == n {
			return &t
		}
	}
	return nil
}

// effectRow says how much of a change is the recipe's and how much a smaller
// helping's.
func (x *Bench) effectRow(n food.Nutrient) Row {
	r := Row{Key: EffectKey, Label: Cell{Text: words.Say("versions.effect"), Muted: true, Wrap: true, Bar: noBar(), Tip: words.Say("tip.effect")}}
	for i := range x.Accounts {
		c := Cell{Number: true, Muted: true, Bar: noBar(), Tip: words.Say("tip.effect")}
		if i > 0 {
			c.Text, c.Sub = effectText(x.Change(i, n), n)
			c.Tip = sentences([]string{x.effectSaid(i, n), c.Tip})
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// effectSaid says the two parts of column i's change in a sentence, with what a
// serving of each weighs; empty where they are not known, and for the original.
func (x *Bench) effectSaid(i int, n food.Nutrient) string {
	c := x.Change(i, n)
	if i == 0 || math.IsNaN(c.Recipe) {
		return ""
	}
	s := x.as(n)
	in := func(v float64) string { return words.Signed(v*s.times, s.decimals) + " " + s.unit }
	was, is := x.Original().HelpingGrams(), x.Accounts[i].HelpingGrams()
	if math.IsNaN(was) || math.IsNaN(is) || words.Grams(was) == words.Grams(is) {
		return words.Say("versions.effect.said", in(c.Amount), in(c.Recipe), in(c.Portion))
	}
	return words.Say("versions.effect.said-weights", in(c.Amount), in(c.Recipe), in(c.Portion), words.Grams(is), words.Grams(was))
}

// slipRow says in words what each version made worse; none when nothing did.
func (x *Bench) slipRow() []Row {
	r := Row{Key: SlipsKey, Label: Cell{Text: words.Say("versions.slips"), Muted: true, Bar: noBar(), Tip: words.Say("tip.slips")}}
	any := false
	for i := range x.Accounts {
		c := Cell{Bar: noBar()}
		if slips := x.Slips(i); len(slips) > 0 {
			any = true
			c.Text, c.Mark, c.Wrap = x.slipped(slips), Look, true
			c.Tip = words.Say("tip.slipped", c.Text)
		}
		r.Cells = append(r.Cells, c)
	}
	if !any {
		return nil
	}
	return []Row{r}
}

// effectText gives the recipe's part and, in words, the helping's.
func effectText(c nutrition.Change, n food.Nutrient) (recipe, portion string) {
	if math.IsNaN(c.Recipe) {
		return words.Say("change.unknown"), ""
	}
	d := words.Decimals(n.Unit())
	return words.Signed(c.Recipe, d), words.Say("versions.portion", words.Signed(c.Portion, d))
}
