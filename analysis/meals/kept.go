package meals

import (
	"encoding/json"

	"parewell/recipes"
)

// BodySetting is the name of the workbook setting that keeps body measures. It
// is there only when the cook chose to keep them, and is private: copies for
// others leave it out.
const BodySetting = recipes.BodyMeasures

// Kept is what the setting holds.
type Kept struct {
	Person Person `json:"person"`
	Method Method `json:"method"`
}

// Encode writes the setting's value.
func (k Kept) Encode() string {
	b, err := json.Marshal(k)
	if err != nil {
		return "" // not a number somewhere: nothing worth keeping
	}
	return string(b)
}

// ReadKept reads the setting's value; false when it holds none.
func ReadKept(value string) (Kept, bool) {
	var k Kept
	if value == "" || json.Unmarshal([]byte(value), &k) != nil {
		return Kept{}, false
	}
	return k, true
}

// Offer is the target of what was kept. Only those who answered the question
// with no may keep their measures.
func (k Kept) Offer() Offer { return OfferTo(k.Person, NoneOfIt, k.Method) }
