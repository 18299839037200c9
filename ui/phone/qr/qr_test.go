package qr

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestPublishedFacts holds the parts against figures printed in ISO/IEC
// 18004:2015.
func TestPublishedFacts(t *testing.T) {
	// Annex C.2: level M, mask 5 (data bits 00101).
	if got := formatBits(5); got != 0b100000011001110 {
		t.Errorf("format: %015b", got)
	}
	// Annex D.2: version 7.
	if got := versionBits(7); got != 0b000111110010010100 {
		t.Errorf("version: %018b", got)
	}
	// Annex I.2: 01234567 as version 1-M, its data and its check codewords.
	data := []byte{0x10, 0x20, 0x0C, 0x56, 0x61, 0x80, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11}
	want := []byte{0xA5, 0x24, 0xD4, 0xC1, 0xED, 0x36, 0xC7, 0x87, 0x2C, 0x55}
	if got := checkWords(data, generator(10)); !bytes.Equal(got, want) {
		t.Errorf("check words: % X", got)
	}
	// Annex A: the generator of 7 check codewords, as powers of 2.
	for i, e := range []int{87, 229, 146, 149, 238, 102, 21} {
		if got := logarithm[generator(7)[i]]; got != e {
			t.Errorf("generator of 7, term %d: power %d, want %d", i, got, e)
		}
	}
	// Table 1: all codewords; table 7: bytes held at level M.
	total := []int{0, 26, 44, 70, 100, 134, 172, 196, 242, 292, 346}
	bytesHeld := []int{0, 14, 26, 42, 62, 84, 106, 122, 152, 180, 213}
	for v := 1; v <= 10; v++ {
		if got := holds(v) + versions[v].check*len(versions[v].blocks); got != total[v] {
			t.Errorf("version %d has %d codewords, want %d", v, got, total[v])
		}
		if smallest(bytesHeld[v]) != v || smallest(bytesHeld[v]+1) == v {
			t.Errorf("version %d does not hold %d bytes exactly", v, bytesHeld[v])
		}
	}
}

// TestFreeModules counts what a version leaves for data: eight a codeword and
// the remainder bits of table 1.
func TestFreeModules(t *testing.T) {
	spare := []int{0, 0, 7, 7, 7, 7, 7, 0, 0, 0, 0}
	for v := 1; v <= 10; v++ {
		free := 0
		for _, f := range newGrid(v).fixed {
			if !f {
				free++
			}
		}
		if want := 8*(holds(v)+versions[v].check*len(versions[v].blocks)) + spare[v]; free != want {
			t.Errorf("version %d has %d free modules, want %d", v, free, want)
		}
	}
}

func TestPenaltyRules(t *testing.T) {
	line := func(s string) (out []bool) {
		for _, r := range s {
			out = append(out, r == '#')
		}
		return out
	}
	rows := []struct {
		name, line string
		runs, eyes int
	}{
		{"four alike", "####.#.#.#.#", 0, 0},
		{"five alike", "#####.#.#.#.", 3, 0},
		{"seven alike", ".#######.#.#", 5, 0},
		{"an eye after four light", "#....#.###.#.#", 0, 40},
		{"an eye before four light", "##.#.###.#....#", 0, 40},
		{"an eye hemmed in", "##.#.###.#.###", 0, 0},
	}
	for _, r := range rows {
		if got := runs(line(r.line)); got != r.runs {
			t.Errorf("%s: runs %d, want %d", r.name, got, r.runs)
		}
		if got := likeEyes(line(r.line)); got != r.eyes {
			t.Errorf("%s: eyes %d, want %d", r.name, got, r.eyes)
		}
	}
}

func TestRoundTrip(t *testing.T) {
	for n := range 214 {
		text := strings.Repeat("http://192.168.0.7:8417/j/4q", 8)[:n]
		c, err := Encode(text)
		if err != nil {
			t.Fatal(err)
		}
		got, err := read(c)
		if err != nil || got != text {
			t.Fatalf("%d bytes, version %d, mask %d: %q, %v", n, c.Version, c.Mask, got, err)
		}
	}
	if _, err := Encode(strings.Repeat("a", 214)); err != ErrLong {
		t.Errorf("214 bytes: %v", err)
	}
}

// TestLeastPenalty tries all eight masks by hand and finds none better.
func TestLeastPenalty(t *testing.T) {
	text := "http://10.0.0.12:8417/j/abc"
	c, err := Encode(text)
	if err != nil {
		t.Fatal(err)
	}
	chosen := penalty(&grid{size: c.Size, dark: c.dark})
	seen := map[int]bool{}
	for m := range masks {
		g := newGrid(c.Version)
		g.place(interleave(c.Version, dataWords(c.Version, text)), m)
		g.format(m)
		seen[penalty(g)] = true
		if p := penalty(g); p < chosen {
			t.Errorf("mask %d has %d points, the chosen %d has %d", m, p, c.Mask, chosen)
		}
	}
	if len(seen) < 4 {
		t.Errorf("eight masks give only %d different penalties", len(seen))
	}
}

// TestReadByAnother lets a reader that is not ours read the picture.
func TestReadByAnother(t *testing.T) {
	tool, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("zbarimg is not installed")
	}
	for _, n := range []int{10, 25, 40, 60, 80, 100, 120, 150, 178, 210} {
		text := ("http://192.168.1.23:8417/j/" + strings.Repeat("k3v9x", 40))[:n]
		c, err := Encode(text)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "code.png")
		var b bytes.Buffer
		if err := png.Encode(&b, c.Image(6)); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(tool, "--raw", "-q", path).Output()
		if err != nil || strings.TrimSpace(string(out)) != text {
			t.Errorf("version %d: %q, %v", c.Version, out, err)
		}
	}
}

func TestImage(t *testing.T) {
	c, err := Encode("x")
	if err != nil {
		t.Fatal(err)
	}
	img := c.Image(5)
	if got := img.Bounds().Dx(); got != 29*5 {
		t.Errorf("side %d, want 145", got)
	}
	if r, _, _, _ := img.At(4*5-1, 4*5).RGBA(); r != 0xffff {
		t.Error("the quiet zone is not white")
	}
	if r, _, _, _ := img.At(4*5, 4*5).RGBA(); r != 0 {
		t.Error("the corner of the eye is not black")
	}
}

func BenchmarkEncode(b *testing.B) {
	for b.Loop() {
		if _, err := Encode("http://192.168.100.123:18417/j/0123456789abcdefghjkmnpqrs"); err != nil {
			b.Fatal(err)
		}
	}
}

// read takes a code apart again by its own rules: it asks the finished modules
// for version, format and data, and trusts nothing the encoder kept.
func read(c *Code) (string, error) {
	v := (c.Size - 17) / 4
	format := 0
	for i, at := range [15][2]int{{0, 8}, {1, 8}, {2, 8}, {3, 8}, {4, 8}, {5, 8}, {7, 8}, {8, 8}, {8, 7}, {8, 5}, {8, 4}, {8, 3}, {8, 2}, {8, 1}, {8, 0}} {
		if c.Dark(at[0], at[1]) {
			format |= 1 << (14 - i)
		}
	}
	format ^= 0x5412
	if format>>13 != 0 {
		return "", fmt.Errorf("not level M: %015b", format)
	}
	mask := format >> 10 & 7
	var stream []byte
	n := 0
	for x := c.Size - 1; x > 0; x -= 2 {
		if x == 6 {
			x = 5
		}
		pair := (c.Size - 1 - x) / 2
		if x < 6 {
			pair = (c.Size - 2 - x) / 2
		}
		for k := range 2 * c.Size {
			y := k / 2
			if pair%2 == 0 {
				y = c.Size - 1 - k/2
			}
			col := x - k%2
			if taken(v, col, y) {
				continue
			}
			if n%8 == 0 {
				stream = append(stream, 0)
			}
			if c.Dark(col, y) != turned(mask, col, y) {
				stream[n/8] |= 128 >> (n % 8)
			}
			n++
		}
	}
	return unpack(v, stream)
}

// taken tells whether a module belongs to a pattern, by its place alone.
func taken(v, x, y int) bool {
	n := 17 + 4*v
	switch {
	case x == 6 || y == 6,
		x <= 8 && y <= 8, x >= n-8 && y <= 8, x <= 8 && y >= n-8,
		v >= 7 && (x >= n-11 && y <= 5 || y >= n-11 && x <= 5):
		return true
	}
	at := versions[v].align
	for _, a := range at {
		for _, b := range at {
			corner := a == 6 && b == 6 || a == 6 && b == n-7 || a == n-7 && b == 6
			if !corner && x >= a-2 && x <= a+2 && y >= b-2 && y <= b+2 {
				return true
			}
		}
	}
	return false
}

// turned writes the masks of table 10 by row i and column j, as printed there.
func turned(mask, j, i int) bool {
	return [8]int{(i + j) % 2, i % 2, j % 3, (i + j) % 3, (i/2 + j/3) % 2, (i*j)%2 + (i*j)%3, ((i*j)%2 + (i*j)%3) % 2, ((i+j)%2 + (i*j)%3) % 2}[mask] == 0
}

// unpack sorts codewords back into blocks, wants every syndrome zero, and reads
// the bytes.
func unpack(v int, stream []byte) (string, error) {
	spec := versions[v]
	blocks := make([][]byte, len(spec.blocks))
	for i, at := 0, 0; at < holds(v); i++ {
		for b, n := range spec.blocks {
			if i < n {
				blocks[b] = append(blocks[b], stream[at])
				at++
			}
		}
	}
	rest := stream[holds(v):]
	var data []byte
	for b := range blocks {
		data = append(data, blocks[b]...)
		word := blocks[b]
		for i := range spec.check {
			word = append(word, rest[i*len(blocks)+b])
		}
		for root := range spec.check {
			sum := byte(0)
			for _, w := range word {
				sum = slow(sum, root) ^ w
			}
			if sum != 0 {
				return "", fmt.Errorf("block %d does not check", b)
			}
		}
	}
	if data[0]>>4 != 4 {
		return "", fmt.Errorf("mode %d", data[0]>>4)
	}
	at, count := 12, int(data[0]&15)<<4|int(data[1]>>4)
	if v >= 10 {
		at, count = 20, int(data[0]&15)<<12|int(data[1])<<4|int(data[2]>>4)
	}
	var out []byte
	for i := range count {
		p := (at + 8*i) / 8
		out = append(out, data[p]<<4|data[p+1]>>4)
	}
	return string(out), nil
}

// slow multiplies a by 2 root times, without tables.
func slow(a byte, root int) byte {
	for range root {
		high := a & 128
		a <<= 1
		if high != 0 {
			a ^= 0x1D
		}
	}
	return a
}
