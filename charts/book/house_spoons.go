package book

import (
	"math"

	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// closeEnough is how far a spoon or cup mark may be off before two measures are
// put together: 3 %. House style; no source.
const closeEnough = 0.03

// marks are the parts of a cup that cups are sold for or marked with.
var cupMarks = []float64{0.25, 1.0 / 3, 0.5, 2.0 / 3, 0.75, 1}

// spoonful is a measure by cup and spoon.
type spoonful struct {
	text string
	ml   float64
}

// volume prints millilitres with cups and spoons (in a metric kitchen spoons
// only): the plainest that is close enough, else the closest. False where the
// smallest spoon is too big.
func (h house) volume(ml float64) (Amount, bool) {
	var best spoonful
	off := math.Inf(1)
	for _, s := range h.spoonfuls(ml) {
		e := math.Abs(s.ml-ml) / ml
		if e <= closeEnough {
			return Amount{s.text, s.ml / ml}, true
		}
		if e < off-1e-9 {
			best, off = s, e
		}
	}
	return Amount{best.text, best.ml / ml}, off < 0.5
}

// spoonfuls are the ways to measure, plainest first.
func (h house) spoonfuls(ml float64) []spoonful {
	size := func(word string) float64 { return float64(measure.Lookup(word).Millilitres(h.to)) }
	tsp, tbsp, cup := size("tsp"), size("tbsp"), size("cup")
	var out []spoonful
	put := func(text string, v float64) {
		if v > 0 {
			out = append(out, spoonful{text, v})
		}
	}
	one := func(n float64, unit string, each float64) { put(words.Fraction(n)+" "+unit, n*each) }
	if h.to == measure.US && ml >= cup/4*0.97 {
		n := nearestCup(ml / cup)
		put(cups(n), n*cup)
		if ml < cup/2 {
			one(math.Round(ml/tbsp), "tbsp", tbsp)
		}
		down := cupBelow(ml / cup)
		if more := math.Round((ml - down*cup) / tbsp); more > 0 && down > 0 {
			put(words.Say("book.plus", cups(down), words.Trim(more, 0)+" tbsp"), down*cup+more*tbsp)
		}
		return out
	}
	if ml >= tbsp*0.97 {
		one(math.Round(ml/tbsp*2)/2, "tbsp", tbsp)
		whole := math.Floor(ml/tbsp + 1e-9)
		if more := math.Round((ml - whole*tbsp) / tsp); more > 0 && more < 3 {
			put(words.Say("book.plus", words.Trim(whole, 0)+" tbsp", words.Trim(more, 0)+" tsp"), whole*tbsp+more*tsp)
		}
		return out
	}
	one(math.Round(ml/tsp*4)/4, "tsp", tsp)
	eighths := math.Round(ml / tsp * 8)
	switch whole := math.Floor(eighths/2) / 4; {
	case math.Mod(eighths, 2) == 0:
	case whole == 0:
		one(0.125, "tsp", tsp)
	default:
		put(words.Say("book.plus", words.Fraction(whole)+" tsp", words.Fraction(0.125)+" tsp"), (whole+0.125)*tsp)
	}
	return out
}

// cups writes a number of cups.
func cups(n float64) string {
	if n <= 1+1e-9 {
		return words.Fraction(n) + " " + words.Say("book.cup")
	}
	return words.Fraction(n) + " " + words.Say("book.cups")
}

// nearestCup is the nearest whole cups and mark.
func nearestCup(n float64) float64 {
	whole := math.Floor(n)
	best := whole
	for _, m := range cupMarks {
		if math.Abs(whole+m-n) < math.Abs(best-n) {
			best = whole + m
		}
	}
	return best
}

// cupBelow is the whole cups and mark that is not more.
func cupBelow(n float64) float64 {
	whole := math.Floor(n + 1e-9)
	best := whole
	for _, m := range cupMarks {
		if whole+m <= n+1e-9 {
			best = whole + m
		}
	}
	return best
}
