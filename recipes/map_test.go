package recipes_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// mayImport is the map of the packages (DEVELOPERS.md): what each may import of
// ours beside recipes/problem and recipes/words, which all may. "x/..." is x and
// everything below it. The generators of assets and the floors of benchmarks
// stand outside.
var mayImport = map[string][]string{
	"assets":                {},
	"assets/icons":          {},
	"recipes/problem":       {},
	"recipes/words":         {},
	"recipes/measure":       {},
	"recipes/food":          {"recipes/measure"},
	"recipes":               {"recipes/food", "recipes/measure"},
	"recipes/reading":       {"recipes", "recipes/food", "recipes/measure"},
	"recipes/ideas":         {"recipes", "recipes/food", "recipes/measure"},
	"recipes/cautions":      {"recipes", "recipes/food"},
	"recipes/tasting":       {"recipes", "recipes/cautions", "recipes/food"},
	"recipes/food/tables":   {"recipes/food", "recipes/food/portions", "recipes/measure"},
	"recipes/food/portions": {"recipes/food", "recipes/measure"},
	"recipes/workbook":      {"recipes", "recipes/food", "recipes/measure"},
	"recipes/delimited":     {},
	"recipes/exchange":      {"recipes", "recipes/delimited", "recipes/tasting", "recipes/reading", "recipes/food", "recipes/measure"},
	"recipes/archive":       {"recipes", "recipes/workbook", "recipes/food", "recipes/tasting"},
	"recipes/demo":          {"assets", "recipes", "recipes/tasting", "analysis/sensory", "recipes/reading", "recipes/ideas", "recipes/food", "recipes/measure"},
	"analysis/nutrition":    {"recipes", "recipes/food", "recipes/measure"},
	"analysis/sensory":      {"recipes", "recipes/food"},
	"analysis/stats":        {},
	"analysis/mixed":        {"analysis/stats"},
	"analysis/justright":    {"analysis/stats"},
	"analysis/panel":        {"analysis/stats"},
	"analysis/ratings":      {"analysis/stats", "recipes", "recipes/delimited"},
	"analysis/effects":      {"analysis/nutrition", "recipes", "recipes/ideas", "recipes/food", "recipes/measure"},
	"analysis/ledger":       {"analysis/ratings", "analysis/stats", "recipes"},
	"analysis/outcome":      {"analysis/...", "recipes", "recipes/tasting", "recipes/food", "recipes/measure"},
	"analysis/claims":       {"analysis/nutrition", "recipes", "recipes/food", "recipes/measure"},
	"analysis/shopping":     {"analysis/nutrition", "recipes", "recipes/tasting", "recipes/food", "recipes/measure"},
	"analysis/meals":        {"analysis/nutrition", "recipes", "recipes/food", "recipes/measure"},
	"analysis/sheet":        {"analysis/nutrition", "recipes", "recipes/exchange", "recipes/food", "recipes/measure"},
	"charts":                {"analysis/...", "recipes", "recipes/food", "recipes/measure"},
	"charts/manuscript":     {"charts", "analysis/...", "recipes", "recipes/tasting", "recipes/food", "recipes/measure", "recipes/reading"},
	"charts/book":           {"charts", "charts/manuscript", "analysis/...", "recipes", "recipes/tasting", "recipes/exchange", "recipes/cautions", "recipes/food", "recipes/measure", "recipes/reading"},
	"ui/desk": {
		"assets", "recipes", "recipes/workbook", "recipes/exchange", "recipes/reading",
		"recipes/archive", "recipes/ideas", "recipes/demo", "recipes/tasting", "recipes/food", "recipes/food/tables", "recipes/measure", "analysis/sensory", "ui/phone",
	},
	"ui/phone":     {"recipes", "recipes/tasting", "recipes/food", "ui/phone/qr"},
	"ui/phone/qr":  {},
	"ui/crash":     {},
	"ui/sheets":    {"ui/desk", "ui/phone", "charts", "charts/book", "charts/manuscript", "analysis/...", "recipes", "recipes/tasting", "recipes/exchange", "recipes/reading", "recipes/ideas", "recipes/cautions", "recipes/food", "recipes/measure"},
	"ui/parts":     {"assets/...", "charts/...", "recipes", "recipes/food", "recipes/measure"},
	"ui":           allBut("recipes/workbook", "cmd/..."),
	"cmd/parewell": {"..."},
	"cmd/envfix":   {},
	"cmd/xserver":  {},
}

// outside are folders the map does not bind.
var outside = []string{"assets/generate", "testdata/..."}

// fences keep packages of others to where they belong, tests included unless
// they may spoil a file to see what the program says.
var fences = []struct {
	imports, only []string
	tests         bool // tests stand outside
}{
	{[]string{"github.com/jmoiron/sqlx/...", "github.com/mattn/go-sqlite3/..."}, []string{"recipes/workbook"}, false},
	{[]string{"database/sql/..."}, []string{"recipes/workbook"}, true},
	{[]string{"fyne.io/fyne/v2/app/..."}, []string{"cmd/parewell"}, false},
	{[]string{"fyne.io/..."}, []string{"ui", "ui/parts", "cmd/parewell"}, false},
	{[]string{"gonum.org/v1/plot/..."}, []string{"charts/..."}, false},
}

// pure packages do no input or output of their own and take time and randomness
// as arguments.
var (
	pure    = []string{"recipes", "recipes/problem", "recipes/words", "recipes/measure", "recipes/food", "recipes/reading", "recipes/ideas", "recipes/cautions", "recipes/tasting", "recipes/demo", "recipes/delimited", "recipes/exchange", "analysis/...", "charts/..."}
	impure  = []string{"os/...", "syscall", "net", "net/http/...", "database/sql/...", "crypto/rand"}
	clock   = []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"}
	sources = []string{"New", "NewPCG", "NewChaCha8", "NewSource", "NewZipf", "Rand", "Source", "PCG", "ChaCha8", "Zipf"}
)

// allBut is every package of the module but some.
func allBut(not ...string) []string {
	return append([]string{"..."}, each("-", not)...)
}

func each(prefix string, list []string) []string {
	var out []string
	for _, s := range list {
		out = append(out, prefix+s)
	}
	return out
}

// among tells whether a path is on a list of patterns; "-x" takes x off it.
func among(p string, list []string) bool {
	in := false
	for _, pattern := range list {
		name, off := strings.CutPrefix(pattern, "-")
		below, deep := strings.CutSuffix(name, "...")
		below = strings.TrimSuffix(below, "/")
		if p == name || deep && (below == "" || p == below || strings.HasPrefix(p, below+"/")) {
			in = !off
		}
	}
	return in
}

// breaches are what one file of a package does against the map.
func breaches(pkg, name string, f *ast.File) []string {
	var out []string
	test := strings.HasSuffix(name, "_test.go")
	say := func(format string, args ...any) {
		out = append(out, path.Join(pkg, name)+": "+fmt.Sprintf(format, args...))
	}
	allowed, known := mayImport[pkg]
	if !known && !among(pkg, outside) {
		say("package %s is not on the map", pkg)
	}
	local := map[string]string{} // what an import is called in the file
	for _, spec := range f.Imports {
		p, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			say("import %s", spec.Path.Value)
			continue
		}
		local[calledAs(spec, p)] = p
		ours, own := strings.CutPrefix(p, "parewell/")
		if own && !test && known && ours != "recipes/problem" && ours != "recipes/words" && !among(ours, allowed) {
			say("may not import %s", ours)
		}
		if own && (pkg == "recipes/problem" || pkg == "recipes/words") && !test {
			say("may not import %s", ours)
		}
		for _, fence := range fences {
			if among(p, fence.imports) && !among(pkg, fence.only) && !among(pkg, outside) && !(test && fence.tests) {
				say("%s is for %s only", p, strings.Join(fence.only, ", "))
			}
		}
		if !test && among(pkg, pure) && among(p, impure) {
			say("is pure and may not import %s", p)
		}
	}
	if !test && among(pkg, pure) {
		for _, use := range drawn(f, local) {
			say("is pure and may not use %s", use)
		}
	}
	return out
}

// drawn lists where a file asks the clock or common dice.
func drawn(f *ast.File, local map[string]string) (out []string) {
	ast.Inspect(f, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := s.X.(*ast.Ident); ok && drawsFromOutside(local[x.Name], s.Sel.Name) {
				out = append(out, x.Name+"."+s.Sel.Name)
			}
		}
		return true
	})
	return out
}

// calledAs is the name a file uses an import by.
func calledAs(spec *ast.ImportSpec, p string) string {
	if spec.Name != nil {
		return spec.Name.Name
	}
	if name := path.Base(p); name != "v2" {
		return name
	}
	return path.Base(path.Dir(p))
}

// drawsFromOutside tells the clock and the randomness nobody handed in.
func drawsFromOutside(pkg, name string) bool {
	switch pkg {
	case "time":
		return slices.Contains(clock, name)
	case "math/rand", "math/rand/v2":
		return !slices.Contains(sources, name)
	}
	return false
}

// TestImportsKeepToTheMap parses every file of the module.
func TestImportsKeepToTheMap(t *testing.T) {
	root := moduleRoot(t)
	files := 0
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && p != root {
			_, other := os.Stat(filepath.Join(p, "go.mod"))
			if strings.HasPrefix(d.Name(), ".") || other == nil {
				return fs.SkipDir
			}
		}
		if d.IsDir() || filepath.Ext(p) != ".go" {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(p))
		if err != nil {
			return err
		}
		files++
		for _, b := range breaches(filepath.ToSlash(rel), filepath.Base(p), f) {
			t.Error(b)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 50 {
		t.Errorf("only %d files were looked at", files)
	}
}

func moduleRoot(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		if dir == filepath.Dir(dir) {
			t.Fatal("no go.mod above")
		}
		dir = filepath.Dir(dir)
	}
}

// TestTheMapCatchesWhatIsPlanted has each rule broken once, and kept once.
func TestTheMapCatchesWhatIsPlanted(t *testing.T) {
	for _, row := range []struct{ name, pkg, file, source, want string }{
		{"a domain package imports the workbook", "recipes", "a.go", `import _ "parewell/recipes/workbook"`, "may not import recipes/workbook"},
		{"a page imports the workbook", "ui", "page_x.go", `import _ "parewell/recipes/workbook"`, "may not import recipes/workbook"},
		{"a part imports the workbook", "ui/parts", "a.go", `import _ "parewell/recipes/workbook"`, "may not import recipes/workbook"},
		{"a part imports the desk", "ui/parts", "a.go", `import _ "parewell/ui/desk"`, "may not import ui/desk"},
		{"the window imports the command", "ui", "a.go", `import _ "parewell/cmd/parewell"`, "may not import cmd/parewell"},
		{"an arrow to the right", "recipes/food", "a.go", `import _ "parewell/recipes"`, "may not import recipes"},
		{"siblings", "analysis/claims", "a.go", `import _ "parewell/analysis/sensory"`, "may not import analysis/sensory"},
		{"words import a problem", "recipes/words", "a.go", `import _ "parewell/recipes/problem"`, "may not import recipes/problem"},
		{"SQL in a page", "ui", "a.go", `import _ "github.com/jmoiron/sqlx"`, "is for recipes/workbook only"},
		{"SQL in a test", "recipes", "a_test.go", `import _ "github.com/mattn/go-sqlite3"`, "is for recipes/workbook only"},
		{"database/sql in a command", "cmd/parewell", "a.go", `import _ "database/sql"`, "is for recipes/workbook only"},
		{"Fyne at the desk", "ui/desk", "a.go", `import _ "fyne.io/fyne/v2"`, "is for ui, ui/parts, cmd/parewell only"},
		{"Fyne in sheets", "ui/sheets", "a.go", `import _ "fyne.io/fyne/v2/widget"`, "is for ui, ui/parts, cmd/parewell only"},
		{"Fyne's app in the window", "ui", "a.go", `import _ "fyne.io/fyne/v2/app"`, "is for cmd/parewell only"},
		{"plots outside charts", "ui", "a.go", `import _ "gonum.org/v1/plot/vg"`, "is for charts/... only"},
		{"files in the domain", "recipes", "a.go", `import _ "os"`, "is pure and may not import os"},
		{"a process in a chart", "charts", "a.go", `import _ "os/exec"`, "is pure and may not import os/exec"},
		{"the clock in an analysis", "analysis/sensory", "a.go", `import "time"; var x = time.Now()`, "may not use time.Now"},
		{"the clock under another name", "analysis/sensory", "a.go", `import clock "time"; var x = clock.Now`, "may not use clock.Now"},
		{"dice nobody handed in", "analysis/sensory", "a.go", `import "math/rand/v2"; var x = rand.IntN(6)`, "may not use rand.IntN"},
		{"old dice", "charts", "a.go", `import "math/rand"; var x = rand.Float64()`, "may not use rand.Float64"},
		{"the system's dice", "recipes", "a.go", `import _ "crypto/rand"`, "is pure and may not import crypto/rand"},
		{"a package nobody put on the map", "ui/odd", "a.go", ``, "is not on the map"},

		{"seeded dice", "analysis/sensory", "a.go", `import "math/rand/v2"; var x = rand.New(rand.NewPCG(1, 2))`, ""},
		{"time as a value", "recipes", "a.go", `import "time"; var x time.Time`, ""},
		{"a spoilt file in a test", "cmd/parewell", "a_test.go", `import _ "database/sql"`, ""},
		{"files in a test", "recipes", "a_test.go", `import _ "os"; import _ "parewell/recipes/reading"`, ""},
		{"the workbook at the desk", "ui/desk", "a.go", `import _ "parewell/recipes/workbook"; import _ "os"`, ""},
		{"Fyne in a floor", "testdata/floors/window", "a.go", `import _ "fyne.io/fyne/v2/app"`, ""},
		{"an error anywhere", "analysis/meals", "a.go", `import _ "parewell/recipes/problem"; import _ "parewell/recipes/words"`, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			f, err := parser.ParseFile(token.NewFileSet(), row.file, "package x\n"+row.source, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			got := strings.Join(breaches(row.pkg, row.file, f), "\n")
			if row.want == "" && got != "" || !strings.Contains(got, row.want) {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}
