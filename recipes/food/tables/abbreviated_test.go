package tables_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"parewell/recipes/food"
	"parewell/recipes/food/tables"
	"parewell/recipes/problem"
)

// TestOddities reads the same two foods however the file was saved.
func TestOddities(t *testing.T) {
	plain := head + butter + cheddar
	semicolons := strings.ReplaceAll(strings.NewReplacer(`"BUTTER,WITH SALT"`, "BUTTER WITH SALT", `"1 pat,  (1"" sq, 1/3"" high)"`, "1 pat",
		`"CHEESE,CHEDDAR"`, "CHEESE CHEDDAR", `"1 cup, diced"`, "1 cup diced").Replace(plain), ",", ";")
	for _, r := range []struct{ name, text string }{
		{"as published", plain},
		{"byte-order mark", "\ufeff" + plain},
		{"CRLF", strings.ReplaceAll(plain, "\n", "\r\n")},
		{"byte-order mark and CRLF", "\ufeff" + strings.ReplaceAll(plain, "\n", "\r\n")},
		{"no end of line at the end", strings.TrimSuffix(plain, "\n")},
		{"blank lines", "\n" + head + "\n" + butter + "\r\n\n" + cheddar + "\n"},
		{"end mark of old systems", plain + "\x1a"},
		{"leading zero lost in a spreadsheet", strings.NewReplacer("01001", "1001", "01009", "1009").Replace(plain)},
		{"blanks around numbers", strings.ReplaceAll(plain, ",717,", ", 717 ,")},
		{"empty fields at the end of a row", strings.ReplaceAll(plain, ",0\n", ",0,,\n")},
		{"quoted name on two lines", strings.ReplaceAll(plain, `"BUTTER,WITH SALT"`, "\"BUTTER,\nWITH SALT\"")},
		{"tabs", strings.ReplaceAll(semicolons, ";", "\t")},
		{"semicolons and decimal commas", strings.ReplaceAll(semicolons, ".", ",")},
		{"columns in other order", reordered(plain)},
	} {
		t.Run(r.name, func(t *testing.T) {
			im := read(t, files{"ABBREV.csv": r.text}, "ABBREV.csv")
			if len(im.Foods) != 2 || im.Count.Bad != 0 {
				t.Fatalf("%d foods, bad: %v", len(im.Foods), badRows(im))
			}
			b, c := foodOf(t, im, "01001"), foodOf(t, im, "01009")
			want(t, b, food.EnergyKcal, 717, true)
			want(t, b, food.SaturatedFat, 51.368, true)
			want(t, b, food.Fibre, 0, true)
			want(t, b, food.Iron, 0, false)
			want(t, c, food.Sodium, 653, true)
			if m, _, ok := b.Household("tbsp", ""); !ok || m.Grams != 14.2 {
				t.Errorf("tbsp: %v", b.Measures)
			}
			if m, _, ok := c.Household("cup", "diced"); !ok || m.Grams != 132 {
				t.Errorf("cup: %v", c.Measures)
			}
			if name := strings.ReplaceAll(b.Name, ",", ""); name != "butter with salt" {
				t.Errorf("name %q", b.Name)
			}
		})
	}
}

// reordered puts the last column first.
func reordered(text string) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		i := strings.LastIndexByte(line, ',')
		out.WriteString(line[i+1:] + "," + line[:i] + "\n")
	}
	return out.String()
}

// TestEncodings reads a name with marks on its letters from UTF-8 and from
// Windows-1252, of which Latin-1 is a part.
func TestEncodings(t *testing.T) {
	for _, r := range []struct{ name, written string }{{"UTF-8", "CRÈME FRAÎCHE’S"}, {"Windows-1252", "CR\xc8ME FRA\xceCHE\x92S"}} {
		im := read(t, files{"ABBREV.csv": head + strings.Replace(butter, "BUTTER,WITH SALT", r.written, 1)}, "ABBREV.csv")
		if f := im.Foods[0]; f.Published != "CRÈME FRAÎCHE’S" || f.Name != "crème fraîche’s" {
			t.Errorf("%s: %q %q", r.name, f.Published, f.Name)
		}
	}
}

// TestBadRows names each bad row with its file and line and keeps the good ones.
func TestBadRows(t *testing.T) {
	for _, r := range []struct{ name, row, says string }{
		{"short row", "01009,CHEESE,36.75,404\n", "it has 4 fields instead of 17"},
		{"long row", strings.Replace(cheddar, "\n", ",x\n", 1), "it has 18 fields instead of 17"},
		{"number twice", strings.Replace(cheddar, "01009", "90000", 1), "food 90000 already stands in line 2"},
		{"number that is none", strings.Replace(cheddar, "01009", "ABC", 1), "“ABC” is not a food number"},
		{"no number", strings.Replace(cheddar, "01009", "", 1), "“” is not a food number"},
		{"no name", strings.Replace(cheddar, "CHEESE,CHEDDAR", "", 1), "the food has no name"},
		{"letters for a value", strings.Replace(cheddar, ",404,", ",4o4,", 1), "“4o4” is not an amount (energy)"},
		{"negative value", strings.Replace(cheddar, ",653,", ",-653,", 1), "“-653” is not an amount (sodium)"},
		{"not a number", strings.Replace(cheddar, ",653,", ",NaN,", 1), "“NaN” is not an amount (sodium)"},
		{"more than fits in 100 g", strings.Replace(cheddar, ",33.31,", ",3331,", 1), "100 g cannot hold that much (fat 3331)"},
		{"refuse over all of it", strings.Replace(cheddar, ",0\n", ",120\n", 1), "“120” is not a percentage"},
		{"weight that is none", strings.Replace(cheddar, ",132,", ",13z,", 1), "“13z” is not an amount (cup, diced)"},
		{"quotation left open", strings.Replace(cheddar, `"1 cup, diced"`, `"1 cup`, 1), "a quotation mark is not closed"},
		{"quotation mark inside", strings.Replace(cheddar, `"CHEESE,CHEDDAR"`, `"CHE"ESE`, 1), "a quotation mark is not closed"},
		{"too long a line", strings.Replace(cheddar, "CHEDDAR", strings.Repeat("X", 2<<20), 1), "the line is too long"},
	} {
		t.Run(r.name, func(t *testing.T) {
			im := read(t, files{"ABBREV.csv": head + filler(11) + r.row + cheddarAs("80001")}, "ABBREV.csv")
			if len(im.Foods) != 12 || im.Count.Bad != 1 || im.Count.Rows != 13 {
				t.Errorf("%d foods, %+v", len(im.Foods), im.Count)
			}
			foodOf(t, im, "80001") // the row after the bad one
			if got, say := badRows(im), "ABBREV.csv, line 13: "+r.says; !slices.Equal(got, []string{say}) {
				t.Errorf("%q, want %q", got, say)
			}
		})
	}
}

func cheddarAs(code string) string { return strings.Replace(cheddar, "01009", code, 1) }

// TestRefused takes nothing of a table with more than a tenth of bad rows, and
// just takes one with a tenth.
func TestRefused(t *testing.T) {
	bad := "x,y\n"
	if im := read(t, files{"ABBREV.csv": head + filler(9) + bad}, "ABBREV.csv"); len(im.Foods) != 9 {
		t.Errorf("a tenth: %d foods", len(im.Foods))
	}
	_, err := tables.ReadFS(context.Background(), files{"ABBREV.csv": head + filler(8) + bad}.fs(), "ABBREV.csv", tables.Options{})
	wantFault(t, err, "ABBREV.csv", "1 of 9 rows cannot be read")
}

// wantFault holds an error to a place and the beginning of its sentence.
func wantFault(t *testing.T, err error, where, what string) {
	t.Helper()
	var p *problem.Error
	if !errors.As(err, &p) || p.Where != where || !strings.HasPrefix(p.What, what) {
		t.Errorf("error %v, want %s: %s ...", err, where, what)
	}
}

// TestNoTable refuses what is no table, each with its own sentence.
func TestNoTable(t *testing.T) {
	for _, r := range []struct {
		name  string
		files files
		at    string
		where string
		what  string
	}{
		{"a recipe", files{"soup.txt": "Leek soup\n\n3 leeks\n"}, "soup.txt", "soup.txt", "this is not a food table"},
		{"another CSV file", files{"a.csv": "a,b\n1,2\n"}, "a.csv", "a.csv", "this is not a food table"},
		{"empty", files{"ABBREV.csv": ""}, "ABBREV.csv", "ABBREV.csv", "this file is empty"},
		{"a picture", files{"ABBREV.csv": "\x89PNG\x00\x00"}, "ABBREV.csv", "ABBREV.csv", "this is not a text file"},
		{"UTF-16", files{"ABBREV.csv": "\xff\xfeN\x00D\x00"}, "ABBREV.csv", "ABBREV.csv", "this text is saved as UTF-16"},
		{"a folder without a table", files{"a/b.txt": "x"}, ".", ".", "there is no food table in this folder"},
		{"nothing of the name", files{"a.txt": "x"}, "b.txt", "b.txt", "there is no such file"},
		{"a header alone", files{"ABBREV.csv": head}, "ABBREV.csv", "ABBREV.csv", "there is no food in this table"},
		{"a folder whose file is no table", files{"ABBREV.csv": "a,b\n1,2\n"}, ".", "ABBREV.csv", "this is not a food table"},
	} {
		t.Run(r.name, func(t *testing.T) {
			_, err := tables.ReadFS(context.Background(), r.files.fs(), r.at, tables.Options{})
			wantFault(t, err, r.where, r.what)
		})
	}
}

// TestUnitInHeader leaves a nutrient unknown whose column is in another unit.
func TestUnitInHeader(t *testing.T) {
	im := read(t, files{"ABBREV.csv": strings.Replace(head, "Sodium_(mg)", "Sodium_(g)", 1) + butter}, "ABBREV.csv")
	want(t, im.Foods[0], food.Sodium, 0, false)
	want(t, im.Foods[0], food.Fat, 81.11, true)
}

// TestRelease tells which release a table is.
func TestRelease(t *testing.T) {
	text := head + butter
	for _, r := range []struct{ path, given, release, name string }{
		{"usda-sr27/ABBREV.csv", "", "sr27", "USDA Standard Reference, Release 27"},
		{"SR 25/ABBREV.csv", "", "sr25", "USDA Standard Reference, Release 25"},
		{"my foods/ABBREV.csv", "", "my-foods", "USDA table my-foods"},
		{"my foods/Lab Table.csv", "", "lab-table", "USDA table lab-table"},
		{"usda-sr27/ABBREV.csv", "SR 28 corrected", "sr-28-corrected", "USDA table sr-28-corrected"},
	} {
		im, err := tables.ReadFS(context.Background(), files{r.path: text}.fs(), r.path, tables.Options{Release: r.given})
		if err != nil {
			t.Fatal(err)
		}
		if im.Source != "usda" || im.Release != r.release || im.Name != r.name || im.Foods[0].Release != r.release {
			t.Errorf("%s: %s %s %q", r.path, im.Source, im.Release, im.Name)
		}
	}
}

// TestProgress tells of bytes without going back, up to all of them.
func TestProgress(t *testing.T) {
	text := head + filler(990)
	last, calls := 0, 0
	o := tables.Options{Progress: func(done, total int) {
		if done < last || total != len(text) || done > total {
			t.Errorf("%d after %d of %d", done, last, total)
		}
		last = done
		calls++
	}}
	if _, err := tables.ReadFS(context.Background(), files{"ABBREV.csv": text}.fs(), "ABBREV.csv", o); err != nil {
		t.Fatal(err)
	}
	if last != len(text) || calls < 2 {
		t.Errorf("%d of %d after %d calls", last, len(text), calls)
	}
}

// TestCancel stops in the middle and gives no table.
func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	o := tables.Options{Progress: func(done, _ int) { cancel() }}
	im, err := tables.ReadFS(ctx, files{"ABBREV.csv": head + filler(990)}.fs(), "ABBREV.csv", o)
	if im != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("a table: %v, error %v", im != nil, err)
	}
}

// TestDigest is the same for the same bytes only.
func TestDigest(t *testing.T) {
	a := read(t, files{"ABBREV.csv": head + butter}, "ABBREV.csv")
	b := read(t, files{"x/abbrev.CSV": head + butter}, "x/abbrev.CSV")
	c := read(t, files{"ABBREV.csv": head + cheddar}, "ABBREV.csv")
	if a.Digest != b.Digest || a.Digest == c.Digest || len(a.Digest) != 64 {
		t.Errorf("%s %s %s", a.Digest, b.Digest, c.Digest)
	}
}
