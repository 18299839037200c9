package food

import (
	"slices"
	"strings"
)

// asked is one word of an ingredient's name as Match takes it.
type asked struct {
	text  string // as the vocabulary keeps it
	id    termID // -1 when the table does not know the word
	class class
	soft  bool // stands after a comma or in brackets: helps, but need not match
	slip  bool // mistyped: id is of the nearest word
}

// maxWords is how many telling words of a name Match looks at; no food's name
// has more.
const maxWords = 12

// ask reads the words of an ingredient's name and sorts them by how telling
// they are. What follows " or " is another food, what follows " plus " more of
// the same; both are left out.
func (x *index) ask(text string) []asked {
	s := fold(text)
	for _, end := range []string{" or ", " plus "} {
		if before, _, found := strings.Cut(s, end); found && strings.TrimSpace(before) != "" {
			s = before
		}
	}
	for _, p := range []string{"free-range", "free range", "good-quality", "low-moisture part"} {
		s = strings.ReplaceAll(s, p, " ")
	}
	if len(s) > 300 { // no ingredient's name is longer
		s = s[:300]
	}
	var out []asked
	main, rest := splitMain(s)
	eachWord(main, func(w string) { out = append(out, x.asked(w, false)) })
	if allNoise(out) { // "cloves", "half-and-half": the words are the name here
		for i := range out {
			if out[i].class != noise {
				out[i].class = strong
			}
		}
	}
	eachWord(rest, func(w string) { out = append(out, x.asked(w, true)) })
	out = slices.DeleteFunc(out, func(a asked) bool { return a.class == noise })
	return out[:min(len(out), maxWords)]
}

// splitMain parts a name from what follows a comma or stands in brackets.
func splitMain(s string) (main, rest string) {
	depth := 0
	cut := strings.IndexFunc(s, func(r rune) bool {
		switch r {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		}
		return r == ',' && depth == 0
	})
	if cut >= 0 {
		s, rest = s[:cut], s[cut:]
	}
	for {
		i := strings.IndexAny(s, "([")
		if i < 0 {
			return s, rest
		}
		j := strings.IndexAny(s[i:], ")]")
		if j < 0 {
			return s[:i], rest + " " + s[i:]
		}
		rest += " " + s[i:i+j]
		s = s[:i] + " " + s[i+j+1:]
	}
}

func (x *index) asked(w string, soft bool) asked {
	a := asked{text: canonical(w), id: -1, soft: soft}
	a.class = classOf(a.text)
	if id, ok := x.terms[a.text]; ok {
		a.id = id
	} else if a.class == strong {
		if id, ok := x.nearest(w); ok {
			a.id, a.slip, a.text = id, true, x.words[id]
		}
	}
	return a
}

// nearest gives the term of the form with the fewest slips from w, which must
// start alike; false when none is near or two terms are as near. Short words
// are not mended: "soup" is no slip for "sour".
func (x *index) nearest(w string) (termID, bool) {
	if len(w) < 5 {
		return -1, false
	}
	best, slips, tie := termID(-1), 3, false
	for _, n := range x.slipped(w, false, nil) {
		id := x.forms[n.form].term
		switch {
		case x.forms[n.form].text[0] != w[0], len(x.forms[n.form].text) < 5: // "dashi" is no slip for "dahi"
		case n.slips < slips:
			best, slips, tie = id, n.slips, false
		case n.slips == slips && id != best:
			tie = true
		}
	}
	return best, best >= 0 && !tie
}

func allNoise(words []asked) bool {
	for _, a := range words {
		if a.class == strong {
			return false
		}
	}
	return true
}
