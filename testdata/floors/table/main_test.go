package main

import (
	"strings"
	"testing"
)

func TestTable(t *testing.T) {
	var out strings.Builder
	err := run(strings.NewReader(`goos: linux
BenchmarkRealWindowStart-2   15   0 ns/op   100 bare-MB   400 bare-ms   151 parewell-MB   640 parewell-ms
BenchmarkNext20-2            3    100000000 ns/op
BenchmarkNext20Untasted-2    3    1500000000 ns/op   12 B/op
BenchmarkOpenLarge           5    290000000 ns/op
BenchmarkOpenLarge           5    280000000 ns/op
BenchmarkOpenLarge           5    910000000 ns/op
BenchmarkSwapEffects/missing=0.1-2   5   8000000 ns/op
BenchmarkSwapEffects/missing=0-2     5   6000000 ns/op
BenchmarkBesideR/missing=0-2  1  0 ns/op  640 lm-ms  140 lmer-ms  6.4 parewell-ms
ok  	parewell/ui	26.323s
`), &out)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"| first painted frame, demo open | 1.5 x or +250 ms of a bare window | 640 ms | bare window: 400 ms (1.60 x) | met |",
		"| resident memory, demo open | 1.5 x a bare window | 151 MB | bare window: 100 MB (1.51 x) | **missed** |",
		"| next-version search | 1 s | 1500 ms |  | **missed** |",                            // the slower of the two
		"| open 1,000 recipes, 10,000 versions, 100,000 scores | 300 ms | 290 ms |  | met |", // the median of three rounds
		"| swap effects and lack of fit, 200 x 12 x 6 | 50 ms | 8.00 ms |  | met |",
		"| the same, complete | 20 x faster than R | 6.40 ms | R lm: 640 ms (100.0 x faster) | met |",
		"| the same, a tenth missing | 20 x faster than R | | | skipped: wants R |",
		"| trade-offs over 20 swaps | 200 ms | | | skipped: wants its benchmark |",
	} {
		if !strings.Contains(out.String(), want+"\n") {
			t.Errorf("no line\n%s\nin\n%s", want, out.String())
		}
	}
	if n := strings.Count(out.String(), "\n"); n != len(budgets)+2 {
		t.Errorf("%d lines for %d budgets", n, len(budgets))
	}
}

func TestWhatIsNoBenchmark(t *testing.T) {
	for name, in := range map[string]string{"nothing": "PASS\n", "no number": "BenchmarkX-2 1 fast ns/op\n"} {
		if err := run(strings.NewReader(in), &strings.Builder{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
