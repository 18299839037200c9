package reading

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf16"

	"parewell/recipes"
	"parewell/recipes/problem"
)

const bareRecipe = `{"@context":"https://schema.org","@type":"Recipe","name":"Bean &amp; barley soup","description":"<p>Thick.</p>",
"recipeYield":"4 servings","recipeIngredient":["1 cup pearl barley","2 cups chicken broth","For the top:","2 tbsp chopped parsley"],
"recipeInstructions":"Boil the barley in the broth.\nScatter with parsley."}`

func TestReadJSONLDShapes(t *testing.T) {
	opt := Options{Foods: table(t)}
	for _, c := range []struct {
		name, json   string
		title        string
		serves, high float64
		lines, steps int
	}{
		{"bare", bareRecipe, "Bean & barley soup", 4, 0, 3, 2},
		{"array", "[" + bareRecipe + "]", "Bean & barley soup", 4, 0, 3, 2},
		{"graph", `{"@graph":[{"@type":"WebPage"},` + bareRecipe + "]}", "Bean & barley soup", 4, 0, 3, 2},
		{"main entity", `{"@type":"WebPage","mainEntity":` + bareRecipe + "}", "Bean & barley soup", 4, 0, 3, 2},
		{"types in a list", `{"@type":["NewsArticle","Recipe"],"name":"Tea","recipeYield":2,"recipeIngredient":["1 cup water"],"recipeInstructions":["Boil.","Pour."]}`, "Tea", 2, 0, 1, 2},
		{"type with an address", `{"@type":"http://schema.org/Recipe","name":"Tea","recipeYield":["6","6 to 8 servings"],"recipeIngredient":["1 cup water"],"recipeInstructions":[{"@type":"HowToStep","text":"Boil."}]}`, "Tea", 6, 8, 1, 1},
		{"sections", `{"@type":"Recipe","name":"Pie","recipeYield":"Makes 12 tarts","recipeIngredient":["200 g flour"],"recipeInstructions":[{"@type":"HowToSection","name":"Pastry","itemListElement":[{"@type":"HowToStep","text":"Rub in."},{"@type":"HowToStep","text":"Rest."}]},{"@type":"HowToSection","name":"Filling","itemListElement":[{"@type":"HowToStep","text":"Stir."}]}]}`, "Pie", 12, 0, 1, 3},
		{"yield as a value with its unit", `{"@type":"Recipe","name":"Dal","recipeYield":{"@type":"QuantitativeValue","value":3,"unitText":"servings"},"recipeIngredient":["1 cup red lentils"]}`, "Dal", 3, 0, 1, 0},
		{"old name of ingredients", `{"@type":"Recipe","name":"Pie","ingredients":["200 g flour","100 g butter"]}`, "Pie", 1, 0, 2, 0},
		{"tags in ingredients", `{"@type":"Recipe","name":"Pie","recipeIngredient":["<b>200&nbsp;g</b> flour","1&frac12; cups milk"]}`, "Pie", 1, 0, 2, 0},
		{"HTML instructions", `{"@type":"Recipe","name":"Pie","recipeIngredient":["200 g flour"],"recipeInstructions":"<ol><li>Mix.</li><li>Bake.</li></ol>"}`, "Pie", 1, 0, 1, 2},
	} {
		ds, err := ReadJSONLD([]byte(c.json), opt)
		if err != nil || len(ds) != 1 {
			t.Errorf("%s: %d, %v", c.name, len(ds), err)
			continue
		}
		d := ds[0]
		if d.Title != c.title || d.Servings != c.serves || d.ServingsHigh != c.high || len(d.Lines) != c.lines || len(d.Steps) != c.steps {
			t.Errorf("%s: %q serves %v-%v, %d lines, steps %q", c.name, d.Title, d.Servings, d.ServingsHigh, len(d.Lines), d.Steps)
		}
	}
}

func TestJSONLDKeepsSections(t *testing.T) {
	ds, err := ReadJSONLD([]byte(bareRecipe), Options{Foods: table(t)})
	if err != nil {
		t.Fatal(err)
	}
	if d := ds[0]; d.Lines[2].Section != "For the top" || d.Headnote != "Thick." {
		t.Errorf("section %q, headnote %q", d.Lines[2].Section, d.Headnote)
	}
}

func TestSeveralRecipes(t *testing.T) {
	ds, err := ReadJSONLD([]byte("["+bareRecipe+","+bareRecipe+"]"), Options{Foods: table(t)})
	if err != nil || len(ds) != 2 {
		t.Errorf("%d recipes, %v", len(ds), err)
	}
}

const savedPage = `<!DOCTYPE html><html><head><title>Soup</title><script>var x = 1;</script>
<script type="application/ld+json">{broken</script>
<script type="application/ld+json">` + bareRecipe + `</script></head><body><nav>Home</nav><p>Words</p></body></html>`

const plainPage = `<html><body><nav>Home About</nav><h1>Onion soup</h1><p>Serves 4</p><h2>Ingredients</h2>
<ul><li>2 large onions</li><li>1&nbsp;litre beef stock</li><li>30 g butter</li></ul><h2>Method</h2><ol><li>Soften the onions.</li><li>Add the stock.</li></ol></body></html>`

func TestReadFiles(t *testing.T) {
	opt := Options{Foods: table(t)}
	soup := "Crème soup\nServes 2\n1 onion\n½ litre milk\nMethod\nBoil."
	wide := utf16.Encode([]rune("\ufeff" + soup))
	var le, be []byte
	for _, u := range wide {
		le = append(le, byte(u), byte(u>>8))
		be = append(be, byte(u>>8), byte(u))
	}
	for _, c := range []struct {
		name, title string
		data        []byte
		lines       int
	}{
		{"utf-8", "Crème soup", []byte(soup), 2},
		{"utf-8 with mark", "Crème soup", []byte("\ufeff" + soup), 2},
		{"utf-16 little end", "Crème soup", le, 2},
		{"utf-16 big end", "Crème soup", be, 2},
		{"utf-16 without mark", "Crème soup", le[2:], 2},
		{"windows-1252", "Crème soup", []byte(strings.NewReplacer("è", "\xe8", "½", "\xbd").Replace(soup)), 2},
		{"saved page", "Bean & barley soup", []byte(savedPage), 3},
		{"page without data", "Onion soup", []byte(plainPage), 3},
		{"json", "Bean & barley soup", []byte("\n " + bareRecipe), 3},
		{"commas before brackets", "Tea, \"x,]\"", []byte(`<html><script type="application/ld+json">{"@graph":[{"@type":"Recipe","name":"Tea, \"x,]\"","recipeIngredient":["1 cup water",],},]}</script></html>`), 1},
		{"a broken block beside a good one", "Bean & barley soup", []byte(`<html><script type="application/ld+json">{bad</script><script type="application/ld+json">` + bareRecipe + `</script></html>`), 3},
	} {
		ds, err := Read(c.data, c.name, opt)
		if err != nil || len(ds) != 1 {
			t.Errorf("%s: %d, %v", c.name, len(ds), err)
			continue
		}
		if ds[0].Title != c.title || len(ds[0].Lines) != c.lines {
			t.Errorf("%s: %q, %d lines", c.name, ds[0].Title, len(ds[0].Lines))
		}
	}
}

func TestReadRefuses(t *testing.T) {
	opt := Options{Foods: table(t)}
	for _, c := range []struct {
		name string
		data []byte
	}{
		{"empty.txt", nil},
		{"blank.txt", []byte(" \n\t")},
		{"photo.jpg", []byte("\xff\xd8\xff\xe0abcdef")},
		{"book.pdf", []byte("%PDF-1.7 ...")},
		{"sheet.bin", []byte("\x00\x01\x02\x03\x04\x05\x00\x00\x00\x01\x07")},
		{"broken.json", []byte(`{"@type":"Recipe",`)},
		{"other.json", []byte(`{"@type":"Person","name":"x"}`)},
		{"story.txt", []byte("Once there was a soup.\nIt was good.")},
		{"story.html", []byte("<html><body><p>Once there was a soup.</p></body></html>")},
		{"huge.txt", []byte(strings.Repeat("1 egg\n", 1<<20))},
	} {
		_, err := Read(c.data, c.name, opt)
		var p *problem.Error
		if !errors.As(err, &p) || p.What == "" || p.Hint == "" || !strings.HasPrefix(p.Where, c.name) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{bareRecipe, savedPage, plainPage, "1 egg", "[", `{"@graph":[[[[]]]]}`, "<script type=\"application/ld+json\">[]</script>", "\xff\xfe1\x00 \x00e\x00"} {
		f.Add([]byte(s))
	}
	opt := Options{Foods: table(f)}
	f.Fuzz(func(t *testing.T, data []byte) {
		ds, err := Read(data, "fuzz", opt)
		if (err == nil) != (len(ds) > 0) {
			t.Fatalf("%d drafts with error %v", len(ds), err)
		}
		for _, d := range ds {
			if !(d.Servings > 0) {
				t.Fatalf("serves %v", d.Servings)
			}
			for _, l := range d.Lines {
				if l.Grams < 0 || l.GramsFrom == recipes.GramsUnknown && l.Grams != 0 {
					t.Fatalf("%s: %v", l.Text, l.Grams)
				}
			}
		}
	})
}
