package ui

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// figureChoice is what a dialog of figures can write: the same dialog wherever
// figures are, in sight or not.
type figureChoice struct {
	title  string
	list   string   // what stands over the names
	names  []string // of what can be ticked
	note   string   // said over the names; "" for none
	marked int      // the one in sight, ticked alone at first; -1: all are
	table  string   // words of the box that writes the table too; "" for none
	rows   desk.ExportFile
	alone  string // words of the box that leaves out all but figures; "" for none

	// make makes the files of what is chosen, beside the window; nil chosen is all.
	make func(b *recipes.Book, wide float64, o book.FigureOptions, chosen []int) ([]book.File, error)
	// apart are the arguments with which what is chosen is printed in another
	// language, one run after another; nil chosen is all.
	apart func(language string, chosen []int) [][]string
	// keep takes of what was printed apart the files that are wanted.
	keep func(name string) bool
}

// figureDialog is a figureChoice being answered.
type figureDialog struct {
	w      *Window
	of     figureChoice
	form   *figureForm
	list   *parts.Matrix
	ticked []bool
	table  *parts.Check // nil: no table
	alone  *parts.Check // nil: no choice
	none   *parts.Text  // says that nothing is ticked
	dialog *parts.Dialog
}

// Size of the dialog, and the share of it that the form has beside the list.
const (
	figuresWide, figuresHigh = 900, 620
	figuresForm              = 1.15
)

// saveFigures asks which figures are saved and how, and writes them.
func (w *Window) saveFigures(of figureChoice) {
	d := &figureDialog{w: w, of: of, ticked: make([]bool, len(of.names)), none: parts.NewCaption("")}
	d.none.SetRole(parts.RoleError)
	d.none.Hide()
	for i := range d.ticked {
		d.ticked[i] = of.marked < 0 || of.marked == i
	}
	var form *parts.Form
	d.form, form = newFigureForm(w)
	content := parts.Columns(parts.GapLarge, []float32{figuresForm, 1}, parts.Scrolled(parts.Pad(0, 12, 0, 0, form)), d.right())
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: of.title, Content: content, First: d.form.folder.entry, Confirm: words.Say("printed.save.ok"), Cancel: words.Say("button.cancel"),
		Width: figuresWide, Height: figuresHigh, OnOK: d.start,
	})
	d.form.folder.again = d.dialog.Confirm
}

// right is the list of what can be ticked, and the boxes under it.
func (d *figureDialog) right() fyne.CanvasObject {
	d.list = parts.NewMatrix()
	d.list.Stretch, d.list.Headless = true, true
	d.list.OnToggle = func(row, _ int) { d.toggle(row) }
	d.list.OnActivate = func(row, _ int) { d.toggle(row) }
	d.fill()
	all := parts.NewButton(parts.Plain, "", words.Say("figures.all"), func() { d.tick(true) })
	none := parts.NewButton(parts.Plain, "", words.Say("figures.none"), func() { d.tick(false) })
	d.w.pin("figures.list", d.list)
	d.w.pin("figures.all", all)
	d.w.pin("figures.no", none)
	over := parts.Rows(4, parts.HeadRow(parts.NewBold(d.of.list), all, none))
	if d.of.note != "" {
		over.Add(parts.NewCaption(d.of.note))
	}
	under := parts.Rows(4, d.none)
	if d.of.table != "" {
		d.table = parts.NewCheck(d.of.table, true, nil)
		d.w.pin("figures.table", d.table)
		under.Add(d.table)
	}
	if d.of.alone != "" {
		d.alone = parts.NewCheck(d.of.alone, false, nil)
		d.w.pin("figures.alone", d.alone)
		under.Add(d.alone)
	}
	return parts.Fill(parts.GapSmall, 1, over, parts.NewTableCard("", "", d.list), under)
}

// fill puts the names with their ticks into the list.
func (d *figureDialog) fill() {
	data := parts.MatrixData{
		Columns: []parts.Column{{Key: "name", Text: true}, {Key: "tick", Align: parts.AlignCentre}}, Empty: words.Say("figures.empty"),
	}
	for i, name := range d.of.names {
		tick := parts.Cell{Tick: parts.TickOff}
		if d.ticked[i] {
			tick.Tick = parts.TickOn
		}
		data.Rows = append(data.Rows, parts.Row{Key: strconv.Itoa(i), Cells: []parts.Cell{{Text: sheets.Capital(name), Wrap: true}, tick}})
	}
	d.list.SetData(data)
}

func (d *figureDialog) toggle(row int) {
	if row >= 0 && row < len(d.ticked) {
		d.ticked[row] = !d.ticked[row]
		d.fill()
	}
}

func (d *figureDialog) tick(on bool) {
	for i := range d.ticked {
		d.ticked[i] = on
	}
	d.fill()
}

// chosen are the places that are ticked, nil for all of them; any says that there
// are some.
func (d *figureDialog) chosen() (places []int, any bool) {
	for i, on := range d.ticked {
		if on {
			places = append(places, i)
		}
	}
	if any = len(places) > 0; len(places) == len(d.ticked) {
		places = nil
	}
	return places, any
}

// start begins to write, or says in place what is wrong.
func (d *figureDialog) start() bool {
	chosen, some := d.chosen()
	numbers := d.table != nil && d.table.On()
	visible(d.none, !some && !numbers)
	d.none.SetText(words.Say("figures.tick"))
	wide, o, ok := d.form.read(some)
	to := ""
	if ok && (some || numbers) {
		to = d.form.folder.where()
	}
	if to == "" {
		return false
	}
	var more []desk.ExportFile
	if numbers {
		more = append(more, d.of.rows)
	}
	d.form.remember()
	alone := d.alone != nil && d.alone.On()
	keep := func(name string) bool { return (!alone || inFolder(name)) && (d.of.keep == nil || d.of.keep(name)) }
	switch code := foreign(d.form.tongue); {
	case !some:
		d.w.export(to, more)
	case code != "":
		runs := d.of.apart(code, chosen)
		for i := range runs {
			runs[i] = append(runs[i], figureArgs(wide, o)...)
		}
		d.w.exportApart(to, runs, keep, more)
	default:
		d.w.exportMade(to, more, keep, func(b *recipes.Book) ([]book.File, error) { return d.of.make(b, wide, o, chosen) })
	}
	return true
}

// exportMade makes files beside the window and exports those whose names keep
// takes, and more with them.
func (w *Window) exportMade(to string, more []desk.ExportFile, keep func(string) bool, make func(b *recipes.Book) ([]book.File, error)) {
	type made struct {
		files []book.File
		err   error
	}
	ctx, stop := context.WithCancel(context.Background())
	work := w.status.StartWork(words.Say("export.working"), words.Say("export.stop"), stop)
	desk.Background(w.desk, "figures", func(_ context.Context, b *recipes.Book) (x made) {
		x.files, x.err = make(b)
		return x
	}, func(x made) {
		work.Done()
		stopped := ctx.Err() != nil
		stop()
		switch {
		case stopped:
			w.status.SetMessage(words.Say("data.stopped"))
		case x.err != nil:
			w.problemDialog(x.err)
		default:
			files := slices.DeleteFunc(exportFiles(x.files), func(f desk.ExportFile) bool { return !keep(f.Name) })
			w.export(to, append(files, more...))
		}
	})
}

// onlyArgs are the arguments that choose figures; none where all are chosen.
func onlyArgs(chosen []int) []string {
	if chosen == nil {
		return nil
	}
	var all []string
	for _, n := range chosen {
		all = append(all, strconv.Itoa(n+1))
	}
	return []string{"--only", strings.Join(all, ",")}
}

// setChoice are the figures of a page of the window to choose from. key is the
// figure in sight, "" for none; ask is how they are had in another language, and
// again makes them of another width, beside the window.
func (w *Window) setChoice(s *sheets.FigureSet, key string, ask sheets.FiguresAsk, again func(wide float64) (*sheets.FigureSet, error)) figureChoice {
	of := figureChoice{list: words.Say("figures.list"), marked: s.At(key)}
	for i := range s.Figures {
		of.names = append(of.names, s.Figures[i].Name)
	}
	folder := desk.FileName(s.Name)
	of.rows = desk.ExportFile{Name: folder + "/" + folder + ".csv", Write: s.WriteRows}
	of.make = func(_ *recipes.Book, wide float64, o book.FigureOptions, chosen []int) ([]book.File, error) {
		x, err := again(wide)
		if err != nil {
			return nil, err
		}
		o.Only = chosen
		files, err := book.FigureFiles(o.Chosen(x.Figures), o)
		return s.Files(files), err
	}
	of.apart = func(language string, chosen []int) [][]string {
		args := []string{"--language", language, "--recipe", string(ask.Recipe), "--figures-of", ask.Of}
		for _, x := range [][2]string{{"--tasting", string(ask.Tasting)}, {"--attribute", ask.Attribute}, {"--nutrient", ask.NutrientKey()}} {
			if x[1] != "" {
				args = append(args, x[0], x[1])
			}
		}
		return [][]string{append(args, onlyArgs(chosen)...)}
	}
	return of
}
