package tables

import (
	"strings"

	"parewell/recipes/food"
)

// eatenAsTheyAre are the groups whose foods have no state a cook weighs them in:
// dairy, fats, baby foods, soups and sauces, sausages, cereals, drinks, baked
// goods, sweets, and dishes.
const eatenAsTheyAre = " 01 03 04 06 07 08 14 18 19 21 22 25 36 "

// stateWords are what a description says of how a food was weighed, the later
// the stronger: "frozen, cooked" is cooked, "canned, drained" drained. Common
// practice, no source.
var stateWords = map[string]struct {
	is   food.State
	rank int
}{
	"dry": {food.Dry, 1}, "dried": {food.Dry, 1}, "dehydrated": {food.Dry, 1},
	"raw": {food.Raw, 2}, "fresh": {food.Raw, 1}, "uncooked": {food.Raw, 2},
	"frozen": {food.Frozen, 3},
	"cooked": {food.Cooked, 4}, "boiled": {food.Cooked, 4}, "baked": {food.Cooked, 4}, "roasted": {food.Cooked, 4},
	"grilled": {food.Cooked, 4}, "broiled": {food.Cooked, 4}, "braised": {food.Cooked, 4}, "fried": {food.Cooked, 4},
	"stewed": {food.Cooked, 4}, "steamed": {food.Cooked, 4}, "simmered": {food.Cooked, 4}, "poached": {food.Cooked, 4},
	"scrambled": {food.Cooked, 4}, "microwaved": {food.Cooked, 4}, "heated": {food.Cooked, 4}, "rotisserie": {food.Cooked, 4},
	"canned": {"", 5},
}

// stateOf reads from a plain name what was weighed; "" where it does not say or
// the group has none.
func stateOf(name, group string) food.State {
	var is food.State
	rank, drained, canned, mature := 0, false, false, false
	for w := range strings.FieldsFuncSeq(name, func(r rune) bool { return r < 'a' || r > 'z' }) {
		switch w {
		case "drained":
			drained = true
		case "mature":
			mature = true
		}
		if s, ok := stateWords[w]; ok && s.rank > rank {
			is, rank, canned = s.is, s.rank, w == "canned"
		}
	}
	switch {
	case group != "" && strings.Contains(eatenAsTheyAre, " "+group+" "):
		if is != food.Raw {
			return ""
		}
	case canned && drained:
		return food.Drained
	case is == food.Raw && (group == "20" || group == "16" && mature): // rice, pasta and pulses keep dry
		return food.Dry
	}
	return is
}
