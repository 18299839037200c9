package book

import (
	"math"
	"slices"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// Amount is a measure as it is printed. Ratio is what is printed over what the
// draft holds, 1 where nothing was rounded.
type Amount struct {
	Text  string  `json:"text"` // "300 g", "1½ tsp"; "" where the line has none of its own
	Ratio float64 `json:"ratio"`
}

// house prints lines in one system of measures.
type house struct {
	to      measure.System
	from    measure.System // what cup and spoon mean in the recipe
	written bool           // round what the cook wrote too
}

// asIs is a line whose amount stands in its text.
var asIs = Amount{Ratio: 1}

// amount prints the amount of a line. asIs means that its text says it.
func (h house) amount(d *recipes.DraftLine, f *food.Food) Amount {
	l := d.Line
	touched := math.Abs(d.Scale-1) > 1e-9
	u := measure.Lookup(l.Unit)
	switch {
	case l.Sub != nil, l.Amount <= 0, u != nil && (u.Kind == measure.Little || u.Kind == measure.Length):
		return h.unmeasured(d, touched)
	case l.High > 0 && touched:
		if g, ok := d.Grams(); ok {
			return h.mass(g, f, l)
		}
		return asIs
	case l.High > 0:
		return Amount{Text: words.Say("book.range", words.Fraction(l.Amount), words.Fraction(l.High)) + h.unitAfter(u), Ratio: 1}
	case u != nil && u.Kind == measure.Mass:
		return h.weighed(l.Amount*d.Scale*float64(u.Grams), touched, f, l, u)
	case u != nil && u.Kind == measure.Volume:
		return h.poured(l.Amount*d.Scale, touched, f, d, u)
	}
	if _, _, front := measure.ReadNumber(l.Text); !front {
		return asIs // "juice of 1 lemon": the number counts something else
	}
	return h.counted(l.Amount*d.Scale, touched, f, u)
}

// unmeasured has no amount of its own: "a pinch", "to taste". What is left of
// one after a swap is weighed where its weight is known.
func (h house) unmeasured(d *recipes.DraftLine, touched bool) Amount {
	g, ok := d.Grams()
	if !touched || !ok || d.Line.Sub != nil || d.Line.Amount <= 0 || g < 1 || d.Line.Name == "" {
		return asIs
	}
	return h.mass(g, nil, d.Line)
}

// unitAfter is the unit behind a range, "" for what is counted in the text.
func (h house) unitAfter(u *measure.Unit) string {
	if u == nil || u.Kind == measure.Pack || u.Kind == measure.Piece {
		return ""
	}
	return " " + u.Word
}

// weighed prints a weight: in the system's own unit as it was written unless
// something was worked out.
func (h house) weighed(grams float64, touched bool, f *food.Food, l *recipes.Line, u *measure.Unit) Amount {
	metric := u.Word == "g" || u.Word == "kg" || u.Word == "mg"
	switch {
	case h.to != measure.US && metric && !touched && !h.written:
		return Amount{Text: weight(grams), Ratio: 1}
	case h.to == measure.US && !metric && !touched && !h.written:
		return Amount{Text: words.Fraction(l.Amount) + " " + u.Word, Ratio: 1}
	}
	return h.mass(grams, f, l)
}

// mass prints grams as a kitchen of the system weighs them; a US one pours and
// spoons what it can.
func (h house) mass(grams float64, f *food.Food, l *recipes.Line) Amount {
	if grams <= 0 {
		return asIs
	}
	if h.to != measure.US {
		g := houseGrams(grams)
		return Amount{weight(g), g / grams}
	}
	if perMl, ok := spooned(f, l); ok {
		if a, ok := h.volume(grams / perMl); ok {
			return a
		}
	}
	return ounces(grams)
}

// houseGrams rounds as a printed recipe does: to 10 from 100 g, to 5 from 20 g,
// to the gram from 5 g, to the half gram below. House style; no source.
func houseGrams(g float64) float64 {
	step := 10.0
	switch {
	case g < 5:
		step = 0.5
	case g < 20:
		step = 1
	case g < 100:
		step = 5
	}
	return math.Max(step, math.Round(g/step)*step)
}

// weight writes grams, kilograms from a thousand.
func weight(g float64) string {
	if g >= 1000 {
		return words.Trim(g/1000, 2) + " kg"
	}
	return words.Trim(g, 1) + " g"
}

// ounces prints a weight on a US scale: quarters of an ounce below 8, halves to
// a pound, whole ounces above; what is lighter than a quarter in grams.
func ounces(grams float64) Amount {
	oz := grams / float64(measure.GramsPerOunce)
	step := 1.0
	switch {
	case oz < 0.2:
		g := houseGrams(grams)
		return Amount{weight(g), g / grams}
	case oz < 8:
		step = 0.25
	case oz < 16:
		step = 0.5
	}
	n := math.Max(step, math.Round(oz/step)*step)
	a := Amount{Ratio: n / oz}
	pounds, rest := math.Floor(n/16), math.Mod(n, 16)
	switch {
	case pounds == 0:
		a.Text = words.Fraction(n) + " oz"
	case math.Mod(rest, 4) == 0:
		a.Text = words.Fraction(n/16) + " lb"
	default:
		a.Text = words.Fraction(pounds) + " lb " + words.Fraction(rest) + " oz"
	}
	return a
}

// onScales are groups that a US kitchen weighs rather than fills into cups.
var onScales = []string{
	"poultry", "beef", "pork", "lamb, veal, game", "sausages and deli", "fish and shellfish",
	"vegetables", "bread and baked goods", "eggs",
}

// spooned is the weight of a millilitre of what is measured by cup and spoon.
func spooned(f *food.Food, l *recipes.Line) (float64, bool) {
	if f == nil || slices.Contains(onScales, f.Group) {
		return 0, false
	}
	perMl, _, exact, ok := f.VolumeOf(l.Prep)
	return perMl, ok && exact && perMl > 0
}

// liquid tells what a metric kitchen pours from a jug rather than weighs.
func liquid(f *food.Food) bool { return f != nil && f.Density > 0 }

// poured prints a volume of n units.
func (h house) poured(n float64, touched bool, f *food.Food, d *recipes.DraftLine, u *measure.Unit) Amount {
	ml := n * float64(u.Millilitres(h.from))
	spoon := u.Word == "tsp" || u.Word == "tbsp"
	metric := u.Word == "ml" || u.Word == "cl" || u.Word == "dl" || u.Word == "l"
	if ml <= 0 {
		return asIs
	}
	if spoon && !touched && !h.written {
		ratio := float64(u.Millilitres(h.to)) / float64(u.Millilitres(h.from))
		return Amount{words.Fraction(n) + " " + u.Word, ratio}
	}
	if h.to == measure.US {
		if a, ok := h.volume(ml); ok {
			return a
		}
		return asIs
	}
	switch g, known := d.Grams(); {
	case metric && !touched && !h.written:
		return Amount{litres(ml), 1}
	case spoon || ml < 20:
		if a, ok := h.volume(ml); ok {
			return a
		}
	case !metric && known && f != nil && !liquid(f):
		return h.mass(g, f, d.Line)
	}
	v := houseGrams(ml)
	return Amount{litres(v), v / ml}
}

// litres writes millilitres, litres from a thousand.
func litres(ml float64) string {
	if ml >= 1000 {
		return words.Say("book.litres", words.Trim(ml/1000, 2))
	}
	return words.Trim(ml, 1) + " ml"
}

// counted prints a number of pieces: packs and eggs whole, other things to the
// marks a cook can cut.
func (h house) counted(n float64, touched bool, f *food.Food, u *measure.Unit) Amount {
	if !touched && !h.written {
		return Amount{words.Fraction(n), 1}
	}
	step := 0.25
	switch {
	case u != nil && u.Kind == measure.Pack, f != nil && f.Group == "eggs", n > 10:
		step = 1
	case n > 3:
		step = 0.5
	}
	whole := math.Max(step, math.Round(n/step)*step)
	if third := math.Round(n*3) / 3; step == 0.25 && math.Abs(third-n) < math.Abs(whole-n) && third > 0 {
		whole = third
	}
	return Amount{words.Fraction(whole), whole / n}
}
