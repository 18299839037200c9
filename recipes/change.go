package recipes

import (
	"time"

	"parewell/recipes/words"
)

// Origin says who made a change; it decides whether undo may take it back.
type Origin string

// Origins of a change. Undo takes back those of the cook and of imports only.
const (
	ByCook     Origin = "cook"
	ByPanelist Origin = "panelist"
	ByImport   Origin = "import"
	ByOther    Origin = "other program"
)

// Edit is one entity before and after: nil Before is an addition, nil After a
// removal.
type Edit struct {
	Before, After Entity
}

// entityOf returns whichever side is there, for kind and key.
func (e Edit) entityOf() Entity {
	if e.After != nil {
		return e.After
	}
	return e.Before
}

// Change is one act of somebody's: what it is called and what it does to each
// entity. Final changes are never undone and never crossed by undo (starting
// to serve, a panelist's scores, closing a tasting, removing a person).
type Change struct {
	Label  words.Phrase
	Recipe ID // whose notebook it stands in; empty for none
	Final  bool
	Edits  []Edit

	// Correction marks a change to the record of a dish that was served: the pot
	// was the same (see Correct).
	Correction bool
}

// Empty tells whether the change does nothing.
func (c Change) Empty() bool { return len(c.Edits) == 0 }

// Inverse returns the change that takes c back: every edit turned round, last
// first.
func (c Change) Inverse() Change {
	out := Change{Label: c.Label, Recipe: c.Recipe, Edits: make([]Edit, len(c.Edits))}
	for i, e := range c.Edits {
		out.Edits[len(c.Edits)-1-i] = Edit{Before: e.After, After: e.Before}
	}
	return out
}

// Verb is a pure act: from a Book to the Change it means. It is run against
// the newest Book, and again if another program wrote meanwhile.
type Verb func(*Book) (Change, error)

// HistoryState is where an entry of the history stands.
type HistoryState string

// States of an entry: done and can be undone, undone and can be redone, or
// kept for the notebook alone.
const (
	HistoryDone   HistoryState = "done"
	HistoryUndone HistoryState = "undone"
	HistoryKept   HistoryState = "kept" // final, or its payload was let go
)

// HistoryEntry is a past change as the notebook lists it, newest last by Seq.
type HistoryEntry struct {
	Seq    int64
	At     time.Time
	Origin Origin
	State  HistoryState
	Recipe ID
	Label  words.Phrase
}
