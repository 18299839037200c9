package sensory

import (
	"slices"
	"strconv"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Ask is what a tasting is planned from.
type Ask struct {
	Test       Test
	Samples    int    // S1...Sn, S1 the original
	Panelists  int    // 1-maxPanelists
	PerSitting int    // samples a taster gets; 0: all
	Seed       uint64 // same seed, same design

	OriginalAlways    bool // incomplete blocks: everybody gets S1
	ConstantReference bool // duo-trio: the open sample is always S1
}

// maxPanelists keeps one plan within one day's cooking and within the budget of
// time.
const maxPanelists = 500

// Tray is what one taster gets, in the order it is tasted. Samples are counted
// from 0.
type Tray struct {
	Panelist  int // from 1
	Reference int // the open sample of a duo-trio, without a code; -1: none
	Samples   []int
	Codes     []int // one a glass, 100-999
}

// Design is a planned tasting. Where codes meet samples it is for the kitchen
// only.
type Design struct {
	Ask   Ask
	Codes [][]int // of each sample; one for liking and ranking, one a glass otherwise
	Trays []Tray
}

// Plan designs a tasting: codes and serving orders. Errors name the field of
// the question that does not fit.
func Plan(a Ask) (*Design, error) {
	a, err := a.checked()
	if err != nil {
		return nil, err
	}
	orders := newDice(a.Seed, streamOrders)
	d := &Design{Ask: a}
	if a.Test.Counts() {
		d.Codes = make([][]int, 2)
		d.Trays = setTrays(a, a.Panelists, 0, newDice(a.Seed, streamOrders))
		codeGlasses(d.Codes, d.Trays, newDice(a.Seed, streamCodes))
		return d, nil
	}
	d.Codes = codesOfSamples(a.Samples, newDice(a.Seed, streamCodes))
	var rows [][]int
	if a.PerSitting < a.Samples {
		rows = incompleteBlocks(a.Samples, a.PerSitting, a.Panelists, a.OriginalAlways, nil, orders)
		rows = arrange(rows, nil, a.OriginalAlways, orders)
		shuffle(orders, rows)
	} else {
		rows = completeOrders(a.Samples, a.Panelists, orders)
	}
	d.Trays = d.laid(rows, 0)
	return d, nil
}

// laid puts codes to orders, for tasters after the first have.
func (d *Design) laid(rows [][]int, have int) []Tray {
	out := make([]Tray, len(rows))
	for i, r := range rows {
		out[i] = Tray{Panelist: have + i + 1, Reference: -1, Samples: r, Codes: make([]int, len(r))}
		for j, s := range r {
			out[i].Codes[j] = d.Codes[s][0]
		}
	}
	return out
}

// setTrays sets trays of two samples for n tasters after the first have;
// glasses have no codes yet.
func setTrays(a Ask, n, have int, d *dice) []Tray {
	out := make([]Tray, n)
	for i, s := range trayOrders(a, n, have, d) {
		reference, glasses := cutReference(s)
		out[i] = Tray{Panelist: have + i + 1, Reference: -1}
		if reference != "" {
			out[i].Reference = int(reference[0] - 'A')
		}
		for _, g := range glasses {
			out[i].Samples = append(out[i].Samples, int(g-'A'))
		}
	}
	return out
}

// checked fills in what is left open and refuses what cannot be planned.
func (a Ask) checked() (Ask, error) {
	if _, err := ParseTest(string(a.Test)); err != nil {
		return a, err
	}
	if a.PerSitting == 0 {
		a.PerSitting = a.Samples
	}
	switch {
	case a.Panelists < 1 || a.Panelists > maxPanelists:
		return a, refuse("panelists", "sensory.bad.panelists", maxPanelists)
	case a.Test.Counts() && a.Samples != 2:
		return a, refuse("samples", "sensory.bad.two", string(a.Test))
	case a.Samples < 2 || a.Samples > maxSamples:
		return a, refuse("samples", "sensory.bad.samples", maxSamples)
	case a.Test.Counts() && a.PerSitting != 2:
		return a, refuse("per-sitting", "sensory.bad.two", string(a.Test))
	case a.PerSitting < 2 || a.PerSitting > a.Samples:
		return a, refuse("per-sitting", "sensory.bad.per-sitting", a.Samples)
	case a.ConstantReference && a.Test != DuoTrio:
		return a, refuse("same-reference", "sensory.bad.reference")
	}
	return a, nil
}

// refuse makes the error of one field; its hint is optional.
func refuse(where, key string, args ...any) error {
	return problem.New(where, words.Say(key, args...), "")
}

// Append returns the design with more tasters, keeping it as even as the orders
// already given allow. unserved names tasters of whom nothing has been served:
// the first late ones take their trays, codes and all, which no one has seen.
// A taster who left part-way keeps her place in the counts.
func (d *Design) Append(more int, unserved ...int) (*Design, error) {
	if more < 0 || len(d.Trays)+more > maxPanelists {
		return nil, refuse("panelists", "sensory.bad.panelists", maxPanelists)
	}
	out := &Design{Ask: d.Ask, Codes: copied(d.Codes), Trays: slices.Clone(d.Trays)}
	next := 0
	for _, t := range d.Trays {
		next = max(next, t.Panelist)
	}
	for _, who := range unserved {
		at := slices.IndexFunc(out.Trays, func(t Tray) bool { return t.Panelist == who })
		if at < 0 {
			return nil, refuse("panelist "+strconv.Itoa(who), "sensory.bad.panelist")
		}
		if more == 0 {
			break
		}
		next++
		more--
		out.Trays[at].Panelist = next
	}
	out.Trays = append(out.Trays, out.late(more, next)...)
	return out, nil
}

// late makes trays for tasters after number last.
func (d *Design) late(more, last int) []Tray {
	if more == 0 {
		return nil
	}
	a := d.Ask
	turn := streamLate + uint64(len(d.Trays))<<32 // each lateness draws anew
	draw := newDice(a.Seed, turn)
	if a.Test.Counts() {
		trays := setTrays(a, more, len(d.Trays), draw)
		codeGlasses(d.Codes, trays, draw)
		return renumbered(trays, last)
	}
	fixed := make([][]int, len(d.Trays))
	for i, t := range d.Trays {
		fixed[i] = t.Samples
	}
	var rows [][]int
	if a.PerSitting < a.Samples {
		rows = incompleteBlocks(a.Samples, a.PerSitting, more, a.OriginalAlways, fixed, draw)
	} else {
		for range more {
			rows = append(rows, draw.perm(a.Samples))
		}
	}
	return d.laid(arrange(rows, fixed, a.OriginalAlways, draw), last)
}

func renumbered(trays []Tray, last int) []Tray {
	for i := range trays {
		trays[i].Panelist = last + i + 1
	}
	return trays
}

// Without returns the design as it was served when some tasters did not come:
// their trays are left out of every count.
func (d *Design) Without(panelists ...int) *Design {
	out := &Design{Ask: d.Ask, Codes: d.Codes}
	for _, t := range d.Trays {
		if !slices.Contains(panelists, t.Panelist) {
			out.Trays = append(out.Trays, t)
		}
	}
	return out
}
