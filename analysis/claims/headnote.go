package claims

import (
	_ "embed"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

//go:embed headnote.txt
var headnoteText string

// Sort says what can be done about a word of a headnote.
type Sort string

// Sorts. Numbers can speak to the first three only.
const (
	Checkable  Sort = "checkable"   // a term with published conditions: Found.Term
	Comparison Sort = "comparison"  // so much less than the original: Found.Percent, Found.Nutrient
	Stated     Sort = "amount"      // a figure of a serving: Found.Amount, Found.Nutrient, Found.Op
	Looks      Sort = "looks"       // "light" of colour or texture: nothing to check
	Health     Sort = "health"      // no number here supports it
	Disease    Sort = "disease"     // no number here supports it
	WeightLoss Sort = "weight loss" // no number here supports it
	Feeling    Sort = "feeling"     // "guilt-free", "clean": no number here supports it
	Taste      Sort = "taste"       // "just as creamy": only a blind tasting can support it
)

// Found is a word or phrase of a text. Start and End are byte positions in it.
type Found struct {
	Word       string
	Start, End int
	Sort       Sort
	Term       Term
	Nutrient   food.Nutrient
	Percent    float64 // of a comparison, or the number of "% fat free"
	Amount     float64 // of a stated amount, in the nutrient's unit
	Op         Op      // how the figure is said to stand to Amount; empty for "320 kcal" plain
}

// Advice says what to do about the word; the results of a check say the rest.
func (f Found) Advice() words.Phrase {
	switch f.Sort {
	case Checkable, Comparison, Stated:
		return words.P("claims.advice.check")
	case Looks:
		return words.P("claims.advice.looks")
	case Taste:
		return words.P("claims.advice.taste")
	}
	return words.P("claims.advice.reword")
}

// Words finds the claims in a text, in the order they stand. The longest
// phrase wins; phrases never cross punctuation.
func Words(text string) []Found {
	list, tokens := phraseList(), tokenise(text)
	var out []Found
	for i := 0; i < len(tokens); {
		f, used := number(tokens[i:])
		if used == 0 {
			f, used = longest(list, tokens, i)
		}
		if used == 0 {
			i++
			continue
		}
		f.Start, f.End = tokens[i].start, tokens[i+used-1].end
		f.Word = text[f.Start:f.End]
		out = append(out, f)
		i += used
	}
	return out
}

// phrase is one entry of headnote.txt.
type phrase struct {
	words []string
	sort  Sort
	term  Term
}

// slots are the words that stand for one another in headnote.txt.
var slots = map[string][]string{
	"{calories}": {"calorie", "calories", "kcal", "energy", "cal"},
	"{satfat}":   {"saturated fat", "saturates", "saturated fats", "sat fat"},
	"{fibre}":    {"fibre", "fiber"},
	"{sugar}":    {"sugar", "sugars"},
	"{salt}":     {"salt", "sodium"},
	"{nobody}":   {"nobody", "no one", "none of them"},
	"{wont}":     {"won't", "won’t", "will not", "will never", "would not", "wouldn't", "wouldn’t", "hardly"},
	"{cant}":     {"can't", "can’t"},
	"{taste}": {
		"good", "rich", "creamy", "tasty", "delicious", "crisp", "crunchy", "crumbly", "tender", "juicy", "moist", "smooth", "silky", "sweet", "salty",
		"savoury", "savory", "buttery", "cheesy", "chocolatey", "indulgent", "satisfying", "comforting", "luscious", "fluffy", "gooey", "sticky", "deep", "full", "flavourful", "flavorful",
	},
	"{tastier}": {"tastier", "creamier", "richer", "crisper", "crunchier", "juicier", "moister", "sweeter", "smoother", "fluffier"},
}

// phraseList reads headnote.txt once, by first word.
var phraseList = sync.OnceValue(func() map[string][]phrase {
	list := map[string][]phrase{}
	for _, line := range strings.Split(headnoteText, "\n") {
		parts := strings.Split(line, "|")
		if len(parts) != 3 || strings.HasPrefix(line, "#") {
			continue
		}
		for _, text := range strings.Split(parts[2], ";") {
			for _, p := range filled(strings.TrimSpace(text)) {
				w := strings.Fields(p)
				list[w[0]] = append(list[w[0]], phrase{w, Sort(strings.TrimSpace(parts[0])), Term(strings.TrimSpace(parts[1]))})
			}
		}
	}
	return list
})

// filled writes a phrase out for each word its slots stand for.
func filled(text string) []string {
	for slot, list := range slots {
		if strings.Contains(text, slot) {
			var out []string
			for _, w := range list {
				out = append(out, filled(strings.Replace(text, slot, w, 1))...)
			}
			return out
		}
	}
	return []string{text}
}

// longest finds the longest phrase that starts at token i.
func longest(list map[string][]phrase, tokens []token, i int) (Found, int) {
	var best phrase
	for _, p := range list[tokens[i].word] {
		if len(p.words) > len(best.words) && starts(tokens[i:], p.words) {
			best = p
		}
	}
	if len(best.words) == 0 || best.term == "light" && lamp(tokens, i) {
		return Found{}, 0
	}
	return Found{Sort: best.sort, Term: best.term}, len(best.words)
}

// lamp tells whether a "light" is one that shines: "the light", "candle light".
func lamp(tokens []token, i int) bool {
	if i == 0 {
		return false
	}
	switch tokens[i-1].word {
	case "candle", "sun", "moon", "evening", "morning", "day", "in":
		return true
	}
	return false
}

func starts(tokens []token, w []string) bool {
	if len(w) > len(tokens) {
		return false
	}
	for i := range w {
		if tokens[i].word != w[i] {
			return false
		}
	}
	return true
}

// token is a word, a number, "%" or "." for any punctuation, in lower case.
type token struct {
	word       string
	start, end int
}

// tokenise cuts a text; hyphens and spaces only part words.
func tokenise(text string) []token {
	var out []token
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case unicode.IsLetter(r):
			end := i + run(text[i:], func(r rune) bool { return unicode.IsLetter(r) || r == '\'' || r == '’' })
			out = append(out, token{strings.ToLower(text[i:end]), i, end})
			i = end
			continue
		case r >= '0' && r <= '9':
			end := i + digits(text[i:])
			out = append(out, token{strings.ReplaceAll(text[i:end], ",", ""), i, end})
			i = end
			continue
		case r == '%' || strings.ContainsRune("½⅓¼⅔¾", r):
			out = append(out, token{string(r), i, i + size})
		case unicode.IsPunct(r) && !strings.ContainsRune("-‐‑–'’\"“”", r):
			out = append(out, token{".", i, i + size})
		}
		i += size
	}
	return out
}

func run(s string, in func(rune) bool) int {
	for i, r := range s {
		if !in(r) {
			return i
		}
	}
	return len(s)
}

// digits is the length of a number that s begins with: a point or comma counts
// between digits.
func digits(s string) int {
	end := 1
	for end < len(s) {
		switch c := s[end]; {
		case c >= '0' && c <= '9':
		case (c == '.' || c == ',') && end+1 < len(s) && s[end+1] >= '0' && s[end+1] <= '9':
		default:
			return end
		}
		end++
	}
	return end
}
