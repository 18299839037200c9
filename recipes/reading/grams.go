package reading

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// weigh finds the grams, in the order of DESIGN section 4.
func (r *lineReader) weigh() {
	switch {
	case !r.amt.found:
		r.weighNothing()
	case r.amt.num.Low == 0 && !r.amt.num.Range(): // "0 g salt": none of it, which is known
		r.set(0, recipes.GramsWeight, "")
	case r.amt.grams > 0:
		r.set(r.amt.grams, recipes.GramsWeight, r.amt.note)
		r.asBought()
	case r.byMemory():
	case r.food == nil:
	case r.weighSalt():
	case r.say.part != "":
		r.weighPart()
	case r.amt.little:
		r.set(littleGrams(r.food), recipes.GramsDefault, "")
		r.doubt(recipes.DoubtDefault, figure(littleGrams(r.food)))
	case r.amt.unit == nil && r.amt.ml == 0:
		r.weighCount()
	default:
		r.weighUnit()
	}
}

// weighUnit weighs by the kind of unit.
func (r *lineReader) weighUnit() {
	u := r.amt.unit
	switch {
	case u != nil && u.Kind == measure.Volume:
		r.weighVolume()
	case r.amt.ml > 0:
		r.weighMillilitres(r.amt.ml, r.amt.note)
	case r.amt.cm > 0 || u.Kind == measure.Length:
		r.weighLength()
	case u.Kind == measure.Little:
		r.weighLittle()
	case u.Kind == measure.Pack:
		r.weighPack()
	default:
		r.weighPiece()
	}
}

func (r *lineReader) set(grams float64, from recipes.GramsFrom, note string) {
	if grams < 0 || math.IsNaN(grams) || math.IsInf(grams, 0) {
		return
	}
	r.line.Grams, r.line.GramsFrom, r.line.GramsNote = grams, from, note
}

// roundGrams takes off what lies beyond a thousandth of a gram.
func roundGrams(g float64) float64 { return math.Round(g*1000) / 1000 }

// count is how many of the unit the line has.
func (r *lineReader) count() float64 { return r.amt.num.Value() }

// byMemory uses the grams the cook once gave for one of this unit.
func (r *lineReader) byMemory() bool {
	c := r.choice()
	if c == nil {
		return false
	}
	g, ok := c.Grams[r.unitWord()]
	if !ok || g <= 0 {
		return false
	}
	r.set(g*r.count(), recipes.GramsTyped, oneIs(r.unitWord(), g))
	return true
}

// oneIs says the arithmetic: "1 cup = 238 g".
func oneIs(what string, grams float64) string {
	if what == "" {
		return "1 = " + figure(grams) + " g"
	}
	return "1 " + what + " = " + figure(grams) + " g"
}

// weighVolume weighs cups, spoons and pints: the food's own measure of that
// unit, else another volume measure, else its density.
func (r *lineReader) weighVolume() {
	u := r.amt.unit
	ml := float64(u.Millilitres(r.opt.System))
	if ml <= 0 || r.amt.ml <= 0 {
		return
	}
	us := float64(u.Millilitres(measure.US))
	if m, exact, ok := r.food.Household(u.Word, r.measureWords()); ok && exact && us > 0 {
		one := m.Grams * ml / us
		r.set(one*r.amt.ml/ml, recipes.GramsHousehold, oneIs(m.String(), one))
		return
	}
	r.weighMillilitres(r.amt.ml, "")
}

// measureWords are the words that may narrow a household measure: what stands
// before the measure is taken, so "1 cup cream, whipped" is not whipped yet.
func (r *lineReader) measureWords() string {
	if hasAny(fold(r.say.full), "cream", "egg", "rice", "oats", "couscous", "sugar", "flour") {
		return r.say.full + " " + packedWord(r.say.hints)
	}
	return r.say.hints
}

func packedWord(hints string) string {
	for _, w := range []string{"unpacked", "packed", "unsifted", "sifted"} {
		if hasWord(hints, w) {
			return w
		}
	}
	return ""
}

// weighMillilitres weighs a volume by density or a volume measure.
func (r *lineReader) weighMillilitres(ml float64, note string) {
	perMl, from, exact, ok := r.food.VolumeOf(r.measureWords())
	if !ok {
		r.guessVolume(ml)
		return
	}
	how, text := recipes.GramsHousehold, from
	if from == "density" {
		how, text = recipes.GramsDensity, "1 ml = "+figure(perMl)+" g"
	} else if m, ok := r.measureNamed(from); ok {
		text = oneIs(from, m.Grams)
	}
	if note != "" {
		text = note + ", " + text
	}
	r.set(ml*perMl, how, text)
	if !exact && !isSpice(r.food) {
		r.doubt(recipes.DoubtMeasure, from)
	}
}

func (r *lineReader) measureNamed(name string) (food.Measure, bool) {
	for _, m := range r.food.Measures {
		if m.String() == name {
			return m, true
		}
	}
	return food.Measure{}, false
}

// guessVolume weighs a volume of a food whose measures are not known by what
// its kind weighs; always marked.
func (r *lineReader) guessVolume(ml float64) {
	perMl := groupDensity(r.food)
	r.set(ml*perMl, recipes.GramsDefault, "1 ml = "+figure(perMl)+" g")
	r.doubt(recipes.DoubtMeasure, "1 ml = "+figure(perMl)+" g")
}

// groupDensity is what a millilitre of a kind of food weighs in a cup or
// spoon, from memory.
func groupDensity(f *food.Food) float64 {
	switch f.Group {
	case "fats and oils":
		return 0.92
	case "herbs, spices, seasonings":
		return 0.4
	case "vegetables", "fruit", "legumes and soy":
		return 0.6
	case "nuts and seeds", "grains, pasta, flour", "bread and baked goods":
		return 0.55
	case "dairy":
		if kcal, ok := f.Per100.Get(food.EnergyKcal); ok && kcal > 220 {
			return 0.48 // cheese, grated or cubed
		}
		return 1.02
	case "poultry", "beef", "pork", "lamb, veal, game", "fish and shellfish", "sausages and deli":
		return 0.6
	}
	return 1
}

// weighPart weighs the juice or zest of counted fruit.
func (r *lineReader) weighPart() {
	fruit := citrusIn(fold(r.say.name))
	if r.amt.unit != nil && r.amt.unit.Kind == measure.Volume {
		r.weighVolume()
		return
	}
	if fruit == "" {
		r.weighCount()
		return
	}
	r.set(partGrams(fruit, r.say.part, r.amt.size, r.count()), recipes.GramsCount, partNote(fruit, r.say.part))
}

// weighLength weighs "a 5 cm piece of ginger", "1 (2-inch) stick cinnamon".
func (r *lineReader) weighLength() {
	perCm := cmDefault(r.food)
	cm := r.amt.cm
	if cm <= 0 || perCm <= 0 {
		r.weighPiece()
		return
	}
	r.set(cm*perCm, recipes.GramsDefault, "1 cm = "+figure(perCm)+" g")
	r.doubt(recipes.DoubtDefault, figure(cm*perCm))
}

// weighLittle weighs a pinch, knob or splash by its stated default.
func (r *lineReader) weighLittle() {
	u := r.amt.unit
	one := float64(u.Grams)
	if m, _, ok := r.food.Household(u.Word, ""); ok {
		one = m.Grams
	} else if ml := float64(u.Millilitres(r.opt.System)); ml > 0 {
		perMl, _, _, ok := r.food.VolumeOf(r.say.hints)
		if !ok {
			perMl = groupDensity(r.food)
		}
		one = ml * perMl
	} else if u.Word == "handful" {
		one = handful(r.food)
	}
	one *= littleSize(r.amt.size)
	r.set(r.count()*one, recipes.GramsDefault, oneIs(u.Word, one))
	r.doubt(recipes.DoubtDefault, figure(one))
}

func littleSize(size string) float64 {
	switch size {
	case "large", "extra large", "jumbo":
		return 1.5
	case "small":
		return 0.6
	}
	return 1
}

// handful is what a hand holds, from memory: soft herbs and leaves 15 to 30 g,
// nuts and dried fruit 30 g, pasta and grains 40 g.
func handful(f *food.Food) float64 {
	switch {
	case f.Group == "herbs, spices, seasonings":
		return 10
	case f.Group == "vegetables":
		return 30
	case f.Group == "grains, pasta, flour":
		return 40
	}
	return 30
}

// littleGrams is "a little": a teaspoon of fat or sauce, a pinch of a spice.
func littleGrams(f *food.Food) float64 {
	if f.Group == "herbs, spices, seasonings" {
		return 0.5
	}
	return 5
}

// asBought marks a weight that was taken with peel, bone or shell on.
func (r *lineReader) asBought() {
	if r.food == nil {
		return
	}
	h := r.say.hints
	whole := hasAny(h, "whole") && r.food.Edible > 0 && r.food.Edible < 1 && wholeMeansUncut(r.food)
	entire := hasWord(fold(r.food.Name), "whole") || r.amt.unit == nil && r.amt.grams >= 1000*r.count() && hasAny(fold(r.food.Name), "meat and skin")
	bird := r.food.Group == "poultry" && entire && !hasAny(h, "boned", "boneless", "meat only")
	if whole || bird || hasAny(h, "unpeeled", "bone-in", "bone in", "on the bone", "in shell", "in the shell", "in their shells", "shell-on", "shell on", "unshelled", "skin-on and bone-in", "in the pod", "in their pods", "head-on", "untrimmed", "with bones", "as bought") {
		r.line.AsBought = true
	}
}

// wholeMeansUncut tells foods that "whole" means with bone, shell or peel.
func wholeMeansUncut(f *food.Food) bool {
	switch f.Group {
	case "poultry", "fish and shellfish", "vegetables", "fruit", "lamb, veal, game", "pork", "beef":
		return f.State == food.Raw || f.State == ""
	}
	return false
}
