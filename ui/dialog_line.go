package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// lineDialog is everything one ingredient's figures rest on, with fields to put
// it right.
type lineDialog struct {
	w                  *Window
	x                  *sheets.Bench
	column             int
	line               *recipes.Line
	dialog             *parts.Dialog
	left               *fyne.Container // the fields, laid out again when some come or go
	food, grams, eaten *parts.Entry
	asBought           *parts.Check
	state              *parts.Picker
	cooked             *techniqueField
	bath               *bathFields
	rows               map[string]*parts.FormRow
	picked             *food.Food // chosen from the list, nil for the food it has
	named              string     // what the food field said at first
	off                *offList   // nil where nothing can be taken off
	right              *fyne.Container
}

// lineDetails opens an ingredient of the original, or of a version when v is
// given.
func (w *Window) lineDetails(l *recipes.Line, v *recipes.Version) {
	x := sheets.NewBench(w.book(), w.recipe())
	i := 0
	if v != nil {
		i = x.ColumnOf(v.ID)
	}
	facts, ok := x.LineFacts(l.ID, i)
	if !ok {
		return
	}
	d := &lineDialog{w: w, x: x, column: i, line: l, rows: map[string]*parts.FormRow{}}
	d.left = parts.Rows(parts.GapMedium)
	left := d.left
	form := d.form(facts)
	if sheets.CanTakeOff(w.recipe(), l) {
		d.off = newOffList(d)
	}
	poured := d.off != nil && d.off.picked != nil // it asks about fat poured off: that comes first
	if poured {
		left.Add(d.off.view)
	}
	left.Add(form)
	if w.book().Food(l.Food) != nil {
		left.Add(d.relinkButton())
	}
	if d.off != nil && !poured {
		left.Add(d.off.view)
	}
	if w.book().Food(l.Food) != nil {
		left.Add(newPriceFields(w, l.Food).view)
	}
	left.Add(parts.NewSection(words.Say("foods.allergens")))
	left.Add(parts.NewText(facts.Allergens))
	d.right = container.New(stack{}, d.counted(facts))
	body := parts.Columns(20, []float32{1, 1.15}, parts.Scrolled(parts.Pad(2, 12, 2, 2, left)), d.right)
	first := d.grams
	if poured { // its weight is what is missing
		first = d.off.grams
	}
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: facts.Title, First: first, Width: 1080, Height: 660,
		Content: parts.Fill(parts.GapSmall, 1, parts.NewCaption(facts.Caption), body),
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
}

// relinkButton leads to the food's figures in other tables, with what they would
// do.
func (d *lineDialog) relinkButton() fyne.CanvasObject {
	b := parts.NewButton(parts.Plain, "swaps", words.Say("foods.relink"), func() {
		d.dialog.Close()
		d.w.relinkLine(d.line)
	})
	d.w.pin("line.relink", b)
	return parts.Line(0, b)
}

// counted shows how the figures come about: the weights as arithmetic, what
// cooking leaves with its sources, and every nutrient.
func (d *lineDialog) counted(facts sheets.LineFacts) fyne.CanvasObject {
	figures := parts.NewMatrix()
	data := matrixOf(facts.Figures)
	data.Columns[0].Min = 130
	figures.SetData(data)
	figures.Whole = true
	d.w.pin("line.figures", figures)
	rows := parts.Rows(parts.GapMedium, parts.NewSection(words.Say("line.chain")), factList(facts.Chain))
	if len(facts.Kept) > 0 {
		rows.Add(parts.NewSection(words.Say("line.kept")))
		rows.Add(factList(facts.Kept))
	}
	rows.Add(parts.NewTableCard("", "", figures))
	scroll := parts.Scrolled(parts.Pad(2, 12, 2, 2, rows))
	figures.Outer = scroll
	return scroll
}

// factList sets names beside what they are.
func factList(facts []sheets.Fact) fyne.CanvasObject {
	rows := parts.Rows(3)
	for _, f := range facts {
		rows.Add(parts.Columns(parts.GapSmall, []float32{1, 2}, muted(f.Name), parts.NewText(f.Value)))
	}
	return rows
}

func muted(s string) *parts.Text {
	t := parts.NewText(s)
	t.Role = parts.RoleMuted
	return t
}

func (d *lineDialog) form(facts sheets.LineFacts) *parts.Form {
	l := d.line
	if f := d.w.book().Food(l.Food); f != nil {
		d.named = f.Name
	}
	d.food = parts.NewSuggestEntry(d.named, words.Say("line.food.hint"), d.w.foodSuggestions, d.pick)
	d.grams = parts.NewNumberEntry(sheets.GramsField(l), "", d.typed)
	d.eaten = parts.NewNumberEntry(sheets.ShareField(l.PartEaten), "", d.typed)
	d.asBought = parts.NewCheck(words.Say("line.as-bought"), l.AsBought, func(bool) { d.update() })
	var states []parts.Suggestion
	for _, s := range sheets.States() {
		states = append(states, parts.Suggestion{Key: "s:" + s.Name, Text: s.Value})
	}
	d.state = parts.NewPicker(states, "s:"+string(l.State), "", func(parts.Suggestion) { d.update() })
	form := parts.NewForm()
	d.rows["food"] = form.Row(words.Say("original.food"), d.food, "", facts.Source)
	d.rows["grams"] = form.Row(words.Say("original.grams"), d.grams, "g", facts.From)
	if l.Kind != recipes.TakenOff {
		form.Row("", d.asBought, "", "")
		form.Row(words.Say("line.state"), d.state, "", "")
		d.cookedRow(form)
		d.rows["eaten"] = form.Row(words.Say("line.part-eaten"), d.eaten, "%", "")
		d.bath = newBathFields(d, form)
	}
	for name, o := range map[string]fyne.CanvasObject{"food": d.food, "grams": d.grams, "eaten": d.eaten, "as-bought": d.asBought, "state": d.state} {
		d.w.pin("line."+name, o)
	}
	return form
}

// cookedRow is how the ingredient itself is cooked.
func (d *lineDialog) cookedRow(form *parts.Form) {
	as := words.Say("cooked.as-dish", sheets.MethodText(d.x.Accounts[d.column].Draft.Dish))
	d.cooked = newTechniqueField(d.line.Technique, as, d.update)
	d.w.pin("line.method", d.cooked.method)
	d.w.pin("line.minutes", d.cooked.minutes)
	d.rows["minutes"] = form.Row(words.Say("line.own-cooking"), parts.Stretch(parts.GapSmall, 0, d.cooked.method, d.cooked.minutes), words.Say("cooked.min"), "")
}

func (d *lineDialog) pick(s parts.Suggestion) {
	table, err := d.w.desk.Foods()
	ref, ok := food.ParseRef(s.Key)
	if err == nil && ok {
		d.picked, d.named = table.Get(ref), s.Text
		d.update()
	}
}

// save writes what differs, or says in place what cannot be read.
func (d *lineDialog) save() bool {
	l, faults := d.changed()
	for key, row := range d.rows {
		row.SetError(faults[key])
	}
	if len(faults) > 0 {
		return false
	}
	if verbs := d.verbs(l); len(verbs) > 0 {
		d.w.do(recipes.All(d.did(l), d.w.at.recipe, verbs...))
	}
	return true
}

// did names what saving does.
func (d *lineDialog) did(l *recipes.Line) words.Phrase {
	if d.off != nil && len(d.off.added) == 1 && len(d.off.left) == 0 {
		return words.P("did.take-off", d.off.added[0].line.Text, sheets.LineName(d.line))
	}
	return words.P("did.line", l.Text)
}

// verbs keep what the fields say; none where they say what stands. Fat that is
// taken off is no longer asked about.
func (d *lineDialog) verbs(l *recipes.Line) []recipes.Verb {
	var offs, out []recipes.Verb
	if d.off != nil {
		offs = d.off.verbs()
		if len(d.off.added) > 0 && sheets.Asks(l, recipes.DoubtPoured) {
			l = l.WithoutPouring()
		}
	}
	if l != d.line {
		out = append(out, d.verb(l))
	}
	if d.picked != nil && d.picked.Ref != d.line.Food && l.Name != "" {
		out = append(out, recipes.Remember(d.w.choiceOf(l, d.picked), nil))
	}
	return append(out, offs...)
}

// typed follows a field that was left.
func (d *lineDialog) typed(string) { d.update() }

// update shows at the right what the fields as they stand come to; where one of
// them cannot be read, what stood there stays.
func (d *lineDialog) update() {
	if d.right == nil {
		return // still being built
	}
	l, faults := d.changed()
	if len(faults) > 0 {
		return
	}
	book := d.w.book()
	if verbs := d.verbs(l); len(verbs) > 0 {
		c, err := recipes.All(d.did(l), d.w.at.recipe, verbs...)(book)
		if err == nil {
			book, err = book.With(c)
		}
		if err != nil {
			return // Save says why
		}
	}
	facts, ok := sheets.NewBench(book, book.Recipe(d.w.at.recipe)).LineFacts(d.line.ID, d.column)
	if ok {
		d.right.Objects = []fyne.CanvasObject{d.counted(facts)}
		d.right.Refresh()
	}
}

// changed is the line as the fields say; the line itself when they say the
// same.
func (d *lineDialog) changed() (*recipes.Line, map[string]string) {
	l, faults := d.line, map[string]string{}
	if d.food.Text != d.named {
		faults["food"] = words.Say("line.food.wrong")
	} else if d.picked != nil && d.picked.Ref != l.Food {
		l = keptCooking(d.w.refood(l, d.picked), l)
	}
	if d.grams.Text != sheets.GramsField(d.line) {
		g, ok := reading.Grams(d.grams.Text)
		if !ok {
			faults["grams"] = words.Say("line.grams.wrong")
		}
		l = l.WithGrams(g)
	}
	if d.bath == nil {
		return l, faults
	}
	if d.eaten.Text != sheets.ShareField(d.line.PartEaten) {
		part, ok := reading.Share(d.eaten.Text)
		if !ok {
			faults["eaten"] = words.Say("line.eaten.wrong")
		}
		l = l.WithPartEaten(part)
	}
	if state := food.State(d.state.Key()[len("s:"):]); state != d.line.State {
		l = l.WithState(state)
	}
	if d.asBought.On() != d.line.AsBought {
		l = l.WithAsBought(d.asBought.On())
	}
	return d.cookedChange(l, faults), faults
}

// cookedChange takes the ways of cooking and the shares of a bath.
func (d *lineDialog) cookedChange(l *recipes.Line, faults map[string]string) *recipes.Line {
	t, ok := d.cooked.technique()
	if !ok {
		faults["minutes"] = words.Say("cooked.time.wrong")
	}
	if t != d.line.Technique {
		l = l.WithTechnique(t)
	}
	u, ok := d.bath.uptake()
	if !ok {
		faults["bath"] = words.Say("line.bath.wrong")
	}
	if was := d.line.Uptake; (u == nil) != (was == nil) || u != nil && *u != *was {
		l = l.WithUptake(u)
	}
	return l
}

// keptCooking gives a line that was read anew what its text does not say: how
// it is cooked, the shares of a bath, and what it is taken off.
func keptCooking(again, old *recipes.Line) *recipes.Line {
	c := *again
	c.Kind, c.OffOf = old.Kind, old.OffOf
	if c.Technique.Method == "" {
		c.Technique = old.Technique
	}
	if c.Uptake == nil {
		c.Uptake = old.Uptake
	}
	return &c
}

// verb changes the original's line, or the swap that brings the line.
func (d *lineDialog) verb(l *recipes.Line) recipes.Verb {
	var foods []*food.Food
	if d.picked != nil {
		foods = append(foods, d.picked)
	}
	r := d.w.recipe()
	if r.Line(l.ID) == nil {
		for _, s := range d.w.book().Swaps(r.ID) {
			if c := withLine(s, l); c != nil {
				return recipes.EditSwap(c, foods)
			}
		}
	}
	return recipes.SetLine(r.ID, l, foods)
}

// withLine is a swap with one of the lines it brings replaced; nil when it
// brings no such line.
func withLine(s *recipes.Swap, l *recipes.Line) *recipes.Swap {
	c := *s
	c.Ops = append([]recipes.Op(nil), s.Ops...)
	for i, o := range c.Ops {
		for k, old := range o.Lines {
			if old.ID == l.ID {
				c.Ops[i].Lines = append([]*recipes.Line(nil), o.Lines...)
				c.Ops[i].Lines[k] = l
				return &c
			}
		}
	}
	return nil
}
