package ui

import (
	"context"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// Printer runs the program's print command with arguments, in a process of its
// own: a process speaks one language at a time, and the window goes on in its own.
// Errors are what that command said.
type Printer func(ctx context.Context, args ...string) error

// PrintWith lets pages and figures be saved in other languages than the window's.
func (w *Window) PrintWith(p Printer) { w.printer = p }

// tongue asks in which language something is saved; nil where there is no choice.
func (w *Window) tongue(form *parts.Form) *parts.Segmented {
	if w.printer == nil {
		return nil
	}
	var items []parts.Suggestion
	for _, l := range words.Languages() {
		items = append(items, parts.Suggestion{Key: l.Code, Text: l.Name})
	}
	pick := parts.NewSegmented(items, words.Current().Code, nil)
	form.Row(words.Say("printed.language"), parts.Line(0, pick, parts.Spring()), "", words.Say("printed.language.help"))
	w.pin("print.language", pick)
	return pick
}

// foreign is the code of a language that is not the window's, else "".
func foreign(pick *parts.Segmented) string {
	if pick == nil || pick.Key() == words.Current().Code {
		return ""
	}
	return pick.Key()
}

// printArgs are the arguments of print for what is chosen, one page or all.
func (w *Window) printArgs(language string, page *book.Page) []string {
	args := []string{"--language", language}
	if page != nil {
		version := page.Letter
		if page.Version == "" {
			version = string(recipes.PrintOriginal)
		}
		args = append(args, "--recipe", string(page.Recipe), "--version", version)
	}
	return args
}

// figureArgs are those that say how figures are saved.
func figureArgs(wide float64, o book.FigureOptions) []string {
	args := []string{"--width", strconv.FormatFloat(wide, 'f', -1, 64), "--dpi", strconv.Itoa(o.DPI), "--formats", strings.Join(o.Formats, ",")}
	if o.Proof {
		args = append(args, "--proof")
	}
	return args
}

// exportApart has the program print apart from the window what each run's arguments
// ask for, and then exports the files of it whose names keep takes, and more with
// them.
func (w *Window) exportApart(to string, runs [][]string, keep func(name string) bool, more []desk.ExportFile) {
	ctx, stop := context.WithCancel(context.Background())
	work := w.status.StartWork(words.Say("export.working"), words.Say("export.stop"), stop)
	path, run := w.view.Path, w.printer
	type made struct {
		folder string
		files  []desk.ExportFile
		err    error
	}
	desk.Background(w.desk, "print apart", func(context.Context, *recipes.Book) (x made) {
		if x.folder, x.err = os.MkdirTemp("", "parewell-print-*"); x.err != nil {
			x.err = problem.Wrap(x.err, os.TempDir(), words.Say("export.failed"), words.Say("export.failed.hint"))
			return x
		}
		for _, args := range runs {
			if x.err = run(ctx, append([]string{path, "--to", x.folder}, args...)...); x.err != nil {
				return x
			}
		}
		x.files, x.err = filesIn(x.folder, keep)
		return x
	}, func(x made) {
		work.Done()
		stopped := ctx.Err() != nil
		stop()
		clear := func() { _ = os.RemoveAll(x.folder) } // in the system's own place for passing files
		switch {
		case stopped:
			clear()
			w.status.SetMessage(words.Say("data.stopped"))
		case x.err != nil:
			clear()
			w.problemDialog(x.err)
		default:
			w.exportThen(to, append(x.files, more...), clear)
		}
	})
}

// filesIn are the files in a folder, and in folders there, whose names keep
// takes; what is hidden is the printer's own.
func filesIn(folder string, keep func(name string) bool) (out []desk.ExportFile, err error) {
	err = filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(folder, path)
		if name = filepath.ToSlash(name); err == nil && keep(name) && !strings.HasPrefix(d.Name(), ".") {
			out = append(out, desk.ExportFile{Name: name, Write: func(to io.Writer) error { return copyFile(to, path) }})
		}
		return err
	})
	return out, err
}

func copyFile(to io.Writer, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close() //nolint:errcheck // only read
	_, err = io.Copy(to, f)
	return err
}

// inFolder says whether a file goes into a folder, as figures do and pages do not.
func inFolder(name string) bool { return strings.Contains(name, "/") }
