package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

func TestNumbers(t *testing.T) {
	rows := []struct{ name, got, want string }{
		{"whole", Number(684, 0), "684"},
		{"one place", Number(43.05, 1), "43.0"},
		{"fall", Number(-143.2, 0), "–143"},
		{"a trace of a fall has no sign", Number(-0.04, 1), "0.0"},
		{"four digits stay together", Number(1234, 0), "1234"},
		{"five are parted", Number(12345.6, 1), "12,345.6"},
		{"a million", Number(1234567, 0), "1,234,567"},
		{"not a number", Number(math.NaN(), 1), "?"},
		{"rise", Signed(12, 1), "+12.0"},
		{"no change", Signed(0.04, 1), "0.0"},
		{"per cent", Percent(-20.9), "–21 %"},
		{"trim", Trim(2.50, 2), "2.5"},
		{"trim whole", Trim(40, 2), "40"},
		{"for a field", Field(12345.6, 1), "12345.6"},
		{"share", Share(0.08), "8 %"},
		{"small share", Share(0.004), "0.4 %"},
		{"light", Grams(0.42), "0.4 g"},
		{"middling", Grams(142.6), "143 g"},
		{"heavy", Grams(1250), "1.25 kg"},
		{"half", Fraction(0.5), "½"},
		{"one and a half", Fraction(1.5), "1½"},
		{"two thirds", Fraction(2.0 / 3), "⅔"},
		{"nearly three", Fraction(2.999), "3"},
		{"no kitchen fraction", Fraction(0.04), "0.04"},
		{"a tenth", Fraction(1.1), "1.1"},
		{"day", Day(time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)), "4 Mar 2026"},
		{"one of a list", Join([]string{"milk"}), "milk"},
		{"three of a list", Join([]string{"milk", "egg", "fish"}), "milk, egg and fish"},
	}
	for _, r := range rows {
		if r.got != r.want {
			t.Errorf("%s: %q, want %q", r.name, r.got, r.want)
		}
	}
}

func TestSay(t *testing.T) {
	if got := Say("did.settle", 1); got != "Accepted 1 ingredient" {
		t.Errorf("one: %q", got)
	}
	if got := Say("did.settle", 3); got != "Accepted 3 ingredients" {
		t.Errorf("three: %q", got)
	}
	if got := P("did.tick-on", "less butter", "B").String(); got != "Switched on “less butter” in B" {
		t.Errorf("phrase: %q", got)
	}
	if got := Say("no such key"); got != "[no such key]" {
		t.Errorf("unknown: %q", got)
	}
	if got := Say("did.title", "{1}"); got != "Renamed the recipe to {1}" {
		t.Errorf("an argument that looks like a slot: %q", got)
	}
}

func TestReadRefusesRepeatsAndNonsense(t *testing.T) {
	l := &Language{sentences: map[string]string{}}
	if err := l.read("x.txt", "a = b\n# note\n\na = c"); err == nil || !strings.Contains(err.Error(), "x.txt:4") {
		t.Errorf("a key given twice: %v", err)
	}
	if err := l.read("x.txt", "no sign here"); err == nil {
		t.Error("a line without = was taken")
	}
}

// TestEveryKeyHasItsSentence reads the whole module: each key that code names
// has a sentence, and each sentence is named by some code.
func TestEveryKeyHasItsSentence(t *testing.T) {
	used := keysInCode(t, filepath.Join("..", ".."))
	for key, places := range used {
		if strings.HasPrefix(key, endingMark) {
			continue
		}
		if strings.HasSuffix(key, "*") {
			if !anyWithPrefix(strings.TrimSuffix(key, "*")) {
				t.Errorf("%s: no sentence starts with %q", places, strings.TrimSuffix(key, "*"))
			}
		} else if !Current().Has(key) {
			t.Errorf("%s: no sentence for %q", places, key)
		}
	}
	for key := range Current().sentences {
		if !named(used, strings.TrimSuffix(key, "#one")) {
			t.Errorf("no code says %q", key)
		}
	}
}

// endingMark sets endings that code joins to keys apart from keys.
const endingMark = "~"

func anyWithPrefix(prefix string) bool {
	for key := range Current().sentences {
		if strings.HasPrefix(key, prefix) {
			return true
		}
	}
	return false
}

// named tells whether a key, or a prefix of it, stands in some code. A sentence
// that belongs to another ("paste", "paste.hint") is named by that one, if some
// code joins the ending.
func named(used map[string]string, key string) bool {
	if i := strings.LastIndexByte(key, '.'); i > 0 && used[endingMark+key[i:]] != "" && named(used, key[:i]) {
		return true
	}
	if _, ok := used[key]; ok {
		return true
	}
	for k := range used {
		if p, dynamic := strings.CutSuffix(k, "*"); dynamic && strings.HasPrefix(key, p) {
			return true
		}
	}
	return false
}

// keysInCode finds every string literal shaped like a key in the module's Go
// files: "word.more-words" that is known, or the first argument of Say or P; a
// literal joined to something is a prefix, marked with *. Folders of a name in
// without are left out.
func keysInCode(t *testing.T, root string, without ...string) map[string]string {
	t.Helper()
	used := map[string]string{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && slices.Contains(without, d.Name()) {
			return fs.SkipDir
		}
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, src, 0)
		if err != nil {
			return nil // a file that does not parse is the compiler's business
		}
		ast.Inspect(f, func(n ast.Node) bool {
			collect(n, path, used)
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return used
}

func collect(n ast.Node, path string, used map[string]string) {
	switch x := n.(type) {
	case *ast.CallExpr:
		if name, ok := calledName(x); ok && (name == "Say" || name == "P") && len(x.Args) > 0 {
			if s, ok := literal(x.Args[0]); ok {
				used[s] = path
			}
			if b, ok := x.Args[0].(*ast.BinaryExpr); ok {
				if s, ok := literal(b.X); ok {
					used[s+"*"] = path
				}
			}
		}
	case *ast.BinaryExpr: // a key put together before it is said
		if s, ok := literal(x.X); ok && len(s) > 1 && strings.HasSuffix(s, ".") && anyWithPrefix(s) {
			used[s+"*"] = path
		}
	case *ast.BasicLit:
		s, ok := literal(x)
		if ok && Current().Has(s) {
			used[s] = path
		}
		if ok && len(s) > 1 && s[0] == '.' {
			used[endingMark+s] = path
		}
	}
}

func calledName(c *ast.CallExpr) (string, bool) {
	switch f := c.Fun.(type) {
	case *ast.SelectorExpr:
		if id, ok := f.X.(*ast.Ident); ok && id.Name == "words" {
			return f.Sel.Name, true
		}
	case *ast.Ident:
		return f.Name, f.Name == "Say"
	}
	return "", false
}

func literal(e ast.Expr) (string, bool) {
	b, ok := e.(*ast.BasicLit)
	if !ok || b.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(b.Value)
	return s, err == nil
}
