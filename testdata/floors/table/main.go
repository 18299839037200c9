// Command table reads what go test -bench printed, from any number of packages
// and rounds, and prints one table: every budget of the design, the figure
// measured, its floor measured in the same run, met or missed. A figure is the
// median over the rounds. A line whose benchmark did not run says skipped, and
// what it would need.
package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
)

func main() {
	if err := run(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(in io.Reader, out io.Writer) error {
	m, err := read(in)
	if err != nil {
		return err
	}
	if len(m) == 0 {
		return fmt.Errorf("no benchmark among the lines read")
	}
	_, err = io.WriteString(out, table(m))
	return err
}

// figures are a benchmark's, by "name unit"; one value a round.
type figures map[string][]float64

// read takes every line that go test -bench writes of a benchmark:
// BenchmarkName-2  100  123 ns/op  4.5 p99-ns/key.
func read(in io.Reader) (figures, error) {
	m := figures{}
	lines := bufio.NewScanner(in)
	for lines.Scan() {
		f := strings.Fields(lines.Text())
		if len(f) < 4 || !strings.HasPrefix(f[0], "Benchmark") {
			continue
		}
		if _, err := strconv.Atoi(f[1]); err != nil {
			continue
		}
		for i := 2; i+1 < len(f); i += 2 {
			v, err := strconv.ParseFloat(f[i], 64)
			if err != nil {
				return nil, fmt.Errorf("%q is no number: %s", f[i], lines.Text())
			}
			key := plain(f[0]) + " " + f[i+1]
			m[key] = append(m[key], v)
		}
	}
	return m, lines.Err()
}

// plain takes "Benchmark" and the number of processors off a name.
func plain(name string) string {
	name = strings.TrimPrefix(name, "Benchmark")
	if at := strings.LastIndexByte(name, '-'); at > 0 {
		if _, err := strconv.Atoi(name[at+1:]); err == nil {
			return name[:at]
		}
	}
	return name
}

// of is the median of one benchmark's figure; a name that ends in "*"
// takes the worst of all that begin so. ok is false when it did not run.
func (m figures) of(name, unit string) (v float64, ok bool) {
	start, any := strings.CutSuffix(name, "*")
	for key, all := range m {
		if n, u, _ := strings.Cut(key, " "); u == unit && (n == name || any && strings.HasPrefix(n, start)) {
			v, ok = max(v, median(all)), true
		}
	}
	return v, ok
}

func median(v []float64) float64 {
	s := slices.Sorted(slices.Values(v))
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}
