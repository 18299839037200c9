package main

import (
	"cmp"
	"errors"
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
	{"proof", false},
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
	m, err := printed(g, b)
	if err != nil {
		return exitBad, err
	}
	files, err := printFiles(g, b, m)
	if err != nil {
		return exitBad, err
	}
	folder, err := openFolder(g.flags["to"])
	if err != nil {
		return exitBad, err
	}
	err = errors.Join(putAll(folder, files), folder.close())
	if err != nil {
		return exitBad, err
	}
	return exitWell, sayPrinted(c, g, m, files)
}

// printed makes the pages that the flags ask for.
func printed(g *given, b *recipes.Book) (*book.Manuscript, error) {
	name := g.operands[0]
	units, err := book.ParseUnits(g.flags["units"])
	if err != nil {
		return nil, problem.At("--units", err)
	}
	rule, err := book.ParseRule(g.flags["rule"])
	if err != nil {
		return nil, problem.At("--rule", err)
	}
	chosen, err := chosenRecipes(name, b, g)
	if err != nil {
		return nil, err
	}
	var choices []book.Choice
	for _, r := range chosen {
		v, err := printedVersion(g, b, r)
		if err != nil {
			return nil, err
		}
		choices = append(choices, book.Choice{Recipe: r.ID, Version: v})
	}
	title := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	return book.ManuscriptOf(b, title, choices, book.Usual(units, rule), time.Now())
}

// printedVersion is the version --version names, else the newest.
func printedVersion(g *given, b *recipes.Book, r *recipes.Recipe) (recipes.ID, error) {
	letter, asked := g.flags["version"]
	all := b.Versions(r.ID)
	if asked && strings.EqualFold(letter, "original") || !asked && len(all) == 0 {
		return "", nil
	}
	if !asked {
		return all[len(all)-1].ID, nil
	}
	for _, v := range all {
		if strings.EqualFold(v.Letter, letter) {
			return v.ID, nil
		}
	}
	return "", problem.New("--version "+letter, words.Say("cmd.claims.version", r.Title), "")
}

// usualWide is the width of figures in millimetres: a text column.
const usualWide = 160.0

// printFiles are the files of the pages, and of the book where it is asked for.
func printFiles(g *given, b *recipes.Book, m *book.Manuscript) ([]book.File, error) {
	o := book.FigureOptions{Proof: g.has("proof")}
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
			if err := os.MkdirAll(filepath.Join(to.path, filepath.FromSlash(dir)), 0o755); err != nil {
				return fileFault(dir, err)
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
