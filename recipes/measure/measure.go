// Package measure holds the kitchen's weights and volumes: unit words and
// their exact sizes in three systems, and how a cook writes a number.
package measure

import (
	"strings"

	"parewell/recipes/problem"
)

// Grams is a weight.
type Grams float64

// Millilitres is a volume.
type Millilitres float64

// System says what cup, pint, fluid ounce and spoon mean.
type System uint8

// The systems of measures; US is the default (DESIGN section 4).
const (
	US System = iota
	Metric
	Imperial
)

var systemNames = [...]string{"us", "metric", "imperial"}

// String returns the stable name: "us", "metric" or "imperial".
func (s System) String() string {
	if int(s) >= len(systemNames) {
		return systemNames[US]
	}
	return systemNames[s]
}

// ParseSystem reads a stable name; empty means US.
func ParseSystem(name string) (System, error) {
	name = strings.ToLower(strings.TrimSpace(name))
	if name == "" {
		return US, nil
	}
	for i, n := range systemNames {
		if n == name {
			return System(i), nil
		}
	}
	return US, problem.New("measures", "there are no "+name+" measures", "use us, metric or imperial")
}

// Exact sizes. Weights: NIST SP 811, appendix B. US volumes: 1 US fluid ounce
// is 1/128 of a gallon of 231 cubic inches. Imperial: 1 gallon = 4.54609 l
// (Weights and Measures Act 1985), fluid ounce 1/160 of it. Metric cup and
// spoons: 250, 15, 5 ml, as on metric measuring sets.
const (
	GramsPerOunce Grams = 28.349523125
	GramsPerPound Grams = 453.59237
	GramsPerStone Grams = 6350.29318

	USFluidOunce Millilitres = 29.5735295625
	USCup        Millilitres = 236.5882365
	USTablespoon Millilitres = 14.78676478125
	USTeaspoon   Millilitres = 4.92892159375

	ImperialFluidOunce Millilitres = 28.4130625
	ImperialPint       Millilitres = 568.26125
)
