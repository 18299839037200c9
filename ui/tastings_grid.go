package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// Ways of going on after an answer, and the choice of all questions.
const (
	goAlongTray  = "tray"
	goAlongRow   = "row"
	allQuestions = "*"
)

// scoreGrid is the table that paper ballots are typed into. A digit that is a
// whole answer is kept at once and the keyboard goes on.
type scoreGrid struct {
	w     *Window
	t     *recipes.Tasting
	grid  *sheets.ScoreGrid
	table *parts.Matrix
	where *parts.Text   // which field is chosen, or why an answer was refused
	late  bool          // the tasting is closed: corrections
	why   func() string // their reason; "" when none is given, and asked for then

	source recipes.Source
	only   string
	tray   bool
	date   string // of a dish taken home

	wrong map[[2]string]string // refused text, by seat and column
	next  *[2]int              // where an edit goes on; nil lets the table move
	menu  func(row int, at fyne.Position)
}

func newScoreGrid(w *Window) *scoreGrid {
	g := &scoreGrid{w: w, source: recipes.FromPaper, tray: true, wrong: map[[2]string]string{}}
	g.where = parts.NewText("")
	g.where.OneLine = true
	g.table = parts.NewMatrix()
	g.table.Follow = true
	g.table.OnSelect = g.chose
	g.table.OnEdit = g.edited
	g.table.Suggest = g.typed
	g.table.OnType = g.typedBeside
	g.table.OnMenu = func(row, _ int, at fyne.Position) {
		if g.menu != nil {
			g.menu(row, at)
		}
	}
	g.table.SetData(oneColumn())
	return g
}

// show lays the tasting out again; the selection stays where it was.
func (g *scoreGrid) show(t *recipes.Tasting) {
	if g.t == nil || g.t.ID != t.ID {
		g.only, g.source, g.next = "", recipes.FromPaper, nil
		clear(g.wrong)
		g.table.Select(0, 0)
	}
	g.t, g.late = t, t.State == recipes.TastingClosed
	if tasting.Blind(t) {
		g.date = ""
	} else if g.date == "" {
		g.date = sheets.Today(g.w.now())
	}
	g.grid = sheets.NewScoreGrid(g.w.book(), t, g.source, g.date, g.only)
	d := matrixOf(g.grid.Sheet())
	d.Columns[0].Min, d.Columns[0].Max, d.Columns[0].Text = 70, 140, false
	for i := 1; i < len(d.Columns)-1; i++ {
		d.Columns[i].Min, d.Columns[i].Max = 58, 150
	}
	d.Columns[len(d.Columns)-1].Max = 200
	g.markWrong(&d)
	g.table.SetData(d)
}

// markWrong puts what was refused where it was typed, until it is corrected.
func (g *scoreGrid) markWrong(d *parts.MatrixData) {
	for r := range d.Rows {
		for c := range d.Rows[r].Cells {
			if text, ok := g.wrong[[2]string{d.Rows[r].Key, d.Columns[c].Key}]; ok {
				cell := &d.Rows[r].Cells[c]
				cell.Text, cell.Mark, cell.Muted = text, parts.MarkError, false
			}
		}
	}
}

func (g *scoreGrid) key(row, col int) [2]string {
	d := g.table.Data()
	return [2]string{d.Rows[row].Key, d.Columns[col].Key}
}

// answerAt tells whether a field of the table takes an answer.
func (g *scoreGrid) answerAt(row, col int) bool {
	return g.grid != nil && row >= 0 && row < len(g.t.Seats) && col >= 1 && col <= len(g.grid.Columns)
}

// chose says which field is chosen. After an edit the keyboard goes on along the
// tray, not where Enter or Tab would take it.
func (g *scoreGrid) chose(row, col int) {
	if n := g.next; n != nil {
		g.next = nil
		if n[0] != row || n[1] != col {
			g.table.Select(n[0], n[1])
			return
		}
	}
	if g.answerAt(row, col) {
		g.tell(row, col)
	} else {
		g.say(parts.RoleMuted, words.Say("tastings.grid.hint"))
	}
}

func (g *scoreGrid) tell(row, col int) {
	if text, ok := g.wrong[g.key(row, col)]; ok {
		if _, err := g.grid.Fit(row, col-1, text); err != nil {
			g.say(parts.RoleError, err.Error())
			return
		}
	}
	g.say(parts.RoleMuted, g.grid.Where(row, col-1))
}

func (g *scoreGrid) say(role fyne.ThemeColorName, text string) {
	g.where.SetRole(role)
	g.where.SetText(text)
}

// typed hears every letter typed into a field: a whole answer is taken at once.
// It offers nothing to complete.
func (g *scoreGrid) typed(row, col int, text string) []parts.Suggestion {
	if !g.answerAt(row, col) || !g.grid.Complete(col-1, text) {
		return nil
	}
	g.next = nil
	parts.CommitEdits(g.w.win.Canvas())
	if g.next == nil { // the same answer again
		g.goOn(row, col)
	}
	g.w.win.Canvas().Focus(g.table)
	if n := g.next; n != nil {
		g.next = nil
		g.table.Select(n[0], n[1])
	}
	return nil
}

// goOn sets where the keyboard goes after a field.
func (g *scoreGrid) goOn(row, col int) {
	g.next = &[2]int{row, col}
	if r, c, ok := g.grid.Next(row, col-1, g.tray); ok {
		g.next = &[2]int{r, c + 1}
	}
}

// edited keeps an answer, takes one away, or says why it is none and stays.
func (g *scoreGrid) edited(row, col int, text string) {
	if !g.answerAt(row, col) {
		return
	}
	c, key := g.grid.Columns[col-1], g.key(row, col)
	s := oneScore{Key: c.Ask.Key, Blank: sheets.Blank(text), Answer: tasting.Answer{
		Seat: g.t.Seats[row].Number, Code: c.Code, Source: g.source, Date: g.date,
	}}
	if g.late {
		if s.At, s.Why = g.w.stamp(), g.why(); s.Why == "" {
			g.next = &[2]int{row, col}
			g.show(g.t)
			g.say(parts.RoleError, words.Say("tastings.late.why.first"))
			return
		}
	}
	if !s.Blank {
		v, err := g.grid.Fit(row, col-1, text)
		if err != nil {
			g.wrong[key] = text
			g.next = &[2]int{row, col}
			g.show(g.t)
			g.say(parts.RoleError, err.Error())
			return
		}
		s.Value = v
		g.goOn(row, col)
	}
	delete(g.wrong, key)
	id := g.t.ID
	g.w.do(enterScore(id, g.w.newID, s), func(ok bool) {
		if ok && g.late {
			g.w.status.SetMessage(words.Say("tastings.late.kept"))
		}
		if now := g.w.book().Tasting(id); now != nil && g.t.ID == id {
			g.show(now) // in a dialog no page does it
			if row, col := g.table.Selected(); g.answerAt(row, col) {
				g.tell(row, col) // what was refused there before is mended
			}
		}
	})
}

// typedBeside takes a digit typed on a seat's name, or on what it owes, as the first
// answer that its ballot still needs.
func (g *scoreGrid) typedBeside(row, col int, r rune) bool {
	if r < '0' || r > '9' || g.grid == nil || g.answerAt(row, col) {
		return false
	}
	c, ok := g.grid.Owing(row, g.tray)
	if !ok {
		g.say(parts.RoleLook, words.Say("tastings.grid.full"))
		return true
	}
	g.next = nil
	g.table.Select(row, c+1)
	g.table.TypedRune(r)
	return true
}

// begin puts the keyboard into the first field, or the first of a seat.
func (g *scoreGrid) begin(row int) {
	if r, c, ok := g.grid.First(row, g.tray); ok {
		g.next = nil
		g.table.Select(r, c+1)
		g.w.win.Canvas().Focus(g.table)
	}
}
