package tables

import (
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/food/portions"
)

// How many fields the rows of the relational files have (documentation of the
// standard reference, Release 26).
const (
	descriptionFields = 14
	groupFields       = 2
	definitionFields  = 6
	valueFields       = 18
	weightFields      = 7
)

// readRelational reads the relational layout: descriptions, then values, then
// household weights.
func (w *work) readRelational() error {
	groups, err := w.readGroups()
	if err != nil {
		return err
	}
	if err := w.readDescriptions(groups); err != nil {
		return err
	}
	if err := w.readValues(); err != nil {
		return err
	}
	return w.readWeights()
}

// each reads a file row by row, if it is there.
func (w *work) each(file string, fields int, row func(r *rows)) error {
	name, ok := w.place.files[file]
	if !ok {
		return nil
	}
	r, err := w.open(name, fields)
	if err != nil {
		return err
	}
	for r.row() {
		row(r)
	}
	return r.close()
}

// readGroups gives the names of the food groups by their code.
func (w *work) readGroups() (map[string]string, error) {
	groups := map[string]string{}
	err := w.each("fd_group.txt", groupFields, func(r *rows) { groups[r.cell(0)] = strings.Clone(r.cell(1)) })
	return groups, err
}

// readDescriptions makes the foods. Fields: number, group, long name, short
// name, common names, maker, surveyed, refuse, its share, then factors.
func (w *work) readDescriptions(groups map[string]string) error {
	return w.each("food_des.txt", descriptionFields, func(r *rows) {
		w.listed = r.total
		published := tidy(r.cell(2))
		if published == "" {
			published = tidy(r.cell(3))
		}
		e, ok := r.newFood(r.cell(0), published, published)
		if !ok {
			return
		}
		if e.Edible, ok = r.edible(r.cell(8)); !ok {
			w.byCode[e.Code] = badFood
			return
		}
		group := r.cell(1)
		e.Group = groupOf(group, groups[group], e.Name)
		e.State = stateOf(e.Name, first2(group))
		e.Aliases = aliasesOf(r.cell(4), e.Name)
		w.add(r, e)
	})
}

func first2(s string) string { return s[:min(2, len(s))] }

// aliasesOf are the common names of a food, parted by commas or semicolons.
func aliasesOf(common, name string) []food.Alias {
	var out []food.Alias
	for _, s := range strings.FieldsFunc(common, func(r rune) bool { return r == ',' || r == ';' }) {
		if s = plain(tidy(s)); s != "" && s != name {
			out = append(out, food.Alias{Name: s})
		}
	}
	return out
}

// definition says where the figures of a nutrient number go.
type definition struct {
	slot
	scale float64
}

// readDefinitions gives the nutrient numbers that are kept with their units. A
// number in a unit that cannot be turned into ours is named, and its figures
// stay unknown. Without the file the units are the published ones.
func (w *work) readDefinitions() (map[string]definition, error) {
	out := make(map[string]definition, len(slots))
	for nr, s := range slots {
		out[nr] = definition{s, 1}
	}
	err := w.each("nutr_def.txt", definitionFields, func(r *rows) {
		nr := r.cell(0)
		s, ours := slots[nr]
		if !ours {
			return
		}
		scale, ok := scaleOf(s.to, r.cell(1))
		if !ok {
			delete(out, strings.Clone(nr))
			r.fail("tables.bad.unit", nameOf(s.to), r.cell(1))
			return
		}
		out[strings.Clone(nr)] = definition{s, scale}
	})
	return out, err
}

// readValues reads NUT_DATA. Where it is absent, or so damaged that a tenth of
// it cannot be read, the abbreviated file beside it has the values.
func (w *work) readValues() error {
	defs, err := w.readDefinitions()
	if err != nil {
		return err
	}
	_, abbreviated := w.place.files["abbrev.txt"]
	bad, count := w.bad, w.count
	if w.place.has("nut_data.txt") {
		err := w.each("nut_data.txt", valueFields, func(r *rows) { r.value(defs) })
		if err == nil || !abbreviated || w.stopped != nil {
			return err
		}
		w.bad, w.count = bad, count // as if the damaged file were not there, but for one word about it
		w.count.Rows++
		w.count.Bad++
		w.note(w.place.files["nut_data.txt"], "tables.damaged-values", w.place.files["abbrev.txt"])
		for i := range w.foods {
			w.foods[i].Per100 = food.Profile{}
		}
	}
	if !abbreviated {
		return fault(nil, "NUT_DATA.txt", "tables.no-values")
	}
	return w.valuesBeside()
}

// value reads one row of NUT_DATA: food, nutrient, amount, then statistics.
func (r *rows) value(defs map[string]definition) {
	def, ours := defs[r.cell(1)]
	if !ours {
		return
	}
	e, ok := r.foodOf(r.cell(0))
	if !ok {
		return
	}
	v, known, ok := number(r.cell(2), r.comma)
	switch {
	case !ok:
		r.fail("tables.bad.number", r.cell(2), nameOf(def.to))
	case known && !e.set(def.slot, v*def.scale):
		r.fail("tables.bad.much", nameOf(def.to), r.cell(2))
	}
}

// foodOf finds the food a row of another file speaks of. One that is nowhere is
// a bad row; one whose own row was bad has been named already.
func (r *rows) foodOf(code string) (*entry, bool) {
	number, ok := ndb(code)
	if !ok {
		r.fail("tables.bad.code", code)
		return nil, false
	}
	at, ok := r.w.byCode[number]
	if !ok {
		r.fail("tables.bad.no-food", number)
		return nil, false
	}
	if at == badFood {
		return nil, false
	}
	return &r.w.foods[at], true
}

// valuesBeside takes the values of the abbreviated file for the foods described.
func (w *work) valuesBeside() error {
	return w.each("abbrev.txt", abbreviatedFields, func(r *rows) {
		e, ok := r.foodOf(r.cell(0))
		if ok && e.Per100.Known == 0 {
			r.abbreviatedValues(e, placesOf(r))
		}
	})
}

// readWeights reads household weights: food, place, amount, what, grams.
func (w *work) readWeights() error {
	return w.each("weight.txt", weightFields, func(r *rows) {
		e, ok := r.foodOf(r.cell(0))
		if !ok {
			return
		}
		amount, known, ok := number(r.cell(2), r.comma)
		grams, weighed, ok2 := number(r.cell(4), r.comma)
		switch {
		case !ok || !known || amount == 0:
			r.fail("tables.bad.number", r.cell(2), r.cell(3))
		case !ok2 || !weighed:
			r.fail("tables.bad.number", r.cell(4), r.cell(3))
		default:
			w.measureOf(&e.Food, r.cell(3), grams/amount, portions.NamesOf(e.Name))
		}
	})
}
