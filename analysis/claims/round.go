package claims

import (
	"math"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Printed is a figure as a label prints it. Value is the rounded number in
// Unit, 0 where Text is "less than ...", NaN where the figure is not known.
// Section is the rule it follows; a nutrient that the rule leaves out has
// Section "" and is rounded as the program's own tables are.
type Printed struct {
	Text    string
	Value   float64
	Unit    string
	Section string
	Status  Status
}

// The rules say "nearest" and leave the half open; here a half goes up, the
// usual practice.
func nearest(v, step float64) float64 { return math.Floor(v/step+0.5+closeTo) * step }

// under tells whether v is below the limit, and not at it by a trace of float.
func under(v, limit float64) bool { return compare(v, Below, limit) }

// RoundUS rounds a serving's figure, in the nutrient's unit, by 21 CFR
// 101.9(c). It rounds once, from the unrounded figure.
func RoundUS(n food.Nutrient, v float64) Printed {
	if math.IsNaN(v) {
		return unknownPrinted(n)
	}
	switch n {
	case food.EnergyKcal:
		return usSteps(n, v, "(c)(1)", Confirmed, 5, 50, 5, 10)
	case food.Fat, food.SaturatedFat, food.TransFat:
		return usSteps(n, v, "(c)(2)", Confirmed, 0.5, 5, 0.5, 1)
	case food.Cholesterol:
		return usCholesterol(v)
	case food.Sodium:
		return usSteps(n, v, "(c)(4)", Confirmed, 5, 140, 5, 10)
	case food.Carbohydrate, food.Sugars, food.Fibre:
		return usGram(n, v, "(c)(6)", Confirmed)
	case food.AddedSugars:
		return usGram(n, v, "(c)(6)(iii)", FromMemory)
	case food.Protein:
		return usGram(n, v, "(c)(7)", Confirmed)
	case food.Potassium:
		return usSteps(n, v, "(c)(8)", FromMemory, 5, math.Inf(1), 10, 10)
	case food.Calcium:
		return usSteps(n, v, "(c)(8)", FromMemory, 0.02*dailyValues[n], math.Inf(1), 10, 10)
	case food.Iron:
		return usSteps(n, v, "(c)(8)", FromMemory, 0.02*dailyValues[n], math.Inf(1), 0.1, 0.1)
	}
	return noRule(n, v)
}

// usSteps is zero below least, in steps of fine up to and at turn, of coarse
// above it.
func usSteps(n food.Nutrient, v float64, paragraph string, s Status, least, turn, fine, coarse float64) Printed {
	p := Printed{Unit: n.Unit(), Section: "21 CFR 101.9" + paragraph, Status: s}
	switch {
	case under(v, least):
	case v <= turn || near(v, turn):
		p.Value = nearest(v, fine)
	default:
		p.Value = nearest(v, coarse)
	}
	p.Text = words.Trim(p.Value, 1)
	return p
}

// usGram: zero below 0.5 g, "less than 1" below 1 g, else whole grams.
func usGram(n food.Nutrient, v float64, paragraph string, s Status) Printed {
	p := Printed{Unit: n.Unit(), Section: "21 CFR 101.9" + paragraph, Status: s}
	switch {
	case under(v, 0.5):
		p.Text = words.Number(0, 0)
	case under(v, 1):
		p.Text = words.Say("claims.less-than", words.Number(1, 0))
	default:
		p.Value = nearest(v, 1)
		p.Text = words.Number(p.Value, 0)
	}
	return p
}

// usCholesterol: zero below 2 mg, "less than 5" from 2 to 5, else steps of 5.
func usCholesterol(v float64) Printed {
	p := Printed{Unit: "mg", Section: "21 CFR 101.9(c)(3)", Status: Confirmed}
	switch {
	case under(v, 2):
		p.Text = words.Number(0, 0)
	case v <= 5 || near(v, 5):
		p.Text = words.Say("claims.less-than", words.Number(5, 0))
	default:
		p.Value = nearest(v, 5)
		p.Text = words.Number(p.Value, 0)
	}
	return p
}

// RoundDailyValue rounds a per cent of the daily value of fat, carbohydrate,
// sodium and the like to the nearest whole per cent (21 CFR 101.9(d)(7)(ii)).
func RoundDailyValue(percent float64) Printed {
	if math.IsNaN(percent) {
		return Printed{Text: words.Unknown, Value: percent, Unit: "%"}
	}
	v := nearest(percent, 1)
	return Printed{Text: words.Number(v, 0), Value: v, Unit: "%", Section: "21 CFR 101.9(d)(7)(ii)", Status: Confirmed}
}

// euGuidance is the Commission's guidance on tolerances, December 2012.
const euGuidance = "EU guidance on tolerances, December 2012"

// RoundEU rounds a figure for 100 g, 100 ml or a serving, in the nutrient's
// unit, by the EU guidance of December 2012. Sodium is printed in g; labels
// print salt instead: RoundSaltEU.
func RoundEU(n food.Nutrient, v float64) Printed {
	if math.IsNaN(v) {
		return unknownPrinted(n)
	}
	switch n {
	case food.EnergyKcal, food.EnergyKJ:
		w := nearest(v, 1)
		return Printed{Text: words.Number(w, 0), Value: w, Unit: n.Unit(), Section: euGuidance, Status: Confirmed}
	case food.Fat, food.Carbohydrate, food.Sugars, food.Protein, food.Fibre:
		return euBands(v, 0.5, 0.1, 10, 1, Confirmed)
	case food.SaturatedFat:
		return euBands(v, 0.1, 0.1, 10, 1, Confirmed)
	case food.Sodium:
		return euBands(v/1000, 0.005, 0.01, 1, 0.1, FromMemory)
	case food.Potassium, food.Calcium:
		return euFigures(n, v, 3)
	case food.Iron:
		return euFigures(n, v, 2)
	}
	return noRule(n, v)
}

// RoundSaltEU rounds grams of salt by the EU guidance of December 2012.
func RoundSaltEU(grams float64) Printed {
	if math.IsNaN(grams) {
		return Printed{Text: words.Unknown, Value: grams, Unit: "g"}
	}
	return euBands(grams, 0.0125, 0.01, 1, 0.1, Confirmed)
}

// euBands: at or below least nothing counts ("0" for none, else "<" the least);
// up to turn in steps of fine, from turn on in steps of coarse. The smallest
// amount printed for salt and sodium is "<0.01", as their steps are.
func euBands(v, least, fine, turn, coarse float64, s Status) Printed {
	p := Printed{Unit: "g", Section: euGuidance, Status: s}
	switch {
	case near(v, 0) || v < 0:
		p.Text = words.Number(0, 0)
	case v <= least || near(v, least):
		p.Text = "<" + words.Trim(max(least, fine), 2)
		if least > fine && fine == 0.01 {
			p.Text = "<" + words.Trim(fine, 2)
		}
	case under(v, turn):
		p.Value = nearest(v, fine)
		p.Text = words.Number(p.Value, places(fine, p.Value, turn))
	default:
		p.Value = nearest(v, coarse)
		p.Text = words.Number(p.Value, places(coarse, 0, 1))
	}
	return p
}

// places is how many decimals a step is printed with; a value that rounded up
// to the turn is printed as those above it.
func places(step, v, turn float64) int {
	d := 0
	switch {
	case step < 0.05:
		d = 2
	case step < 0.5:
		d = 1
	}
	if d > 0 && (v > turn || near(v, turn)) {
		d--
	}
	return d
}

// euFigures keeps so many significant figures (vitamins and minerals).
func euFigures(n food.Nutrient, v float64, figures int) Printed {
	p := Printed{Unit: n.Unit(), Section: euGuidance, Status: Confirmed}
	if v > 0 {
		step := math.Pow(10, math.Floor(math.Log10(v))+1-float64(figures))
		p.Value = nearest(v, step)
		p.Text = words.Trim(p.Value, max(0, -int(math.Floor(math.Log10(step)+closeTo))))
		return p
	}
	p.Text = words.Number(0, 0)
	return p
}

// noRule rounds a nutrient that the rule does not name as our own tables do.
func noRule(n food.Nutrient, v float64) Printed {
	d := words.Decimals(n.Unit())
	step := math.Pow(10, -float64(d))
	return Printed{Text: words.Number(nearest(v, step), d), Value: nearest(v, step), Unit: n.Unit()}
}

func unknownPrinted(n food.Nutrient) Printed {
	return Printed{Text: words.Unknown, Value: math.NaN(), Unit: n.Unit()}
}
