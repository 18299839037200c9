package food

import (
	"cmp"
	"slices"
	"strings"
)

// maxOthers is how many alternatives Match gives beside the best.
const maxOthers = 7

// tooFar is how far behind the best an alternative may be to be worth offering.
const tooFar = 4

// candidate is a name that may be meant.
type candidate struct {
	name  *name
	score float64
	exact bool // all that was asked is in it and nothing telling is left over
	other bool // the name says another thing: "peanut butter" for peanuts
}

// match is Match among the foods of the table itself.
func (t *Table) match(name string) (best Hit, confident bool, others []Hit) {
	words := t.x.ask(name)
	if len(words) == 0 {
		return Hit{}, false, nil
	}
	whole, other := true, false
	found := t.candidates(words)
	if len(found) == 0 {
		whole = false
		found, words, other = t.partly(words)
	}
	if len(found) == 0 {
		return Hit{}, false, nil
	}
	hits := t.hitsOf(found)
	if hits[0].Food.Source != ownSource || !found[0].exact {
		if asks := askedFor(words, found[0].name); asks != nil && !other {
			hits = t.inOrder(asks, hits)
			return hits[0], false, hits[1:]
		}
	}
	if f, ok := t.x.own[strings.TrimSpace(fold(name))]; ok { // the table's own words, commas and all
		hits = t.firstOf(f, hits)
		return hits[0], true, hits[1:]
	}
	if other || found[0].other {
		return Hit{}, false, hits
	}
	return hits[0], whole && t.settled(found) && !hits[0].Close, hits[1:]
}

// firstOf puts a food before the hits.
func (t *Table) firstOf(food int32, hits []Hit) []Hit {
	out := []Hit{{Food: t.foods[food], Score: hits[0].Score}}
	for _, h := range hits {
		if h.Food != out[0].Food && len(out) <= maxOthers {
			out = append(out, h)
		}
	}
	return out
}

// hitsOf gives the candidates that are near enough to the best to be offered.
func (t *Table) hitsOf(found []candidate) []Hit {
	hits := make([]Hit, 0, maxOthers+1)
	for _, c := range found[:min(len(found), maxOthers+1)] {
		if c.score > found[0].score-tooFar {
			hits = append(hits, t.hit(c.name, c.score))
		}
	}
	return hits
}

// ownSource marks the cook's own foods, which outrank the published ones.
const ownSource = "own"

// candidates are the names that hold every strong word, best first, one a
// food. Where none of them is exact, foods are added whose names hold the words
// between them: "mature cheddar cheese" is "mature cheddar" and "cheddar cheese".
func (t *Table) candidates(words []asked) []candidate {
	var must []termID
	for _, a := range words {
		if a.soft || a.class != strong {
			continue
		}
		if a.id < 0 {
			return nil
		}
		must = append(must, a.id)
	}
	if len(must) == 0 {
		return nil
	}
	all := t.holding(must, words)
	if len(must) > 1 && !slices.ContainsFunc(all, func(c candidate) bool { return c.exact && t.own(c) }) {
		all = append(all, t.between(must, words)...)
	}
	return bestPerFood(all)
}

// holding are the names that hold all of must.
func (t *Table) holding(must []termID, words []asked) []candidate {
	var out []candidate
	for _, p := range t.x.postings[must[0]] {
		n := &t.x.names[p.name]
		if !slices.ContainsFunc(must[1:], func(id termID) bool { return !n.holds(id) }) {
			out = append(out, t.weigh(n, words))
		}
	}
	return out
}

// between are the names of foods that hold all of must in several names.
func (t *Table) between(must []termID, words []asked) []candidate {
	var out []candidate
	tried := map[int32]bool{}
	for _, id := range must {
		for _, p := range t.x.postings[id] {
			n := &t.x.names[p.name]
			if tried[p.name] || slices.ContainsFunc(must, func(id termID) bool { return !t.knownOf(n.food, id) }) {
				continue
			}
			tried[p.name] = true
			out = append(out, t.weigh(n, words))
		}
	}
	return out
}

// partly finds foods by a part of the strong words: without those the table
// does not know, then without one more at a time, each in turn. left is what was looked for. other tells that a word the table knows
// had to go, so that what was found is likely another food.
func (t *Table) partly(words []asked) (found []candidate, left []asked, other bool) {
	left = slices.DeleteFunc(slices.Clone(words), func(a asked) bool { return a.id < 0 && a.class == strong && !a.soft })
	if len(left) < len(words) && guessed(left) {
		return nil, left, true
	}
	if found = t.candidates(left); len(found) > 0 {
		return found, left, false
	}
	for range words {
		var next []asked
		for i, a := range left {
			if a.class != strong || a.soft {
				continue
			}
			fewer := slices.Delete(slices.Clone(left), i, i+1)
			found = append(found, t.candidates(fewer)...)
			next = fewer
		}
		if len(found) > 0 || next == nil {
			return bestPerFood(found), left, true
		}
		left = next
	}
	return nil, left, true
}

// guessed tells whether every telling word is short and there by a mended slip
// only: too little to go by beside a word that the table does not know at all.
func guessed(words []asked) bool {
	slips := false
	for _, a := range words {
		if a.class != strong || a.soft {
			continue
		}
		if !a.slip || len(a.text) > 5 {
			return false
		}
		slips = true
	}
	return slips
}

// weigh scores one name against what was asked.
func (t *Table) weigh(n *name, words []asked) candidate {
	c := candidate{name: n, score: float64(n.static), exact: true}
	same := true
	for _, a := range words {
		in := n.holds(a.id)
		same = same && in
		c.exact = c.exact && !a.slip
		switch {
		case in && a.class == strong && !a.soft:
			c.score += 2
		case in && a.class == strong, in && a.class == state:
			c.score += 2
		case in:
			c.score++
		case a.class == strong && !a.soft:
			c.score -= 0.3 // another of the food's names has it
		case a.class == state:
			c.score -= t.stateMiss(n, a.text)
			c.exact = c.exact && t.stateMiss(n, a.text) < 1
		case a.class == strong && a.soft && !t.knownOf(n.food, a.id):
			c.score--
			c.exact = false
		}
	}
	for _, m := range n.terms {
		if holdsWord(words, m.id) {
			continue
		}
		miss := t.unasked(n, m)
		c.score -= miss
		c.exact = c.exact && miss < 1
		c.other = c.other || m.class == strong && m.head && !generic[t.x.words[m.id]]
		same = same && m.class == noise
	}
	if same {
		c.score += 1.5 // word for word
	}
	return c
}

func (n *name) holds(id termID) bool {
	return id >= 0 && slices.ContainsFunc(n.terms, func(m term) bool { return m.id == id })
}

func holdsWord(words []asked, id termID) bool {
	return slices.ContainsFunc(words, func(a asked) bool { return a.id == id })
}

// knownOf tells whether any of a food's names but the close ones has a word.
func (t *Table) knownOf(food int32, id termID) bool {
	return id >= 0 && slices.Contains(t.x.ofFood[food], id)
}

// named tells whether any of a food's names but the close ones has a word.
func (t *Table) named(food int32, word string) bool {
	id, ok := t.x.terms[word]
	return ok && t.knownOf(food, id)
}

// stateMiss is what it costs that a state was asked for and the name does not
// say it: nothing when the food is in that state anyway.
func (t *Table) stateMiss(n *name, asked string) float64 {
	is := t.foods[n.food].State
	switch asked {
	case "raw", "uncooked", "unprepared":
		if is == Cooked {
			return 2
		}
		return 0
	case "fresh":
		if is == Dry || is == Cooked || is == Frozen || is == Drained {
			return 2
		}
		return 0
	case "dry", "dried":
		if is == Dry {
			return 0
		}
	case "drained":
		if is != Drained && t.named(n.food, "liquid") {
			return 1
		}
		return 0.5
	case "cooked", "boiled", "roasted", "roast", "grilled", "fried", "baked":
		if is == Cooked {
			return 0.25
		}
	case "frozen":
		if is == Raw || is == Frozen { // frozen fish and prawns are the raw food
			return 0.25
		}
	case "home", "homemade", "ready", "prepared":
		return 0.5
	}
	return 2
}

// unasked is what it costs that a name says something that was not asked for.
func (t *Table) unasked(n *name, m term) float64 {
	switch m.class {
	case noise:
		return 0.05
	case skin:
		return 0.2
	case prep:
		return 0.5
	case state:
		switch t.x.words[m.id] {
		case "raw", "fresh", "uncooked", "dry", "prepared":
			return 0.1
		case "dried":
			if t.foods[n.food].Swells > 0 {
				return 0.1
			}
		}
		return 1.2
	}
	switch {
	case generic[t.x.words[m.id]]:
		return 1
	case !m.head: // what follows a comma only narrows
		return 1.5
	}
	return 2
}

// bestPerFood keeps the best name of each food and sorts, best first.
func bestPerFood(all []candidate) []candidate {
	slices.SortFunc(all, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.name.food, b.name.food), cmp.Compare(a.name.alias, b.name.alias))
	})
	seen := map[int32]bool{}
	out := all[:0]
	for _, c := range all {
		if !seen[c.name.food] {
			seen[c.name.food] = true
			out = append(out, c)
		}
	}
	return out
}

// clearLead is how far the best exact name must be ahead of another exact one
// for the choice to be sure; less is a tie that a cook should settle.
const clearLead = 0.45

// settled tells whether the first candidate is surely meant.
func (t *Table) settled(found []candidate) bool {
	if !found[0].exact || !t.own(found[0]) {
		return false
	}
	for _, c := range found[1:] {
		if c.exact && t.own(c) && found[0].score-c.score < clearLead {
			return false
		}
	}
	return true
}

// own tells whether a name means its food itself, not a neighbour.
func (t *Table) own(c candidate) bool {
	return c.name.alias < 0 || !t.foods[c.name.food].Aliases[c.name.alias].Close
}

// askedFor gives the foods an ambiguous name may mean; nil if it is not one. A
// narrowing word that the best name holds too ("dried" thyme, "bulb" of fennel)
// settles what the bare word leaves open, unless the longer name is itself listed.
func askedFor(words []asked, best *name) []string {
	var all, bare []string
	settled := false
	for _, a := range words {
		if a.class == strong && a.soft && a.id < 0 {
			continue
		}
		narrows := a.class != strong && best.holds(a.id)
		if a.class == strong {
			bare = append(bare, a.text)
		}
		if a.class != prep || narrows {
			all = append(all, a.text)
		}
		settled = settled || narrows
	}
	if codes := asks[strings.Join(all, " ")]; codes != nil {
		return codes
	}
	if settled {
		return nil
	}
	return asks[strings.Join(bare, " ")]
}

// inOrder puts the foods of an ambiguous word first, in their order, and what
// else was found after them. A food the table lacks is left out.
func (t *Table) inOrder(codes []string, hits []Hit) []Hit {
	var out []Hit
	for _, code := range codes {
		r := Ref{Source: StarterSource, Release: StarterRelease, Code: code}
		i := slices.IndexFunc(hits, func(h Hit) bool { return h.Food.Ref == r })
		switch f := t.byRef[r]; {
		case i >= 0:
			out = append(out, hits[i])
		case f != nil:
			out = append(out, Hit{Food: f, Score: hits[0].Score})
		}
	}
	for _, h := range hits {
		near := h.Score > hits[0].Score-clearLead
		if near && !slices.ContainsFunc(out, func(o Hit) bool { return o.Food == h.Food }) {
			out = append(out, h)
		}
	}
	return out[:min(len(out), max(maxOthers+1, len(codes)))]
}
