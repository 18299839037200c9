package main

import (
	"cmp"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

var printFlags = []flagSpec{
	{"to", true},
	{"recipe", true},
	{"version", true},
	{"units", true},
	{"rule", true},
	{"book", false},
	{"formats", true},
	{"width", true},
	{"dpi", true},
	{"attribute", true},
	{"figures-of", true},
	{"tasting", true},
	{"nutrient", true},
	{"only", true},
	{"proof", false},
	{"language", true},
	{"json", false},
}

// printReport is the JSON of print.
type printReport struct {
	Pages  []*book.Page `json:"pages"`
	Report []book.Open  `json:"report,omitempty"` // with --book
	Files  []string     `json:"files"`
}

// runPrint writes printed pages in every form, and the whole book.
func runPrint(c *call) (int, error) {
	g, err := parse(c.args, printFlags)
	if err == nil {
		err = cmp.Or(oneFile(c, g), toFolder(c, g))
	}
	if err != nil {
		return exitBad, err
	}
	b, err := readBook(g.operands[0])
	if err != nil {
		return exitBad, err
	}
	m, files, err := inLanguage(g, b)
	if err != nil {
		return exitBad, err
	}
	folder, err := openFolder(g.flags["to"])
	if err != nil {
		return exitBad, err
	}
	if err := folder.end(putAll(folder, files)); err != nil {
		return exitBad, err
	}
	return exitWell, sayPrinted(c, g, m, files)
}

// inLanguage makes the pages and their files in the language that --language
// names, else in the program's, which says all else.
func inLanguage(g *given, b *recipes.Book) (m *book.Manuscript, files []book.File, err error) {
	code := g.flags["language"]
	if code != "" && words.Find(code) == nil {
		return nil, nil, noLanguage("--language", code)
	}
	err = book.Speaking(code, func() error {
		if m, err = printed(g, b); err == nil {
			files, err = printFiles(g, b, m)
		}
		return err
	})
	return m, book.Spoken(code, files), err
}

// printed makes the pages that the flags ask for, else as the workbook says.
func printed(g *given, b *recipes.Book) (*book.Manuscript, error) {
	name := g.operands[0]
	o, err := printOptions(g, b)
	if err != nil {
		return nil, err
	}
	chosen := book.Chosen(b)
	if g.has("recipe") || g.has("version") || len(chosen) == 0 {
		of, err := chosenRecipes(name, b, g)
		if err != nil {
			return nil, err
		}
		chosen = chosen[:0]
		for _, r := range of {
			c, err := printedVersion(g, b, r)
			if err != nil {
				return nil, err
			}
			chosen = append(chosen, c)
		}
	}
	title := cmp.Or(b.Setting(book.SettingTitle), strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)))
	return book.ManuscriptOf(b, title, chosen, o, time.Now())
}

// printOptions are those of the workbook with what the flags say instead; another
// rule brings what is usual under it.
func printOptions(g *given, b *recipes.Book) (book.Options, error) {
	o := book.OptionsOf(b)
	if text := g.flags["units"]; text != "" {
		units, err := book.ParseUnits(text)
		if err != nil {
			return o, problem.At("--units", err)
		}
		o.Units = units
	}
	if text := g.flags["rule"]; text != "" {
		rule, err := book.ParseRule(text)
		if err != nil {
			return o, problem.At("--rule", err)
		}
		if rule != o.Rule {
			o = book.Usual(o.Units, rule)
		}
	}
	return o, nil
}

// printedVersion is the version --version names, else the one chosen for the
// book.
func printedVersion(g *given, b *recipes.Book, r *recipes.Recipe) (book.Choice, error) {
	letter, asked := g.flags["version"]
	switch {
	case !asked:
		return book.ChoiceOf(b, r), nil
	case strings.EqualFold(letter, "original"):
		return book.Choice{Recipe: r.ID}, nil
	}
	for _, v := range b.Versions(r.ID) {
		if strings.EqualFold(v.Letter, letter) {
			return book.Choice{Recipe: r.ID, Version: v.ID}, nil
		}
	}
	return book.Choice{}, problem.New("--version "+letter, words.Say("cmd.claims.version", r.Title), "")
}

// usualWide is the width of figures in millimetres: a text column.
const usualWide = 160.0

// printFiles are the files of the pages, and of the book where it is asked for.
func printFiles(g *given, b *recipes.Book, m *book.Manuscript) ([]book.File, error) {
	o := book.FigureOptions{Proof: g.has("proof"), Score: g.flags["attribute"]}
	if list := g.flags["formats"]; list != "" {
		for _, f := range strings.Split(list, ",") {
			o.Formats = append(o.Formats, strings.ToLower(strings.TrimSpace(f)))
		}
	}
	wide, err := positive(g, "width", usualWide)
	if err != nil {
		return nil, err
	}
	dpi, err := positive(g, "dpi", chartDPI)
	if err != nil {
		return nil, err
	}
	o.DPI = int(dpi)
	if o.Only, err = onlyFigures(g); err != nil {
		return nil, err
	}
	if g.has("figures-of") {
		return figuresOf(g, b, wide, o)
	}
	files, err := m.RecipeFiles(b, wide, o)
	if err != nil {
		return nil, err
	}
	if g.has("book") {
		files = append(files, m.BookFiles()...)
	}
	return files, nil
}

// positive reads a flag's number above 0.
func positive(g *given, name string, usual float64) (float64, error) {
	text, ok := g.flags[name]
	if !ok {
		return usual, nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v > 0) || v > 1e6 {
		return 0, problem.New("--"+name, words.Say("cmd.print.number", text), words.Say("cmd.print.number.hint"))
	}
	return v, nil
}

// putAll writes files; one whose name has a folder goes into that.
func putAll(to *folder, files []book.File) error {
	for _, f := range files {
		if dir := path.Dir(f.Name); dir != "." {
			inside := filepath.Join(to.path, filepath.FromSlash(dir))
			if err := os.MkdirAll(inside, 0o755); err != nil {
				return writeFault(inside, err)
			}
		}
		if err := to.put(f.Name, f.Write); err != nil {
			return err
		}
	}
	return nil
}

// sayPrinted lists what was written and what is still open on each page.
func sayPrinted(c *call, g *given, m *book.Manuscript, files []book.File) error {
	if g.has("json") {
		r := printReport{Pages: m.Pages, Files: []string{}}
		if g.has("book") {
			r.Report = m.Report
		}
		for _, f := range files {
			r.Files = append(r.Files, f.Name)
		}
		return writeJSON(c.out, r)
	}
	for _, f := range files {
		if _, err := fmt.Fprintln(c.out, words.Say("cmd.export.wrote", f.Name)); err != nil {
			return err
		}
	}
	for _, p := range m.Pages {
		if n := len(p.Open) + len(p.Editor); n > 0 {
			if _, err := fmt.Fprintln(c.out, words.Say("cmd.print.open", n, p.Title)); err != nil {
				return err
			}
		}
	}
	return nil
}
