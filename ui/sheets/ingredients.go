package sheets

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// lineRows aligns the ingredients: a row for each of the original's lines and
// for each thing a version adds. A version's field holds "=" where nothing
// changed, else what goes in instead.
func (x *Bench) lineRows() []Row {
	rows := []Row{{Key: "ingredients", Band: true, Label: text(words.Say("versions.ingredients"))}}
	section := ""
	for _, at := range inOrder(x.Recipe.Lines) {
		l := x.Recipe.Lines[at]
		if l.Section != section {
			section = l.Section
			rows = append(rows, Row{Key: "section", Band: true, Label: Cell{Text: SectionText(x.Recipe, section), Muted: true, Bar: noBar()}})
		}
		rows = append(rows, x.lineRow(l))
	}
	return append(rows, x.addedRows()...)
}

// inOrder lists the places of lines as tables show them: what is taken off an
// ingredient stands under it.
func inOrder(lines []*recipes.Line) []int {
	there := map[recipes.ID]bool{}
	for _, l := range lines {
		there[l.ID] = true
	}
	out := make([]int, 0, len(lines))
	for i, l := range lines {
		if l.OffOf != "" && there[l.OffOf] {
			continue
		}
		out = append(out, i)
		for k, off := range lines {
			if off.OffOf == l.ID {
				out = append(out, k)
			}
		}
	}
	return out
}

func (x *Bench) lineRow(l *recipes.Line) Row {
	r := Row{Key: string(l.ID), Label: Cell{Text: LineText(l), Bar: noBar(), Wrap: true}}
	if l.Status() != recipes.StatusMatched {
		r.Label.Mark, r.Label.Tip = Look, DoubtText(l)
	}
	for i := range x.Versions {
		if i == 0 {
			r.Cells = append(r.Cells, Cell{Text: offSign(l, weightText(l, 1)), Number: true, Bar: noBar(), Tip: gramsTip(l), Editable: true})
			continue
		}
		r.Cells = append(r.Cells, lineCell(x.Accounts[i].Draft, l))
	}
	return r
}

// gramsText is a line's weight, or a question mark.
func gramsText(l *recipes.Line, grams float64) string {
	if !l.Known() {
		return words.Unknown
	}
	return words.Grams(grams)
}

// weightText is scale times a line's weight, or a question mark; of another
// recipe's part the amount in its own unit.
func weightText(l *recipes.Line, scale float64) string {
	if l.Sub != nil {
		return subAmount(*l.Sub, scale)
	}
	return gramsText(l, l.Grams*scale)
}

// offSign puts a minus before the weight of what is taken off.
func offSign(l *recipes.Line, grams string) string {
	if l.Kind == recipes.TakenOff && l.Known() {
		return words.Minus + grams
	}
	return grams
}

func gramsTip(l *recipes.Line) string {
	if l.Sub != nil {
		return words.Say("sub.tip")
	}
	return strings.TrimSpace(words.Say("grams-from."+string(fromOr(l))) + " " + l.GramsNote)
}

func fromOr(l *recipes.Line) recipes.GramsFrom {
	if l.GramsFrom == "" {
		return recipes.GramsUnknown
	}
	return l.GramsFrom
}

// lineCell says what a draft has in place of one of the original's lines.
func lineCell(d *recipes.Draft, l *recipes.Line) Cell {
	c := Cell{Text: Same, Muted: true, Editable: true, Bar: noBar(), Tip: words.Say("tip.same")}
	stands := partsOf(d, l.ID)
	if len(stands) == 1 && !stands[0].Touched {
		return c
	}
	c.Tip, c.Muted, c.Wrap = "", false, true
	var parts []string
	for _, x := range stands {
		parts = append(parts, partText(x))
		if x.Swap != "" && x.Line.Status() != recipes.StatusMatched {
			c.Mark, c.Tip = Look, strings.TrimSpace(c.Tip+" "+DoubtText(x.Line))
		}
	}
	c.Text = strings.Join(parts, Plus)
	if len(parts) == 0 {
		c.Text, c.Muted = words.Say("versions.left-out"), true
	}
	return c
}

// Same stands where a version has what the original has; Plus stands between
// two ingredients in one field.
const (
	Same = "="
	Plus = " + "
)

// partsOf lists what a draft has in a line's place: what is left of the line
// itself and what was brought for it; of an added line, the line. Nothing that
// is gone.
func partsOf(d *recipes.Draft, line recipes.ID) []*recipes.DraftLine {
	var out []*recipes.DraftLine
	for i := range d.Lines {
		x := &d.Lines[i]
		if !x.Gone() && (x.From == line || x.From == "" && x.Line.ID == line) {
			out = append(out, x)
		}
	}
	return out
}

// partText says one of the things in a field: the weight left of the
// original's line, or weight and name of what a swap brought.
func partText(x *recipes.DraftLine) string {
	if x.Swap != "" {
		return BroughtText(x)
	}
	return keptText(x)
}

// keptText says what is left of a line of the original: its weight, and the
// part eaten where a swap changed it.
func keptText(x *recipes.DraftLine) string {
	s := offSign(x.Line, weightText(x.Line, x.Scale))
	if x.PartEaten != x.Line.PartEaten {
		s += " " + words.Say("versions.eaten", words.Share(x.PartEaten))
	}
	return s
}

// BroughtText says a line that a swap brought: "150 g strained yogurt".
func BroughtText(x *recipes.DraftLine) string {
	if !x.Line.Known() {
		return LineName(x.Line)
	}
	return offSign(x.Line, weightText(x.Line, x.Scale)) + " " + LineName(x.Line)
}

// addedRows lists what versions add that stands for no line of the original,
// one row for each swap's added line.
func (x *Bench) addedRows() []Row {
	var rows []Row
	at := map[recipes.ID]int{}
	for i := range x.Versions {
		d := x.Accounts[i].Draft
		for k := range d.Lines {
			l := &d.Lines[k]
			if l.From != "" {
				continue
			}
			row, ok := at[l.Line.ID]
			if !ok {
				row = len(rows)
				at[l.Line.ID] = row
				rows = append(rows, Row{Key: string(l.Line.ID), Label: text(words.Say("versions.added", LineName(l.Line))), Cells: blanks(len(x.Versions))})
			}
			rows[row].Cells[i] = Cell{Text: BroughtText(l), Wrap: true, Editable: true, Bar: noBar()}
		}
	}
	return rows
}

// addRow is the last row of a group: what is typed there is added.
func (x *Bench) addRow(key, label, tip string) Row {
	r := Row{Key: key, Label: Cell{Text: label, Muted: true, Bar: noBar(), Tip: tip}}
	for range x.Versions {
		r.Cells = append(r.Cells, Cell{Editable: true, Wrap: true, Bar: noBar(), Tip: tip})
	}
	return r
}

func blanks(n int) []Cell {
	out := make([]Cell, n)
	for i := range out {
		out[i] = Cell{Text: "", Bar: noBar(), Number: true}
	}
	return out
}

// stepRows shows the method: steps that differ, or all of them on request.
func (x *Bench) stepRows(all bool) []Row {
	rows := []Row{{Key: "method", Band: true, Label: text(words.Say("versions.method"))}}
	for k, s := range x.Recipe.Steps {
		r := Row{Key: string(s.ID), Label: Cell{Text: words.Say("versions.step", k+1), Muted: true, Bar: noBar()}}
		differs := false
		for i := range x.Versions {
			c := Cell{Text: s.Text, Wrap: true, Editable: true, Bar: noBar()}
			if i > 0 {
				c = stepCell(x.Accounts[i].Draft, s)
				differs = differs || c.Text != "="
			}
			r.Cells = append(r.Cells, c)
		}
		if differs || all {
			rows = append(rows, r)
		}
	}
	rows = append(rows, x.addedSteps()...)
	if len(rows) == 1 && len(x.Recipe.Steps) > 0 {
		rows[0].Label.Text = words.Say("versions.method-same")
	}
	return rows
}

func stepCell(d *recipes.Draft, s *recipes.Step) Cell {
	c := Cell{Wrap: true, Editable: true, Bar: noBar()}
	for i := range d.Steps {
		x := &d.Steps[i]
		if x.ID != s.ID {
			continue
		}
		switch {
		case len(x.Swaps) == 0:
			c.Text, c.Muted, c.Tip = "=", true, words.Say("tip.same")
		case x.Dropped:
			c.Text, c.Muted = words.Say("versions.left-out"), true
		default:
			c.Text = strings.Join(x.Texts, "\n")
			if len(x.Texts) > 1 {
				c.Mark, c.Tip = Look, words.Say("tip.join-step")
			}
		}
	}
	return c
}

// addedSteps lists steps that swaps add.
func (x *Bench) addedSteps() []Row {
	var rows []Row
	at := map[recipes.ID]int{}
	for i := 1; i < len(x.Versions); i++ {
		for _, s := range x.Accounts[i].Draft.Steps {
			if x.Recipe.Step(s.ID) != nil {
				continue
			}
			row, ok := at[s.ID]
			if !ok {
				row = len(rows)
				at[s.ID] = row
				rows = append(rows, Row{Key: string(s.ID), Label: Cell{Text: words.Say("versions.step-added"), Muted: true, Bar: noBar()}, Cells: blanks(len(x.Versions))})
			}
			rows[row].Cells[i] = Cell{Text: strings.Join(s.Texts, "\n"), Wrap: true, Bar: noBar()}
		}
	}
	return rows
}

// DoubtText says in one sentence each what is not sure about a line.
func DoubtText(l *recipes.Line) string {
	var out []string
	for _, d := range l.Doubts {
		args := make([]any, len(d.Args))
		for i, a := range d.Args {
			args[i] = a
			if d.Kind == recipes.DoubtCooked {
				args[i] = MethodText(recipes.Technique{Method: a})
			}
		}
		out = append(out, words.Say("doubt."+string(d.Kind), args...))
	}
	if l.Food.Zero() && l.Sub == nil && len(out) == 0 {
		out = append(out, words.Say("doubt.no food"))
	}
	return strings.Join(out, " ")
}
