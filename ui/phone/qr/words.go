package qr

// bits collects a stream of bits, highest first.
type bits struct {
	words []byte
	n     int
}

func (b *bits) add(value, length int) {
	for i := length - 1; i >= 0; i-- {
		if b.n%8 == 0 {
			b.words = append(b.words, 0)
		}
		b.words[b.n/8] |= byte(value>>i&1) << (7 - b.n%8)
		b.n++
	}
}

// dataWords puts text in byte mode and pads it (ISO/IEC 18004:2015, 7.4.5,
// 7.4.9 and 7.4.10).
func dataWords(v int, text string) []byte {
	var b bits
	b.add(0b0100, 4)
	b.add(len(text), countBits(v))
	for i := range len(text) {
		b.add(int(text[i]), 8)
	}
	total := holds(v)
	b.add(0, min(4, 8*total-b.n))
	for pad := 0; len(b.words) < total; pad ^= 1 {
		b.words = append(b.words, [2]byte{0xEC, 0x11}[pad])
	}
	return b.words
}

// The field of 256 with the polynomial x^8+x^4+x^3+x^2+1 (ISO/IEC 18004:2015,
// 7.5.2), as powers of 2 and their logarithms.
var power, logarithm = field()

func field() (p [255]byte, l [256]int) {
	x := 1
	for i := range p {
		p[i], l[x] = byte(x), i
		if x <<= 1; x > 255 {
			x ^= 0x11D
		}
	}
	return p, l
}

func times(a, b byte) byte {
	if a == 0 || b == 0 {
		return 0
	}
	return power[(logarithm[a]+logarithm[b])%255]
}

// generator returns the polynomial whose roots are the first n powers of 2,
// highest term first and left out, for it is 1.
func generator(n int) []byte {
	g := []byte{1}
	for i := range n {
		next := make([]byte, len(g)+1)
		for j, c := range g {
			next[j] ^= c
			next[j+1] ^= times(c, power[i])
		}
		g = next
	}
	return g[1:]
}

// checkWords are the rest of data when divided by a generator.
func checkWords(data, gen []byte) []byte {
	rest := make([]byte, len(gen))
	for _, d := range data {
		lead := d ^ rest[0]
		copy(rest, rest[1:])
		rest[len(rest)-1] = 0
		for i, g := range gen {
			rest[i] ^= times(g, lead)
		}
	}
	return rest
}

// interleave splits data into blocks, checks each, and takes their codewords by
// turns (ISO/IEC 18004:2015, 7.6).
func interleave(v int, data []byte) []byte {
	spec := versions[v]
	gen := generator(spec.check)
	var blocks, checks [][]byte
	longest := 0
	for _, n := range spec.blocks {
		blocks = append(blocks, data[:n])
		checks = append(checks, checkWords(data[:n], gen))
		data, longest = data[n:], max(longest, n)
	}
	return append(byTurns(blocks, longest), byTurns(checks, spec.check)...)
}

func byTurns(blocks [][]byte, longest int) []byte {
	var out []byte
	for i := range longest {
		for _, b := range blocks {
			if i < len(b) {
				out = append(out, b[i])
			}
		}
	}
	return out
}
