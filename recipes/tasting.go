package recipes

import (
	"cmp"
	"slices"
	"strings"

	"parewell/recipes/food"
)

// Panelist is a person who tastes. It is immutable once in a Book.
type Panelist struct {
	ID         ID            `json:"id"`
	Code       string        `json:"code"` // initials or a code; the only name shown with scores
	Asked      bool          `json:"asked,omitempty"`
	Allergens  food.Allergen `json:"allergens,omitempty"` // meaningless unless Asked
	DoesNotEat []string      `json:"does_not_eat,omitempty"`
	Careful    Answer        `json:"careful,omitempty"` // pregnancy, age or illness: no alcohol, raw egg and the like
	Consent    string        `json:"consent,omitempty"` // date given, "" none
	Child      bool          `json:"child,omitempty"`   // Consent is then a guardian's
	Note       string        `json:"note,omitempty"`

	// Aside says of which tastings her scores are left out of the results, and why.
	Aside   map[ID]string `json:"aside,omitempty"`
	AsideOn map[ID]string `json:"aside_on,omitempty"` // the day that was done; none kept of old ones
	Removed bool          `json:"removed,omitempty"`  // details are gone; scores stay under the code
}

// Answer is what a person said to a question of yes or no.
type Answer string

// Answers. The empty one has not been asked.
const (
	NotAsked Answer = ""
	Yes      Answer = "yes"
	No       Answer = "no"
)

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

// Tests of a tasting beside those of analysis/sensory, whose names Tasting.Test
// shares.
const (
	TestLiking = "liking"
	TestHome   = "home" // taken home: four questions over time, from memory, not blind
	TestNotes  = "open" // without codes: notes, never scores
)

// Tasting is one sitting. It is immutable once in a Book.
type Tasting struct {
	ID         ID           `json:"id"`
	Recipe     ID           `json:"recipe"`
	Edition    int          `json:"edition"`
	Name       string       `json:"name,omitempty"`
	Date       string       `json:"date"`
	Time       string       `json:"time,omitempty"` // of serving, local "19:30"
	Test       string       `json:"test"`           // "liking", "triangle" ...
	Similar    bool         `json:"similar,omitempty"`
	State      TastingState `json:"state"`
	Attributes []Attribute  `json:"attributes,omitempty"` // what is asked of each sample, in order
	Limit      float64      `json:"limit,omitempty"`      // acceptable drop (points; a share for similarity), set before tasting
	Seed       uint64       `json:"seed,omitempty"`
	PerSitting int          `json:"per_sitting,omitempty"` // samples a taster gets; 0 all
	Seats      []Seat       `json:"seats,omitempty"`

	Cleanser  string   `json:"cleanser,omitempty"` // between samples; water when empty
	CleanFree bool     `json:"cleanser_checked,omitempty"`
	Cleans    Allergen `json:"cleanser_allergens,omitempty"`
	Portion   float64  `json:"portion,omitempty"` // g of each sample
	Spare     float64  `json:"spare,omitempty"`   // share cooked over and above, 0.1 a tenth
	Holds     float64  `json:"holds,omitempty"`   // longest minutes a sample may be held
	Celsius   float64  `json:"celsius,omitempty"` // served at
	Care      []string `json:"care,omitempty"`    // cautions that ask about pregnancy, age and illness
	Cooks     string   `json:"cooks,omitempty"`
	Codes     string   `json:"codes,omitempty"` // who set the codes
	Serves    string   `json:"serves,omitempty"`

	Note   string     `json:"note,omitempty"`
	Closed string     `json:"closed,omitempty"` // instant it was closed
	Early  string     `json:"early,omitempty"`  // why it was ended before all had answered
	Late   []LateNote `json:"late,omitempty"`   // scores and corrections after closing
	Peeked bool       `json:"peeked,omitempty"` // results were seen before more scores were added
}

// Allergen is a set of what foods may carry.
type Allergen = food.Allergen

// LateNote is one dated correction of a tasting, in words: what was corrected,
// what stood there before and what stands there now, and the reason given. All
// but the first two may be empty: nothing stood there, nothing does, none given.
type LateNote struct {
	At   string `json:"at"`
	What string `json:"what"`
	Was  string `json:"was,omitempty"`
	Is   string `json:"is,omitempty"`
	Why  string `json:"why,omitempty"`
}

// AttributeKind is what sort of answer an attribute takes.
type AttributeKind string

// Kinds of attribute.
const (
	AskLiking    AttributeKind = "liking"     // 1-9, dislike extremely to like extremely
	AskIntensity AttributeKind = "intensity"  // 1-9, not at all to very
	AskJustRight AttributeKind = "just-right" // 1-5, 3 is just about right
)

// Attribute is one thing asked of every sample.
type Attribute struct {
	Name string        `json:"name"` // as printed: "Creaminess"
	Kind AttributeKind `json:"kind"`
}

// Top returns the highest score of the attribute's scale; the lowest is 1.
func (a Attribute) Top() float64 {
	if a.Kind == AskJustRight {
		return 5
	}
	return 9
}

// Attribute finds what is asked under a name.
func (t *Tasting) Attribute(name string) (Attribute, bool) {
	for _, a := range t.Attributes {
		if a.Name == name {
			return a, true
		}
	}
	return Attribute{}, false
}

// Seat is one place at a tasting: its tray in tasting order, and who sits there.
type Seat struct {
	Number    int    `json:"number"`              // from 1, printed on the ballot
	Panelist  ID     `json:"panelist,omitempty"`  // empty: nobody yet
	Reference ID     `json:"reference,omitempty"` // sample served open, without a code
	Cups      []Cup  `json:"cups"`
	Late      bool   `json:"late,omitempty"` // laid after serving had begun: nobody planned it
	Away      string `json:"away,omitempty"` // why she did not come or left: her scores so far stay
}

// Cup is one glass, plate or bowl of a tray.
type Cup struct {
	Sample ID  `json:"sample"`
	Code   int `json:"code"` // 100-999
}

// Seat returns the seat of a number, nil if there is none.
func (t *Tasting) Seat(number int) *Seat {
	for i := range t.Seats {
		if t.Seats[i].Number == number {
			return &t.Seats[i]
		}
	}
	return nil
}

// SeatOf returns a panelist's seat, nil if she has none.
func (t *Tasting) SeatOf(panelist ID) *Seat {
	for i := range t.Seats {
		if t.Seats[i].Panelist == panelist && panelist != "" {
			return &t.Seats[i]
		}
	}
	return nil
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
	Pot     int     `json:"pot,omitempty"` // 1, 2: which cooking of the version; samples of one pot share it
	Code    string  `json:"code"`          // the code of all its cups; the first where every cup has its own
	Place   int     `json:"place,omitempty"`
	Cook    string  `json:"cook,omitempty"`
	Cooked  string  `json:"cooked,omitempty"`  // local date
	Celsius float64 `json:"celsius,omitempty"` // as served
	Held    float64 `json:"held,omitempty"`    // minutes between cooking and serving
	Served  *Served `json:"served,omitempty"`  // set when the first sample is served

	// DishAllergens are those of a benchmark dish; its recipe is not in the book.
	DishChecked   bool     `json:"dish_checked,omitempty"`
	DishAllergens Allergen `json:"dish_allergens,omitempty"`
}

// Kind of a sample.
func (s *Sample) Kind() Kind { return KindOfSample }

// Key of a sample.
func (s *Sample) Key() string { return string(s.ID) }
func (s *Sample) entity()     {}

// Served is what a sample was when it was served, frozen: lines and steps as
// composed, which swaps with a digest of each, the food rows they counted by.
// A correction of the record renews it and is listed in Corrected.
type Served struct {
	Servings  float64      `json:"servings"`
	Dish      Technique    `json:"dish,omitzero"`
	Lines     []ServedLine `json:"lines"`
	Steps     []string     `json:"steps,omitempty"`
	Swaps     []ServedSwap `json:"swaps,omitempty"`
	Foods     []*food.Food `json:"foods,omitempty"`
	Corrected []LateNote   `json:"corrected,omitempty"`
}

// ServedLine is one line as served, sub-recipes flattened.
type ServedLine struct {
	Name      string     `json:"name"`
	Food      food.Ref   `json:"food,omitzero"`
	Grams     float64    `json:"grams"`
	Known     bool       `json:"known"`
	Kind      LineKind   `json:"kind,omitempty"`
	PartEaten float64    `json:"part_eaten"`
	Uptake    *Uptake    `json:"uptake,omitempty"`
	Technique Technique  `json:"technique,omitzero"`
	State     food.State `json:"state,omitempty"`
}

// ServedSwap is a swap that was on, with a digest of what it did then.
type ServedSwap struct {
	ID     ID     `json:"id"`
	Digest string `json:"digest"`
}

// Source is how a serving came in.
type Source string

// Sources of servings.
const (
	FromPaper  Source = "paper"
	FromSecond Source = "second" // the same paper, typed a second time
	FromScreen Source = "screen"
	FromPhone  Source = "phone"
	FromFile   Source = "file"
)

// Serving is one panelist's answers on one sample, all attributes at once: the
// unit that is written. With an empty Sample it holds what is asked once of the
// whole tray: her choice in a test of trays, and the last question.
type Serving struct {
	ID       ID                 `json:"id"`
	Tasting  ID                 `json:"tasting"`
	Sample   ID                 `json:"sample,omitempty"`
	Panelist ID                 `json:"panelist"`
	Source   Source             `json:"source"`
	Position int                `json:"position,omitempty"`
	Date     string             `json:"date,omitempty"` // of a home test
	Scores   map[string]float64 `json:"scores"`
	Note     string             `json:"note,omitempty"`
	Dropped  string             `json:"dropped,omitempty"` // why it does not count
	Late     bool               `json:"late,omitempty"`    // after closing: a labelled correction
}

// Names of what is asked once of a whole tray; the answer is a code, 0 for none.
const (
	AskChoice = "choice" // odd one out, match, more, preferred: the code picked
	AskPair   = "pair"   // two pairs: the code that goes with the first cup
	AskRank   = "rank"   // of each sample: 1 the most liked
	AskUsual  = "usual"  // the last question: which was the usual recipe
)

// Questions of a dish taken home, from 0 (no, nothing) on.
const (
	AskAsWritten = "as written" // 1 made as written, 0 changed
	AskLeft      = "left"       // how much was left: 0 nothing, 1 some, 2 half or more
	AskAgain     = "again"      // 1 again, 0 not again
	AskMissed    = "missed"     // 1 something was missed, 0 nothing
)

// Counts tells whether the serving takes part in the results.
func (s *Serving) Counts() bool { return s.Dropped == "" }

// Kind of a serving.
func (s *Serving) Kind() Kind { return KindOfServing }

// Key of a serving.
func (s *Serving) Key() string { return string(s.ID) }
func (s *Serving) entity()     {}

// Tasting returns the tasting with the ID, nil if there is none.
func (b *Book) Tasting(id ID) *Tasting {
	if s := b.tastings[id]; s != nil {
		return s.tasting
	}
	return nil
}

// TastingsOf returns the tastings of a recipe by date.
func (b *Book) TastingsOf(recipe ID) []*Tasting {
	return slices.DeleteFunc(b.Tastings(), func(t *Tasting) bool { return t.Recipe != recipe })
}

// Sample returns a tasting's sample, nil if there is none.
func (b *Book) Sample(tasting, id ID) *Sample {
	if s := b.tastings[tasting]; s != nil {
		return s.samples[id]
	}
	return nil
}

// Panelist returns the taster with the ID, nil if there is none.
func (b *Book) Panelist(id ID) *Panelist { return b.people[id] }

// Panelists returns all tasters by code, removed ones last.
func (b *Book) Panelists() []*Panelist {
	out := make([]*Panelist, 0, len(b.people))
	for _, p := range b.people {
		out = append(out, p)
	}
	slices.SortFunc(out, func(x, y *Panelist) int {
		if x.Removed != y.Removed {
			if x.Removed {
				return 1
			}
			return -1
		}
		return cmp.Or(cmp.Compare(strings.ToLower(x.Code), strings.ToLower(y.Code)), cmp.Compare(x.ID, y.ID))
	})
	return out
}
