package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/outcome"
	"parewell/analysis/panel"
	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Results is what one tasting says, worked out once for a Book beside the window
// and then laid out as often as the cook asks.
type Results struct {
	Book    *recipes.Book
	Tasting *recipes.Tasting
	Err     error // why there is nothing to say

	sitting *outcome.Sitting
	limits  []string // whether each version kept the limit
	panels  map[string]*panel.Panel
}

// ResultsKind tells what a tasting's results are made of.
type ResultsKind string

// Kinds of results.
const (
	ResultsRated  ResultsKind = "rated"  // scores of samples
	ResultsTrays  ResultsKind = "trays"  // right answers, or a preference
	ResultsRanked ResultsKind = "ranked" // put in order
	ResultsHome   ResultsKind = "home"   // taken home
	ResultsNone   ResultsKind = "none"   // notes only, or an error
)

// NewResults works out a tasting. It takes a while: call it off the window's
// thread.
func NewResults(b *recipes.Book, id recipes.ID) *Results {
	r := &Results{Book: b, Tasting: b.Tasting(id), panels: map[string]*panel.Panel{}}
	r.sitting, r.Err = outcome.SittingOf(b, id)
	if r.Err != nil || r.sitting.Report == nil {
		return r
	}
	r.limits = r.byLimit()
	coded := r.coded()
	for _, res := range r.sitting.Report.Results {
		if p, err := outcome.PanelOf(coded, res.Attribute); err == nil { // else there is too little to look at
			r.panels[res.Attribute] = p
		}
	}
	return r
}

// coded is the pool with tasters by their codes, as sentences name them.
func (r *Results) coded() *outcome.Pool {
	p, table := *r.sitting.Pool, *r.sitting.Pool.Table
	table.Scores = slices.Clone(table.Scores)
	for i := range table.Scores {
		if who := r.Book.Panelist(recipes.ID(table.Scores[i].Panelist)); who != nil {
			table.Scores[i].Panelist = who.Code
		}
	}
	p.Table = &table
	return &p
}

// Kind tells what the results are made of.
func (r *Results) Kind() ResultsKind {
	switch s := r.sitting; {
	case r.Err != nil || s == nil:
		return ResultsNone
	case s.Report != nil:
		return ResultsRated
	case s.Counted != nil:
		return ResultsTrays
	case s.Ranked != nil:
		return ResultsRanked
	case r.Tasting.Test == recipes.TestHome:
		return ResultsHome
	}
	return ResultsNone
}

// Asked lists what can be looked at of scores: liking first, then what was found
// too little or too much.
func (r *Results) Asked() []string {
	if r.Kind() != ResultsRated {
		return nil
	}
	var out []string
	for _, a := range r.Tasting.Attributes {
		if r.result(a.Name) != nil || r.IsRight(a.Name) {
			out = append(out, a.Name)
		}
	}
	return out
}

// AskedName names what was scored for a list.
func (r *Results) AskedName(name string) string {
	if r.overall(name) {
		return words.Say("keep.overall")
	}
	return name
}

func (r *Results) overall(name string) bool {
	return len(r.Tasting.Attributes) > 0 && r.Tasting.Attributes[0].Kind == recipes.AskLiking && r.Tasting.Attributes[0].Name == name
}

// IsRight tells whether a thing was asked as too little, just right, too much.
func (r *Results) IsRight(name string) bool {
	a, ok := r.Tasting.Attribute(name)
	return ok && a.Kind == recipes.AskJustRight && len(r.sitting.Rights) > 0
}

func (r *Results) result(attribute string) *ratings.Result {
	if r.sitting == nil || r.sitting.Report == nil {
		return nil
	}
	for _, x := range r.sitting.Report.Results {
		if x.Attribute == attribute {
			return x
		}
	}
	return nil
}

// ResultsText is what is said of a result: the answer first, then what stands
// behind it, and what is to be known of the tasting.
type ResultsText struct {
	Head  string
	More  []string
	Notes []string
}

// Says says the result for one of Asked; other tests have one answer. With the
// answer it says how many of the planned tasters gave theirs.
func (r *Results) Says(asked string) ResultsText {
	t := r.answer(asked)
	if k := r.Kind(); k != ResultsNone && k != ResultsHome {
		t.Head = sentences([]string{t.Head, outcome.AttendanceOf(r.Book, r.Tasting).Say(), r.sitting.AsideHead(), r.seen()})
	}
	return t
}

// seen says that answers came or changed when the result had been seen.
func (r *Results) seen() string {
	if len(r.Tasting.Late) == 0 {
		return ""
	}
	day, _, _ := strings.Cut(r.Tasting.Late[len(r.Tasting.Late)-1].At, "T")
	return words.Say("outcome.seen", len(r.Tasting.Late), dayText(day))
}

func (r *Results) answer(asked string) ResultsText {
	switch r.Kind() {
	case ResultsRated:
		return r.ratedText(asked)
	case ResultsTrays:
		return r.traysText()
	case ResultsRanked:
		return r.rankedText()
	case ResultsHome:
		return r.homeText()
	}
	if r.Err != nil {
		return ResultsText{Head: Sentence(r.Err), Notes: r.asideNotes()}
	}
	return ResultsText{Head: words.Say("results.notes-only")}
}

func (r *Results) ratedText(asked string) ResultsText {
	t := ResultsText{Notes: r.sitting.Notes(asked)}
	if r.IsRight(asked) {
		t.Head, t.More = r.rightSays(asked)
		return t
	}
	res := r.result(asked)
	if res == nil {
		return t
	}
	plan := *res
	plan.AgainstOriginal = ordered(r, res.AgainstOriginal, againstName)
	t.Head = Capital(plan.Head().String())
	each := plan.Against()
	if len(each) == 1 && plan.AgainstOriginal[0].P.Known() { // one sentence says it all: size, range, what that settles
		t.Head, each = Capital(each[0].String()), nil
	}
	for _, p := range each {
		t.More = append(t.More, Capital(p.String()))
	}
	if r.overall(asked) {
		t.More = append(t.More, r.limits...)
	}
	for _, p := range res.Explain() {
		t.Notes = append(t.Notes, Capital(p.String()))
	}
	if plan.AgainstOriginal != nil {
		t.Notes = append([]string{words.Say("results.range.plain")}, t.Notes...)
	}
	return t
}

// rightSays says of each sample who found what, and what went with it in liking.
func (r *Results) rightSays(asked string) (head string, more []string) {
	var parts []string
	for _, x := range r.sitting.Rights {
		c := x.Counts[asked]
		n := c[0] + c[1] + c[2] + c[3] + c[4]
		parts = append(parts, words.Say("results.right.part", x.Name, c[2], n))
		at := slices.Index(x.Asked, asked)
		if x.Result == nil || at < 0 || at >= len(x.Result.Attributes) {
			more = append(more, words.Say("results.right.few", Capital(x.Name)))
			continue
		}
		var said []string
		for _, p := range x.Result.Attributes[at].Explain() {
			said = append(said, p.String())
		}
		more = append(more, words.Say("results.right.sample", Capital(x.Name), strings.Join(said, " ")))
	}
	return words.Say("results.right.head", asked, words.Join(parts)), append(more, words.Say("results.right.care"))
}

// asideNotes say whose answers are left out, for tests without a pool.
func (r *Results) asideNotes() []string {
	if r.sitting != nil && r.Err == nil {
		return r.sitting.Notes("")
	}
	if r.Tasting == nil {
		return nil
	}
	var out []string
	for _, s := range r.Tasting.Seats {
		if p := r.Book.Panelist(s.Panelist); p != nil && p.Aside[r.Tasting.ID] != "" {
			out = append(out, words.Say("results.aside", p.Code, p.Aside[r.Tasting.ID]))
		}
	}
	return out
}

// sampleOf finds letter and name of a sample for charts.
func (r *Results) sampleOf(name string) (letter, full string, original bool) {
	if name == outcome.Original() {
		return "", "", true
	}
	for _, s := range tasting.InOrder(r.Book, r.Tasting.ID) {
		if s.Version != "" && tasting.NameOf(r.Book, r.Tasting, s) == name {
			if v := r.Book.Version(r.Tasting.Recipe, s.Version); v != nil {
				return v.Letter, v.Name, false
			}
		}
	}
	return "", name, false
}

func number(n ratings.Number) float64 { return float64(n) }

// pText is a chance as figures; empty where there is none.
func pText(p float64) string {
	if math.IsNaN(p) {
		return words.Say("library.none")
	}
	return ratings.Chance(ratings.Number(p))
}
