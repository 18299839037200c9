package sensory

import "strings"

// maxSamples is how many samples one design holds.
const maxSamples = 12

// completeOrders gives n tasters orders of all t samples: places and first
// neighbours as equal as the numbers allow (bestAfter), in random guise. Exact
// parts come first, so that a sitting that stops early is still nearly even.
func completeOrders(t, n int, d *dice) [][]int {
	var parts [][][]int
	if t%2 == 1 {
		parts = oddParts(t, n)
	} else {
		square := Square(t)
		parts = repeat(square, n/t)
		rest := make([][]int, 0, n%t)
		for _, i := range d.perm(t)[:n%t] {
			rest = append(rest, square[i])
		}
		parts = append(parts, part(rest)...)
	}
	var out [][]int
	for _, p := range parts {
		out = append(out, disguise(p, t, d)...)
	}
	return out
}

// disguise relabels the samples of a part at random, turns all its orders round
// or none, and puts them in random order. No count of a part is more or less
// even for it.
func disguise(rows [][]int, t int, d *dice) [][]int {
	names := d.perm(t)
	turn := d.below(2) == 1
	out := make([][]int, len(rows))
	for i, r := range rows {
		out[i] = make([]int, len(r))
		for p, x := range r {
			if turn {
				p = len(r) - 1 - p
			}
			out[i][p] = names[x]
		}
	}
	shuffle(d, out)
	return out
}

func repeat(rows [][]int, times int) [][][]int {
	var out [][][]int
	for range times {
		out = append(out, rows)
	}
	return out
}

// part is no part for no rows.
func part(rows [][]int) [][][]int {
	if len(rows) == 0 {
		return nil
	}
	return [][][]int{rows}
}

// sequences are the ways to set a tray of two samples A and B, each used equally
// often, in an order whose every beginning is as even as it can be: ISO 4120
// (triangle), ISO 10399 (duo-trio, "A:BA" is reference A, then B and A), ASTM
// E3009 (tetrad), ISO 5495 (2-AFC).
func sequences(t Test, constantReference bool) []string {
	switch t {
	case Triangle:
		return []string{"AAB", "BAB", "BAA", "BBA", "ABA", "ABB"}
	case DuoTrio:
		if constantReference {
			return []string{"A:AB", "A:BA"}
		}
		return []string{"A:AB", "B:AB", "A:BA", "B:BA"}
	case Tetrad:
		return []string{"AABB", "BBAA", "ABAB", "BABA", "ABBA", "BAAB"}
	case ThreeAFC: // B is the one that has more
		return []string{"AAB", "ABA", "BAA"}
	}
	return []string{"AB", "BA"}
}

// trayOrders deals the sequences to n tasters after the first have: each
// equally often, those left over as even as they can be. Which sample is A, and
// which glass stands first, is drawn from the seed and the same for late ones.
func trayOrders(a Ask, n, have int, d *dice) []string {
	all := sequences(a.Test, a.ConstantReference)
	guise := newDice(a.Seed, streamOrders)
	flip := guise.below(2) == 1 && !a.ConstantReference && a.Test != ThreeAFC
	_, glasses := cutReference(all[0])
	places := guise.perm(len(glasses))
	var out []string
	for len(out) < n {
		from := have % len(all)
		deal := append([]string(nil), all[from:min(len(all), from+n-len(out))]...)
		have += len(deal)
		shuffle(d, deal)
		for _, s := range deal {
			out = append(out, guised(s, flip, places))
		}
	}
	return out
}

// cutReference parts "A:BA" into the reference and the glasses; the reference
// is "" where there is none.
func cutReference(s string) (reference, glasses string) {
	if before, after, ok := strings.Cut(s, ":"); ok {
		return before, after
	}
	return "", s
}

// guised writes A for B and B for A, and puts the glasses in other places.
func guised(s string, flip bool, places []int) string {
	reference, glasses := cutReference(s)
	b := []byte(glasses)
	for i, p := range places {
		b[i] = glasses[p]
	}
	if reference != "" {
		b = append([]byte(reference+":"), b...)
	}
	for i, c := range b {
		if flip && c != ':' {
			b[i] = 'A' + 'B' - c
		}
	}
	return string(b)
}
