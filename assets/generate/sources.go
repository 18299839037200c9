package main

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"parewell/recipes/food/portions"
)

// record is one row of a CSV file by column name.
type record map[string]string

// weight is one household weight of a published table: Amount of What weighs
// Grams.
type weight struct {
	Amount float64
	What   string
	Grams  float64
}

// alias is one row of aliases.csv. Differs is empty when the name means the
// same food; Drop takes a name off again that the starter list gave.
type alias struct {
	Code, Name, Differs string
	Drop                bool
}

// sources is everything the table is made from, read whole.
type sources struct {
	Foods    []record            // starter list in its order, then the extras
	SR28     map[string]record   // by NDB number
	SR26     map[string][]weight // by NDB number
	Kinds    map[string]record   // by NDB number
	Aliases  []alias
	Measures []record
	Swells   map[string]record // by NDB number: its dry and cooked row
}

// readSources reads the published tables and the hand-kept lists.
func readSources(reference, starter, lists string) (*sources, error) {
	s := &sources{}
	var err error
	if s.Foods, err = readCSV(filepath.Join(starter, "foods.csv")); err != nil {
		return nil, err
	}
	extras, err := readCSV(filepath.Join(lists, "extras.csv"))
	if err != nil {
		return nil, err
	}
	s.Foods = append(s.Foods, extras...)
	if s.SR28, err = readByCode(filepath.Join(reference, "usda-sr28", "ABBREV.csv"), "NDB_No"); err != nil {
		return nil, err
	}
	if s.SR26, err = readWeights(filepath.Join(reference, "usda-sr26", "WEIGHT.txt")); err != nil {
		return nil, err
	}
	if s.Kinds, err = readByCode(filepath.Join(lists, "kinds.csv"), "code"); err != nil {
		return nil, err
	}
	if s.Measures, err = readCSV(filepath.Join(lists, "measures.csv")); err != nil {
		return nil, err
	}
	return s, s.readOwnLists(lists)
}

// readOwnLists reads aliases.csv and swells.csv.
func (s *sources) readOwnLists(lists string) error {
	rows, err := readCSV(filepath.Join(lists, "aliases.csv"))
	if err != nil {
		return err
	}
	for _, r := range rows {
		s.Aliases = append(s.Aliases, alias{r["code"], r["name"], r["differs"], r["drop"] == "drop"})
	}
	s.Swells, err = readByCode(filepath.Join(lists, "swells.csv"), "code")
	return err
}

// readCSV reads a file with a header line; lines that start with # are remarks.
func readCSV(path string) ([]record, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rd := csv.NewReader(f)
	rd.Comment = '#'
	all, err := rd.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	var out []record
	for _, line := range all[1:] {
		r := record{}
		for i, name := range all[0] {
			r[name] = strings.TrimSpace(line[i])
		}
		out = append(out, r)
	}
	return out, nil
}

// readByCode reads a CSV file into a map by one column; a repeated code is an error.
func readByCode(path, column string) (map[string]record, error) {
	rows, err := readCSV(path)
	if err != nil {
		return nil, err
	}
	out := make(map[string]record, len(rows))
	for _, r := range rows {
		if _, twice := out[r[column]]; twice {
			return nil, fmt.Errorf("%s: %s stands twice", path, r[column])
		}
		out[r[column]] = r
	}
	return out, nil
}

// readWeights reads WEIGHT.txt of the USDA relational layout: ^ between
// fields, ~ around text; fields are NDB number, sequence, amount, what, grams.
func readWeights(path string) (map[string][]weight, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	out := map[string][]weight{}
	sc := bufio.NewScanner(f)
	for n := 1; sc.Scan(); n++ {
		p := strings.Split(sc.Text(), "^")
		if len(p) < 5 {
			continue
		}
		amount, err1 := strconv.ParseFloat(p[2], 64)
		grams, err2 := strconv.ParseFloat(p[4], 64)
		if err1 != nil || err2 != nil {
			return nil, fmt.Errorf("%s, line %d: amount %q, grams %q", path, n, p[2], p[4])
		}
		code := strings.Trim(p[0], "~")
		out[code] = append(out[code], weight{amount, strings.Trim(p[3], "~"), grams})
	}
	return out, sc.Err()
}

// sr28Weights gives the one or two household weights of an SR28 row.
func sr28Weights(r record) []weight {
	var out []weight
	for _, k := range []string{"1", "2"} {
		amount, what := portions.Amount(r["GmWt_Desc"+k])
		grams, err := strconv.ParseFloat(r["GmWt_"+k], 64)
		if err == nil && what != "" {
			out = append(out, weight{amount, what, grams})
		}
	}
	return out
}
