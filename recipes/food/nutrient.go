// Package food describes foods: what 100 g of one holds, how household
// measures weigh, what it may do to an allergic person, and how to find it.
package food

import "fmt"

// Nutrient names one figure of a food. The zero value is energy in kcal.
type Nutrient uint8

// The nutrients Parewell keeps, with the unit each is counted in.
const (
	EnergyKcal   Nutrient = iota // kcal
	EnergyKJ                     // kJ
	Protein                      // g
	Fat                          // g
	SaturatedFat                 // g
	Carbohydrate                 // g, total by difference in US tables (fibre inside)
	Sugars                       // g
	AddedSugars                  // g
	Fibre                        // g
	Sodium                       // mg
	Cholesterol                  // mg
	Alcohol                      // g ethanol
	Water                        // g
	Potassium                    // mg
	Calcium                      // mg
	Iron                         // mg
	TransFat                     // g
	NutrientCount
)

// nutrientKeys are the stable names of JSON, CSV and the workbook.
var nutrientKeys = [NutrientCount]string{
	"energy_kcal", "energy_kj", "protein_g", "fat_g", "saturated_fat_g", "carbohydrate_g",
	"sugars_g", "added_sugars_g", "fibre_g", "sodium_mg", "cholesterol_mg", "alcohol_g",
	"water_g", "potassium_mg", "calcium_mg", "iron_mg", "trans_fat_g",
}

// Key returns the stable name used in JSON, CSV and the workbook, unit included.
func (n Nutrient) Key() string { return nutrientKeys[n] }

// ByKey returns the nutrient of a stable name; false if there is none.
func ByKey(key string) (Nutrient, bool) {
	for i, k := range nutrientKeys {
		if k == key {
			return Nutrient(i), true
		}
	}
	return 0, false
}

// MarshalText writes the stable name.
func (n Nutrient) MarshalText() ([]byte, error) { return []byte(n.Key()), nil }

// UnmarshalText reads a stable name; an unknown one is an error.
func (n *Nutrient) UnmarshalText(b []byte) error {
	v, ok := ByKey(string(b))
	if !ok {
		return fmt.Errorf("no nutrient is called %q", b)
	}
	*n = v
	return nil
}

// Unit returns "kcal", "kJ", "g" or "mg".
func (n Nutrient) Unit() string {
	switch n {
	case EnergyKcal:
		return "kcal"
	case EnergyKJ:
		return "kJ"
	case Sodium, Cholesterol, Potassium, Calcium, Iron:
		return "mg"
	}
	return "g"
}

// KJPerKcal converts thermochemical calories (Greenfield & Southgate 2003,
// FAO, ch. 7: 1 kcal = 4.184 kJ).
const KJPerKcal = 4.184

// SaltPerSodium turns sodium into salt equivalent (EU 1169/2011 Annex I, 11).
const SaltPerSodium = 2.5

// Profile is what 100 g of the edible part holds. A nutrient whose bit is not
// in Known is unknown, never zero. The zero Profile knows nothing.
type Profile struct {
	Value [NutrientCount]float64
	Known uint32
}

// AllKnown is the Known mask of a profile without a gap.
const AllKnown uint32 = 1<<NutrientCount - 1

// Get returns the amount per 100 g and whether it is known.
func (p *Profile) Get(n Nutrient) (float64, bool) {
	return p.Value[n], p.Known&(1<<n) != 0
}

// Set records a known amount per 100 g.
func (p *Profile) Set(n Nutrient, v float64) {
	p.Value[n] = v
	p.Known |= 1 << n
}

// Forget makes a nutrient unknown.
func (p *Profile) Forget(n Nutrient) {
	p.Value[n] = 0
	p.Known &^= 1 << n
}

// Bound returns the most that 100 g could hold of an unknown nutrient, from
// the known part that contains it: sugars, added sugars and fibre within
// carbohydrate, saturated and trans fat within fat. False if nothing bounds it.
func (p *Profile) Bound(n Nutrient) (float64, bool) {
	if v, ok := p.Get(n); ok {
		return v, true
	}
	switch n {
	case AddedSugars:
		if v, ok := p.Get(Sugars); ok {
			return v, true
		}
		return p.Get(Carbohydrate)
	case Sugars, Fibre:
		return p.Get(Carbohydrate)
	case SaturatedFat, TransFat:
		return p.Get(Fat)
	}
	return 0, false
}
