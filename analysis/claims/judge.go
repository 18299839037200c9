package claims

import (
	"fmt"

	"parewell/recipes/food"
)

// Verdict on one term.
type Verdict string

// Verdicts. CannotDecide names what is not known in Result.Missing.
const (
	May          Verdict = "may"
	MayNot       Verdict = "may not"
	CannotDecide Verdict = "cannot be decided"
)

// Because says what a verdict turned on.
type Because string

// Reasons.
const (
	ByFigure   Because = "figure"      // a figure met or missed its limit: Result.Number, Op, Threshold
	AlreadyLow Because = "already-low" // the original meets "low" itself, so no cut may be claimed
	NotDefined Because = "not-defined" // the authority does not define or allow the term
	OtherDish  Because = "other-dish"  // the term is for other dishes (meat and fish; liquids)
	TooLight   Because = "too-light"   // a serving weighs too little for a main dish or a meal
	Unknown    Because = "unknown"     // something is not known: Result.Missing
	AsAnswered Because = "answer"      // the cook's own answer
)

// Check is one test carried out. Grams is the weight of food it was taken for,
// NaN where that has no meaning or is not known.
type Check struct {
	Test    Test
	Value   Value
	Limit   float64
	Grams   float64
	Missing []Missing
	outcome truth
}

// Held tells whether the condition holds; known is false while it is open.
func (c *Check) Held() (held, known bool) { return c.outcome == yes, c.outcome != open }

// Result is the verdict on one rule. Number, Op, Threshold and Basis are of the
// condition it turned on; Tried holds every way with its conditions, the one
// that decided at Way.
type Result struct {
	Rule      *Rule
	Term      Term
	Authority Authority
	Verdict   Verdict
	Number    Value
	Measure   Measure
	Nutrient  food.Nutrient
	Op        Op
	Threshold float64
	Basis     Basis
	Grams     float64 // of the basis; NaN if unknown or none
	Section   string
	Status    Status
	Because   []Because
	Missing   []Missing
	Needs     []Need
	Tried     []Tried
	Way       int
}

// Tried is one way of a rule carried out. Label names it where there are
// several ("fat", "energy").
type Tried struct {
	Label   string
	Checks  []Check
	outcome truth
}

// Held tells whether every condition holds; known is false while one is open
// and none fails.
func (t *Tried) Held() (held, known bool) { return t.outcome == yes, t.outcome != open }

// Labels names the ways that hold, of a rule that has several.
func (res *Result) Labels() []string {
	var out []string
	for _, t := range res.Tried {
		if t.outcome == yes && t.Label != "" {
			out = append(out, t.Label)
		}
	}
	return out
}

// Judge holds the facts against the rules of the authorities named, or of all.
// Rules about another kind of dish are left out. Every verdict stands on its
// section; none is drawn from a figure that is not known.
func Judge(f Facts, authorities ...Authority) []Result {
	if f.Kind == "" {
		f.Kind = SingleFood
	}
	var out []Result
	for _, r := range allRules {
		if wanted(r.Authority, authorities) && f.uses(r) {
			out = append(out, f.judge(r))
		}
	}
	return out
}

func wanted(a Authority, list []Authority) bool {
	for _, x := range list {
		if x == a {
			return true
		}
	}
	return len(list) == 0
}

// uses tells whether a rule is about the dish at all: "lean" has one rule for
// meat and one for mixed dishes, and only one of them is shown.
func (f *Facts) uses(r *Rule) bool {
	if !r.covers(f.Kind) {
		return false
	}
	if r.Term == "lean" && r.Only != AnyDish {
		mixed := f.Category.Trait == MixedNotCup
		return mixed == (r.Only == MixedNotCup)
	}
	return true
}

// judge draws the verdict of one rule, with what must stand beside the word.
func (f *Facts) judge(r *Rule) Result {
	res := Result{
		Rule: r, Term: r.Term, Authority: r.Authority, Section: r.Section, Status: r.Status,
		Nutrient: r.Nutrient, Number: anySign, Verdict: MayNot,
	}
	switch {
	case r.NotDefined:
		res.Because = []Because{NotDefined}
		return res
	case r.Only != AnyDish && f.Category.Trait != r.Only, r.LiquidOnly && !f.Liquid:
		res.Because = []Because{OtherDish}
		return res
	}
	if heavy := f.heavyEnough(r); heavy != nil && heavy.outcome != yes {
		res.of(heavy)
		if heavy.outcome == no {
			res.Because = []Because{TooLight}
		}
		return res
	}
	f.decide(r, &res)
	if res.Verdict == May {
		res.Needs = f.needs(r, &res)
	}
	return res
}

// heavyEnough checks the least weight of a main dish or meal; nil where the
// rule has none.
func (f *Facts) heavyEnough(r *Rule) *Check {
	if r.Authority != US || f.Kind == SingleFood {
		return nil
	}
	least := MainDishGrams
	if f.Kind == Meal {
		least = MealGrams
	}
	c := f.check(Test{Measure: Weight, Basis: PerServing, Op: AtLeast, Limit: least})
	return &c
}

// decide weighs the rule's ways and what bars it.
func (f *Facts) decide(r *Rule, res *Result) {
	met, deciding := f.tryWays(r.Ways, res)
	barred, why := f.barred(r)
	switch {
	case met == yes && barred == no:
		res.of(deciding)
	case met == no:
		res.of(deciding)
	case barred == yes:
		res.of(deciding)
		res.Verdict, res.Because, res.Missing = MayNot, []Because{AlreadyLow}, nil
	case met == open:
		res.of(deciding)
	default:
		res.of(deciding)
		res.Verdict, res.Because, res.Missing = CannotDecide, []Because{Unknown}, why
	}
}

// of takes a check as the one the verdict turned on.
func (res *Result) of(c *Check) {
	t := &c.Test
	res.Number, res.Threshold, res.Op, res.Basis, res.Grams = c.Value, c.Limit, t.Op, t.Basis, c.Grams
	res.Measure, res.Missing = t.Measure, c.Missing
	if t.Measure != Asked && t.Measure != Weight {
		res.Nutrient = t.Nutrient
	}
	res.Because = []Because{ByFigure}
	if t.Measure == Asked {
		res.Because = []Because{AsAnswered}
	}
	switch c.outcome {
	case yes:
		res.Verdict = May
	case no:
		res.Verdict = MayNot
	default:
		res.Verdict, res.Because = CannotDecide, []Because{Unknown}
	}
}

// tryWays tries each way: the first that holds decides; else the first that is
// open; else the first of all. The deciding check is the way's first where it
// holds, else its first that fails or is open.
func (f *Facts) tryWays(list []Way, res *Result) (truth, *Check) {
	for i := range list {
		checks := f.tryTests(list[i].Tests)
		res.Tried = append(res.Tried, Tried{Label: list[i].Label, Checks: checks, outcome: together(checks)})
		if res.Tried[i].outcome > res.Tried[res.Way].outcome {
			res.Way = i
		}
	}
	best := &res.Tried[res.Way]
	for i := range best.Checks {
		if best.Checks[i].outcome == best.outcome {
			return best.outcome, &best.Checks[i]
		}
	}
	return best.outcome, &best.Checks[0]
}

func (f *Facts) tryTests(tests []Test) []Check {
	var out []Check
	for _, t := range tests {
		if f.applies(&t) {
			out = append(out, f.check(t))
		}
	}
	return out
}

// together is yes when all hold, no when one fails.
func together(checks []Check) truth {
	least := yes
	for i := range checks {
		least = min(least, checks[i].outcome)
	}
	return least
}

// barred tells whether the original itself meets every rule of NotIfOriginal
// (21 CFR 101.13(j)(3), 101.56(b)(4)), and what is not known about that.
func (f *Facts) barred(r *Rule) (truth, []Missing) {
	if len(r.NotIfOriginal) == 0 {
		return no, nil
	}
	original := f.ofOriginal()
	all := yes
	var why []Missing
	for _, id := range r.NotIfOriginal {
		low := rulesByID[id]
		if low == nil {
			panic(fmt.Sprintf("claims: %s names no rule %q", r.ID, id)) // the tables are ours
		}
		var aside Result
		got, c := original.tryWays(low.Ways, &aside)
		all = min(all, got)
		for _, m := range c.Missing {
			m.Original = true
			why = append(why, m)
		}
	}
	return all, why
}

// ofOriginal is the facts with the original in the version's place and nothing
// to compare it with.
func (f *Facts) ofOriginal() *Facts {
	g := *f
	g.Version, g.Original, g.WeightRatio = f.Original, Side{}, Anything
	return &g
}
