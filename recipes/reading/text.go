package reading

import (
	"html"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
)

// row is one line of the pasted text.
type row struct {
	at    int    // line number from 1
	raw   string // trimmed, marks kept
	text  string // cleaned
	blank bool   // a blank line stands before it
}

// ReadText reads a recipe from text pasted from anywhere: title, servings,
// headed sections, ingredients, steps. Lines that are no part of a recipe come
// back in Skipped with a reason. It is an error when no ingredient is found.
func ReadText(text string, opt Options) (*Draft, error) {
	d := &Draft{}
	rows := rowsOf(text)
	if len(rows) == 0 {
		return nil, problem.New(opt.Where, "there is no text to read", "paste a recipe with its ingredients, one on a line")
	}
	p := &textReader{draft: d, opt: opt, rows: rows}
	p.read()
	if len(d.Lines) == 0 {
		return nil, problem.New(whereLine(opt.Where, rows[0].at), "no ingredients were found", "put each ingredient on a line of its own, with its amount first")
	}
	d.settle(opt)
	return d, nil
}

func whereLine(where string, at int) string {
	if where == "" {
		return "line " + strconv.Itoa(at)
	}
	return where + ", line " + strconv.Itoa(at)
}

// rowsOf splits text into rows without blank ones.
func rowsOf(text string) []row {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n", "\f", "\n", "\v", "\n").Replace(text)
	if strings.Contains(text, "&") {
		text = html.UnescapeString(text)
	}
	var rows []row
	blank := true
	for i, raw := range strings.Split(text, "\n") {
		raw = squeeze(tidy.Replace(tabulated(unpictured(raw))))
		if strings.Trim(raw, bullets+" =.") == "" {
			blank = true
			continue
		}
		rows = append(rows, row{at: i + 1, raw: raw, text: clean(raw), blank: blank})
		blank = false
	}
	return rows
}

// textReader walks the rows once headings or looks have divided them.
type textReader struct {
	draft   *Draft
	opt     Options
	rows    []row
	section string
	notes   []string // headnote
}

// read divides the rows into head, ingredients and method.
func (p *textReader) read() {
	from, to, method := p.divide()
	p.head(p.rows[:from])
	p.ingredients(p.rows[from:to])
	p.method(p.rows[method:])
	p.draft.Headnote = strings.Join(p.notes, "\n")
}

// divide finds the ingredients: rows from..to-1; the method starts at method.
func (p *textReader) divide() (from, to, method int) {
	ing, met := -1, -1
	for i, r := range p.rows {
		switch h, _ := readHeading(r.raw); {
		case h == ingredientsHead && ing < 0:
			ing = i
		case h == methodHead && met < 0 && (ing >= 0 || p.ingredientsBefore(i)):
			met = i
		}
	}
	switch {
	case ing >= 0 && met > ing:
		return ing, met, met
	case ing >= 0:
		return ing, p.runEnd(ing + 1), p.runEnd(ing + 1)
	case met >= 0:
		return p.runStart(met), met, met
	}
	return p.byLooks()
}

func (p *textReader) ingredientsBefore(i int) bool {
	for _, r := range p.rows[:i] {
		if looksIngredient(r.raw) {
			return true
		}
	}
	return false
}

// runStart finds the first ingredient before row end.
func (p *textReader) runStart(end int) int {
	first := end
	for i := end - 1; i >= 1; i-- {
		if looksIngredient(p.rows[i].raw) {
			first = i
		}
	}
	for first > 1 && first < end {
		if _, ok := partHeading(p.rows[first-1].raw, false); ok {
			first--
			continue
		}
		break
	}
	return first
}

// runEnd finds where a run of ingredients stops and the method starts.
func (p *textReader) runEnd(start int) int {
	for i := start; i < len(p.rows); i++ {
		h, _ := readHeading(p.rows[i].raw)
		if h == methodHead || h == asideHead || looksStep(p.rows[i].raw) && !p.ingredientsSoon(i) {
			return i
		}
	}
	return len(p.rows)
}

// ingredientsSoon tells whether ingredients go on right after row i.
func (p *textReader) ingredientsSoon(i int) bool {
	for _, r := range p.rows[i+1 : min(i+4, len(p.rows))] {
		if looksIngredient(r.raw) {
			return true
		}
	}
	return false
}

// byLooks divides a text without headings by the first run of ingredients.
func (p *textReader) byLooks() (from, to, method int) {
	from = -1
	for i, r := range p.rows {
		if looksIngredient(r.raw) && (i > 0 || startsAmount(r.text) && !p.titleLike(i)) {
			from = i
			break
		}
	}
	if from < 0 {
		return len(p.rows), len(p.rows), len(p.rows)
	}
	to = p.runEnd(from)
	for from > 1 && p.bareFood(from-1) {
		from--
	}
	if from > 1 {
		if _, ok := partHeading(p.rows[from-1].raw, false); ok {
			from--
		}
	}
	return from, to, to
}

// bareFood tells a short row that is the name of a food without an amount and
// stands right before the ingredients: "Nonstick cooking spray".
func (p *textReader) bareFood(i int) bool {
	s := p.rows[i].text
	if p.opt.Foods == nil || p.rows[i+1].blank || len(wordsOf(s)) > 5 || strings.ContainsAny(s, ".:!?|") || looksServing(s) || isFurniture(s) != "" {
		return false
	}
	if h, _ := readHeading(s); h != noHeading {
		return false
	}
	l := ReadLine(s, Options{System: p.opt.System, Foods: p.opt.Foods})
	return !l.Food.Zero() && !slices.ContainsFunc(l.Doubts, func(d recipes.Doubt) bool { return d.Kind == recipes.DoubtFood })
}

// titleLike guards a title that starts with a number ("3 bean chilli").
func (p *textReader) titleLike(i int) bool {
	if i != 0 || len(p.rows) < 3 || !p.rows[1].blank {
		return false
	}
	a, _ := readAmount(p.rows[i].text, p.opt.System)
	return a.unit == nil && a.grams == 0
}

// head reads title, servings and headnote.
func (p *textReader) head(rows []row) {
	for _, r := range rows {
		h, rest := readHeading(r.raw)
		if h != noHeading {
			if rest != "" && rest != r.raw {
				p.draft.readServings(rest)
			}
			continue
		}
		if p.draft.Title == "" {
			if t := p.title(r.text); t != "" && len(t) < len(trimTitle(r.text)) && p.draft.ServingsFrom != "" {
				p.draft.Title = t
				continue
			}
		}
		if p.facts(r) {
			continue
		}
		if strings.ContainsAny(r.text, "★☆⭐") || hasAny(fold(r.text), "votes", "ratings") && len(r.text) < 60 {
			p.skip(r, "page furniture")
			continue
		}
		if p.draft.Title == "" {
			p.draft.Title = p.title(r.text)
			continue
		}
		p.notes = append(p.notes, r.text)
	}
}

// title returns the title without what it says of servings: "Bibimbap (2
// people)", "Gazpacho. Serves 6.", "Mum's chilli - feeds 4".
func (p *textReader) title(text string) string {
	text = strings.TrimSpace(strings.Trim(trimTitle(text), ":#* "))
	low := strings.ToLower(text)
	if len(low) != len(text) {
		return text
	}
	for _, mark := range []string{" | ", " — ", " – ", " - ", " • "} {
		if i := strings.LastIndex(text, mark); i > 2 && !looksServing(text[:i]) && p.draft.readServings(text[i+len(mark):]) {
			return strings.TrimSpace(text[:i])
		}
	}
	for _, w := range []string{"(", "serves ", "feeds ", "makes ", "yields ", "yield", "for "} {
		i := strings.Index(low, w)
		if w != "(" {
			i = wordIndex(low, w)
		}
		if i <= 2 {
			continue
		}
		tail := strings.Trim(text[i:], " ()[].")
		if (w != "for " || servesPeople(low[i:])) && p.draft.readServings(tail) {
			return strings.TrimRight(text[:i], " -–—(,.|•:")
		}
	}
	return text
}

func trimTitle(s string) string {
	rest, _ := cutAny(s, "recipe:", "title:", "recipe for")
	return rest
}

// facts takes rows that say how many it serves, and page furniture; false for
// anything else. A row of several facts ("Serves 4 | Prep 10 min") is parted.
func (p *textReader) facts(r row) bool {
	if p.draft.readServings(r.text) {
		return true
	}
	parts := strings.FieldsFunc(r.text, func(c rune) bool { return c == '|' || c == '•' || c == '·' || c == ';' })
	if len(parts) > 1 && len(r.text) < 120 && (!looksIngredient(r.raw) || slices.ContainsFunc(parts, looksServing)) {
		taken := false
		for _, s := range parts {
			s = strings.TrimSpace(s)
			taken = p.draft.readServings(s) || hasLetter(s) && isFurniture(s) != "" || taken
		}
		if taken {
			return true
		}
	}
	reason := isFurniture(r.text)
	if reason == "" {
		reason = isFurniture(r.raw)
	}
	if reason == "" {
		return false
	}
	p.skip(r, reason)
	return true
}

func (p *textReader) skip(r row, reason string) {
	p.draft.Skipped = append(p.draft.Skipped, Skipped{At: r.at, Text: r.raw, Reason: reason})
}

// ingredients reads the ingredient rows with the headings between them.
func (p *textReader) ingredients(rows []row) {
	aside := false
	inPart := 0
	for i := 0; i < len(rows); i++ {
		r := rows[i]
		if inPart > 1 && r.blank && rows[i-1].at == r.at-2 && !rows[i-1].blank { // a gap after a part's own lines ends it
			p.section, inPart = "", 0
		}
		h, rest := readHeading(r.raw)
		switch {
		case h == ingredientsHead:
			aside = false
			if rest != "" && !p.draft.readServings(rest) && looksIngredient(rest) {
				p.ingredient(row{at: r.at, raw: rest, text: clean(rest)})
			}
			continue
		case h == asideHead:
			aside = true
			p.skip(r, "notes")
			continue
		case aside && !looksIngredient(r.raw):
			p.skip(r, "notes")
			continue
		}
		aside = false
		if name, ok := partHeading(r.raw, followedByIngredient(rows, i)); ok && !startsAmount(r.text) {
			p.section, inPart = name, 0
			continue
		}
		if p.facts(r) {
			continue
		}
		for i+1 < len(rows) && wraps(r, rows[i+1]) {
			i++
			r.text += " " + rows[i].text
		}
		p.ingredient(r)
		if p.section != "" {
			inPart++
		}
	}
}

func followedByIngredient(rows []row, i int) bool {
	return i+1 < len(rows) && startsAmount(rows[i+1].text)
}

// wraps tells that the next row goes on with this one: this ends in a comma or
// an open bracket, the next starts small.
func wraps(r, next row) bool {
	if next.blank || next.text == "" {
		return false
	}
	c := next.raw[0]
	small := c >= 'a' && c <= 'z' || c == '('
	open := strings.HasSuffix(r.text, ",") || strings.Count(r.text, "(") > strings.Count(r.text, ")")
	return open && (small || strings.Count(r.text, "(") > strings.Count(r.text, ")")) && !startsAmount(next.text)
}

// ingredient reads one row as ingredient lines.
func (p *textReader) ingredient(r row) {
	opt := p.opt
	opt.Section = p.section
	text := r.text
	if rest, ok := numbered(text); ok && startsAmount(rest) {
		text = rest
	}
	p.draft.Lines = append(p.draft.Lines, ReadLines(text, opt)...)
}
