package charts

import (
	"image/color"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// Verdict is what tasting has shown of a swap or a version against the limit.
// Its values are those of the ledger's kinds, so that one converts to the other.
type Verdict string

// The verdicts, in the order a legend lists them. An empty one is
// NotTasted where there is no effect, else NoLimit.
const (
	LikedMore     Verdict = "liked-more"     // the interval lies above 0
	Within        Verdict = "within"         // the low end is above the limit
	SmallDrop     Verdict = "small-drop"     // within the limit, and a real drop
	LessUnsettled Verdict = "less-unsettled" // liked less, how much is not settled
	TooMuch       Verdict = "too-much"       // drops more than the limit
	NotEnough     Verdict = "not-enough"     // not enough tasting yet
	NoLimit       Verdict = "no-limit"       // no limit to judge by
	Tied          Verdict = "tied"           // always served together with others
	AlwaysOn      Verdict = "always-on"      // never left out
	NotTasted     Verdict = "not-tasted"

	// Where no limit judges, what the interval says against 0: these are no kinds
	// of the ledger, NoLimit becomes one of them.
	ScoredHigher Verdict = "scored-higher" // the interval lies above 0
	ScoredLower  Verdict = "scored-lower"  // below 0
	NoneShown    Verdict = "none-shown"    // 0 is inside it
)

// Verdicts are all verdicts in the order a legend lists them.
var Verdicts = []Verdict{LikedMore, Within, SmallDrop, LessUnsettled, TooMuch, NotEnough, ScoredHigher, ScoredLower, NoneShown, NoLimit, Tied, AlwaysOn, NotTasted}

// Words says the verdict as figures and tables name it.
func (v Verdict) Words() string {
	if v == "" {
		v = NotTasted
	}
	return words.Say("charts.verdict." + string(v))
}

// Neutral is the verdict on a score of which higher is neither better nor worse:
// there is none but whether an effect can be told, and on which side of 0 it lies.
func (v Verdict) Neutral() Verdict {
	switch v {
	case Tied, AlwaysOn, NotTasted, noVerdict:
		return v
	}
	return NoLimit
}

// On is the verdict as figures show it of an effect with its interval, NaN where
// they are not known: without a limit it says on which side of 0 the effect lies.
func (v Verdict) On(effect, low, high float64) Verdict { return v.given(effect, low, high) }

// given is the verdict that fits an effect with its interval: one that judges
// needs something to judge, whatever was said, and without a limit the interval
// says on which side of 0 the effect lies.
func (v Verdict) given(effect, low, high float64) Verdict {
	if v == "" {
		v = NoLimit
	}
	switch {
	case finite(effect) && v == NoLimit && low > 0:
		return ScoredHigher
	case finite(effect) && v == NoLimit && high < 0:
		return ScoredLower
	case finite(effect) && v == NoLimit && finite(low) && finite(high):
		return NoneShown
	case finite(effect), v == Tied, v == AlwaysOn, v == NotEnough, v == noVerdict:
		return v
	}
	return NotTasted
}

// checkVerdict refuses a verdict that is none of ours.
func checkVerdict(title, name string, v Verdict) error {
	if v == "" {
		return nil
	}
	for _, known := range Verdicts {
		if v == known {
			return nil
		}
	}
	return fault(title, "charts.verdict", oneLine(name))
}

// verdictShapes are marker shapes by verdict: pointing up is good, down is bad,
// and a cross is over the limit.
var verdictShapes = map[Verdict]int{
	LikedMore: 2, Within: 0, SmallDrop: 4, LessUnsettled: 3, TooMuch: 7,
	NotEnough: 1, NoLimit: 1, Tied: 6, AlwaysOn: 5, NotTasted: 0,
	ScoredHigher: 2, ScoredLower: 4, NoneShown: 3,
}

// verdictTone is how full a verdict's marker is: settled ones are full, unsettled
// ones half, untasted and unjudged ones hollow.
func verdictTone(v Verdict) tone {
	switch v {
	case LikedMore, Within, TooMuch:
		return fullTone
	case SmallDrop, LessUnsettled, NotEnough, Tied, AlwaysOn:
		return halfTone
	}
	return hollowTone
}

type tone int

const (
	hollowTone tone = iota
	halfTone
	fullTone
)

// verdictInks returns fill and edge of a verdict's marker.
func (k *inks) verdictInks(v Verdict) (fill, edge color.NRGBA) {
	good, bad, look := hex(0x236C57), hex(0x6B2E14), hex(0x8A5A00)
	switch {
	case k.paper():
		good, bad, look = k.ink, k.ink, k.ink
	case k.dark():
		good, bad, look = hex(0x90CEAC), hex(0xE9A878), hex(0xE0B84A)
	}
	switch v {
	case LikedMore, Within, SmallDrop:
		edge = good
	case TooMuch:
		edge = bad
	case LessUnsettled:
		edge = look
	default:
		edge = k.muted
	}
	switch verdictTone(v) {
	case fullTone:
		return edge, edge
	case halfTone:
		return mix(edge, k.ground, 0.6), edge
	}
	return k.ground, edge
}

// verdictMark draws the marker of a verdict, about 2r across.
func (s *sheet) verdictMark(v Verdict, at vg.Point, r vg.Length) {
	if v == "" {
		v = NotTasted
	}
	fill, edge := s.inks.verdictInks(v)
	s.shapeMark(verdictShapes[v], at, r, fill, edge)
}

// verdictKeys are the legend entries of the verdicts that occur.
func verdictKeys(vs []Verdict) []markKey {
	seen := map[Verdict]bool{}
	for _, v := range vs {
		if v == "" {
			v = NotTasted
		}
		seen[v] = true
	}
	var keys []markKey
	for _, v := range Verdicts {
		if seen[v] {
			keys = append(keys, markKey{v.Words(), func(s *sheet, at vg.Point, r vg.Length) { s.verdictMark(v, at, r*0.95) }})
		}
	}
	return keys
}
