package tables

import (
	"strconv"
	"strings"

	"parewell/recipes/food/portions"
)

// mostFoods is how many foods one table may have: the whole table is searched at
// every keystroke.
const mostFoods = 60_000

// centralSorts are the sorts of food of FoodData Central that a cook uses; the
// others are samples and trials behind them.
var centralSorts = map[string]bool{
	"sr_legacy_food": true, "foundation_food": true, "survey_fndds_food": true, "branded_food": true,
}

// centralTable is what is known while a FoodData Central folder is read.
type centralTable struct {
	w          *work
	categories map[string]category
	units      map[string]string
	byID       map[uint64]int32
}

type category struct{ code, name string }

// readCentral reads a folder of FoodData Central's CSV files.
func (w *work) readCentral() error {
	t := &centralTable{w: w, categories: map[string]category{}, units: map[string]string{}, byID: map[uint64]int32{}}
	for _, step := range []func() error{t.readCategories, t.readUnits, t.readFoods, t.readValues, t.readPortions} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// eachOf reads one of the CSV files if it is there; without the columns it needs
// it is no file of FoodData Central. columns are names by columnKey; row gets
// their places in the same order.
func (t *centralTable) eachOf(file string, columns []string, row func(r *rows, c []int)) error {
	name, ok := t.w.place.files[file]
	if !ok {
		return nil
	}
	r, err := t.w.open(name, 0)
	if err != nil {
		return err
	}
	at := make([]int, len(columns))
	for i, c := range columns {
		key, optional := strings.CutPrefix(c, "?")
		if at[i] = r.column(key); at[i] < 0 && !optional {
			r.file.Close() //nolint:errcheck // it was only read
			return fault(nil, name, "tables.no-column", key)
		}
	}
	for r.row() {
		row(r, at)
	}
	return r.close()
}

func (t *centralTable) readCategories() error {
	return t.eachOf("food_category.csv", []string{"id", "?code", "description"}, func(r *rows, c []int) {
		t.categories[strings.Clone(r.cell(c[0]))] = category{strings.Clone(r.cell(c[1])), strings.Clone(r.cell(c[2]))}
	})
}

func (t *centralTable) readUnits() error {
	return t.eachOf("measure_unit.csv", []string{"id", "name"}, func(r *rows, c []int) {
		t.units[strings.Clone(r.cell(c[0]))] = strings.Clone(r.cell(c[1]))
	})
}

// readFoods reads food.csv. When branded foods make it too large to search they
// are left out; what is then still too large is refused.
func (t *centralTable) readFoods() error {
	w := t.w
	err := t.eachOf("food.csv", []string{"fdcid", "datatype", "description", "?foodcategoryid", "?publicationdate"}, func(r *rows, c []int) {
		id, err := strconv.ParseUint(r.cell(c[0]), 10, 64)
		sort := r.cell(c[1])
		switch {
		case err != nil:
			r.fail("tables.bad.code", r.cell(c[0]))
		case !centralSorts[sort]:
			w.count.Left++
			t.byID[id] = badFood
		case len(w.foods) < mostFoods:
			t.food(r, id, sort, c)
		default:
			w.count.Left++
			t.byID[id] = badFood
			w.sorts["too many"] = true
		}
	})
	if err == nil && w.sorts["too many"] {
		return fault(nil, w.place.files["food.csv"], "tables.large", mostFoods)
	}
	return err
}

// food makes a food of the present row of food.csv.
func (t *centralTable) food(r *rows, id uint64, sort string, c []int) {
	w := t.w
	if at, twice := t.byID[id]; twice && at >= 0 {
		r.fail("tables.bad.twice", id, w.foods[at].line)
		return
	}
	var e entry
	e.Code, e.Published, e.line = strconv.FormatUint(id, 10), tidy(r.cell(c[2])), r.first
	if e.Name = plain(e.Published); e.Name == "" {
		t.byID[id] = badFood
		r.fail("tables.bad.name")
		return
	}
	in := t.categories[r.cell(c[3])]
	e.Group = groupOf(in.code, in.name, e.Name)
	e.State = stateOf(e.Name, first2(in.code))
	if date := r.cell(c[4]); date > w.dated && len(date) == len("2019-04-01") {
		w.dated = strings.Clone(date)
	}
	w.sorts[strings.Clone(sort)] = true
	t.byID[id] = int32(len(w.foods))
	w.foods = append(w.foods, e)
}

// readValues reads nutrient.csv and food_nutrient.csv, whose amounts are per
// 100 g.
func (t *centralTable) readValues() error {
	if !t.w.place.has("nutrient.csv") || !t.w.place.has("food_nutrient.csv") {
		return fault(nil, "food_nutrient.csv", "tables.no-values")
	}
	defs := map[string]definition{}
	err := t.eachOf("nutrient.csv", []string{"id", "unitname", "nutrientnbr"}, func(r *rows, c []int) {
		s, ours := slots[strings.TrimSuffix(r.cell(c[2]), ".0")]
		if !ours {
			return
		}
		scale, ok := scaleOf(s.to, r.cell(c[1]))
		if !ok {
			r.fail("tables.bad.unit", nameOf(s.to), r.cell(c[1]))
			return
		}
		defs[strings.Clone(r.cell(c[0]))] = definition{s, scale}
	})
	if err != nil {
		return err
	}
	for nr, s := range slots { // older survey tables name nutrients by number; ids have four digits
		if _, taken := defs[nr]; !taken {
			defs[nr] = definition{s, 1}
		}
	}
	return t.eachOf("food_nutrient.csv", []string{"fdcid", "nutrientid", "amount"}, func(r *rows, c []int) {
		def, ours := defs[r.cell(c[1])]
		if !ours {
			return
		}
		if e, ok := t.foodOf(r, r.cell(c[0])); ok {
			r.centralValue(e, def, r.cell(c[2]))
		}
	})
}

// foodOf finds the food a row speaks of; those that food.csv does not list, or
// that were left out, are passed over: the files of one sort of food are often
// kept with the values of all.
func (t *centralTable) foodOf(r *rows, cell string) (*entry, bool) {
	id, err := strconv.ParseUint(cell, 10, 64)
	if err != nil {
		r.fail("tables.bad.code", cell)
		return nil, false
	}
	at, ok := t.byID[id]
	if !ok || at == badFood {
		return nil, false
	}
	return &t.w.foods[at], true
}

func (r *rows) centralValue(e *entry, def definition, cell string) {
	v, known, ok := number(cell, r.comma)
	switch {
	case !ok:
		r.fail("tables.bad.number", cell, nameOf(def.to))
	case known && !e.set(def.slot, v*def.scale):
		r.fail("tables.bad.much", nameOf(def.to), cell)
	}
}

// undetermined is what measure_unit.csv calls a unit that stands in the
// modifier instead.
const undetermined = "undetermined"

// readPortions reads food_portion.csv: an amount of a unit, or words that say
// both, and what they weigh.
func (t *centralTable) readPortions() error {
	columns := []string{"fdcid", "?amount", "?measureunitid", "?portiondescription", "?modifier", "gramweight"}
	return t.eachOf("food_portion.csv", columns, func(r *rows, c []int) {
		e, ok := t.foodOf(r, r.cell(c[0]))
		if !ok {
			return
		}
		amount, counted, ok := number(r.cell(c[1]), r.comma)
		grams, weighed, ok2 := number(r.cell(c[5]), r.comma)
		if !ok || !ok2 {
			r.fail("tables.bad.number", r.cell(c[5]), r.cell(c[3])+r.cell(c[4]))
			return
		}
		what := t.portion(r, c)
		if !counted || amount == 0 {
			amount, what = portions.Amount(what)
		}
		if weighed && what != "" {
			t.w.measureOf(&e.Food, what, grams/amount, portions.NamesOf(e.Name))
		}
	})
}

// portion puts the words of a portion together; a modifier that is only a number
// is a code of the survey's.
func (t *centralTable) portion(r *rows, c []int) string {
	unit, described, modifier := t.units[r.cell(c[2])], r.cell(c[3]), r.cell(c[4])
	if strings.Trim(modifier, "0123456789") == "" {
		modifier = ""
	}
	if unit == undetermined {
		unit = ""
	}
	switch {
	case unit != "" && modifier != "":
		return unit + ", " + modifier
	case unit != "":
		return unit
	case modifier != "":
		return modifier
	}
	return described
}
