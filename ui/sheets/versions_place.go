package sheets

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// RowKind says what a row of the Versions sheet stands for.
type RowKind int

// Kinds of row.
const (
	OtherRow    RowKind = iota // a band, an effect: nothing that can be opened
	NumberRow                  // a nutrient
	LineRow                    // an ingredient of the original
	AddedRow                   // an ingredient that swaps add
	StepRow                    // a step of the original
	AddedStep                  // a step that swaps add
	AddLineRow                 // where an ingredient is typed to be added
	AddStepRow                 // where a step is typed to be added
	EffectRow                  // from the recipe, from a smaller helping
	GotWorseRow                // what slipped
	WeightRow                  // what the whole dish weighs
)

// KindOf tells what the row with a key stands for.
func (x *Bench) KindOf(key string) RowKind {
	switch key {
	case "":
		return OtherRow
	case AddLineKey:
		return AddLineRow
	case AddStepKey:
		return AddStepRow
	case EffectKey:
		return EffectRow
	case SlipsKey:
		return GotWorseRow
	case DishWeightKey:
		return WeightRow
	}
	id := recipes.ID(key)
	switch {
	case x.Recipe.Line(id) != nil:
		return LineRow
	case x.Recipe.Step(id) != nil:
		return StepRow
	}
	if _, ok := food.ByKey(key); ok {
		return NumberRow
	}
	for i := range x.Accounts {
		if len(partsOf(x.Accounts[i].Draft, id)) > 0 {
			return AddedRow
		}
		for _, s := range x.Accounts[i].Draft.Steps {
			if s.ID == id {
				return AddedStep
			}
		}
	}
	return OtherRow
}

// Stands lists what column i has in an ingredient's place: what is left of the
// original's line and what swaps brought for it; nothing when it is left out.
func (x *Bench) Stands(i int, line recipes.ID) []*recipes.DraftLine {
	return partsOf(x.Accounts[i].Draft, line)
}

// StandText says one of the things Stands lists as the field shows it.
func StandText(d *recipes.DraftLine) string { return partText(d) }

// ColumnOf returns the column of a version, 0 when it has none.
func (x *Bench) ColumnOf(version recipes.ID) int {
	for i, v := range x.Versions {
		if v != nil && v.ID == version {
			return i
		}
	}
	return 0
}

// ColumnName names a column: "Original", "A", "B, less cream".
func (x *Bench) ColumnName(i int) string {
	v := x.Versions[i]
	switch {
	case v == nil:
		return words.Say("original")
	case v.Name == "":
		return v.Letter
	}
	return words.Say("versions.letter-name", v.Letter, v.Name)
}

// ColumnTip says which swaps a version has on and what the cook noted of it.
func (x *Bench) ColumnTip(i int) string {
	v := x.Versions[i]
	if v == nil {
		return ""
	}
	var names []string
	for _, s := range x.book.On(v) {
		names = append(names, s.Name)
	}
	tip := words.Say("versions.no-swaps")
	if len(names) > 0 {
		tip = words.Say("versions.swaps-on", words.Join(names))
	}
	return join(tip, v.Note)
}

// EditText is what editing a field of the sheet starts with where that is not
// what the field shows: over "=" the original's weight or step, over a part
// that is eaten in part the weight alone.
func (x *Bench) EditText(key string, i int) string {
	id := recipes.ID(key)
	if s := x.Recipe.Step(id); s != nil {
		return x.stepEditText(i, s)
	}
	l := x.Recipe.Line(id)
	if l == nil {
		return ""
	}
	stands := x.Stands(i, id)
	if len(stands) == 1 && stands[0].Swap == "" && l.Sub != nil {
		return words.Grams(LineNow(x.book, l).Grams * stands[0].Scale)
	}
	if len(stands) == 1 && stands[0].Swap == "" && l.Known() {
		return words.Grams(l.Grams * stands[0].Scale)
	}
	return ""
}

func (x *Bench) stepEditText(i int, s *recipes.Step) string {
	if c := stepCell(x.Accounts[i].Draft, s); c.Text == Same {
		return s.Text
	}
	return ""
}

// ServingsText says how many a column serves, for a field.
func (x *Bench) ServingsText(i int) string { return words.Trim(x.Accounts[i].Draft.Servings, 2) }

// WeightNote says what the weights of all columns rest on.
func (x *Bench) WeightNote() string { return words.Say("cooked." + string(x.Weight)) }
