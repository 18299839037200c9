package book

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// File is a file to be written: its name, with "/" for a folder, and what fills
// it.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// FigureOptions say how figures are written.
type FigureOptions struct {
	Formats []string // of FigureFormats; none means PNG, SVG and PDF
	DPI     int      // of PNG and TIFF; 0 is 300
	Proof   bool     // in each form too: the colours of the screen in greys, as a copier sees them
	Score   string   // what swaps are judged by, as the tastings asked it; "" is liking
	Only    []int    // of a page's figures, by their place from 0; none means all
}

// Chosen are the figures of o.Only, in their own order; all of them where it is
// empty. A place that is none is passed over.
func (o FigureOptions) Chosen(figures []Figure) []Figure {
	if len(o.Only) == 0 {
		return figures
	}
	var out []Figure
	for i, f := range figures {
		if slices.Contains(o.Only, i) {
			out = append(out, f)
		}
	}
	return out
}

// FigureFormats are the forms a figure can be written in.
var FigureFormats = []string{"png", "tiff", "svg", "pdf", "eps"}

// RecipeFigures are the files of the figures of a recipe's page that are chosen; with
// all of them goes its table of keep or drop where swaps were tasted.
func (p *Page) RecipeFigures(b *recipes.Book, wide float64, o FigureOptions) ([]File, error) {
	d, err := drawnOf(b, p.Recipe, p.Version, o.Score, p.options, wide)
	if err != nil {
		return nil, err
	}
	files, err := FigureFiles(o.Chosen(d.out), o)
	if rows := d.keepOrDrop(); err == nil && rows != nil && len(o.Only) == 0 {
		files = append(files, File{"keep-or-drop.csv", func(w io.Writer) error { return writeCSV(w, rows) }})
	}
	return files, err
}

// FigureFiles are the files of figures, and captions.csv and captions.txt with
// the caption and the text alternative of each. Errors: a form that is none.
func FigureFiles(figures []Figure, o FigureOptions) ([]File, error) {
	if len(o.Formats) == 0 {
		o.Formats = []string{"png", "svg", "pdf"}
	}
	if o.DPI == 0 {
		o.DPI = 300
	}
	var out []File
	for _, f := range figures {
		proof := f
		proof.Figure = f.Figure.Proof()
		for _, format := range o.Formats {
			write, err := f.writer(format, o.DPI)
			if err != nil {
				return nil, err
			}
			out = append(out, File{f.FileName() + "." + format, write})
			if o.Proof {
				write, _ := proof.writer(format, o.DPI) // a form that was taken above
				out = append(out, File{f.proofName() + "." + format, write})
			}
		}
	}
	if len(figures) == 0 {
		return out, nil
	}
	return append(out, File{"captions.csv", captionsCSV(figures, o)}, File{"captions.txt", captionsText(figures, o)}), nil
}

// proofName is FileName of the figure's grey proof.
func (f *Figure) proofName() string {
	return f.FileName() + "-" + plainWords(words.Say("book.file.proof"), longKind)
}

// withEndings are the names of a figure's files in a cell or line.
func withEndings(name string, o FigureOptions) string {
	var out []string
	for _, format := range o.Formats {
		out = append(out, name+"."+format)
	}
	return strings.Join(out, "; ")
}

func (f *Figure) writer(format string, dpi int) (func(io.Writer) error, error) {
	fig, w, h := f.Figure, f.WideMM, f.HighMM
	switch format {
	case "png":
		return func(to io.Writer) error { return fig.WritePNG(to, w, h, dpi) }, nil
	case "tiff":
		return func(to io.Writer) error { return fig.WriteTIFF(to, w, h, dpi) }, nil
	case "svg":
		return func(to io.Writer) error { return fig.WriteSVG(to, w, h) }, nil
	case "pdf":
		return func(to io.Writer) error { return fig.WritePDF(to, w, h) }, nil
	case "eps":
		return func(to io.Writer) error { return fig.WriteEPS(to, w, h) }, nil
	}
	return nil, problem.New(format, words.Say("book.format"), words.Say("book.format.hint", strings.Join(FigureFormats, ", ")))
}

func captionsCSV(figures []Figure, o FigureOptions) func(io.Writer) error {
	return func(w io.Writer) error {
		rows := [][]string{{"figure", "file", "proof", "recipe", "version", "caption", "alt", "wide_mm", "high_mm"}}
		for _, f := range figures {
			proof := ""
			if o.Proof {
				proof = withEndings(f.proofName(), o)
			}
			rows = append(rows, []string{
				strconv.Itoa(f.Number), withEndings(f.FileName(), o), proof, safeCell(f.Recipe), safeCell(f.Version),
				safeCell(f.Caption), safeCell(f.Alt), plain(f.WideMM, 1), plain(f.HighMM, 1),
			})
		}
		return writeCSV(w, rows)
	}
}

func captionsText(figures []Figure, o FigureOptions) func(io.Writer) error {
	return func(w io.Writer) error {
		var b strings.Builder
		for _, f := range figures {
			b.WriteString(withEndings(f.FileName(), o) + "\n" + f.Caption + "\n" + f.Alt + "\n\n")
		}
		_, err := io.WriteString(w, b.String())
		return err
	}
}

// writeCSV writes rows as RFC 4180 has them.
func writeCSV(w io.Writer, rows [][]string) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.WriteAll(rows); err != nil {
		return problem.Wrap(err, "", words.Say("print.failed"), words.Say("print.failed.hint"))
	}
	return nil
}

// safeCell keeps a text from being run as a formula by a spreadsheet.
func safeCell(s string) string {
	if s == "" || !strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return s
	}
	return "'" + s
}

// safeName keeps of a name what every file system takes, at most 80 letters.
func safeName(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|`, r) {
			return ' '
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 80 {
		s = string(r[:80])
	}
	if s = strings.Trim(s, " ."); s == "" {
		return words.Say("book.file.none")
	}
	return s
}

// uniqueNames gives each of several names a file name of its own.
func uniqueNames(all []string) []string {
	out, taken := make([]string, len(all)), map[string]bool{}
	for i, s := range all {
		base := safeName(s)
		name := base
		for n := 2; taken[strings.ToLower(name)]; n++ {
			name = base + " " + strconv.Itoa(n)
		}
		taken[strings.ToLower(name)] = true
		out[i] = name
	}
	return out
}
