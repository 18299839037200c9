package main

import (
	"fmt"
	"io"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// writeDoubtsOf lists the doubtful lines of a recipe as it was read, what could
// move the numbers most first; nothing when it is sure of all.
func writeDoubtsOf(w io.Writer, title string, d *reading.Draft, foods *food.Table) error {
	if len(d.Doubts) == 0 && d.ServingsFrom == recipes.ServingsStated {
		return nil
	}
	if _, err := fmt.Fprintf(w, "\n%s\n", words.Say("cmd.to-check", title)); err != nil {
		return err
	}
	if d.ServingsFrom != recipes.ServingsStated {
		key := "cmd.servings-assumed"
		if d.ServingsFrom == recipes.ServingsRange {
			key = "cmd.servings-range"
		}
		if _, err := fmt.Fprintf(w, "  %s\n", words.Say(key, words.Trim(d.Servings, 1), words.Trim(d.ServingsHigh, 1))); err != nil {
			return err
		}
	}
	for _, row := range d.Doubts {
		if _, err := fmt.Fprintf(w, "  %s\n", doubtLine(row.Line, foods)); err != nil {
			return err
		}
	}
	return nil
}

// doubtLine is the line as written, what it was taken as, and what is not sure
// of it.
func doubtLine(l *recipes.Line, foods *food.Table) string {
	said := []string{l.Text + ":"}
	switch f := foods.Get(l.Food); {
	case f != nil && l.Known():
		said = append(said, words.Say("cmd.taken-as", f.Name, words.Grams(l.Grams)))
	case f != nil:
		said = append(said, words.Say("cmd.taken-as-food", f.Name))
	case l.Known():
		said = append(said, words.Say("cmd.taken-as-weight", words.Grams(l.Grams)))
	}
	for _, d := range l.Doubts {
		args := make([]any, len(d.Args))
		for i, a := range d.Args {
			args[i] = a
		}
		said = append(said, words.Say("doubt."+string(d.Kind), args...))
	}
	if len(l.Doubts) == 0 {
		said = append(said, words.Say("doubt."+string(recipes.DoubtAmount)))
	}
	return strings.Join(said, " ")
}
