package desk

import (
	"os"

	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// largestScores bounds a file of scores, in bytes; thousands of ballots stay far
// below.
const largestScores = 8 << 20

// ReadScores reads a file of ballots beside the queue and hands what it says, or
// what is wrong with it, to then on the window's thread. Nothing is recorded.
func (d *Desk) ReadScores(path string, id recipes.ID, then func(answers []tasting.Answer, faults []error, err error)) {
	go func() {
		answers, faults, err := readScores(path, id, d.Book())
		d.opts.Post(func() { then(answers, faults, err) })
	}()
}

func readScores(path string, id recipes.ID, b *recipes.Book) ([]tasting.Answer, []error, error) {
	t := b.Tasting(id)
	if t == nil {
		return nil, nil, problem.New(path, words.Say("error.tasting-gone"), "")
	}
	info, err := os.Stat(path)
	if err == nil && info.Size() > largestScores {
		return nil, nil, problem.New(path, words.Say("tastings.read.large"), "")
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, nil, problem.Wrap(err, path, words.Say("tastings.read.failed"), "")
	}
	return exchange.ReadScores(data, info.Name(), b, t)
}
