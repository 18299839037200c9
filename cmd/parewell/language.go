package main

import (
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// chooseLanguage makes the language of a code the one that sentences and numbers
// are said in; an empty code is English. A code that is no language is refused,
// because a script that asks for one must not get another unnoticed.
func chooseLanguage(code string) error {
	if words.Choose(code) {
		return nil
	}
	return noLanguage(words.LanguageVariable, code)
}

// noLanguage says that there is no language of a code, and which there are.
func noLanguage(where, code string) error {
	var codes []string
	for _, l := range words.Languages() {
		codes = append(codes, l.Code)
	}
	return problem.New(where, words.Say("cmd.no-language", code), words.Say("cmd.no-language.hint", strings.Join(codes, ", ")))
}
