package food

// Allergen is one bit a food may carry. The set is the union of the US nine
// (FALCPA 2004 with the FASTER Act 2021) and the EU fourteen (1169/2011 Annex II).
type Allergen uint32

// The allergens of both lists; gluten cereals are kept apart because the US
// list names wheat only.
const (
	Milk Allergen = 1 << iota
	Egg
	Fish
	Crustacean
	Mollusc
	TreeNut
	Peanut
	Wheat
	OtherGluten // rye, barley, oats
	Soybean
	Sesame
	Celery
	Mustard
	Lupin
	Sulphite
)

// EachAllergen lists all bits with their stable keys, in a fixed order.
var EachAllergen = []struct {
	Bit Allergen
	Key string
	US  bool // one of the US nine
	EU  bool // one of the EU fourteen
}{
	{Milk, "milk", true, true},
	{Egg, "egg", true, true},
	{Fish, "fish", true, true},
	{Crustacean, "crustacean", true, true},
	{Mollusc, "mollusc", false, true},
	{TreeNut, "tree nut", true, true},
	{Peanut, "peanut", true, true},
	{Wheat, "wheat", true, true},
	{OtherGluten, "other gluten cereal", false, true},
	{Soybean, "soybean", true, true},
	{Sesame, "sesame", true, true},
	{Celery, "celery", false, true},
	{Mustard, "mustard", false, true},
	{Lupin, "lupin", false, true},
	{Sulphite, "sulphite", false, true},
}

// Allergens is what is recorded of a food. Contains are in it by its nature;
// Depends may be, depending on the product. Recorded false means nobody has
// looked: unknown, never free.
type Allergens struct {
	Recorded bool     `json:"recorded"`
	Contains Allergen `json:"contains,omitempty"`
	Depends  Allergen `json:"depends,omitempty"`
}

// Keys returns the stable names of the bits in a, in a fixed order.
func (a Allergen) Keys() []string {
	var out []string
	for _, e := range EachAllergen {
		if a&e.Bit != 0 {
			out = append(out, e.Key)
		}
	}
	return out
}

// AllergenByKey returns the bit of a stable name; false if there is none.
func AllergenByKey(key string) (Allergen, bool) {
	for _, e := range EachAllergen {
		if e.Key == key {
			return e.Bit, true
		}
	}
	return 0, false
}
