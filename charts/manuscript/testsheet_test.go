package manuscript

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
)

// gratin is a recipe of two sections with a version that halves the butter,
// leaves the salt out, rewrites a step twice and drops another.
func gratin(t *testing.T) (*recipes.Book, *recipes.Recipe, *recipes.Version) {
	t.Helper()
	line := func(id, section, text, name string, g float64) *recipes.Line {
		l := &recipes.Line{ID: recipes.ID(id), Section: section, Text: text, Name: name, Grams: g, GramsFrom: recipes.GramsWeight, PartEaten: 1}
		if g == 0 {
			l.GramsFrom = recipes.GramsUnknown
		}
		return l
	}
	r := &recipes.Recipe{
		ID: "r", Title: "Leek and smoked haddock gratin", Servings: 6, Edition: 1,
		Lines: []*recipes.Line{
			line("milk", "", "500 ml whole milk", "whole milk", 515),
			line("butter", "For the top", "60 g butter, melted", "butter", 60),
			line("salt", "For the top", "5 g salt", "salt", 5),
			line("pepper", "For the top", "black pepper to taste", "black pepper", 0),
		},
		Steps: []*recipes.Step{{ID: "s1", Text: "Warm the milk."}, {ID: "s2", Text: "Melt the butter."}, {ID: "s3", Text: "Salt the water."}},
	}
	r.Lines[1].Prep = "melted"
	swap := func(id string, ops ...recipes.Op) recipes.Verb {
		return recipes.AddSwap(&recipes.Swap{ID: recipes.ID(id), Recipe: "r", Name: id, Ops: ops}, nil, "a")
	}
	b := &recipes.Book{}
	for _, v := range []recipes.Verb{
		recipes.AddRecipe(r, nil), recipes.AddVersion("r", "a", "half the butter", ""),
		swap("half", recipes.Op{Kind: recipes.OpMultiply, Line: "butter", Factor: .5}, recipes.Op{Kind: recipes.OpStepReplace, Step: "s2", Text: "Melt half the butter."}),
		swap("oil", recipes.Op{Kind: recipes.OpRemove, Line: "salt"}, recipes.Op{Kind: recipes.OpStepReplace, Step: "s2", Text: "Warm the oil."}, recipes.Op{Kind: recipes.OpStepDrop, Step: "s3"}),
	} {
		c, err := v(b)
		if err == nil {
			b, err = b.With(c)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return b, b.Recipe("r"), b.Version("r", "a")
}

func TestTheSheetOfAVersion(t *testing.T) {
	b, r, v := gratin(t)
	s := TestSheetOf(b, r, v)
	var got []string
	for _, in := range s.Ingredients {
		got = append(got, in.Text+" "+in.Grams)
	}
	want := "500 ml whole milk 515 g|For the top |butter, melted 30 g|black pepper to taste ?"
	if strings.Join(got, "|") != want {
		t.Errorf("ingredients %q,\nwant %q", got, want)
	}
	if got := strings.Join(s.Steps, "|"); got != "Warm the milk.|Melt half the butter. [or] Warm the oil." {
		t.Errorf("steps %q", got)
	}
	if s.Letter != "A" || s.Name != "half the butter" || s.Serves != "serves 6" {
		t.Errorf("head %+v", s)
	}
	if o := TestSheetOf(b, r, nil); o.Letter != "" || len(o.Ingredients) != 5 || len(o.Steps) != 3 {
		t.Errorf("the original %+v", o)
	}
}

func TestOnePageAVersionWithEveryBlank(t *testing.T) {
	b, r, v := gratin(t)
	for _, paper := range []Paper{A4, Letter} {
		d := TestSheets(paper, []TestSheet{TestSheetOf(b, r, nil), TestSheetOf(b, r, v)})
		if len(d.Pages) != 2 {
			t.Fatalf("%s: %d pages, want one a version", paper.Key, len(d.Pages))
		}
		words := d.Pages[1].Words()
		for _, want := range []string{
			"Leek and smoked haddock gratin", "A", "Version A: half the butter · serves 6", "Test no.", "Date", "Cook",
			"butter, melted", "30 g", "as cooked", "Full dish", "Empty dish", "Bones, shells", "Servings cut", "Heat", "°C / °F",
			"In at", "Out at", "Minutes", "Went well", "Went wrong", "Next time", "Melt half the butter. [or] Warm the oil.",
		} {
			if !strings.Contains("\n"+words+"\n", "\n"+want+"\n") {
				t.Errorf("%s: no %q on the page", paper.Key, want)
			}
		}
		if strings.Contains(words, "Salt the water") {
			t.Error("a dropped step is printed")
		}
		inside(t, d)
	}
}

// inside checks that nothing is set beyond the margins and no text runs into
// another on its line.
func inside(t *testing.T, d *Document) {
	t.Helper()
	var m typing
	for n, p := range d.Pages {
		for i, a := range p.Texts {
			end := a.X + m.width(a.Text, a.Size, a.Bold)
			if a.X < marginSide-0.1 || end > p.Paper.Width-marginSide+0.1 || a.Y < marginTop || a.Y > p.Paper.Height-15 {
				t.Errorf("page %d: %q at %.0f-%.0f, %.0f is off the page", n, a.Text, a.X, end, a.Y)
			}
			for _, b := range p.Texts[:i] {
				if a.Y == b.Y && a.X < b.X+m.width(b.Text, b.Size, b.Bold)-0.1 && b.X < end-0.1 {
					t.Errorf("page %d: %q runs into %q", n, a.Text, b.Text)
				}
			}
		}
		for _, r := range p.Rules {
			if min(r.X1, r.X2) < marginSide-1 || max(r.X1, r.X2) > p.Paper.Width-marginSide+1 || max(r.Y1, r.Y2) > p.Paper.Height-marginFoot+1 {
				t.Errorf("page %d: the rule %+v is off the page", n, r)
			}
		}
	}
}

// long is a sheet of so many ingredients and steps.
func long(ingredients, steps int) TestSheet {
	s := TestSheet{Title: "A very long feast for the whole harbour, with everything that came in on the morning boats and more", Letter: "H", Serves: "serves 40"}
	for i := range ingredients {
		s.Ingredients = append(s.Ingredients, Ingredient{Text: fmt.Sprintf("ingredient %d, very finely chopped, rinsed and drained", i), Grams: "1.25 kg"})
	}
	for i := range steps {
		s.Steps = append(s.Steps, fmt.Sprintf("Step %d: stir and wait. ", i)+strings.Repeat("Stir the pot and wait until it thickens. ", 3))
	}
	return s
}

func TestLongRecipes(t *testing.T) {
	for _, row := range []struct {
		name               string
		ingredients, steps int
		pages              int
	}{
		{"nothing yet", 0, 0, 1},
		{"ingredients only", 12, 0, 1},
		{"a usual recipe", 14, 7, 1},
		{"smaller letters", 16, 9, 1},
		{"two pages", 30, 4, 2},
		{"a long method", 3, 35, 3},
	} {
		for _, paper := range []Paper{A4, Letter} {
			d := TestSheets(paper, []TestSheet{long(row.ingredients, row.steps)})
			inside(t, d)
			all := ""
			for i := range d.Pages {
				all += d.Pages[i].Words() + "\n"
			}
			if got := len(d.Pages); got != row.pages {
				t.Errorf("%s on %s: %d pages, want %d", row.name, paper.Key, got, row.pages)
			}
			for i := range row.ingredients {
				if strings.Count(all, fmt.Sprintf("ingredient %d,", i)) != 1 {
					t.Errorf("%s on %s: ingredient %d is not there once", row.name, paper.Key, i)
				}
			}
			for i := range row.steps {
				if strings.Count(all, fmt.Sprintf("Step %d:", i)) != 1 {
					t.Errorf("%s on %s: step %d is not there once", row.name, paper.Key, i)
				}
			}
			if strings.Count(all, "Went wrong") != 1 || (row.pages > 1) != strings.Contains(all, "page 1 of") {
				t.Errorf("%s on %s: blanks or page numbers", row.name, paper.Key)
			}
		}
	}
}

func TestTextThatIsHardToSet(t *testing.T) {
	var m typing
	for in, want := range map[string]string{
		"crème fraîche, ½ cup":   "crème fraîche, ½ cup",
		"two\nlines\tof it":      "two lines of it",
		"leek 🥬 pie":             "leek ? pie",
		"heart ❤️ of palm":       "heart ? of palm",
		"180 °C – 350 °F ≥ half": "180 °C – 350 °F ≥ half",
		"soft\u00adhyphen":       "soft\u00adhyphen",
		"":                       "",
	} {
		if got := m.printable(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
	word := strings.Repeat("m", 300)
	lines := m.wrap("a "+word+" z", 10, 100, false)
	if got := strings.Join(lines, ""); strings.ReplaceAll(got, " ", "") != "a"+word+"z" {
		t.Errorf("a long word lost letters: %d lines", len(lines))
	}
	for _, l := range lines {
		if m.width(l, 10, false) > 100 {
			t.Errorf("%q is wider than the column", l)
		}
	}
	s := long(3, 3)
	s.Title, s.Letter, s.Name = word, "AB", word
	inside(t, TestSheets(A4, []TestSheet{s}))
}

type badDisk struct{}

func (badDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestWritingPDF(t *testing.T) {
	b, r, v := gratin(t)
	d := TestSheets(A4, []TestSheet{TestSheetOf(b, r, nil), TestSheetOf(b, r, v)})
	var one, two bytes.Buffer
	if err := errors.Join(d.WritePDF(&one), d.WritePDF(&two)); err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(one.Bytes(), []byte("%PDF-1.")) || !bytes.Equal(one.Bytes(), two.Bytes()) {
		t.Error("the same pages should give the same PDF file")
	}
	if n := bytes.Count(one.Bytes(), []byte("/Type /Page\n")); n != 2 {
		t.Errorf("%d pages in the file, want 2", n)
	}
	if err := d.WritePDF(badDisk{}); err == nil || !strings.Contains(err.Error(), "could not be written") {
		t.Errorf("a full disk: %v", err)
	}
	if err := (&Document{}).WritePDF(&one); err == nil {
		t.Error("no pages should be told")
	}
	t.Logf("two pages: %d kB", two.Len()>>10)
	look(t, "small-a4", d)
	look(t, "usual-a4", TestSheets(A4, []TestSheet{long(14, 7)}))
	look(t, "usual-letter", TestSheets(Letter, []TestSheet{long(14, 7)}))
	look(t, "long-letter", TestSheets(Letter, []TestSheet{long(45, 12)}))
}

// look writes a document to the folder PAREWELL_LOOK names.
func look(t *testing.T, name string, d *Document) {
	t.Helper()
	dir := os.Getenv("PAREWELL_LOOK")
	if dir == "" {
		return
	}
	var b bytes.Buffer
	if err := d.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".pdf"), b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestTextStaysText has another program read the words and the paper's size
// back, where it is installed.
func TestTextStaysText(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	b, r, v := gratin(t)
	for _, row := range []struct {
		paper Paper
		size  string
	}{{A4, "595.28 x 841.89"}, {Letter, "612 x 792"}} {
		var pdf bytes.Buffer
		if err := TestSheets(row.paper, []TestSheet{TestSheetOf(b, r, v)}).WritePDF(&pdf); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(path, pdf.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		text, err := exec.Command("pdftotext", "-layout", path, "-").Output()
		if err != nil || !strings.Contains(string(text), "butter, melted") || !strings.Contains(string(text), "°C / °F") {
			t.Errorf("read back %q, %v", text, err)
		}
		info, err := exec.Command("pdfinfo", path).Output()
		if err != nil || !strings.Contains(string(info), row.size) {
			t.Errorf("%s: %s %v", row.paper.Key, info, err)
		}
	}
}

// TestAmountsInTheMethodGoWithThePot has a pot of less than half the recipe.
func TestAmountsInTheMethodGoWithThePot(t *testing.T) {
	b, r, v := gratin(t)
	d := b.Draft(r, v)
	d.Steps = []recipes.DraftStep{{ID: "s1", Texts: []string{"Warm 100 ml of the milk with the 60 g butter."}}, {ID: "s2", Texts: []string{"Add 1 litre boiling water; bake at 200 C for 25 minutes."}}}
	if got, want := strings.Join(sheetOf(d, 0.46).Steps, "|"), "Warm 46 ml of the milk with the 14 g butter.|Add 1 litre boiling water; bake at 200 C for 25 minutes. [amounts in this step are for the whole recipe]"; got != want {
		t.Errorf("a part of the recipe: %q,\nwant %q", got, want)
	}
	if got, want := strings.Join(sheetOf(d, 1).Steps, "|"), "Warm 100 ml of the milk with the 30 g butter.|Add 1 litre boiling water; bake at 200 C for 25 minutes."; got != want {
		t.Errorf("the whole recipe: %q,\nwant %q", got, want)
	}
	inside(t, TestSheets(Letter, []TestSheet{sheetOf(d, 0.46)}))
}
