package ledger

import (
	"math"
	"slices"
)

// Kind is the verdict on a swap or a whole version (DESIGN section 7).
type Kind string

// Verdicts. The first three are all within the limit.
const (
	Within        Kind = "within"         // low end above -limit
	LikedMore     Kind = "liked-more"     // and above 0
	SmallDrop     Kind = "small-drop"     // high end below 0
	TooMuch       Kind = "too-much"       // high end below -limit
	LessUnsettled Kind = "less-unsettled" // high end below 0, otherwise
	NotEnough     Kind = "not-enough"     // otherwise
	Tied          Kind = "tied"           // cannot be told apart from other swaps
	AlwaysOn      Kind = "always-on"      // tasted, never left out
	NotTasted     Kind = "not-tasted"     // in no scored serving
	NoLimit       Kind = "no-limit"       // no limit set and 0 inside the interval
)

// Fits tells the verdicts within the limit.
func (k Kind) Fits() bool { return k == Within || k == LikedMore || k == SmallDrop }

// Settled tells the verdicts that more tasting of the same would not be asked for.
func (k Kind) Settled() bool { return k.Fits() || k == TooMuch }

// Of judges an interval against a limit in points (0 or NaN: none set). Ends
// that lie exactly on the limit or on 0 are on neither side of it; an interval
// that is not known is not enough tasting.
func Of(i Interval, limit float64) Kind {
	switch {
	case math.IsNaN(i.Low) || math.IsNaN(i.High):
		return NotEnough
	case i.Low > 0:
		return LikedMore
	case !(limit > 0) && i.High < 0:
		return LessUnsettled
	case !(limit > 0):
		return NoLimit
	case i.Low > -limit && i.High < 0:
		return SmallDrop
	case i.Low > -limit:
		return Within
	case i.High < -limit:
		return TooMuch
	case i.High < 0:
		return LessUnsettled
	}
	return NotEnough
}

// Verdict is one swap's row of the ledger.
type Verdict struct {
	Swap int // in Evidence.Swaps
	Name string
	Kind Kind
	Interval
	Limit  float64 // judged against
	TiedTo []int   // swaps it cannot be told apart from, ascending
	Ties   []string
	Joint  Interval // of it and all it is tied to, where those together can be told
	Whole  Kind     // the verdict on those together; empty where they cannot be told
	Settle More     // what would settle that; zero unless Whole is NotEnough or LessUnsettled
	Mixed  bool     // it was served apart from those (or left out), and yet what was compared does not tell
	Pots   int      // tasted pots that had it
	More   More     // what would settle it; zero unless Kind is NotEnough or LessUnsettled
	Saving Saving

	// LostPer100 is the liking lost for 100 kcal taken off, points (negative:
	// gained); NaN unless at least 20 kcal are saved and the interval is clear
	// of zero. Never a default to sort by. The two others are its 90 % range.
	LostPer100, LostLow, LostHigh float64

	digits int // decimals its table needs
}

// minKcal is the least saving that liking lost is set against.
const minKcal = 20

// EnergyKey is the nutrient liking lost is set against.
const EnergyKey = "energy_kcal"

// verdict judges swap i of the model.
func (m *model) verdict(i int, limit float64, nutrient string) Verdict {
	a := m.at[i]
	s := m.e.Swaps[a]
	v := Verdict{Swap: a, Name: s.Name, Interval: unknown, Joint: unknown, Limit: limit, Pots: m.e.pots(a), Saving: s.Savings[nutrient], LostPer100: math.NaN(), LostLow: math.NaN(), LostHigh: math.NaN()}
	switch {
	case !m.e.tasted(a):
		v.Kind = NotTasted
	case !m.apart[i]:
		v.Kind = AlwaysOn
		m.ties(&v, i)
		v.Mixed = m.mixed(a, v.TiedTo)
	default:
		v.Interval = m.effect(only(i, len(m.at)))
		v.Kind = Of(v.Interval, limit)
		v.lost(s.Savings[EnergyKey])
	}
	if v.Kind == NotEnough || v.Kind == LessUnsettled && limit > 0 {
		v.More = m.more(v.Interval, limit)
	}
	return v
}

// ties names the swaps that i cannot be told from, if any.
func (m *model) ties(v *Verdict, i int) {
	for _, j := range m.tied[i] {
		v.TiedTo = append(v.TiedTo, m.at[j])
	}
	slices.Sort(v.TiedTo)
	all := only(i, len(m.at))
	for _, j := range m.tied[i] {
		all[j] = true
	}
	if v.Joint = m.effect(all); !math.IsNaN(v.Joint.Effect) && len(v.TiedTo) > 0 {
		if v.Whole = Of(v.Joint, v.Limit); v.Whole == NotEnough || v.Whole == LessUnsettled && v.Limit > 0 {
			v.Settle = m.more(v.Joint, v.Limit)
		}
	}
	for _, a := range v.TiedTo {
		v.Kind = Tied
		v.Ties = append(v.Ties, m.e.Swaps[a].Name)
	}
}

// mixed tells that the words "always served together", or "never left out", would
// not be true of a swap that cannot be judged.
func (m *model) mixed(swap int, with []int) bool {
	for _, v := range m.e.Versions {
		if v.Servings == 0 {
			continue
		}
		if len(with) == 0 && !v.On[swap] {
			return true
		}
		for _, x := range with {
			if v.On[x] != v.On[swap] {
				return true
			}
		}
	}
	return false
}

// lost sets liking against calories, or not.
func (v *Verdict) lost(energy Saving) {
	if !energy.Known || !(energy.Amount >= minKcal) || !(v.Low > 0 || v.High < 0) {
		return
	}
	per := 100 / energy.Amount
	v.LostPer100, v.LostLow, v.LostHigh = -v.Effect*per, -v.High*per, -v.Low*per
}
