package sensory

import "slices"

// meaning lists numbers that mean something to many people (angles, days of
// the year, model numbers). Common practice, no source.
var meaning = []int{247, 314, 360, 365, 401, 501, 720}

// Easy tells whether a three-digit code has a pattern that a taster could like,
// dislike or remember, and so is never served. A code is easy when
//   - it lies outside 100-999;
//   - a digit stands in it twice (333, 400, 121, 911: repeats, round numbers and
//     palindromes);
//   - its digits go up or down in equal steps (234, 753, 420), or run through
//     zero (890, 901, 109);
//   - it starts with 1, which reads as "the first" or "the best" and is where
//     emergency numbers are;
//   - it is one of the few numbers everybody knows (365, 247 ...).
//
// Random three-digit codes: ISO 4120 5.5; what counts as a pattern is common
// practice, no source.
func Easy(code int) bool {
	if code < 100 || code > 999 {
		return true
	}
	a, b, c := digits(code)
	twice := a == b || b == c || a == c
	steps := b-a == c-b
	through := (b-a+10)%10 == (c-b+10)%10 && ((b-a+10)%10 == 1 || (b-a+10)%10 == 9)
	return twice || steps || through || a == 1 || slices.Contains(meaning, code)
}

func digits(code int) (a, b, c int) { return code / 100, code / 10 % 10, code % 10 }

// far tells whether two codes are hard to take for each other: at least two
// places differ, and they are not the same digits in another order.
func far(x, y int) bool {
	a, b, c := digits(x)
	d, e, f := digits(y)
	differ := 0
	for _, same := range []bool{a == d, b == e, c == f} {
		if !same {
			differ++
		}
	}
	p, q := []int{a, b, c}, []int{d, e, f}
	slices.Sort(p)
	slices.Sort(q)
	return differ >= 2 && !slices.Equal(p, q)
}

// pool is every code that is not easy, in random order.
func pool(d *dice) []int {
	var all []int
	for code := 100; code <= 999; code++ {
		if !Easy(code) {
			all = append(all, code)
		}
	}
	shuffle(d, all)
	return all
}

// drawFar takes n codes off the pool, far from one another and from those they
// stand beside; where no code is far any more it takes the next. It returns
// fewer than n only when the pool is empty.
func drawFar(from *[]int, beside []int, n int) []int {
	var out []int
	for len(out) < n && len(*from) > 0 {
		at := slices.IndexFunc(*from, func(c int) bool {
			near := func(o int) bool { return !far(c, o) }
			return !slices.ContainsFunc(out, near) && !slices.ContainsFunc(beside, near)
		})
		at = max(at, 0)
		out = append(out, (*from)[at])
		*from = slices.Delete(*from, at, at+1)
	}
	return out
}

// codesOfSamples gives each sample one code for the whole tasting.
func codesOfSamples(samples int, d *dice) [][]int {
	left := pool(d)
	out := make([][]int, samples)
	for i, code := range drawFar(&left, nil, samples) {
		out[i] = []int{code}
	}
	return out
}

// codeGlasses gives every glass of every tray its own code, none used before
// in the tasting. When the codes run out (more than about 130 trays of four),
// codes that already stand for the same sample are used again, so that a code
// never means two samples.
func codeGlasses(codes [][]int, trays []Tray, d *dice) {
	left := slices.DeleteFunc(pool(d), func(c int) bool {
		return slices.Contains(codes[0], c) || slices.Contains(codes[1], c)
	})
	turn := [2]int{}
	for i := range trays {
		t := &trays[i]
		if t.Codes != nil {
			continue
		}
		for _, s := range t.Samples {
			one := drawFar(&left, t.Codes, 1)
			if one == nil {
				one = []int{again(codes[s], t.Codes, &turn[s])}
			} else {
				codes[s] = append(codes[s], one[0])
			}
			t.Codes = append(t.Codes, one[0])
		}
	}
}

// again takes the next of a sample's codes that is not on the tray yet.
func again(own, tray []int, turn *int) int {
	for {
		code := own[*turn%len(own)]
		*turn++
		if !slices.Contains(tray, code) {
			return code
		}
	}
}
