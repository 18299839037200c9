package recipes

import "parewell/recipes/food"

// Panelist is a person who tastes. It is immutable once in a Book.
type Panelist struct {
	ID         ID            `json:"id"`
	Code       string        `json:"code"` // initials or a code; the only name shown with scores
	Allergens  food.Allergen `json:"allergens,omitempty"`
	DoesNotEat []string      `json:"does_not_eat,omitempty"`
	Consent    string        `json:"consent,omitempty"` // date given, "" none
	Note       string        `json:"note,omitempty"`
}

// Kind of a panelist.
func (p *Panelist) Kind() Kind { return KindOfPanelist }

// Key of a panelist.
func (p *Panelist) Key() string { return string(p.ID) }
func (p *Panelist) entity()     {}

// TastingState is how far a tasting has come; it only moves forward.
type TastingState string

// States of a tasting.
const (
	TastingPlanned TastingState = "planned"
	TastingServing TastingState = "serving"
	TastingClosed  TastingState = "closed"
)

// Tasting is one sitting. It is immutable once in a Book.
type Tasting struct {
	ID         ID           `json:"id"`
	Recipe     ID           `json:"recipe"`
	Edition    int          `json:"edition"`
	Name       string       `json:"name,omitempty"`
	Date       string       `json:"date"`
	Test       string       `json:"test"` // "liking", "triangle" ...
	State      TastingState `json:"state"`
	Attributes []string     `json:"attributes,omitempty"`
	Limit      float64      `json:"limit,omitempty"` // acceptable drop, set before tasting
	Seed       uint64       `json:"seed,omitempty"`
}

// Kind of a tasting.
func (t *Tasting) Kind() Kind { return KindOfTasting }

// Key of a tasting.
func (t *Tasting) Key() string { return string(t.ID) }
func (t *Tasting) entity()     {}

// Sample is one batch of one version, or a benchmark dish, served in a tasting.
type Sample struct {
	ID      ID      `json:"id"`
	Tasting ID      `json:"tasting"`
	Batch   ID      `json:"batch,omitempty"`
	Version ID      `json:"version,omitempty"` // empty: the original, unless Dish names a benchmark
	Dish    string  `json:"dish,omitempty"`
	Code    string  `json:"code"`
	Served  *Served `json:"served,omitempty"` // set when the first sample is served
}

// Kind of a sample.
func (s *Sample) Kind() Kind { return KindOfSample }

// Key of a sample.
func (s *Sample) Key() string { return string(s.ID) }
func (s *Sample) entity()     {}

// Served is what a sample was when it was served, frozen: lines and steps as
// composed, which swaps with a digest of each, the food rows they counted by.
type Served struct {
	Servings float64            `json:"servings"`
	Lines    []ServedLine       `json:"lines"`
	Steps    []string           `json:"steps,omitempty"`
	Swaps    []ServedSwap       `json:"swaps,omitempty"`
	Foods    []*food.Food       `json:"foods,omitempty"`
	Notes    map[string]float64 `json:"notes,omitempty"`
}

// ServedLine is one line as served, sub-recipes flattened.
type ServedLine struct {
	Text      string   `json:"text"`
	Food      food.Ref `json:"food,omitzero"`
	Grams     float64  `json:"grams"`
	Known     bool     `json:"known"`
	PartEaten float64  `json:"part_eaten"`
}

// ServedSwap is a swap that was on, with a digest of what it did then.
type ServedSwap struct {
	ID     ID     `json:"id"`
	Digest string `json:"digest"`
}

// Serving is one panelist's answers on one sample, all attributes at once:
// the unit that is written.
type Serving struct {
	ID       ID                 `json:"id"`
	Tasting  ID                 `json:"tasting"`
	Sample   ID                 `json:"sample"`
	Panelist ID                 `json:"panelist"`
	Source   string             `json:"source"` // "paper", "screen", "phone", "file"
	Position int                `json:"position,omitempty"`
	Scores   map[string]float64 `json:"scores"`
	Note     string             `json:"note,omitempty"`
}

// Kind of a serving.
func (s *Serving) Kind() Kind { return KindOfServing }

// Key of a serving.
func (s *Serving) Key() string { return string(s.ID) }
func (s *Serving) entity()     {}
