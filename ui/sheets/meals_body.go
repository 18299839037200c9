package sheets

import (
	"math"
	"strings"
	"unicode"

	"parewell/analysis/meals"
	"parewell/analysis/nutrition"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// BodyFields are the texts of the fields an energy target is worked out from.
type BodyFields struct {
	Sex, Activity                   string
	Age, Height, Weight, Less, Goal string
}

// BodyOf puts a person into the fields, in metric units.
func BodyOf(p meals.Person) BodyFields {
	show := func(v float64, unit string) string {
		if v == 0 {
			return ""
		}
		return strings.TrimSpace(words.Trim(v, 1) + " " + unit)
	}
	return BodyFields{
		Sex: string(p.Sex), Activity: string(p.Activity), Age: show(p.Age, ""), Less: show(p.Less, ""),
		Height: show(p.Height, "cm"), Weight: show(p.Weight, "kg"), Goal: show(p.Goal, "kg"),
	}
}

// Keys of the faults of ReadBody.
const (
	AgeKey    = "age"
	HeightKey = "height"
	WeightKey = "weight"
	LessKey   = "less"
	GoalKey   = "goal"
)

// ReadBody reads the fields; an empty one is not given. What cannot be read, or
// cannot be a person's, is told by field and left out of the person.
func ReadBody(f BodyFields) (meals.Person, map[string]string) {
	faults := map[string]string{}
	read := func(key, text string, low, high float64, parse func(string) (float64, bool)) float64 {
		if strings.TrimSpace(text) == "" {
			return 0
		}
		v, ok := parse(text)
		if !ok || v < low || v > high {
			faults[key] = words.Say("meals.body." + key + ".wrong")
			return 0
		}
		return v
	}
	return meals.Person{
		Sex: meals.Sex(f.Sex), Activity: meals.Activity(f.Activity),
		Age:    read(AgeKey, f.Age, 1, 120, reading.Number),
		Height: read(HeightKey, f.Height, 100, 250, Height),
		Weight: read(WeightKey, f.Weight, 25, 350, Weight),
		Goal:   read(GoalKey, f.Goal, 25, 350, Weight),
		Less:   read(LessKey, f.Less, 0, meals.MostLess, reading.Number),
	}, faults
}

// Units of a body's weight in kg and height in cm. The international pound and
// inch are exact; a stone is 14 pounds.
var (
	weightUnits = map[string]float64{"kg": 1, "lb": 0.45359237, "lbs": 0.45359237, "st": 14 * 0.45359237}
	heightUnits = map[string]float64{"cm": 1, "m": 100, "ft": 30.48, "'": 30.48, "′": 30.48, "in": 2.54, "\"": 2.54, "″": 2.54}
)

// Weight reads a body's weight, kg: "60", "60.5 kg", "132 lb", "9 st 6 lb".
func Weight(text string) (float64, bool) { return measured(text, weightUnits, "kg", "lb") }

// Height reads a body's height, cm: "165", "1.65 m", "5 ft 5 in", 5'5".
func Height(text string) (float64, bool) { return measured(text, heightUnits, "cm", "in") }

// measured adds up numbers with their units; a first number without one is in
// bare, a later one in small.
func measured(text string, units map[string]float64, bare, small string) (float64, bool) {
	rest, total, unit := strings.ToLower(strings.TrimSpace(text)), 0.0, bare
	for rest != "" {
		var number, name string
		number, rest = span(rest, func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == ',' })
		name, rest = span(rest, func(r rune) bool { return !unicode.IsDigit(r) && !unicode.IsSpace(r) })
		n, ok := reading.Number(number)
		if name == "" {
			name = unit
		}
		size, known := units[strings.TrimSuffix(name, ".")]
		if !ok && number != "0" || !known {
			return 0, false
		}
		total, unit = total+n*size, small
	}
	return total, total > 0 && !math.IsInf(total, 0)
}

// span cuts the runes that fit off the start of a text, and the space after.
func span(s string, fits func(rune) bool) (head, rest string) {
	at := strings.IndexFunc(s, func(r rune) bool { return !fits(r) })
	if at < 0 {
		at = len(s)
	}
	return s[:at], strings.TrimSpace(s[at:])
}

// TargetName says a target with where it comes from.
func TargetName(o meals.Offer) string {
	low, high := words.Number(o.Low, 0), words.Number(o.High, 0)
	if o.Method == meals.ByThumb {
		return words.Say("meals.target.thumb", high)
	}
	return words.Say("meals.target.equation", low, high)
}

// TargetText says the target, or why there is none, whole.
func TargetText(o meals.Offer, sex meals.Sex) string {
	reached, floor := words.Number(o.Reached, 0), words.Number(o.Floor, 0)
	switch o.Reason {
	case meals.Offered:
		if o.Raised {
			return join(TargetName(o), floorText("meals.target.raised", sex, floor, ""))
		}
		return TargetName(o)
	case meals.UnderFloor:
		return floorText("meals.none.under-floor", sex, floor, reached)
	case meals.UnderMedical:
		return words.Say("meals.none.under-medical", reached, words.Number(meals.CareFloor, 0))
	case meals.OutsideAges:
		return words.Say("meals.none.outside-ages", meals.LeastAge, meals.MostAge)
	case meals.TooMuchOff:
		return words.Say("meals.none.too-much-off", words.Number(meals.MostLess, 0))
	case meals.TakeAdvice:
		return words.Say("meals.none.take-advice")
	case meals.AskFirst:
		return words.Say("meals.none.ask-first")
	}
	return words.Say("meals.none.missing")
}

func floorText(key string, sex meals.Sex, floor, reached string) string {
	return words.Say(key, floor, words.Say("meals.floor."+string(sex)), reached)
}

// DayAgainst says how a day as chosen, and with the originals, stands against a
// target; an empty text when none is offered.
func DayAgainst(p *meals.Plate, o meals.Offer) string {
	if o.Reason != meals.Offered {
		return ""
	}
	say := func(key string, t *nutrition.Total) string {
		f := t.Figure(food.EnergyKcal)
		v, off := o.Judge(f)
		return words.Say(key, Amount(f, food.EnergyKcal), words.Say("meals.stands."+strings.ReplaceAll(string(v), " ", "-"), words.Number(math.Abs(off), 0)))
	}
	return say("meals.day-chosen", p.After) + " " + say("meals.day-originals", p.Before)
}

// DayMark is how a day as chosen stands: Met within, Missed over, Look under or
// not to be told.
func DayMark(p *meals.Plate, o meals.Offer) Mark {
	var c Cell
	markAgainst(&c, p.After, p, &o)
	return c.Mark
}

// ActivityName names a class of activity with its range.
func ActivityName(l meals.Level) (name, detail string) {
	return words.Say("meals.activity." + string(l.Activity)),
		words.Say("meals.activity.range", words.Number(l.Low, 2), words.Number(l.High, 2))
}
