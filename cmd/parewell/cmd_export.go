package main

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

var exportFlags = []flagSpec{{"to", true}, {"recipe", true}}

// runExport writes each recipe's versions side by side and the chart of their
// change into a folder.
func runExport(c *call) (int, error) {
	g, err := parse(c.args, exportFlags)
	if err == nil {
		err = cmp.Or(oneFile(c, g), toFolder(c, g))
	}
	if err != nil {
		return exitBad, err
	}
	name := g.operands[0]
	b, err := readBook(name)
	if err != nil {
		return exitBad, err
	}
	chosen, err := chosenRecipes(name, b, g)
	if err != nil {
		return exitBad, err
	}
	folder, err := openFolder(g.flags["to"])
	if err != nil {
		return exitBad, err
	}
	return exitWell, folder.end(exportAll(c, folder, b, chosen))
}

// chosenRecipes are all recipes of the workbook, or the one --recipe names: by its
// title, by a part of it that no other title has, or by its ID.
func chosenRecipes(name string, b *recipes.Book, g *given) ([]*recipes.Recipe, error) {
	all := b.Recipes()
	if len(all) == 0 {
		return nil, problem.New(name, words.Say("cmd.export.none"), "")
	}
	want, asked := g.flags["recipe"]
	if !asked {
		return all, nil
	}
	want = strings.TrimSpace(want)
	titles := make([]string, 0, len(all))
	var holding []*recipes.Recipe
	for _, r := range all {
		if strings.EqualFold(r.Title, want) || string(r.ID) == want {
			return []*recipes.Recipe{r}, nil
		}
		if want != "" && strings.Contains(strings.ToLower(r.Title), strings.ToLower(want)) {
			holding = append(holding, r)
		}
		titles = append(titles, r.Title)
	}
	if len(holding) == 1 {
		return holding, nil
	}
	return nil, problem.New(name, words.Say("cmd.export.no-recipe", want), words.Say("cmd.export.have", words.Join(titles)))
}

func exportAll(c *call, folder *folder, b *recipes.Book, chosen []*recipes.Recipe) error {
	names := fileNames(chosen)
	for i, r := range chosen {
		if err := exportRecipe(c.out, folder, b, r, names[i]); err != nil {
			return err
		}
	}
	return nil
}

// fileNames gives every recipe a file name of its own made from its title.
func fileNames(all []*recipes.Recipe) []string {
	out := make([]string, len(all))
	taken := map[string]bool{}
	for i, r := range all {
		base := safeName(r.Title)
		name := base
		for n := 2; taken[strings.ToLower(name)]; n++ {
			name = base + " " + words.Trim(float64(n), 0)
		}
		taken[strings.ToLower(name)] = true
		out[i] = name
	}
	return out
}

// safeName keeps of a title what every file system takes in a name, at most
// 80 letters.
func safeName(title string) string {
	name := strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|`, r) {
			return ' '
		}
		return r
	}, title)
	name = strings.Join(strings.Fields(name), " ")
	if r := []rune(name); len(r) > 80 {
		name = string(r[:80])
	}
	name = strings.Trim(name, " .")
	if name == "" {
		return words.Say("cmd.recipe")
	}
	return name
}

// openFolder makes the folder if it is not there and reads what an earlier
// export wrote into it.
func openFolder(path string) (*folder, error) {
	st, err := os.Stat(path)
	switch {
	case err == nil && !st.IsDir():
		return nil, problem.New(path, words.Say("cmd.export.not-folder"), words.Say("cmd.export.to"))
	case errors.Is(err, fs.ErrNotExist):
		err = os.MkdirAll(path, 0o755)
	}
	if err != nil {
		return nil, writeFault(path, err)
	}
	f := &folder{path: path, wrote: map[string][]string{}}
	f.readList(filepath.Join(path, listName))
	return f, nil
}
