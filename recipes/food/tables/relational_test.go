package tables_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"parewell/recipes/food"
	"parewell/recipes/food/tables"
)

// relation is a small relational table in the layout of USDA SR26, with values
// of its butter, cheddar and egg.
func relation() files {
	return files{
		"FD_GROUP.txt": "~0100~^~Dairy and Egg Products~\r\n~1100~^~Vegetables and Vegetable Products~\r\n",
		"FOOD_DES.txt": "~01001~^~0100~^~Butter, salted~^~BUTTER,WITH SALT~^~~^~~^~Y~^~~^0^~~^6.38^4.27^8.79^3.87\r\n" +
			"~01123~^~0100~^~Egg, whole, raw, fresh~^~EGG,WHL,RAW,FRSH~^~hen's egg; table egg~^~~^~Y~^~Shell~^12^~~^6.25^4.36^9.02^3.68\r\n" +
			"~11124~^~1100~^~Carrots, raw~^~CARROTS,RAW~^~~^~~^~Y~^~Crown, tops and scrapings~^11^~Daucus carota~^6.25^2.78^8.37^3.84\r\n",
		"NUTR_DEF.txt": "~208~^~kcal~^~ENERC_KCAL~^~Energy~^~0~^~300~\r\n~268~^~kJ~^~ENERC_KJ~^~Energy~^~0~^~400~\r\n" +
			"~204~^~g~^~FAT~^~Total lipid (fat)~^~2~^~800~\r\n~307~^~mg~^~NA~^~Sodium, Na~^~0~^~5800~\r\n" +
			"~605~^~g~^~FATRN~^~Fatty acids, total trans~^~3~^~15400~\r\n~539~^~g~^~SUGADD~^~Sugars, added~^~2~^~1550~\r\n",
		"NUT_DATA.txt": value("01001", "208", "717") + value("01001", "268", "3000") + value("01001", "204", "81.11") + value("01001", "605", "3.278") +
			value("01123", "208", "143") + value("01123", "204", "9.51") + value("01123", "307", "142") + value("01123", "539", "0") +
			value("11124", "208", "41") + value("11124", "204", "0.24") + value("11124", "307", "69") + value("11124", "605", ""),
		"WEIGHT.txt": "~01001~^1^1^~tbsp~^14.2^^\r\n~01123~^1^1^~large~^50^^\r\n~11124~^1^0.5^~cup, grated~^55^^\r\n~11124~^2^1^~NLEA serving~^78^^\r\n",
	}
}

// value is a row of NUT_DATA.
func value(code, nr, v string) string {
	return "~" + code + "~^~" + nr + "~^" + v + "^1^^~1~^~~^~~^~~^1^^^^^^^~~^\r\n"
}

func TestRelational(t *testing.T) {
	im := read(t, relation(), ".")
	if len(im.Foods) != 3 || im.Count.Bad != 0 {
		t.Fatalf("%d foods, %v", len(im.Foods), badRows(im))
	}
	b, e, c := foodOf(t, im, "01001"), foodOf(t, im, "01123"), foodOf(t, im, "11124")
	want(t, b, food.EnergyKJ, 3000, true) // published: not worked out
	want(t, e, food.EnergyKJ, 143*4.184, true)
	want(t, b, food.TransFat, 3.278, true)
	want(t, c, food.TransFat, 0, false) // blank is unknown
	want(t, e, food.AddedSugars, 0, true)
	want(t, c, food.AddedSugars, 0, false)
	want(t, b, food.Sodium, 0, false) // no row
	if e.Group != "eggs" || c.Group != "vegetables" || c.State != food.Raw || e.State != "" && e.State != food.Raw {
		t.Errorf("groups %q %q, states %q %q", e.Group, c.Group, e.State, c.State)
	}
	if e.Edible != 0.88 || c.Edible != 0.89 || b.Edible != 1 {
		t.Errorf("edible %v %v %v", e.Edible, c.Edible, b.Edible)
	}
	if want := []food.Alias{{Name: "hen's egg"}, {Name: "table egg"}}; !slices.Equal(e.Aliases, want) {
		t.Errorf("aliases %v", e.Aliases)
	}
	if want := []food.Measure{{Unit: "cup", Detail: "grated", Grams: 110}}; !slices.Equal(c.Measures, want) {
		t.Errorf("measures %v", c.Measures)
	}
}

// TestRelationalFiles reads the table whatever its files are called in capitals,
// in which folder they are, and by whichever of them is named.
func TestRelationalFiles(t *testing.T) {
	whole := read(t, relation(), ".")
	lower, deep := files{}, files{}
	for name, text := range relation() {
		lower[strings.ToLower(name)] = text
		deep["download/sr26/"+name] = text
	}
	for _, r := range []struct {
		files files
		name  string
	}{{lower, "."}, {deep, "."}, {deep, "download"}, {relation(), "FOOD_DES.txt"}, {relation(), "WEIGHT.txt"}, {relation(), "FD_GROUP.txt"}} {
		im := read(t, r.files, r.name)
		if len(im.Foods) != 3 || im.Foods[2].Per100 != whole.Foods[2].Per100 || len(im.Foods[2].Measures) != 1 {
			t.Errorf("%s: %d foods", r.name, len(im.Foods))
		}
	}
}

// TestUnits turns mass units into ours, and leaves unknown what is counted in
// something else.
func TestUnits(t *testing.T) {
	for _, r := range []struct {
		unit   string
		sodium float64
		bad    int
	}{{"mg", 142, 0}, {"g", 142_000, 1}, {"µg", 0.142, 0}, {"mcg", 0.142, 0}, {"IU", -1, 1}} {
		f := relation()
		f["NUTR_DEF.txt"] = strings.Replace(f["NUTR_DEF.txt"], "~307~^~mg~", "~307~^~"+r.unit+"~", 1) + strings.Repeat("~900~^~g~^~~^~Other~^~1~^~1~\r\n", 12)
		if r.unit == "g" { // 142 g in 100 g cannot be: the egg's row is bad, one of a dozen
			f["NUT_DATA.txt"] = strings.Replace(f["NUT_DATA.txt"], "^69^", "^0.069^", 1)
		}
		im := read(t, f, ".")
		if im.Count.Bad != r.bad {
			t.Errorf("%s: bad %v", r.unit, badRows(im))
		}
		if r.bad == 0 {
			want(t, foodOf(t, im, "01123"), food.Sodium, r.sodium, true)
		} else {
			want(t, foodOf(t, im, "01123"), food.Sodium, 0, false)
		}
		if r.unit == "g" {
			want(t, foodOf(t, im, "11124"), food.Sodium, 69, true)
		}
	}
}

// short is ABBREV.txt for relation's foods: 53 fields, energy and fat in their
// places.
func short(code, kcal, fat string) string {
	f := make([]string, 53)
	f[0], f[1], f[3], f[5] = "~"+code+"~", "~X~", kcal, fat
	return strings.Join(f, "^") + "\r\n"
}

// TestValuesBeside takes the abbreviated file's values where NUT_DATA is absent
// or damaged, and refuses a table without any.
func TestValuesBeside(t *testing.T) {
	beside := short("01001", "717", "81.11") + short("01123", "143", "9.51") + short("11124", "41", "0.24")
	for _, r := range []struct {
		name string
		data string // of NUT_DATA; "" for none
		bad  string
	}{
		{"absent", "", ""},
		{"damaged", strings.Repeat("\x7f\x03garbage\n", 40), "NUT_DATA.txt: too much of it is damaged; the values are those of ABBREV.txt"},
		{"no text at all", "\x00\x01\x02\x00", "NUT_DATA.txt: too much of it is damaged; the values are those of ABBREV.txt"},
		{"half of it", relation()["NUT_DATA.txt"][:300] + strings.Repeat("#\n", 9), "NUT_DATA.txt: too much of it is damaged; the values are those of ABBREV.txt"},
	} {
		f := relation()
		f["ABBREV.txt"] = beside
		if f["NUT_DATA.txt"] = r.data; r.data == "" {
			delete(f, "NUT_DATA.txt")
		}
		im := read(t, f, ".")
		want(t, foodOf(t, im, "01001"), food.EnergyKcal, 717, true)
		want(t, foodOf(t, im, "01001"), food.TransFat, 0, false)
		if got := strings.Join(badRows(im), "\n"); got != r.bad {
			t.Errorf("%s: %q", r.name, got)
		}
	}
	f := relation()
	delete(f, "NUT_DATA.txt")
	_, err := tables.ReadFS(context.Background(), f.fs(), ".", tables.Options{})
	wantFault(t, err, "NUT_DATA.txt", "the file with the values of the foods is missing")
}

// TestRelationalBadRows names bad rows of each file once, and not the rows that
// only follow from them.
func TestRelationalBadRows(t *testing.T) {
	many := func(row string) string { return strings.Repeat(row, 30) }
	for _, r := range []struct{ name, file, row, says string }{
		{"value of no food", "NUT_DATA.txt", value("99999", "208", "1"), "there is no food 99999"},
		{"value that is none", "NUT_DATA.txt", value("01001", "307", "much"), "“much” is not an amount (sodium)"},
		{"short value row", "NUT_DATA.txt", "~01001~^~208~\r\n", "it has 2 fields instead of 18"},
		{"text left open", "NUT_DATA.txt", "~01001^" + strings.Repeat("^", 16) + "\r\n", "a quotation mark is not closed"},
		{"weight of no food", "WEIGHT.txt", "~88888~^1^1^~cup~^5^^\r\n", "there is no food 88888"},
		{"weight without grams", "WEIGHT.txt", "~01001~^1^1^~cup~^^^\r\n", "“” is not an amount (cup)"},
		{"weight of none", "WEIGHT.txt", "~01001~^1^0^~cup~^5^^\r\n", "“0” is not an amount (cup)"},
	} {
		f := relation()
		f["NUT_DATA.txt"] += many(value("01001", "203", "0.85"))
		f["WEIGHT.txt"] += many("~01001~^1^1^~tbsp~^14.2^^\r\n")
		lines := strings.Count(f[r.file], "\n")
		f[r.file] += r.row
		im := read(t, f, ".")
		where := r.file + ", line " + digits(lines+1) + ": "
		if got := badRows(im); !slices.Equal(got, []string{where + r.says}) || len(im.Foods) != 3 {
			t.Errorf("%s: %q, want %q", r.name, got, where+r.says)
		}
	}
	f := relation()
	for i := range 30 {
		f["FOOD_DES.txt"] += strings.Replace("~55500~^~0100~^~Cream~^~CREAM~^~~^~~^~Y~^~~^0^~~^6.38^4.27^8.79^3.87\r\n", "55500", digits(55500+i), 1)
		f["NUT_DATA.txt"] += value(digits(55500+i), "208", "300")
	}
	f["FOOD_DES.txt"] = strings.Replace(f["FOOD_DES.txt"], "^0^", "^zero^", 1) // butter's refuse
	im := read(t, f, ".")
	if got := badRows(im); !slices.Equal(got, []string{"FOOD_DES.txt, line 1: “zero” is not a percentage"}) || len(im.Foods) != 32 {
		t.Errorf("%d foods, %q", len(im.Foods), got)
	}
}

func digits(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return digits(n/10) + string(rune('0'+n%10))
}
