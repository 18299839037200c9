package food

import "strings"

// Ref identifies a food row for ever: by table, release and number, never by
// name. The cook's own foods have Source "own" and a code made in the workbook.
type Ref struct {
	Source  string `json:"source"`            // "usda", "own", "fdc" ...
	Release string `json:"release,omitempty"` // "sr28"; empty for own foods
	Code    string `json:"code"`              // the table's number, leading zeros kept
}

// Zero tells whether no food is named.
func (r Ref) Zero() bool { return r.Code == "" }

// String gives "usda/sr28/01001".
func (r Ref) String() string {
	if r.Zero() {
		return ""
	}
	return r.Source + "/" + r.Release + "/" + r.Code
}

// ParseRef reads what String wrote; false if s is not of that form.
func ParseRef(s string) (Ref, bool) {
	p := strings.SplitN(s, "/", 3)
	if len(p) != 3 || p[0] == "" || p[2] == "" {
		return Ref{}, false
	}
	return Ref{Source: p[0], Release: p[1], Code: p[2]}, true
}

// Alias is another name of a food. A close alias names a food that is not the
// same but stands nearest in the table; Differs says what differs.
type Alias struct {
	Name    string `json:"name"`
	Close   bool   `json:"close,omitempty"`
	Differs string `json:"differs,omitempty"`
}

// Measure is a household, count or size measure: Grams is the weight of one of
// it, edible part only. Unit is the plain word ("cup", "tbsp", "clove",
// "large"); Detail narrows it ("chopped", "packed", "with skin").
type Measure struct {
	Unit   string  `json:"unit"`
	Detail string  `json:"detail,omitempty"`
	Grams  float64 `json:"grams"`
}

// Food is one row of a table or one of the cook's own. Values are per 100 g
// of the edible part. A Food is immutable once in a Table or Book.
type Food struct {
	Ref
	Name      string    `json:"name"`                // our plain name, or the cook's
	Published string    `json:"published,omitempty"` // the name in the published table
	Group     string    `json:"group,omitempty"`     // "dairy" ...
	Aliases   []Alias   `json:"aliases,omitempty"`
	Per100    Profile   `json:"per100"`
	Measures  []Measure `json:"measures,omitempty"`
	Density   float64   `json:"density,omitempty"` // g per ml; 0 is unknown
	Edible    float64   `json:"edible,omitempty"`  // share of an as-bought weight that is eaten, 0-1; 0 is unknown, taken as 1
	Swells    float64   `json:"swells,omitempty"`  // cooked weight of 1 g dry rice, pasta or pulse; 0 for all other foods
	State     State     `json:"state,omitempty"`   // what the row describes
	Allergens Allergens `json:"allergens"`
	Core      bool      `json:"core,omitempty"` // a common food: ranks first in search
	Note      string    `json:"note,omitempty"` // source line of an own food
}

// EdiblePart returns the edible share of an as-bought weight, 1 if unknown.
func (f *Food) EdiblePart() float64 {
	if f.Edible <= 0 {
		return 1
	}
	return f.Edible
}

// State says what was weighed; the empty State is not known.
type State string

// States a food can be weighed in.
const (
	Raw     State = "raw"
	Dry     State = "dry"
	Cooked  State = "cooked"
	Drained State = "drained"
	Frozen  State = "frozen"
)
