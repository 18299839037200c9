package food

import (
	"slices"
	"sort"
	"strings"
	"sync"
)

// tally is what a query has gathered for one name.
type tally struct {
	epoch uint32
	done  uint8 // words of the query matched so far
	last  float32
	sum   float32
}

// scratch is the working memory of one search, kept for the next.
type scratch struct {
	epoch   uint32
	names   []tally
	foods   []int32 // best name of a food, plus one; 0 is none
	touched []int32
	words   []string
	near    []near
	best    []int32
}

type scratchPool struct{ p sync.Pool }

func (s *scratchPool) get(names, foods int) *scratch {
	if v, ok := s.p.Get().(*scratch); ok && len(v.names) == names {
		return v
	}
	return &scratch{names: make([]tally, names), foods: make([]int32, foods)}
}

func (s *scratchPool) put(v *scratch) { s.p.Put(v) }

// Search finds foods as a cook types: words in any order, the last one may be
// unfinished, plurals, British and American words and small slips are
// forgiven. Best first, at most limit; none for an empty query or limit below 1.
func (t *Table) Search(query string, limit int) []Hit {
	if limit < 1 {
		return nil
	}
	hits := t.search(query, limit)
	if t.imported != nil {
		hits = t.searchBeside(hits, query, limit)
	}
	return hits
}

// search finds foods of the table itself.
func (t *Table) search(query string, limit int) []Hit {
	if len(t.foods) == 0 {
		return nil
	}
	s := t.pool.get(len(t.x.names), len(t.foods))
	defer t.pool.put(s)
	q := fold(query)
	s.words = s.words[:0]
	eachWord(q, func(w string) {
		if len(s.words) < maxWords {
			s.words = append(s.words, w)
		}
	})
	if len(s.words) == 0 {
		return nil
	}
	if hits := t.byCode(s.words, limit); hits != nil {
		return hits
	}
	open := !strings.HasSuffix(q, " ")
	if !t.gather(s, open, false) && !t.gather(s, open, true) {
		return nil
	}
	return t.rank(s, limit, open)
}

// byCode finds foods by the start of their number, four digits or more.
func (t *Table) byCode(words []string, limit int) []Hit {
	if len(words) != 1 || len(words[0]) < 4 || strings.Trim(words[0], "0123456789") != "" {
		return nil
	}
	var out []Hit
	for _, f := range t.foods {
		if strings.HasPrefix(f.Code, words[0]) && len(out) < limit {
			out = append(out, Hit{Food: f, Score: 1})
		}
	}
	return out
}

// gather tallies the names that hold every word of the query; false if there
// are none. With slips set every word may be mistyped, otherwise only a word
// the table does not know at all.
func (t *Table) gather(s *scratch, open, slips bool) bool {
	s.epoch++
	s.touched = s.touched[:0]
	for i, w := range s.words {
		t.word(s, i, w, open && i == len(s.words)-1, slips)
	}
	n := 0
	for _, at := range s.touched {
		if int(s.names[at].done) == len(s.words) {
			s.touched[n] = at
			n++
		}
	}
	s.touched = s.touched[:n]
	return n > 0
}

// word tallies one word of the query: exact, then as the start of a word, then
// with slips.
func (t *Table) word(s *scratch, i int, w string, open, slips bool) {
	known := false
	if id, ok := t.x.find(w); ok {
		t.post(s, i, id, 1)
		known = true
	}
	if open || !known {
		from, to := t.x.formRange(w)
		for j := from; j < to; j++ {
			f := &t.x.forms[j]
			t.post(s, i, f.term, 0.55+0.4*float32(len(w))/float32(len(f.text)))
			known = true
		}
	}
	if known && !slips {
		return
	}
	s.near = t.x.slipped(w, open, s.near[:0])
	for _, n := range s.near {
		f := &t.x.forms[n.form]
		q := float32(0.5) - 0.15*float32(n.slips)
		if open && len(f.text) > len(w) {
			q *= float32(len(w)) / float32(len(f.text))
		}
		if f.text[0] != w[0] {
			q *= 0.7 // slips rarely hit the first letter
		}
		t.post(s, i, f.term, q)
	}
}

// post tallies a term with quality q for word i of the query; of several terms
// for one word the best counts.
func (t *Table) post(s *scratch, i int, id termID, q float32) {
	for _, p := range t.x.postings[id] {
		e := &s.names[p.name]
		v := q * (0.3 + p.weight)
		switch {
		case i == 0 && e.epoch != s.epoch:
			*e = tally{epoch: s.epoch, done: 1, last: v, sum: v}
			s.touched = append(s.touched, p.name)
		case e.epoch != s.epoch:
		case int(e.done) == i:
			e.done++
			e.last = v
			e.sum += v
		case int(e.done) == i+1 && v > e.last:
			e.sum += v - e.last
			e.last = v
		}
	}
}

// rank scores the gathered names, keeps the best of each food, and gives the
// first limit of them.
func (t *Table) rank(s *scratch, limit int, open bool) []Hit {
	s.best = s.best[:0]
	for _, at := range s.touched {
		e, n := &s.names[at], &t.x.names[at]
		e.sum = t.score(s, n, e.sum)
		b := s.foods[n.food]
		switch {
		case b == 0:
			s.foods[n.food] = at + 1
			s.best = append(s.best, n.food)
		case e.sum > s.names[b-1].sum:
			s.foods[n.food] = at + 1
		}
	}
	for i, f := range s.best {
		s.best[i], s.foods[f] = s.foods[f]-1, 0
	}
	before := func(a, b int32) bool {
		if s.names[a].sum != s.names[b].sum {
			return s.names[a].sum > s.names[b].sum
		}
		return a < b
	}
	t.preferAsked(s, open)
	top := pickTop(s.best, limit, before)
	out := make([]Hit, len(top))
	for i, at := range top {
		out[i] = t.hit(&t.x.names[at], float64(s.names[at].sum))
	}
	return out
}

// preferAsked puts the likeliest foods of a word that means several ("cream",
// "rice") in the order Match offers them.
func (t *Table) preferAsked(s *scratch, open bool) {
	codes := t.askedTyped(s.words, open)
	if codes == nil {
		return
	}
	for _, at := range s.best {
		f := t.foods[t.x.names[at].food]
		if i := slices.Index(codes, f.Code); i >= 0 && f.Source == StarterSource && f.Release == StarterRelease {
			s.names[at].sum = max(s.names[at].sum, 0) + 20 - 2*float32(i)
		}
	}
}

// askedTyped looks the typed words up among the names that mean several foods;
// the last may lack one or two letters.
func (t *Table) askedTyped(words []string, open bool) []string {
	var b [64]byte
	key := b[:0]
	for _, w := range words[:len(words)-1] {
		key = append(append(key, canonical(w)...), ' ')
	}
	last := words[len(words)-1]
	if codes := asks[string(append(key, canonical(last)...))]; codes != nil || !open || len(last) < 3 {
		return codes
	}
	from, to := t.x.formRange(last)
	for i := from; i < to; i++ {
		if f := &t.x.forms[i]; len(f.text)-len(last) <= 2 {
			if codes := asks[string(append(key, t.x.words[f.term]...))]; codes != nil {
				return codes
			}
		}
	}
	return nil
}

// score weighs what was matched of a name with what does not depend on the
// query.
func (t *Table) score(s *scratch, n *name, sum float32) float32 {
	v := 6*(sum-0.3*float32(len(s.words))) + n.static
	w := s.words[0]
	if first := t.x.words[n.first]; strings.HasPrefix(first, w) || strings.HasPrefix(w, first) {
		v += 0.8
	}
	if last := s.words[len(s.words)-1]; n.last >= 0 && strings.HasPrefix(t.x.words[n.last], last) {
		v += 0.4
	}
	return v
}

// pickTop returns the first limit items by before, in order; items is reordered.
func pickTop(items []int32, limit int, before func(a, b int32) bool) []int32 {
	if len(items) > 4*limit {
		heap := items[:limit]
		sort.Slice(heap, func(i, j int) bool { return before(heap[i], heap[j]) })
		for _, c := range items[limit:] {
			if before(c, heap[limit-1]) {
				j := sort.Search(limit, func(i int) bool { return before(c, heap[i]) })
				copy(heap[j+1:], heap[j:limit-1])
				heap[j] = c
			}
		}
		return heap
	}
	sort.Slice(items, func(i, j int) bool { return before(items[i], items[j]) })
	return items[:min(limit, len(items))]
}
