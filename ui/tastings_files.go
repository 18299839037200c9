package ui

import (
	"io"
	"path/filepath"

	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// scoreEndings are the files that scores come in.
var scoreEndings = []string{".csv", ".tsv", ".txt"}

// readScores takes the ballots of a file in, all of them or none. why is the
// reason of a correction after closing.
func (w *Window) readScores(t *recipes.Tasting, why string) {
	w.chooseFile(fileWish{
		title: words.Say("tastings.read"), ok: words.Say("tastings.read.ok"), endings: scoreEndings,
		then: func(path string) {
			w.desk.ReadScores(path, t.ID, func(answers []tasting.Answer, faults []error, err error) {
				switch {
				case err != nil:
					w.problemDialog(err)
				case len(faults) > 0:
					w.badRows(filepath.Base(path), faults)
				default:
					w.takeScores(t, answers, why)
				}
			})
		},
	})
}

// takeScores records what a file said. After closing it is a correction.
func (w *Window) takeScores(t *recipes.Tasting, answers []tasting.Answer, why string) {
	if t := w.book().Tasting(t.ID); t != nil && t.State == recipes.TastingClosed {
		for i := range answers {
			answers[i].At, answers[i].Why = w.stamp(), why
		}
	}
	w.do(tasting.Record(t.ID, w.newID, answers...), func(ok bool) {
		if ok {
			w.status.SetMessage(words.Say("tastings.read.done", len(answers)))
		}
	})
}

// badRows lists what is wrong with a file; nothing of it was taken in.
func (w *Window) badRows(name string, faults []error) {
	table := parts.NewMatrix()
	table.WholeRow, table.Stretch = true, true
	d := matrixOf(sheets.BadRows(faults))
	d.Columns[0].Min, d.Columns[0].Max, d.Columns[1].Max = 60, 90, 900
	table.SetData(d)
	w.pin("tastings.bad", table)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title:   words.Say("tastings.bad.title", name),
		Content: parts.Fill(parts.GapSmall, 1, parts.NewText(words.Say("tastings.bad", len(faults))), parts.NewTableCard("", "", table)),
		First:   table, Cancel: words.Say("button.close"), Width: 660, Height: 460,
	})
}

// saveTable asks where a table goes and writes it there.
func (w *Window) saveTable(title, name string, write func(io.Writer) error) {
	w.chooseFile(fileWish{
		title: title, ok: words.Say("tastings.write.ok"), name: name, endings: []string{".csv"}, save: true,
		then: func(path string) {
			w.export(filepath.Dir(path), []desk.ExportFile{{Name: filepath.Base(path), Write: write}})
		},
	})
}

// writeBallots writes what the ballots say, or with blank ballots to fill in, by
// seat and code.
func (w *Window) writeBallots(t *recipes.Tasting, blank bool) {
	b, title, name := w.book(), "tastings.write", "tastings.write.name"
	write := func(out io.Writer) error { return exchange.WriteBallots(out, b, t) }
	if blank {
		title, name = "tastings.write-blank", "tastings.write-blank.name"
		write = func(out io.Writer) error { return exchange.WriteBlankBallots(out, b, t) }
	}
	w.saveTable(words.Say(title), words.Say(name, t.Date), write)
}

// writeScores writes the scores of a closed tasting by what was served.
func (w *Window) writeScores(t *recipes.Tasting) {
	b := w.book()
	w.saveTable(words.Say("tastings.scores.file"), words.Say("tastings.scores.name", t.Date), func(out io.Writer) error { return exchange.WriteScores(out, b, t.ID) })
}

// writeSwaps writes which swaps were on in what was served.
func (w *Window) writeSwaps(t *recipes.Tasting) {
	b := w.book()
	w.saveTable(words.Say("tastings.swaps.file"), words.Say("tastings.swaps.name", t.Date), func(out io.Writer) error {
		return exchange.WriteSwaps(out, b, t.Recipe, t.ID)
	})
}
