package sheets

import (
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// MethodChoices are the ways to cook for a list: key and words, the first "not
// stated". A way that is none of ours (as typed in a recipe's text) joins them,
// so that looking at a dish does not change it.
func MethodChoices(now recipes.Technique) []Fact {
	out := []Fact{{"", words.Say("cooked.not-stated")}}
	for i := range nutrition.Methods {
		key := nutrition.Methods[i].Key
		out = append(out, Fact{key, words.Say("method." + key)})
	}
	if now.Method != "" && nutrition.MethodOf(now) == nil {
		out = append(out, Fact{now.Method, now.Method})
	}
	return out
}

// MethodKey is what MethodChoices knows a technique by.
func MethodKey(t recipes.Technique) string {
	if m := nutrition.MethodOf(t); m != nil {
		return m.Key
	}
	return t.Method
}

// MethodText says a way of cooking: "baked, 25 minutes", "not stated".
func MethodText(t recipes.Technique) string {
	if t.Method == "" {
		return words.Say("cooked.not-stated")
	}
	name := t.Method
	if m := nutrition.MethodOf(t); m != nil && m.Key == t.Method {
		name = words.Say("method." + m.Key)
	}
	if t.Minutes > 0 {
		return words.Say("cooked.minutes", words.Trim(t.Minutes, 0), name)
	}
	return name
}

// MinutesField is a technique's time for a field, empty when not stated.
func MinutesField(t recipes.Technique) string {
	if t.Minutes <= 0 {
		return ""
	}
	return words.Trim(t.Minutes, 1)
}

// ReadMinutes reads a time in minutes; nothing typed is not stated.
func ReadMinutes(text string) (float64, bool) {
	if text == "" {
		return 0, true
	}
	v, ok := reading.Number(text)
	return v, ok && v <= mostMinutes
}

// mostMinutes is two days, longer than any pot stands on the stove.
const mostMinutes = 2 * 24 * 60

// MethodNote says what a way of cooking does to weight and alcohol, and by
// which figures.
func MethodNote(t recipes.Technique) string {
	m := nutrition.MethodOf(t)
	if m == nil {
		if t.Method == "" {
			return words.Say("cooked.note.none")
		}
		return words.Say("cooked.note.other")
	}
	y, low, high := m.YieldFor(t.Minutes)
	said := []string{words.Say("cooked.note.weight", words.Share(y), words.Share(low), words.Share(high))}
	if kept, sure := nutrition.AlcoholKept(t); kept < 1 {
		key := "cooked.note.alcohol"
		if !sure {
			key = "cooked.note.alcohol-time"
		}
		said = append(said, words.Say(key, words.Share(kept), words.Say("retention.alcohol")))
	}
	return sentences(said)
}

// DishWeightKey is the row of the whole dish's weight.
const DishWeightKey = "weight"

// weightRow says what each version weighs and what that rests on.
func (x *Bench) weightRow() Row {
	r := Row{Key: DishWeightKey, Label: Cell{Text: words.Say("versions.weight." + string(x.Weight)), Muted: true, Bar: noBar(), Tip: words.Say("tip.weight")}}
	for i, a := range x.Accounts {
		g, whole := a.CookedGrams()
		c := Cell{Text: words.Grams(g), Number: true, Bar: noBar(), Tip: x.WeightText(i)}
		if !whole {
			c.Text = words.Say("amount.at-least", c.Text)
		}
		if low, high := a.CookedRange(); low < high {
			c.Sub = words.Say("range.short", words.Grams(low), words.Grams(high))
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// WeightText says in a sentence what the weight of column i rests on.
func (x *Bench) WeightText(i int) string {
	a := x.Accounts[i]
	low, high := a.CookedRange()
	said := ""
	switch a.CookedBy {
	case nutrition.CookedMeasured:
		said = words.Say("weight.measured", a.Tests(), words.Grams(low), words.Grams(high))
	case nutrition.CookedEstimated:
		said = words.Say("weight.estimated", MethodText(a.Draft.Dish), words.Grams(low), words.Grams(high))
	default:
		said = words.Say("weight.raw")
	}
	if a.CookedBy != nutrition.CookedMeasured && a.Tests() > 0 {
		said = join(said, words.Say("weight.one-basis", x.ColumnName(i)))
	}
	return said
}

func (x *Bench) weightDetail(i int) Detail {
	g, _ := x.Accounts[i].CookedGrams()
	return Detail{
		Title: words.Say("weight.title", x.ColumnName(i), words.Grams(g)),
		Text:  sentences([]string{x.WeightText(i), x.CautionLine(i)}), Act: words.Say("cooked.change"),
	}
}

// WeighsText is what the whole dish of column i weighs.
func (x *Bench) WeighsText(i int) string {
	g, _ := x.Accounts[i].CookedGrams()
	return words.Grams(g)
}
