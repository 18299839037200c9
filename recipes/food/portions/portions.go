// Package portions reads the household measures of published food tables, "1
// cup, chopped (1/2 inch pieces)", as measures a cook writes.
package portions

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes/food"
)

// unwanted are descriptions a cook would not write on a line, or that belong
// to a brand or to a whole carcass.
var unwanted = regexp.MustCompile(`serving|nlea|cubic inch|^oz\b|^lb\b|ounce|^unit\b|yield from|portion|patty|brand|treat|with refuse|as purchased|with pits|ns as to|bone removed|reconstituted|cooked from|miniature box|enchilada|crust not eaten`)

// brackets finds notes in brackets and lengths like 2-1/2" that no cook writes.
var brackets = regexp.MustCompile(`\(([^)]*)\)`)

// plainNote are the bracketed notes worth keeping as a measure's detail.
var plainNote = regexp.MustCompile(`^\s*(not packed|packed|sifted|unsifted|drained|large curd|small curd|melted)`)

// packSize finds the size of a can or pack, "(10 oz)" or "14.5 oz".
var packSize = regexp.MustCompile(`[0-9.\-/]+ (fl )?(oz|lb|g|kg|ml)\b`)

// servingOf finds the volume a serving is said to be: "serving, 1/2 cup".
var servingOf = regexp.MustCompile(`serving\W+([0-9./]+) (cup|tbsp|tsp|fl oz)`)

// Names are the words a food goes by, in any order, for "1 olive" of green
// olives.
type Names string

// NamesOf joins a food's names.
func NamesOf(names ...string) Names { return Names(strings.ToLower(strings.Join(names, " "))) }

// has tells whether w is one of the words, or one of them in the singular.
func (n Names) has(w string) bool {
	s := string(n)
	for len(s) > 0 {
		end := 0
		for end < len(s) && s[end] >= 'a' && s[end] <= 'z' {
			end++
		}
		if own := s[:end]; own != "" && (own == w || own == w+"s" || own == w+"es") {
			return true
		}
		s = s[min(end+1, len(s)):]
	}
	return false
}

// read is a description without what depends on the food it is of.
type read struct {
	done  food.Measure // of a serving that is a volume
	count float64      // how many of the measure the description means; 0: nothing a cook would write
	text  string       // else the words, without brackets and commas
	pack  string       // the size of a can or pack
}

// Parser reads descriptions; those it has met before cost little. It is for one
// goroutine. The zero Parser is ready.
type Parser struct{ met map[string]read }

// maxMet bounds what a Parser keeps; a table has a few thousand descriptions.
const maxMet = 20_000

// Parse turns "cup, chopped (1/2\" pieces)" of a food into cup and chopped.
// count is how many of the measure the description means, 1 for nearly all: the
// grams of one are those published divided by it. ok is false when no cook would
// write such a measure. The grams of m are left to the caller.
func (p *Parser) Parse(what string, names Names) (m food.Measure, count float64, ok bool) {
	r, met := p.met[what]
	if !met {
		r = readWords(what)
		if p.met == nil || len(p.met) >= maxMet {
			p.met = make(map[string]read, 1024)
		}
		p.met[what] = r
	}
	if r.count == 0 || r.done.Unit != "" {
		return r.done, r.count, r.count > 0
	}
	unit, rest := splitUnit(r.text, names)
	if unit == "" {
		return food.Measure{}, 0, false
	}
	rest = cleanDetail(unit, rest, names)
	if r.pack != "" && slices.Contains(packs, unit) {
		rest = r.pack
	}
	return food.Measure{Unit: unit, Detail: rest}, 1, true
}

// packs are units whose size tells more than their words.
var packs = []string{"can", "package", "container", "bottle", "packet", "jar", "box", "bar"}

// readWords does the part of Parse that is the same for every food.
func readWords(what string) read {
	s := strings.ToLower(strings.Join(strings.Fields(what), " "))
	if m := servingOf.FindStringSubmatch(s); m != nil {
		if n := ratio(m[1]); n > 0 {
			return read{done: food.Measure{Unit: m[2]}, count: n}
		}
	}
	if unwanted.MatchString(s) {
		return read{}
	}
	pack := packSize.FindString(s)
	if strings.Contains(s, "(") {
		s = brackets.ReplaceAllStringFunc(s, func(b string) string {
			if m := plainNote.FindStringSubmatch(strings.Trim(b, "()")); m != nil {
				return " " + m[1]
			}
			return " "
		})
	}
	s = strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' }), " ")
	return read{count: 1, text: s, pack: pack}
}

// ratio reads "2", "0.5" or "1/2"; 0 if it is none of them.
func ratio(s string) float64 {
	top, bottom, _ := strings.Cut(s, "/")
	n, _ := strconv.ParseFloat(top, 64)
	if d, err := strconv.ParseFloat(bottom, 64); err == nil && d > 0 {
		n /= d
	}
	return n
}

// Amount splits ".5 cup, diced" into 0.5 and "cup, diced"; 1 when there is no
// number above zero.
func Amount(s string) (n float64, what string) {
	s = strings.TrimSpace(s)
	first, rest, _ := strings.Cut(s, " ")
	if v, err := strconv.ParseFloat(first, 64); err == nil && v > 0 && v < 1e6 {
		return v, strings.TrimSpace(rest)
	}
	return 1, s
}

// splitUnit takes the unit off the front of a description. A noun that names
// the food itself is a "whole", or the size that follows it.
func splitUnit(s string, names Names) (unit, rest string) {
	words := strings.Fields(s)
	for n := min(2, len(words)); n > 0; n-- {
		if u, ok := units[strings.Join(words[:n], " ")]; ok {
			return u, strings.Join(words[n:], " ")
		}
	}
	if len(words) == 0 {
		return "", ""
	}
	if !names.has(words[0]) && !names.has(strings.TrimSuffix(words[0], "s")) && !slices.Contains(wholeWords, words[0]) {
		return "", ""
	}
	rest = strings.Join(words[1:], " ")
	for i := len(sizes) - 1; i >= 0; i-- {
		if after, ok := strings.CutPrefix(rest, sizes[i]); ok {
			return sizes[i], strings.TrimSpace(after)
		}
	}
	for n := min(2, len(words)-1); n > 0; n-- { // "thigh with skin" came above; "lemon wedge" here
		if u, ok := units[strings.Join(words[1:1+n], " ")]; ok {
			return u, strings.Join(words[1+n:], " ")
		}
	}
	return "whole", rest
}

// dropped are words that only measure or join.
var dropped = []string{
	"pieces", "the", "yields", "yield", "about", "approx", "long", "dia", "x", "or", "to", "one", "of", "refuse", "without", "thick",
	"single", "diameter", "high", "wide", "oz", "fl", "lb", "inch", "drained",
}

// cleanDetail leaves the words a cook might write too and drops measurements.
func cleanDetail(unit, s string, names Names) string {
	if s == "" {
		return ""
	}
	var out []string
	sized := slices.Contains(sizes, unit)
	for _, w := range strings.Fields(s) {
		switch {
		case strings.ContainsAny(w, `"0123456789`):
			continue
		case (unit == "whole" || unit == "piece") && w == "whole":
			continue
		case (unit == "whole" || sized) && names.has(w): // "large bagel" of a bagel
			continue
		case slices.Contains(dropped, w):
			if !(w == "drained" && unit == "can") && !(w == "or" && len(out) > 0) {
				continue
			}
		}
		out = append(out, strings.Trim(w, ".;"))
	}
	return strings.TrimSuffix(strings.Join(out, " "), " or")
}
