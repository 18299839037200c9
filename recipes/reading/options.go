// Package reading turns recipe text, saved web pages and single ingredient
// lines into the lines and steps of a recipe. What it is not sure of it marks;
// it never leaves a guess unmarked.
package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// Foods is the part of a table of foods that reading needs; *food.Table is one.
type Foods interface {
	// Get returns the row a reference names, nil if there is none.
	Get(ref food.Ref) *food.Food
	// Named returns the food of exactly this name or same-food alias, nil if none.
	Named(name string) *food.Food
	// Match finds the food an ingredient's name means; confident when no other
	// is meant as easily, others likeliest first. The zero Hit is no food of that
	// name; others are then foods of a part of it, to choose from only.
	Match(name string) (best food.Hit, confident bool, others []food.Hit)
}

// Memory is what the cook decided earlier, by Key of the ingredient's name; a
// *recipes.Book is one. Nil is returned for a name she never settled.
type Memory interface {
	Choice(name string) *recipes.Choice
}

// Options say how to read. The zero Options read US measures without foods.
type Options struct {
	System  measure.System
	Foods   Foods  // nil: no food is matched
	Memory  Memory // nil: nothing is remembered
	Section string // heading a single line stands under
	Where   string // file or place named in messages
}

// Key normalises an ingredient's name for the cook's memory: lower case, words
// singular, without marks, accents and articles.
func Key(name string) string {
	return strings.Join(keyWords(name), " ")
}

// keyWords are the words of Key.
func keyWords(name string) []string {
	var out []string
	for _, w := range wordsOf(fold(name)) {
		if w == "the" || w == "a" || w == "an" || w == "of" {
			continue
		}
		out = append(out, singular(w))
	}
	return out
}

// wordsOf splits at everything that is no letter, figure, per cent sign or
// apostrophe inside a word.
func wordsOf(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool {
		return r != '%' && r != '\'' && !isWordRune(r)
	})
}
