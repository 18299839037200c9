package meals

import (
	"math"

	"parewell/analysis/nutrition"
)

// Sex is what the equation and the floors tell apart.
type Sex string

// Sexes of the equation.
const (
	Woman Sex = "woman"
	Man   Sex = "man"
)

// Person is what an energy target is worked out from. Age in whole years,
// Height in cm, Weight and Goal in kg, Less in kcal a day; 0 is not given.
type Person struct {
	Sex      Sex      `json:"sex"`
	Age      float64  `json:"age,omitempty"`
	Height   float64  `json:"height,omitempty"`
	Weight   float64  `json:"weight,omitempty"`
	Activity Activity `json:"activity,omitempty"`
	Less     float64  `json:"less,omitempty"` // below what the equation gives
	Goal     float64  `json:"goal,omitempty"` // for the rule of thumb alone
}

// Activity is how active a day is on the whole.
type Activity string

// Classes of activity.
const (
	Light    Activity = "light"    // sitting most of the day, or lightly active
	Moderate Activity = "moderate" // active or moderately active
	Vigorous Activity = "vigorous" // vigorously active
)

// Level is a class of activity with its range of physical activity levels:
// energy of the whole day over energy at rest.
type Level struct {
	Activity  Activity
	Low, High float64
}

// Levels are the classes of FAO/WHO/UNU, Human energy requirements (Rome 2001),
// section 5.3. The range of the moderate class is as published; those of the
// two others are from memory. They were made for groups of people.
var Levels = []Level{{Light, 1.40, 1.69}, {Moderate, 1.70, 1.99}, {Vigorous, 2.00, 2.40}}

// LevelOf returns the level of a class; false when there is none of the name.
func LevelOf(a Activity) (Level, bool) {
	for _, l := range Levels {
		if l.Activity == a {
			return l, true
		}
	}
	return Level{}, false
}

// Ages of the people the equation was made from, years.
const (
	LeastAge = 19
	MostAge  = 78
)

// Resting is the energy a body spends at rest, kcal a day, by the equation of
// Mifflin, St Jeor and others (Am J Clin Nutr 1990;51:241-247, doi:10.1093/
// ajcn/51.2.241), made from 498 adults of 19 to 78 years: 10 x weight (kg) +
// 6.25 x height (cm) - 5 x age (years), and + 5 for men or - 161 for women.
func Resting(p Person) float64 {
	kcal := 10*p.Weight + 6.25*p.Height - 5*p.Age
	if p.Sex == Man {
		return kcal + 5
	}
	return kcal - 161
}

// Spent is the energy a body spends in a day, kcal, from that at rest and a
// physical activity level (FAO/WHO/UNU 2001, section 5.4).
func Spent(resting, level float64) float64 { return resting * level }

// Thumb is the common rule of thumb of 10 kcal a day for each pound of the
// weight aimed for: common practice, no source. Goal in kg.
func Thumb(goal float64) float64 { return 10 * goal / kgPerPound }

// kgPerPound is the international avoirdupois pound, exact.
const kgPerPound = 0.45359237

// Floors of a day's energy, kcal. The 2013 guideline of the American Heart
// Association, the American College of Cardiology and The Obesity Society gives
// 1,200-1,500 for women and 1,500-1,800 for men as the lowest prescribed; below
// 800 only with medical care.
const (
	WomanFloor = 1200
	ManFloor   = 1500
	CareFloor  = 800
)

// MostLess is the most that may be taken off a day, kcal: the upper end of the
// deficit of 500-750 in the same guideline.
const MostLess = 750

// Floor is the least energy of a day a target is offered for.
func Floor(s Sex) float64 {
	if s == Man {
		return ManFloor
	}
	return WomanFloor
}

// Method is how a target is worked out.
type Method string

// Methods of a target. The rule of thumb is used only when asked for.
const (
	ByEquation Method = "equation"
	ByThumb    Method = "rule of thumb"
)

// Asked is the answer to the question that comes first: is the person under 18,
// pregnant, breast-feeding, or living with an eating disorder, now or before?
type Asked string

// Answers to the question.
const (
	NotAsked Asked = ""
	NoneOfIt Asked = "no"
	SomeOfIt Asked = "yes"
)

// Reason says why no target is offered.
type Reason string

// Reasons; the empty one stands with a target.
const (
	Offered      Reason = ""
	AskFirst     Reason = "ask first"     // the question is not answered yet
	TakeAdvice   Reason = "take advice"   // licensed practice, not a program
	Missing      Reason = "missing"       // a figure is not given
	OutsideAges  Reason = "outside ages"  // the equation was made for others
	TooMuchOff   Reason = "too much off"  // more than MostLess
	UnderFloor   Reason = "under floor"   // below Floor
	UnderMedical Reason = "under medical" // below CareFloor
)

// Offer is a target of a day, or why there is none. Low and High are kcal a
// day, to the nearest 10; they are the same by the rule of thumb. Reached is
// what the method came to at its highest, whatever the reason; Floor is the
// person's. Raised says that Low was cut at the floor.
type Offer struct {
	Reason    Reason
	Method    Method
	Low, High float64
	Resting   float64 // kcal a day, exact; 0 by the rule of thumb
	Reached   float64
	Floor     float64
	Raised    bool
}

// OfferTo works a target out. No target is ever offered before the question is
// answered, to anyone it concerns, outside the ages of the equation, or under
// the floor.
func OfferTo(p Person, asked Asked, m Method) Offer {
	o := Offer{Method: m, Floor: Floor(p.Sex)}
	switch {
	case asked == SomeOfIt || p.Age > 0 && p.Age < 18:
		o.Reason = TakeAdvice
	case asked != NoneOfIt:
		o.Reason = AskFirst
	case p.Sex != Woman && p.Sex != Man:
		o.Reason = Missing
	case m == ByThumb:
		o.byThumb(p)
	default:
		o.byEquation(p)
	}
	return o
}

func (o *Offer) byThumb(p Person) {
	if !given(p.Goal) {
		o.Reason = Missing
		return
	}
	kcal := Thumb(p.Goal)
	o.settle(kcal, kcal)
}

func (o *Offer) byEquation(p Person) {
	level, known := LevelOf(p.Activity)
	switch {
	case !known || !given(p.Age) || !given(p.Height) || !given(p.Weight):
		o.Reason = Missing
	case p.Age < LeastAge || p.Age > MostAge:
		o.Reason = OutsideAges
	case !(p.Less >= 0 && p.Less <= MostLess):
		o.Reason = TooMuchOff
	default:
		o.Resting = Resting(p)
		o.settle(Spent(o.Resting, level.Low)-p.Less, Spent(o.Resting, level.High)-p.Less)
	}
}

func given(v float64) bool { return v > 0 && !math.IsInf(v, 0) }

// settle holds a range against the floors and rounds what may be offered.
func (o *Offer) settle(low, high float64) {
	o.Reached = high
	switch {
	case high < CareFloor:
		o.Reason = UnderMedical
	case high < o.Floor:
		o.Reason = UnderFloor
	default:
		o.Raised = low < o.Floor
		o.Low, o.High = tens(math.Max(low, o.Floor)), tens(high)
	}
}

func tens(v float64) float64 { return 10 * math.Round(v/10) }

// Verdict on a day against a target.
type Verdict string

// Verdicts on a day.
const (
	Within     Verdict = "within"
	Over       Verdict = "over"
	Under      Verdict = "under"
	CannotTell Verdict = "cannot tell" // something is unknown, or nothing is offered
)

// Judge holds a day's energy against the target and returns how far it is
// outside, kcal: above 0 over, below 0 under, 0 within. An unknown part can
// turn within or under into cannot tell, never over into anything else.
func (o Offer) Judge(f nutrition.Figure) (Verdict, float64) {
	switch {
	case o.Reason != Offered || f.Nowhere || f.About:
		return CannotTell, 0
	case f.Amount > o.High:
		return Over, f.Amount - o.High
	case f.AtLeast:
		return CannotTell, 0
	case f.Amount < o.Low:
		return Under, f.Amount - o.Low
	}
	return Within, 0
}
