package sensory

import (
	"cmp"
	"slices"
	"strconv"

	"parewell/recipes"
)

// Seats turns a design into the seats of a tasting: samples are its samples in
// the plan's order (S1 first), panelists who sits where, from the first seat on
// (an empty ID, or none: nobody yet).
func (d *Design) Seats(samples, panelists []recipes.ID) []recipes.Seat {
	out := make([]recipes.Seat, len(d.Trays))
	for i, tray := range d.Trays {
		s := recipes.Seat{Number: tray.Panelist}
		if i < len(panelists) {
			s.Panelist = panelists[i]
		}
		if tray.Reference >= 0 {
			s.Reference = samples[tray.Reference]
		}
		for j, x := range tray.Samples {
			s.Cups = append(s.Cups, recipes.Cup{Sample: samples[x], Code: tray.Codes[j]})
		}
		out[i] = s
	}
	return out
}

// SampleCode is the code of a sample as it is kept with it: the only one for
// liking and ranking, the first of its cups otherwise.
func (d *Design) SampleCode(sample int) string { return strconv.Itoa(d.Codes[sample][0]) }

// Unserved returns the design of a tasting as it stands, from its seats: what
// Append makes late tasters' trays from. Test, seed and number of samples are the
// tasting's.
func Unserved(t *recipes.Tasting, samples []recipes.ID) *Design {
	place := map[recipes.ID]int{}
	for i, id := range samples {
		place[id] = i
	}
	ask := Ask{Test: Test(t.Test), Samples: len(samples), Panelists: len(t.Seats), PerSitting: cmp.Or(t.PerSitting, len(samples)), Seed: t.Seed}
	d := &Design{Ask: ask, Codes: make([][]int, len(samples))}
	for _, s := range t.Seats {
		tray := Tray{Panelist: s.Number, Reference: -1}
		if s.Reference != "" {
			tray.Reference = place[s.Reference]
		}
		for _, c := range s.Cups {
			x := place[c.Sample]
			tray.Samples, tray.Codes = append(tray.Samples, x), append(tray.Codes, c.Code)
			if !slices.Contains(d.Codes[x], c.Code) {
				d.Codes[x] = append(d.Codes[x], c.Code)
			}
		}
		d.Trays = append(d.Trays, tray)
	}
	return d
}
