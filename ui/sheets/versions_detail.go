package sheets

import (
	"math"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Detail says in words what a field of the Versions sheet holds.
type Detail struct {
	Title string
	Text  string
	Act   string // what the button beside it says, empty for none
}

// Detail describes the field of a row's key in column i.
func (x *Bench) Detail(key string, i int, b Basis) Detail {
	switch x.KindOf(key) {
	case NumberRow:
		n, _ := food.ByKey(key)
		return x.numberDetail(n, i, b)
	case LineRow, AddedRow:
		return x.lineDetail(recipes.ID(key), i)
	case StepRow, AddedStep:
		return x.stepDetail(recipes.ID(key), i)
	case EffectRow:
		return Detail{Title: x.ColumnName(i), Text: sentences([]string{x.effectSaid(i, food.EnergyKcal), words.Say("tip.effect")})}
	case GotWorseRow:
		return Detail{Title: x.ColumnName(i), Text: join(x.slipped(x.Slips(i)), words.Say("tip.slips"))}
	case WeightRow:
		return x.weightDetail(i)
	case AddLineRow:
		return Detail{Title: x.ColumnName(i), Text: words.Say("detail.add-line")}
	case AddStepRow:
		return Detail{Title: x.ColumnName(i), Text: words.Say("versions.add-step.tip")}
	}
	return Detail{Text: words.Say("detail.none")}
}

// figureTitle names a figure: "Energy in A, per serving: 541 kcal".
func (x *Bench) figureTitle(n food.Nutrient, i int, b Basis) string {
	f := x.figure(i, n, b)
	as := x.as(n)
	value := as.amount(f)
	if value != words.Unknown {
		value += " " + as.unit
	}
	return words.Say("detail.figure", Capital(as.name), x.ColumnName(i), words.Say("versions.corner."+basisKey[b]), value)
}

func (x *Bench) numberDetail(n food.Nutrient, i int, b Basis) Detail {
	d := Detail{Title: x.figureTitle(n, i, b), Act: words.Say("detail.makeup")}
	said := []string{x.biggest(n, i)}
	if n == food.Sodium {
		if f := x.figure(i, n, b); !f.Nowhere {
			said = append(said, x.otherwise(f.Amount))
		}
	}
	said = append(said, gapsText(x.Accounts[i].Draft, x.figure(i, n, b)))
	if b == PerServing {
		said = append(said, x.verdictText(n, i), x.surely(i, n), x.roundedApart(i, n))
		if c := x.Change(i, n); i > 0 && len(c.Gaps) > 0 {
			said = append(said, words.Say("detail.change-gaps", lineNames(x.Accounts[i].Draft, c.Gaps)))
		}
	}
	d.Text = sentences(said)
	return d
}

// otherwise says sodium as salt, or salt as sodium.
func (x *Bench) otherwise(sodium float64) string {
	if x.as(food.Sodium).times != 1 {
		return words.Say("detail.sodium", words.Number(sodium, 0))
	}
	return words.Say("detail.salt", words.Number(nutrition.SaltGrams(sodium), 1))
}

// sentences joins what is not empty.
func sentences(all []string) string {
	var out []string
	for _, s := range all {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, " ")
}

// biggest names the ingredients that hold most of a nutrient.
func (x *Bench) biggest(n food.Nutrient, i int) string {
	var parts []string
	for _, c := range x.Accounts[i].Contributions(n) {
		if len(parts) == 3 || !c.Known || c.Share < 0.05 {
			break
		}
		parts = append(parts, words.Say("detail.share", LineName(c.Line), words.Share(c.Share)))
	}
	if len(parts) == 0 {
		return ""
	}
	return words.Say("detail.biggest", words.Join(parts))
}

func (x *Bench) verdictText(n food.Nutrient, i int) string {
	t := x.target(n)
	if t == nil {
		return ""
	}
	want := x.as(n).target(*t)
	switch x.Accounts[i].Judge(*t) {
	case nutrition.Met:
		return words.Say("tip.met", want)
	case nutrition.Missed:
		return words.Say("tip.missed", want)
	}
	return words.Say("tip.cannot-tell", want)
}

// lineDetail says what stands in an ingredient's field: food, source, grams
// and where they come from, energy.
func (x *Bench) lineDetail(id recipes.ID, i int) Detail {
	var title, text []string
	for _, d := range x.Stands(i, id) {
		title = append(title, partTitle(d))
		text = append(text, x.standText(i, d))
	}
	if len(title) == 0 {
		name := words.Say("versions.left-out")
		if l := x.Recipe.Line(id); l != nil {
			name = words.Say("detail.left-out", LineName(l), x.ColumnName(i))
		}
		return Detail{Title: name, Text: words.Say("detail.left-out.text")}
	}
	d := Detail{Title: words.Say("detail.in", strings.Join(title, Plus), x.ColumnName(i)), Text: strings.Join(text, " "), Act: words.Say("detail.ingredient")}
	if x.Stands(i, id)[0].Line.Sub != nil {
		d.Act = words.Say("sub.open")
	}
	return d
}

// partTitle is weight and name of one thing in a field.
func partTitle(d *recipes.DraftLine) string {
	if !d.Line.Known() {
		return LineName(d.Line)
	}
	said := weightText(d.Line, d.Scale) + " " + LineName(d.Line)
	if d.Line.Kind == recipes.TakenOff {
		return words.Say("line.off", said)
	}
	return said
}

func (x *Bench) standText(i int, d *recipes.DraftLine) string {
	said := []string{x.source(d.Line), gramsTip(d.Line)}
	if d.PartEaten != 1 {
		said = append(said, words.Say("detail.part-eaten", words.Share(d.PartEaten)))
	}
	if at := x.indexOf(i, d.Line.ID); at >= 0 {
		if v, ok := x.Accounts[i].LineAmount(at, food.EnergyKcal); ok {
			said = append(said, words.Say("detail.energy", words.Number(v, 0)))
		}
		if la := &x.Accounts[i].Lines[at]; la.Capped {
			said = append(said, words.Say("line.capped.text", words.Grams(la.Eaten)))
		}
	}
	if d.Line.Status() != recipes.StatusMatched {
		said = append(said, DoubtText(d.Line))
	}
	said = append(said, x.cautionOf(i, d.Line.ID))
	return sentences(said)
}

// indexOf finds a line in column i's draft, -1 when it is not there.
func (x *Bench) indexOf(i int, line recipes.ID) int {
	for at := range x.Accounts[i].Draft.Lines {
		if x.Accounts[i].Draft.Lines[at].Line.ID == line {
			return at
		}
	}
	return -1
}

func (x *Bench) stepDetail(id recipes.ID, i int) Detail {
	for _, s := range x.Accounts[i].Draft.Steps {
		if s.ID != id {
			continue
		}
		text := strings.Join(s.Texts, " ")
		switch {
		case s.Dropped:
			text = words.Say("versions.left-out")
		case len(s.Texts) > 1:
			text = words.Say("tip.join-step")
		}
		return Detail{Title: x.ColumnName(i), Text: text}
	}
	return Detail{Title: x.ColumnName(i), Text: words.Say("detail.no-step")}
}

// Capital begins a sentence with a word.
func Capital(s string) string { return words.Capital(s) }

// source names a line's food and where its row comes from, or the recipe the
// line stands for; a missing one says so.
func (x *Bench) source(l *recipes.Line) string {
	if l.Sub != nil {
		return words.Say("detail.sub", SubName(x.book, *l.Sub))
	}
	if f := x.book.Food(l.Food); f != nil {
		return words.Say("detail.food", f.Name, foodTip(f))
	}
	return words.Say("detail.no-food")
}

// MakeUpRow is one ingredient's part of a figure.
type MakeUpRow struct {
	Line  *recipes.Line
	Name  string
	Share float64 // 0-1 of the known total
	Value string
	Note  string
	Known bool
}

// MakeUp is what a figure is made of, largest first.
type MakeUp struct {
	Title string
	Notes []string
	Rows  []MakeUpRow
}

// MakeUp takes the figure of a nutrient in column i apart.
func (x *Bench) MakeUp(n food.Nutrient, i int, b Basis) MakeUp {
	m := MakeUp{Title: x.figureTitle(n, i, b), Notes: []string{x.basisNote(i, b)}}
	factor, as := x.factor(i, b), x.as(n)
	for _, c := range x.Accounts[i].Contributions(n) {
		d, la := &x.Accounts[i].Draft.Lines[c.Index], &x.Accounts[i].Lines[c.Index]
		r := MakeUpRow{Line: c.Line, Known: c.Known, Share: math.Max(0, c.Share), Name: partTitle(d)}
		r.Value, r.Note = words.Say("makeup.unknown"), ""
		if c.Known {
			r.Value = words.Number(c.Amount*factor*as.times, as.decimals) + " " + as.unit
			r.Note = words.Share(math.Max(0, c.Share))
		} else if la.Food == nil && la.Sub == nil {
			r.Value = words.Say("makeup.no-food")
		}
		m.Rows = append(m.Rows, r)
	}
	f := x.figure(i, n, b)
	if gaps := gapsText(x.Accounts[i].Draft, f); gaps != "" {
		m.Notes = append(m.Notes, gaps)
	}
	if len(f.Minor) > 0 {
		m.Notes = append(m.Notes, words.Say("makeup.minor", lineNames(x.Accounts[i].Draft, f.Minor)))
	}
	return m
}

// factor turns an amount of the whole dish into one of the basis.
func (x *Bench) factor(i int, b Basis) float64 {
	switch b {
	case WholeDish:
		return 1
	case Per100g:
		if g, _ := x.Accounts[i].CookedGrams(); g > 0 {
			return 100 / g
		}
		return math.NaN()
	}
	return 1 / x.Accounts[i].Draft.Servings
}

// basisNote says how amounts are worked out.
func (x *Bench) basisNote(i int, b Basis) string {
	switch b {
	case WholeDish:
		return words.Say("makeup.dish")
	case Per100g:
		g, _ := x.Accounts[i].CookedGrams()
		return words.Say("makeup.100g", words.Grams(g), words.Say("cooked."+string(x.Accounts[i].CookedBy)))
	}
	return words.Say("makeup.serving", x.ServingsText(i))
}
