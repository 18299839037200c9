package qr

import "slices"

// grid is a code being drawn; fixed modules take no data.
type grid struct {
	size        int
	dark, fixed []bool
}

func newGrid(v int) *grid {
	n := 17 + 4*v
	g := &grid{size: n, dark: make([]bool, n*n), fixed: make([]bool, n*n)}
	for i := range n {
		g.set(6, i, i%2 == 0)
		g.set(i, 6, i%2 == 0)
	}
	g.finder(0, 0)
	g.finder(n-7, 0)
	g.finder(0, n-7)
	for _, x := range versions[v].align {
		for _, y := range versions[v].align {
			last := n - 7
			if x == 6 && y == 6 || x == 6 && y == last || x == last && y == 6 {
				continue // a finder is there
			}
			g.rings(x, y, 2, 1)
		}
	}
	g.format(0) // keeps its places; the true one is drawn with the mask
	if v >= 7 {
		g.number(v)
	}
	return g
}

func (g *grid) set(x, y int, dark bool) {
	g.dark[y*g.size+x], g.fixed[y*g.size+x] = dark, true
}

// finder draws the eye whose corner is x, y and the light line around it.
func (g *grid) finder(x, y int) {
	for j := max(0, y-1); j < min(g.size, y+8); j++ {
		for i := max(0, x-1); i < min(g.size, x+8); i++ {
			g.set(i, j, false)
		}
	}
	g.rings(x+3, y+3, 3, 2)
}

// rings draws a square of the radius about a centre, dark but for one ring.
func (g *grid) rings(x, y, radius, lightRing int) {
	for j := -radius; j <= radius; j++ {
		for i := -radius; i <= radius; i++ {
			g.set(x+i, y+j, max(i, -i, j, -j) != lightRing)
		}
	}
}

// formatBits are level M and the mask with their check bits, masked
// (ISO/IEC 18004:2015, 7.9.1 and annex C).
func formatBits(mask int) int {
	const levelM = 0b00
	data := levelM<<3 | mask
	return (data<<10 | remainder(data<<10, 0b10100110111)) ^ 0b101010000010010
}

// versionBits are a version number with its check bits (annex D).
func versionBits(v int) int { return v<<12 | remainder(v<<12, 0b1111100100101) }

// remainder divides by a polynomial whose terms are 0 or 1.
func remainder(value, by int) int {
	top := 0
	for b := by; b > 1; b >>= 1 {
		top++
	}
	for i := 30; i >= top; i-- {
		if value>>i&1 == 1 {
			value ^= by << (i - top)
		}
	}
	return value
}

// format draws the format bits twice, and the module that is always dark.
func (g *grid) format(mask int) {
	n, value := g.size, formatBits(mask)
	for i := range 15 {
		bit := value>>i&1 == 1
		switch { // beside the first eye, round its corner
		case i < 6:
			g.set(8, i, bit)
		case i < 8:
			g.set(8, i+1, bit)
		case i == 8:
			g.set(7, 8, bit)
		default:
			g.set(14-i, 8, bit)
		}
		if i < 8 { // beside the two others
			g.set(n-1-i, 8, bit)
		} else {
			g.set(8, n-15+i, bit)
		}
	}
	g.set(8, n-8, true)
}

// number draws the version beside two eyes.
func (g *grid) number(v int) {
	value := versionBits(v)
	for i := range 18 {
		bit := value>>i&1 == 1
		a, b := g.size-11+i%3, i/3
		g.set(a, b, bit)
		g.set(b, a, bit)
	}
}

// masks by number: which modules of column x and row y are turned over
// (ISO/IEC 18004:2015, table 10).
var masks = [8]func(x, y int) bool{
	func(x, y int) bool { return (x+y)%2 == 0 },
	func(_, y int) bool { return y%2 == 0 },
	func(x, _ int) bool { return x%3 == 0 },
	func(x, y int) bool { return (x+y)%3 == 0 },
	func(x, y int) bool { return (x/3+y/2)%2 == 0 },
	func(x, y int) bool { return x*y%2+x*y%3 == 0 },
	func(x, y int) bool { return (x*y%2+x*y%3)%2 == 0 },
	func(x, y int) bool { return ((x+y)%2+x*y%3)%2 == 0 },
}

// place lays the codewords in pairs of columns, up and down from the right
// (ISO/IEC 18004:2015, 7.7.3), under a mask.
func (g *grid) place(stream []byte, mask int) {
	i, up := 0, true
	for right := g.size - 1; right > 0; right -= 2 {
		if right == 6 {
			right-- // the column of the timing pattern is skipped
		}
		for row := range g.size {
			y := row
			if up {
				y = g.size - 1 - row
			}
			for x := right; x > right-2; x-- {
				if g.fixed[y*g.size+x] {
					continue
				}
				bit := i < 8*len(stream) && stream[i/8]>>(7-i%8)&1 == 1
				g.dark[y*g.size+x] = bit != masks[mask](x, y)
				i++
			}
		}
		up = !up
	}
}

// penalty adds up what makes a code hard to read (ISO/IEC 18004:2015, 7.8.3.1).
func penalty(g *grid) int {
	n, total, dark := g.size, 0, 0
	line := make([]bool, n)
	for y := range n {
		copy(line, g.dark[y*n:(y+1)*n])
		total += runs(line) + likeEyes(line)
		for x := range n {
			line[x] = g.dark[x*n+y]
			if g.dark[y*n+x] {
				dark++
			}
			if x+1 < n && y+1 < n && sameSquare(g, x, y) {
				total += 3
			}
		}
		total += runs(line) + likeEyes(line)
	}
	off := dark*20 - n*n*10 // twentieths from half
	return total + 10*(max(off, -off)/(n*n))
}

func sameSquare(g *grid, x, y int) bool {
	i := y*g.size + x
	return g.dark[i] == g.dark[i+1] && g.dark[i] == g.dark[i+g.size] && g.dark[i] == g.dark[i+g.size+1]
}

// runs counts five or more modules of one colour in a line.
func runs(line []bool) int {
	total, run := 0, 1
	for i := 1; i <= len(line); i++ {
		if i < len(line) && line[i] == line[i-1] {
			run++
			continue
		}
		if run >= 5 {
			total += run - 2
		}
		run = 1
	}
	return total
}

var eye = []bool{true, false, true, true, true, false, true}

// likeEyes counts what looks like an eye with four light modules on a side.
func likeEyes(line []bool) int {
	total := 0
	for i := 0; i+7 <= len(line); i++ {
		if slices.Equal(line[i:i+7], eye) && (lightAll(line, i-4, i) || lightAll(line, i+7, i+11)) {
			total += 40
		}
	}
	return total
}

// lightAll tells whether a stretch of a line is light; beyond the edge all is.
func lightAll(line []bool, from, to int) bool {
	for i := max(0, from); i < min(len(line), to); i++ {
		if line[i] {
			return false
		}
	}
	return true
}
