package ui

import (
	"io"
	"path/filepath"

	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// prefPaper is the preference that keeps the paper printed on last.
const prefPaper = "print.paper"

// papers are the sizes to choose from.
var papers = map[string]manuscript.Paper{manuscript.A4.Key: manuscript.A4, manuscript.Letter.Key: manuscript.Letter}

// printDialog asks which versions are printed and on what paper.
type printDialog struct {
	w       *Window
	recipe  *recipes.Recipe
	bench   *sheets.Bench
	boxes   []*parts.Check // by version, the original first
	paper   *parts.Segmented
	dialog  *parts.Dialog
	trouble *parts.Text
}

// printTestSheets writes sheets to cook from and write on, a page a version.
func (w *Window) printTestSheets() {
	r := w.recipe()
	if w.at.page != pageRecipe || r == nil {
		return
	}
	d := &printDialog{w: w, recipe: r, bench: sheets.NewBench(w.book(), r), trouble: parts.NewCaption("")}
	d.trouble.SetRole(parts.RoleError)
	list := parts.Rows(0)
	for i, v := range d.bench.Versions {
		box := parts.NewCheck(d.bench.ColumnName(i), true, nil)
		d.boxes = append(d.boxes, box)
		list.Add(box)
		name := "print.original"
		if v != nil {
			name = "print:" + v.Letter
		}
		w.pin(name, box)
	}
	d.paper = parts.NewSegmented([]parts.Suggestion{
		{Key: manuscript.A4.Key, Text: words.Say("print.a4")}, {Key: manuscript.Letter.Key, Text: words.Say("print.letter")},
	}, d.firstPaper(), nil)
	w.pin("print.paper", d.paper)
	form := parts.NewForm()
	form.Row(words.Say("print.versions"), list, "", words.Say("print.versions.help"))
	form.Row(words.Say("print.paper"), d.paper, "", "")
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tests.print"), Content: parts.Rows(parts.GapSmall, form, d.trouble),
		Confirm: words.Say("print.save"), Cancel: words.Say("button.cancel"), Width: 520, OnOK: d.done,
	})
}

// firstPaper is the paper printed on last, else what the recipe's measures
// suggest.
func (d *printDialog) firstPaper() string {
	if key := d.w.app.Preferences().String(prefPaper); papers[key].Key != "" {
		return key
	}
	if d.recipe.Measures == "us" {
		return manuscript.Letter.Key
	}
	return manuscript.A4.Key
}

// done asks where the file goes; without a version it says so.
func (d *printDialog) done() bool {
	var chosen []manuscript.TestSheet
	for i, box := range d.boxes {
		if box.On() {
			chosen = append(chosen, manuscript.TestSheetOf(d.w.book(), d.recipe, d.bench.Versions[i]))
		}
	}
	if len(chosen) == 0 {
		d.trouble.SetText(words.Say("print.none"))
		d.dialog.Fit()
		return false
	}
	d.w.app.Preferences().SetString(prefPaper, d.paper.Key())
	pages := manuscript.TestSheets(papers[d.paper.Key()], chosen)
	d.dialog.Close() // before the next opens: each gives the keys back to the one before
	d.w.savePDF(words.Say("print.tests.file", desk.FileName(d.recipe.Title)), pages)
	return true
}

// savePDF asks where pages go and writes them there.
func (w *Window) savePDF(name string, pages *manuscript.Document) {
	w.chooseFile(fileWish{
		title: words.Say("print.save"), ok: words.Say("print.save.ok"), name: name, endings: []string{".pdf"}, save: true,
		then: func(path string) {
			w.export(filepath.Dir(path), []desk.ExportFile{{
				Name: filepath.Base(path), Write: func(out io.Writer) error { return pages.WritePDF(out) },
			}})
		},
	})
}
