package sheets

import (
	"math"
	"reflect"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// What the figures on a label can be for.
const (
	Per100Grams = "100g"
	Per100Ml    = "100ml"
	PerPortion  = "serving"
)

// SaltKey is the key of the salt figure, which is no nutrient of its own.
const SaltKey = "salt_g"

// LabelFigure is one figure a label may give. Nutrient is of no use for salt.
type LabelFigure struct {
	Key      string
	Nutrient food.Nutrient
	Part     bool // of the figure above it
}

// LabelFigures are the figures of the form, in the order labels have them.
var LabelFigures = []LabelFigure{
	{food.EnergyKcal.Key(), food.EnergyKcal, false},
	{food.EnergyKJ.Key(), food.EnergyKJ, false},
	{food.Fat.Key(), food.Fat, false},
	{food.SaturatedFat.Key(), food.SaturatedFat, true},
	{food.TransFat.Key(), food.TransFat, true},
	{food.Carbohydrate.Key(), food.Carbohydrate, false},
	{food.Sugars.Key(), food.Sugars, true},
	{food.AddedSugars.Key(), food.AddedSugars, true},
	{food.Fibre.Key(), food.Fibre, false},
	{food.Protein.Key(), food.Protein, false},
	{SaltKey, food.Sodium, false},
	{food.Sodium.Key(), food.Sodium, false},
	{food.Cholesterol.Key(), food.Cholesterol, false},
	{food.Alcohol.Key(), food.Alcohol, false},
	{food.Potassium.Key(), food.Potassium, false},
	{food.Calcium.Key(), food.Calcium, false},
	{food.Iron.Key(), food.Iron, false},
	{food.Water.Key(), food.Water, false},
}

// labelOrder is the order nutrients are listed in beside the form.
var labelOrder = []food.Nutrient{
	food.EnergyKcal, food.EnergyKJ, food.Fat, food.SaturatedFat, food.TransFat, food.Carbohydrate, food.Sugars,
	food.AddedSugars, food.Fibre, food.Protein, food.Sodium, food.Cholesterol, food.Alcohol,
	food.Potassium, food.Calcium, food.Iron, food.Water,
}

// Unit is the unit of a figure on a label.
func (f LabelFigure) Unit() string {
	if f.Key == SaltKey {
		return "g"
	}
	return f.Nutrient.Unit()
}

// Name is the name of a figure on a label.
func (f LabelFigure) Name() string {
	if f.Key == SaltKey {
		return words.Say("foods.salt.name")
	}
	return words.Say("nutrient." + f.Key)
}

// LabelFields are the texts of an own food's fields. An empty figure is not
// given: unknown, never zero.
type LabelFields struct {
	Name     string
	Per      string // Per100Grams, Per100Ml or PerPortion
	Portion  string // what a serving weighs: "30 g", "15 ml"
	Figures  map[string]string
	NoFibre  bool   // carbohydrate is without fibre, as in the EU
	Measures string // a line each: "1 tbsp = 15 g"
	Density  string // g per ml
	Edible   string // share eaten of it as bought
	State    food.State
	Note     string
	food.Allergens
}

// Keys of faults in fields that are no figures.
const (
	FoodNameKey = "name"
	PortionKey  = "portion"
	MeasuresKey = "measures"
	DensityKey  = "density"
	EdibleKey   = "edible"
)

// LabelOf puts a food into its fields, per 100 g and with fibre inside the
// carbohydrate; energy in kJ and salt that follow from kcal and sodium stay
// empty.
func LabelOf(f *food.Food) LabelFields {
	out := LabelFields{
		Name: f.Name, Per: Per100Grams, Figures: map[string]string{}, Measures: measuresField(f.Measures),
		State: f.State, Note: f.Note, Allergens: f.Allergens,
	}
	for _, x := range LabelFigures {
		if v, ok := f.Per100.Get(x.Nutrient); ok && x.Key != SaltKey {
			out.Figures[x.Key] = words.Field(v, 3)
		}
	}
	kcal, okC := f.Per100.Get(food.EnergyKcal)
	kj, okJ := f.Per100.Get(food.EnergyKJ)
	if okC && okJ && math.Abs(kj-kcal*food.KJPerKcal) <= 0.01*kj+2 {
		delete(out.Figures, food.EnergyKJ.Key())
	}
	if f.Density > 0 {
		out.Density = words.Field(f.Density, 4)
	}
	if f.Edible > 0 && f.Edible < 1 {
		out.Edible = words.Field(f.Edible*100, 2)
	}
	return out
}

// StartOf makes an own food of another's figures, to be changed; its allergens
// are unknown until the label is read. ref is the new food's.
func StartOf(f *food.Food, ref food.Ref) *food.Food {
	c := food.Food{
		Ref: ref, Name: f.Name, Group: f.Group, Per100: f.Per100, Measures: f.Measures, Density: f.Density,
		Edible: f.Edible, Swells: f.Swells, State: f.State, Allergens: f.Allergens,
		Note: words.Say("foods.started-from", FoodFrom(f), f.Name),
	}
	c.Allergens.Recorded = false
	if Own(f) {
		c.Note = f.Note
	}
	return &c
}

// ReadLabel reads the fields over the food as it was: what they do not hold
// stays, and so does each figure whose field was not touched, to the last place.
// What cannot be read is told by the field's key, and then the food must not be
// kept. A figure that does not fit the others is no such fault: see LabelDoubts.
func ReadLabel(f LabelFields, was *food.Food) (*food.Food, map[string]string) {
	faults := map[string]string{}
	out := *was
	out.Name, out.Note, out.State, out.Allergens = strings.TrimSpace(f.Name), strings.TrimSpace(f.Note), f.State, f.Allergens
	if out.Name == "" {
		faults[FoodNameKey] = words.Say("label.name.wrong")
	}
	readKitchen(f, was, &out, faults)
	per := f.perGrams(&out, faults)
	l, extra := f.label(per, faults)
	p, _ := l.Profile()
	for n, v := range extra {
		if !math.IsNaN(v) && per > 0 {
			p.Set(n, v*100/per)
		}
	}
	keepUntouched(f, was, &p)
	out.Per100 = p
	return &out, faults
}

// readKitchen reads measures, density and edible part; untouched ones stay.
func readKitchen(f LabelFields, was, out *food.Food, faults map[string]string) {
	before := LabelOf(was)
	if strings.TrimSpace(f.Measures) != strings.TrimSpace(before.Measures) {
		m, wrong := readMeasures(f.Measures)
		out.Measures = m
		if wrong != "" {
			faults[MeasuresKey] = words.Say("label.measures.wrong", wrong)
		}
	}
	if f.Density != before.Density {
		out.Density = optional(f.Density, DensityKey, mostDensity, words.Say("label.density.wrong"), faults)
	}
	if f.Edible == before.Edible {
		return
	}
	out.Edible = 0
	if strings.TrimSpace(f.Edible) != "" {
		share, ok := reading.Share(f.Edible)
		if !ok || share == 0 {
			faults[EdibleKey] = words.Say("label.edible.wrong")
		}
		out.Edible = share
	}
}

// mostDensity is more than any food weighs, in g per ml: dry salt as a solid has
// 2.2 (common practice, no source).
const mostDensity = 3

// perGrams is what the figures are for, in grams; 0 when it cannot be told.
func (f LabelFields) perGrams(made *food.Food, faults map[string]string) float64 {
	perMl, _, known := made.GramsPerMillilitre()
	ml := 0.0
	switch f.Per {
	case Per100Ml:
		ml = 100
	case PerPortion:
		if g, ok := reading.Grams(f.Portion); ok && g > 0 {
			return g
		}
		if ml = millilitres(f.Portion); ml == 0 {
			faults[PortionKey] = words.Say("label.portion.wrong")
			return 0
		}
	default:
		return 100
	}
	if !known {
		faults[DensityKey] = words.Say("label.density.needed")
		return 0
	}
	return ml * perMl
}

// millilitres reads a volume typed into a field, 0 for none.
func millilitres(text string) float64 {
	n, rest, ok := measure.ReadNumber(strings.TrimSpace(text))
	u := measure.Lookup(strings.TrimSpace(rest))
	if !ok || n.High != 0 && n.High != n.Low || u == nil || u.Kind != measure.Volume || !(n.Low > 0) {
		return 0
	}
	return n.Low * float64(u.Millilitres(measure.Metric))
}

// label reads the figures; extra are those a food.Label does not have.
func (f LabelFields) label(per float64, faults map[string]string) (food.Label, map[food.Nutrient]float64) {
	get := func(key string) float64 { return labelFigure(f.Figures[key], key, faults) }
	of := func(n food.Nutrient) float64 { return get(n.Key()) }
	l := food.Label{
		Per: per, EU: f.NoFibre, Kcal: of(food.EnergyKcal), KJ: of(food.EnergyKJ), Protein: of(food.Protein), Fat: of(food.Fat),
		Saturated: of(food.SaturatedFat), Carbohydrate: of(food.Carbohydrate), Sugars: of(food.Sugars), AddedSugars: of(food.AddedSugars),
		Fibre: of(food.Fibre), Sodium: of(food.Sodium), Salt: get(SaltKey), Cholesterol: of(food.Cholesterol),
		Alcohol: of(food.Alcohol), TransFat: of(food.TransFat),
	}
	extra := map[food.Nutrient]float64{}
	for _, n := range []food.Nutrient{food.Potassium, food.Calcium, food.Iron, food.Water} {
		extra[n] = of(n)
	}
	return l, extra
}

// labelFigure reads one figure, NaN for none. Figures in mg, kcal and kJ have
// no three decimals: "1,250" is more than a thousand there, with "1,25" less.
func labelFigure(text, key string, faults map[string]string) float64 {
	text = strings.TrimSpace(text)
	if text == "" {
		return math.NaN()
	}
	large := key != SaltKey && !strings.HasSuffix(key, "_g")
	if large {
		text += " mg"
	}
	n, rest, ok := measure.ReadNumber(text)
	if large {
		rest = strings.TrimSuffix(rest, "mg")
	}
	if !ok || strings.TrimSpace(rest) != "" || n.High != 0 && n.High != n.Low || n.Low < 0 || n.Low > mostFigure {
		faults[key] = words.Say("label.figure.wrong")
		return math.NaN()
	}
	return n.Low
}

// mostFigure is more than any label gives of anything in any unit.
const mostFigure = 1e6

// bound are figures that are read together: when the texts of one of them and
// what they are for were not touched, they stay as they were.
var bound = [][]string{
	{food.EnergyKcal.Key(), food.EnergyKJ.Key()},
	{food.Carbohydrate.Key(), food.Fibre.Key()},
	{SaltKey, food.Sodium.Key()},
}

// keepUntouched puts the food's own figures back where no field was touched.
func keepUntouched(f LabelFields, was *food.Food, p *food.Profile) {
	before := LabelOf(was)
	if f.Per != Per100Grams {
		return
	}
	for _, x := range LabelFigures {
		same := f.Figures[x.Key] == before.Figures[x.Key]
		for _, group := range bound {
			if group[0] == x.Key || group[1] == x.Key {
				same = f.Figures[group[0]] == before.Figures[group[0]] && f.Figures[group[1]] == before.Figures[group[1]]
			}
		}
		if !same || x.Nutrient == food.Carbohydrate && f.NoFibre {
			continue
		}
		if v, ok := was.Per100.Get(x.Nutrient); ok {
			p.Set(x.Nutrient, v)
		} else {
			p.Forget(x.Nutrient)
		}
	}
}

// SameFood tells whether two foods say the same.
func SameFood(a, b *food.Food) bool { return reflect.DeepEqual(a, b) }

// LabelDoubts says what does not fit in the fields as they stand. Nothing of it
// keeps the food from being saved: labels do carry such figures.
func LabelDoubts(f LabelFields, made *food.Food) []string {
	var out []string
	l, _ := f.label(100, map[string]string{})
	switch {
	case f.NoFibre && !math.IsNaN(l.Carbohydrate) && math.IsNaN(l.Fibre):
		out = append(out, words.Say("label.no-fibre"))
	case math.IsNaN(l.Kcal) && math.IsNaN(l.KJ):
		out = append(out, words.Say("label.no-energy"))
	}
	out = append(out, FoodDoubts(made)...)
	if !l.CheckSalt() {
		out = append(out, words.Say("fault."+string(food.FaultSaltParts)))
	}
	return out
}

// FoodDoubts says what does not fit in a food's figures.
func FoodDoubts(f *food.Food) []string {
	var out []string
	for _, fault := range food.Check(&f.Per100) {
		out = append(out, words.Say("fault."+string(fault)))
	}
	return out
}

// Impossible tells whether a food holds what no food can: more than 100 g in
// 100 g, or more sodium than pure salt. It is said loudly, not refused: labels do
// carry such figures.
func Impossible(f *food.Food) bool {
	for _, fault := range food.Check(&f.Per100) {
		if fault == food.FaultParts || fault == food.FaultSodium {
			return true
		}
	}
	return false
}

// FirstFault is the first fault in the order of the form, "" for none.
func FirstFault(faults map[string]string) string {
	say := func(keys ...string) string {
		for _, key := range keys {
			if faults[key] != "" {
				return faults[key]
			}
		}
		return ""
	}
	if why := say(FoodNameKey, PortionKey); why != "" {
		return why
	}
	for _, x := range LabelFigures {
		if why := faults[x.Key]; why != "" {
			return words.Say("label.fault", x.Name(), why)
		}
	}
	return say(MeasuresKey, DensityKey, EdibleKey)
}

// AllergenTicks lists the allergens with a box for "in it" and one for "may be
// in it".
func AllergenTicks(a food.Allergens) Sheet {
	s := Sheet{Corner: words.Say("label.allergen"), Columns: []Column{
		{Key: "in", Title: words.Say("label.allergen.in"), Tight: true, Index: -1},
		{Key: "may", Title: words.Say("label.allergen.may"), Tight: true, Index: -1},
	}}
	tick := func(on bool) Cell {
		if on {
			return Cell{Tick: TickOn, Bar: noBar()}
		}
		return Cell{Tick: TickOff, Bar: noBar()}
	}
	for _, e := range food.EachAllergen {
		s.Rows = append(s.Rows, Row{
			Key: e.Key, Label: text(words.Say("allergen." + e.Key)),
			Cells: []Cell{tick(a.Contains&e.Bit != 0), tick(a.Depends&e.Bit != 0)},
		})
	}
	return s
}
