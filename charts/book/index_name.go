package book

import (
	"slices"
	"strings"
)

// kindWords stand before what an ingredient is and say which sort of it: a reader
// looks fresh haddock up under haddock.
var kindWords = []string{
	"dried", "double", "dry", "extra-virgin", "fat-free", "fine", "flaked", "flat-leaf", "floury", "fresh", "frozen", "full-fat", "ground",
	"home-made", "lean", "low-fat", "low-sodium", "mature", "medium", "plain", "reduced-fat", "ripe", "salted", "self-raising", "semi-skimmed",
	"single", "skimmed", "smoked", "soured", "strained", "tinned", "undyed", "unsalted", "unsmoked", "unsweetened", "waxy", "whipping", "whole", "wholemeal",
}

// colours are kinds only before a single word: red peppers, but red wine vinegar.
var colours = []string{"black", "brown", "dark", "green", "light", "red", "white", "yellow"}

// indexName is an ingredient's name as an index has it, the word it is looked up
// by first: "haddock fillet, undyed smoked". What stands in brackets stays last.
func indexName(name string) string {
	name, bracket, _ := strings.Cut(name, " (")
	all := strings.Fields(name)
	n := 0
	for n < len(all)-1 && isKind(all, n) {
		n++
	}
	out := strings.Join(all[n:], " ")
	if n > 0 {
		out += ", " + strings.Join(all[:n], " ")
	}
	if bracket != "" {
		out += " (" + bracket
	}
	return out
}

func isKind(all []string, n int) bool {
	word := strings.ToLower(all[n])
	return slices.Contains(kindWords, word) || n == len(all)-2 && slices.Contains(colours, word)
}
