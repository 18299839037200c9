package book

import (
	"cmp"
	"encoding/json"
	"io"
	"regexp"
	"slices"
	"strings"

	"parewell/analysis/claims"
	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// reportOrder is the order of kinds in the report: what may mislead a reader
// first.
var reportOrder = []OpenKind{
	OpenHealth, OpenClaim, OpenTaste, OpenAllergen, OpenUnspoken, OpenCaution, OpenChanged, OpenUntested, OpenNotChosen, OpenBrief, OpenFood, OpenWeight, OpenDoubt, OpenFigure,
	OpenRounding, OpenServings, OpenCooked, OpenNoMethod, OpenStep, OpenUnits, OpenName, OpenNoVersion,
}

// reportOf gathers what does not hold together: each page's own points, and what
// shows only beside the others. Each has the IDs of its place.
func reportOf(b *recipes.Book, pages []*Page) []Open {
	out := []Open{}
	for _, p := range pages {
		out = append(out, p.points()...)
	}
	out = append(out, namesOf(b, pages)...)
	place := map[recipes.ID]int{}
	for i, p := range pages {
		place[p.Recipe] = i
	}
	slices.SortStableFunc(out, func(x, y Open) int {
		return cmp.Or(cmp.Compare(slices.Index(reportOrder, x.Kind), slices.Index(reportOrder, y.Kind)), cmp.Compare(place[x.Recipe], place[y.Recipe]))
	})
	return out
}

// points are all that is open on the page, each with its place.
func (p *Page) points() []Open {
	out := append(append([]Open{}, p.Editor...), p.Open...)
	for i := range out {
		f := &out[i]
		f.Recipe, f.Version, f.Title, f.Letter = p.Recipe, p.Version, p.Title, p.Letter
	}
	return out
}

// looked looks one page through for what does not hold together.
func looked(b *recipes.Book, p *Page) []Open {
	c := &checker{book: b, page: p, recipe: b.Recipe(p.Recipe), version: b.Version(p.Recipe, p.Version), o: p.options}
	c.headnote()
	c.batches()
	c.measures()
	c.unspoken()
	c.whole()
	return c.found
}

// checker looks one page through.
type checker struct {
	book    *recipes.Book
	page    *Page
	recipe  *recipes.Recipe
	version *recipes.Version
	o       Options
	found   []Open
}

func (c *checker) put(k OpenKind, line, step recipes.ID, text string) {
	c.found = append(c.found, Open{Kind: k, Line: line, Step: step, Text: text})
}

// headnote holds the claims of title and headnote against the version's numbers
// by the page's rule, and finds words that no number supports.
func (c *checker) headnote() {
	us, eu := claims.OfRecipe(c.book, c.recipe, c.version)
	facts := eu
	if c.o.Rule == claims.US {
		facts = us
	}
	for _, s := range claims.CheckWords(c.page.Title+". "+c.page.Headnote, facts, c.o.Rule) {
		switch s.Sort {
		case claims.Looks:
		case claims.Taste:
			if why := c.untasted(); why != "" {
				c.put(OpenTaste, "", "", words.Say("book.report.claim", s.Word, why))
			}
		case claims.Checkable, claims.Comparison, claims.Stated:
			if why, bad := unsupported(&s); bad {
				c.put(OpenClaim, "", "", words.Say("book.report.claim", s.Word, why))
			}
		default:
			c.put(OpenHealth, "", "", words.Say("book.report.health", s.Word, s.Advice().String()))
		}
	}
}

// untasted says why no tasting bears out that the version tastes as the original
// does; "" where one does, and for the original itself.
func (c *checker) untasted() string {
	t := &c.page.Tested
	switch {
	case c.version == nil:
		return ""
	case t.Changed:
		return words.Say("book.report.taste.changed")
	case t.Result == "":
		return words.Say("book.report.taste.untasted")
	case t.kind == ledger.Within || t.kind == ledger.LikedMore:
		return ""
	}
	return words.Say("book.report.taste.found", strings.TrimRight(t.Result, "."))
}

// unsupported says why the numbers do not bear a word out, false where they do.
func unsupported(s *claims.Said) (string, bool) {
	if s.Figure != nil && s.Verdict != claims.May {
		return s.Phrase().String(), true
	}
	why := ""
	for i := range s.Results {
		r := &s.Results[i]
		if r.Verdict == claims.May {
			return "", false
		}
		if why == "" || r.Verdict == claims.MayNot {
			why = words.Say("book.report.verdict", r.Verdict.Phrase().String(), r.Why().String())
		}
	}
	if len(s.Results) == 0 {
		return words.Say("book.report.no-rule"), s.Figure == nil
	}
	return why, true
}

// batches are kept tests of the printed version whose dish was not weighed.
func (c *checker) batches() {
	for _, t := range c.book.TestsOf(c.page.Recipe, c.page.Version) {
		if _, ok := t.CookedGrams(); !ok && t.SetAside == "" {
			c.put(OpenCooked, "", "", words.Say("book.report.batch", t.Number, words.DayOf(t.Date)))
		}
	}
}

// The measures that belong to one system, as they stand in printed text.
var (
	usOnly     = regexp.MustCompile(`(?i)\b\d[\d.,/½⅓¼⅔¾-]*\s*(oz|ounces?|lbs?|pounds?|cups?|fl oz|pints?|quarts?|sticks?|inch(es)?)\b`)
	metricOnly = regexp.MustCompile(`(?i)\b\d[\d.,/½⅓¼⅔¾-]*\s*(g|grams?|kg|ml|cl|litres?|cm|mm)\b`)
	celsius    = regexp.MustCompile(`(?i)\d\s*(°\s*c\b|degrees? c)`)
	fahrenheit = regexp.MustCompile(`(?i)\d\s*(°\s*f\b|degrees? f)`)
)

// measures finds temperatures in one scale only, and measures of the other
// system in lines and steps.
func (c *checker) measures() {
	for n, s := range c.o.systems() {
		foreign := usOnly
		if s == measure.US {
			foreign = metricOnly
		}
		name := words.Say("book.system." + s.String())
		for _, sec := range c.page.Sections {
			for i := range sec.Lines {
				if l := &sec.Lines[i]; foreign.MatchString(l.In(n)) {
					c.put(OpenUnits, l.Line, "", words.Say("book.report.line-units", name, l.In(n)))
				}
			}
		}
		for _, st := range c.page.Steps {
			if c.o.Units != Both && foreign.MatchString(st.Text) {
				c.put(OpenUnits, "", st.ID, words.Say("book.report.step-units", name, foreign.FindString(st.Text)))
			}
			hot, cold := celsius.MatchString(st.Text), fahrenheit.MatchString(st.Text)
			switch {
			case s == measure.US && hot && !cold:
				c.put(OpenUnits, "", st.ID, words.Say("book.report.no-fahrenheit", name))
			case s != measure.US && cold && !hot:
				c.put(OpenUnits, "", st.ID, words.Say("book.report.no-celsius", name))
			}
		}
	}
}

// whole are points of the page as such.
func (c *checker) whole() {
	if len(c.page.Steps) == 0 {
		c.put(OpenNoMethod, "", "", words.Say("book.report.no-method"))
	}
	if c.version == nil && len(c.book.Versions(c.page.Recipe)) > 0 {
		c.put(OpenNoVersion, "", "", words.Say("book.report.no-version"))
	}
	if c.version == nil {
		return
	}
	if c.recipe.Print.Version == "" && len(c.book.Versions(c.recipe.ID)) > 1 && Printed(c.book, c.recipe) == c.version {
		c.put(OpenNotChosen, "", "", words.Say("book.report.not-chosen", c.version.Letter))
	}
	a := nutrition.In(c.book).Of(c.book.Draft(c.recipe, c.version))
	for _, t := range c.recipe.Brief.Targets {
		if a.Judge(t) != nutrition.Missed {
			continue
		}
		key := "book.report.brief.most"
		if t.AtLeast {
			key = "book.report.brief.least"
		}
		c.put(OpenBrief, "", "", words.Say(key, words.Say("nutrient."+t.Nutrient.Key()), amountOf(t.Nutrient, t.Amount), amountOf(t.Nutrient, a.PerServing(t.Nutrient).Amount)))
	}
}

// called is one way a food is called, and where first.
type called struct {
	name string
	page *Page
	line recipes.ID
}

// namesOf finds foods that recipes call by different names; two names in one
// recipe are meant to be two things.
func namesOf(b *recipes.Book, pages []*Page) []Open {
	byFood := map[string][]called{}
	var order []string
	for _, p := range pages {
		for _, l := range linesOf(b, p) {
			name := strings.TrimSpace(l.Name)
			if l.Food.Zero() || name == "" {
				continue
			}
			key := l.Food.String()
			if byFood[key] == nil {
				order = append(order, key)
			}
			if !slices.ContainsFunc(byFood[key], func(c called) bool { return sameName(c.name, name) }) {
				byFood[key] = append(byFood[key], called{name, p, l.ID})
			}
		}
	}
	var out []Open
	for _, key := range order {
		first := byFood[key][0]
		for _, c := range byFood[key][1:] {
			if c.page == first.page {
				continue
			}
			out = append(out, Open{
				Kind: OpenName, Recipe: c.page.Recipe, Version: c.page.Version, Line: c.line, Title: c.page.Title, Letter: c.page.Letter,
				Text: words.Say("book.report.name", c.name, first.name, first.page.pageName()),
			})
		}
	}
	return out
}

// sameName tells whether two names differ in case and number only.
func sameName(a, b string) bool { return oneName(a) == oneName(b) }

func oneName(s string) string {
	f := strings.Fields(strings.ToLower(s))
	for i, w := range f {
		f[i] = strings.TrimSuffix(strings.TrimSuffix(w, "es"), "s")
	}
	return strings.Join(f, " ")
}

// WriteReportCSV writes the report with the IDs of each place: UTF-8, a row a
// point, rows ending in CR LF.
func (m *Manuscript) WriteReportCSV(w io.Writer) error {
	rows := [][]string{{"kind", "recipe", "version", "text", "recipe_id", "version_id", "line_id", "step_id"}}
	for _, o := range m.Report {
		rows = append(rows, []string{string(o.Kind), safeCell(o.Title), o.Letter, safeCell(o.Text), string(o.Recipe), string(o.Version), string(o.Line), string(o.Step)})
	}
	return writeCSV(w, rows)
}

// WriteReportJSON writes the report as JSON: {"report": [...]}.
func (m *Manuscript) WriteReportJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(map[string]any{"report": m.Report})
}

// reportBlocks are the report under a heading for each kind.
func (m *Manuscript) reportBlocks() []block {
	if len(m.Report) == 0 {
		return []block{para(styleBody, words.Say("book.report.none"))}
	}
	var out []block
	for _, k := range reportOrder {
		list := block{kind: bullets, style: styleNote}
		for _, o := range m.Report {
			if o.Kind == k {
				name := o.Title
				if o.Letter != "" {
					name = words.Say("book.col.recipe-version", o.Title, o.Letter)
				}
				list.items = append(list.items, words.Say("book.report.item", name, o.Text))
			}
		}
		if len(list.items) > 0 {
			out = append(out, para(stylePart, words.Say("book.kind."+string(k))), list)
		}
	}
	return out
}
