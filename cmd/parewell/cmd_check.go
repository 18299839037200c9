package main

import (
	"context"
	"errors"
	"fmt"

	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// runCheck looks through a workbook and says what is wrong with it: exit code 0
// when it is sound, 1 when it is not, 2 when it is no workbook at all.
func runCheck(c *call) (int, error) {
	g, err := parse(c.args, nil)
	if err != nil {
		return exitBad, err
	}
	if err := oneFile(c, g); err != nil {
		return exitBad, err
	}
	name := g.operands[0]
	var found []*problem.Error
	err = withWorkbook(name, workbook.Options{ReadOnly: true}, func(f *workbook.File) (err error) {
		found, err = f.Check(context.Background())
		return err
	})
	var p *problem.Error
	switch {
	case errors.Is(err, workbook.ErrDamaged) && errors.As(err, &p):
		found = append(found, p)
	case err != nil:
		return exitBad, err
	}
	if len(found) == 0 {
		_, err := fmt.Fprintln(c.out, words.Say("cmd.check.sound", name))
		return exitWell, err
	}
	for _, f := range found {
		if _, err := fmt.Fprintln(c.out, f.What); err != nil {
			return exitBad, err
		}
	}
	_, err = fmt.Fprintln(c.out, words.Say("cmd.check.found", len(found), name))
	return exitProblem, err
}
