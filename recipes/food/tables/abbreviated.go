package tables

import (
	"math"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/food/portions"
)

// abbreviatedFields is how many fields a row of ABBREV.txt has since Release 24
// (documentation of the standard reference, Release 26).
const abbreviatedFields = 53

// abbreviated are the columns of the abbreviated file that are read: their
// places in ABBREV.txt and what ABBREV.csv calls them, by columnKey. The header
// of the CSV holds the unit.
var abbreviated = struct {
	code, name, refuse column
	grams, what        [2]column
	ash                column
	values             []struct {
		column
		to food.Nutrient
	}
}{
	code: column{0, "ndbno"}, name: column{1, "shrtdesc"}, refuse: column{52, "refusepct"},
	grams: [2]column{{48, "gmwt1"}, {50, "gmwt2"}}, what: [2]column{{49, "gmwtdesc1"}, {51, "gmwtdesc2"}},
	ash: column{6, "ashg"},
	values: []struct {
		column
		to food.Nutrient
	}{
		{column{2, "waterg"}, food.Water},
		{column{3, "energkcal"}, food.EnergyKcal},
		{column{4, "proteing"}, food.Protein},
		{column{5, "lipidtotg"}, food.Fat},
		{column{7, "carbohydrtg"}, food.Carbohydrate},
		{column{8, "fibertdg"}, food.Fibre},
		{column{9, "sugartotg"}, food.Sugars},
		{column{10, "calciummg"}, food.Calcium},
		{column{11, "ironmg"}, food.Iron},
		{column{14, "potassiummg"}, food.Potassium},
		{column{15, "sodiummg"}, food.Sodium},
		{column{44, "fasatg"}, food.SaturatedFat},
		{column{47, "cholestrlmg"}, food.Cholesterol},
	},
}

type column struct {
	at  int
	key string
}

// abbreviatedPlaces are the columns of one file.
type abbreviatedPlaces struct {
	code, name, refuse, ash int
	grams, what             [2]int
	values                  []int // as abbreviated.values; -1 where there is none
}

func (w *work) readAbbreviated() error {
	fields := 0
	if w.place.layout == abbreviatedText {
		fields = abbreviatedFields
	}
	r, err := w.open(w.place.main, fields)
	if err != nil {
		return err
	}
	p := placesOf(r)
	if p.code < 0 || p.name < 0 {
		r.file.Close() //nolint:errcheck // it was only read
		return fault(nil, r.name, "tables.unknown")
	}
	for r.row() {
		if e, ok := r.abbreviatedFood(p); ok {
			w.add(r, e)
		}
	}
	w.listed = r.total
	return r.close()
}

// placesOf finds the columns: by their fixed places in the ASCII file, by name
// in CSV. A column whose name says another unit is not found, so its values
// stay unknown.
func placesOf(r *rows) abbreviatedPlaces {
	find := func(c column) int {
		if r.sep == 0 {
			return c.at
		}
		return r.column(c.key)
	}
	a := &abbreviated
	p := abbreviatedPlaces{code: find(a.code), name: find(a.name), refuse: find(a.refuse), ash: find(a.ash)}
	for i := range p.grams {
		p.grams[i], p.what[i] = find(a.grams[i]), find(a.what[i])
	}
	for _, v := range a.values {
		p.values = append(p.values, find(v.column))
	}
	return p
}

// abbreviatedFood makes a food of the present row.
func (r *rows) abbreviatedFood(p abbreviatedPlaces) (e entry, ok bool) {
	published := tidy(r.cell(p.name))
	if e, ok = r.newFood(r.cell(p.code), published, published); !ok {
		return e, false
	}
	if !r.abbreviatedValues(&e, p) {
		return e, false
	}
	if e.Edible, ok = r.edible(r.cell(p.refuse)); !ok {
		return e, false
	}
	e.Group = groupOf(e.Code[:2]+"00", "", e.Name)
	e.State = stateOf(e.Name, e.Code[:2])
	names := portions.NamesOf(e.Name)
	for i := range p.grams {
		amount, what := portions.Amount(r.cell(p.what[i]))
		if what == "" {
			continue
		}
		grams, known, ok := number(r.cell(p.grams[i]), r.comma)
		if !ok {
			r.fail("tables.bad.number", r.cell(p.grams[i]), what)
			return e, false
		}
		if known {
			r.w.measureOf(&e.Food, what, grams/amount, names)
		}
	}
	return e, true
}

// abbreviatedValues reads the figures of the present row; false when one is
// none or cannot be, which makes the row a bad one.
func (r *rows) abbreviatedValues(e *entry, p abbreviatedPlaces) bool {
	for i, c := range abbreviated.values {
		cell := r.cell(p.values[i])
		v, known, ok := number(cell, r.comma)
		if !ok {
			r.fail("tables.bad.number", cell, nameOf(c.to))
			return false
		}
		if known && !e.set(slot{to: c.to}, v) {
			r.fail("tables.bad.much", nameOf(c.to), cell)
			return false
		}
	}
	if ash, known, ok := number(r.cell(p.ash), r.comma); ok && known {
		e.alcohol(ash)
	}
	return true
}

// drinks is the first half of the numbers of drinks; vanillaExtract holds
// alcohol too.
const (
	drinks         = "14"
	vanillaExtract = "02050"
)

// roundedOff is the most that six printed figures can be off 100 together.
const roundedOff = 0.5

// alcohol works ethanol out, which the abbreviated file has no column for:
// carbohydrate is 100 less water, protein, fat, ash and alcohol (21 CFR 101.9 and
// the documentation of the standard reference), so what is left of 100 is the
// alcohol. Where next to nothing is left there is none; elsewhere only drinks
// and vanilla extract are trusted with it, because the figures of a few dry foods
// do not add up.
func (e *entry) alcohol(ash float64) {
	left := 100 - ash
	for _, n := range []food.Nutrient{food.Water, food.Protein, food.Fat, food.Carbohydrate} {
		v, known := e.Per100.Get(n)
		if !known {
			return
		}
		left -= v
	}
	switch {
	case math.Abs(left) <= roundedOff:
		e.Per100.Set(food.Alcohol, 0)
	case left > 0 && (strings.HasPrefix(e.Code, drinks) || e.Code == vanillaExtract):
		e.Per100.Set(food.Alcohol, math.Round(left*100)/100)
	}
}
