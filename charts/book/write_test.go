package book

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"parewell/analysis/claims"
	"parewell/assets"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// someDay stands in the documents of tests.
var someDay = time.Date(2026, 4, 1, 12, 0, 0, 0, time.UTC)

func written(t *testing.T, write func(io.Writer) error) []byte {
	t.Helper()
	var one, two bytes.Buffer
	if err := errors.Join(write(&one), write(&two)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(one.Bytes(), two.Bytes()) {
		t.Error("the same page should give the same bytes")
	}
	return one.Bytes()
}

func docxOf(p *Page) func(io.Writer) error {
	return func(w io.Writer) error { return p.WriteDOCX(w, someDay) }
}

func table(t *testing.T) *food.Table {
	t.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		t.Fatal(err)
	}
	return food.NewTable(foods)
}

// TestThePageComesBack reads the JSON-LD and the plain text of printed pages with
// the program's own reader.
func TestThePageComesBack(t *testing.T) {
	foods := table(t)
	for _, row := range []struct {
		recipe int
		letter string
		units  Units
		code   string // of the language
	}{
		{0, "", Metric, "en"},
		{0, "E", Metric, "en"},
		{1, "B", US, "en"},
		{2, "A", US, "en"},
		{0, "", Metric, "fr"},
		{0, "E", US, "fr"},
		{1, "B", US, "fr"},
		{2, "A", Metric, "fr"},
	} {
		t.Run(fmt.Sprint(row), func(t *testing.T) {
			defer words.Use(words.Current())
			words.Use(words.Find(row.code))
			o := Usual(row.units, claims.US)
			p := pageOf(t, row.recipe, row.letter, o)
			opt := reading.Options{Foods: foods, System: measure.US}
			if row.units == Metric {
				opt.System = measure.Metric
			}
			drafts, err := reading.ReadJSONLD(written(t, p.WriteJSONLD), opt)
			if err != nil {
				t.Fatal(err)
			}
			sameRecipe(t, "JSON-LD", p, drafts[0], p.Title)
			text := string(written(t, p.WriteText))
			draft, err := reading.ReadText(text, opt)
			if err != nil {
				t.Fatal(err)
			}
			sameRecipe(t, "text", p, draft, p.Title)
		})
	}
}

func sameRecipe(t *testing.T, form string, p *Page, d *reading.Draft, title string) {
	t.Helper()
	var lines []string
	for _, s := range p.Sections {
		for i := range s.Lines {
			lines = append(lines, s.Lines[i].In(0))
		}
	}
	var back []string
	for _, l := range d.Lines {
		back = append(back, l.Text)
	}
	if !slices.Equal(lines, back) {
		t.Errorf("%s: ingredients %q,\nwant %q", form, back, lines)
	}
	if d.Title != title || d.Servings != p.Servings || len(d.Steps) != len(p.Steps) {
		t.Errorf("%s: title %q, %v servings, %d steps", form, d.Title, d.Servings, len(d.Steps))
	}
	for i, s := range p.Steps {
		if d.Steps[i] != s.Text {
			t.Errorf("%s: step %q, want %q", form, d.Steps[i], s.Text)
		}
	}
}

// published are the properties of the types that are written and what each may
// hold, as schema.org publishes them: the type's own and those it has from HowTo,
// CreativeWork and Thing that a recipe may use. Read in schema-dts 2.1.0 (Apache-2.0),
// which is made from the vocabulary; NutritionInformation also on its page at
// schema.org. ("@" begins a type of object.)
var published = map[string]map[string]string{
	"Recipe": {
		"cookTime": "Duration", "cookingMethod": "Text", "nutrition": "@NutritionInformation", "recipeCategory": "Text", "recipeCuisine": "Text",
		"recipeIngredient": "Text", "recipeInstructions": "@HowToStep", "recipeYield": "Text", "suitableForDiet": "@RestrictedDiet",
		"prepTime": "Duration", "totalTime": "Duration", "author": "@Person", "dateCreated": "Date", "datePublished": "Date", "inLanguage": "Text",
		"keywords": "Text", "text": "Text", "version": "Text", "description": "Text", "image": "URL", "name": "Text", "url": "URL",
	},
	"NutritionInformation": {
		"calories": "Energy", "carbohydrateContent": "Mass", "cholesterolContent": "Mass", "fatContent": "Mass", "fiberContent": "Mass", "proteinContent": "Mass",
		"saturatedFatContent": "Mass", "servingSize": "Text", "sodiumContent": "Mass", "sugarContent": "Mass", "transFatContent": "Mass", "unsaturatedFatContent": "Mass",
	},
	"HowToStep": {"text": "Text", "name": "Text", "url": "URL", "image": "URL", "position": "Integer", "itemListElement": "Text"},
}

// valueForms are how values of those sorts are written: masses and energies as a
// number and a unit (schema.org/Mass, schema.org/Energy).
var valueForms = map[string]*regexp.Regexp{
	"Text":   regexp.MustCompile(`\S`),
	"Mass":   regexp.MustCompile(`^\d+(\.\d+)? m?g$`),
	"Energy": regexp.MustCompile(`^\d+ kcal$`),
}

// vocabularyFaults are what a JSON-LD object has that the vocabulary has not; seen
// takes the types it met.
func vocabularyFaults(v map[string]any, seen map[string]bool) (faults []string) {
	kind, _ := v["@type"].(string)
	seen[kind] = true
	for k, e := range v {
		if strings.HasPrefix(k, "@") {
			continue
		}
		sort := published[kind][k]
		if sort == "" {
			faults = append(faults, kind+" has no property "+k)
			continue
		}
		all, many := e.([]any)
		if !many {
			all = []any{e}
		}
		for _, x := range all {
			text, isText := x.(string)
			inner, isObject := x.(map[string]any)
			switch {
			case isObject && sort == "@"+fmt.Sprint(inner["@type"]):
				faults = append(faults, vocabularyFaults(inner, seen)...)
			case !isText || valueForms[sort] == nil || !valueForms[sort].MatchString(text):
				faults = append(faults, fmt.Sprintf("%s of %s is %v, not a %s", k, kind, x, sort))
			}
		}
	}
	return faults
}

func TestTheVocabularyIsThePublishedOne(t *testing.T) {
	seen := map[string]bool{}
	for _, letter := range []string{"", "B", "E"} {
		p := pageOf(t, 0, letter, Usual(Both, claims.EU))
		var v map[string]any
		if err := json.Unmarshal(written(t, p.WriteJSONLD), &v); err != nil {
			t.Fatal(err)
		}
		if v["@context"] != "https://schema.org" {
			t.Errorf("context %v", v["@context"])
		}
		for _, fault := range vocabularyFaults(v, seen) {
			t.Error(fault)
		}
		n, _ := v["nutrition"].(map[string]any)
		if size, ok := n["servingSize"].(string); !ok || !strings.Contains(p.Weight, size) {
			t.Errorf("a serving is %v, the page says %q", n["servingSize"], p.Weight)
		}
	}
	for kind := range published {
		if !seen[kind] {
			t.Errorf("no %s was written", kind)
		}
	}
	strange := map[string]any{"@type": "Recipe", "salt": "1 g", "nutrition": map[string]any{"@type": "NutritionInformation", "fatContent": "much"}}
	if faults := vocabularyFaults(strange, map[string]bool{}); len(faults) != 2 {
		t.Errorf("of two faults these were found: %q", faults)
	}
}

// TestThePDFIsText has another program read the words back.
func TestThePDFIsText(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	path := filepath.Join(t.TempDir(), "book.pdf")
	data := written(t, harbourBook(t, Metric).WritePDF)
	look(t, "book.pdf", data)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := string(out)
	for _, want := range []string{"Contents", "150 ml double cream", "of which saturates", "Rub the oil", "Nutrition before and after", "Index by ingredient", "What does not hold together yet"} {
		if !strings.Contains(text, want) {
			t.Errorf("the PDF has no %q", want)
		}
	}
	pages := strings.Split(text, "\f")
	for _, m := range regexp.MustCompile(`(?m)^ *(Smoked haddock and leek gratin|Lemon and almond loaf) \(\w\) +(\d+)$`).FindAllStringSubmatch(pages[0], -1) {
		n := 0
		if _, err := fmt.Sscan(m[2], &n); err != nil || !strings.HasPrefix(strings.TrimSpace(pages[n-1]), m[1]) {
			t.Errorf("%s is not on page %s, as the contents have it", m[1], m[2])
		}
	}
}

func TestNothingRunsOffThePage(t *testing.T) {
	for _, units := range []Units{Metric, US, Both} {
		for _, rule := range []claims.Authority{claims.US, claims.EU} {
			p := pageOf(t, 0, "E", Usual(units, rule))
			s := newSetter(p.Paper())
			if err := s.recipe(p); err != nil {
				t.Fatal(err)
			}
			for n, page := range s.pages {
				for _, x := range page.Texts {
					if right := x.X + s.Width(x.Text, x.Size, x.Bold); x.X < pdfSide-1 || right > page.Paper.Width-pdfSide+2 || x.Y > page.Paper.Height-pdfFoot+2 {
						t.Errorf("%s by %s, page %d: %q runs from %.0f to %.0f, %.0f down", units, rule, n+1, x.Text, x.X, right, x.Y)
					}
				}
			}
		}
	}
}

func TestHTMLStandsAlone(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Both, claims.EU))
	data := written(t, p.WriteHTML)
	look(t, "page.html", data)
	if !bytes.HasPrefix(data, []byte("<!DOCTYPE html>\n")) {
		t.Error("no doctype")
	}
	seen := map[string]int{}
	wellFormed(t, "the page", data, func(e xml.StartElement) {
		seen[e.Name.Local]++
		for _, a := range e.Attr {
			outside := strings.Contains(a.Value, "//") && !strings.HasPrefix(a.Value, "data:") && a.Name.Local != "xmlns"
			if outside || a.Name.Local == "src" && !strings.HasPrefix(a.Value, "data:image/svg+xml;base64,") {
				t.Errorf("%s %s=%q comes from outside", e.Name.Local, a.Name.Local, a.Value)
			}
		}
		if e.Name.Local == "img" && len(attr(e, "alt")) < 40 {
			t.Errorf("the picture says %q", attr(e, "alt"))
		}
	})
	for tag, least := range map[string]int{"h1": 1, "article": 1, "section": 6, "thead": 2, "th": 10, "ol": 1, "figure": 1, "style": 1} {
		if seen[tag] < least {
			t.Errorf("%d of %s, want %d at least", seen[tag], tag, least)
		}
	}
	if bytes.Contains(data, []byte("url(")) || bytes.Contains(data, []byte("@import")) {
		t.Error("the style takes something from elsewhere")
	}
	wellFormed(t, "the book", written(t, harbourBook(t, US).WriteHTML), nil)
}

// TestTextsThatAreHardToWrite: titles and lines full of marks stay text in every
// form.
func TestTextsThatAreHardToWrite(t *testing.T) {
	b := gaps(t)
	p, err := PageOf(b, "r", "v", Usual(Both, claims.EU))
	if err != nil {
		t.Fatal(err)
	}
	p.Title = "1. <b>Pie</b> & \x00\x1b*chips* | #1 \uFFFE"
	p.Headnote = "```\n<script>alert(1)</script>"
	html := written(t, p.WriteHTML)
	wellFormed(t, "HTML", html, func(e xml.StartElement) {
		if e.Name.Local == "b" || e.Name.Local == "script" && attr(e, "type") != "application/ld+json" {
			t.Errorf("a text became the element %s", e.Name.Local)
		}
	})
	for name, data := range unzip(t, written(t, docxOf(p))) {
		if strings.HasSuffix(name, ".xml") {
			wellFormed(t, name, data, nil)
		}
	}
	md := string(written(t, p.WriteMarkdown))
	if first, _, _ := strings.Cut(md, "\n"); !strings.HasPrefix(first, `# 1\. \<b\>Pie\</b\> & `) || !strings.Contains(first, `\*chips\* \| \#1`) {
		t.Errorf("Markdown title %q", first)
	}
	written(t, p.WritePDF)
	written(t, p.WriteText)
}

// TestMarkdownEscapesOnlyMarks: what begins a list is kept from it, a figure stays
// as it is (CommonMark 0.31, 5.2: a list marker is followed by a space or nothing).
func TestMarkdownEscapesOnlyMarks(t *testing.T) {
	for in, want := range map[string]string{
		"1. Pie": `1\. Pie`, "2) Pie": `2\) Pie`, "7.": `7\.`, "8.8 g": "8.8 g", "0.56 to 0.48 g": "0.56 to 0.48 g", "- x": `\- x`, "*x*": `\*x\*`,
	} {
		if got := escape(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestAFullDisk(t *testing.T) {
	m := harbourBook(t, Metric)
	for _, f := range append(m.BookFiles(), m.Pages[0].Files("x", m)...) {
		if err := f.Write(fullDisk{}); err == nil {
			t.Errorf("%s was written to a full disk", f.Name)
		}
	}
}
