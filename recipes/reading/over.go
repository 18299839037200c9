package reading

import (
	"math"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// ReadOver reads what was typed over an ingredient that stood in a field: "20 g",
// "2 tbsp", "half" and "-25 %" change its amount and keep food, name, part eaten
// and technique; "20 g olive oil" and "olive oil 20 g" put another ingredient in
// its place, "olive oil" alone the same weight of it. A bare number is in the
// unit the line was written in or in grams, whichever lies nearer to what was
// there. Nothing, a dash, "0" and "left out" leave the ingredient out: the line
// is nil then. The result has line's ID and section. What names two
// ingredients, an unknown food or no amount is refused with a *problem.Error
// that says so; line is not changed.
func ReadOver(text string, line *recipes.Line, opt Options) (*recipes.Line, error) {
	o := over{text: clean(text), line: line, opt: opt}
	switch {
	case leavesOut(text):
		return nil, nil
	case o.text == "":
		return nil, o.refuse("over.unreadable")
	}
	if factor, ok := shareTyped(text, line); ok {
		return o.scaled(factor)
	}
	if amountOnly(o.text, opt.System) {
		return o.amount()
	}
	return o.another(nil)
}

// ReadOverWith is ReadOver for text whose food was picked from a list: the
// ingredient is f whatever its name could mean besides.
func ReadOverWith(text string, line *recipes.Line, f *food.Food, opt Options) (*recipes.Line, error) {
	o := over{text: clean(text), line: line, opt: opt}
	return o.another(f)
}

// over is one reading of what was typed over a line.
type over struct {
	text string
	line *recipes.Line
	opt  Options
}

func (o *over) refuse(key string, args ...any) error {
	return problem.New("", words.Say(key, append([]any{o.text}, args...)...), words.Say(key+".hint"))
}

// leavesOut tells that what was typed leaves the ingredient out.
func leavesOut(text string) bool {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "-", "–", "—", "0", "0 g", "0g", "none", "nothing", "left out", "leave out", "without":
		return true
	}
	return false
}

// shares are the words that make a part of an amount.
var shares = map[string]float64{
	"half": 1. / 2, "a half": 1. / 2, "half of it": 1. / 2, "half as much": 1. / 2, "half the amount": 1. / 2,
	"third": 1. / 3, "a third": 1. / 3, "one third": 1. / 3, "two thirds": 2. / 3, "quarter": 1. / 4, "a quarter": 1. / 4,
	"one quarter": 1. / 4, "three quarters": 3. / 4, "double": 2, "twice": 2, "twice as much": 2,
}

// shareTyped reads a part of what was there: "half", "75 %", "-25 %", "+10 %",
// and a bare fraction over an ingredient that is weighed.
func shareTyped(text string, line *recipes.Line) (float64, bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	if f, ok := shares[t]; ok {
		return f, true
	}
	if rest, ok := strings.CutSuffix(t, "%"); ok {
		sign, base := 1.0, 0.0
		for _, m := range []struct {
			mark string
			sign float64
		}{{"-", -1}, {"–", -1}, {"−", -1}, {"+", 1}} {
			if after, ok := strings.CutPrefix(rest, m.mark); ok {
				rest, sign, base = after, m.sign, 1
				break
			}
		}
		n, after, ok := measure.ReadNumber(strings.TrimSpace(rest))
		f := base + sign*n.Low/100
		return f, ok && after == "" && f > 0
	}
	n, rest, ok := measure.ReadNumber(t)
	weighed := measure.Lookup(line.Unit) != nil && measure.Lookup(line.Unit).Grams > 0
	if ok && rest == "" && n.Low > 0 && n.Low < 1 && weighed && !strings.ContainsAny(t, ".,") {
		return n.Low, true
	}
	return 0, false
}

// probe stands for a name after an amount; it is no unit and no size.
const probe = "xylophone"

// amountOnly tells that text holds an amount and no name.
func amountOnly(text string, sys measure.System) bool {
	a, rest := readAmount(text+" "+probe, sys)
	return a.found && rest == probe
}

// scaled is the line with a part of its amount.
func (o *over) scaled(factor float64) (*recipes.Line, error) {
	if !o.line.Known() {
		return nil, o.refuse("over.no-weight", o.line.Name)
	}
	return Scaled(o.line, factor, o.opt), nil
}

// Scaled returns a copy of line with factor times its amount and weight, its
// text told anew; a factor of 1 changes nothing. A line whose weight is not
// known stays as it is.
func Scaled(line *recipes.Line, factor float64, opt Options) *recipes.Line {
	c := *line
	if factor == 1 || !line.Known() {
		return &c
	}
	l, o := line, over{line: line, opt: opt}
	c.Amount, c.High, c.Grams = l.Amount*factor, l.High*factor, roundGrams(l.Grams*factor)
	c.GramsNote = ""
	text := clean(l.Text)
	if n, rest, ok := measure.ReadNumber(text); ok && !n.Range() && l.Amount > 0 {
		c.Text = words.Fraction(n.Low*factor) + gapAfter(text, rest) + rest
	} else {
		c.Text = gramsOf(c.Grams) + " " + o.tail()
	}
	return &c
}

// gapAfter is the space between a number and what follows it, as written.
func gapAfter(text, rest string) string {
	if strings.HasSuffix(strings.TrimSuffix(text, rest), " ") {
		return " "
	}
	return ""
}

func gramsOf(grams float64) string { return figure(math.Round(grams*10)/10) + " g" }

// tail is the line's text without its amount.
func (o *over) tail() string {
	s, _ := cutNotes(clean(o.line.Text))
	if a, rest := readAmount(s, o.opt.System); a.found && hasLetter(rest) {
		return strings.TrimLeft(rest, " ,")
	}
	if o.line.Prep != "" {
		return o.line.Name + ", " + o.line.Prep
	}
	if o.line.Name != "" {
		return o.line.Name
	}
	return s
}

// amount is the line with the amount typed.
func (o *over) amount() (*recipes.Line, error) {
	if n, rest, ok := measure.ReadNumber(o.text); ok && rest == "" {
		return o.bareNumber(n.Value())
	}
	read := o.sameFood(o.text + " " + o.tail())
	if !read.Known() {
		return nil, o.refuse("over.no-weight", o.line.Name)
	}
	return read, nil
}

// bareNumber takes a number without a unit as so many of the unit that was
// written or as grams, whichever lies nearer to the present weight.
func (o *over) bareNumber(v float64) (*recipes.Line, error) {
	grams := o.sameFood(o.text + " g " + o.tail())
	s := clean(o.line.Text)
	_, rest, ok := measure.ReadNumber(s)
	if !ok || o.line.Amount == 0 || !(v > 0) {
		return grams, nil
	}
	same := o.sameFood(o.text + gapAfter(s, rest) + rest)
	if !same.Known() || o.line.Known() && apart(same.Grams, o.line.Grams) > apart(grams.Grams, o.line.Grams) {
		return grams, nil
	}
	return same, nil
}

// apart is how many times one weight holds the other.
func apart(a, b float64) float64 {
	if !(a > 0) || !(b > 0) {
		return math.Inf(1)
	}
	return math.Max(a/b, b/a)
}

// sameFood reads text as another amount of the line's own food and gives the
// line with that amount.
func (o *over) sameFood(text string) *recipes.Line {
	opt := o.opt
	if !o.line.Food.Zero() {
		opt.Memory = pinned{o.opt.Memory, o.line.Food}
	}
	read := ReadLine(text, opt)
	c := *o.line
	c.Text, c.Amount, c.High, c.Unit = read.Text, read.Amount, read.High, read.Unit
	c.Grams, c.GramsFrom, c.GramsNote = read.Grams, read.GramsFrom, read.GramsNote
	if read.GramsFrom == recipes.GramsWeight {
		c.AsBought = o.line.AsBought
	} else {
		c.AsBought = read.AsBought
	}
	c.Doubts = append(notOfAmount(o.line.Doubts), ofAmount(read.Doubts)...)
	if len(c.Doubts) == 0 {
		c.Doubts = nil
	}
	return &c
}

// pinned answers every name with one food; weights the cook once gave stay.
type pinned struct {
	Memory
	ref food.Ref
}

// Choice returns the pinned food for any name.
func (p pinned) Choice(name string) *recipes.Choice {
	c := &recipes.Choice{Name: name, Food: p.ref}
	if p.Memory != nil {
		if old := p.Memory.Choice(name); old != nil {
			c.Grams = old.Grams
		}
	}
	return c
}

// amountDoubts are about how much, the others about what.
var amountDoubts = map[recipes.DoubtKind]bool{
	recipes.DoubtAmount: true, recipes.DoubtToTaste: true, recipes.DoubtRange: true, recipes.DoubtDefault: true,
	recipes.DoubtMeasure: true, recipes.DoubtPack: true, recipes.DoubtDrained: true,
}

func ofAmount(all []recipes.Doubt) []recipes.Doubt { return doubtsWhere(all, true) }

func notOfAmount(all []recipes.Doubt) []recipes.Doubt { return doubtsWhere(all, false) }

func doubtsWhere(all []recipes.Doubt, amount bool) []recipes.Doubt {
	var out []recipes.Doubt
	for _, d := range all {
		if amountDoubts[d.Kind] == amount {
			out = append(out, d)
		}
	}
	return out
}

// another reads an ingredient by name; f, when not nil, is the food it is.
func (o *over) another(f *food.Food) (*recipes.Line, error) {
	if !hasLetter(o.text) {
		return nil, o.refuse("over.unreadable")
	}
	if namesTwo(o.text, o.opt) {
		return nil, o.refuse("over.two")
	}
	read := o.named(o.text, f)
	if f == nil && Key(read.Name) == Key(o.line.Name) && read.Name != "" {
		return o.sameName(read)
	}
	if read.Amount == 0 && read.GramsFrom != recipes.GramsTyped { // only a name: the same weight of it
		if !o.line.Known() {
			return nil, o.refuse("over.no-amount")
		}
		read = o.named(gramsOf(o.line.Grams)+" "+o.text, f)
	}
	switch {
	case read.Food.Zero():
		return nil, o.refuse("over.no-food", read.Name)
	case !read.Known():
		return nil, o.refuse("over.no-weight", read.Name)
	}
	read.ID, read.Section, read.Technique = o.line.ID, o.line.Section, technique(read, o.line)
	return read, nil
}

// technique is the one the new text names, else that of the line it replaces.
func technique(read, line *recipes.Line) recipes.Technique {
	if read.Technique.Method != "" {
		return read.Technique
	}
	return line.Technique
}

func (o *over) named(text string, f *food.Food) *recipes.Line {
	opt := o.opt
	if f != nil {
		opt.Memory = pinned{o.opt.Memory, f.Ref}
	}
	return ReadLine(text, opt)
}

// sameName handles the line's own name typed again, with an amount or without.
func (o *over) sameName(read *recipes.Line) (*recipes.Line, error) {
	if read.Amount == 0 && !read.Known() {
		c := *o.line
		return &c, nil
	}
	again := o.sameFood(o.text)
	again.Name, again.Prep = read.Name, read.Prep
	if again.Food.Zero() {
		again.Food = read.Food
	}
	if !again.Known() {
		return nil, o.refuse("over.no-weight", o.line.Name)
	}
	return again, nil
}

// namesTwo tells that a text names more than one ingredient.
func namesTwo(text string, opt Options) bool {
	_, rest := readAmount(text, opt.System)
	if strings.Contains(rest, "+") {
		return true
	}
	if _, after, ok := strings.Cut(rest, " and "); ok && startsAmount(after) {
		return true
	}
	return len(ReadLines(text, opt)) > 1
}

// Typed divides what is being typed over an ingredient into the amount before
// the name, the name, and the amount after it, so that the name alone can be
// completed: "20 g oliv" gives "20 g ", "oliv", "". name is empty while only an
// amount is there.
func Typed(text string, sys measure.System) (before, name, after string) {
	if strings.TrimSpace(text) == "" || amountOnly(clean(text), sys) {
		return text, "", ""
	}
	if a, rest := readAmount(text, sys); a.found && hasLetter(rest) {
		return text[:len(text)-len(rest)], rest, ""
	}
	if a, rest, ok := trailingAmount(text, sys); ok && a.found && strings.HasPrefix(text, rest) {
		return "", rest, text[len(rest):]
	}
	return "", text, ""
}
