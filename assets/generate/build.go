package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// row is one food as it is written out; numbers stand as the text they are
// printed with, an unknown one is empty.
type row struct {
	Code, Name, Published, Group string
	Core                         bool
	State                        string
	Density, Edible, Swells      string
	Allergens                    string
	Aliases, Measures            []string
	Values                       []string // in the order of valueColumns
}

// build makes every row; it goes on after a fault so that all are named.
func build(s *sources) ([]row, error) {
	var rows []row
	var faults []error
	names := map[string]string{}
	for _, f := range s.Foods {
		r, err := s.row(f)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s %s: %w", f["ndb"], f["plain_name"], err))
			continue
		}
		if other, twice := names[r.Name]; twice {
			faults = append(faults, fmt.Errorf("%s has the name of %s", r.Code, other))
		}
		names[r.Name] = r.Code
		rows = append(rows, r)
	}
	faults = append(faults, s.strays(rows)...)
	return rows, errors.Join(faults...)
}

// strays names rows of the hand-kept lists that belong to no food.
func (s *sources) strays(rows []row) []error {
	have := map[string]bool{}
	for _, r := range rows {
		have[r.Code] = true
	}
	var out []error
	for _, a := range s.Aliases {
		if !have[a.Code] {
			out = append(out, fmt.Errorf("aliases.csv: no food %s for %q", a.Code, a.Name))
		}
	}
	for _, m := range s.Measures {
		if !have[m["code"]] {
			out = append(out, fmt.Errorf("measures.csv: no food %s for %q", m["code"], m["unit"]))
		}
	}
	for code := range s.Kinds {
		if !have[code] {
			out = append(out, fmt.Errorf("kinds.csv: no food %s", code))
		}
	}
	return out
}

// row makes one food from its line in the starter list.
func (s *sources) row(f record) (row, error) {
	code := f["ndb"]
	sr, ok := s.SR28[code]
	if !ok {
		return row{}, errors.New("not in SR28")
	}
	kind, ok := s.Kinds[code]
	if !ok {
		return row{}, errors.New("not in kinds.csv")
	}
	r := row{Code: code, Name: f["plain_name"], Published: sr["Shrt_Desc"], Group: f["group"], Core: f["tier"] == "1"}
	var err error
	if r.Aliases, err = s.aliasesOf(f); err != nil {
		return row{}, err
	}
	if r.Allergens, err = allergens(kind); err != nil {
		return row{}, err
	}
	measures := s.measuresOf(f)
	r.Measures = spell(measures)
	if kind["pours"] == "pours" {
		r.Density = density(measures)
	}
	if refuse, err := strconv.ParseFloat(sr["Refuse_Pct"], 64); err == nil {
		r.Edible = number(1 - refuse/100)
	}
	if r.Swells, err = s.swells(code); err != nil {
		return row{}, err
	}
	r.State = stateOf(r, sr["Shrt_Desc"])
	r.Values, err = values(sr, kind["kind"])
	return r, err
}

// swells gives the cooked weight of 1 g dry from the protein of the dry and
// the cooked row, which boiling leaves in the food (FAO, Greenfield & Southgate
// 2003; the same figure as in nutrition/raw-cooked-pairs.csv). Empty for foods
// without a pair.
func (s *sources) swells(code string) (string, error) {
	pair, ok := s.Swells[code]
	if !ok {
		return "", nil
	}
	dry, err1 := strconv.ParseFloat(s.SR28[pair["dry"]]["Protein_(g)"], 64)
	wet, err2 := strconv.ParseFloat(s.SR28[pair["cooked"]]["Protein_(g)"], 64)
	if err1 != nil || err2 != nil || wet == 0 {
		return "", fmt.Errorf("swells.csv: no protein to compare with %s", pair["cooked"])
	}
	return strconv.FormatFloat(dry/wet, 'f', 3, 64), nil
}

// stateOf reads from the names what was weighed. Baked goods, sauces and
// sweets are what they are: no state.
func stateOf(r row, published string) string {
	has := func(words ...string) bool {
		for _, w := range words {
			for _, p := range strings.FieldsFunc(strings.ToLower(r.Name), notLetter) {
				if p == w {
					return true
				}
			}
		}
		return false
	}
	switch r.Group {
	case "bread and baked goods", "condiments and sauces", "soups and stocks", "drinks and alcohol", "fats and oils", "dairy":
		return ""
	case "baking and sweet", "fruit", "nuts and seeds", "sausages and deli":
		if has("raw") {
			return "raw"
		}
		return ""
	}
	switch {
	case r.Code == "20093": // fresh pasta is weighed before cooking, but is not dry
		return "raw"
	case r.Swells != "":
		return "dry"
	case has("canned") && has("drained"), has("drained"):
		return "drained"
	case has("canned"):
		return ""
	case has("cooked", "boiled", "baked", "roasted", "grilled", "fried", "poached", "scrambled", "heated", "kippered"):
		return "cooked"
	case has("frozen"):
		return "frozen"
	case has("raw"):
		return "raw"
	case has("dry", "dried"):
		return "dry"
	case strings.Contains(published, ",RAW"), strings.Contains(published, ", RAW"):
		return "raw"
	}
	return ""
}

func notLetter(r rune) bool { return r < 'a' || r > 'z' }
