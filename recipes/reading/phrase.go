package reading

import (
	"strings"

	"parewell/recipes/measure"
)

// phrase is what a line says besides its amount.
type phrase struct {
	name    string   // the ingredient without preparation
	full    string   // the ingredient with the words taken off it, for matching
	prep    string   // preparation and remarks, as written
	hints   string   // folded words of everything: name, prep, brackets, purpose
	or      []string // alternatives to name, in order
	left    string   // what stood before "or", without a word lent by the other side
	purpose string   // folded "for frying", "for the marinade" ..., "" for none
	taste   bool     // "to taste"
	extra   bool     // "plus extra for dusting"
	part    string   // "juice", "zest": of the fruit named
	remarks []string // what stands in round brackets and is no measure
}

// readPhrase splits the rest of a line into name, preparation and remarks;
// brackets that give a weight go to the amount.
func readPhrase(s string, a *amount, sys measure.System) phrase {
	p := phrase{hints: fold(withoutOr(s))}
	s, remarks := takeBrackets(s, a, sys)
	p.remarks = remarks
	s = a.looseWeight(s, sys)
	if rest, ok := cut(s, "or"); ok { // "½ pack or a small bunch chives"
		if b, name := readAmount(rest, sys); b.found && hasLetter(name) {
			s = name
		}
	}
	s = p.cutPurpose(s)
	name, prep := splitPrep(s)
	name = p.cutOr(name)
	p.full = strings.TrimSpace(name)
	p.name, prep = stripFront(p.full, prep)
	p.prep = joinPrep(prep, remarks)
	for _, m := range remarks {
		if other, ok := cut(m, "or"); ok && len(wordsOf(other)) <= 4 && hasLetter(other) && !startsAmount(other) {
			p.or = append(p.or, other)
		}
	}
	p.taste = hasAny(p.hints, "to taste", "as needed", "as required", "if needed", "as desired", "to your taste", "as you like", "to season", "for seasoning")
	p.extra = hasAny(p.hints, "plus extra", "plus more", "plus a little", "plus a bit", "and extra", "and more for", "+ extra", "+ more", "with extra", "extra for", "extra to", "plus some") || strings.HasPrefix(p.purpose, "plus ")
	return p
}

// withoutOr leaves another choice out of a line's words, so that "fresh thyme
// (or ¼ tsp dried)" is not dried: what stands in brackets after "or", and what
// follows "or" with an amount of its own.
func withoutOr(s string) string {
	if !strings.Contains(strings.ToLower(s), "or ") {
		return s
	}
	for from := 0; ; {
		i := strings.Index(s[from:], "(or ")
		if i < 0 {
			break
		}
		i += from
		shut := strings.IndexByte(s[i:], ')')
		if shut < 0 {
			s = s[:i]
			break
		}
		s = s[:i] + s[i+shut+1:]
		from = i
	}
	if i := strings.Index(s, " or "); i > 0 && startsDigit(s[i+len(" or "):]) {
		s = s[:i]
	}
	return s
}

// takeBrackets reads every round bracket: a weight or volume goes to the
// amount, "or" starts alternatives, other words stay as remarks.
func takeBrackets(s string, a *amount, sys measure.System) (string, []string) {
	var remarks []string
	for range 8 {
		open := strings.IndexByte(s, '(')
		if open < 0 {
			break
		}
		shut := strings.IndexByte(s[open:], ')')
		inner, after := s[open+1:], ""
		if shut > 0 {
			inner, after = s[open+1:open+shut], s[open+shut+1:]
		}
		inner = strings.TrimSpace(inner)
		if !a.found || !a.inBrackets(inner, sys) {
			if !a.found && a.bracketAmount(inner, sys) {
				inner = ""
			}
			if inner != "" {
				remarks = append(remarks, inner)
			}
		}
		s = strings.TrimRight(s[:open], " ") + after
	}
	return strings.TrimSpace(s), remarks
}

// bracketAmount takes a bracket as the amount of a line that has none.
func (a *amount) bracketAmount(inner string, sys measure.System) bool {
	b, rest := readAmount(inner, sys)
	if !b.found || strings.TrimSpace(rest) != "" || b.unit == nil {
		return false
	}
	*a = b
	return true
}

// purposeMarks start the part of a line that says what it is for.
var purposeMarks = []string{
	"plus extra", "plus more", "plus a little", "plus a bit", "plus some", "plus ", "and extra", "and more for", "+ extra", "+ more", "+ a little",
	"with extra", "extra for", "extra to", "for deep-frying", "for deep frying", "for shallow-frying", "for shallow frying", "for frying",
	"for pan-frying", "for sauteing", "for greasing", "for the", "for dusting", "for rolling", "for brushing", "for drizzling",
	"for sprinkling", "for serving", "for garnish", "for garnishing", "for finishing", "for topping", "for decoration", "for decorating",
	"for coating", "for dredging", "for cooking", "for boiling", "for poaching", "for glazing", "for rubbing", "for oiling", "for dipping",
	"for marinating", "for marinade", "for marinading", "for brining", "for soaking", "for roasting", "for grilling", "for basting", "for seasoning",
	"for stuffing", "for kneading", "for work surface", "for your", "to serve", "to garnish", "to finish", "to taste", "to season", "to grease", "to decorate",
	"to sprinkle", "to drizzle", "to fry", "to brush", "to dust", "to glaze", "to coat", "to cover", "as needed", "as required", "as desired", "if needed",
	"if desired", "if using", "optional", "to top", "to bind", "to make", "at room temperature", "room temperature", "divided", "or more", "or to taste", "or as needed", "or so",
	"such as", "i used", "i use", "see note", "see tip", "ideally", "preferably", "try ", "note:", "about", "approx", "approximately", "per person", "e.g.", "eg ", "like ", "from a ", "from the ",
}

// cutPurpose takes everything from the first purpose mark off the name.
func (p *phrase) cutPurpose(s string) string {
	low := fold(s)
	if len(low) != len(s) { // folding moved the places: search the text itself
		low = strings.ToLower(s)
		if len(low) != len(s) {
			return s
		}
	}
	at := len(s)
	for _, m := range purposeMarks {
		if i := wordIndex(low, m); i >= 0 && i < at && (i > 1 || m == "to taste") {
			at = i
		}
	}
	if at == len(s) {
		return s
	}
	p.purpose = strings.TrimSpace(low[at:])
	head := strings.TrimRight(s[:at], " ,;:-–(")
	return head
}

// wordIndex finds m at the start of a word; -1 when it is not there.
func wordIndex(s, m string) int {
	for from := 0; from <= len(s); {
		i := strings.Index(s[from:], m)
		if i < 0 {
			return -1
		}
		i += from
		end := i + len(m)
		startOK := i == 0 || !isWordRune(lastRune(s[:i])) && s[i-1] != '-'
		endOK := end == len(s) || strings.HasSuffix(m, " ") || !isWordRune(firstRune(s[end:]))
		if startOK && endOK {
			return i
		}
		from = i + 1
	}
	return -1
}

func firstRune(s string) rune {
	for _, r := range s {
		return r
	}
	return 0
}

// splitPrep divides at the first comma, dash or semicolon that ends a name;
// a first part that only describes ("skinless, boneless chicken breasts")
// stays with the next.
func splitPrep(s string) (name, prep string) {
	rest := s
	for range 4 {
		i, n := breakAt(rest)
		if i < 0 {
			break
		}
		head := strings.TrimSpace(rest[:i])
		tail := strings.TrimSpace(rest[i+n:])
		if head != "" && (!describes(head) || tail == "" || describes(tail)) {
			return joinWords(name, head), strings.Trim(tail, ",; ")
		}
		name, rest = joinWords(name, head), tail
	}
	return joinWords(name, strings.TrimSpace(rest)), ""
}

func joinWords(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// breakAt finds the first mark between name and preparation.
func breakAt(s string) (at, length int) {
	at = -1
	for _, m := range []string{",", ";", " - ", " – ", " — ", ": "} {
		if i := strings.Index(s, m); i >= 0 && (at < 0 || i < at) {
			at, length = i, len(m)
		}
	}
	return at, length
}

// describes tells whether every word only describes (colour, cut, quality,
// preparation) and none names a food.
func describes(s string) bool {
	list := strings.FieldsFunc(fold(s), func(r rune) bool { return !isWordRune(r) && r != '-' && r != '%' && r != '\'' })
	for _, w := range list {
		if !onlyDescribes(w) {
			return false
		}
	}
	return len(list) > 0
}

// onlyDescribes tells whether one word, or every part of a hyphened one, only
// describes.
func onlyDescribes(w string) bool {
	if describing[w] || preparing[w] || joining[w] || adorning[w] || strings.HasSuffix(w, "ly") || strings.Trim(w, "-") == "" {
		return true
	}
	if !strings.Contains(w, "-") {
		return false
	}
	for _, part := range strings.Split(w, "-") {
		if !onlyDescribes(part) {
			return false
		}
	}
	return true
}

// stripFront moves preparation words from the front of a name to prep and
// drops words that change nothing.
func stripFront(name, prep string) (string, string) {
	rest := name
	var taken []string
	for {
		w, after := firstWord(rest)
		low := fold(w)
		after = strings.TrimLeft(after, " ,/")
		if w == "" || after == "" || keepsName[low] != nil && keepsName[low][fold(firstOf(after))] || !(preparing[low] || noise[low] || len(taken) > 0 && joining[low] || strings.HasSuffix(low, "ly") && prepAhead(after)) {
			break
		}
		taken = append(taken, w)
		rest = after
	}
	if len(taken) == 0 || len(wordsOf(rest)) == 0 {
		return strings.TrimSpace(name), prep
	}
	return strings.TrimSpace(rest), joinPrep(strings.Join(taken, " "), nonEmpty(prep))
}

// keepsName are preparing words that belong to a name before another word.
var keepsName = map[string]map[string]bool{
	"hot":      set("sauce pepper chilli chili chile dog dogs chocolate paprika mustard cross smoked"),
	"cold":     set("cuts brew"),
	"cut":      set("green"),
	"sliced":   set("bread white"),
	"split":    set("peas pea red yellow"),
	"soft":     set("cheese goat brown tofu light dark drink margarine white"),
	"broken":   set("rice wheat vermicelli"),
	"shaved":   set("ice"),
	"strained": set("yogurt yoghurt greek"),
	"whipped":  set("cream topping butter"),
}

// prepAhead tells whether a preparing word comes next.
func prepAhead(s string) bool {
	w, _ := firstWord(s)
	low := fold(w)
	return preparing[low] || low == "ground" || low == "squeezed" || low == "cooked"
}

func nonEmpty(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}

func joinPrep(prep string, more []string) string {
	all := append(nonEmpty(strings.Trim(prep, " ,;")), more...)
	return strings.Join(all, ", ")
}
