package sheets

import (
	"math"
	"slices"

	"parewell/analysis/panel"
	"parewell/recipes"
	"parewell/recipes/words"
)

// PanelSheet lists the tasters of a tasting with what their scores show, those
// set aside among them.
type PanelSheet struct {
	Sheet   Sheet
	Tasters []recipes.ID // by row
	Says    []string     // of the panel as a whole
}

// Panel looks at the tasters of one of Asked.
func (r *Results) Panel(asked string) PanelSheet {
	p := r.panels[asked]
	if p == nil && len(r.Tasting.Attributes) > 0 {
		p = r.panels[r.Tasting.Attributes[0].Name]
	}
	s := PanelSheet{Sheet: Sheet{Corner: words.Say("results.taster")}}
	if p != nil {
		s.Sheet.Columns = []Column{column("scores"), subbed("level"), subbed("used"), subbed("agrees")}
		s.Sheet.Columns[3].Number = false
		for _, x := range p.Explain() {
			s.Says = append(s.Says, x.String())
		}
	}
	s.Sheet.Columns = append(s.Sheet.Columns, Column{Key: "counts", Title: words.Say("results.column.counts"), Index: -1})
	answered := map[recipes.ID]bool{}
	for _, x := range r.Book.Servings(r.Tasting.ID) {
		answered[x.Panelist] = true
	}
	for _, seat := range r.Tasting.Seats {
		who := r.Book.Panelist(seat.Panelist)
		if who == nil || !answered[who.ID] || slices.Contains(s.Tasters, who.ID) {
			continue
		}
		s.Tasters = append(s.Tasters, who.ID)
		s.Sheet.Rows = append(s.Sheet.Rows, r.panelRow(p, who))
	}
	return s
}

func (r *Results) panelRow(p *panel.Panel, who *recipes.Panelist) Row {
	why := who.Aside[r.Tasting.ID]
	row := Row{Key: string(who.ID), Label: Cell{Text: who.Code, Struck: why != "", Bar: noBar()}}
	if p != nil {
		row.Cells = panelCells(p, who.Code)
	}
	counts := Cell{Text: words.Say("results.counts"), Muted: true, Wrap: true, Bar: noBar()}
	if why != "" {
		counts = Cell{Text: words.Say("results.counts.aside", why), Mark: Look, Wrap: true, Bar: noBar()}
	}
	row.Cells = append(row.Cells, counts)
	return row
}

// panelCells are what one taster's scores show; dashes for one set aside.
func panelCells(p *panel.Panel, code string) []Cell {
	for i := range p.Panelists {
		x := &p.Panelists[i]
		if x.Name != code {
			continue
		}
		used := words.Say("results.used", words.Trim(x.Low, 1), words.Trim(x.High, 1))
		return []Cell{
			scoreCell(float64(x.N), 0), signedCell(x.Level), {Text: used, Number: true, Bar: noBar()}, {Text: x.Agrees().String(), Bar: noBar()},
		}
	}
	none := Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar()}
	return []Cell{none, none, none, {Text: none.Text, Muted: true, Bar: noBar()}}
}

// subbed is a column with a second line that says what its figures are.
func subbed(key string) Column {
	c := column(key)
	c.Sub = words.Say("results.column." + key + ".sub")
	return c
}

// TasterSays is what one taster's scores of one of Asked show, in sentences.
func (r *Results) TasterSays(asked string, taster recipes.ID) []string {
	p, who := r.panels[asked], r.Book.Panelist(taster)
	if p == nil || who == nil {
		return nil
	}
	for i := range p.Panelists {
		if x := &p.Panelists[i]; x.Name == who.Code {
			return spoken(x.Explain()...)
		}
	}
	return nil
}

// Aside tells why a taster's answers are left out; "" when they count.
func (r *Results) Aside(taster recipes.ID) string {
	if p := r.Book.Panelist(taster); p != nil {
		return p.Aside[r.Tasting.ID]
	}
	return ""
}

// CSV is every number of the results, a row a figure's subject; what is not
// known is empty.
func (r *Results) CSV() [][]string {
	out := [][]string{{"table", "attribute", "sample", "other", "n", "value", "se", "low", "high", "p", "limit"}}
	row := func(table, attribute, sample, other string, v ...float64) {
		cells := []string{table, csvText(attribute), csvText(sample), csvText(other)}
		for _, x := range v {
			cells = append(cells, csvNumber(x))
		}
		out = append(out, cells)
	}
	nan := math.NaN()
	if s := r.sitting; s != nil && s.Report != nil {
		for _, res := range s.Report.Results {
			for _, x := range res.Samples {
				row("adjusted_mean", res.Attribute, x.Name, "", float64(x.N), number(x.AdjustedMean), number(x.SE), number(x.Low), number(x.High), nan, nan)
			}
			for _, x := range res.AgainstOriginal {
				limit := nan
				if r.overall(res.Attribute) && r.Tasting.Limit > 0 {
					limit = r.Tasting.Limit
				}
				row("against_original", res.Attribute, x.Sample, res.Original, nan, number(x.Difference), number(x.SE), number(x.Low), number(x.High), number(x.P), limit)
			}
			for _, x := range res.Pairs {
				row("pair", res.Attribute, x.A, x.B, nan, number(x.Difference), number(x.SE), number(x.Low), number(x.High), number(x.P), nan)
			}
		}
		for _, x := range s.Rights {
			for _, a := range x.Asked {
				for i, c := range x.Counts[a] {
					row("just_right", a, x.Name, words.Trim(float64(i+1), 0), float64(c), nan, nan, nan, nan, nan, nan)
				}
			}
		}
	}
	return append(out, r.otherCSV()...)
}

func (r *Results) otherCSV() [][]string {
	var out [][]string
	row := func(table, sample, other string, v ...float64) {
		cells := []string{table, "", csvText(sample), csvText(other)}
		for _, x := range v {
			cells = append(cells, csvNumber(x))
		}
		out = append(out, cells)
	}
	nan := math.NaN()
	switch s := r.sitting; r.Kind() {
	case ResultsTrays:
		c := s.Counted
		limit := nan
		if c.Similar != nil {
			limit = r.Tasting.Limit
		}
		row(string(c.Test), first(s.Names, 0), first(s.Names, 1), float64(c.N), float64(c.Correct), nan, c.PDLow, c.PDHigh, c.PDifference, limit)
	case ResultsRanked:
		for i, name := range s.Ranked.Names {
			row("rank_sum", name, "", float64(s.Ranked.N), s.Ranked.RankSums[i], nan, nan, nan, s.Ranked.Test.P, nan)
		}
	case ResultsHome:
		for _, d := range s.Home {
			row("again", d.Date, "", float64(d.Answered), float64(d.Again), nan, nan, nan, nan, nan)
		}
	}
	return out
}

func first(names []string, i int) string {
	if i < len(names) {
		return names[i]
	}
	return ""
}
