package sheets

import (
	"slices"
	"strings"

	"parewell/analysis/effects"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// Doing is what an operation does, as the cook chooses it in the editor.
type Doing string

// What the editor can make. OtherDoing is an operation it shows and keeps but
// does not change.
const (
	UseLess     Doing = "less"
	ReplaceWith Doing = "replace"
	LeaveOut    Doing = "leave out"
	AddThese    Doing = "add"
	EatPart     Doing = "part"
	StepReads   Doing = "step"
	StepMore    Doing = "step-add"
	StepGone    Doing = "step-drop"
	OtherDoing  Doing = "other"
)

// Doings are the choices of the editor, most used first.
var Doings = []Doing{UseLess, ReplaceWith, LeaveOut, AddThese, EatPart, StepReads, StepMore, StepGone}

// NeedsLine tells whether an operation is on an ingredient of the original.
func (d Doing) NeedsLine() bool {
	return d == UseLess || d == ReplaceWith || d == LeaveOut || d == EatPart
}

// NeedsStep tells whether it is on a step.
func (d Doing) NeedsStep() bool { return d == StepReads || d == StepMore || d == StepGone }

// NeedsValue tells whether it takes an amount or a share.
func (d Doing) NeedsValue() bool { return d == UseLess || d == ReplaceWith || d == EatPart }

// NeedsLines tells whether it brings ingredients.
func (d Doing) NeedsLines() bool { return d == ReplaceWith || d == AddThese }

// NeedsText tells whether it takes the words of a step.
func (d Doing) NeedsText() bool { return d == StepReads || d == StepMore }

// OpDraft is one operation as it stands in the editor's fields.
type OpDraft struct {
	Do    Doing
	Line  recipes.ID
	Step  recipes.ID
	Value string
	Lines []LineDraft
	Text  string
	was   *recipes.Op // what the fields were made of
}

// LineDraft is one new ingredient as typed; Food is what was picked for it from
// the list, nil when its name speaks for itself.
type LineDraft struct {
	Text string
	Food *food.Food
	was  *recipes.Line
}

// DraftOp puts an operation into the editor's fields.
func DraftOp(r *recipes.Recipe, o *recipes.Op) OpDraft {
	d := OpDraft{Line: o.Line, Step: o.Step, Text: o.Text, was: o}
	for _, l := range o.Lines {
		d.Lines = append(d.Lines, LineDraft{Text: l.Text, was: l})
	}
	switch o.Kind {
	case recipes.OpMultiply:
		d.Do, d.Value = UseLess, words.Percent(100*(o.Factor-1))
	case recipes.OpExchange:
		d.Do, d.Value = ReplaceWith, words.Share(o.Share)
	case recipes.OpRemove:
		d.Do = LeaveOut
	case recipes.OpAdd:
		d.Do = AddThese
	case recipes.OpPartEaten:
		d.Do, d.Value = EatPart, words.Share(o.Part)
	case recipes.OpStepReplace:
		d.Do = StepReads
	case recipes.OpStepAdd:
		d.Do = StepMore
	case recipes.OpStepDrop:
		d.Do = StepGone
	default:
		d.Do, d.Text = OtherDoing, OpText(r, o)
	}
	return d
}

// untouched tells whether the fields still say what they were made of, so that
// rounding for the eye never changes a swap.
func (d *OpDraft) untouched(r *recipes.Recipe) bool {
	if d.was == nil {
		return false
	}
	o := DraftOp(r, d.was)
	return d.Do == OtherDoing || d.Do == o.Do && d.Line == o.Line && d.Step == o.Step && d.Value == o.Value && d.Text == o.Text &&
		slices.EqualFunc(d.Lines, o.Lines, func(a, b LineDraft) bool { return a.Text == b.Text && a.Food == nil })
}

// Read makes the operation the fields say, or says in one sentence what is
// missing.
func (d *OpDraft) Read(r *recipes.Recipe, opt reading.Options) (recipes.Op, error) {
	if d.untouched(r) {
		return *d.was, nil
	}
	line := r.Line(d.Line)
	switch {
	case d.Do.NeedsLine() && line == nil:
		return recipes.Op{}, missing("op.wrong.line")
	case d.Do.NeedsStep() && d.Do != StepMore && r.Step(d.Step) == nil:
		return recipes.Op{}, missing("op.wrong.step")
	case d.Do.NeedsText() && strings.TrimSpace(d.Text) == "":
		return recipes.Op{}, missing("op.wrong.text")
	}
	o := recipes.Op{Line: d.Line, Step: d.Step}
	var err error
	switch d.Do {
	case UseLess:
		o.Kind = recipes.OpMultiply
		o.Factor, err = factorOf(d.Value, line, opt)
	case ReplaceWith:
		o.Kind = recipes.OpExchange
		if o.Share, err = shareOf(d.Value); err == nil {
			o.Lines, err = d.readLines(line.Section, opt)
		}
	case LeaveOut:
		o.Kind = recipes.OpRemove
	case AddThese:
		o.Kind, o.Line = recipes.OpAdd, ""
		o.Lines, err = d.readLines("", opt)
	case EatPart:
		o.Kind = recipes.OpPartEaten
		o.Part, err = shareOf(d.Value)
	case StepReads:
		o.Kind, o.Text = recipes.OpStepReplace, strings.TrimSpace(d.Text)
	case StepMore:
		o.Kind, o.Text = recipes.OpStepAdd, strings.TrimSpace(d.Text)
	case StepGone:
		o.Kind = recipes.OpStepDrop
	}
	if d.Do.NeedsLine() {
		o.Step = ""
	} else if d.Do.NeedsStep() {
		o.Line = ""
	}
	return o, err
}

func missing(key string) error { return problem.New("", words.Say(key), "") }

func shareOf(text string) (float64, error) {
	v, ok := reading.Share(text)
	if !ok {
		return 0, Wrongly("op.wrong.share", text)
	}
	return v, nil
}

// factorOf reads how much of an ingredient is left: "half", "–25 %", "20 g",
// "× 0.5".
func factorOf(text string, l *recipes.Line, opt reading.Options) (float64, error) {
	t := strings.TrimSpace(text)
	for _, times := range []string{"×", "x", "*"} {
		if rest, ok := strings.CutPrefix(t, times); ok {
			if v, ok := reading.Number(rest); ok {
				return v, nil
			}
		}
	}
	measured := *l
	if !l.Known() {
		if !strings.HasSuffix(t, "%") && strings.ContainsAny(t, "0123456789") {
			return 0, Wrongly("op.wrong.share-only", LineName(l))
		}
		measured.Text, measured.Amount, measured.Unit = "100 g "+LineName(l), 100, "g"
		measured.Grams, measured.GramsFrom = 100, recipes.GramsWeight
	}
	if measured.Grams <= 0 || t == "" {
		return 0, Wrongly("op.wrong.amount", text)
	}
	read, err := reading.ReadOver(t, &measured, opt)
	switch {
	case err != nil:
		return 0, err
	case read == nil:
		return 0, missing("op.wrong.none")
	case read.Food != l.Food || !read.Known():
		return 0, Wrongly("op.wrong.amount", text)
	}
	return read.Grams / measured.Grams, nil
}

// readLines reads the new ingredients; a field left empty is not one.
func (d *OpDraft) readLines(section string, opt reading.Options) ([]*recipes.Line, error) {
	var out []*recipes.Line
	for _, x := range d.Lines {
		if strings.TrimSpace(x.Text) == "" {
			continue
		}
		l, err := x.read(section, opt)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	if len(out) == 0 {
		return nil, missing("op.wrong.lines")
	}
	return out, nil
}

func (x *LineDraft) read(section string, opt reading.Options) (*recipes.Line, error) {
	if x.was != nil && x.Food == nil && x.was.Text == x.Text {
		return x.was, nil
	}
	blank := &recipes.Line{Section: section, GramsFrom: recipes.GramsUnknown, PartEaten: 1}
	var l *recipes.Line
	var err error
	if x.Food != nil {
		l, err = reading.ReadOverWith(x.Text, blank, x.Food, opt)
	} else {
		l, err = reading.ReadOver(x.Text, blank, opt)
	}
	switch {
	case err != nil:
		return nil, err
	case l == nil || l.Food.Zero():
		return nil, problem.New("", words.Say("over.no-food", x.Text, strings.TrimSpace(x.Text)), words.Say("over.no-food.hint"))
	case !l.Known():
		return nil, problem.New("", words.Say("over.no-weight", x.Text, LineName(l)), words.Say("over.no-weight.hint"))
	}
	return l, nil
}

// HasStrengths tells whether a swap is one amount of one ingredient less, so
// that it can be made in several strengths.
func HasStrengths(sw *recipes.Swap) bool { return strengthAt(sw) >= 0 }

// strengthAt is the place of a swap's only change of an amount, -1 for none.
func strengthAt(sw *recipes.Swap) int {
	at := -1
	for i, o := range sw.Ops {
		switch {
		case o.Kind != recipes.OpMultiply:
		case at >= 0 || o.Factor >= 1:
			return -1
		default:
			at = i
		}
	}
	return at
}

// Strength is the part a swap takes off its ingredient, 0-1.
func Strength(sw *recipes.Swap) float64 { return 1 - sw.Ops[strengthAt(sw)].Factor }

// StrengthOf is a swap of another strength beside sw: share is what it takes
// off. Name, ladder and place are its own, the rest as in sw.
func StrengthOf(r *recipes.Recipe, sw *recipes.Swap, id recipes.ID, share float64) *recipes.Swap {
	at := strengthAt(sw)
	c := *sw
	c.ID, c.Idea, c.Typed, c.Note = id, "", false, ""
	c.Ops = slices.Clone(sw.Ops)
	c.Ops[at].Factor = 1 - share
	c.Name = words.Say("ideas.name.less", opLine(r, c.Ops[at].Line), words.Share(share))
	c.Ladder, c.Strength = LadderOf(sw), 100*share
	c.Order = sw.Order + share/10 // beside the first, weakest first
	return &c
}

// LadderOf names the strengths a swap belongs to, a new name for its own.
func LadderOf(sw *recipes.Swap) string {
	if sw.Ladder != "" {
		return sw.Ladder
	}
	return "strengths:" + string(sw.ID)
}

// Retyped is a new ingredient typed further: what was picked from the list
// stays only while its text does.
func Retyped(old LineDraft, text string) LineDraft { return LineDraft{Text: text, was: old.was} }

// LineWeight says the weight of an ingredient, for a list to choose from.
func LineWeight(l *recipes.Line) string { return gramsText(l, l.Grams) }

// stepLetters is how much of a step names it.
const stepLetters = 48

// StepName names a step in a list: its number and how it starts.
func StepName(i int, s *recipes.Step) string {
	start := []rune(s.Text)
	if len(start) > stepLetters {
		start = append(start[:stepLetters:stepLetters], '…')
	}
	return words.Say("op.step.name", i+1, string(start))
}

// EditorNotes says what a swap makes worse and the allergens it brings, for the
// editor; "" for nothing.
func (u Units) EditorNotes(e *effects.Effect) string {
	var out []string
	if s := u.slipped(e.Slips); s != "" {
		out = append(out, words.Say("tip.slipped", s))
	}
	if e.Added != 0 {
		out = append(out, words.Say("ideas.caution.allergen", ideas.AllergenWords(e.Added)))
	}
	if e.MayAdd != 0 {
		out = append(out, words.Say("ideas.caution.may allergen", ideas.AllergenWords(e.MayAdd)))
	}
	for _, name := range e.Unrecorded {
		out = append(out, words.Say("ideas.caution.unrecorded", name))
	}
	return strings.Join(out, " ")
}
