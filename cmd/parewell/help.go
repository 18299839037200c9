package main

import (
	"fmt"
	"io"
	"slices"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// help writes the page of one command, or the list of all of them.
func help(out io.Writer, about []string) error {
	if len(about) == 0 {
		_, err := fmt.Fprintln(out, words.Say("help"))
		return err
	}
	name := about[0]
	if !slices.Contains(commandNames, name) {
		return problem.New(name, words.Say("cmd.no-command"), hintNearest(name, commandNames))
	}
	_, err := fmt.Fprintln(out, words.Say("help."+name))
	return err
}

// asksHelp tells whether --help or -h stands among the arguments.
func asksHelp(args []string) bool {
	for _, a := range args {
		switch a {
		case "--":
			return false
		case "--help", "-h":
			return true
		}
	}
	return false
}

// hintNearest suggests the known name that a mistyped one is closest to, or
// where the names are listed.
func hintNearest(typed string, known []string) string {
	best, least := "", 3 // more than two slips is another word
	for _, k := range known {
		if d := slips(typed, k); d < least {
			best, least = k, d
		}
	}
	if best == "" {
		return words.Say("cmd.see-help")
	}
	return words.Say("cmd.did-you-mean", best)
}

// slips counts the letters to add, drop, exchange or swap with a neighbour to
// make b of a (optimal string alignment distance).
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	row := make([][]int, len(x)+1)
	for i := range row {
		row[i] = make([]int, len(y)+1)
		row[i][0] = i
	}
	for j := range row[0] {
		row[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[i][j] = min(row[i-1][j]+1, row[i][j-1]+1, row[i-1][j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[i][j] = min(row[i][j], row[i-2][j-2]+1)
			}
		}
	}
	return row[len(x)][len(y)]
}
