package recipes

// Batch is one cooking of a version ("test 4 of B"): what was weighed and how
// it went. It is immutable once in a Book.
type Batch struct {
	ID       ID                 `json:"id"`
	Recipe   ID                 `json:"recipe"`
	Version  ID                 `json:"version,omitempty"` // empty: the original
	Number   int                `json:"number"`            // "test 4"
	Date     string             `json:"date"`              // local date, 2026-03-04
	Cook     string             `json:"cook,omitempty"`
	AsCooked map[ID]float64     `json:"as_cooked,omitempty"` // grams weighed, by line
	FullDish float64            `json:"full_dish,omitempty"` // g, dish and food
	Dish     float64            `json:"dish,omitempty"`      // g, empty dish
	LeftOver float64            `json:"left_over,omitempty"` // g, bones and shells
	Servings float64            `json:"servings,omitempty"`  // actually cut
	Celsius  float64            `json:"celsius,omitempty"`   // oven or core, as noted
	Minutes  float64            `json:"minutes,omitempty"`
	Notes    string             `json:"notes,omitempty"`
	WentWell string             `json:"went_well,omitempty"`
	WentBad  string             `json:"went_bad,omitempty"`
	NextTime string             `json:"next_time,omitempty"`
	Photos   []string           `json:"photos,omitempty"`    // content addresses of blocks
	SetAside string             `json:"set_aside,omitempty"` // reason; empty: kept
	Extra    map[string]float64 `json:"extra,omitempty"`     // further weights, by name
}

// CookedGrams returns the cooked weight that was served: full dish less empty
// dish less bones and shells; false if it was not weighed.
func (b *Batch) CookedGrams() (float64, bool) {
	if b.FullDish <= 0 {
		return 0, false
	}
	return b.FullDish - b.Dish - b.LeftOver, true
}

// Kind of a batch.
func (b *Batch) Kind() Kind { return KindOfBatch }

// Key of a batch.
func (b *Batch) Key() string { return string(b.ID) }
func (b *Batch) entity()     {}

// Meal is what one person eats together: dishes, and for a day meals as well.
// It is immutable once in a Book.
type Meal struct {
	ID     ID         `json:"id"`
	Name   string     `json:"name"`
	Day    bool       `json:"day,omitempty"` // a day: its total is held against the target
	Dishes []MealDish `json:"dishes,omitempty"`
	Meals  []ID       `json:"meals,omitempty"` // of a day, each once
	Order  float64    `json:"order,omitempty"`
}

// MealDish is so many servings of a version in a meal.
type MealDish struct {
	Recipe   ID      `json:"recipe"`
	Version  ID      `json:"version,omitempty"`
	Servings float64 `json:"servings"`
}

// Kind of a meal.
func (m *Meal) Kind() Kind { return KindOfMeal }

// Key of a meal.
func (m *Meal) Key() string { return string(m.ID) }
func (m *Meal) entity()     {}
