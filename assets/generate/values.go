package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// valueColumns are the value columns of foods.csv, by the stable names of
// package food; published names the SR28 column they are copied from, empty
// for those derived here. Energy in kJ is 4.184 x kcal and made on reading.
var valueColumns = []struct{ key, published string }{
	{"energy_kcal", "Energ_Kcal"},
	{"protein_g", "Protein_(g)"},
	{"fat_g", "Lipid_Tot_(g)"},
	{"saturated_fat_g", "FA_Sat_(g)"},
	{"carbohydrate_g", "Carbohydrt_(g)"},
	{"sugars_g", "Sugar_Tot_(g)"},
	{"added_sugars_g", ""},
	{"fibre_g", "Fiber_TD_(g)"},
	{"sodium_mg", "Sodium_(mg)"},
	{"cholesterol_mg", "Cholestrl_(mg)"},
	{"alcohol_g", ""},
	{"water_g", "Water_(g)"},
	{"potassium_mg", "Potassium_(mg)"},
	{"calcium_mg", "Calcium_(mg)"},
	{"iron_mg", "Iron_(mg)"},
	{"trans_fat_g", ""},
}

// kinds a food can be of in kinds.csv, with what the kind settles: whether
// nothing sweet was added, and whether it has no trans fat by its nature
// (which only hydrogenation or a ruminant puts into a food).
var kinds = map[string]struct{ noneAdded, noTrans bool }{
	"fruit":     {true, true},
	"vegetable": {true, true},
	"grain":     {true, true},
	"pulse":     {true, true},
	"herb":      {true, false},
	"nut":       {true, false},
	"milk":      {true, false},
	"meat":      {true, false},
	"fish":      {true, false},
	"egg":       {true, false},
	"fat":       {true, false},
	"cooked":    {true, false}, // plain things made up with egg, milk or fat: noodles, mash, fried tofu
	"plain":     {true, false}, // salt, soda, vinegar, cocoa: one thing and nothing sweet in it
	"drink":     {true, false}, // water, tea, coffee
	"alcohol":   {false, false},
	"sugar":     {false, false}, // sugar, honey, syrups: all their sugars are added
	"made":      {false, false}, // made of several things: added sugars unknown
}

// values gives the text of each value column; a blank of SR28 stays blank.
func values(sr record, kind string) ([]string, error) {
	if _, ok := kinds[kind]; !ok {
		return nil, fmt.Errorf("kinds.csv: no kind %q", kind)
	}
	out := make([]string, len(valueColumns))
	for i, c := range valueColumns {
		switch c.key {
		case "added_sugars_g":
			out[i] = addedSugars(sr, kind)
		case "alcohol_g":
			out[i] = alcohol(sr, kind)
		case "trans_fat_g":
			out[i] = transFat(sr, kind)
		default:
			out[i] = sr[c.published]
		}
	}
	return out, nil
}

// addedSugars follows the design's rule: all of the sugars of sugar, honey and
// syrups; none in plain foods, and none where there are no sugars or no
// carbohydrate at all; otherwise unknown. Where a syrup's sugars are blank the
// added ones are unknown too.
func addedSugars(sr record, kind string) string {
	switch {
	case kind == "sugar":
		return sr["Sugar_Tot_(g)"]
	case kinds[kind].noneAdded, isZero(sr["Sugar_Tot_(g)"]), isZero(sr["Carbohydrt_(g)"]):
		return "0"
	}
	return ""
}

// transFat is known to be none where there is no fat, and in plain fruit,
// vegetables, grains and pulses; otherwise SR28's abbreviated file is silent.
func transFat(sr record, kind string) string {
	if kinds[kind].noTrans || isZero(sr["Lipid_Tot_(g)"]) {
		return "0"
	}
	return ""
}

// alcohol is what is left of 100 g when water, protein, fat, ash and
// carbohydrate are taken off, for drinks with alcohol and vanilla extract; all
// other foods hold none. SR28's abbreviated file has no alcohol column.
func alcohol(sr record, kind string) string {
	const vanillaExtract = "02050"
	if kind != "alcohol" && sr["NDB_No"] != vanillaExtract {
		return "0"
	}
	left := 100.0
	for _, k := range []string{"Water_(g)", "Protein_(g)", "Lipid_Tot_(g)", "Ash_(g)", "Carbohydrt_(g)"} {
		v, err := strconv.ParseFloat(sr[k], 64)
		if err != nil {
			return ""
		}
		left -= v
	}
	return number(math.Max(0, left))
}

func isZero(s string) bool {
	v, err := strconv.ParseFloat(s, 64)
	return err == nil && v == 0
}

// number prints v with at most four places and no trailing zeros.
func number(v float64) string {
	s := strconv.FormatFloat(v, 'f', 4, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "" || s == "-0" {
		return "0"
	}
	return s
}
