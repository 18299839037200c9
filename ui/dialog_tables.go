package ui

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tableEndings are the files a published table may come in.
var tableEndings = []string{".txt", ".csv", ".zip"}

// tablesDialog lists the published tables of the workbook and takes in more.
type tablesDialog struct {
	w      *Window
	dialog *parts.Dialog
	table  *parts.Matrix
	take   *parts.Button
	keys   []string
	starts int // how many foods come with the program
}

// showTables opens the list of published tables.
func (w *Window) showTables() { w.tellTables(nil) }

// tellTables opens the list, with what became of tables just read above it.
func (w *Window) tellTables(read []sheets.TableRead) {
	d := &tablesDialog{w: w}
	d.table = parts.NewMatrix()
	d.table.WholeRow, d.table.Stretch = true, true
	d.table.OnDelete = func(row, _ int) { d.remove(row) }
	d.table.OnSelect = func(row, _ int) { d.take.SetEnabled(d.key(row) != "") }
	d.table.SetData(matrixOf(sheets.Releases(w.book(), 0)))
	d.take = parts.NewButton(parts.Quiet, "remove", words.Say("releases.remove"), func() {
		row, _ := d.table.Selected()
		d.remove(row)
	})
	bring := parts.NewButton(parts.Primary, "import", words.Say("releases.import"), func() {
		d.dialog.Close()
		w.chooseTable()
	})
	w.pin("tables.list", d.table)
	w.pin("tables.remove", d.take)
	w.pin("tables.import", bring)
	head := parts.Rows(parts.GapMedium)
	for _, t := range read {
		head.Add(parts.NewBanner(toneOf(t), t.ReadText()))
	}
	head.Add(parts.NewText(words.Say("releases.caption")))
	body := []fyne.CanvasObject{head, parts.NewTableCard("", "", d.table)}
	if wrong := d.wrongRows(read); wrong != nil {
		body = append(body, wrong)
	}
	body = append(body, parts.Line(parts.GapSmall, bring, d.take))
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("releases.title"), Content: parts.Fill(parts.GapMedium, 1, body...), First: bring,
		Cancel: words.Say("button.close"), Width: 760, Height: tablesHeight(read),
	})
	d.show()
}

// tablesHeight leaves room for rows that were left out.
func tablesHeight(read []sheets.TableRead) float32 {
	for _, t := range read {
		if t.Bad > 0 {
			return 720
		}
	}
	return 480
}

func toneOf(t sheets.TableRead) parts.Tone {
	if t.Bad > 0 {
		return parts.ToneLook
	}
	return parts.ToneGood
}

// wrongRows lists the rows that were left out; nil when there are none.
func (d *tablesDialog) wrongRows(read []sheets.TableRead) fyne.CanvasObject {
	s, more := sheets.WrongRows(read)
	if len(s.Rows) == 0 {
		return nil
	}
	m := parts.NewMatrix()
	m.WholeRow, m.Stretch = true, true
	data := matrixOf(s)
	data.Columns[0].Min, data.Columns[0].Max = 200, 260
	m.SetData(data)
	d.w.pin("tables.wrong", m)
	return parts.Rows(6, parts.NewSection(words.Say("releases.bad.title")), parts.Sized(0, 210, parts.NewTableCard("", "", m)), parts.NewCaption(more))
}

// show lists the newest Book's tables.
func (d *tablesDialog) show() {
	if f, err := desk.StarterFoods(); err == nil {
		d.starts = len(f)
	}
	s := sheets.Releases(d.w.book(), d.starts)
	d.keys = nil
	for _, r := range s.Rows {
		d.keys = append(d.keys, r.Key)
	}
	data := matrixOf(s)
	data.Columns[0].Min, data.Columns[0].Max = 200, 400
	d.table.SetData(data)
	row, _ := d.table.Selected()
	d.take.SetEnabled(d.key(row) != "")
}

func (d *tablesDialog) key(row int) string {
	if row < 0 || row >= len(d.keys) {
		return ""
	}
	return d.keys[row]
}

// remove takes a table off the search; undo brings it back.
func (d *tablesDialog) remove(row int) {
	source, release, ok := strings.Cut(d.key(row), "/")
	if ok {
		d.w.do(recipes.RemoveRelease(source, release), func(bool) { d.show() })
	}
}

// chooseTable asks for a file or folder of a published table.
func (w *Window) chooseTable() {
	w.chooseFile(fileWish{
		title: words.Say("releases.choose.title"), ok: words.Say("releases.choose.ok"), endings: tableEndings,
		folder: words.Say("releases.choose.folder"), help: words.Say("releases.choose.help"),
		then: func(path string) { w.importTable(path) },
	})
}

// importTable reads a published table; the status line shows how far it is and
// stops it. What became of it is told in the list of tables, unless the cook is
// at something else by then: then the status line tells it and leads there.
func (w *Window) importTable(path string) {
	var work *parts.Work
	var cancel func()
	work = w.status.StartWork(words.Say("releases.work"), words.Say("releases.stop"), func() { cancel() })
	progress := func(done, total int) {
		if total > 0 {
			work.Progress(float64(done) / float64(total))
		}
	}
	cancel = w.desk.ImportTable([]string{path}, progress, func(all []desk.ImportedTable, err error) {
		work.Done()
		switch {
		case errors.Is(err, context.Canceled):
			w.status.SetMessage(words.Say("releases.stopped"))
		case err != nil:
			w.problemDialog(err)
		default:
			w.tellImport(all)
		}
	})
}

func (w *Window) tellImport(all []desk.ImportedTable) {
	var read []sheets.TableRead
	for _, t := range all {
		read = append(read, sheets.TableRead{
			Name: t.Release.Name, Foods: t.Release.Foods, Rows: t.Count.Rows, Bad: t.Count.Bad, Left: t.Count.Left, Wrong: t.Bad, Already: t.Already,
		})
	}
	busy := w.win.Canvas().Overlays().Top() != nil || w.at.page != pageFoods
	if !busy {
		w.tellTables(read)
		return
	}
	if len(read) > 0 {
		w.status.SetMessageAction(read[0].ReadText(), "foods", words.Say("releases.show"), func() { w.tellTables(read) })
	}
}
