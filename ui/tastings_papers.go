package ui

import (
	"bytes"
	"context"
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/analysis/nutrition"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// papersDialog asks which papers of a tasting are printed, on what, and what is
// needed to reckon them.
type papersDialog struct {
	w       *Window
	t       *recipes.Tasting
	seat    int // ballot and labels of this one only; 0 of all
	boxes   map[manuscript.Part]*parts.Check
	paper   *parts.Segmented
	whole   *parts.Check
	entries map[string]*parts.Entry
	rows    map[string]*parts.FormRow
	list    *parts.Matrix // what to buy
	trouble *parts.Text
	dialog  *parts.Dialog
}

// printPapers opens the dialog of a tasting's papers.
func (w *Window) printPapers(t *recipes.Tasting) { w.printSeat(t, 0) }

// printSeat opens it for one seat that was laid late: its ballot and labels, and the
// run sheet anew; 0 for all.
func (w *Window) printSeat(t *recipes.Tasting, seat int) {
	p := &papersDialog{w: w, t: t, seat: seat, boxes: map[manuscript.Part]*parts.Check{}, entries: map[string]*parts.Entry{}, rows: map[string]*parts.FormRow{}, trouble: parts.NewCaption("")}
	p.trouble.SetRole(parts.RoleError)
	left, right := parts.Scrolled(parts.Pad(2, 14, 2, 2, p.chosen())), parts.Scrolled(parts.Pad(2, 14, 2, 2, p.kitchen()))
	p.list.Outer = right
	p.shop()
	title := words.Say("tastings.papers")
	if seat != 0 {
		title = words.Say("tastings.papers.seat", seat)
	}
	p.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Width: 1040, Height: 720,
		Content: parts.Fill(parts.GapSmall, 0, parts.Columns(20, []float32{1, 1.5}, left, right), p.trouble),
		Confirm: words.Say("print.save"), Cancel: words.Say("button.cancel"), OnOK: p.done,
	})
}

// chosen are the papers, those for tasters and those of the kitchen apart.
func (p *papersDialog) chosen() fyne.CanvasObject {
	lists := map[manuscript.Reader]*fyne.Container{manuscript.ForTasters: parts.Rows(0), manuscript.ForKitchen: parts.Rows(0)}
	for _, part := range manuscript.Parts() {
		box := parts.NewCheck(part.Name(), p.seat == 0 || part == manuscript.PartRun || part == manuscript.PartLabels || part == manuscript.PartBallots, nil)
		p.boxes[part] = box
		p.w.pin("papers."+string(part), box)
		lists[part.Reader()].Add(box)
	}
	first := manuscript.A4.Key
	if key := p.w.app.Preferences().String(prefPaper); papers[key].Key != "" {
		first = key
	} else if r := p.w.book().Recipe(p.t.Recipe); r != nil && r.Measures == "us" {
		first = manuscript.Letter.Key
	}
	p.paper = parts.NewSegmented([]parts.Suggestion{
		{Key: manuscript.A4.Key, Text: words.Say("print.a4")}, {Key: manuscript.Letter.Key, Text: words.Say("print.letter")},
	}, first, nil)
	p.w.pin("papers.paper", p.paper)
	return parts.Rows(parts.GapMedium,
		parts.Rows(4, parts.NewSection(words.Say("tastings.papers.tasters")), parts.NewCaption(words.Say(p.tastersHelp())), lists[manuscript.ForTasters]),
		parts.Rows(4, parts.NewSection(words.Say("tastings.papers.kitchen")), parts.NewCaption(words.Say("tastings.papers.kitchen.help")), lists[manuscript.ForKitchen]),
		parts.NewCaption(words.Say("tastings.papers.apart")),
		parts.Rows(4, parts.NewSection(words.Say("print.paper")), parts.Line(0, p.paper, parts.Spring())))
}

// tastersHelp says what is on the tasters' papers.
func (p *papersDialog) tastersHelp() string {
	if p.seat != 0 {
		return "tastings.papers.seat.help"
	}
	return "tastings.papers.tasters.help"
}

// kitchen is what the run sheet and the shopping list need to know.
func (p *papersDialog) kitchen() fyne.CanvasObject {
	top, a, b, shop := parts.NewForm(), parts.NewForm(), parts.NewForm(), parts.NewForm()
	add := func(f *parts.Form, name, hint, unit, help string, width float32) {
		e := parts.NewEntry("", hint, nil)
		e.Width = width
		p.entries[name] = e
		p.w.pin("papers."+name, e)
		p.rows[name] = f.Row(words.Say("tastings.papers."+name), e, unit, help)
	}
	add(top, "vessel", words.Say("tastings.papers.vessel.hint"), "", "", 0)
	add(a, sheets.PapersHeatField, "", "°C", "", 70)
	add(a, sheets.PapersRestField, "", "min", words.Say("tastings.papers.rest.help"), 70)
	add(b, sheets.PapersPreheatField, "15", "min", "", 70)
	add(b, sheets.PapersPerCupField, "0.5", "min", "", 70)
	add(b, sheets.PapersWaveField, "", "", words.Say("tastings.papers.wave.help"), 70)
	p.whole = parts.NewCheck(words.Say("tastings.papers.whole"), false, func(bool) { p.shop() })
	hand := parts.NewTextArea("", words.Say("tastings.papers.hand.hint"), 2, nil)
	hand.OnChanged = func(string) { p.shop() }
	p.entries[sheets.PapersHandField] = hand
	p.w.pin("papers.hand", hand)
	p.rows[sheets.PapersHandField] = shop.Row(words.Say("tastings.papers.hand"), hand, "", words.Say("tastings.papers.hand.help"))
	shop.Row("", p.whole, "", "")
	p.list = parts.NewMatrix()
	p.list.Whole, p.list.WholeRow, p.list.Stretch = true, true, true
	p.w.pin("papers.list", p.list)
	return parts.Rows(parts.GapSmall,
		parts.NewSection(words.Say("tastings.papers.cooking")), top, parts.Columns(parts.GapLarge, []float32{1, 1}, a, b),
		parts.NewSection(words.Say("papers.shopping.head")), shop, parts.NewCaption(words.Say("papers.shopping.note")), parts.NewTableCard("", "", p.list))
}

// shop works the shopping list out from what is in the house; a line that cannot
// be read yet leaves the list as it was.
func (p *papersDialog) shop() {
	ask, faults := sheets.ReadPapers(sheets.PapersFields{OnHand: p.entries[sheets.PapersHandField].Text, Whole: p.whole.On()})
	if faults[sheets.PapersHandField] != "" {
		return
	}
	id := p.t.ID
	desk.Background(p.w.desk, "shopping", func(_ context.Context, b *recipes.Book) sheets.Sheet {
		t := b.Tasting(id)
		if t == nil {
			return sheets.Shopping(nil)
		}
		return sheets.Shopping(manuscript.ShoppingOf(b, t, nutrition.In(b), ask))
	}, func(s sheets.Sheet) {
		d := matrixOf(s)
		d.Empty = words.Say("tastings.papers.list.none")
		p.list.SetData(d)
	})
}

func (p *papersDialog) read() (manuscript.PapersAsk, bool) {
	e := func(name string) string { return p.entries[name].Text }
	ask, faults := sheets.ReadPapers(sheets.PapersFields{
		Vessel: e("vessel"), Heat: e(sheets.PapersHeatField), Preheat: e(sheets.PapersPreheatField), Rest: e(sheets.PapersRestField),
		PerCup: e(sheets.PapersPerCupField), PerWave: e(sheets.PapersWaveField), OnHand: e(sheets.PapersHandField), Whole: p.whole.On(),
	})
	if p.seat != 0 {
		ask.Seats = []int{p.seat}
	}
	for _, part := range manuscript.Parts() {
		if p.boxes[part].On() {
			ask.Parts = append(ask.Parts, part)
		}
	}
	for name, row := range p.rows {
		row.SetError(faults[name])
	}
	return ask, len(faults) == 0
}

// done makes the papers beside the window, then asks where the file goes.
func (p *papersDialog) done() bool {
	ask, fine := p.read()
	if !fine {
		return false
	}
	if len(ask.Parts) == 0 {
		p.refuse(words.Say("tastings.papers.none"))
		return false
	}
	key := p.paper.Key()
	p.w.app.Preferences().SetString(prefPaper, key)
	type outcome struct {
		pdfs []manuscript.File
		err  error
	}
	id := p.t.ID
	p.dialog.SetConfirmEnabled(false)
	desk.Background(p.w.desk, "papers", func(_ context.Context, b *recipes.Book) outcome {
		t := b.Tasting(id)
		if t == nil {
			return outcome{err: problem.New("", words.Say("error.tasting-gone"), "")}
		}
		made, err := manuscript.PapersOf(b, t, nutrition.In(b), ask)
		if err != nil {
			return outcome{err: err}
		}
		pdfs, err := manuscript.Papers(made, papers[key])
		return outcome{pdfs, err}
	}, func(o outcome) {
		p.dialog.SetConfirmEnabled(true)
		if o.err != nil {
			p.refuse(o.err.Error())
			return
		}
		p.dialog.Close() // before the next opens: each gives the keys back to the one before
		p.w.savePapers(p.t, o.pdfs)
	})
	return false
}

func (p *papersDialog) refuse(why string) {
	p.trouble.SetText(why)
	p.dialog.Fit()
}

// savePapers asks where the papers go and writes them there. Where there are those
// of the kitchen and those for the tasters, each is a file of its own under the name
// chosen, those of the kitchen in a folder of their own.
func (w *Window) savePapers(t *recipes.Tasting, pdfs []manuscript.File) {
	name := words.Say("tastings.papers.name", t.Date)
	if len(pdfs) == 1 {
		name = pdfs[0].Reader.FileName(name)
	}
	w.chooseFile(fileWish{
		title: words.Say("print.save"), ok: words.Say("print.save.ok"), name: name, endings: []string{".pdf"}, save: true,
		then: func(path string) {
			ending := filepath.Ext(path)
			base := strings.TrimSuffix(filepath.Base(path), ending)
			var files []desk.ExportFile
			for _, f := range pdfs {
				name := base
				if len(pdfs) > 1 {
					name = f.Reader.FileName(base)
					if f.Reader == manuscript.ForKitchen {
						name = manuscript.KitchenFolder + name
					}
				}
				files = append(files, desk.ExportFile{Name: name + ending, Write: func(out io.Writer) error {
					_, err := io.Copy(out, bytes.NewReader(f.PDF))
					return err
				}})
			}
			w.export(filepath.Dir(path), files)
		},
	})
}
