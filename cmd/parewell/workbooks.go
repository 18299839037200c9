package main

import (
	"errors"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/workbook"
)

// withWorkbook opens a workbook, has use work on it and closes it. What is
// wrong with the file names it as it was typed.
func withWorkbook(name string, o workbook.Options, use func(*workbook.File) error) error {
	f, err := workbook.Open(name, o)
	if err != nil {
		return named(name, err)
	}
	err = use(f)
	if e := f.Close(); err == nil {
		err = named(name, e)
	}
	return err
}

// readBook returns what a workbook holds, without changing the file.
func readBook(name string) (b *recipes.Book, err error) {
	err = withWorkbook(name, workbook.Options{ReadOnly: true}, func(f *workbook.File) error {
		b = f.Book()
		return nil
	})
	return b, err
}

// named puts the whole path in place of the bare file name that a workbook's
// errors begin with: whoever types a command has several folders in mind.
func named(path string, err error) error {
	var p *problem.Error
	if !errors.As(err, &p) {
		return problem.At(path, err)
	}
	q := *p
	q.Where = path
	return &q
}
