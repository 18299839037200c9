package qr

// version is a row of ISO/IEC 18004:2015, table 9, for level M, and of annex E.
type version struct {
	check  int   // error correction codewords of each block
	blocks []int // data codewords of each block, short blocks first
	align  []int // centres of the alignment patterns in either direction
}

// versions by number; there is no version 0.
var versions = [11]version{
	1:  {10, []int{16}, nil},
	2:  {16, []int{28}, []int{6, 18}},
	3:  {26, []int{44}, []int{6, 22}},
	4:  {18, []int{32, 32}, []int{6, 26}},
	5:  {24, []int{43, 43}, []int{6, 30}},
	6:  {16, []int{27, 27, 27, 27}, []int{6, 34}},
	7:  {18, []int{31, 31, 31, 31}, []int{6, 22, 38}},
	8:  {22, []int{38, 38, 39, 39}, []int{6, 24, 42}},
	9:  {22, []int{36, 36, 36, 37, 37}, []int{6, 26, 46}},
	10: {26, []int{43, 43, 43, 43, 44}, []int{6, 28, 50}},
}

// holds is how many data codewords a version has.
func holds(v int) int {
	n := 0
	for _, b := range versions[v].blocks {
		n += b
	}
	return n
}

// countBits is how long the count of bytes is (ISO/IEC 18004:2015, table 3).
func countBits(v int) int {
	if v < 10 {
		return 8
	}
	return 16
}

// smallest finds the version that holds n bytes of text, 0 if none does.
func smallest(n int) int {
	for v := 1; v < len(versions); v++ {
		if 4+countBits(v)+8*n <= 8*holds(v) {
			return v
		}
	}
	return 0
}
