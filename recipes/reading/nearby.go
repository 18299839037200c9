package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// byHead takes the last words alone where they surely name a food ("dry stout"
// of any make is stout); always a doubt.
func (r *lineReader) byHead() bool {
	list := strings.Fields(r.say.name)
	for i := 1; i < len(list); i++ {
		head := strings.Join(list[i:], " ")
		best, confident, _ := r.opt.Foods.Match(head)
		if best.Close && saysLight(fold(strings.Join(list[:i], " "))) {
			r.accept(best, nil)
			return true
		}
		if confident && best.Food.Group != "grains, pasta, flour" && !products[Key(list[len(list)-1])] {
			r.setFood(best.Food)
			r.doubt(recipes.DoubtFood, best.Food.Name)
			return true
		}
	}
	return false
}

// saysLight tells whether words only say that a food is made with less.
func saysLight(low string) bool {
	for _, alike := range lightWords {
		for _, w := range alike {
			if low == w {
				return true
			}
		}
	}
	return false
}

// cutWords are last words that only say how a food is cut or that it is one.
var cutWords = set("steak joint piece chunk strip cube half cheese meat fillet slice crumb flake round ball link tail claw bone wrap wrapper bread")

// byTail leaves a last word that only says how the food is cut.
func (r *lineReader) byTail() bool {
	list := strings.Fields(r.say.name)
	if len(list) < 2 || !cutWords[Key(list[len(list)-1])] {
		return false
	}
	best, confident, others := r.opt.Foods.Match(strings.Join(list[:len(list)-1], " "))
	if best.Food == nil {
		return false
	}
	if confident {
		others = nil
	}
	r.accept(best, others)
	return true
}

// lightWords are ways to say that a food is made with less, which tables say
// in one of them only.
var lightWords = [][]string{
	{"low-fat", "reduced-fat", "half-fat", "lower-fat", "light", "lite", "lighter", "reduced-calorie", "low fat", "reduced fat", "half fat", "lower fat"},
	{"fat-free", "nonfat", "non-fat", "0% fat", "zero-fat", "fat free", "0%"},
	{"low-sodium", "reduced-sodium", "low-salt", "reduced-salt", "lower-salt", "lower-sodium", "no-salt-added", "no-salt", "low salt", "reduced salt", "low sodium", "reduced sodium"},
}

// byLightness tries the other ways to say "light", "fat-free" and "low-salt";
// the food then differs in how much less, so it is a doubt.
func (r *lineReader) byLightness(name string) bool {
	low := fold(name)
	for _, alike := range lightWords {
		for _, said := range alike {
			if !hasWord(low, said) {
				continue
			}
			for _, other := range alike {
				f := r.opt.Foods.Named(squeeze(strings.Replace(low, said, other, 1)))
				if other != said && f != nil {
					r.setFood(f)
					r.doubt(recipes.DoubtFood, f.Name)
					return true
				}
			}
		}
	}
	return false
}

// byOrdinary takes the ordinary food where the table lacks the light one that
// the line asks for; always a doubt that says so.
func (r *lineReader) byOrdinary() bool {
	name := r.say.full
	low := fold(name)
	if len(low) != len(name) {
		return false
	}
	for _, alike := range lightWords {
		for _, said := range alike {
			i := wordIndex(low, said)
			if i < 0 {
				continue
			}
			best, _, _ := r.opt.Foods.Match(squeeze(name[:i] + " " + name[i+len(said):]))
			if best.Food == nil {
				continue
			}
			r.setFood(best.Food)
			r.doubt(recipes.DoubtClose, said+" was asked for; this is the ordinary one", best.Food.Name)
			return true
		}
	}
	return false
}

// byRemark takes the food that a bracket names beside a name the table lacks:
// "saunf (fennel seeds)". Always a doubt.
func (r *lineReader) byRemark() bool {
	for _, m := range r.say.remarks {
		if len(wordsOf(m)) > 3 || strings.ContainsAny(m, "0123456789") || describes(m) {
			continue
		}
		if best, confident, _ := r.opt.Foods.Match(m); confident {
			r.setFood(best.Food)
			r.doubt(recipes.DoubtFood, best.Food.Name)
			return true
		}
	}
	return false
}

// byPowder takes the ground spice for "turmeric powder".
func (r *lineReader) byPowder() bool {
	for _, name := range []string{r.say.full, r.say.name} {
		list := strings.Fields(name)
		if len(list) < 2 || Key(list[len(list)-1]) != "powder" {
			continue
		}
		rest := strings.Join(list[:len(list)-1], " ")
		rest, _ = cutAny(rest, "dry", "dried")
		for _, q := range []string{"ground " + rest, rest + " seed", rest} {
			best, confident, _ := r.opt.Foods.Match(q)
			if best.Food == nil || best.Food.Group != "herbs, spices, seasonings" {
				continue
			}
			if !confident {
				continue
			}
			r.setFood(best.Food)
			return true
		}
	}
	return false
}

// byWhole takes a food whose names hold every word of the line's and end as it
// does, though they say more: "unsweetened chocolate" for baking chocolate.
// Always a doubt.
func (r *lineReader) byWhole(parts []food.Hit) bool {
	list := keyWords(r.say.name)
	if len(list) == 0 {
		return false
	}
	for i, h := range parts {
		head, _, _ := strings.Cut(h.Food.Name, ",")
		have := keyWords(head)
		if len(have) == 0 || sameWord(have[len(have)-1]) != sameWord(list[len(list)-1]) || !namesAll(h.Food, r.say.name) {
			continue
		}
		r.accept(h, append(append([]food.Hit{}, parts[:i]...), parts[i+1:]...))
		return true
	}
	return false
}

// namesAll tells whether the food's name and same-food aliases hold every word
// of the query but those that only prepare.
func namesAll(f *food.Food, query string) bool {
	have := map[string]bool{}
	for _, w := range keyWords(f.Name) {
		have[sameWord(w)] = true
	}
	for _, a := range f.Aliases {
		if a.Close {
			continue
		}
		for _, w := range keyWords(a.Name) {
			have[sameWord(w)] = true
		}
	}
	for _, w := range keyWords(query) {
		if !have[sameWord(w)] && !preparing[w] && !noise[w] {
			return false
		}
	}
	return true
}

// products are last words that name a made food: a match without them is
// another food ("cream of mushroom soup" is no cream).
var products = set(`soup sauce seasoning mix syrup paste dressing spread curd pudding pie cake cookie biscuit cracker chip crisp drink cereal
gravy liqueur extract relish chutney pesto jelly candy sweet bar roll dumpling fritter stuffing granola muesli essence leaf powder crumb blossom
stew curry casserole salad sandwich pizza custard mousse`)

// strange tells that the food lacks the word that says what the thing is.
func (r *lineReader) strange(f *food.Food) bool {
	list := keyWords(r.say.name)
	if len(list) < 2 || !products[list[len(list)-1]] {
		return false
	}
	return !covers(food.Hit{Food: f}, list[len(list)-1])
}

// adorning words tell how a food is sold or cut and never which food it is.
var adorning = set(`creamy crunchy ready-rolled ready-made ready-to-eat ready-to-use pre-cooked elbow short long thick-cut thick thin medium
large small baby unsmoked rindless chunky smooth-style full-bodied robust fruity runny shop-bought store-bought baking floury all-rounder vine-ripened vine
firm-fleshed pure natural traditional classic regular standard british american english italian spanish flavoured unflavoured loose-leaf jumbo king tiger
white-paste paste-style premium authentic lightly heaped freeze-dried sustainably sustainable cold-pressed deli thick-sliced thinly-sliced hand-picked ripened
on-the-vine plain young refrigerated chilled mild-flavoured light-flavoured skin-on new-season spring winter summer day-old stale crusty good fresh cooking`)

// unadorned leaves adorning words out of a name.
func unadorned(name string) string {
	var out []string
	for _, w := range strings.Fields(name) {
		if !adorning[fold(strings.Trim(w, ",."))] {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return name
	}
	return strings.Join(out, " ")
}

// covers tells whether every word of the query that names something stands in
// the food's name or one of its aliases.
func covers(h food.Hit, query string) bool {
	have := map[string]bool{}
	add := func(s string) {
		for _, w := range keyWords(s) {
			have[sameWord(w)] = true
		}
	}
	add(h.Food.Name)
	for _, a := range h.Food.Aliases {
		add(a.Name)
	}
	for _, w := range keyWords(query) {
		if !have[sameWord(w)] && !isDescriptor(w) && !neutral[w] && !describing[w] {
			return false
		}
	}
	return true
}

// neutral words in a query need no answer in a food's name.
var neutral = set(`fresh large small medium raw ripe whole half piece fillet leaf clove stalk stick head bulb bunch sprig slice can tin jar
packet ground cold warm hot unpeeled baby cherry plum vine cooking eating free range good quality kosher fine sea flaky coarse extra virgin
boneless skinless floret rasher knob handful all purpose plain 1 2 3 and with in kernel nut seed cut freshly store bought light frozen
cooked uncooked dry dried drained canned tinned rinsed root meat spear cube crumb powder granulated pure style mature strong mild`)

// sameWord joins British and American words and spellings for one thing.
func sameWord(w string) string {
	if s, ok := spelled[w]; ok {
		return s
	}
	return w
}

var spelled = map[string]string{
	"yoghurt": "yogurt", "chilli": "chili", "chile": "chili", "chily": "chili", "mince": "ground", "minced": "ground", "tinned": "canned",
	"tin": "canned", "can": "canned", "prawn": "shrimp", "courgette": "zucchini", "aubergine": "eggplant", "rocket": "arugula",
	"scallion": "onion", "wholemeal": "wholewheat", "wholegrain": "whole", "skimmed": "skim", "soya": "soy", "pitta": "pita",
	"filo": "phyllo", "raising": "rising", "parmigiano": "parmesan", "swede": "rutabaga", "beetroot": "beet", "gelatine": "gelatin",
	"chickpeas": "chickpea", "garbanzo": "chickpea", "capsicum": "pepper", "flavour": "flavor", "fibre": "fiber", "ketchup": "catsup",
}
