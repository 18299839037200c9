package recipes

import "parewell/recipes/food"

// ServingsFrom says how sure the number that divides the dish is.
type ServingsFrom string

// Where the servings came from.
const (
	ServingsStated  ServingsFrom = "stated"
	ServingsRange   ServingsFrom = "range"   // "serves 4-6": the lower until answered
	ServingsAssumed ServingsFrom = "assumed" // none stated: counts as 1
)

// Recipe is a dish under development in one edition: the original that every
// version is compared with. It is immutable once in a Book.
type Recipe struct {
	ID       ID     `json:"id"`
	Title    string `json:"title"`
	Headnote string `json:"headnote,omitempty"`
	Edition  int    `json:"edition"` // from 1; a served original that changes starts the next

	Servings     float64      `json:"servings"` // that divide the dish; above 0
	ServingsHigh float64      `json:"servings_high,omitempty"`
	ServingsFrom ServingsFrom `json:"servings_from"`
	Makes        string       `json:"makes,omitempty"` // "12 muffins", as written

	Measures string    `json:"measures,omitempty"` // "us", "metric" or "imperial": what cup, pint and spoon mean
	Lines    []*Line   `json:"lines"`
	Steps    []*Step   `json:"steps"`
	Sections []Section `json:"sections,omitempty"` // what is said of headed sections; none for most
	Dish     Technique `json:"dish,omitzero"`      // how the whole is cooked
	Category string    `json:"category,omitempty"`
	Says     Says      `json:"says,omitzero"`    // what the cook says of the dish where words about it are judged
	Source   string    `json:"source,omitempty"` // where it came from, as pasted
	Brief    Brief     `json:"brief,omitzero"`
	Order    float64   `json:"order,omitempty"` // place in the list
	Print    Print     `json:"print,omitzero"`  // what goes into the book
}

// Print is what the cook chose of a recipe for the book.
type Print struct {
	Version ID     `json:"version,omitempty"`  // PrintOriginal, or a version; empty or gone: the newest
	LeftOut bool   `json:"left_out,omitempty"` // the recipe is not in the book
	Title   string `json:"title,omitempty"`    // over the page; empty: the recipe's
	Untold  []ID   `json:"untold,omitempty"`   // swaps whose notes on technique are not printed
}

// PrintOriginal stands for the original as the version that is printed.
const PrintOriginal ID = "original"

// Section is what the cook says of a headed section of the original: what it
// weighs by itself once cooked, and how much of it goes into the dish.
type Section struct {
	Name        string  `json:"name"`                   // the heading its lines stand under
	CookedGrams float64 `json:"cooked_grams,omitempty"` // of all of it, as the original makes it; 0 not weighed
	ShareUsed   float64 `json:"share_used"`             // 0-1; 1 when all of it is used
}

// Section returns what is said of a headed section; all of it is used where
// nothing is.
func (r *Recipe) Section(name string) Section {
	for _, s := range r.Sections {
		if s.Name == name {
			return s
		}
	}
	return Section{Name: name, ShareUsed: 1}
}

// Line returns the line with the ID, nil if there is none.
func (r *Recipe) Line(id ID) *Line {
	for _, l := range r.Lines {
		if l.ID == id {
			return l
		}
	}
	return nil
}

// Step returns the step with the ID, nil if there is none.
func (r *Recipe) Step(id ID) *Step {
	for _, s := range r.Steps {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// Brief is what the cook wants of the lighter dish, set before she starts.
type Brief struct {
	Keep    string   `json:"keep,omitempty"`    // what must stay: crisp top, smoke
	Cut     string   `json:"cut,omitempty"`     // what must come down, in words
	Targets []Target `json:"targets,omitempty"` // per serving
	Helping float64  `json:"helping,omitempty"` // grams a serving should weigh; 0 none
	Limit   float64  `json:"limit,omitempty"`   // acceptable drop in liking, scale points; 0 not set
}

// Says is what only the cook can say of a dish, for the page that judges claim
// words. Dish is the key of a dish category, Kind "food", "main dish" or "meal".
type Says struct {
	Dish    string            `json:"dish,omitempty"`
	Kind    string            `json:"kind,omitempty"`
	Liquid  bool              `json:"liquid,omitempty"`
	CupG    float64           `json:"cup_g,omitempty"`         // what 240 ml of the original weigh; 0 not known
	CupGVer float64           `json:"cup_g_version,omitempty"` // the same of a version; 0 as the original
	Answers map[string]string `json:"answers,omitempty"`       // by question: "yes" or "no"
}

// Target bounds one nutrient per serving: at most or at least Amount, in the
// nutrient's unit.
type Target struct {
	Nutrient food.Nutrient `json:"nutrient"`
	AtLeast  bool          `json:"at_least,omitempty"` // false: at most
	Amount   float64       `json:"amount"`
}

// Version is the original with some swaps on. It is immutable once in a Book.
type Version struct {
	ID       ID            `json:"id"`
	Recipe   ID            `json:"recipe"`
	Letter   string        `json:"letter"` // "A", "B" ...
	Name     string        `json:"name,omitempty"`
	Swaps    []ID          `json:"swaps"`              // on, sorted
	Servings float64       `json:"servings,omitempty"` // 0: the original's
	Joined   map[ID]string `json:"joined,omitempty"`   // the cook's own text where two swaps rewrite a step
	Note     string        `json:"note,omitempty"`
	Order    float64       `json:"order,omitempty"`
}

// Has tells whether the swap is on.
func (v *Version) Has(swap ID) bool {
	for _, s := range v.Swaps {
		if s == swap {
			return true
		}
	}
	return false
}
