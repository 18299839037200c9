package ui

import (
	"strconv"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// relinkDialog gives ingredients another row of figures, after showing both
// rows and what the recipes come to.
type relinkDialog struct {
	w      *Window
	foods  *food.Table
	from   *food.Food
	uses   []sheets.FoodUse // of the row, in the whole workbook
	to     *food.Food
	row    *parts.Entry
	named  string
	where  *parts.Picker
	says   *parts.Text
	rows   *parts.Matrix
	effect *parts.Matrix
	tables *fyne.Container // hidden until a row is chosen
	body   *fyne.Container
	dialog *parts.Dialog
}

// relinkLine asks for other figures for one ingredient.
func (w *Window) relinkLine(l *recipes.Line) {
	if uses := sheets.FoodUses(w.book(), l.Food); len(uses) > 0 {
		w.relinkFood(uses, l.ID)
	}
}

// relinkFood asks for other figures for the ingredients that use a food; line is
// the one chosen at first, "" for all of them. The tables are read off the
// window's thread first.
func (w *Window) relinkFood(uses []sheets.FoodUse, line recipes.ID) {
	w.withFoods(func(foods *food.Table) {
		if from := w.book().Food(uses[0].Line.Food); from != nil {
			d := &relinkDialog{w: w, foods: foods, from: from, uses: uses}
			d.build(line)
			d.open()
		}
	})
}

func (d *relinkDialog) open() {
	d.dialog = parts.ShowDialog(d.w.win, parts.DialogOptions{
		Title: words.Say("foods.relink.title", d.from.Name), Content: d.content(), First: d.row, Width: 1180, Height: 700,
		Confirm: words.Say("foods.relink.ok"), Cancel: words.Say("button.cancel"), OnOK: d.take,
	})
	d.update()
}

func (d *relinkDialog) build(line recipes.ID) {
	d.row = parts.NewSuggestEntry("", words.Say("foods.relink.hint"), d.suggest, d.pick)
	items := []parts.Suggestion{{Key: "all", Text: words.Say("foods.relink.everywhere", len(d.uses))}}
	key := "all"
	for i, u := range d.uses {
		items = append(items, parts.Suggestion{Key: strconv.Itoa(i), Text: words.Say("foods.relink.one", u.Recipe.Title, u.Line.Text)})
		if u.Line.ID == line {
			key = strconv.Itoa(i)
		}
	}
	d.where = parts.NewPicker(items, key, "", func(parts.Suggestion) { d.update() })
	d.where.Width = 420
	d.says = parts.NewCaption(words.Say("foods.relink.pick"))
	list := func() *parts.Matrix {
		m := parts.NewMatrix()
		m.WholeRow, m.Stretch = true, true
		return m
	}
	d.rows, d.effect = list(), list()
	d.w.pin("relink.row", d.row)
	d.w.pin("relink.where", d.where)
	d.w.pin("relink.rows", d.rows)
	d.w.pin("relink.effect", d.effect)
}

// content has the fields above and the two tables under them.
func (d *relinkDialog) content() fyne.CanvasObject {
	form := parts.NewForm()
	form.Row(words.Say("foods.relink.row"), d.row, "", "")
	form.Row(words.Say("foods.relink.where"), d.where, "", "")
	same := parts.Flow(parts.GapSmall)
	others := d.sameFood()
	for _, f := range others {
		b := parts.NewButton(parts.Quiet, "", sheets.FoodFrom(f), func() { d.choose(f) })
		d.w.pin("relink.same:"+f.Ref.String(), b)
		same.Add(b)
	}
	note := parts.NewCaption(words.Say("foods.relink.same"))
	switch {
	case sheets.Own(d.from):
		note.SetText(words.Say("foods.relink.own"))
	case len(others) == 0:
		note.SetText(words.Say("foods.relink.no-same"))
	default:
		d.to, d.named = others[0], others[0].Name
		d.row.Set(d.named)
	}
	left := parts.Fill(6, 1, parts.NewSection(words.Say("foods.relink.per-100g")), parts.NewTableCard("", "", d.rows))
	right := parts.Fill(6, 1, parts.NewSection(words.Say("foods.relink.effect")), parts.NewTableCard("", "", d.effect))
	d.tables = parts.Columns(20, []float32{1, 1.72}, left, right)
	d.tables.Hide()
	d.body = parts.Fill(parts.GapMedium, 4, parts.NewText(sheets.FoodSource(d.from)), parts.Rows(6, note, same), form, d.says, d.tables)
	return d.body
}

// sameFood are the rows of the same number in other releases of its table.
func (d *relinkDialog) sameFood() []*food.Food {
	var out []*food.Food
	add := func(source, release string) {
		ref := food.Ref{Source: source, Release: release, Code: d.from.Code}
		if f := d.foods.Get(ref); f != nil && source == d.from.Source && ref != d.from.Ref {
			out = append(out, f)
		}
	}
	for _, r := range d.w.book().Releases() {
		add(r.Source, r.Release)
	}
	if d.w.book().Release(food.StarterSource, food.StarterRelease) == nil {
		add(food.StarterSource, food.StarterRelease)
	}
	return out
}

func (d *relinkDialog) suggest(typed string) []parts.Suggestion {
	var out []parts.Suggestion
	if typed == "" {
		return nil
	}
	for _, h := range d.foods.Search(typed, 8) {
		out = append(out, parts.Suggestion{Text: h.Food.Name, Detail: sheets.FoodFrom(h.Food), Key: h.Food.Ref.String()})
	}
	return out
}

func (d *relinkDialog) pick(s parts.Suggestion) {
	if ref, ok := food.ParseRef(s.Key); ok {
		d.choose(d.foods.Get(ref))
	}
}

func (d *relinkDialog) choose(f *food.Food) {
	if f == nil {
		return
	}
	d.to, d.named = f, f.Name
	d.row.Set(f.Name)
	d.update()
}

// chosen are the uses that get the other row.
func (d *relinkDialog) chosen() []sheets.FoodUse {
	if i, err := strconv.Atoi(d.where.Key()); err == nil && i < len(d.uses) {
		return d.uses[i : i+1]
	}
	return d.uses
}

// update shows both rows and what the recipes come to.
func (d *relinkDialog) update() {
	if d.dialog == nil {
		return
	}
	ok := d.to != nil && d.to.Ref != d.from.Ref
	d.dialog.SetConfirmEnabled(ok)
	if !ok {
		return
	}
	if !d.tables.Visible() {
		d.tables.Show()
		d.body.Refresh()
	}
	rows := matrixOf(sheets.RelinkSheet(d.from, d.to))
	rows.Columns[0].Min, rows.Columns[0].Max = 100, 124
	d.rows.SetData(rows)
	d.says.SetText(sheets.FoodSource(d.to))
	e, err := effectOf(d.w.book(), relink(d.chosen(), d.to), d.chosen())
	if err != nil {
		d.says.SetText(err.Error())
		return
	}
	table := matrixOf(e.Sheet)
	table.Columns[0].Min, table.Columns[0].Max = 100, 140
	table.Empty = words.Say("foods.effect.none")
	d.effect.SetData(table)
}

func (d *relinkDialog) take() bool {
	if d.to == nil || d.to.Ref == d.from.Ref {
		return false
	}
	d.w.do(relink(d.chosen(), d.to))
	return true
}

// relink gives the ingredients of some uses another food; their weights stay.
func relink(uses []sheets.FoodUse, to *food.Food) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		var verbs []recipes.Verb
		recipe := uses[0].Recipe.ID
		lines := map[recipes.ID]bool{}
		for _, u := range uses {
			lines[u.Line.ID] = true
			if u.Recipe.ID != recipe {
				recipe = ""
			}
		}
		was := uses[0].Line.Food
		for _, u := range sheets.FoodUses(b, was) {
			if !lines[u.Line.ID] {
				continue
			}
			l := u.Line.WithFood(to)
			if u.Swap == nil {
				verbs = append(verbs, recipes.SetLine(u.Recipe.ID, l, []*food.Food{to}))
				continue
			}
			verbs = append(verbs, relinkSwap(u, l, to))
		}
		return recipes.All(words.P("did.relink", sheets.FoodFrom(to), to.Name), recipe, verbs...)(b)
	}
}

// relinkSwap changes the line in the swap as it then is: another line of it may
// have been changed just before.
func relinkSwap(u sheets.FoodUse, l *recipes.Line, to *food.Food) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		s := b.Swap(u.Recipe.ID, u.Swap.ID)
		if c := withLine(s, l); c != nil {
			s = c
		}
		return recipes.EditSwap(s, []*food.Food{to})(b)
	}
}
