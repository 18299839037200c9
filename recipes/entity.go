package recipes

import (
	"bytes"
	"encoding/json"

	"parewell/recipes/food"
	"parewell/recipes/problem"
)

// Kind names a sort of entity; it is the table it is stored in.
type Kind string

// Kinds of entity.
const (
	KindOfRecipe   Kind = "recipe"
	KindOfSwap     Kind = "swap"
	KindOfVersion  Kind = "version"
	KindOfBatch    Kind = "batch"
	KindOfFood     Kind = "food"
	KindOfChoice   Kind = "choice"
	KindOfPanelist Kind = "panelist"
	KindOfTasting  Kind = "tasting"
	KindOfSample   Kind = "sample"
	KindOfServing  Kind = "serving"
	KindOfMeal     Kind = "meal"
	KindOfSetting  Kind = "setting"
	KindOfRelease  Kind = "release"
)

// Entity is one stored thing: a value of one of the kinds above, by pointer,
// never changed once in a Book. The set is sealed.
type Entity interface {
	Kind() Kind
	Key() string // unique within its kind
	entity()
}

// Kind of a recipe.
func (r *Recipe) Kind() Kind { return KindOfRecipe }

// Key of a recipe.
func (r *Recipe) Key() string { return string(r.ID) }
func (r *Recipe) entity()     {}

// Kind of a swap (the entity's, not what it does: that is Sort).
func (s *Swap) Kind() Kind { return KindOfSwap }

// Key of a swap.
func (s *Swap) Key() string { return string(s.ID) }
func (s *Swap) entity()     {}

// Kind of a version.
func (v *Version) Kind() Kind { return KindOfVersion }

// Key of a version.
func (v *Version) Key() string { return string(v.ID) }
func (v *Version) entity()     {}

// PinnedFood is a food row kept in the workbook: pinned by the lines that use
// it, or one of the cook's own; with what she pays for it, if she said so.
type PinnedFood struct {
	food.Food
	Price *Price `json:"price,omitempty"`
}

// Price is what so many grams of a food cost as bought, in the workbook's money.
type Price struct {
	Money float64 `json:"money"`
	Grams float64 `json:"grams"`
}

// PerGram returns the price of one gram as bought.
func (p *Price) PerGram() float64 { return p.Money / p.Grams }

// Kind of a pinned food.
func (f *PinnedFood) Kind() Kind { return KindOfFood }

// Key of a pinned food.
func (f *PinnedFood) Key() string { return f.Ref.String() }
func (f *PinnedFood) entity()     {}

// Choice remembers what the cook decided of an ingredient's name, so that the
// next recipe reads it the same way.
type Choice struct {
	Name  string             `json:"name"` // normalised by the reader
	Food  food.Ref           `json:"food"`
	Grams map[string]float64 `json:"grams,omitempty"` // per one of a unit, where she gave it
}

// Kind of a choice.
func (c *Choice) Kind() Kind { return KindOfChoice }

// Key of a choice.
func (c *Choice) Key() string { return c.Name }
func (c *Choice) entity()     {}

// Setting is one named value of the workbook ("units", "language of numbers").
type Setting struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Kind of a setting.
func (s *Setting) Kind() Kind { return KindOfSetting }

// Key of a setting.
func (s *Setting) Key() string { return s.Name }
func (s *Setting) entity()     {}

// blank returns an empty entity of a kind, nil for a kind that is none.
func blank(k Kind) Entity {
	switch k {
	case KindOfRecipe:
		return &Recipe{}
	case KindOfSwap:
		return &Swap{}
	case KindOfVersion:
		return &Version{}
	case KindOfBatch:
		return &Batch{}
	case KindOfFood:
		return &PinnedFood{}
	case KindOfChoice:
		return &Choice{}
	case KindOfPanelist:
		return &Panelist{}
	case KindOfTasting:
		return &Tasting{}
	case KindOfSample:
		return &Sample{}
	case KindOfServing:
		return &Serving{}
	case KindOfMeal:
		return &Meal{}
	case KindOfSetting:
		return &Setting{}
	case KindOfRelease:
		return &Release{}
	}
	return nil
}

// EncodeEntity writes an entity as canonical JSON: the same value always gives
// the same bytes. Nil gives nil.
func EncodeEntity(e Entity) ([]byte, error) {
	if e == nil {
		return nil, nil
	}
	return json.Marshal(e)
}

// DecodeEntity reads what EncodeEntity wrote.
func DecodeEntity(k Kind, b []byte) (Entity, error) {
	e := blank(k)
	if e == nil {
		return nil, problem.New("", "the kind of entry "+string(k)+" is not known", "open the workbook with a newer program")
	}
	if err := json.Unmarshal(b, e); err != nil {
		return nil, err
	}
	return e, nil
}

// Same tells whether two entities hold the same value; nil equals only nil.
func Same(a, b Entity) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	if a == b {
		return true
	}
	if a.Kind() != b.Kind() || a.Key() != b.Key() {
		return false
	}
	x, errX := EncodeEntity(a)
	y, errY := EncodeEntity(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}
