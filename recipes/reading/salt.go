package reading

import (
	"parewell/recipes"
	"parewell/recipes/measure"
)

// spoonSalt is a salt whose grains fill a spoon otherwise than table salt does.
type spoonSalt struct {
	words   []string
	perTsp  float64 // grams of a US teaspoon, the default taken
	differs string
}

// spoonSalts: kosher salts from the nutrition note, section 1 (2.8 to 4.8 g a
// teaspoon, from memory); the heavier is taken, so that no salt is left out.
// Flakes and coarse grains: common practice, from memory.
var spoonSalts = []spoonSalt{
	{[]string{"kosher"}, 4.8, "spoons of kosher salt differ by make, 2.8 to 4.8 g a teaspoon; 4.8 g is taken"},
	{[]string{"flake", "flakes", "flaky", "flaked"}, 3, "spoons of salt flakes differ, 2.4 to 4 g a teaspoon; 3 g is taken"},
	{[]string{"coarse", "rock", "crystal", "crystals", "grey", "gray", "himalayan", "pink"}, 5, "spoons of coarse salt differ, 4 to 6 g a teaspoon; 5 g is taken"},
}

// finelyGround words make any salt fill a spoon as table salt does.
var finelyGround = []string{"fine", "finely", "table", "ground"}

// weighSalt weighs a spoon or cup of a salt that is no table salt; false for
// other foods and measures.
func (r *lineReader) weighSalt() bool {
	u := r.amt.unit
	if r.food == nil || !isSalt(r.food) || u == nil || u.Kind != measure.Volume || r.amt.ml <= 0 || r.amt.grams > 0 || hasAny(r.say.hints, finelyGround...) {
		return false
	}
	for _, s := range spoonSalts {
		if !hasAny(r.say.hints, s.words...) {
			continue
		}
		g := r.amt.ml / float64(measure.USTeaspoon) * s.perTsp
		r.set(g, recipes.GramsDefault, oneIs("tsp", s.perTsp))
		r.doubt(recipes.DoubtClose, s.differs, r.food.Name)
		return true
	}
	return false
}
