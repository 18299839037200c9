package ui

import (
	"context"
	"errors"
	"io"
	"path/filepath"

	"parewell/analysis/sheet"
	"parewell/recipes/exchange"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// exportRecipe asks which charts of the recipe in sight are saved: those of Keep or
// drop or of the printed page where that is in sight, else those of its versions, with
// all of them side by side.
func (w *Window) exportRecipe() {
	switch p, _ := w.pages[pageRecipe].(*recipePage); {
	case w.at.page != pageRecipe || p == nil:
	case w.at.tab == tabLedger && w.ledger().view != nil:
		w.ledger().exportCharts("")
	case w.at.tab == tabPrinted:
		p.inner[tabPrinted].(*printedPage).saveCharts()
	default:
		w.exportChart("")
	}
}

// exportChart is exportRecipe of the versions, from the chart in sight by its key; ""
// for none.
func (w *Window) exportChart(key string) {
	if w.at.page != pageRecipe || w.recipe() == nil {
		return
	}
	b, r := w.book(), w.recipe()
	bench := sheets.NewBench(b, r)
	set, note := bench.Figures(exportWidth), ""
	if len(set.Figures) == 0 {
		note = words.Say("export.no-versions")
	}
	of := w.setChoice(set, key, sheets.FiguresAsk{Of: sheets.FiguresOfVersions, Recipe: r.ID}, func(wide float64) (*sheets.FigureSet, error) { return bench.Figures(wide), nil })
	of.title, of.note, of.table = words.Say("export.title"), note, words.Say("export.csv")
	side := sheet.Of(b, r)
	of.rows = desk.ExportFile{Name: words.Say("export.name.table", desk.FileName(r.Title)) + ".csv", Write: func(to io.Writer) error { return exchange.WriteCSV(to, side) }}
	w.saveFigures(of)
}

// export writes files beside the window, with progress and a way to stop it. What
// is there already under one of the names is replaced only when the cook says so.
func (w *Window) export(folder string, files []desk.ExportFile) {
	w.exportThen(folder, files, func() {})
}

// exportThen is export with what is to be done afterwards, however it ends.
func (w *Window) exportThen(folder string, files []desk.ExportFile, then func()) {
	var there []string
	for _, f := range files {
		if is, _ := desk.Exists(filepath.Join(folder, filepath.FromSlash(f.Name))); is {
			there = append(there, f.Name)
		}
	}
	if len(there) == 0 {
		w.exportNow(folder, files, then)
		return
	}
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("export.replace"), Content: parts.NewText(words.Say("export.replace.text", len(there), there[0])), Width: 440,
		Confirm: words.Say("export.replace.ok"), Cancel: words.Say("button.cancel"),
		OnOK:     func() bool { w.exportNow(folder, files, then); return true },
		OnClosed: then,
	})
}

func (w *Window) exportNow(folder string, files []desk.ExportFile, then func()) {
	ctx, stop := context.WithCancel(context.Background())
	work := w.status.StartWork(words.Say("export.working"), words.Say("export.stop"), stop)
	w.desk.Export(ctx, folder, files, work.Progress, func(written []string, err error) {
		stop()
		work.Done()
		then()
		switch {
		case errors.Is(err, context.Canceled):
			w.status.SetMessage(words.Say("export.stopped.said", len(written), folderOf(folder, written)))
		case err != nil:
			w.problemDialog(err)
		default:
			w.status.SetMessage(words.Say("export.done", len(written), folderOf(folder, written)))
		}
	})
}

// folderOf says in which folder files are: that they were to go into, with how many
// folders in it they are in, or the one they are all in.
func folderOf(to string, written []string) string {
	to = filepath.Clean(to)
	inside := map[string]bool{}
	for _, f := range written {
		inside[filepath.Dir(f)] = true
	}
	if len(inside) == 1 {
		return filepath.Dir(written[0])
	}
	switch here := inside[to]; {
	case len(inside) == 0:
		return to
	case here:
		return words.Say("export.folders", len(inside)-1, to)
	}
	return words.Say("export.folders.only", len(inside), to)
}
