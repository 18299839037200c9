package recipes

import (
	"parewell/recipes/food"
)

// GramsFrom says how a line's grams were obtained, best first.
type GramsFrom string

// Ways to grams, in the order they are tried (DESIGN section 4).
const (
	GramsTyped     GramsFrom = "typed"     // the cook gave the grams herself
	GramsWeight    GramsFrom = "weight"    // a weight stands in the text
	GramsHousehold GramsFrom = "household" // a household measure of that food
	GramsDensity   GramsFrom = "density"   // volume times density
	GramsCount     GramsFrom = "count"     // a count or size measure of that food
	GramsDefault   GramsFrom = "default"   // a stated default (pinch, knob, for greasing)
	GramsUnknown   GramsFrom = "unknown"   // nothing to go by: unknown, never zero
)

// LineKind tells an ingredient from something that leaves with its own make-up.
type LineKind string

// Kinds of line; the empty kind is an ingredient.
const (
	Ingredient LineKind = ""
	TakenOff   LineKind = "taken off" // fat poured off, whey, squeezed water: subtracted
)

// Doubt is something about a line that is not sure. Kind is a code (words has
// its sentence), Args fill the sentence.
type Doubt struct {
	Kind DoubtKind `json:"kind"`
	Args []string  `json:"args,omitempty"`
}

// DoubtKind is a stable code for why a line is marked.
type DoubtKind string

// The doubts a reading can raise.
const (
	DoubtFood      DoubtKind = "food"       // the best match is not certain
	DoubtClose     DoubtKind = "close"      // a neighbour stands in: Args[0] says what differs
	DoubtNoFood    DoubtKind = "no food"    // nothing matched
	DoubtAmount    DoubtKind = "amount"     // no amount found
	DoubtToTaste   DoubtKind = "to taste"   // unknown until weighed
	DoubtTooMuch   DoubtKind = "too much"   // heavier than any kitchen weighs: not counted
	DoubtRange     DoubtKind = "range"      // a range: the middle was taken
	DoubtChoice    DoubtKind = "choice"     // "butter or oil": the first was taken
	DoubtDefault   DoubtKind = "default"    // grams are a stated default
	DoubtPartEaten DoubtKind = "part eaten" // a share eaten was assumed
	DoubtState     DoubtKind = "state"      // raw, dry or cooked? not said
	DoubtMeasure   DoubtKind = "measure"    // the unit does not fit the food
	DoubtPack      DoubtKind = "pack"       // a pack of unknown size
	DoubtDrained   DoubtKind = "drained"    // drained weight was assumed
	DoubtCooked    DoubtKind = "cooked"     // cooked by its own words: weighed before or after? Args[0] is the way
	DoubtSalted    DoubtKind = "salted"     // boiled in salted water whose salt no line tells of
	DoubtPoured    DoubtKind = "poured off" // fat of Args[0] is poured off and still counted
)

// Line is one ingredient line of a recipe. It is immutable once in a Book.
type Line struct {
	ID      ID       `json:"id"`
	Kind    LineKind `json:"kind,omitempty"`
	Section string   `json:"section,omitempty"` // heading it stands under, "" for none
	Text    string   `json:"text"`              // as written
	Name    string   `json:"name,omitempty"`    // the ingredient, without amount and preparation
	Prep    string   `json:"prep,omitempty"`    // "finely chopped"

	Amount float64 `json:"amount,omitempty"` // as written, 0 when none is
	High   float64 `json:"high,omitempty"`   // upper end of a range, else 0
	Unit   string  `json:"unit,omitempty"`   // canonical unit word ("cup", "g", "clove"), "" for a count

	Grams     float64   `json:"grams,omitempty"`      // as written; meaningless when GramsFrom is unknown
	GramsFrom GramsFrom `json:"grams_from"`           // how Grams were obtained
	GramsNote string    `json:"grams_note,omitempty"` // "1 cup = 238 g"
	AsBought  bool      `json:"as_bought,omitempty"`  // weight with peel, bone or shell: the edible part applies

	Food      food.Ref   `json:"food,omitzero"`      // the pinned row; zero when unknown
	Sub       *SubRecipe `json:"sub,omitempty"`      // instead of Food: another recipe's version
	State     food.State `json:"state,omitempty"`    // what was weighed
	Uptake    *Uptake    `json:"uptake,omitempty"`   // of a marinade, brine or cooking water; instead of PartEaten
	OffOf     ID         `json:"off_of,omitempty"`   // of a taken-off line: the ingredient it came out of
	PartEaten float64    `json:"part_eaten"`         // 0-1; 1 for nearly all
	Technique Technique  `json:"technique,omitzero"` // how it is cooked, when it differs from the dish
	Doubts    []Doubt    `json:"doubts,omitempty"`   // what is not sure; empty when settled
	Settled   bool       `json:"settled,omitempty"`  // the cook has looked and accepted
	Note      string     `json:"note,omitempty"`
}

// SubRecipe names another recipe's version as an ingredient: Grams of its
// cooked weight, or Servings, or Batches of it; exactly one is above zero.
type SubRecipe struct {
	Recipe   ID      `json:"recipe"`
	Version  ID      `json:"version,omitempty"` // empty: the original
	Grams    float64 `json:"grams,omitempty"`
	Servings float64 `json:"servings,omitempty"`
	Batches  float64 `json:"batches,omitempty"`
}

// Technique is how a line or a dish is cooked. The zero Technique is not stated.
type Technique struct {
	Method  string  `json:"method,omitempty"`  // "boiled, drained", "baked" ...; raw food is "raw"
	Minutes float64 `json:"minutes,omitempty"` // 0 when not stated
}

// Uptake says how much of a marinade, brine or cooking water is eaten, apart for
// what each share is different for: 0-1 of its water (and all dissolved in it
// but salt), of its salt and minerals, and of its fat.
type Uptake struct {
	Water float64 `json:"water"`
	Salt  float64 `json:"salt"`
	Fat   float64 `json:"fat"`
}

// Known tells whether the line's grams are known.
func (l *Line) Known() bool { return l.GramsFrom != GramsUnknown && l.GramsFrom != "" }

// Status is matched, check or unknown (DESIGN section 10): unknown when the
// line has no food, check when something is in doubt and not settled.
func (l *Line) Status() Status {
	switch {
	case l.Food.Zero() && l.Sub == nil:
		return StatusUnknown
	case len(l.Doubts) > 0 && !l.Settled, !l.Known() && !l.Settled:
		return StatusCheck
	}
	return StatusMatched
}

// Status of a line's reading.
type Status string

// The three statuses of compare's JSON.
const (
	StatusMatched Status = "matched"
	StatusCheck   Status = "check"
	StatusUnknown Status = "unknown"
)

// Step is one method step.
type Step struct {
	ID   ID     `json:"id"`
	Text string `json:"text"`
}
