package exchange

import (
	"io"
	"math"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// WriteText writes one version as plain text that the reader takes back: title,
// headnote, servings, headed ingredients, numbered method.
func WriteText(w io.Writer, d *recipes.Draft) error {
	var b strings.Builder
	b.WriteString(title(d) + "\n\n")
	if d.Recipe.Headnote != "" {
		b.WriteString(d.Recipe.Headnote + "\n\n")
	}
	b.WriteString(yield(d) + "\n\n" + words.Say("exchange.ingredients") + "\n")
	section := ""
	for _, l := range lines(d) {
		if l.section != section {
			section = l.section
			b.WriteString("\n" + section + "\n")
		}
		b.WriteString(l.text + "\n")
	}
	b.WriteString("\n" + words.Say("exchange.method") + "\n\n")
	for i, s := range steps(d) {
		b.WriteString(strconv.Itoa(i+1) + ". " + s + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// title names the dish; a version adds its letter and name.
func title(d *recipes.Draft) string {
	switch v := d.Version; {
	case v == nil:
		return d.Recipe.Title
	case v.Name == "":
		return words.Say("exchange.version", d.Recipe.Title, v.Letter)
	default:
		return words.Say("exchange.version-named", d.Recipe.Title, v.Letter, v.Name)
	}
}

// yield says what divides the dish: "Serves 6", or "Makes 14 slices" where the
// recipe counts in pieces.
func yield(d *recipes.Draft) string {
	if noun := pieces(d); noun != "" {
		return words.Say("exchange.makes", d.Servings, noun)
	}
	return words.Say("exchange.serves", d.Servings)
}

// pieces is what the recipe counts in ("slices"), "" for servings.
func pieces(d *recipes.Draft) string {
	_, noun, _ := strings.Cut(d.Recipe.Makes, " ")
	return noun
}

// written is one ingredient as it goes out.
type written struct {
	section, text string
}

// lines lists a draft's ingredients with the lines of each heading together;
// what is gone or taken off the dish is left out.
func lines(d *recipes.Draft) []written {
	var sections []string
	bySection := map[string][]written{}
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Gone() || l.Line.Kind == recipes.TakenOff {
			continue
		}
		s := l.Line.Section
		if _, seen := bySection[s]; !seen {
			sections = append(sections, s)
		}
		bySection[s] = append(bySection[s], written{section: s, text: lineText(l)})
	}
	var out []written
	for _, s := range plainFirst(sections) {
		out = append(out, bySection[s]...)
	}
	return out
}

// plainFirst puts ingredients without a heading first, where a reader would
// not take them for part of the section above.
func plainFirst(sections []string) []string {
	out := make([]string, 0, len(sections))
	for _, s := range sections {
		if s == "" {
			out = append([]string{s}, out...)
			continue
		}
		out = append(out, s)
	}
	return out
}

// lineText is an ingredient as written, with its amount changed as the swaps
// change it: in its own unit where that gives a kitchen figure, else in grams.
func lineText(d *recipes.DraftLine) string {
	l := d.Line
	if math.Abs(d.Scale-1) < 1e-9 {
		return l.Text
	}
	name := l.Name
	if name == "" {
		name = l.Text
	}
	if l.Prep != "" {
		name = words.Say("exchange.prepared", name, l.Prep)
	}
	if s, ok := amountText(l, d.Scale); ok {
		return words.Say("exchange.line", s, name)
	}
	if g, known := d.Grams(); known {
		return words.Say("exchange.line", words.Grams(g), name)
	}
	return words.Say("exchange.line-part", words.Share(d.Scale), l.Text)
}

// amountText scales an amount in its own unit; false where that is no figure a
// cook measures: a fraction of a gram or spoon she has no measure for.
func amountText(l *recipes.Line, scale float64) (string, bool) {
	if l.Amount <= 0 || l.High > 0 {
		return "", false
	}
	amount := l.Amount * scale
	switch l.Unit {
	case "g", "ml":
		if amount < 20 {
			return words.Trim(amount, 1) + " " + l.Unit, true
		}
		return words.Number(amount, 0) + " " + l.Unit, true
	case "tsp", "tbsp", "cup":
		s := words.Fraction(amount)
		return s + " " + l.Unit, !strings.Contains(s, words.Current().Decimal)
	}
	return "", false
}

// steps returns the method as it reads; where two swaps rewrite one step and
// the cook has not joined them both texts stand in it.
func steps(d *recipes.Draft) []string {
	var out []string
	for i := range d.Steps {
		s := &d.Steps[i]
		if s.Dropped {
			continue
		}
		text := s.Texts[0]
		for _, more := range s.Texts[1:] {
			text = words.Say("exchange.step-too", text, more)
		}
		out = append(out, text)
	}
	return out
}
