package sheets

import (
	"context"
	"encoding/csv"
	"io"
	"math"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/desk"
)

// FigureSet are the figures of a page of the window, for print, with the table of
// their numbers.
type FigureSet struct {
	Name    string        // of their folder
	Figures []book.Figure // nothing that was only predicted is in them
	Keys    []string      // of Figures: what each of them shows
	Rows    [][]string    // the numbers as a table; nil: none

	of, version string // title and letter, for the names of files
}

// Keys of figures: with one that is about a version or a score goes its name.
const (
	FigureMap    = "map"
	FigureFall   = "fall:"  // and the version
	FigureFront  = "front"  // trade-offs
	FigureScores = "scores" // and ":" with what was asked
	FigureSpread = "spread:"
	FigureChange = "change"
	FigureShare  = "share"
)

// At is the place of a figure by its key, -1 where there is none.
func (s *FigureSet) At(key string) int {
	for i, k := range s.Keys {
		if k == key {
			return i
		}
	}
	return -1
}

// WriteRows writes the table of the set's numbers as a CSV file (RFC 4180).
func (s *FigureSet) WriteRows(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return out.WriteAll(s.Rows)
}

// Files are files with the set's folder before their names.
func (s *FigureSet) Files(files []book.File) []book.File {
	out := make([]book.File, len(files))
	for i, f := range files {
		out[i] = book.File{Name: desk.FileName(s.Name) + "/" + f.Name, Write: f.Write}
	}
	return out
}

// put keeps a figure; one that its numbers do not allow is left out. high is a share
// of the width. Notes are said in its caption and in its text alternative.
func (s *FigureSet) put(key, name, caption string, notes []string, wide, high float64, fig *charts.Figure, err error) {
	if err != nil {
		return
	}
	caption, fig = strings.Join(append([]string{caption}, notes...), " "), fig.Noting(notes...)
	s.Keys = append(s.Keys, key)
	s.Figures = append(s.Figures, book.Figure{
		Number: len(s.Figures) + 1, Recipe: s.of, Version: s.version, Name: name, Caption: caption, Alt: fig.PaperAlt(), Figure: fig,
		WideMM: wide, HighMM: fig.HighMM(wide, math.Round(max(wide*high, figureLow))),
	})
}

// figureLow is the least height of a figure in millimetres: its axis, its key and
// two rows.
const figureLow = 50

// Figures are the map of swaps, the way to each version swap by swap, and the
// trade-offs that were tasted, by the score and the nutrient in sight and against
// the recorded limit. wide is in millimetres; t may be nil.
func (v *LedgerView) Figures(t *Trades, wide float64) (*FigureSet, error) {
	kept, err := v.Recorded()
	if err != nil {
		return nil, err
	}
	title := kept.l.Recipe.Title
	s := &FigureSet{of: title, Name: words.Say("keep.file", title), Rows: kept.CSV()}
	asked, behind := kept.attribute(), kept.behind()
	if len(kept.Table.Rows) > 0 {
		caption := words.Say("book.figure.map.caption", title)
		if !kept.Overall {
			caption = words.Say("book.figure.map-by.caption", title, asked)
		}
		fig, err := charts.SwapMap(kept.MapData(""))
		s.put(FigureMap, words.Say("figures.map", asked, kept.as().title()), caption, behind, wide, 0.62, fig, err)
	}
	for _, x := range kept.l.Falls() {
		d, err := kept.FallData(x.ID, "")
		if err != nil {
			continue
		}
		caption := words.Say("book.figure.fall.caption", title, kept.as().name, x.Letter)
		fig, err := charts.Waterfall(d)
		name := words.Say("figures.fall.only", x.Letter, d.Nutrient)
		if d.Attribute != "" {
			name = words.Say("figures.fall", x.Letter, d.Nutrient, asked)
		}
		s.version = x.Letter
		s.put(FigureFall+string(x.ID), name, caption, behind, wide, book.RowsHigh(len(d.Steps)+2), fig, err)
	}
	s.version = ""
	if kept.AnyTasted(t) {
		d := kept.FrontData(t, "")
		fig, err := charts.FrontierChart(d)
		s.put(FigureFront, words.Say("figures.front", d.Attribute, d.Nutrient), words.Say("figures.front.caption", title, d.Attribute), behind, wide, 0.62, fig, err)
	}
	return s, nil
}

// behind is what stands behind a caption: how energy is counted, and how far to trust
// the ranges.
func (v *LedgerView) behind() []string {
	var out []string
	if v.Ask.Nutrient == food.EnergyKcal || v.Ask.Nutrient == food.EnergyKJ {
		out = append(out, book.EnergyLine(v.l.kitchen))
	}
	if p := v.l.Pool; p != nil {
		out = append(out, book.Care(p, p.CookedOnce())...)
	}
	return out
}

// Figures are what the versions change and where their calories are. A recipe
// without versions has none.
func (x *Bench) Figures(wide float64) *FigureSet {
	title := x.Recipe.Title
	s := &FigureSet{of: title, Name: words.Say("book.file.figures", title)}
	if len(x.Versions) < 2 {
		return s
	}
	behind := []string{book.EnergyLine(nutrition.In(x.book))}
	fig, err := charts.ChangeChart(x.ChangeData(""))
	s.put(FigureChange, words.Say("book.file.change"), words.Say("book.figure.changes.caption", title), behind, wide, book.RowsHigh(x.charted()-1), fig, err)
	fig, err = charts.ShareChart(x.ShareData(""))
	s.put(FigureShare, words.Say("book.file.share"), words.Say("book.figure.share.caption", title), behind, wide, book.RowsHigh(x.charted())+0.1, fig, err)
	return s
}

// FiguresAsk says which page of the window's figures are wanted.
type FiguresAsk struct {
	Of        string // FiguresOfLedger, FiguresOfTasting or FiguresOfVersions
	Recipe    recipes.ID
	Tasting   recipes.ID    // of FiguresOfTasting
	Attribute string        // of FiguresOfLedger; "" overall liking
	Nutrient  food.Nutrient // of FiguresOfLedger
}

// NutrientKey is the key of the nutrient, "" where none is asked for.
func (a FiguresAsk) NutrientKey() string {
	if a.Of != FiguresOfLedger {
		return ""
	}
	return a.Nutrient.Key()
}

// What figures can be of.
const (
	FiguresOfLedger   = "keep-or-drop"
	FiguresOfTasting  = "tasting"
	FiguresOfVersions = "versions"
)

// FiguresAsked are the figures of an ask, worked out anew. Errors: the recipe or
// the tasting is gone, nothing counts yet, ctx ended.
func FiguresAsked(ctx context.Context, b *recipes.Book, a FiguresAsk, wide float64) (*FigureSet, error) {
	r := b.Recipe(a.Recipe)
	if t := b.Tasting(a.Tasting); a.Of == FiguresOfTasting && t != nil {
		return NewResults(b, t.ID).Figures(wide), nil
	}
	if r == nil || a.Of == FiguresOfTasting {
		return nil, problem.New("", words.Say("error.recipe-gone"), words.Say("error.gone.hint"))
	}
	if a.Of == FiguresOfVersions {
		return NewBench(b, r).Figures(wide), nil
	}
	l, err := NewLedger(b, r)
	if err != nil {
		return nil, err
	}
	ask := LedgerAsk{Attribute: a.Attribute, Nutrient: a.Nutrient}
	v, err := l.View(ask)
	if err != nil {
		return nil, err
	}
	t := l.Trade(ctx, ask)
	return v.Figures(&t, wide)
}
