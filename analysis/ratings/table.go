package ratings

import "slices"

// Score is one score of one panelist for one sample.
type Score struct {
	Tasting, Panelist, Sample, Attribute string
	Value                                float64
	Pot                                  string // its name; "" the one pot of the tasting
	Replicate                            string // tells two scores of the same pot apart
	Position                             int    // in tasting order from 1; 0 not known
	Cook, Day                            string // of the pot; "" not known
	Line                                 int    // in the file, for messages; 0 none
}

// Swaps says which swaps are on in which sample. A sample whose row of On is nil
// is a dish that is no version: it is scored and compared but in no swap's effect.
type Swaps struct {
	Names   []string // of the swaps
	Samples []string
	On      [][]bool // by sample, then swap
}

// row is the place of a sample, -1 when it is not there.
func (s *Swaps) row(sample string) int { return slices.Index(s.Samples, sample) }

// Table is all that is analysed together. Nothing here changes it.
type Table struct {
	Scores []Score
	Swaps  *Swaps // nil: only samples are compared
	Blank  int    // rows without a score, left out
}

// Attributes lists what was scored, in order of appearance.
func (t *Table) Attributes() []string {
	var out []string
	seen := map[string]bool{}
	for i := range t.Scores {
		if a := t.Scores[i].Attribute; !seen[a] {
			seen[a] = true
			out = append(out, a)
		}
	}
	return out
}

// Samples lists what was scored, in order of appearance.
func (t *Table) Samples() []string {
	var out []string
	seen := map[string]bool{}
	for i := range t.Scores {
		if s := t.Scores[i].Sample; !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	return out
}
