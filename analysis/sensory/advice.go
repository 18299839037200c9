package sensory

import "parewell/recipes/words"

// AdviceCode says what a small panel can do instead.
type AdviceCode string

// Advice. N and M are whole numbers of the sentence, Value its points.
const (
	MoreEvenings AdviceCode = "evenings"  // N evenings with the same tasters show the limit Value
	NotThisPanel AdviceCode = "panel"     // the limit Value takes about N tasters
	NotAnyPanel  AdviceCode = "any-panel" // the limit Value takes more than N tasters
	FewerSamples AdviceCode = "fewer"     // with the original and one version they notice Value
	NameOneThing AdviceCode = "name"      // N of M saying the same side has more shows it
	OddOneOut    AdviceCode = "odd"       // N of M finding the odd one shows that they notice
	OneTongue    AdviceCode = "one"       // a helper sets M trays for one taster, N right
	MoreTasters  AdviceCode = "tasters"   // N tasters would notice if half of all people do
)

// Advice is one thing to do, as a code and its numbers.
type Advice struct {
	Code  AdviceCode `json:"code"`
	N     int        `json:"n,omitempty"`
	M     int        `json:"m,omitempty"`
	Value float64    `json:"value,omitempty"`
}

// friends is how many tasters count as a table of friends; mostEvenings how
// often they can be asked to come back. Both judgement.
const (
	friends      = 10
	mostEvenings = 6
)

// Advice is what a panel can do when it cannot do what is asked: small tables of
// 5 to 10 friends, and a cook with one helper.
func (d *Design) Advice(limit, scatter float64) []Advice {
	n := len(d.Trays)
	switch {
	case d.Ask.Test == Liking && n < 5:
		return oneTongue()
	case d.Ask.Test == Liking:
		return d.LikingPlan(scatter).advice(limit)
	case d.Ask.Test.Counts():
		return tellAdvice(d.Ask.Test, n)
	}
	return nil
}

func (p LikingPlan) advice(limit float64) []Advice {
	var out []Advice
	if limit > 0 && p.Limit(UsualAlpha, UsualPower) > limit {
		out = append(out, p.reachLimit(limit))
	}
	if p.Panelists > friends {
		return out
	}
	two := NewLikingPlan(p.Panelists, 2, p.Scatter).Notice(UsualAlpha, UsualPower)
	if p.Samples > 2 && two < p.Notice(UsualAlpha, UsualPower)-0.1 {
		out = append(out, Advice{Code: FewerSamples, Value: two})
	}
	if x, ok := MinCorrect(TwoAFC, p.Panelists, UsualAlpha); ok {
		out = append(out, Advice{Code: NameOneThing, N: x, M: p.Panelists})
	}
	if x, ok := MinCorrect(Triangle, p.Panelists, UsualAlpha); ok {
		out = append(out, Advice{Code: OddOneOut, N: x, M: p.Panelists})
	}
	return out
}

// reachLimit is how the limit could be shown: the same tasters on more evenings
// (each evening's level is a block of its own), or more of them.
func (p LikingPlan) reachLimit(limit float64) Advice {
	need := TastersFor(func(j int) bool {
		return NewLikingPlan(j, p.Samples, p.Scatter).Limit(UsualAlpha, UsualPower) <= limit
	})
	evenings := (need + p.Panelists - 1) / p.Panelists
	if need > 0 && evenings <= mostEvenings {
		return Advice{Code: MoreEvenings, N: evenings, Value: limit}
	}
	if need == 0 {
		return Advice{Code: NotAnyPanel, N: mostTasters, Value: limit}
	}
	return Advice{Code: NotThisPanel, N: need, Value: limit}
}

// oneTongue is the odd one out for a cook alone with a helper: six trays, which
// prove something of her own tongue only.
func oneTongue() []Advice {
	const trays = 6
	x, _ := MinCorrect(Triangle, trays, UsualAlpha)
	return []Advice{{Code: OneTongue, N: x, M: trays}}
}

// tellAdvice says how many tasters would see what half of all people see.
func tellAdvice(t Test, n int) []Advice {
	if t.TwoSided() {
		return nil
	}
	pc, ok := Noticed(t, n, UsualAlpha, UsualPower)
	if ok && t.Share(pc) <= 0.5 {
		return nil
	}
	first, _, ok := PanelFor(t, UsualAlpha, UsualPower, t.Right(0.5))
	if !ok || first.N <= n {
		return nil
	}
	return []Advice{{Code: MoreTasters, N: first.N}}
}

// Phrase is the advice in words.
func (a Advice) Phrase() words.Phrase {
	switch a.Code {
	case MoreEvenings, NotThisPanel, NotAnyPanel:
		return words.P("sensory.advice."+string(a.Code), a.N, words.Trim(a.Value, 2))
	case FewerSamples:
		return words.P("sensory.advice.fewer", points(a.Value))
	}
	return words.P("sensory.advice."+string(a.Code), a.N, a.M)
}
