package tables_test

import (
	"archive/zip"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"parewell/recipes/food"
	"parewell/recipes/food/tables"
)

// centralFiles is a small FoodData Central folder with a food of each sort and
// invented values, but for the butter (SR Legacy, as in USDA SR28).
func centralFiles() files {
	return files{
		"food.csv": `"fdc_id","data_type","description","food_category_id","publication_date"` + "\n" +
			`"173410","sr_legacy_food","Butter, salted","1","2019-04-01"` + "\n" +
			`"321358","foundation_food","Hummus, commercial","16","2019-04-01"` + "\n" +
			`"1097512","survey_fndds_food","Milk, human","9602","2020-10-30"` + "\n" +
			`"534358","branded_food","NUT 'N BERRY MIX","Popcorn, Peanuts, Seeds & Related Snacks","2018-10-18"` + "\n" +
			`"319875","market_acquisition","HUMMUS, BRAND X","16","2019-04-01"` + "\n" +
			`"319876","sub_sample_food","Hummus","16","2019-04-01"` + "\n",
		"food_category.csv": `"id","code","description"` + "\n" + `"1","0100","Dairy and Egg Products"` + "\n" + `"16","1600","Legumes and Legume Products"` + "\n",
		"nutrient.csv": `"id","name","unit_name","nutrient_nbr","rank"` + "\n" +
			`"1003","Protein","G","203","600.0"` + "\n" + `"1004","Total lipid (fat)","G","204","800.0"` + "\n" +
			`"1008","Energy","KCAL","208","300.0"` + "\n" + `"1062","Energy","kJ","268","400.0"` + "\n" +
			`"2047","Energy (Atwater General Factors)","KCAL","957","280.0"` + "\n" + `"2048","Energy (Atwater Specific Factors)","KCAL","958","290.0"` + "\n" +
			`"1093","Sodium, Na","MG","307","5800.0"` + "\n" + `"1235","Sugars, added","G","539","1540.0"` + "\n" +
			`"1257","Fatty acids, total trans","G","605","15400.0"` + "\n" + `"2000","Total Sugars","G","269.0","1510.0"` + "\n" +
			`"1110","Vitamin D (D2 + D3), International Units","IU","324","8650.0"` + "\n",
		"food_nutrient.csv": `"id","fdc_id","nutrient_id","amount","data_points","derivation_id"` + "\n" +
			`"1","173410","1008","717","","49"` + "\n" + `"2","173410","1004","81.11","",""` + "\n" + `"3","173410","1257","3.278","",""` + "\n" +
			`"4","321358","2047","229","",""` + "\n" + `"5","321358","2048","243","",""` + "\n" + `"6","321358","1093","438","",""` + "\n" +
			`"7","1097512","208","70","",""` + "\n" + `"8","1097512","203","","",""` + "\n" +
			`"9","534358","1062","2000","",""` + "\n" + `"10","534358","1235","12.5","",""` + "\n" + `"11","534358","2000","31","",""` + "\n" +
			`"12","319875","1008","237","",""` + "\n" + `"13","999999","1008","1","",""` + "\n" + `"14","173410","1110","0","",""` + "\n",
		"measure_unit.csv": `"id","name"` + "\n" + `"1000","cup"` + "\n" + `"1001","tablespoon"` + "\n" + `"9999","undetermined"` + "\n",
		"food_portion.csv": `"id","fdc_id","seq_num","amount","measure_unit_id","portion_description","modifier","gram_weight"` + "\n" +
			`"1","173410","1","1.0","9999","","pat (1"" sq, 1/3"" high)","5.0"` + "\n" + `"2","173410","2","1.0","9999","","tbsp","14.2"` + "\n" +
			`"3","321358","1","2.0","1001","","","33.9"` + "\n" + `"4","321358","2","1.0","1000","","whipped","150"` + "\n" +
			`"5","1097512","1","","9999","1 fl oz","10079","30.8"` + "\n" + `"6","1097512","2","","9999","Quantity not specified","90000","246"` + "\n",
	}
}

func TestCentral(t *testing.T) {
	im := read(t, centralFiles(), ".")
	if im.Source != "fdc" || im.Release != "2020-10-30" || im.Name != "FoodData Central, 2020-10-30" {
		t.Errorf("%s %s %q", im.Source, im.Release, im.Name)
	}
	if len(im.Foods) != 4 || im.Count.Left != 2 || im.Count.Bad != 0 {
		t.Fatalf("%d foods, %+v, %v", len(im.Foods), im.Count, badRows(im))
	}
	b, h, m, mix := foodOf(t, im, "173410"), foodOf(t, im, "321358"), foodOf(t, im, "1097512"), foodOf(t, im, "534358")
	want(t, b, food.EnergyKcal, 717, true)
	want(t, b, food.EnergyKJ, 717*4.184, true)
	want(t, b, food.TransFat, 3.278, true)
	want(t, b, food.Sodium, 0, false)
	want(t, h, food.EnergyKcal, 243, true) // specific factors before general ones
	want(t, h, food.Sodium, 438, true)
	want(t, m, food.EnergyKcal, 70, true) // by the nutrient's number
	want(t, m, food.Protein, 0, false)    // blank is unknown
	want(t, mix, food.EnergyKJ, 2000, true)
	want(t, mix, food.EnergyKcal, 2000/4.184, true)
	want(t, mix, food.AddedSugars, 12.5, true)
	want(t, mix, food.Sugars, 31, true)
	if b.Group != "dairy" || h.Group != "legumes and soy" || mix.Name != "nut 'n berry mix" {
		t.Errorf("%q %q %q", b.Group, h.Group, mix.Name)
	}
	for _, r := range []struct {
		food *food.Food
		want []food.Measure
	}{
		{b, []food.Measure{{Unit: "pat", Grams: 5}, {Unit: "tbsp", Grams: 14.2}}},
		{h, []food.Measure{{Unit: "tbsp", Grams: 16.95}, {Unit: "cup", Detail: "whipped", Grams: 150}}},
		{m, []food.Measure{{Unit: "fl oz", Grams: 30.8}}},
		{mix, nil},
	} {
		if !slices.Equal(r.food.Measures, r.want) {
			t.Errorf("%s: measures %v, want %v", r.food.Name, r.food.Measures, r.want)
		}
	}
}

// TestCentralRelease names a folder of one sort of food by it.
func TestCentralRelease(t *testing.T) {
	f := centralFiles()
	var kept strings.Builder
	for line := range strings.Lines(f["food.csv"]) {
		if strings.Contains(line, "fdc_id") || strings.Contains(line, "sr_legacy") {
			kept.WriteString(line)
		}
	}
	f["food.csv"] = kept.String()
	im := read(t, f, ".")
	if im.Release != "sr-legacy-2019-04-01" || len(im.Foods) != 1 {
		t.Errorf("%s, %d foods", im.Release, len(im.Foods))
	}
}

func TestCentralFaults(t *testing.T) {
	for _, r := range []struct {
		name, file, old, new, where, what string
	}{
		{"no values", "food_nutrient.csv", "", "", "food_nutrient.csv", "the file with the values of the foods is missing"},
		{"no nutrients", "nutrient.csv", "", "", "food_nutrient.csv", "the file with the values of the foods is missing"},
		{"column missing", "food_nutrient.csv", `"amount"`, `"total"`, "food_nutrient.csv", "the column “amount” is missing"},
		{"half of it bad", "food_nutrient.csv", `"","`, `"" "`, "food_nutrient.csv", "14 of 14 rows cannot be read"},
	} {
		f := centralFiles()
		if f[r.file] = strings.ReplaceAll(f[r.file], r.old, r.new); r.old == "" {
			delete(f, r.file)
		}
		_, err := tables.ReadFS(context.Background(), f.fs(), ".", tables.Options{})
		wantFault(t, err, r.where, r.what)
	}
}

func TestCentralBadRows(t *testing.T) {
	f := centralFiles()
	f["food_nutrient.csv"] += strings.Repeat(`"20","173410","1003","0.85","",""`+"\n", 30) + `"21","173410","1093","6,43","",""` + "\n" + `"22","x","1093","6","",""` + "\n" +
		`"23","173410","1004","811","",""` + "\n"
	im := read(t, f, ".")
	want := []string{
		"food_nutrient.csv, line 46: “6,43” is not an amount (sodium)",
		"food_nutrient.csv, line 47: “x” is not a food number",
		"food_nutrient.csv, line 48: 100 g cannot hold that much (fat 811)",
	}
	if got := badRows(im); !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

// TestZip reads the zip file a table comes in.
func TestZip(t *testing.T) {
	path := filepath.Join(t.TempDir(), "FoodData_2020.zip")
	out, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	z := zip.NewWriter(out)
	for name, text := range centralFiles() {
		w, err := z.Create("FoodData_2020/" + name)
		if err == nil {
			_, err = w.Write([]byte(text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	out.Close()
	im, err := tables.Read(context.Background(), path, tables.Options{})
	if err != nil || len(im.Foods) != 4 {
		t.Fatal(im, err)
	}
	if err := os.WriteFile(path, []byte("not a zip file"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err = tables.Read(context.Background(), path, tables.Options{})
	wantFault(t, err, path, "this zip file is damaged")
	_, err = tables.Read(context.Background(), path+"x", tables.Options{})
	wantFault(t, err, path+"x", "there is no such file")
}

// TestSeveral reads tables of different folders together, all or none.
func TestSeveral(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"sr27/ABBREV.csv": head + butter, "sr25/ABBREV.csv": head + cheddar, "soup.txt": "Leek soup\n"} {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	at := func(name string) string { return filepath.Join(dir, name) }
	last := 0
	o := tables.Options{Progress: func(done, total int) {
		if done < last || done > total {
			t.Errorf("%d after %d of %d", done, last, total)
		}
		last = done
	}}
	all, err := tables.ReadAll(context.Background(), []string{at("sr27"), at("sr25"), at("sr27/ABBREV.csv")}, o)
	if err != nil || len(all) != 2 || all[0].Release != "sr27" || all[1].Release != "sr25" {
		t.Fatal(all, err)
	}
	if _, err = tables.ReadAll(context.Background(), []string{at("sr27"), at("soup.txt")}, tables.Options{}); err == nil {
		t.Error("a soup was read")
	}
	_, err = tables.ReadAll(context.Background(), []string{at("sr27"), at("sr25")}, tables.Options{Release: "mine"})
	wantFault(t, err, "mine", "one release name cannot stand for several tables")
}
