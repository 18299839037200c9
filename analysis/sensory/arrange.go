package sensory

// tally counts, over orders, how often each sample stands in each place and
// follows each other sample.
type tally struct {
	place [maxSamples][maxSamples]int
	after [maxSamples][maxSamples]int // after[x][y]: y comes right after x
}

func (c *tally) add(row []int, by int) {
	for p, x := range row {
		c.place[x][p] += by
		if p > 0 {
			c.after[row[p-1]][x] += by
		}
	}
}

// placeWeight makes an uneven place a little dearer than uneven neighbours;
// much dearer, and the search could not leave an order whose places are even.
const placeWeight = 2

// cost of a row that is about to be added: what the sums of squares grow by.
func (c *tally) cost(row []int) int {
	sum := 0
	for p, x := range row {
		sum += placeWeight * (2*c.place[x][p] + 1)
		if p > 0 {
			sum += 2*c.after[row[p-1]][x] + 1
		}
	}
	return sum
}

// arrange puts the samples of each row in an order, given earlier orders that
// stay as they are, so that places are even and neighbours nearly so. Each try
// begins anew: places are evened exactly, a search exchanges samples, and places
// are evened again where the search paid with them. The best try counts.
func arrange(rows, fixed [][]int, always bool, d *dice) [][]int {
	if len(rows) == 0 {
		return rows
	}
	steps := min(2000*len(rows)+3000, 60000)
	tries := max(4, min(12, 200000/steps))
	var best [][]int
	var least rank
	for range tries {
		try := copied(rows)
		for _, r := range try {
			shuffle(d, r)
		}
		evenPlaces(try, fixed)
		try = evenNeighbours(try, fixed, steps, d)
		evenPlaces(try, fixed)
		if r := ranked(try, fixed, always); best == nil || r.before(least) {
			best, least = try, r
		}
		if least.place <= 1 && least.after <= 1 {
			break
		}
	}
	return best
}

// rank orders designs: places first, then how far neighbours spread, then how
// much in all.
type rank struct{ place, after, squares int }

func (r rank) before(o rank) bool {
	if r.place != o.place {
		return r.place < o.place
	}
	if r.after != o.after {
		return r.after < o.after
	}
	return r.squares < o.squares
}

func ranked(rows, fixed [][]int, always bool) (r rank) {
	var c tally
	samples := 0
	for _, set := range [2][][]int{fixed, rows} {
		for _, row := range set {
			c.add(row, 1)
			for _, x := range row {
				samples = max(samples, x+1)
			}
		}
	}
	for x := range samples {
		r.place = max(r.place, spread(c.place[x][:len(rows[0])]))
		for _, n := range c.after[x] {
			r.squares += n * n
		}
	}
	r.after = spreadOfPairs(cut(c.after, samples, samples), always)
	return r
}

// evenNeighbours searches by exchanges of two places within a row; see
// evenBlocks for the rule of acceptance.
func evenNeighbours(rows, fixed [][]int, steps int, d *dice) [][]int {
	var c tally
	for _, set := range [2][][]int{fixed, rows} {
		for _, r := range set {
			c.add(r, 1)
		}
	}
	best, cost, least := copied(rows), 0, 0
	past := make([]int, 2*patience)
	for step := range steps {
		r := rows[d.below(len(rows))]
		i, j := d.below(len(r)), d.below(len(r))
		if i == j {
			continue
		}
		c.add(r, -1)
		before := c.cost(r)
		r[i], r[j] = r[j], r[i]
		after := cost + c.cost(r) - before
		if after > cost && after > past[step%len(past)] {
			r[i], r[j] = r[j], r[i]
			after = cost
		}
		c.add(r, 1)
		if cost = after; cost < least {
			least, best = cost, copied(rows)
		}
		past[step%len(past)] = min(cost, past[step%len(past)])
	}
	return best
}

// evenPlaces exchanges two places of rows until every sample stands in every
// place as often as in any other, or one time more. It always comes to an end:
// each exchange lowers the sum of squares. (That it can be reached is de Werra
// 1971: a bipartite graph has an edge colouring as even as that.) With fixed
// orders that are uneven themselves it comes as near as the rows allow.
func evenPlaces(rows, fixed [][]int) {
	k := len(rows[0])
	for again := true; again; {
		again = false
		for p := range k {
			for q := p + 1; q < k; q++ {
				again = evenTwo(rows, fixed, p, q) || again
			}
		}
	}
}

// evenTwo evens places p and q. Seen from them a row is an arrow from one
// sample to another; turning round every arrow of a way from a sample that is
// too often at p to one that is too often at q mends both.
func evenTwo(rows, fixed [][]int, p, q int) bool {
	var excess [maxSamples]int // times at p less times at q
	for _, set := range [2][][]int{fixed, rows} {
		for _, r := range set {
			if q < len(r) {
				excess[r[p]]++
				excess[r[q]]--
			}
		}
	}
	changed := false
	for x := range excess {
		for excess[x] > 0 {
			way, end := wayFrom(rows, x, p, q, &excess)
			if way == nil {
				break
			}
			for _, i := range way {
				r := rows[i]
				r[p], r[q] = r[q], r[p]
			}
			excess[x] -= 2
			excess[end] += 2
			changed = true
		}
	}
	return changed
}

// wayFrom finds rows that lead from sample x, over what stands at q, to a
// sample whose excess is at least 3 lower, so that turning them round pays; nil
// when there is none.
func wayFrom(rows [][]int, x, p, q int, excess *[maxSamples]int) (way []int, end int) {
	var by [maxSamples]int // by which row a sample was reached, counted from 1
	queue := []int{x}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		if excess[at] <= excess[x]-3 {
			end = at
			for ; at != x; at = rows[by[at]-1][p] {
				way = append(way, by[at]-1)
			}
			return way, end
		}
		for i, r := range rows {
			if to := r[q]; r[p] == at && to != x && by[to] == 0 {
				by[to] = i + 1
				queue = append(queue, to)
			}
		}
	}
	return nil, 0
}
