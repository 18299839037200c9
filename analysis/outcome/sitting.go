package outcome

import (
	"maps"
	"math"
	"slices"

	"parewell/analysis/ratings"
	"parewell/analysis/sensory"
	"parewell/analysis/stats"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Sitting is what one closed tasting says; the part its test has is there.
type Sitting struct {
	Tasting *recipes.Tasting
	Names   []string // of the samples, in the plan's order

	Pool   *Pool           // rated: liking and just about right
	Report *ratings.Report // rated: liking and how strong things are
	Rights []RightOf       // rated with just about right: a sample each

	Counted *sensory.Discrimination // trays: right answers, or who prefers the first
	None    int                     // preference: who had none

	Ranked *Ranking // put in order
	Home   []Day    // taken home, by date; also while it is not closed
	Knew   *Knew

	Aside     []Aside  // whose scores are left out
	uneven    []string // in what the samples differed that is no swap; told once the tasting is closed
	everybody *Sitting // the same with all of them counted; nil where nobody is left out
}

// Ranking is how samples were put in order.
type Ranking struct {
	Names    []string
	RankSums []float64 // least is liked most
	N        int       // tasters who ranked all of them
	Left     int       // tasters whose ranks are not whole
	Test     stats.FriedmanResult
}

// Day is what came back on one day of a dish taken home.
type Day struct {
	Date             string
	Again, NotAgain  int
	Left             [3]int // nothing, some, half or more
	AsWritten        int
	Missed, Answered int
	Notes            []string
}

// SittingOf works out a tasting. A blind one must be closed.
func SittingOf(b *recipes.Book, id recipes.ID) (*Sitting, error) {
	t := b.Tasting(id)
	if t == nil {
		return nil, problem.New("", words.Say("error.tasting-gone"), words.Say("error.gone.hint"))
	}
	s, err := sittingOf(b, t)
	if s == nil {
		return s, err
	}
	if t.State == recipes.TastingClosed {
		s.uneven = uneven(b, t)
	}
	var all *recipes.Book
	if all, s.Aside = everybody(b, t); all != b && err == nil {
		s.everybody, _ = sittingOf(all, t) // without it the note only lacks what moved
	}
	return s, err
}

func sittingOf(b *recipes.Book, t *recipes.Tasting) (*Sitting, error) {
	id := t.ID
	s := &Sitting{Tasting: t}
	for _, x := range tasting.InOrder(b, id) {
		s.Names = append(s.Names, tasting.NameOf(b, t, x))
	}
	if k, ok := KnewOf(b, t); ok {
		s.Knew = &k
	}
	switch {
	case t.Test == recipes.TestHome:
		s.Home = days(b, t)
		return s, nil
	case tasting.Trays(t.Test):
		return s, s.count(b)
	case t.Test == string(sensory.Ranking):
		return s, s.rank(b)
	case t.Test == recipes.TestNotes:
		return s, nil
	}
	return s, s.rate(b)
}

// rate analyses scores of samples.
func (s *Sitting) rate(b *recipes.Book) (err error) {
	if s.Pool, err = PoolOf(b, s.Tasting.Recipe, s.Tasting.ID); err != nil {
		return err
	}
	if s.Rights, err = RightsOf(b, s.Tasting); err != nil {
		return err
	}
	alone := *s.Pool.Table
	alone.Swaps = nil // one evening's versions; swaps are read over all of them
	s.Report, err = ratings.Analyse(&alone, ratings.Options{Original: s.Pool.Original(), Limit: s.Tasting.Limit})
	return err
}

// count reads a test of trays.
func (s *Sitting) count(b *recipes.Book) error {
	key := recipes.AskChoice
	if s.Tasting.Test == string(sensory.Tetrad) {
		key = recipes.AskPair
	}
	choices, err := tasting.Choices(b, s.Tasting.ID, key)
	if err != nil {
		return err
	}
	test, n, right := sensory.Test(s.Tasting.Test), 0, 0
	for _, c := range choices {
		if p := b.Panelist(c.Panelist); p.Aside[s.Tasting.ID] != "" {
			continue
		}
		if test == sensory.Preference && c.Sample == "" {
			s.None++
			continue
		}
		n++
		if c.Right {
			right++
		}
	}
	if n == 0 {
		return problem.New(s.Tasting.Date, words.Say("outcome.empty"), words.Say("outcome.none.hint"))
	}
	var limit *float64
	if s.Tasting.Similar {
		limit = &s.Tasting.Limit
	}
	s.Counted, err = sensory.Discriminate(test, n, right, limit)
	return err
}

// rank reads who put what in which place.
func (s *Sitting) rank(b *recipes.Book) error {
	rows, err := tasting.Rows(b, s.Tasting.ID)
	if err != nil {
		return err
	}
	byTaster := map[recipes.ID]map[string]float64{}
	for _, r := range rows {
		if r.Attribute != recipes.AskRank || b.Panelist(r.Panelist).Aside[s.Tasting.ID] != "" {
			continue
		}
		if byTaster[r.Panelist] == nil {
			byTaster[r.Panelist] = map[string]float64{}
		}
		byTaster[r.Panelist][r.Name] = r.Score
	}
	out := &Ranking{Names: s.Names, RankSums: make([]float64, len(s.Names))}
	var ranks [][]float64
	for _, id := range slices.Sorted(maps.Keys(byTaster)) {
		row, whole := make([]float64, len(s.Names)), true
		for i, name := range s.Names {
			v, ok := byTaster[id][name]
			row[i], whole = v, whole && ok
		}
		if !whole {
			out.Left++
			continue
		}
		out.N++
		ranks = append(ranks, row)
		for i, v := range row {
			out.RankSums[i] += v
		}
	}
	if out.N == 0 {
		return problem.New(s.Tasting.Date, words.Say("outcome.empty"), words.Say("outcome.none.hint"))
	}
	for i := range ranks { // the test takes scores: the first place is the highest
		for j := range ranks[i] {
			ranks[i][j] = -ranks[i][j]
		}
	}
	out.Test = stats.Friedman(ranks)
	s.Ranked = out
	return nil
}

// days gathers what came back of a dish taken home.
func days(b *recipes.Book, t *recipes.Tasting) []Day {
	byDate := map[string]*Day{}
	for _, x := range b.Servings(t.ID) {
		if !x.Counts() {
			continue
		}
		date := x.Date
		if date == "" {
			date = t.Date
		}
		d := byDate[date]
		if d == nil {
			d = &Day{Date: date}
			byDate[date] = d
		}
		d.add(x)
	}
	var out []Day
	for _, date := range slices.Sorted(maps.Keys(byDate)) {
		out = append(out, *byDate[date])
	}
	return out
}

func (d *Day) add(x *recipes.Serving) {
	d.Answered++
	if v, ok := x.Scores[recipes.AskAgain]; ok {
		if v > 0 {
			d.Again++
		} else {
			d.NotAgain++
		}
	}
	if v, ok := x.Scores[recipes.AskLeft]; ok && v >= 0 && v < 3 && v == math.Trunc(v) {
		d.Left[int(v)]++
	}
	if x.Scores[recipes.AskAsWritten] > 0 {
		d.AsWritten++
	}
	if x.Scores[recipes.AskMissed] > 0 {
		d.Missed++
	}
	if x.Note != "" {
		d.Notes = append(d.Notes, x.Note)
	}
}
