package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/claims"
	"parewell/charts/book"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/words"
)

// PrintChoice is a version that can be printed of a recipe: the key is what
// recipes.Print keeps.
type PrintChoice struct{ Key, Name string }

// PrintChoices are the newest version whatever it will be, each version, and the
// original.
func PrintChoices(b *recipes.Book, r *recipes.Recipe) []PrintChoice {
	all := b.Versions(r.ID)
	out := []PrintChoice{}
	if n := len(all); n > 0 {
		out = append(out, PrintChoice{"", words.Say("printed.newest", VersionName(all[n-1]))})
	}
	for _, v := range all {
		out = append(out, PrintChoice{string(v.ID), VersionName(v)})
	}
	return append(out, PrintChoice{string(recipes.PrintOriginal), words.Say("original")})
}

// PrintChosen is the key of what is printed of a recipe now.
func PrintChosen(b *recipes.Book, r *recipes.Recipe) string {
	if book.Printed(b, r) == nil {
		return string(recipes.PrintOriginal)
	}
	if b.Version(r.ID, r.Print.Version) == nil {
		return ""
	}
	return string(r.Print.Version)
}

// PrintNote is a swap that has something to say to whoever cooks it: its name,
// and whether that is on the page.
type PrintNote struct {
	Swap recipes.ID
	Name string
	On   bool
}

// PrintNotes are the notes on technique of the version that is printed.
func PrintNotes(b *recipes.Book, r *recipes.Recipe) []PrintNote {
	var out []PrintNote
	for _, n := range book.NotesOf(b, book.Printed(b, r)) {
		out = append(out, PrintNote{n.Swap, words.Capital(n.Name), !slices.Contains(r.Print.Untold, n.Swap)})
	}
	return out
}

// Untold are the swaps whose notes are not printed once one more is, or one less.
func Untold(r *recipes.Recipe, swap recipes.ID, on bool) []recipes.ID {
	out := slices.DeleteFunc(slices.Clone(r.Print.Untold), func(id recipes.ID) bool { return id == swap })
	if !on {
		out = append(out, swap)
	}
	return out
}

// HeadnoteOf checks the words above a recipe against the numbers of the version
// that is printed.
func HeadnoteOf(b *recipes.Book, r *recipes.Recipe, text string) []Headline {
	x, v := NewBench(b, r), book.Printed(b, r)
	for i := range x.Versions {
		if x.Versions[i] == v {
			return x.Headnote(i, text)
		}
	}
	return nil
}

// SheetsOf says on how many sheets of which paper a page stands, and how many
// points are open.
func SheetsOf(p *book.Page, n, open int) string {
	paper := words.Say("printed.a4")
	if p.Paper().Key == manuscript.Letter.Key {
		paper = words.Say("printed.letter")
	}
	out := words.Say("printed.sheets", n, paper)
	if open > 0 {
		out = words.Say("printed.sheets.open", out, words.Say("printed.open.count", open))
	}
	return out
}

// movedLines is how many ingredients are named that rounding moved.
const movedLines = 3

// PrintMoved says in a sentence why a page prints another energy than the Versions
// page shows: which ingredients it prints rounded, and what each moves. Empty where
// both show the same number.
func PrintMoved(p *book.Page) string {
	m := p.Moved
	if m == nil || words.Number(m.Own, 0) == words.Number(m.Page, 0) {
		return ""
	}
	var said []string
	rest := m.Page - m.Own - m.Rule
	for _, l := range m.Lines {
		if len(said) == movedLines || math.Abs(l.By) < 0.5 {
			break
		}
		said = append(said, words.Say("printed.moved.line", l.Name, gramsApart(l.Is, l.Was), gramsApart(l.Was, l.Is), words.Signed(l.By, 0)))
		rest -= l.By
	}
	if n := len(m.Lines) - len(said); n > 0 && math.Abs(rest) >= 0.5 {
		said = append(said, words.Say("printed.moved.more", n, words.Signed(rest, 0)))
	}
	if math.Abs(m.Rule) >= 0.5 {
		said = append(said, words.Say("printed.moved.rule."+ruleKey(p), words.Signed(m.Rule, 0)))
	}
	if len(said) == 0 {
		return ""
	}
	return words.Say("printed.moved", words.Number(m.Page, 0), words.Number(m.Own, 0), words.Join(said))
}

// ruleKey is the page's rule as keys of words have it.
func ruleKey(p *book.Page) string {
	if p.Rule == claims.US {
		return "us"
	}
	return "eu"
}

// gramsApart writes a weight beside another that is close to it: with a decimal
// where both would read the same.
func gramsApart(g, other float64) string {
	if words.Grams(g) == words.Grams(other) {
		return words.Trim(g, 1) + " g"
	}
	return words.Grams(g)
}

// PrintNamed finds what is printed by a version's letter or name as typed; false
// when there is none of that name.
func PrintNamed(b *recipes.Book, r *recipes.Recipe, typed string) (key string, ok bool) {
	typed = strings.TrimSpace(typed)
	for _, v := range b.Versions(r.ID) {
		if strings.EqualFold(typed, v.Letter) || strings.EqualFold(typed, v.Name) || strings.EqualFold(typed, VersionName(v)) {
			return string(v.ID), true
		}
	}
	if strings.EqualFold(typed, words.Say("original")) || strings.EqualFold(typed, VersionName(nil)) {
		return string(recipes.PrintOriginal), true
	}
	return "", false
}
