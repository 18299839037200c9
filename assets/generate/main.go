// Command generate makes assets/foods.csv, the starter food table, from the
// published tables and our own hand-kept lists. Run it from the repository's
// root after changing a list:
//
//	go run ./assets/generate -reference ../shared/reference -starter ../shared/starter
//
// What comes from where:
//
//	starter/foods.csv              which foods, their plain names, groups, aliases
//	assets/generate/extras.csv     more foods of SR28, by hand, with the same columns
//	usda-sr28/ABBREV.csv           values per 100 g, two weights, refuse (USDA SR28, 2016)
//	usda-sr26/WEIGHT.txt           more household weights (USDA SR26, 2013)
//	assets/generate/kinds.csv      kind, allergens and whether a food pours: every food, by hand
//	assets/generate/aliases.csv    more names, and what differs where a name is only close
//	assets/generate/measures.csv   measures cooks use that the tables lack, each with its source
//	assets/generate/swells.csv     dry and cooked rows whose protein gives the swelling
//
// The result has the same bytes for the same sources.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(2)
	}
}

// run writes the table named by -out and says how many foods it holds.
func run(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("generate", flag.ContinueOnError)
	reference := fs.String("reference", "../shared/reference", "folder with the published tables")
	starter := fs.String("starter", "../shared/starter", "folder with foods.csv, the list of foods")
	lists := fs.String("lists", "assets/generate", "folder with the hand-kept lists")
	to := fs.String("out", "assets/foods.csv", "file to write")
	if err := fs.Parse(args); err != nil {
		return err
	}
	src, err := readSources(*reference, *starter, *lists)
	if err != nil {
		return err
	}
	rows, err := build(src)
	if err != nil {
		return err
	}
	b, err := encode(rows)
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.FromSlash(*to), b, 0o644); err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%d foods, %d bytes, to %s\n", len(rows), len(b), *to)
	return err
}
