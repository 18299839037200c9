package food

// maxWord is the longest word the slip search looks at; longer ones are no
// words of a cook.
const maxWord = 32

// allowedSlips is how many typing slips a word of n letters may hold.
func allowedSlips(n int) int {
	switch {
	case n < 4 || n > maxWord:
		return 0
	case n < 8:
		return 1
	}
	return 2
}

// near is a form within reach of a typed word.
type near struct {
	form  int
	slips int
}

// slipped appends to out the forms within the allowed slips of w: a letter
// missing, added, wrong, or two swapped (optimal string alignment). With prefix
// set the typed word may end anywhere inside the form. Forms are walked in
// order and rows of the distance table that neighbours share are kept.
func (x *index) slipped(w string, prefix bool, out []near) []near {
	k := allowedSlips(len(w))
	if k == 0 {
		return out
	}
	var rows [maxWord + 4][maxWord + 1]int8
	for j := 0; j <= len(w); j++ {
		rows[0][j] = int8(j)
	}
	depth := 0 // rows [0, depth] hold for the last form looked at
	for i := 0; i < len(x.forms); i++ {
		f := &x.forms[i]
		if shared := int(f.lcp); shared < depth {
			depth = shared
		}
		text := f.text
		if len(text) > maxWord {
			continue
		}
		best, dead := -1, false
		if prefix {
			best = prefixBest(&rows, depth, len(w), k)
		}
		for depth < len(text) && !dead {
			low := fillRow(&rows, depth+1, text, w)
			depth++
			if prefix {
				if d := int(rows[depth][len(w)]); d <= k && (best < 0 || d < best) {
					best = d
				}
			}
			dead = int(low) > k && (depth < 2 || rowOver(&rows, depth-1, len(w), k-1))
		}
		if !prefix && depth == len(text) && int(rows[depth][len(w)]) <= k {
			best = int(rows[depth][len(w)])
		}
		if best >= 0 {
			out = append(out, near{i, best})
		} else if dead {
			i = x.skip(i, depth)
		}
	}
	return out
}

// prefixBest is the fewest slips to any start of a form already in the rows.
func prefixBest(rows *[maxWord + 4][maxWord + 1]int8, depth, n, k int) int {
	best := -1
	for i := 0; i <= depth; i++ {
		if d := int(rows[i][n]); d <= k && (best < 0 || d < best) {
			best = d
		}
	}
	return best
}

// rowOver tells whether a whole row is above k, so that a swap of letters
// cannot lead back under it.
func rowOver(rows *[maxWord + 4][maxWord + 1]int8, row, n, k int) bool {
	for j := 0; j <= n; j++ {
		if int(rows[row][j]) <= k {
			return false
		}
	}
	return true
}

// fillRow computes row i of the distance table (text[i-1] against all of w)
// and returns its smallest entry.
func fillRow(rows *[maxWord + 4][maxWord + 1]int8, i int, text, w string) int8 {
	c := text[i-1]
	prev, row := &rows[i-1], &rows[i]
	row[0] = int8(i)
	low := row[0]
	for j := 1; j <= len(w); j++ {
		d := prev[j-1]
		if w[j-1] != c {
			d++
		}
		if v := prev[j] + 1; v < d {
			d = v
		}
		if v := row[j-1] + 1; v < d {
			d = v
		}
		if i > 1 && j > 1 && w[j-1] == text[i-2] && w[j-2] == c {
			if v := rows[i-2][j-2] + 1; v < d {
				d = v
			}
		}
		row[j] = d
		if d < low {
			low = d
		}
	}
	return low
}

// skip gives the last form after i that still starts with the depth letters
// that cannot be reached.
func (x *index) skip(i, depth int) int {
	for i+1 < len(x.forms) && int(x.forms[i+1].lcp) >= depth {
		i++
	}
	return i
}
