package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// ScaleBy says what a recipe is scaled by.
type ScaleBy string

// Ways to say how much of a recipe is made.
const (
	ByServings ScaleBy = "servings"
	ByWeight   ScaleBy = "weight"
	ByPan      ScaleBy = "pan"
)

// PanFields are the texts of a pan's fields: A is across a round one or the long
// side of another, B the short side.
type PanFields struct {
	Round      bool
	A, B, Deep string
}

// ScaleFields are the texts of the dialog.
type ScaleFields struct {
	By               ScaleBy
	Servings, Weight string
	From, To         PanFields
}

// ScaledLine is one line of a scaled list.
type ScaledLine struct {
	Line    *recipes.Line // scaled, under the ID it had
	Section string
	Text    string
	Note    string // why it wants a second look, empty for most
}

// ScaleResult is a recipe in another amount.
type ScaleResult struct {
	Title    string
	Factor   float64
	Servings float64
	Lines    []ScaledLine
	Steps    []reading.ScaledStep
	Notes    []string // on the whole dish
}

// Largest and smallest factor that makes sense in a kitchen.
const (
	mostScale  = 200
	leastScale = 0.01
)

// Scale works out column i in the amount the fields ask for. wrong says what
// cannot be read, with a nil result; empty when all can.
func (x *Bench) Scale(i int, f ScaleFields, opt reading.Options) (out *ScaleResult, wrong string) {
	factor, wrong := x.scaleFactor(i, f)
	if wrong != "" {
		return nil, wrong
	}
	if !(factor >= leastScale && factor <= mostScale) {
		return nil, words.Say("scale.wrong.far")
	}
	d := x.Accounts[i].Draft
	out = &ScaleResult{Title: x.scaleTitle(i), Factor: factor, Servings: d.Servings * factor}
	lines := make([]*recipes.Line, 0, len(d.Lines))
	method := *d // with each line in the amount that is given for it
	method.Lines = slices.Clone(d.Lines)
	var at []*recipes.DraftLine
	for k := range method.Lines {
		if dl := &method.Lines[k]; !dl.Gone() && dl.Line.Kind != recipes.TakenOff {
			lines, at = append(lines, ScaledAgain(x.book, dl.Line, dl.Scale, opt)), append(at, dl)
			out.Lines = append(out.Lines, ScaledLine{Section: dl.Section})
		}
	}
	scaled := recipes.ScaleLines(lines, factor, func(l *recipes.Line) recipes.ScaleSort { return scaleSort(x.book, l) })
	for k, s := range scaled {
		by := factor
		if s.Exact > 0 {
			by = factor * s.Amount / s.Exact
		}
		l := &out.Lines[k]
		by *= even(s.Line, by)
		l.Line = ScaledAgain(x.book, s.Line, by, opt)
		at[k].Scale *= by / factor
		l.Text, l.Note = l.Line.Text, lineNotes(s)
		if !l.Line.Known() && l.Line.Sub == nil {
			l.Note = join(l.Note, words.Say("scale.unknown"))
		}
	}
	for _, n := range recipes.DishNotes(factor, f.From.pan(), f.To.pan()) {
		out.Notes = append(out.Notes, words.Say("scale.note."+string(n)))
	}
	out.Steps = reading.DraftSteps(&method, factor, opt.System)
	return out, ""
}

// even is by how much an amount in grams or millilitres is changed so that a
// scale can show it: whole ones from 10 on, halves below; 1 for all else.
func even(l *recipes.Line, factor float64) float64 {
	exact := l.Amount * factor
	if l.Unit != "g" && l.Unit != "ml" || exact < 1 || l.High > 0 {
		return 1
	}
	step := 1.0
	if exact < 10 {
		step = 0.5
	}
	return math.Round(exact/step) * step / exact
}

func (x *Bench) scaleTitle(i int) string {
	if i == 0 {
		return x.Recipe.Title
	}
	return words.Say("sub.version", x.Recipe.Title, x.Versions[i].Letter)
}

// ScaledAgain is factor times a line with its words told anew; another recipe's
// part keeps its unit.
func ScaledAgain(b *recipes.Book, l *recipes.Line, factor float64, opt reading.Options) *recipes.Line {
	if l.Sub != nil && factor > 0 {
		return SubLine(b, l, ScaledSub(*l.Sub, factor))
	}
	return reading.Scaled(l, factor, opt)
}

func (x *Bench) scaleFactor(i int, f ScaleFields) (factor float64, wrong string) {
	switch f.By {
	case ByWeight:
		grams, ok := reading.Grams(f.Weight)
		have, _ := x.Accounts[i].CookedGrams()
		if !ok || grams <= 0 || have <= 0 {
			return 0, words.Say("scale.wrong.weight")
		}
		return grams / have, ""
	case ByPan:
		factor := recipes.PanFactor(f.From.pan(), f.To.pan())
		if factor <= 0 {
			return 0, words.Say("scale.wrong.pan")
		}
		return factor, ""
	}
	n, ok := reading.Number(f.Servings)
	if !ok {
		return 0, words.Say("scale.wrong.servings")
	}
	return n / x.Accounts[i].Draft.Servings, ""
}

// pan reads a pan's fields; a measure that cannot be read is none.
func (f PanFields) pan() recipes.Pan {
	number := func(s string) float64 {
		v, ok := reading.Number(s)
		if !ok || v > mostAcross {
			return 0
		}
		return v
	}
	p := recipes.Pan{Deep: number(f.Deep)}
	if f.Round {
		p.Across = number(f.A)
	} else {
		p.Long, p.Wide = number(f.A), number(f.B)
	}
	return p
}

// mostAcross is wider than any oven, in cm.
const mostAcross = 200

// Foods that do not scale straight, by their USDA numbers.
var (
	saltCodes   = map[string]bool{"02047": true}
	raisingCode = map[string]bool{"18369": true, "18370": true, "18371": true, "18372": true, "18373": true, "18374": true, "18375": true}
)

// scaleSort tells what a line is for scaling: eggs by the piece, packs, salt,
// raising agents. Own foods are told by their names.
func scaleSort(b *recipes.Book, l *recipes.Line) recipes.ScaleSort {
	f := b.Food(l.Food)
	name := strings.ToLower(LineName(l))
	unit := measure.Lookup(l.Unit)
	switch {
	case unit != nil && unit.Kind == measure.Pack:
		return recipes.PackScale
	case f != nil && f.Group == "eggs" && (unit == nil || unit.Kind == measure.Piece):
		return recipes.EggScale
	case f != nil && f.Source == food.StarterSource && saltCodes[f.Code] || name == "salt" || strings.HasSuffix(name, " salt"):
		return recipes.SaltScale
	case f != nil && f.Source == food.StarterSource && raisingCode[f.Code] || strings.Contains(name, "baking powder") || strings.HasSuffix(name, "yeast"):
		return recipes.LeaveningScale
	}
	return recipes.PlainScale
}

func lineNotes(s recipes.Scaled) string {
	var out []string
	for _, n := range s.Notes {
		if n == recipes.ScaleWhole {
			out = append(out, words.Say("scale.note.whole", words.Fraction(s.Exact)))
			continue
		}
		out = append(out, words.Say("scale.note."+string(n)))
	}
	return strings.Join(out, " ")
}

// Text is the list as plain text, to copy or print.
func (s *ScaleResult) Text() string {
	var b strings.Builder
	b.WriteString(s.Title + "\n" + s.Head() + "\n")
	section := ""
	for _, l := range s.Lines {
		if l.Section != section {
			section = l.Section
			b.WriteString("\n" + section + "\n")
		}
		b.WriteString(l.Text)
		if l.Note != "" {
			b.WriteString("  (" + strings.TrimSuffix(l.Note, ".") + ")")
		}
		b.WriteString("\n")
	}
	for i, st := range s.Steps {
		if i == 0 {
			b.WriteString("\n" + words.Say("print.method") + "\n")
		}
		b.WriteString(words.Say("scale.step", i+1, stepText(&st)))
		if note := st.Note(); note != "" {
			b.WriteString("  (" + note + ")")
		}
		b.WriteString("\n")
	}
	if len(s.Notes) > 0 {
		b.WriteString("\n" + strings.Join(s.Notes, "\n") + "\n")
	}
	return b.String()
}

// stepText is a step as it reads where two swaps may rewrite it.
func stepText(s *reading.ScaledStep) string {
	text := s.Texts[0]
	for _, more := range s.Texts[1:] {
		text = words.Say("print.step-too", text, more)
	}
	return text
}

// Head says how many it serves and by how much it was scaled.
func (s *ScaleResult) Head() string {
	return words.Say("scale.head", words.Trim(s.Servings, 1), words.Trim(s.Factor, 2))
}

// Sheet lays the list out as a table.
func (s *ScaleResult) Sheet() Sheet {
	out := Sheet{Corner: words.Say("original.ingredient"), Columns: []Column{{Key: "note", Title: words.Say("scale.look"), Index: -1}}}
	section := ""
	for _, l := range s.Lines {
		if l.Section != section {
			section = l.Section
			out.Rows = append(out.Rows, Row{Key: "section", Band: true, Label: text(section)})
		}
		note := Cell{Text: l.Note, Wrap: true, Bar: noBar()}
		if l.Note != "" {
			note.Mark = Look
		}
		out.Rows = append(out.Rows, Row{Key: string(l.Line.ID), Label: Cell{Text: l.Text, Wrap: true, Bar: noBar()}, Cells: []Cell{note}})
	}
	out.Rows = append(out.Rows, s.methodRows()...)
	return out
}

// methodRows are the steps under their heading.
func (s *ScaleResult) methodRows() []Row {
	var out []Row
	for i, st := range s.Steps {
		if i == 0 {
			out = append(out, Row{Key: "method", Band: true, Label: text(words.Say("print.method"))})
		}
		note := Cell{Text: words.Capital(st.Note()), Wrap: true, Bar: noBar()}
		if note.Text != "" {
			note.Mark = Look
		}
		out = append(out, Row{Key: "step " + string(st.ID), Label: Cell{Text: words.Say("scale.step", i+1, stepText(&st)), Wrap: true, Bar: noBar()}, Cells: []Cell{note}})
	}
	return out
}

// Verb makes a scaled original's amounts the original's own.
func (s *ScaleResult) Verb(b *recipes.Book, recipe recipes.ID, opt reading.Options) recipes.Verb {
	lines := map[recipes.ID]*recipes.Line{}
	for _, l := range s.Lines {
		lines[l.Line.ID] = l.Line
	}
	r := b.Recipe(recipe)
	for _, l := range r.Lines {
		if l.Kind == recipes.TakenOff {
			lines[l.ID] = reading.Scaled(l, s.Factor, opt)
		}
	}
	named := s.named(b, r, lines)
	return recipes.ScaleOriginal(recipe, s.Factor, s.Servings, lines, func(l *recipes.Line, factor float64) *recipes.Line {
		return ScaledAgain(b, l, factor, opt)
	}, func(text string) string {
		told, _, _ := reading.ScaleStep(text, named, s.Factor, opt.System)
		return told
	})
}

// named are the ingredients that a method can name, those that swaps bring
// included, with what each goes by.
func (s *ScaleResult) named(b *recipes.Book, r *recipes.Recipe, now map[recipes.ID]*recipes.Line) []reading.StepLine {
	var out []reading.StepLine
	for _, l := range r.Lines {
		by := s.Factor
		if n := now[l.ID]; n != nil && n.Amount > 0 && l.Amount > 0 && n.Unit == l.Unit {
			by = n.Amount / l.Amount
		}
		out = append(out, reading.StepLine{Line: l, By: by, Part: by})
	}
	for _, sw := range b.Swaps(r.ID) {
		for i := range sw.Ops {
			for _, l := range sw.Ops[i].Lines {
				out = append(out, reading.StepLine{Line: l, By: s.Factor, Part: s.Factor})
			}
		}
	}
	return out
}
