package food

import (
	"slices"
	"sort"
	"strings"
)

// termID numbers the words a table knows, after singular and sameWord.
type termID int32

// form is one spelling that leads to a term: "courgette" and "zucchini" are
// two forms of one term.
type form struct {
	text string
	term termID
	lcp  int32 // letters shared with the form before it, for the slip search
}

// posting says that a name holds a term; weight is how much of the name the
// term makes up, 0 to 1.
type posting struct {
	name   int32
	weight float32
}

// term is one word of a name as Match looks at it.
type term struct {
	id    termID
	class class
	head  bool // before the first comma
}

// name is one name of a food: its own (alias -1) or one of its aliases.
type name struct {
	food   int32
	alias  int32
	terms  []term
	first  termID  // the first word, which names the food in "butter, salted"
	last   termID  // the last word before a comma, as in "olive oil"
	static float32 // what does not depend on the query
}

// index is what the words of a table lead to.
type index struct {
	names    []name
	forms    []form // sorted by text
	postings [][]posting
	terms    map[string]termID
	words    []string   // by term
	ofFood   [][]termID // by food: the words of all its names but the close ones
	own      map[string]int32
	also     map[string]int32 // foods by folded alias, close ones left out
}

// buildIndex reads every name of every food once.
func buildIndex(foods []*Food) *index {
	x := &index{terms: make(map[string]termID, 4096), ofFood: make([][]termID, len(foods))}
	x.own, x.also = make(map[string]int32, len(foods)), make(map[string]int32, len(foods))
	forms := make(map[string]termID, 8192)
	for i, f := range foods {
		x.addName(forms, int32(i), -1, f.Name, f)
		for j := range f.Aliases {
			x.addName(forms, int32(i), int32(j), f.Aliases[j].Name, f)
		}
	}
	for from, to := range sameWord {
		if id, ok := x.terms[to]; ok {
			forms[from] = id
		}
	}
	x.sortForms(forms)
	return x
}

// sortForms puts the forms in order and notes what neighbours share.
func (x *index) sortForms(forms map[string]termID) {
	x.forms = make([]form, 0, len(forms))
	for text, id := range forms {
		x.forms = append(x.forms, form{text: text, term: id})
	}
	sort.Slice(x.forms, func(i, j int) bool { return x.forms[i].text < x.forms[j].text })
	for i := 1; i < len(x.forms); i++ {
		a, b := x.forms[i-1].text, x.forms[i].text
		n := 0
		for n < len(a) && n < len(b) && a[n] == b[n] {
			n++
		}
		x.forms[i].lcp = int32(n)
	}
}

// addName indexes one name of a food.
func (x *index) addName(forms map[string]termID, food, alias int32, text string, f *Food) {
	n := name{food: food, alias: alias, first: -1, last: -1}
	at := int32(len(x.names))
	key := fold(text)
	x.file(key, food, alias, f)
	head, _, _ := strings.Cut(key, ",")
	rest := key[len(head):]
	var weights []float32
	add := func(inHead bool) func(string) {
		return func(w string) {
			id, c := x.learn(forms, w)
			if n.first < 0 {
				n.first = id
			}
			if inHead {
				n.last = id
			}
			for _, t := range n.terms {
				if t.id == id {
					return
				}
			}
			n.terms = append(n.terms, term{id, c, inHead})
			weights = append(weights, termWeight(c, inHead))
		}
	}
	eachWord(head, add(true))
	eachWord(rest, add(false))
	total := float32(0)
	for _, w := range weights {
		total += w
	}
	for i, t := range n.terms {
		x.postings[t.id] = append(x.postings[t.id], posting{at, weights[i] / total})
	}
	n.static = staticScore(f, alias)
	if alias < 0 || !f.Aliases[alias].Close {
		for _, t := range n.terms {
			if !slices.Contains(x.ofFood[food], t.id) {
				x.ofFood[food] = append(x.ofFood[food], t.id)
			}
		}
	}
	x.names = append(x.names, n)
}

// file keeps where a whole name leads; the first food of a name keeps it.
func (x *index) file(key string, food, alias int32, f *Food) {
	to := x.own
	if alias >= 0 {
		to = x.also
		if f.Aliases[alias].Close {
			return
		}
	}
	if _, taken := to[key]; !taken {
		to[key] = food
	}
}

// learn gives the term of a word, new if it was not known.
func (x *index) learn(forms map[string]termID, w string) (termID, class) {
	s := canonical(w)
	id, ok := x.terms[s]
	if !ok {
		id = termID(len(x.words))
		x.terms[s] = id
		x.words = append(x.words, s)
		x.postings = append(x.postings, nil)
	}
	forms[w] = id
	forms[s] = id
	return id, classOf(s)
}

// canonical gives the word a folded word is kept under.
func canonical(w string) string {
	s := singular(w)
	if to, ok := sameWord[s]; ok {
		return to
	}
	if to, ok := sameWord[w]; ok {
		return to
	}
	return s
}

// termWeight is how much a word of a name counts: the words before the first
// comma name the food, the rest narrows it, "raw" hardly counts.
func termWeight(c class, inHead bool) float32 {
	w := float32(0.5)
	if inHead {
		w = 1
	}
	switch c {
	case state, prep:
		return w * 0.25
	case skin:
		return w * 0.3
	case noise:
		return w * 0.15
	}
	return w
}

// staticScore ranks names before any query: common foods, their own names, and
// the state a cook buys come first.
func staticScore(f *Food, alias int32) float32 {
	s := float32(0)
	if f.Core {
		s += 1
	}
	if f.Source == "own" {
		s += 2
	}
	switch f.State {
	case Cooked, Frozen:
		s -= 0.5
	}
	if alias >= 0 {
		s -= 0.15
		if f.Aliases[alias].Close {
			s -= 1
		}
	}
	return s
}

// formRange gives the forms that start with p.
func (x *index) formRange(p string) (from, to int) {
	from = sort.Search(len(x.forms), func(i int) bool { return x.forms[i].text >= p })
	to = from + sort.Search(len(x.forms)-from, func(i int) bool { return !strings.HasPrefix(x.forms[from+i].text, p) })
	return from, to
}

// find gives the term of a folded word; false if the table does not know it.
func (x *index) find(w string) (termID, bool) {
	id, ok := x.terms[canonical(w)]
	return id, ok
}
