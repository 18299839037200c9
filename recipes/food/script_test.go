package food_test

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// typedQuery is one line of the typed script; Slip marks a mistyped one.
type typedQuery struct {
	Text string
	Slip bool
}

// typedQueries reads testdata/floors/fts/typed.txt, which the database
// benchmark there reads too. A line that starts with ~ is mistyped.
func typedQueries(t testing.TB) []typedQuery {
	t.Helper()
	f, err := os.Open(filepath.Join(root(t), "testdata", "floors", "fts", "typed.txt"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []typedQuery
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		line := strings.TrimSpace(sc.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		text, slip := strings.CutPrefix(line, "~")
		out = append(out, typedQuery{text, slip})
	}
	return out
}
