package book

import (
	"math"
	"regexp"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// Ingredient is one line of the printed page. An amount without text is said in
// Rest, as the recipe says it.
type Ingredient struct {
	Line    recipes.ID `json:"line"`
	Rest    string     `json:"rest"` // what of: "floury potatoes, peeled"
	Amounts []Amount   `json:"amounts"`
}

// In returns the line as it reads in the page's n-th system of measures.
func (i *Ingredient) In(n int) string {
	if a := i.Amounts[n].Text; a != "" {
		return words.Say("book.ingredient", a, i.Rest)
	}
	return i.Rest
}

// Section is the ingredients under one heading, "" for none.
type Section struct {
	Name  string       `json:"name,omitempty"`
	Lines []Ingredient `json:"lines"`
}

// sections lists what goes in under its headings; lines without one come first.
// What is gone or taken off the dish is left out.
func sections(d *recipes.Draft, foods func(food.Ref) *food.Food, houses []house) []Section {
	var out []Section
	at := map[string]int{}
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Gone() || l.Line.Kind == recipes.TakenOff {
			continue
		}
		n, ok := at[l.Section]
		if !ok {
			n = len(out)
			at[l.Section] = n
			out = append(out, Section{Name: l.Section})
		}
		out[n].Lines = append(out[n].Lines, ingredientOf(l, foods(l.Line.Food), houses))
	}
	if n, ok := at[""]; ok && n > 0 {
		plain := out[n]
		out = append(append([]Section{plain}, out[:n]...), out[n+1:]...)
	}
	return out
}

func ingredientOf(d *recipes.DraftLine, f *food.Food, houses []house) Ingredient {
	in := Ingredient{Line: d.Line.ID, Rest: restOf(d)}
	for _, h := range houses {
		in.Amounts = append(in.Amounts, h.amount(d, f))
	}
	if in.Amounts[0].Text == "" {
		in.Rest = wholeText(d)
	}
	return in
}

// notes are what a cook writes in square brackets for the program.
var notes = regexp.MustCompile(`\s*\[[^\]]*\]`)

// wholeText is a line as it was written; where a swap changed what has no amount
// of its own it says so much of it.
func wholeText(d *recipes.DraftLine) string {
	text := strings.TrimSpace(notes.ReplaceAllString(d.Line.Text, ""))
	if math.Abs(d.Scale-1) < 1e-9 {
		return text
	}
	return words.Say("book.part", words.Share(d.Scale), text)
}

// second is a measure given a second time in brackets: "(7 oz)".
var second = regexp.MustCompile(`^\([^)]*\d[^)]*\)\s*`)

// restOf is the line without its amount: as it was written where the amount
// stands plainly in front, else its name and how it is prepared.
func restOf(d *recipes.DraftLine) string {
	l := d.Line
	text := strings.TrimSpace(notes.ReplaceAllString(l.Text, ""))
	_, rest, ok := measure.ReadNumber(text)
	if !ok {
		return named(l, text)
	}
	u := measure.Lookup(l.Unit)
	if u == nil || u.Kind == measure.Pack || u.Kind == measure.Piece {
		return rest
	}
	if rest, ok = withoutUnit(rest, u); !ok {
		return named(l, text)
	}
	rest = strings.TrimPrefix(second.ReplaceAllString(rest, ""), "of ")
	if rest == "" || strings.ContainsAny(rest[:1], "(/+-–x×0123456789") {
		return named(l, text)
	}
	return rest
}

// withoutUnit takes the unit off the front of a text.
func withoutUnit(rest string, u *measure.Unit) (string, bool) {
	fields := strings.Fields(rest)
	for n := min(2, len(fields)); n > 0; n-- {
		if x := measure.Lookup(strings.Join(fields[:n], " ")); x != nil && x.Word == u.Word {
			return strings.Join(fields[n:], " "), true
		}
	}
	return rest, false
}

// named is the line's name with how it is prepared, text where it has none.
func named(l *recipes.Line, text string) string {
	switch {
	case l.Name == "":
		return text
	case l.Prep == "":
		return l.Name
	}
	return words.Say("book.prepared", l.Name, l.Prep)
}
