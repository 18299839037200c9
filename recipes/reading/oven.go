package reading

import (
	"math"
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// Said is a number that a method says, and the step that does, counted from 1; 0
// where none does plainly.
type Said struct {
	Value float64
	Step  int
}

// InTheOven is what the steps of a method say of cooking the dish.
type InTheOven struct {
	Heat    Said // °C of the oven
	Minutes Said // as CookedIn finds them
	Rest    Said // minutes from the heat to the table
	Method  string
}

// Oven finds the heat of the oven, how long the dish cooks and how long it rests
// afterwards. What a method says in two ways (another heat half-way) is not plain
// to read and left out; so is a temperature of anything but an oven.
func Oven(steps []string) InTheOven {
	var out InTheOven
	t, said, cooks := CookedIn(steps)
	out.Method = t.Method
	var heats, rests []Said
	after := false
	for i, step := range steps {
		for _, sentence := range sentencesIn(step) {
			s := fold(sentence)
			if hasAny(s, ovenWords...) {
				heats = append(heats, heatsIn(s, i+1)...)
			}
			if cooks && sentence == said {
				after = true
				if t.Minutes > 0 {
					out.Minutes = Said{t.Minutes, i + 1}
				}
				_, s = dishWord(s)
			}
			if after {
				rests = append(rests, restsIn(s, i+1)...)
			}
		}
	}
	out.Heat, out.Rest = agreed(heats), agreed(rests)
	return out
}

// ovenWords tell that a temperature in their sentence is the oven's.
var ovenWords = []string{"oven", "bake", "roast", "preheat", "pre-heat"}

// agreed is what is said, once or several times in one way.
func agreed(all []Said) Said {
	if len(all) == 0 || slices.ContainsFunc(all, func(s Said) bool { return s.Value != all[0].Value }) {
		return Said{}
	}
	return all[0]
}

// Heats of an oven in °C; beyond them it is a core, an oil or a slip.
const coolest, hottest = 50, 300

// gasMarks are the marks of a gas oven in °C (the usual table, from memory).
var gasMarks = map[float64]float64{1: 140, 2: 150, 3: 170, 4: 180, 5: 190, 6: 200, 7: 220, 8: 230, 9: 240}

// heatsIn reads the heats of a folded sentence. Those of a fan oven are passed
// over, and those in °F and gas marks where one in °C stands.
func heatsIn(s string, step int) []Said {
	var celsius, others []Said
	add := func(list *[]Said, v float64) {
		if v >= coolest && v <= hottest && !slices.Contains(*list, Said{v, step}) {
			*list = append(*list, Said{v, step})
		}
	}
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' || i > 0 && isWordByte(s[i-1]) {
			continue
		}
		num, rest, ok := measure.ReadNumber(s[i:])
		if !ok || num.Range() {
			continue
		}
		if hasAny(s[max(0, i-10):i], "gas", "mark") {
			add(&others, gasMarks[num.Low])
			continue
		}
		rest = strings.TrimLeft(rest, " °º")
		if after, ok := cut(rest, "degrees"); ok {
			rest = strings.TrimLeft(after, " ")
		}
		after, unit := cutAny(rest, "celsius", "fahrenheit", "c", "f")
		fan := hasWord(s[max(0, i-5):i], "fan")
		if _, w := cutAny(strings.TrimLeft(after, " "), "fan"); w != "" {
			fan = true
		}
		switch {
		case unit == "" || fan:
		case unit[0] == 'c':
			add(&celsius, num.Low)
		default:
			add(&others, math.Round((num.Low-32)/1.8/5)*5)
		}
	}
	if len(celsius) > 0 {
		return celsius
	}
	return others
}

// restWords say that the cooked dish waits.
var restWords = []string{"rest", "resting", "stand", "settle"}

// restsIn reads how long the dish rests, in what follows a cooking word.
func restsIn(s string, step int) []Said {
	for _, w := range restWords {
		i := wordIndex(s, w)
		if i < 0 {
			continue
		}
		after := strings.TrimLeft(s[i+len(w):], " ")
		if _, of := cut(after, "of"); of {
			continue
		}
		if m := minutesIn(after); m > 0 {
			return []Said{{m, step}}
		}
		if before := s[:i]; minutesIn(before) > 0 && hasAny(before, "leave", "let") { // "leave for 10 minutes to rest"
			j := max(wordIndex(before, "leave"), wordIndex(before, "let"))
			if m := minutesIn(before[j:]); m > 0 {
				return []Said{{m, step}}
			}
		}
	}
	return nil
}

// StepTexts are a draft's steps as they are counted on paper; both texts where two
// swaps rewrite one.
func StepTexts(d *recipes.Draft) []string {
	var out []string
	for i := range d.Steps {
		if s := &d.Steps[i]; !s.Dropped {
			out = append(out, strings.Join(s.Texts, "\n"))
		}
	}
	return out
}
