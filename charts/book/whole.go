package book

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Choice is a recipe with the version of it that is printed; an empty Version is
// the original.
type Choice struct{ Recipe, Version recipes.ID }

// Manuscript is the whole book: its pages in order, the nutrition before and
// after, the index by ingredient and the report of what does not hold together.
type Manuscript struct {
	Title  string       `json:"title"`
	Made   time.Time    `json:"made"`
	Pages  []*Page      `json:"pages"`
	Index  []IndexEntry `json:"index"`
	Report []Open       `json:"report"`

	options Options
}

// IndexEntry is an ingredient, as an index names it, with the pages of the recipes it is in, by their
// place in Pages.
type IndexEntry struct {
	Name  string `json:"name"`
	Pages []int  `json:"pages"`
}

// ManuscriptOf makes the book of the chosen recipes, in their order. made is the
// day it is made. Errors: nothing chosen, or a recipe or version that is gone.
func ManuscriptOf(b *recipes.Book, title string, chosen []Choice, o Options, made time.Time) (*Manuscript, error) {
	if len(chosen) == 0 {
		return nil, problem.New(title, words.Say("book.nothing"), words.Say("book.nothing.hint"))
	}
	if title == "" {
		title = words.Say("book.title")
	}
	m := &Manuscript{Title: title, Made: made, options: o.settled()}
	for _, c := range chosen {
		p, err := PageOf(b, c.Recipe, c.Version, o)
		if err != nil {
			return nil, err
		}
		m.Pages = append(m.Pages, p)
	}
	for i, p := range m.Pages {
		p.beside = slices.ContainsFunc(chosen, func(c Choice) bool { return c.Recipe == p.Recipe && c != chosen[i] })
	}
	m.Index = indexOf(b, m.Pages)
	m.Report = reportOf(b, m.Pages)
	return m, nil
}

// indexOf lists ingredients by name: one food under one name, the one that most
// of its lines have.
func indexOf(b *recipes.Book, pages []*Page) []IndexEntry {
	type entry struct {
		names map[string]int
		pages []int
	}
	all := map[string]*entry{}
	for n, p := range pages {
		for _, l := range linesOf(b, p) {
			name := strings.TrimSpace(l.Name)
			if name == "" || l.Kind == recipes.TakenOff {
				continue
			}
			key := "name " + strings.ToLower(name)
			if !l.Food.Zero() {
				key = l.Food.String()
			}
			e := all[key]
			if e == nil {
				e = &entry{names: map[string]int{}}
				all[key] = e
			}
			e.names[name]++
			if !slices.Contains(e.pages, n) {
				e.pages = append(e.pages, n)
			}
		}
	}
	var out []IndexEntry
	for _, e := range all {
		out = append(out, IndexEntry{Name: indexName(mostUsed(e.names)), Pages: e.pages})
	}
	slices.SortFunc(out, func(x, y IndexEntry) int {
		return cmp.Or(cmp.Compare(strings.ToLower(x.Name), strings.ToLower(y.Name)), cmp.Compare(x.Pages[0], y.Pages[0]))
	})
	return merged(out)
}

// merged joins entries of one name: two foods that the recipes call the same.
func merged(all []IndexEntry) []IndexEntry {
	var out []IndexEntry
	for _, e := range all {
		if n := len(out); n > 0 && strings.EqualFold(out[n-1].Name, e.Name) {
			out[n-1].Pages = append(slices.Clone(out[n-1].Pages), e.Pages...)
			slices.Sort(out[n-1].Pages)
			out[n-1].Pages = slices.Compact(out[n-1].Pages)
			continue
		}
		out = append(out, e)
	}
	return out
}

// mostUsed is the name most lines have, the first by the alphabet of several.
func mostUsed(names map[string]int) string {
	best := ""
	for name, n := range names {
		if best == "" || n > names[best] || n == names[best] && name < best {
			best = name
		}
	}
	return best
}

// linesOf are the lines that stand on a page.
func linesOf(b *recipes.Book, p *Page) []*recipes.Line {
	var out []*recipes.Line
	d := b.Draft(b.Recipe(p.Recipe), b.Version(p.Recipe, p.Version))
	for i := range d.Lines {
		if !d.Lines[i].Gone() && d.Lines[i].Line.Kind != recipes.TakenOff {
			out = append(out, d.Lines[i].Line)
		}
	}
	return out
}

// tableBlocks is the nutrition of all recipes before and after.
func (m *Manuscript) tableBlocks() []block {
	head := []string{words.Say("book.col.recipe")}
	for _, s := range changed {
		head = append(head, capital(plainName(s.nutrient, m.options)))
	}
	t := block{kind: grid, style: styleSmall, rows: [][]string{head}, right: []bool{false, true, true, true, true}, text: words.Say("book.table.note." + m.rule())}
	for _, p := range m.Pages {
		row := []string{p.pageName()}
		for i, s := range changed {
			row = append(row, p.cell(i, s.nutrient))
		}
		t.rows = append(t.rows, row)
	}
	return []block{t}
}

// cell is one nutrient before and after, or the figure alone.
func (p *Page) cell(i int, n food.Nutrient) string {
	s := shown{nutrient: n}
	short := p.options
	short.Rule, short.KJFirst = p.Rule, false
	after := shortOf(rowOf(p.account, s, p.account.PerServing(n), short))
	if p.Change == nil {
		return after
	}
	r := p.Change.Rows[i]
	before := shortOf(rowOf(p.base, s, p.base.PerServing(n), short))
	if _, unit, ok := strings.Cut(after, " "); ok && r.Bound == nutrition.Exact {
		before = strings.TrimSuffix(before, " "+unit) // "704 to 559 kcal"
	}
	switch {
	case r.Percent != nil && r.Bound == nutrition.Exact:
		return words.Say("book.table.cell", before, after, words.Percent(*r.Percent))
	case r.Bound == nutrition.Exact:
		return words.Say("book.table.plain", before, after)
	}
	return words.Say("book.table."+string(r.Bound), before, after)
}

// shortOf is a figure without the kJ that may stand behind it.
func shortOf(r Row) string {
	text, _, _ := strings.Cut(r.Text, " / ")
	return text
}

func (m *Manuscript) rule() string {
	if m.options.Rule == claims.US {
		return "us"
	}
	return "eu"
}

// pageName names a page where it is referred to.
func (p *Page) pageName() string {
	if p.Letter == "" || !p.beside {
		return p.Title
	}
	return words.Say("book.col.recipe-version", p.Title, p.Letter)
}
