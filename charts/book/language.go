package book

import (
	"io"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Speaking has act speak the language of a code, "" for the one in use. What the
// cook wrote is said as it was written. While it lasts nothing else may speak, so
// it is for commands and not for the window. Errors: there is none of that code.
func Speaking(code string, act func() error) error {
	if code == "" {
		return act()
	}
	l := words.Find(code)
	if l == nil {
		return problem.New(code, words.Say("book.no-language"), "")
	}
	was := words.Current()
	words.Use(l)
	defer words.Use(was)
	return act()
}

// Spoken are files that are written in the language of a code as Speaking has it.
func Spoken(code string, files []File) []File {
	out := make([]File, len(files))
	for i, f := range files {
		out[i] = File{f.Name, func(w io.Writer) error {
			return Speaking(code, func() error { return f.Write(w) })
		}}
	}
	return out
}
