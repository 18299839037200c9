package ui

import (
	"fmt"
	"io"
	"path/filepath"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// scaleDialog works out a recipe in another amount: a list to copy or to save,
// and only on request the original's own amounts.
type scaleDialog struct {
	w                *Window
	bench            *sheets.Bench
	opt              reading.Options
	column           int
	of               *parts.Picker
	by               *parts.Segmented
	servings, weight *parts.Entry
	from, to         *panFields
	rows             map[sheets.ScaleBy][]*parts.FormRow
	head, notes      *parts.Text
	list             *parts.Matrix
	keep             *parts.Button
	result           *sheets.ScaleResult
	left             *fyne.Container
	dialog           *parts.Dialog
}

// scaleRecipe opens it for the recipe in sight, at a version when one is given.
func (w *Window) scaleRecipe(version recipes.ID) {
	r := w.recipe()
	table, err := w.desk.Foods()
	if r == nil || err != nil {
		w.problemOrNil(err)
		return
	}
	d := &scaleDialog{w: w, bench: sheets.NewBench(w.book(), r), opt: w.readingOptions(table, ""), rows: map[sheets.ScaleBy][]*parts.FormRow{}}
	d.column = d.bench.ColumnOf(version)
	form := d.form(version)
	d.list = parts.NewMatrix()
	d.list.Stretch = true
	d.head, d.notes = parts.NewBold(""), parts.NewCaption("")
	w.pin("scale.list", d.list)
	d.left = parts.Rows(parts.GapMedium, parts.NewCaption(words.Say("scale.caption")), form, d.actions())
	right := parts.Fill(parts.GapSmall, 1, d.head, parts.NewTableCard("", "", d.list), d.notes)
	d.show()
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("scale.title"), First: fyne.Focusable(d.servings), Width: 1040, Height: 640,
		Content: parts.Columns(20, []float32{1, 1.35}, parts.Scrolled(parts.Pad(2, 12, 2, 2, d.left)), right),
		Cancel:  words.Say("button.close"),
	})
}

// scaleShown opens it from the menu, where a recipe is in sight.
func (w *Window) scaleShown() {
	if w.at.page == pageRecipe {
		w.scaleRecipe("")
	}
}

func (d *scaleDialog) form(version recipes.ID) *parts.Form {
	change := func(string) { d.work() }
	entry := func(pin, text string) *parts.Entry {
		e := parts.NewEntry(text, "", nil)
		e.OnChanged, e.Width = change, 110
		d.w.pin(pin, e)
		return e
	}
	d.of = parts.NewPicker(factItems(versionKeys, sheets.VersionsOf(d.w.book(), d.bench.Recipe.ID)), versionKeys+string(version), "", func(s parts.Suggestion) {
		d.column = d.bench.ColumnOf(recipes.ID(s.Key[len(versionKeys):]))
		d.work()
	})
	var ways []parts.Suggestion
	for _, by := range []sheets.ScaleBy{sheets.ByServings, sheets.ByWeight, sheets.ByPan} {
		ways = append(ways, parts.Suggestion{Key: string(by), Text: words.Say("scale.by." + string(by))})
	}
	d.by = parts.NewSegmented(ways, string(sheets.ByServings), func(string) { d.show() })
	d.servings = entry("scale.servings", d.bench.ServingsText(d.column))
	d.weight = entry("scale.weight", "")
	d.from, d.to = newPanFields(d, "scale.from"), newPanFields(d, "scale.to")
	form := parts.NewForm()
	form.Row(words.Say("scale.of"), parts.Stretch(0, 0, d.of), "", "")
	form.Row(words.Say("scale.by"), d.by, "", "")
	d.rows[sheets.ByServings] = []*parts.FormRow{form.Row(words.Say("scale.servings"), d.servings, "", "")}
	d.rows[sheets.ByWeight] = []*parts.FormRow{form.Row(words.Say("scale.weight"), d.weight, "", words.Say("scale.weight.help", d.bench.WeighsText(d.column)))}
	d.rows[sheets.ByPan] = []*parts.FormRow{
		form.Row(words.Say("scale.from"), d.from.view, "", ""),
		form.Row(words.Say("scale.to"), d.to.view, "", words.Say("scale.pan.help")),
	}
	d.w.pin("scale.of", d.of)
	d.w.pin("scale.by", d.by)
	return form
}

// actions are what can be done with the list.
func (d *scaleDialog) actions() fyne.CanvasObject {
	copyText := parts.NewButton(parts.Quiet, "copy", words.Say("scale.copy"), func() {
		if d.result != nil {
			d.w.app.Clipboard().SetContent(d.result.Text())
			d.w.status.SetMessage(words.Say("scale.copied"))
		}
	})
	save := parts.NewButton(parts.Quiet, "export", words.Say("scale.save"), d.save)
	d.keep = parts.NewButton(parts.Plain, "edit", words.Say("scale.keep"), func() {
		if d.result != nil {
			d.dialog.Close()
			d.w.do(d.result.Verb(d.w.book(), d.bench.Recipe.ID, d.opt))
		}
	})
	d.keep.SetTip(words.Say("scale.keep.tip"))
	d.w.pin("scale.copy", copyText)
	d.w.pin("scale.save", save)
	d.w.pin("scale.keep", d.keep)
	return parts.Flow(parts.GapSmall, copyText, save, d.keep)
}

// show shows the fields of the way chosen.
func (d *scaleDialog) show() {
	for by, rows := range d.rows {
		for _, r := range rows {
			if string(by) == d.by.Key() {
				r.Show()
			} else {
				r.Hide()
			}
		}
	}
	d.left.Refresh()
	d.work()
}

func (d *scaleDialog) fields() sheets.ScaleFields {
	return sheets.ScaleFields{
		By: sheets.ScaleBy(d.by.Key()), Servings: d.servings.Text, Weight: d.weight.Text, From: d.from.fields(), To: d.to.fields(),
	}
}

// work brings the list in line with the fields; what cannot be read is told in
// its place.
func (d *scaleDialog) work() {
	if d.list == nil {
		return // the fields are still being made
	}
	result, wrong := d.bench.Scale(d.column, d.fields(), d.opt)
	d.result = result
	d.keep.SetEnabled(result != nil && d.column == 0)
	if result == nil {
		d.head.SetText(wrong)
		d.notes.SetText("")
		d.list.SetData(parts.MatrixData{})
		return
	}
	d.head.SetText(result.Head())
	notes := ""
	for _, n := range result.Notes {
		notes += n + "\n"
	}
	d.notes.SetText(notes)
	data := matrixOf(result.Sheet())
	data.Columns[0].Max = 420
	d.list.SetData(data)
}

// save writes the list as a text file.
func (d *scaleDialog) save() {
	if d.result == nil {
		return
	}
	text := d.result.Text()
	d.w.chooseFile(fileWish{
		title: words.Say("scale.save"), ok: words.Say("button.save"), save: true, endings: []string{".txt"},
		name: desk.FileName(d.result.Title) + ".txt",
		then: func(path string) {
			d.w.export(filepath.Dir(path), []desk.ExportFile{{
				Name: filepath.Base(path), Write: func(out io.Writer) error { _, err := fmt.Fprint(out, text); return err },
			}})
		},
	})
}

// panFields are the measures of a pan.
type panFields struct {
	shape       *parts.Segmented
	a, b, deep  *parts.Entry
	first, side *parts.Text
	view        *fyne.Container
}

func newPanFields(d *scaleDialog, pin string) *panFields {
	p := &panFields{}
	entry := func(name string) *parts.Entry {
		e := parts.NewNumberEntry("", "", nil)
		e.OnChanged, e.Width = func(string) { d.work() }, 60
		d.w.pin(pin+"."+name, e)
		return e
	}
	p.a, p.b, p.deep = entry("a"), entry("b"), entry("deep")
	p.first, p.side = parts.NewCaption(words.Say("scale.across")), parts.NewCaption(words.Say("scale.wide"))
	p.shape = parts.NewSegmented([]parts.Suggestion{
		{Key: "round", Text: words.Say("scale.round")}, {Key: "square", Text: words.Say("scale.square")},
	}, "round", func(string) { p.show(); d.left.Refresh(); d.work() })
	d.w.pin(pin+".shape", p.shape)
	p.view = parts.Flow(parts.GapSmall, p.shape,
		parts.Line(4, p.a, p.first), parts.Line(4, p.b, p.side), parts.Line(4, p.deep, parts.NewCaption(words.Say("scale.deep"))))
	p.show()
	return p
}

func (p *panFields) show() {
	round := p.shape.Key() == "round"
	visible(p.view.Objects[2], !round)
	key := "scale.long"
	if round {
		key = "scale.across"
	}
	p.first.SetText(words.Say(key))
	p.view.Refresh()
}

func (p *panFields) fields() sheets.PanFields {
	return sheets.PanFields{Round: p.shape.Key() == "round", A: p.a.Text, B: p.b.Text, Deep: p.deep.Text}
}
