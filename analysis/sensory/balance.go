package sensory

// Balance says how even a design is, in counts. Spreads are the most less the
// least; a Best is the smallest spread that the numbers allow (see bestAfter),
// so that "nearly even" can be told from "badly set".
type Balance struct {
	Served   []int   `json:"served"`          // how many tasters get each sample
	Place    [][]int `json:"place,omitempty"` // [sample][place] times
	After    [][]int `json:"after,omitempty"` // [x][y]: y is tasted right after x
	Together [][]int `json:"together,omitempty"`

	// Sequences of trays of two samples, by how often each is set.
	Sequences []Sequence `json:"sequences,omitempty"`

	PlaceSpread    int `json:"place_spread"`
	PlaceBest      int `json:"place_best"`
	AfterSpread    int `json:"after_spread"`
	AfterBest      int `json:"after_best"`
	TogetherSpread int `json:"together_spread"`
	TogetherBest   int `json:"together_best"`
}

// Sequence is one way to set a tray ("AAB", "A:BA" with reference A).
type Sequence struct {
	Order string `json:"order"`
	Times int    `json:"times"`
}

// Even tells whether no design of these numbers could be more even.
func (b *Balance) Even() bool {
	return b.PlaceSpread <= b.PlaceBest && b.AfterSpread <= b.AfterBest && b.TogetherSpread <= b.TogetherBest
}

// Perfect tells whether all counts that should be equal are.
func (b *Balance) Perfect() bool {
	return b.PlaceSpread == 0 && b.AfterSpread == 0 && b.TogetherSpread == 0
}

// Balance counts the design.
func (d *Design) Balance() *Balance {
	if d.Ask.Test.Counts() {
		return d.balanceOfTrays()
	}
	t, k, n := d.Ask.Samples, d.Ask.PerSitting, len(d.Trays)
	var c tally
	var p pairing
	for _, tray := range d.Trays {
		c.add(tray.Samples, 1)
		p.add(tray.Samples, 1)
	}
	b := &Balance{Served: p.served[:t], Place: cut(c.place, t, k), After: cut(c.after, t, t)}
	for _, row := range b.Place {
		b.PlaceSpread = max(b.PlaceSpread, spread(row))
	}
	always := d.Ask.OriginalAlways && k < t
	b.AfterSpread = spreadOfPairs(b.After, always)
	for _, served := range b.Served {
		if served%k != 0 {
			b.PlaceBest = 1
		}
	}
	if k == t {
		b.AfterBest = bestAfter(t, n)
		return b
	}
	b.Together = cut(p.together, t, t)
	b.TogetherSpread = spreadOfPairs(b.Together, always)
	b.AfterBest, b.TogetherBest = bestIncomplete(t, k, n, always)
	return b
}

// cut copies the used corner of a table of counts.
func cut(table [maxSamples][maxSamples]int, rows, columns int) [][]int {
	out := make([][]int, rows)
	for i := range out {
		out[i] = append([]int(nil), table[i][:columns]...)
	}
	return out
}

func spread(counts []int) int {
	if len(counts) == 0 {
		return 0
	}
	low, high := counts[0], counts[0]
	for _, c := range counts {
		low, high = min(low, c), max(high, c)
	}
	return high - low
}

// spreadOfPairs leaves out a sample with itself. Where the original is in every
// block its pairs are counted apart from those of the others, which cannot be
// as many.
func spreadOfPairs(table [][]int, always bool) int {
	var classes [3][]int
	for x, row := range table {
		for y, times := range row {
			switch {
			case x == y:
			case always && x == 0:
				classes[1] = append(classes[1], times)
			case always && y == 0:
				classes[2] = append(classes[2], times)
			default:
				classes[0] = append(classes[0], times)
			}
		}
	}
	return max(spread(classes[0]), spread(classes[1]), spread(classes[2]))
}

// bestAfter is the smallest spread of the counts "y right after x" that n orders
// of all t samples can have while every sample stands in every place equally
// often, or one time more (which can always be had, and comes first). Where t
// divides n all counts may be equal, and a spread of 1 is out of question, for
// the mean is whole; otherwise they cannot be equal. The exceptions, with 3, 5
// and 7 samples, are proved by going through all designs (TestBestAfter); that
// there is no order-5 or order-7 square for t tasters is also in the literature
// on row-complete Latin squares (Denes and Keedwell 1974). For 9 and 11 samples
// the figure is a bound that may not be reached.
func bestAfter(t, n int) int {
	switch r := n % t; {
	case t == 3 && n%6 != 0:
		if n%6 == 1 || n%6 == 5 {
			return 1
		}
		return 2
	case t == 5 && n >= 4 && n <= 6, t == 7 && (n == 6 || n == 7):
		return 2
	case r == 0:
		return 0
	}
	return 1
}

// bestIncomplete is the same for blocks of k of t samples: spreads that cannot
// be beaten, though perhaps not reached either. Company can be equal only where
// a balanced incomplete block design of n blocks exists.
func bestIncomplete(t, k, n int, always bool) (after, together int) {
	if !always && n*(k-1)%(t*(t-1)) != 0 {
		after = 1 // with the original always there are three kinds of pairs: no bound
	}
	if always {
		t, k = t-1, k-1
	}
	if base := exactBlocks(t, k); base == nil || n%len(base) != 0 {
		together = 1
	}
	return after, together
}

// balanceOfTrays counts the sequences of trays of two samples; their spread
// stands as the place's.
func (d *Design) balanceOfTrays() *Balance {
	b := &Balance{Served: make([]int, 2)}
	all := sequences(d.Ask.Test, d.Ask.ConstantReference)
	times := make([]int, len(all))
	for _, tray := range d.Trays {
		order := ""
		if tray.Reference >= 0 {
			order = string(rune('A'+tray.Reference)) + ":"
		}
		var gets [2]bool
		for _, s := range tray.Samples {
			order += string(rune('A' + s))
			gets[s] = true
		}
		for s, yes := range gets {
			if yes {
				b.Served[s]++
			}
		}
		for i, s := range all {
			if s == order {
				times[i]++
			}
		}
	}
	for i, s := range all {
		b.Sequences = append(b.Sequences, Sequence{s, times[i]})
	}
	b.PlaceSpread = spread(times)
	if len(d.Trays)%len(all) != 0 {
		b.PlaceBest = 1
	}
	return b
}
