package sheets

import (
	"parewell/charts"
	"parewell/charts/book"
	"parewell/recipes/words"
)

// Figures are the figures of what one tasting came to: of everything that was
// asked, means and how they spread, who found it just right, right answers, or what
// came back from home. wide is in millimetres.
func (r *Results) Figures(wide float64) *FigureSet {
	if r.Kind() == ResultsNone {
		return &FigureSet{}
	}
	title := r.Book.Recipe(r.Tasting.Recipe).Title
	s := &FigureSet{of: title, Rows: r.CSV()}
	s.Name = words.Say("results.file", title, r.Tasting.Date)
	of := words.Say("figures.of-tasting", title, words.DayOf(r.Tasting.Date))
	switch r.Kind() {
	case ResultsTrays:
		if d, ok := r.CountData(""); ok {
			fig, err := charts.RightChart(d)
			s.put(FigureScores, words.Say("book.file.right"), words.Say("book.figure.right.caption", of), r.sitting.Notes(""), wide, book.RowsHigh(len(d.Rows)), fig, err)
		}
	case ResultsHome:
		if d, ok := r.HomeData(""); ok {
			fig, err := charts.HomeChart(d)
			s.put(FigureScores, words.Say("book.file.home", r.Tasting.Date), words.Say("book.figure.home.caption", of), nil, wide, book.RowsHigh(len(d.Dates)), fig, err)
		}
	}
	for _, a := range r.Asked() {
		r.putAsked(s, a, of, wide)
	}
	return s
}

// putAsked puts the figures of one thing that was asked.
func (r *Results) putAsked(s *FigureSet, asked, of string, wide float64) {
	name, behind := r.AskedName(asked), r.sitting.Notes(asked)
	if r.IsRight(asked) {
		d := r.RightsData(asked, "")
		fig, err := charts.JustRightChart(d)
		s.put(FigureScores+":"+asked, words.Say("book.file.right-for", name), words.Say("book.figure.just-right.caption", of, name), behind, wide, book.RowsHigh(len(d.Rows)), fig, err)
		return
	}
	n := 0
	if res := r.result(asked); res != nil {
		n = res.Panelists
	}
	means := r.ScoresData(asked, "")
	fig, err := charts.ScoresChart(means)
	s.put(FigureScores+":"+asked, words.Say("book.file.scores", name), words.Say("book.figure.scores.caption", of, name, n), behind, wide, book.RowsHigh(len(means.Rows)), fig, err)
	spread := r.SpreadData(asked, "")
	fig, err = charts.SpreadChart(spread)
	s.put(FigureSpread+asked, words.Say("book.file.spread", name), words.Say("book.figure.spread.caption", of, name), behind, wide, book.RowsHigh(len(spread.Rows))+0.15, fig, err)
}
