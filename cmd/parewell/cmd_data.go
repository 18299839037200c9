package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"parewell/recipes"
	"parewell/recipes/archive"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

var dataFlags = []flagSpec{{"to", true}, {"from", true}, {"with-people", false}}

// runData takes a whole workbook out as plain files, or makes one of them again.
func runData(c *call) (int, error) {
	g, err := parse(c.args, dataFlags)
	if err != nil {
		return exitBad, err
	}
	to, from := g.flags["to"], g.flags["from"]
	switch {
	case (to == "") == (from == ""):
		return exitBad, problem.New(c.name, words.Say("cmd.data.way"), words.Say("cmd.see-help-of", c.name))
	case len(g.operands) != 1:
		return exitBad, problem.New(c.name, words.Say("cmd.one-file"), words.Say("cmd.see-help-of", c.name))
	case from != "" && g.has("with-people"):
		return exitBad, problem.New("--with-people", words.Say("cmd.data.people-out"), "")
	case from != "":
		return exitWell, dataIn(c, from, g.operands[0])
	}
	return exitWell, dataOut(c, g.operands[0], to, g.has("with-people"))
}

// dataOut writes every file of the workbook into a folder, the one that is read
// back last.
func dataOut(c *call, name, to string, people bool) error {
	return withWorkbook(name, workbook.Options{ReadOnly: true}, func(f *workbook.File) error {
		ctx := context.Background()
		contents, err := f.Contents(ctx, people)
		if err != nil {
			return named(name, err)
		}
		files, err := archive.Files(ctx, contents, people)
		if err != nil {
			return named(name, err)
		}
		folder, err := openFolder(to)
		if err != nil {
			return err
		}
		for _, x := range files {
			if err := folder.put(x.Name, x.Write); err != nil {
				return folder.end(err)
			}
		}
		if err := folder.end(nil); err != nil {
			return err
		}
		return sayDataOut(c, contents, len(files), to, people)
	})
}

func sayDataOut(c *call, contents workbook.Contents, files int, to string, people bool) error {
	said := []string{words.Say("cmd.data.did-out", len(contents.Entities), files, to)}
	if n := len(contents.Lost); n > 0 {
		said = append(said, words.Say("cmd.data.lost", n))
	}
	if !people {
		said = append(said, words.Say("cmd.data.no-people"))
	}
	for _, s := range said {
		if _, err := fmt.Fprintln(c.out, s); err != nil {
			return err
		}
	}
	return nil
}

// dataIn makes a new workbook of a folder's files.
func dataIn(c *call, from, name string) error {
	switch st, err := os.Stat(from); {
	case errors.Is(err, fs.ErrNotExist):
		return problem.Wrap(err, from, words.Say("cmd.data.no-folder"), words.Say("cmd.missing.hint"))
	case err != nil:
		return fileFault(from, err)
	case !st.IsDir():
		return problem.New(from, words.Say("cmd.export.not-folder"), words.Say("cmd.data.from.hint"))
	}
	ctx := context.Background()
	contents, err := archive.Read(ctx, os.DirFS(from))
	if err != nil {
		return problem.At(from, err)
	}
	if err := workbook.SaveContents(ctx, name, contents, workbook.Options{}); err != nil {
		return named(name, err)
	}
	count := map[recipes.Kind]int{}
	for _, e := range contents.Entities {
		count[e.Kind()]++
	}
	_, err = fmt.Fprintln(c.out, words.Say("cmd.data.did-in", len(contents.Entities), count[recipes.KindOfRecipe], name))
	return err
}
