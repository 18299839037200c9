package main

import (
	"context"
	"os"
	"os/signal"
	"slices"
	"strconv"
	"strings"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/sheets"
)

// figuresOf are the files of the figures that --figures-of names instead of those of
// the printed page: of Keep or drop, of a tasting, of the versions.
func figuresOf(g *given, b *recipes.Book, wide float64, o book.FigureOptions) ([]book.File, error) {
	ask := sheets.FiguresAsk{Of: g.flags["figures-of"], Attribute: o.Score, Nutrient: food.EnergyKcal, Tasting: recipes.ID(g.flags["tasting"])}
	if of := []string{sheets.FiguresOfLedger, sheets.FiguresOfTasting, sheets.FiguresOfVersions}; !slices.Contains(of, ask.Of) {
		return nil, problem.New("--figures-of "+ask.Of, words.Say("cmd.print.figures-of"), words.Say("cmd.print.figures-of.hint", strings.Join(of, ", ")))
	}
	if key, asked := g.flags["nutrient"]; asked {
		var ok bool
		if ask.Nutrient, ok = food.ByKey(strings.TrimSpace(key)); !ok {
			return nil, problem.New("--nutrient", words.Say("cmd.ledger.nutrient", key), words.Say("cmd.ledger.nutrient.hint"))
		}
	}
	of, err := chosenRecipes(g.operands[0], b, g)
	if err != nil {
		return nil, err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	var out []book.File
	for _, r := range of {
		ask.Recipe = r.ID
		s, err := sheets.FiguresAsked(ctx, b, ask, wide)
		if err != nil {
			return nil, problem.At(r.Title, err)
		}
		files, err := book.FigureFiles(o.Chosen(s.Figures), o)
		if err != nil {
			return nil, err
		}
		out = append(out, s.Files(files)...)
	}
	return out, nil
}

// onlyFigures reads the numbers of --only, which count from 1.
func onlyFigures(g *given) ([]int, error) {
	var out []int
	for _, text := range strings.Split(g.flags["only"], ",") {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			return nil, problem.New("--only", words.Say("cmd.print.number", text), words.Say("cmd.print.number.hint"))
		}
		out = append(out, n-1)
	}
	return out, nil
}
