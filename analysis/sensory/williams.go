package sensory

// Square returns the serving orders of a Williams design for t samples (0 = the
// first): t orders when t is even, t and their mirror images when it is odd.
// Over the whole of it each sample stands equally often in each place and
// follows each other sample equally often (once, or twice when t is odd).
// Williams 1949, Aust. J. Sci. Res. 2:149. nil for t < 1.
func Square(t int) [][]int {
	if t < 1 {
		return nil
	}
	first := make([]int, t)
	for i := range first {
		if i%2 == 1 {
			first[i] = (i + 1) / 2
		} else {
			first[i] = (t - i/2) % t
		}
	}
	rows := develop(first)
	if t%2 == 1 && t > 1 {
		for _, r := range rows[:t:t] {
			rows = append(rows, mirrored(r))
		}
	}
	return rows
}

// develop adds 0...t-1 to a row, modulo t: a Latin square, whose neighbours are
// as often d apart as the row's are.
func develop(row []int) [][]int {
	t := len(row)
	rows := make([][]int, t)
	for c := range rows {
		rows[c] = make([]int, t)
		for i, x := range row {
			rows[c][i] = (x + c) % t
		}
	}
	return rows
}

func mirrored(row []int) []int {
	out := make([]int, len(row))
	for i, x := range row {
		out[len(row)-1-i] = x
	}
	return out
}

// apart tells whether two orders share no place and no neighbours. A set of
// orders any two of which are apart can be added to, or taken from, an exactly
// balanced set, and no count moves by more than one.
func apart(a, b []int) bool {
	var next [maxSamples]int
	for i := range a {
		if a[i] == b[i] {
			return false
		}
		next[a[i]] = -1
		if i > 0 {
			next[a[i-1]] = a[i]
		}
	}
	next[a[len(a)-1]] = -1
	for i := 1; i < len(b); i++ {
		if next[b[i-1]] == b[i] {
			return false
		}
	}
	return true
}

// apartRows finds want rows any two of which are apart, by their positions in
// rows; nil when there are none.
func apartRows(rows [][]int, want int) []int {
	var chosen []int
	var more func(from int) bool
	more = func(from int) bool {
		if len(chosen) == want {
			return true
		}
		for i := from; i <= len(rows)-(want-len(chosen)); i++ {
			if !fits(rows, chosen, i) {
				continue
			}
			chosen = append(chosen, i)
			if more(i + 1) {
				return true
			}
			chosen = chosen[:len(chosen)-1]
		}
		return false
	}
	if want > len(rows) || !more(0) {
		return nil
	}
	return chosen
}

func fits(rows [][]int, chosen []int, i int) bool {
	for _, c := range chosen {
		if !apart(rows[c], rows[i]) {
			return false
		}
	}
	return true
}

// take returns the rows at the positions (or, without keep, the others).
func take(rows [][]int, at []int, keep bool) [][]int {
	in := make([]bool, len(rows))
	for _, i := range at {
		in[i] = true
	}
	var out [][]int
	for i, r := range rows {
		if in[i] == keep {
			out = append(out, r)
		}
	}
	return out
}
