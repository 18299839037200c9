package ratings

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/stats"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Options of an analysis. Zero values are the usual.
type Options struct {
	Original  string  // the sample all are set against; "" the one without swaps, else the first
	Attribute string  // only this one; "" all
	Limit     float64 // the margin of equivalence in points; 0 none
	Level     float64 // of the intervals of swaps; 0 is 0.90
}

func (o Options) level() float64 {
	if o.Level == 0 {
		return 0.90
	}
	return o.Level
}

// Analyse works out everything of the report. Errors are of the table or the
// options; what cannot be reckoned of sound tables is NaN and has a note.
func Analyse(t *Table, o Options) (*Report, error) {
	list, original, err := prepare(t, o)
	if err != nil {
		return nil, err
	}
	r := &Report{}
	for _, c := range list {
		res := newResult(c, original, o)
		res.Blank = t.Blank
		res.compare()
		res.rank()
		if res.Mixed = mixedOf(res); res.Mixed != nil && res.Mixed.Boundary {
			res.note(NoteBoundary)
		}
		res.order()
		if err := res.swaps(t.Swaps, o.level()); err != nil {
			return nil, err
		}
		r.Results = append(r.Results, res)
	}
	r.across()
	return r, nil
}

// SwapEffects works out what the swaps do and the lack of fit alone, by
// attribute: what ranking combinations needs.
func SwapEffects(t *Table, o Options) (*Report, error) {
	list, original, err := prepare(t, o)
	if err != nil {
		return nil, err
	}
	if t.Swaps == nil {
		return nil, problem.New("", words.Say("ratings.bad.no-swaps"), words.Say("ratings.bad.no-swaps.hint"))
	}
	r := &Report{}
	for _, c := range list {
		res := newResult(c, original, o)
		if err := res.swaps(t.Swaps, o.level()); err != nil {
			return nil, err
		}
		r.Results = append(r.Results, res)
	}
	return r, nil
}

func prepare(t *Table, o Options) ([]*column, string, error) {
	if o.Level != 0 && !(o.Level > 0.5 && o.Level < 1) {
		return nil, "", problem.New("level", words.Say("ratings.bad.level"), "")
	}
	if o.Limit < 0 || math.IsNaN(o.Limit) || math.IsInf(o.Limit, 0) {
		return nil, "", problem.New("limit", words.Say("ratings.bad.limit"), "")
	}
	if err := t.check(); err != nil {
		return nil, "", err
	}
	if all := t.Attributes(); o.Attribute != "" && !slices.Contains(all, o.Attribute) {
		return nil, "", problem.New("attribute", words.Say("ratings.bad.attribute", o.Attribute), words.Say("ratings.bad.choose", strings.Join(all, ", ")))
	}
	original, err := t.original(o.Original)
	return columns(t, o.Attribute), original, err
}

// check refuses tables that mean nothing.
func (t *Table) check() error {
	if len(t.Scores) == 0 {
		return problem.New("", words.Say("ratings.bad.empty"), words.Say("ratings.bad.header.hint"))
	}
	for i := range t.Scores {
		if v := t.Scores[i].Value; math.IsNaN(v) || math.Abs(v) > 1e9 {
			return problem.New("", words.Say("ratings.bad.score", v), "")
		}
	}
	s := t.Swaps
	if s == nil {
		return nil
	}
	if len(s.On) != len(s.Samples) || len(s.Names) == 0 {
		return problem.New("", words.Say("ratings.bad.swap-table"), "")
	}
	for i, on := range s.On {
		if on != nil && len(on) != len(s.Names) || slices.Index(s.Samples, s.Samples[i]) != i {
			return problem.New(s.Samples[i], words.Say("ratings.bad.swap-table"), "")
		}
	}
	for _, name := range t.Samples() {
		if s.row(name) < 0 {
			return problem.New(name, words.Say("ratings.bad.no-row"), words.Say("ratings.bad.no-row.hint"))
		}
	}
	return nil
}

// original finds the sample all others are set against.
func (t *Table) original(asked string) (string, error) {
	served := t.Samples()
	if asked != "" {
		if !slices.Contains(served, asked) {
			return "", problem.New("original", words.Say("ratings.bad.original", asked), words.Say("ratings.bad.choose", strings.Join(served, ", ")))
		}
		return asked, nil
	}
	if t.Swaps != nil {
		for i, on := range t.Swaps.On {
			if on != nil && !slices.Contains(on, true) && slices.Contains(served, t.Swaps.Samples[i]) {
				return t.Swaps.Samples[i], nil
			}
		}
	}
	return served[0], nil
}

// across puts Holm's p over the attributes beside each.
func (r *Report) across() {
	if len(r.Results) < 2 {
		return
	}
	p := make([]float64, len(r.Results))
	for i, res := range r.Results {
		p[i] = float64(res.Anova.Sample.P)
	}
	for i, v := range stats.Holm(p) {
		n := Number(v)
		r.Results[i].PHolm = &n
	}
}

func (r *Result) note(code string) {
	if !slices.Contains(r.Notes, code) {
		r.Notes = append(r.Notes, code)
	}
}
