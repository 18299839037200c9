package claims

import (
	"strconv"

	"parewell/recipes/food"
)

// nutrientWords are the words of a headnote for a nutrient.
var nutrientWords = []struct {
	words    []string
	nutrient food.Nutrient
}{
	{[]string{"saturated", "fat"}, food.SaturatedFat},
	{[]string{"sat", "fat"}, food.SaturatedFat},
	{[]string{"saturates"}, food.SaturatedFat},
	{[]string{"added", "sugar"}, food.AddedSugars},
	{[]string{"added", "sugars"}, food.AddedSugars},
	{[]string{"trans", "fat"}, food.TransFat},
	{[]string{"calories"}, food.EnergyKcal},
	{[]string{"kcal"}, food.EnergyKcal},
	{[]string{"energy"}, food.EnergyKcal},
	{[]string{"fat"}, food.Fat},
	{[]string{"sugar"}, food.Sugars},
	{[]string{"sugars"}, food.Sugars},
	{[]string{"salt"}, food.Sodium},
	{[]string{"sodium"}, food.Sodium},
	{[]string{"fibre"}, food.Fibre},
	{[]string{"fiber"}, food.Fibre},
	{[]string{"protein"}, food.Protein},
	{[]string{"cholesterol"}, food.Cholesterol},
	{[]string{"carbs"}, food.Carbohydrate},
	{[]string{"carbohydrate"}, food.Carbohydrate},
}

// nutrientAt reads a nutrient's name; 0 words where there is none.
func nutrientAt(tokens []token) (food.Nutrient, int) {
	for _, n := range nutrientWords {
		if starts(tokens, n.words) {
			return n.nutrient, len(n.words)
		}
	}
	return 0, 0
}

// number reads what a number says: "97 % fat free", "25 % less salt", "half the
// fat", "under 400 kcal", "12 g of protein"; 0 tokens where it says nothing.
func number(tokens []token) (Found, int) {
	if percent, used := part(tokens); used > 0 {
		if starts(tokens[used:], []string{"fat", "free"}) {
			term := Term("percent-fat-free")
			if percent == 100 {
				term = "all-fat-free"
			}
			return Found{Sort: Checkable, Term: term, Percent: percent, Nutrient: food.Fat}, used + 2
		}
		return comparison(tokens, percent, used)
	}
	return stated(tokens)
}

// part reads a share of a hundred: "25 %", "25 per cent", "half", "a third".
func part(tokens []token) (float64, int) {
	used := 0
	if len(tokens) > 1 && (tokens[0].word == "a" || tokens[0].word == "one") {
		used = 1
	}
	if len(tokens) == 0 {
		return 0, 0
	}
	switch tokens[used].word {
	case "half", "½":
		return 50, used + 1
	case "third", "⅓":
		return 100.0 / 3, used + 1
	case "quarter", "¼":
		return 25, used + 1
	case "⅔":
		return 200.0 / 3, used + 1
	case "¾":
		return 75, used + 1
	case "two", "three":
		if starts(tokens, []string{"two", "thirds"}) {
			return 200.0 / 3, 2
		}
		if starts(tokens, []string{"three", "quarters"}) {
			return 75, 2
		}
	}
	v, err := strconv.ParseFloat(tokens[0].word, 64)
	switch {
	case err != nil:
	case starts(tokens[1:], []string{"%"}), starts(tokens[1:], []string{"percent"}):
		return v, 2
	case starts(tokens[1:], []string{"per", "cent"}):
		return v, 3
	}
	return 0, 0
}

// comparison reads what follows a share: "less fat" is that much off, "the
// fat" and "of the fat" is that much left.
func comparison(tokens []token, percent float64, used int) (Found, int) {
	rest := tokens[used:]
	for _, form := range []struct {
		words []string
		left  bool
	}{
		{[]string{"less"}, false},
		{[]string{"fewer"}, false},
		{[]string{"lower", "in"}, false},
		{[]string{"off", "the"}, false},
		{[]string{"of", "the"}, true},
		{[]string{"the"}, true},
	} {
		if !starts(rest, form.words) {
			continue
		}
		n, more := nutrientAt(rest[len(form.words):])
		if more == 0 {
			continue
		}
		if form.left {
			percent = 100 - percent
		}
		return Found{Sort: Comparison, Percent: percent, Nutrient: n, Term: reducedTerm[n]}, used + len(form.words) + more
	}
	return Found{}, 0
}

// reducedTerm is the term a comparison falls under; none where no authority
// has one.
var reducedTerm = map[food.Nutrient]Term{
	food.EnergyKcal: "reduced-calorie", food.Fat: "reduced-fat", food.SaturatedFat: "reduced-sat",
	food.Cholesterol: "reduced-cholesterol", food.Sodium: "reduced-sodium", food.Sugars: "reduced-sugar",
}

// openers are words before an amount and how the figure stands to it.
var openers = []struct {
	words []string
	op    Op
}{
	{[]string{"less", "than"}, Below},
	{[]string{"fewer", "than"}, Below},
	{[]string{"under"}, Below},
	{[]string{"below"}, Below},
	{[]string{"no", "more", "than"}, AtMost},
	{[]string{"at", "most"}, AtMost},
	{[]string{"up", "to"}, AtMost},
	{[]string{"at", "least"}, AtLeast},
	{[]string{"more", "than"}, Above},
	{[]string{"over"}, Above},
	{[]string{"only"}, ""},
	{[]string{"just"}, ""},
}

// stated reads an amount of a nutrient in a serving.
func stated(tokens []token) (Found, int) {
	used, op := 0, Op("")
	for _, o := range openers {
		if starts(tokens, o.words) {
			used, op = len(o.words), o.op
			break
		}
	}
	if used >= len(tokens) {
		return Found{}, 0
	}
	v, err := strconv.ParseFloat(tokens[used].word, 64)
	if err != nil {
		return Found{}, 0
	}
	used++
	n, factor, more := amountOf(tokens[used:])
	if more == 0 {
		return Found{}, 0
	}
	return Found{Sort: Stated, Amount: v * factor, Nutrient: n, Op: op}, used + more
}

// amountOf reads "kcal", or "g of protein"; factor brings the number to the
// nutrient's unit. Salt counts as the sodium in it.
func amountOf(tokens []token) (n food.Nutrient, factor float64, used int) {
	if len(tokens) == 0 {
		return 0, 0, 0
	}
	grams := 0.0
	switch tokens[0].word {
	case "calories", "kcal", "cal":
		return food.EnergyKcal, 1, 1
	case "kj":
		return food.EnergyKJ, 1, 1
	case "g", "gram", "grams":
		grams = 1
	case "mg", "milligrams":
		grams = 0.001
	default:
		return 0, 0, 0
	}
	used = 1
	if starts(tokens[used:], []string{"of"}) {
		used++
	}
	n, more := nutrientAt(tokens[used:])
	if more == 0 || n == food.EnergyKcal {
		return 0, 0, 0
	}
	factor = grams
	if n.Unit() == "mg" {
		factor = grams * 1000
	}
	if tokens[used].word == "salt" {
		factor /= food.SaltPerSodium
	}
	return n, factor, used + more
}
