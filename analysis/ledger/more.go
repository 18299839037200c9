package ledger

import "math"

// More is the tasting it would take to settle a verdict, if the true effect is
// about what it seems now: the dish served with and without the swap to the
// people she has, from fresh pots, until the verdict comes out with a chance of
// four in five. The zero value asks for nothing.
type More struct {
	Servings     int // with and without together; 0 when NotWithPanel
	Evenings     int // of Tasters people; 0 when how many she has is not known
	Tasters      int
	NotWithPanel bool // more evenings than anyone will do (MostEvenings)
}

// MostEvenings is the most evenings asked for before the answer is "not with
// this panel"; common practice, no source.
const MostEvenings = 6

// mostAlone is the most servings asked for where the panel is not known.
const mostAlone = 400

// chance is how sure the plan is to settle what it is for.
const chance = 0.80

// more plans for the distance between the estimate and the limit (Phillips 1990
// for one side: the tail point and the chance point of t add up).
func (m *model) more(now Interval, limit float64) More {
	people := m.e.Panelists
	if math.IsNaN(now.Low) || !(limit > 0) || !(m.e.ResidualSD >= 0) {
		return m.again(people)
	}
	gap := math.Abs(now.Effect + limit)
	if people >= 2 {
		for n := 1; n <= MostEvenings; n++ {
			each := 2 * (sq(m.e.ResidualSD)/float64(people) + m.potVariance())
			if gap > 0 && m.settles(gap, now.SE, each/float64(n), n*(people-1)) {
				return More{Servings: 2 * people * n, Evenings: n, Tasters: people}
			}
		}
		return More{Tasters: people, NotWithPanel: true}
	}
	for n := 2; 2*n <= mostAlone; n++ {
		each := 2 * (sq(m.e.ResidualSD)/float64(n) + m.potVariance())
		if gap > 0 && m.settles(gap, now.SE, each, n-1) {
			return More{Servings: 2 * n}
		}
	}
	return More{NotWithPanel: true}
}

// again asks for one evening where there is no scatter yet to plan with.
func (m *model) again(people int) More {
	if people < 2 {
		return More{}
	}
	return More{Servings: 2 * people, Evenings: 1, Tasters: people}
}

// settles tells whether an interval made of what is known and a new comparison
// would be clear of a limit that lies gap away.
func (m *model) settles(gap, se, added float64, df int) bool {
	v := 0.0
	if se > 0 && added > 0 {
		v = 1 / (1/sq(se) + 1/added)
	}
	d := m.e.DF + float64(df)
	return (tPoint(Level+(1-Level)/2, d)+tPoint(chance, d))*math.Sqrt(v) <= gap
}

// potVariance is that of one pot, 0 where it is not known: then the ledger's
// head says so.
func (m *model) potVariance() float64 {
	if m.e.PotSD > 0 {
		return sq(m.e.PotSD)
	}
	return 0
}

func sq(v float64) float64 { return v * v }
