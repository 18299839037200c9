package reading

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// pieceNames are other words under which a table may know a piece.
var pieceNames = map[string][]string{
	"rasher": {"slice"},
	"stick":  {"stalk"},
	"stalk":  {"stem", "stick", "sprig", "spear", "large"},
	"head":   {"bulb", "whole", "large", "medium"},
	"bulb":   {"head", "whole", "medium"},
	"ear":    {"medium", "large"},
	"fillet": {"breast", "piece", "half", "medium"},
	"sheet":  {"wrapper"},
	"cube":   {"block"},
	"leaf":   {"large", "whole"},
	"piece":  {"whole", "medium", "fillet"},
	"link":   {"whole"},
	"strip":  {"slice"},
	"sprig":  {"stalk"},
	"round":  {"slice", "whole"},
	"square": {"piece"},
	"ball":   {"whole"},
	"loaf":   {"whole"},
	"pod":    {"whole"},
}

// weighPiece weighs cloves, slices, sprigs: the food's own measure, another
// word for it, else a stated default.
func (r *lineReader) weighPiece() {
	if r.amt.ml > 0 {
		r.weighMillilitres(r.amt.ml, r.amt.note)
		return
	}
	word, size := r.amt.unit.Word, r.amt.size
	if m, ok := r.pieceMeasure(word, size); ok {
		r.set(r.count()*m.Grams, recipes.GramsCount, oneIs(m.String(), m.Grams))
		return
	}
	if g, ok := pieceDefault(r.food, word, r.say.hints); ok {
		g *= sizeFactor(size)
		r.set(r.count()*g, recipes.GramsDefault, oneIs(word, g))
		r.doubt(recipes.DoubtDefault, figure(g))
		return
	}
	for _, other := range pieceNames[word] {
		if m, ok := r.pieceMeasure(other, size); ok {
			r.set(r.count()*m.Grams, recipes.GramsCount, oneIs(m.String(), m.Grams))
			return
		}
	}
	if m, _, ok := r.food.Each(size); ok {
		r.set(r.count()*m.Grams, recipes.GramsCount, oneIs(m.String(), m.Grams))
	}
	r.doubt(recipes.DoubtMeasure, word)
}

// pieceMeasure looks a piece up with its size as the narrowing word.
func (r *lineReader) pieceMeasure(word, size string) (food.Measure, bool) {
	m, _, ok := r.food.Household(word, size+" "+r.say.hints)
	return m, ok
}

// weighPack weighs a tin, jar or packet whose size the line does not give.
func (r *lineReader) weighPack() {
	if r.amt.ml > 0 {
		r.weighMillilitres(r.amt.ml, r.amt.note)
		return
	}
	word := r.amt.unit.Word
	if g, ok := packDefault(r.food, word, r.opt.System); ok {
		r.set(r.count()*g*sizeFactor(r.amt.size), recipes.GramsDefault, oneIs(word, g))
		r.doubt(recipes.DoubtPack, word, figure(g))
		return
	}
	for _, unit := range []string{word, "package", "packet", "container", "envelope", "can"} {
		if m, _, ok := r.food.Household(unit, r.amt.size); ok && m.Grams >= 2 {
			r.set(r.count()*m.Grams, recipes.GramsCount, oneIs(m.String(), m.Grams))
			r.doubt(recipes.DoubtPack, word, figure(m.Grams))
			return
		}
	}
	r.doubt(recipes.DoubtPack, word)
}

// packSizes are usual packs by food name, grams: common practice, contents
// vary. The first number is the US one, the second elsewhere; 0 is unknown.
var packSizes = []struct {
	unit, in  string // the unit's word, "" for any; a word of the food's name
	us, other float64
}{
	{"", "yeast", 7, 7},
	{"packet", "gelatin", 7, 11},
	{"", "taco seasoning", 35, 35},
	{"packet", "sugar", 8, 8},
	{"", "cilantro", 25, 30},
	{"", "parsley", 25, 30},
	{"", "spearmint", 25, 30},
	{"", "basil", 25, 30},
	{"", "dill weed", 25, 20},
	{"", "thyme, fresh", 20, 20},
	{"", "rosemary, fresh", 20, 20},
	{"", "chives", 20, 25},
	{"packet", "noodles", 85, 85},
	{"packet", "saltine", 113, 113},
	{"", "evaporated milk", 378, 410},
	{"", "condensed milk", 397, 397},
	{"", "coconut milk", 400, 400},
	{"", "coconut cream", 400, 160},
	{"", "tuna", 142, 145},
	{"", "salmon, pink, canned", 418, 213},
	{"", "sardines", 106, 120},
	{"", "anchov", 56, 50},
	{"", "tomato paste", 170, 140},
	{"", "green chiles", 113, 113},
	{"", "tomato sauce", 227, 400},
	{"", "tomato", 411, 400},
	{"", "beans", 425, 400},
	{"", "chickpeas", 425, 400},
	{"", "lentils", 425, 400},
	{"", "corn", 432, 326},
	{"", "pumpkin", 425, 425},
	{"", "broth", 411, 400},
	{"", "pineapple", 567, 432},
	{"", "peach", 425, 410},
	{"", "water chestnut", 227, 225},
	{"", "bamboo", 227, 225},
	{"", "artichoke", 397, 390},
	{"", "olive", 170, 340},
	{"", "beer", 356, 442},
	{"", "beets", 425, 400},
	{"jar", "pimento", 340, 350},
	{"", "puff pastry", 490, 320},
	{"", "phyllo", 454, 270},
	{"", "pie crust", 400, 320},
	{"", "cream cheese", 226.8, 180},
	{"", "mozzarella", 226.8, 125},
	{"", "feta", 200, 200},
	{"", "ricotta", 425, 250},
	{"", "tofu", 396.9, 300},
	{"", "spinach, frozen", 283.5, 900},
	{"", "spinach, raw", 170, 240},
	{"", "peas, frozen", 340, 900},
	{"", "mixed vegetables, frozen", 340, 900},
	{"", "marinara", 680, 500},
	{"", "salsa", 454, 300},
	{"", "chocolate, semisweet", 340, 100},
	{"bar", "chocolate", 113, 100},
	{"", "pasta, dry", 453.6, 500},
	{"", "noodles", 340, 250},
	{"", "bacon", 453.6, 250},
	{"", "sausage", 453.6, 400},
	{"block", "butter", 113, 250},
	{"", "tortilla", 350, 350},
	{"", "graham cracker", 408, 250},
	{"", "ladyfingers", 200, 175},
	{"", "mushroom", 226.8, 250},
	{"punnet", "tomato", 283, 250},
	{"punnet", "berries", 170, 150},
	{"", "strawberries", 454, 400},
	{"", "blueberries", 170, 150},
	{"", "raspberries", 170, 150},
	{"", "baking chocolate", 113, 100},
	{"", "marshmallows", 283, 180},
	{"", "yogurt", 170, 150},
	{"", "sour cream", 226.8, 300},
	{"", "heavy whipping cream", 237, 300},
	{"", "bouillon", 5, 10},
	{"can", "", 425, 400},
	{"tin", "", 425, 400},
}

// packDefault returns what one pack usually holds.
func packDefault(f *food.Food, word string, sys measure.System) (float64, bool) {
	name := fold(f.Name)
	for _, p := range packSizes {
		if p.unit != "" && p.unit != word || p.in != "" && !containsWordStart(name, p.in) {
			continue
		}
		if sys == measure.US {
			return p.us, p.us > 0
		}
		return p.other, p.other > 0
	}
	return 0, false
}

// drainedShare is what stays of a pack when its liquid is poured off, from
// memory: pulses 0.6, fish 0.72, maize 0.83, olives and pickles 0.5.
func drainedShare(f *food.Food) float64 {
	name := fold(f.Name)
	for _, s := range []struct {
		in    string
		share float64
	}{
		{"tuna", 0.72},
		{"salmon", 0.76},
		{"sardines", 0.75},
		{"anchov", 0.6},
		{"corn", 0.83},
		{"olive", 0.5},
		{"pickle", 0.55},
		{"tomato", 0.6},
		{"pineapple", 0.61},
		{"peach", 0.58},
		{"mushroom", 0.6},
		{"artichoke", 0.6},
		{"chestnut", 0.62},
		{"bamboo", 0.62},
		{"capers", 0.6},
		{"cherr", 0.55},
		{"beet", 0.6},
		{"mozzarella", 0.55},
	} {
		if containsWordStart(name, s.in) {
			return s.share
		}
	}
	return 0.6
}

// drain takes the liquid off a pack that the line says is drained.
func (r *lineReader) drain() {
	if r.food == nil || hasAny(r.say.hints, "undrained", "not drained", "do not drain", "with their juice", "with juice", "with liquid", "in their juice") {
		return
	}
	tin := r.amt.unit != nil && (r.amt.unit.Word == "can" || r.amt.unit.Word == "tin" || r.amt.unit.Word == "jar")
	if !hasAny(r.say.hints, "drained", "drain") && !(tin && r.food.State == food.Drained) {
		return
	}
	if _, cooked := r.cookedFirst(); cooked && !tin && !r.canned() {
		return // "boiled and drained": the pot is drained, not a tin
	}
	r.line.State = food.Drained
	if r.amt.drained || !r.line.Known() {
		return
	}
	u := r.amt.unit
	packed := u != nil && u.Kind == measure.Pack && (r.amt.grams > 0 || r.line.GramsFrom == recipes.GramsDefault || r.line.GramsFrom == recipes.GramsCount)
	if !packed || thickens(r.food) && !(tin && r.food.State == food.Frozen) {
		return
	}
	share := drainedShare(r.food)
	r.line.GramsNote = joinNote(r.line.GramsNote, figure(share)+" of it drained")
	r.line.Grams *= share
	r.doubt(recipes.DoubtDrained, figure(share*100))
}

// thickens are foods with nothing to pour off whatever the text says.
func thickens(f *food.Food) bool {
	return hasAny(fold(f.Name), "yogurt", "tofu", "frozen", "spinach", "condensed", "paste")
}

func joinNote(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

// containsWordStart tells whether some word of name starts with in.
func containsWordStart(name, in string) bool {
	for i := 0; i+len(in) <= len(name); i++ {
		if name[i:i+len(in)] == in && (i == 0 || !isWordByte(name[i-1])) {
			return true
		}
	}
	return false
}
