package sensory

// oddSet holds what an odd number of samples needs beyond Williams' pair of
// squares. All was found by computer search and is checked by the tests; any
// set with the same counts would do.
type oddSet struct {
	// pair is two exactly balanced squares (2t orders) that hold as many orders
	// as possible any two of which are apart: two first rows to develop, or the
	// orders themselves.
	pair []string
	// triple is the first rows of three squares that are exactly balanced
	// together, so that three or five times t tasters can be served exactly.
	triple []string
	// few holds orders for small panels that neither adding to nor taking from
	// exact sets can serve best, by number of tasters.
	few map[int][]string
}

var oddSets = map[int]oddSet{
	3: {
		pair: []string{"012", "120", "201", "021", "210", "102"},
		few:  map[int][]string{2: {"012", "120"}, 3: {"012", "120", "201"}, 4: {"012", "120", "201", "021"}},
	},
	5: {
		pair:   []string{"23140", "42013", "04321", "12430", "13204", "01423", "34102", "40312", "21034", "30241"},
		triple: []string{"03124", "01432", "02134"},
		few: map[int][]string{
			4: {"04321", "23140", "42013", "10234"},
			5: {"41032", "24103", "02314", "13240", "30421"},
			6: {"34012", "03241", "42103", "21304", "31420", "10234"},
		},
	},
	7: {
		pair:   []string{"0614532", "0462315"},
		triple: []string{"0635421", "0316245", "0256341"},
		few: map[int][]string{
			6: {"1325640", "5063412", "3146025", "4201536", "0452163", "2610354"},
			7: {"1034265", "4601523", "5320614", "0452136", "6243051", "3165402", "2516340"},
			8: {"6102534", "5642130", "5463201", "4031652", "2356041", "1245063", "3620415", "0514326"},
		},
	},
	9: {
		pair:   []string{"068237541", "057126438"},
		triple: []string{"018267543", "074621583", "058127463"},
	},
	11: {
		pair:   []string{"038A2615497", "08972A65134"},
		triple: []string{"0371528469A", "08795621A43", "01372A58649"},
	},
}

// developed gives the squares of first rows.
func developed(rows []string) [][]int {
	var out [][]int
	for _, r := range rows {
		out = append(out, develop(orderOf(r))...)
	}
	return out
}

// written gives orders as they stand.
func written(rows []string) [][]int {
	out := make([][]int, len(rows))
	for i, r := range rows {
		out[i] = orderOf(r)
	}
	return out
}

func (s oddSet) pairOrders() [][]int {
	if len(s.pair) == 2 {
		return developed(s.pair)
	}
	return written(s.pair)
}

// orderOf reads "0A31...": one sign a sample.
func orderOf(s string) []int {
	out := make([]int, len(s))
	for i, c := range s {
		out[i] = int(c - '0')
		if c >= 'A' {
			out[i] = int(c-'A') + 10
		}
	}
	return out
}

// oddParts gives orders for n tasters and an odd number t of samples as parts
// that may each be relabelled by itself: exactly balanced parts, and one that
// is as near as it can be.
func oddParts(t, n int) [][][]int {
	set := oddSets[t]
	pair := set.pairOrders()
	if t == 3 {
		return append(repeat(pair, n/6), part(few(set, pair, n%6))...)
	}
	q, r := n/t, n%t
	if q < 2 {
		return part(few(set, pair, n))
	}
	if extra := apartRows(pair, r); r > 0 && extra != nil {
		return append(exactParts(set, pair, q), take(pair, extra, true))
	}
	if r == 0 {
		return exactParts(set, pair, q)
	}
	parts := exactParts(set, pair, q+1)
	last := parts[len(parts)-1]
	parts[len(parts)-1] = take(last, apartRows(last, t-r), false)
	return parts
}

// exactParts are q squares that are exactly balanced together, q >= 2.
func exactParts(set oddSet, pair [][]int, q int) [][][]int {
	if q%2 == 0 {
		return repeat(pair, q/2)
	}
	return append(repeat(pair, (q-3)/2), developed(set.triple))
}

// few gives orders for fewer tasters than two squares serve.
func few(set oddSet, pair [][]int, n int) [][]int {
	t := len(pair) / 2
	if rows, ok := set.few[n]; ok {
		return written(rows)
	}
	if at := apartRows(pair, n); n < t && at != nil {
		return take(pair, at, true)
	}
	if at := apartRows(pair, 2*t-n); n > t && at != nil {
		return take(pair, at, false)
	}
	return pair[:n] // whole squares and a part of one: places are even, neighbours nearly
}
