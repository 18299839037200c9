package book

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"image"
	"image/png"
	"regexp"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/recipes"
)

// harbourBook is the demo's book: the gratin as version B, the newest of the
// others.
func harbourBook(t *testing.T, u Units) *Manuscript {
	t.Helper()
	b := mustHarbour(t)
	chosen := Chosen(b)
	for _, v := range b.Versions(chosen[0].Recipe) {
		if v.Letter == "B" {
			chosen[0].Version = v.ID
		}
	}
	m, err := ManuscriptOf(b, "The Harbour Kitchen", chosen, Usual(u, claims.EU), someDay)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestTheIndexHasEveryIngredient(t *testing.T) {
	m := harbourBook(t, Metric)
	b := mustHarbour(t)
	at := func(name string) []int {
		for _, e := range m.Index {
			if e.Name == name {
				return e.Pages
			}
		}
		return nil
	}
	if got := at("cream, double"); !slices.Equal(got, []int{0}) {
		t.Errorf("double cream is on %v", got)
	}
	if got := at("yogurt, strained"); len(got) < 2 {
		t.Errorf("strained yogurt is on %v", got)
	}
	if !slices.IsSortedFunc(m.Index, func(x, y IndexEntry) int { return strings.Compare(strings.ToLower(x.Name), strings.ToLower(y.Name)) }) {
		t.Error("the index is not in order")
	}
	for n, p := range m.Pages {
		found := 0
		for _, e := range m.Index {
			if slices.Contains(e.Pages, n) {
				found++
			}
		}
		foods := map[string]bool{}
		for _, l := range linesOf(b, p) {
			foods[l.Food.String()] = true
		}
		if found < len(foods)-1 { // two foods of one name share an entry
			t.Errorf("%s: %d entries for %d foods", p.Title, found, len(foods))
		}
	}
}

func TestAnIndexNamesWhatIsLookedUp(t *testing.T) {
	for in, want := range map[string]string{
		"undyed smoked haddock fillet": "haddock fillet, undyed smoked", "fresh white breadcrumbs": "breadcrumbs, fresh white",
		"lean beef mince (5 % fat)": "beef mince, lean (5 % fat)", "red peppers": "peppers, red", "red wine vinegar": "red wine vinegar",
		"baking powder": "baking powder", "Gruyère": "Gruyère", "fresh": "fresh", "sweet potatoes": "sweet potatoes", "": "", "sel (gros)": "sel (gros)",
	} {
		if got := indexName(in); got != want {
			t.Errorf("%q is under %q, want %q", in, got, want)
		}
	}
	m := harbourBook(t, Metric)
	line := m.indexLine(IndexEntry{"yogurt, strained", []int{0, 1}}, nil)
	if want := "yogurt, strained: " + m.Pages[0].pageName() + "; " + m.Pages[1].pageName(); line != want {
		t.Errorf("%q, want %q", line, want)
	}
}

// TestTheReportFindsWhatItShould puts one fault of each kind into a book of two
// recipes.
func TestTheReportFindsWhatItShould(t *testing.T) {
	b := gaps(t)
	cheese := b.Recipe("r").Lines[0]
	other := &recipes.Recipe{
		ID: "o", Title: "Toast", Headnote: "A light golden thing.", Servings: 2, ServingsFrom: recipes.ServingsStated, Edition: 1,
		Lines: []*recipes.Line{{ID: "l", Text: "2 oz curds, soft", Name: "white curds", Amount: 2, Unit: "oz", Grams: 57, GramsFrom: recipes.GramsWeight, Food: cheese.Food, PartEaten: 1, Note: "x"}, {ID: "m", Text: "1 x 14 oz tin beans", Name: "beans", Amount: 1, Unit: "tin", GramsFrom: recipes.GramsUnknown, PartEaten: 1}},
	}
	b = apply(t, b, recipes.AddRecipe(other, nil), recipes.AddTest(&recipes.Batch{ID: "t", Recipe: "r", Version: "v", Date: "2026-03-04"}))
	m, err := ManuscriptOf(b, "", []Choice{{"r", "v"}, {"o", ""}}, Usual(Metric, claims.US), someDay)
	if err != nil {
		t.Fatal(err)
	}
	at := func(k OpenKind, text string) *Open {
		for i := range m.Report {
			if o := &m.Report[i]; o.Kind == k && strings.Contains(o.Text, text) {
				return o
			}
		}
		t.Errorf("no %q about %q", k, text)
		return &Open{}
	}
	for _, row := range []struct {
		kind               OpenKind
		text               string
		recipe, line, step recipes.ID
	}{
		{OpenHealth, "guilt-free", "r", "", ""},
		{OpenClaim, "low-fat", "r", "", ""},
		{OpenAllergen, "soft cheese", "r", "cheese", ""},
		{OpenUntested, "tasted", "r", "", ""},
		{OpenWeight, "salt", "r", "salt", ""},
		{OpenServings, "assumed", "r", "", ""},
		{OpenCooked, "Test 1 on 4 Mar 2026", "r", "", ""},
		{OpenStep, "rewrite", "r", "", "s1"},
		{OpenName, "white curds", "o", "l", ""},
		{OpenFood, "beans", "o", "m", ""},
		{OpenUnits, "14 oz tin", "o", "m", ""},
		{OpenNoMethod, "no method", "o", "", ""},
		{OpenFigure, "cholesterol", "r", "cheese", ""},
	} {
		if o := at(row.kind, row.text); o.Recipe != row.recipe || o.Line != row.line || o.Step != row.step {
			t.Errorf("%s: %+v", row.kind, o)
		}
	}
	for _, o := range m.Report {
		if o.Recipe == "" || o.Title == "" || o.Text == "" || strings.Contains(o.Text, "[") {
			t.Errorf("a point without its place or words: %+v", o)
		}
		if o.Kind == OpenClaim && o.Recipe == "o" {
			t.Errorf("“light golden” claims nothing: %+v", o)
		}
		if o.Kind == OpenUnspoken && o.Line == "cheese" {
			t.Errorf("“soft cheese” tells of milk: %+v", o)
		}
	}
	reportForms(t, m)
}

func reportForms(t *testing.T, m *Manuscript) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(written(t, m.WriteReportCSV))).ReadAll()
	if err != nil || len(rows) != len(m.Report)+1 || rows[0][6] != "line_id" {
		t.Errorf("CSV: %d rows, %v", len(rows), err)
	}
	var back struct{ Report []Open }
	if err := json.Unmarshal(written(t, m.WriteReportJSON), &back); err != nil || !slices.Equal(back.Report, m.Report) {
		t.Errorf("JSON: %v", err)
	}
}

func TestTheTableIsBeforeAndAfter(t *testing.T) {
	m := harbourBook(t, Metric)
	rows := m.tableBlocks()[0].rows
	if len(rows) != 4 || !strings.Contains(rows[1][1], "704 to ") || !strings.Contains(rows[1][1], "(–2") {
		t.Errorf("%q", rows)
	}
	table, err := csv.NewReader(bytes.NewReader(written(t, m.WriteTableCSV))).ReadAll()
	if err != nil || len(table) != 1+3*len(euRows) {
		t.Errorf("%d rows, %v", len(table), err)
	}
	if _, err := ManuscriptOf(mustHarbour(t), "x", nil, Options{}, someDay); err == nil {
		t.Error("a book of nothing was made")
	}
}

func TestFiguresWithWhatBelongsBesideThem(t *testing.T) {
	b := mustHarbour(t)
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	figures, err := FiguresOf(b, p.Recipe, p.Version, Usual(Metric, claims.EU), 120)
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, f := range figures {
		names[f.Name] = true
		if f.WideMM != 120 || len(f.Alt) < 40 || f.Caption == "" || strings.Contains(f.Caption+f.Name, "[") || strings.Contains(f.Alt, "predicted") {
			t.Errorf("%+v", f)
		}
	}
	for _, want := range []string{"change by version", "where the energy comes from", "Energy swap by swap", "scores - Overall", "how scores spread - Overall", "swaps, saving and liking"} {
		if !names[want] {
			t.Errorf("no figure %q among %v", want, names)
		}
	}
	files, err := FigureFiles(figures[:1], FigureOptions{Formats: []string{"png", "svg", "eps"}, DPI: 100, Proof: true})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range files {
		data := written(t, f.Write)
		got = append(got, f.Name)
		switch {
		case strings.HasSuffix(f.Name, "grey-proof.png"):
			img, err := png.Decode(bytes.NewReader(data))
			if _, grey := img.(*image.Gray); err != nil || !grey {
				t.Errorf("the proof is %T, %v", img, err)
			}
		case strings.HasSuffix(f.Name, "grey-proof.svg"):
			for _, m := range regexp.MustCompile(`#([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})`).FindAllStringSubmatch(string(data), -1) {
				if m[1] != m[2] || m[2] != m[3] {
					t.Errorf("the proof has a colour: %s", m[0])
				}
			}
		}
	}
	const base = "smoked-haddock-and-leek-gratin-b-01-change-by-version"
	var wanted []string
	for _, format := range []string{".png", ".svg", ".eps"} {
		wanted = append(wanted, base+format, base+"-grey-proof"+format)
	}
	want := strings.Join(append(wanted, "captions.csv", "captions.txt"), " ")
	if strings.Join(got, " ") != want {
		t.Errorf("files %q", got)
	}
	if _, err := FigureFiles(figures, FigureOptions{Formats: []string{"bmp"}}); err == nil {
		t.Error("a form that is none was taken")
	}
}

// TestFiguresSayWhatThePageSays: where the page prints salt in grams, so do its
// chart, the names of figures and what is said of them; by the US rule it is sodium.
func TestFiguresSayWhatThePageSays(t *testing.T) {
	b := mustHarbour(t)
	for _, row := range []struct {
		rule           claims.Authority
		name, not, alt string
	}{{claims.EU, "Salt", "odium", "Salt (original 3.1 g): this recipe: –0.2 g (–6 %)"}, {claims.US, "Sodium", "Salt", "Sodium (original 1250 mg): this recipe: –70 mg (–6 %)"}} {
		p := pageOf(t, 0, "B", Usual(Metric, row.rule))
		figures, err := FiguresOf(b, p.Recipe, p.Version, Usual(Metric, row.rule), 120)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(p.Picture.Alt, row.alt) {
			t.Errorf("%s: the page's chart says %q", row.rule, p.Picture.Alt)
		}
		found := false
		for _, f := range figures {
			found = found || f.Name == row.name+" swap by swap"
			if strings.Contains(f.Name+f.Caption+f.Alt, row.not) {
				t.Errorf("%s: %s says %q: %s %s", row.rule, f.Name, row.not, f.Caption, f.Alt)
			}
		}
		if !found {
			t.Errorf("%s: no figure of %s swap by swap", row.rule, row.name)
		}
	}
}

// TestCaptionsSayWhatTheyCount: figures of the recipe's own amounts say so beside
// a page of rounded ones, and adjusted means are told from plain ones.
func TestCaptionsSayWhatTheyCount(t *testing.T) {
	p := pageOf(t, 0, "B", Usual(Metric, claims.EU))
	figures, err := FiguresOf(mustHarbour(t), p.Recipe, p.Version, Usual(Metric, claims.EU), 120)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"change by version": "before they are rounded", "where the energy comes from": "before they are rounded", "Fat swap by swap": "before they are rounded",
		"scores - Overall": "adjusted for who tasted", "how scores spread - Overall": "as they stand",
	} {
		i := slices.IndexFunc(figures, func(f Figure) bool { return f.Name == name })
		if i < 0 || !strings.Contains(figures[i].Caption, want) {
			t.Errorf("the caption of %s does not say %q", name, want)
		}
	}
}

func TestFileNamesAreSafe(t *testing.T) {
	for in, want := range map[string]string{"Fish & chips": "Fish & chips", "../../a:b?": "a b", "": "recipe", "...": "recipe", strings.Repeat("x", 200): strings.Repeat("x", 80)} {
		if got := safeName(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
	if got := uniqueNames([]string{"Pie", "pie", "Pie"}); !slices.Equal(got, []string{"Pie", "pie 2", "Pie 3"}) {
		t.Errorf("%q", got)
	}
}
