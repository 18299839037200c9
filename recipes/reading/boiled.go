package reading

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// boilingWords are what a step says that cooks a thing in water of its own.
var boilingWords = []string{"boil", "boils", "boiling", "boiled", "cook", "cooks", "simmer", "blanch", "parboil", "par-boil"}

// saltedWater finds water that a step salts.
var saltedWater = regexp.MustCompile(`\bsalt(ed)?\b[^.;]{0,30}\bwater\b|\bwater\b[^.;]{0,12}\bsalted\b`)

// askBoiled asks of dry pasta, rice and pulses that the method boils and drains:
// they are taken as boiled and drained, since nothing else gives their cooked
// weight. Where the water is salted and no line tells of that salt, it asks about
// the salt as well, of vegetables too.
func (d *Draft) askBoiled(foods Foods) {
	if foods == nil {
		return
	}
	told := slices.ContainsFunc(d.Lines, saltOfWater)
	sentences := d.sentences()
	var pan boilingPan
	for i, s := range sentences {
		words := keyWords(s)
		boils := pan.boils(words)
		pan.follow(s)
		if !boils {
			continue
		}
		drained := slices.ContainsFunc(sentences[i:min(i+3, len(sentences))], func(x string) bool { return strings.Contains(fold(x), "drain") })
		salted := !told && pan.salted
		for _, l := range d.Lines {
			f := foods.Get(l.Food)
			if f == nil || !speaksOf(words, l, f) {
				continue
			}
			if drained && f.Swells > 0 && (l.State == food.Dry || l.State == "" && f.State == food.Dry) && l.Technique.Method == "" {
				l.Technique.Method = "boiled, drained"
				l.Doubts = slices.DeleteFunc(l.Doubts, func(d recipes.Doubt) bool { return d.Kind == recipes.DoubtState }) // it is boiled, so it was dry
				l.Doubts = append(l.Doubts, recipes.Doubt{Kind: recipes.DoubtCooked, Args: []string{l.Technique.Method}})
			}
			if salted && !slices.ContainsFunc(l.Doubts, func(d recipes.Doubt) bool { return d.Kind == recipes.DoubtSalted }) {
				l.Doubts = append(l.Doubts, recipes.Doubt{Kind: recipes.DoubtSalted})
			}
		}
	}
}

// boilingPan is the pan of water that earlier sentences put on: what goes into it in
// the next ones is boiled in it, salted or not.
type boilingPan struct {
	left    int // sentences for which it is on yet
	salted  bool
	drained bool // by the last sentence
}

// panSentences is for how many sentences a pan of water is remembered; common
// practice, no source.
const panSentences = 4

// intoPan are what a step says that goes into a pan.
var intoPan = []string{"add", "tip", "drop", "put", "lower", "plunge", "stir"}

// boils tells whether a sentence of these words boils what it names.
func (p *boilingPan) boils(words []string) bool {
	if p.drained {
		*p = boilingPan{}
	}
	has := func(list []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	return has(boilingWords) || p.left > 0 && has(intoPan)
}

// follow takes the next sentence: it may put water on, and what is drained ends it.
func (p *boilingPan) follow(sentence string) {
	text := fold(sentence)
	salted := saltedWater.MatchString(text)
	switch {
	case salted || hasWord(text, "water") && hasWord(text, "boil"):
		*p = boilingPan{left: panSentences, salted: salted}
	case p.left > 0:
		p.left--
	}
	if p.left == 0 {
		p.salted = false
	}
	p.drained = strings.Contains(text, "drain")
}

// sentences are those of all steps in order.
func (d *Draft) sentences() []string {
	var out []string
	for _, s := range d.Steps {
		out = append(out, sentencesIn(s)...)
	}
	return out
}

// speaksOf tells whether the words of a sentence name a line's ingredient: by the
// last word of its name, pasta of any shape as pasta too. Fats and liquids are no
// thing that is boiled in water.
func speaksOf(words []string, l *recipes.Line, f *food.Food) bool {
	if l.Kind != recipes.Ingredient || isSalt(f) || isWater(f) || f.Swells == 0 && f.State != food.Raw {
		return false
	}
	name := keyWords(l.Name)
	if len(name) > 0 && slices.Contains(words, name[len(name)-1]) {
		return true
	}
	return f.Swells > 0 && slices.Contains(words, "pasta") && strings.Contains(fold(f.Name), "pasta")
}

// saltOfWater tells whether a line is the salt of a cooking water.
func saltOfWater(l *recipes.Line) bool {
	text := fold(l.Text)
	return hasWord(text, "salt") && (hasWord(text, "water") || hasWord(text, "boiling"))
}

// Salt of the water a gram of what is boiled in it: 36 g in 5.68 l for 454 g of
// pasta, Food Chem 2019;271:479-487, doi:10.1016/j.foodchem.2018.07.198.
const saltPerBoiled = 36.0 / 454

// SaltOfWater is the line of salt, as text to be read, for the water in which so
// many grams of l are boiled. What of it is eaten is asked about when it is read.
func SaltOfWater(l *recipes.Line) string {
	name := l.Name
	if name == "" {
		name = l.Text
	}
	return figure(max(1, math.Round(l.Grams*saltPerBoiled))) + " g salt for the cooking water (" + name + ")"
}
