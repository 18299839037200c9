package recipes

import (
	"parewell/recipes/food"
)

// Swap is a named, reusable set of operations on the original of one recipe.
// It is immutable once in a Book; one ID always means the same change.
type Swap struct {
	ID     ID     `json:"id"`
	Recipe ID     `json:"recipe"`
	Name   string `json:"name"`
	Ops    []Op   `json:"ops"`
	// Ladder joins strengths of one swap (salt -15, -25, -40 %): swaps of the
	// same ladder are alternatives, in the order of Strength. Empty for none.
	Ladder   string  `json:"ladder,omitempty"`
	Strength float64 `json:"strength,omitempty"`

	// Typed marks a swap made by typing over a version's cell: typing there
	// again changes this swap instead of adding another.
	Typed bool `json:"typed,omitempty"`

	Idea      string  `json:"idea,omitempty"` // the catalogue entry it came from
	Function  string  `json:"function,omitempty"`
	WorksIn   string  `json:"works_in,omitempty"`
	FailsWhen string  `json:"fails_when,omitempty"`
	Note      string  `json:"note,omitempty"`
	Order     float64 `json:"order,omitempty"`
}

// OpKind is what an operation does.
type OpKind string

// The operations a swap may hold (DESIGN section 3). Line and Step are IDs of
// the original only.
const (
	OpExchange    OpKind = "exchange"     // Share of Line for Lines; Lines are given for the original's amount
	OpMultiply    OpKind = "multiply"     // amount of Line times Factor
	OpRemove      OpKind = "remove"       // Line leaves
	OpAdd         OpKind = "add"          // Lines join, at the end of Section
	OpPartEaten   OpKind = "part eaten"   // of Line becomes Part
	OpTechnique   OpKind = "technique"    // of Line becomes Technique
	OpState       OpKind = "state"        // of Line becomes State
	OpDish        OpKind = "dish"         // technique of the dish becomes Technique
	OpStepReplace OpKind = "step replace" // Step becomes Text
	OpStepAdd     OpKind = "step add"     // Text after Step (empty: at the end)
	OpStepDrop    OpKind = "step drop"    // Step leaves
)

// Op is one operation; the fields its kind does not use are zero.
type Op struct {
	Kind      OpKind     `json:"kind"`
	Line      ID         `json:"line,omitempty"`
	Step      ID         `json:"step,omitempty"`
	Share     float64    `json:"share,omitempty"`  // 0-1, of an exchange
	Factor    float64    `json:"factor,omitempty"` // of a multiply, 0 or above
	Lines     []*Line    `json:"lines,omitempty"`  // new lines; their IDs come from Settle
	Part      float64    `json:"part,omitempty"`
	Technique Technique  `json:"technique,omitzero"`
	State     food.State `json:"state,omitempty"`
	Text      string     `json:"text,omitempty"`
}

// SwapKind names what a swap mostly does, for its row on the Swaps page.
type SwapKind string

// Kinds of swap in the window's words.
const (
	KindReplace SwapKind = "replace"
	KindLess    SwapKind = "use less or leave out"
	KindAdd     SwapKind = "add"
	KindCook    SwapKind = "cook differently"
)

// Sort returns what the swap mostly does: an exchange makes it
// a replacement, else it uses less, else adds, else cooks differently.
func (s *Swap) Sort() SwapKind {
	rank := map[OpKind]int{OpExchange: 1, OpMultiply: 2, OpRemove: 2, OpAdd: 3}
	best := 4
	for _, o := range s.Ops {
		if r, ok := rank[o.Kind]; ok && r < best {
			best = r
		}
	}
	return [...]SwapKind{KindReplace, KindLess, KindAdd, KindCook}[best-1]
}

// Touches returns the IDs of the original's lines the swap addresses, each
// once, in the order of its operations.
func (s *Swap) Touches() []ID {
	var out []ID
	seen := map[ID]bool{}
	for _, o := range s.Ops {
		if o.Line != "" && !seen[o.Line] {
			seen[o.Line] = true
			out = append(out, o.Line)
		}
	}
	return out
}

// TouchesDish tells whether the swap changes how the whole dish is cooked.
func (s *Swap) TouchesDish() bool {
	for _, o := range s.Ops {
		if o.Kind == OpDish {
			return true
		}
	}
	return false
}

// settled returns a copy whose added lines carry their fixed IDs.
func (s *Swap) settled() *Swap {
	c := *s
	c.Ops = make([]Op, len(s.Ops))
	for i, o := range s.Ops {
		lines := make([]*Line, len(o.Lines))
		for j, l := range o.Lines {
			m := *l
			m.ID = addedLineID(s.ID, i, j)
			lines[j] = &m
		}
		if len(lines) > 0 {
			o.Lines = lines
		}
		c.Ops[i] = o
	}
	return &c
}
