package tables_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"parewell/recipes/food"
	"parewell/recipes/food/tables"
	"parewell/recipes/problem"
)

// whatever holds a reading of any files to what callers rely on: an error made
// for a person, or foods that are whole, each once, in order, with rows that add
// up; and the same again from the same files.
func whatever(t *testing.T, f files, name string) {
	im, err := tables.ReadFS(context.Background(), f.fs(), name, tables.Options{})
	if err != nil {
		var p *problem.Error
		if !errors.As(err, &p) || p.What == "" {
			t.Fatalf("not an error for a person: %v", err)
		}
		return
	}
	if len(im.Foods) == 0 || im.Source == "" || im.Release == "" || strings.Contains(im.Release, "/") || im.Name == "" {
		t.Fatalf("%d foods of %q %q %q", len(im.Foods), im.Source, im.Release, im.Name)
	}
	if im.Count.Bad > im.Count.Rows || len(im.Bad) != min(im.Count.Bad, tables.MostBad) {
		t.Fatalf("%+v, %d named", im.Count, len(im.Bad))
	}
	last := ""
	for _, x := range im.Foods {
		if x.Code <= last || x.Name == "" || !utf8.ValidString(x.Name+x.Published+x.Group) || strings.ContainsAny(x.Name+x.Published, "\x00\n\r\t") {
			t.Fatalf("food %q %q %q after %q", x.Code, x.Name, x.Published, last)
		}
		last = x.Code
		whole(t, x)
	}
	again, err := tables.ReadFS(context.Background(), f.fs(), name, tables.Options{})
	if err != nil || again.Digest != im.Digest || len(again.Foods) != len(im.Foods) {
		t.Fatalf("read again: %v", err)
	}
}

func whole(t *testing.T, f *food.Food) {
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		v, known := f.Per100.Get(n)
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 || !known && v != 0 || v > 1e6 {
			t.Fatalf("%s: %s %v (known %v)", f.Code, n.Key(), v, known)
		}
	}
	if f.Edible < 0 || f.Edible > 1 {
		t.Fatalf("%s: edible %v", f.Code, f.Edible)
	}
	for i, m := range f.Measures {
		if m.Unit == "" || !(m.Grams > 0) || math.IsInf(m.Grams, 0) || slices.Contains(f.Measures[:i], m) || !utf8.ValidString(m.Detail) {
			t.Fatalf("%s: measure %+v", f.Code, m)
		}
	}
}

func FuzzAbbreviatedCSV(f *testing.F) {
	f.Add(head + butter + cheddar)
	f.Add("\ufeff" + strings.ReplaceAll(head+butter, "\n", "\r\n"))
	f.Add(strings.ReplaceAll(head+"01001,BUTTER,15.87,717,,,,,,,,,5,1 pat,,,0\n", ",", ";"))
	f.Add(head + filler(10) + "\"01009,\"\n")
	f.Add(head + strings.Replace(butter, "BUTTER", "CR\xc8ME", 1))
	f.Fuzz(func(t *testing.T, text string) { whatever(t, files{"ABBREV.csv": text}, "ABBREV.csv") })
}

func FuzzAbbreviatedText(f *testing.F) {
	f.Add(short("01001", "717", "81.11") + short("01123", "143", "9.51"))
	f.Add(short("1", "", "") + "~2~^~X\n")
	f.Add(strings.Replace(short("01001", "717", "81.11"), "~X~", "~M\xdcSLI,W/ MILK&H2O~", 1))
	f.Fuzz(func(t *testing.T, text string) { whatever(t, files{"ABBREV.txt": text}, "ABBREV.txt") })
}

func FuzzRelational(f *testing.F) {
	r := relation()
	f.Add(r["FOOD_DES.txt"], r["NUT_DATA.txt"], r["WEIGHT.txt"], r["NUTR_DEF.txt"], r["FD_GROUP.txt"], "")
	f.Add(r["FOOD_DES.txt"], "\x00damaged", r["WEIGHT.txt"], "", "", short("01001", "717", "81.11"))
	f.Add(strings.ReplaceAll(r["FOOD_DES.txt"], "\r\n", "\n"), r["NUT_DATA.txt"], "~01001~^1^1e300^~cup~^1e308^^\n", r["NUTR_DEF.txt"], "x", "")
	f.Fuzz(func(t *testing.T, des, data, weight, def, group, abbrev string) {
		whatever(t, files{
			"FOOD_DES.txt": des, "NUT_DATA.txt": data, "WEIGHT.txt": weight, "NUTR_DEF.txt": def, "FD_GROUP.txt": group, "ABBREV.txt": abbrev,
		}, ".")
	})
}

func FuzzCentral(f *testing.F) {
	c := centralFiles()
	f.Add(c["food.csv"], c["nutrient.csv"], c["food_nutrient.csv"], c["food_portion.csv"], c["measure_unit.csv"], c["food_category.csv"])
	f.Add(strings.ReplaceAll(c["food.csv"], `"`, ""), c["nutrient.csv"], c["food_nutrient.csv"], "id,fdc_id,gram_weight\n1,173410,5\n", "id,name\n", "id,description\n")
	f.Fuzz(func(t *testing.T, list, nutrient, values, portion, unit, category string) {
		whatever(t, files{
			"food.csv": list, "nutrient.csv": nutrient, "food_nutrient.csv": values, "food_portion.csv": portion,
			"measure_unit.csv": unit, "food_category.csv": category,
		}, ".")
	})
}
