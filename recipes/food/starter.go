package food

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"parewell/recipes/problem"
)

// StarterSource and StarterRelease name the table the starter foods come from:
// the USDA National Nutrient Database for Standard Reference, Release 28.
const (
	StarterSource  = "usda"
	StarterRelease = "sr28"
)

// starterColumns are the columns of the starter table before its values.
var starterColumns = []string{
	"code", "name", "published", "group", "core", "state", "density", "edible", "swells", "allergens", "aliases", "measures",
}

// ReadStarter reads the starter table of package assets: CSV with a header
// line, one food a line, an empty value unknown. Several aliases or measures
// in one cell are parted by a bar: "name" or "name=what differs", "unit=grams"
// or "unit;detail=grams". Energy in kJ is 4.184 x kcal. A fault is a
// *problem.Error that names the row.
func ReadStarter(b []byte) ([]*Food, error) {
	rd := csv.NewReader(bytes.NewReader(b))
	rd.ReuseRecord = true
	head, err := rd.Read()
	if err != nil {
		return nil, starterFault(1, "the food table has no header line", err)
	}
	columns, err := starterValues(head)
	if err != nil {
		return nil, starterFault(1, err.Error(), nil)
	}
	var foods []Food // one block: cheaper than a thousand small ones
	seen := make(map[string]int, 1024)
	for line := 2; ; line++ {
		rec, err := rd.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, starterFault(line, "the line is not a row of the food table", err)
		}
		f, err := starterFood(rec, columns)
		if err != nil {
			return nil, starterFault(line, err.Error(), nil)
		}
		if first, twice := seen[f.Code]; twice {
			return nil, starterFault(line, fmt.Sprintf("food %s already stands in row %d", f.Code, first), nil)
		}
		seen[f.Code] = line
		foods = append(foods, f)
	}
	out := make([]*Food, len(foods))
	for i := range foods {
		out[i] = &foods[i]
	}
	return out, nil
}

func starterFault(row int, what string, err error) error {
	return &problem.Error{
		Where: fmt.Sprintf("food table, row %d", row), What: what,
		Hint: "the program's own table is damaged: install it again", Err: err,
	}
}

// starterValues checks the header and gives the nutrient of each value column.
func starterValues(head []string) ([]Nutrient, error) {
	n := len(starterColumns)
	if len(head) <= n {
		return nil, fmt.Errorf("%d columns are too few", len(head))
	}
	for i, want := range starterColumns {
		if head[i] != want {
			return nil, fmt.Errorf("column %d is %q, not %q", i+1, head[i], want)
		}
	}
	out := make([]Nutrient, 0, len(head)-n)
	for _, key := range head[n:] {
		v, ok := ByKey(key)
		if !ok {
			return nil, fmt.Errorf("there is no nutrient %q", key)
		}
		out = append(out, v)
	}
	return out, nil
}

// starterFood reads one row. Text is copied out of the shared record once.
func starterFood(rec []string, columns []Nutrient) (Food, error) {
	f := Food{
		Ref:  Ref{Source: StarterSource, Release: StarterRelease, Code: rec[0]},
		Name: rec[1], Published: rec[2], Group: rec[3], Core: rec[4] == "core", State: State(rec[5]),
	}
	if f.Code == "" || f.Name == "" {
		return f, errors.New("the code or the name is missing")
	}
	var err error
	for i, to := range []*float64{&f.Density, &f.Edible, &f.Swells} {
		if *to, err = starterNumber(rec[6+i]); err != nil {
			return f, fmt.Errorf("%s: %w", starterColumns[6+i], err)
		}
	}
	if f.Allergens, err = starterAllergens(rec[9]); err != nil {
		return f, err
	}
	f.Aliases = starterAliases(rec[10])
	if f.Measures, err = starterMeasures(rec[11]); err != nil {
		return f, err
	}
	for i, n := range columns {
		if cell := rec[len(starterColumns)+i]; cell != "" {
			v, err := starterNumber(cell)
			if err != nil {
				return f, fmt.Errorf("%s: %w", n.Key(), err)
			}
			f.Per100.Set(n, v)
		}
	}
	if v, ok := f.Per100.Get(EnergyKcal); ok {
		f.Per100.Set(EnergyKJ, v*KJPerKcal)
	}
	return f, nil
}

// starterNumber reads a number that is not negative; an empty cell is 0.
func starterNumber(s string) (float64, error) {
	if s == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= 0 && v < 1e9) {
		return 0, fmt.Errorf("%q is not an amount", s)
	}
	return v, nil
}

// starterAllergens reads "recorded;milk;egg?" or "open;wheat": the account,
// what is in the food, and with a question mark what may be.
func starterAllergens(cell string) (Allergens, error) {
	account, rest, _ := strings.Cut(cell, ";")
	if account != "recorded" && account != "open" {
		return Allergens{}, fmt.Errorf("the allergens start with %q, not with recorded or open", account)
	}
	a := Allergens{Recorded: account == "recorded"}
	for rest != "" {
		var key string
		key, rest, _ = strings.Cut(rest, ";")
		plain := strings.TrimSuffix(key, "?")
		bit, ok := AllergenByKey(plain)
		switch {
		case !ok:
			return a, fmt.Errorf("there is no allergen %q", key)
		case plain == key:
			a.Contains |= bit
		default:
			a.Depends |= bit
		}
	}
	return a, nil
}

func starterAliases(cell string) []Alias {
	if cell == "" {
		return nil
	}
	out := make([]Alias, 0, strings.Count(cell, "|")+1)
	for cell != "" {
		var one string
		one, cell, _ = strings.Cut(cell, "|")
		name, differs, isClose := strings.Cut(one, "=")
		out = append(out, Alias{Name: name, Close: isClose, Differs: differs})
	}
	return out
}

func starterMeasures(cell string) ([]Measure, error) {
	if cell == "" {
		return nil, nil
	}
	out := make([]Measure, 0, strings.Count(cell, "|")+1)
	for cell != "" {
		var one string
		one, cell, _ = strings.Cut(cell, "|")
		what, grams, _ := strings.Cut(one, "=")
		unit, detail, _ := strings.Cut(what, ";")
		g, err := starterNumber(grams)
		if err != nil || g == 0 || unit == "" {
			return nil, fmt.Errorf("the measure %q is not a unit with grams", one)
		}
		out = append(out, Measure{Unit: unit, Detail: detail, Grams: g})
	}
	return out, nil
}
