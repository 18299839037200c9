package reading

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// weighCount weighs a bare count: "2 large eggs", "1 onion".
func (r *lineReader) weighCount() {
	n := r.count()
	size := r.amt.size
	if size == "" && isEgg(r.food) {
		size = "large" // recipes mean large eggs unless they say otherwise
	}
	if r.euEgg() {
		return
	}
	if m, ok := r.namedMeasure(size); ok {
		r.set(n*m.Grams, recipes.GramsCount, oneIs(m.String(), m.Grams))
		return
	}
	if g, ok := r.cutGrams(); ok {
		r.set(n*g*sizeFactor(size), recipes.GramsDefault, oneIs(size, g))
		r.doubt(recipes.DoubtDefault, figure(g))
		return
	}
	m, exact, ok := r.food.Each(size)
	if ok && !hasAny(r.say.hints, "heart", "hearts") {
		note, g := oneIs(m.String(), m.Grams), m.Grams
		if !exact && size != "" && (m.Unit == "medium" || m.Unit == "whole") && (r.food.Group == "vegetables" || r.food.Group == "fruit") { // another size stands in, scaled
			g *= sizeFactor(size)
			note += ", " + size
		}
		r.set(n*g, recipes.GramsCount, note)
		if !exact && size != "" {
			r.doubt(recipes.DoubtMeasure, m.String())
		} else if size == "" && varies(r.food) {
			r.doubt(recipes.DoubtDefault, figure(g))
		}
		return
	}
	if g, ok := pieceDefault(r.food, "", r.say.hints); ok {
		g *= sizeFactor(size)
		r.set(n*g, recipes.GramsDefault, oneIs(size, g))
		r.doubt(recipes.DoubtDefault, figure(g))
		return
	}
	r.doubt(recipes.DoubtMeasure, "")
}

// varies tells fruits and vegetables of which one may weigh three times another:
// a count without a size is then an assumption.
func varies(f *food.Food) bool {
	return (f.Group == "vegetables" || f.Group == "fruit") && hasAny(fold(f.Name), "eggplant", "cabbage", "cauliflower", "squash", "pumpkin", "watermelon", "cantaloupe", "honeydew", "celeriac", "papaya", "jackfruit") && !hasWord(fold(f.Name), "summer")
}

// namedMeasure finds a measure of one that the name itself speaks of: "garlic
// cloves", "cherry tomatoes", "chicken thighs".
func (r *lineReader) namedMeasure(size string) (food.Measure, bool) {
	if m, ok := r.smallKind(); ok {
		return m, true
	}
	if size != "" {
		if m, exact, ok := r.food.Each(size); ok && exact {
			return m, true
		}
	}
	for _, w := range keyWords(r.say.full) {
		switch w {
		case "whole", "cup", "tbsp", "tsp", "half", "large", "medium", "small", "can", "package", "dash":
			continue
		}
		if m, _, ok := r.food.Household(w, size); ok {
			return m, true
		}
	}
	return food.Measure{}, false
}

// smallKind finds the measure of a small kind of a food, which the size words
// of the ordinary one do not fit: cherry and plum tomatoes.
func (r *lineReader) smallKind() (food.Measure, bool) {
	if !hasWord(fold(r.food.Name), "tomato") {
		return food.Measure{}, false
	}
	for _, kind := range []struct{ word, unit string }{{"cherry", "cherry"}, {"plum", "plum"}, {"roma", "plum"}} {
		if !hasAny(r.say.hints, kind.word) {
			continue
		}
		if m, _, ok := r.food.Household(kind.unit, ""); ok {
			return m, true
		}
	}
	return food.Measure{}, false
}

// cuts are parts of an animal by the piece, edible grams, from memory: for rows
// of the whole animal, whose count is the animal.
var cuts = map[string]float64{
	"leg": 200, "breast": 175, "thigh": 115, "wing": 50, "drumstick": 90, "steak": 225, "chop": 150, "shank": 300, "rib": 60, "cutlet": 80, "escalope": 120, "cheek": 200,
}

// cutGrams weighs a cut the name speaks of and the food has no measure for.
func (r *lineReader) cutGrams() (float64, bool) {
	if !isMeat(r.food) {
		return 0, false
	}
	for _, w := range keyWords(r.say.full) {
		if g, ok := cuts[w]; ok {
			if _, _, known := r.food.Household(w, ""); known {
				return 0, false
			}
			if m, _, ok := r.food.Each(""); ok && m.Unit != "whole" && m.Grams < 500 {
				return 0, false
			}
			return g, true
		}
	}
	return 0, false
}

// euEgg weighs an egg whose size a metric or imperial recipe gives: there the
// words are the EU and UK classes, by weight, and not the US ones. An egg
// without a size is about 50 g either way.
func (r *lineReader) euEgg() bool {
	if r.opt.System == measure.US || r.amt.size == "" || !isEgg(r.food) {
		return false
	}
	m, _, ok := r.food.Household(r.amt.size, "eu")
	if !ok || m.Detail != "eu" {
		return false
	}
	r.set(r.count()*m.Grams, recipes.GramsCount, oneIs(m.Unit+" (EU class)", m.Grams))
	return true
}

func isEgg(f *food.Food) bool { return f.Group == "eggs" }

func sizeFactor(size string) float64 {
	switch size {
	case "small":
		return 0.7
	case "large":
		return 1.35
	case "extra large", "jumbo":
		return 1.6
	}
	return 1
}
