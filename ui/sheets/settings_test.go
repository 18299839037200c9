package sheets

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/words"
)

// settingName is how the name of a setting is called in the code.
var settingName = regexp.MustCompile(`^(Setting[A-Z]\w*|\w+Setting|BodyMeasures)$`)

// TestEverySettingIsSaidInWords: what was changed is told in the cook's words and not
// by its inner name, for each setting the code has a name for.
func TestEverySettingIsSaidInWords(t *testing.T) {
	found := 0
	err := filepath.WalkDir(filepath.Join("..", ".."), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil // the compiler's business
		}
		ast.Inspect(f, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok {
				return true
			}
			for i, name := range spec.Names {
				if !settingName.MatchString(name.Name) || strings.HasPrefix(name.Name, "Kind") || i >= len(spec.Values) {
					continue
				}
				if lit, ok := spec.Values[i].(*ast.BasicLit); ok && lit.Kind == token.STRING {
					setting, _ := strconv.Unquote(lit.Value)
					saidInWords(t, path+": "+name.Name, setting)
					found++
				}
			}
			return true
		})
		return nil
	})
	if err != nil || found < 15 {
		t.Errorf("%d settings, %v", found, err)
	}
}

func saidInWords(t *testing.T, where, setting string) {
	t.Helper()
	c, err := recipes.Set(setting, "x")(&recipes.Book{})
	if err != nil {
		t.Fatal(err)
	}
	if said := c.Label.String(); said == words.Say("did.setting") || strings.ContainsAny(said, "[._") {
		t.Errorf("%s: %q is said as %q", where, setting, said)
	}
}
