package ideas

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"parewell/recipes"
	"parewell/recipes/food"
)

// family is a set of foods that take the same swaps: by number in the
// published table, or by name where the number says nothing (own foods).
type family struct {
	codes      map[string]bool
	words, but []string
}

// context is something a recipe shows by its words: that it is a cake, that
// the butter is for frying.
type context struct {
	key        string
	place      place
	words, but []string
}

// place says which of a recipe's words a context is looked for in.
type place string

// Places of a context.
const (
	inTitle  place = "title"  // title, category, what it makes
	inMethod place = "method" // the title and every step
	atLine   place = "line"   // the line itself, its heading, and sentences that name it
)

var kitchenColumns = []string{"kind", "key", "codes", "place", "words", "but"}

// readKitchen reads the families and contexts.
func (c *Catalogue) readKitchen(b []byte) error {
	c.families = map[string]*family{}
	return eachRow("kitchen.csv", b, kitchenColumns, func(rec []string) error {
		key, phrases, but := rec[1], padded(split(rec[4])), padded(split(rec[5]))
		if key == "" || len(phrases) == 0 {
			return fmt.Errorf("the name or the words are missing")
		}
		switch rec[0] {
		case "family":
			f := &family{codes: map[string]bool{}, words: phrases, but: but}
			for _, code := range split(rec[2]) {
				f.codes[code] = true
			}
			c.families[key] = f
		case "context":
			p := place(rec[3])
			if p != inTitle && p != inMethod && p != atLine {
				return fmt.Errorf("there is no place %q", rec[3])
			}
			c.contexts = append(c.contexts, context{key: key, place: p, words: phrases, but: but})
		default:
			return fmt.Errorf("there is no kind %q", rec[0])
		}
		return nil
	})
}

func (c *Catalogue) hasContext(key string) bool {
	return slices.ContainsFunc(c.contexts, func(x context) bool { return x.key == key })
}

// holds tells whether a food belongs to the family. A food of the published
// table belongs by its number alone, any other by its name.
func (f *family) holds(x *food.Food, name string) bool {
	if x.Source == food.StarterSource {
		return f.codes[x.Code]
	}
	text := pad(x.Name + " . " + name)
	return hasAny(text, f.words) && !hasAny(text, f.but)
}

// is tells whether a food belongs to the family of that name.
func (c *Catalogue) is(key string, x *food.Food, name string) bool {
	f := c.families[key]
	return f != nil && x != nil && f.holds(x, name)
}

// contextsOf returns the contexts a recipe shows for one of its lines.
func (c *Catalogue) contextsOf(r *recipes.Recipe, l *recipes.Line) map[string]bool {
	text := map[place]string{inTitle: pad(r.Title + " . " + r.Category + " . " + r.Makes)}
	text[inMethod] = text[inTitle] + pad(r.Dish.Method)
	text[atLine] = pad(l.Text + " . " + l.Section + " . " + l.Prep + " . " + l.Technique.Method)
	noun := nounOf(l)
	for _, s := range r.Steps {
		text[inMethod] += pad(s.Text)
		for _, sentence := range strings.FieldsFunc(s.Text, func(x rune) bool { return x == '.' || x == ';' }) {
			if p := pad(sentence); names(p, noun) {
				text[atLine] += p
			}
		}
	}
	out := map[string]bool{}
	for _, x := range c.contexts {
		if hasAny(text[x.place], x.words) && !hasAny(text[x.place], x.but) {
			out[x.key] = true
		}
	}
	return out
}

// lastMention returns the last step that names the line, "" if none does.
func lastMention(r *recipes.Recipe, l *recipes.Line) recipes.ID {
	noun, at := nounOf(l), recipes.ID("")
	for _, s := range r.Steps {
		if names(pad(s.Text), noun) {
			at = s.ID
		}
	}
	return at
}

// renamed rewrites the steps that name an ingredient in full, so that the
// method of the version names what is in it.
func renamed(r *recipes.Recipe, old, now string) []recipes.Op {
	var out []recipes.Op
	for _, s := range r.Steps {
		if text := replaceWords(s.Text, old, now); text != s.Text {
			out = append(out, recipes.Op{Kind: recipes.OpStepReplace, Step: s.ID, Text: text})
		}
	}
	return out
}

// replaceWords puts now for old wherever old stands as whole words, whatever
// the case of its letters.
func replaceWords(text, old, now string) string {
	if old == "" {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		if standsAt(text, old, i) {
			b.WriteString(now)
			i += len(old)
			continue
		}
		b.WriteByte(text[i])
		i++
	}
	return b.String()
}

// standsAt tells whether word stands at byte i of text as a whole word.
func standsAt(text, word string, i int) bool {
	end := i + len(word)
	if end > len(text) || !strings.EqualFold(text[i:end], word) {
		return false
	}
	before, _ := utf8.DecodeLastRuneInString(text[:i])
	after, _ := utf8.DecodeRuneInString(text[end:])
	return !wordRune(before) && !wordRune(after)
}

func wordRune(r rune) bool {
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

// nounOf returns the word by which a method names the ingredient: the last of
// its name before a comma or bracket.
func nounOf(l *recipes.Line) string {
	name := l.Name
	if name == "" {
		name = l.Text
	}
	if at := strings.IndexAny(name, ",("); at > 0 {
		name = name[:at]
	}
	fields := strings.Fields(pad(name))
	if len(fields) == 0 {
		return ""
	}
	return fields[len(fields)-1]
}

// names tells whether padded text has the noun, in one number or the other.
func names(text, noun string) bool {
	if noun == "" {
		return false
	}
	one := strings.TrimSuffix(noun, "s")
	return strings.Contains(text, " "+one+" ") || strings.Contains(text, " "+one+"s ") || strings.Contains(text, " "+noun+" ")
}

// pad lowers text to words parted and framed by single spaces, so that a
// phrase between spaces is found only as whole words.
func pad(s string) string {
	fields := strings.FieldsFunc(strings.ToLower(accents.Replace(s)), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '%' || r == '\'')
	})
	return " " + strings.Join(fields, " ") + " "
}

// accents are those that kitchen words carry in English.
var accents = strings.NewReplacer("è", "e", "é", "e", "ê", "e", "â", "a", "à", "a", "û", "u", "ñ", "n", "î", "i", "ô", "o", "ç", "c", "’", "'")

func padded(phrases []string) []string {
	out := make([]string, len(phrases))
	for i, p := range phrases {
		out[i] = pad(p)
	}
	return out
}

func hasAny(text string, phrases []string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return strings.Contains(text, p) })
}
