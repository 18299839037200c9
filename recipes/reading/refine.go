package reading

import (
	"strconv"
	"strings"

	"parewell/recipes"
)

// refiners are words after the name that say which food it is: "butter,
// unsalted", "milk (2%)", "rice, cooked".
var refiners = set(`unsalted salted whole skim skimmed semi-skimmed low-fat lowfat nonfat non-fat fat-free full-fat reduced-fat light lite
low-sodium reduced-sodium cooked canned tinned smoked sweetened unsweetened frozen dark white brown red green yellow
hard-boiled boiled roasted toasted raw part-skim self-rising self-raising long-grain short-grain wholemeal wholewheat whole-wheat
strong plain greek desiccated candied skinless`)

// hyphened joins refining words that some write apart.
var hyphened = strings.NewReplacer("full fat", "full-fat", "low fat", "low-fat", "reduced fat", "reduced-fat", "1/3 less fat", "reduced-fat", "less fat", "reduced-fat", "lower fat", "reduced-fat", "less sodium", "low-sodium", "fat free", "fat-free", "non fat", "non-fat",
	"low sodium", "low-sodium", "reduced sodium", "reduced-sodium", "part skim", "part-skim", "hard boiled", "hard-boiled", "extra virgin", "extra-virgin")

// refined returns the refining words that stand after the name, "" for none.
func (r *lineReader) refined() string {
	var out []string
	for _, w := range strings.FieldsFunc(hyphened.Replace(fold(r.say.prep)), func(c rune) bool {
		return !isWordRune(c) && c != '-' && c != '%'
	}) {
		if refiners[w] || strings.HasSuffix(w, "%") {
			out = append(out, w)
		}
	}
	if hasAny(fold(r.say.prep), "to boiled", "boiled water") {
		return ""
	}
	name := fold(r.say.name)
	kept := out[:0]
	for _, w := range out {
		if !hasWord(name, w) && !(w == "toasted" || w == "roasted") || w == "cooked" {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

// groundMeats are the fat shares of the table's minced meats, per cent.
var groundMeats = map[string][]struct {
	fat  float64
	name string
}{
	"beef": {
		{30, "beef, ground, 70/30, raw"},
		{20, "beef, ground, 80/20, raw"},
		{15, "beef, ground, 85/15, raw"},
		{10, "beef, ground, 90/10, raw"},
		{7, "beef, ground, 93/7, raw"},
		{5, "beef, ground, 95/5, raw"},
	},
	"turkey": {
		{15, "turkey, ground, 85% lean, raw"},
		{7, "turkey, ground, 93% lean, raw"},
		{2, "turkey, ground, fat-free, raw"},
	},
	"pork": {{21, "pork, ground, raw"}, {16, "pork, ground, 84% lean, raw"}, {4, "pork, ground, 96% lean, raw"}},
}

// meatByFat picks minced meat by the fat the text states: "80% lean", "85/15",
// "5% fat".
func (r *lineReader) meatByFat(key, hints string) bool {
	if !hasAny(hints, "ground", "mince", "minced", "hamburger") || hasAny(key, "pie", "cooked") {
		return false
	}
	fat, ok := statedFat(hints)
	if !ok {
		return false
	}
	for meat, rows := range groundMeats {
		if !hasWord(key, meat) {
			continue
		}
		best := rows[0]
		for _, row := range rows {
			if abs(row.fat-fat) < abs(best.fat-fat) {
				best = row
			}
		}
		if !r.take(best.name) {
			return false
		}
		if abs(best.fat-fat) > 2 {
			r.doubt(recipes.DoubtClose, figure(fat)+" % fat was asked for", best.name)
		}
		return true
	}
	return false
}

// statedFat reads a fat share in per cent from folded words.
func statedFat(hints string) (float64, bool) {
	for i := 0; i < len(hints); i++ {
		if hints[i] < '0' || hints[i] > '9' || i > 0 && (isWordByte(hints[i-1]) || hints[i-1] == '.') {
			continue
		}
		v, rest := leadingFigure(hints[i:])
		after := strings.TrimLeft(rest, " ")
		if other, ok := strings.CutPrefix(after, "/"); ok {
			if w, _ := leadingFigure(strings.TrimLeft(other, " ")); v+w == 100 {
				return min(v, w), true
			}
		}
		if after, ok := strings.CutPrefix(after, "%"); ok {
			after = strings.TrimLeft(after, " -")
			switch {
			case strings.HasPrefix(after, "fat"), v < 40 && !strings.HasPrefix(after, "lean"):
				return v, v <= 50
			case strings.HasPrefix(after, "lean"), v >= 60:
				return 100 - v, v <= 100
			}
		}
	}
	return 0, false
}

func leadingFigure(s string) (float64, string) {
	i := 0
	for i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.') {
		i++
	}
	v, _ := strconv.ParseFloat(s[:i], 64)
	return v, s[i:]
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

// choices marks alternatives, unless all of them are one food.
func (r *lineReader) choices() {
	if len(r.say.or) == 0 {
		return
	}
	same := r.food != nil
	for _, o := range r.say.or {
		best, _, _ := r.opt.Foods.Match(o)
		same = same && best.Food == r.food
	}
	if !same {
		r.doubt(recipes.DoubtChoice, append([]string{r.line.Name}, r.say.or...)...)
	}
}
