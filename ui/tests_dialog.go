package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// testDialog writes a test down: what was weighed, how it was cooked, how it
// went.
type testDialog struct {
	w       *Window
	bench   *sheets.Bench
	base    *recipes.Batch
	fresh   bool // to be added, not changed
	today   time.Time
	entries map[string]*parts.Entry
	rows    map[string]*parts.FormRow
	version *parts.Picker
	table   *parts.Matrix
	lines   []recipes.ID // by row of the table
	typed   map[recipes.ID]string
	faults  sheets.Faults
	trouble *parts.Text
	right   *fyne.Container // laid out again when trouble comes or goes
}

// addTest starts the form of a new test of the recipe in sight, dated today.
func (w *Window) addTest() {
	r := w.recipe()
	if w.at.page != pageRecipe || r == nil {
		return
	}
	t := &recipes.Batch{ID: w.newID(), Recipe: r.ID, Date: sheets.Today(w.now())}
	t.Version, t.Cook = sheets.NextTestOf(w.book(), r.ID, w.tests().chosen)
	w.testForm(t, true)
}

// editTest opens the form of a test that is there.
func (w *Window) editTest(t *recipes.Batch) {
	if t != nil {
		w.testForm(t, false)
	}
}

// now is the cook's own time of day.
func (w *Window) now() time.Time { return time.Now() }

func (w *Window) testForm(t *recipes.Batch, fresh bool) {
	d := &testDialog{
		w: w, base: t, fresh: fresh, today: w.now(), bench: sheets.NewBench(w.book(), w.recipe()),
		entries: map[string]*parts.Entry{}, rows: map[string]*parts.FormRow{},
	}
	f := sheets.TestFieldsOf(t)
	d.typed = f.AsCooked
	left := parts.Scrolled(parts.Pad(2, 14, 2, 2, d.form(f)))
	table, notes := d.asCooked(), d.notes(f)
	d.right = parts.Fill(parts.GapSmall, 1, parts.NewCaption(words.Say("tests.as-cooked.caption")), table, d.trouble, notes)
	title := words.Say("tests.add")
	if !fresh {
		title = sheets.Capital(sheets.TestName(w.book(), t))
	}
	d.fill()
	d.table.Select(0, 2)
	d.soFar()
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: parts.Columns(20, []float32{1, 1.3}, left, d.right), First: d.entries["full"],
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), Width: 1040, Height: 690, OnOK: d.save,
	})
}

// testField is a field of the form: its name among faults, the key of its
// label, its hint and help.
type testField struct{ name, label, hint, help string }

// form holds what was weighed and how it was cooked.
func (d *testDialog) form(f sheets.TestFields) *parts.Form {
	form := parts.NewForm()
	add := func(x testField, text string) {
		e := parts.NewEntry(text, x.hint, func(string) { d.soFar() })
		e.Width = 150
		d.entries[x.name] = e
		d.rows[x.name] = form.Row(words.Say(x.label), e, "", x.help)
		d.w.pin("test."+x.name, e)
	}
	add(testField{"date", "tests.date", "", ""}, f.Date)
	if d.fresh {
		d.version = parts.NewPicker(d.versions(), "v:"+string(f.Version), "", func(parts.Suggestion) { d.fill(); d.soFar() })
		form.Row(words.Say("tests.version"), d.version, "", "")
		d.w.pin("test.version", d.version)
	}
	add(testField{"cook", "tests.cook", "", ""}, f.Cook)
	add(testField{"full", "tests.full", words.Say("tests.weight.hint"), ""}, f.FullDish)
	add(testField{"dish", "tests.dish", words.Say("tests.weight.hint"), ""}, f.Dish)
	add(testField{"left", "tests.left", words.Say("tests.weight.hint"), ""}, f.LeftOver)
	add(testField{"servings", "tests.servings", "", words.Say("tests.so-far.help")}, f.Servings)
	add(testField{"heat", "tests.temperature", words.Say("tests.heat.hint"), ""}, f.Heat)
	add(testField{"minutes", "tests.minutes.label", "", ""}, f.Minutes)
	return form
}

func (d *testDialog) versions() []parts.Suggestion {
	var out []parts.Suggestion
	for i, v := range d.bench.Versions {
		key := "v:"
		if v != nil {
			key += string(v.ID)
		}
		out = append(out, parts.Suggestion{Key: key, Text: d.bench.ColumnName(i)})
	}
	return out
}

// asCooked is the table of what was weighed of each ingredient.
func (d *testDialog) asCooked() fyne.CanvasObject {
	d.table = parts.NewMatrix()
	d.table.OnEdit = func(row, col int, text string) {
		if row >= 0 && row < len(d.lines) && col == 2 {
			d.typed[d.lines[row]] = text
			delete(d.faults, sheets.AsCookedFault(d.lines[row]))
			d.fill()
		}
	}
	d.table.OnActivate = func(row, _ int) { // Enter anywhere in a row goes to its field
		d.table.Select(row, 2)
		d.table.EditSelected()
	}
	d.w.pin("test.as-cooked", d.table)
	d.trouble = parts.NewCaption("")
	d.trouble.SetRole(parts.RoleError)
	d.trouble.Hide()
	return parts.NewTableCard("", "", d.table)
}

// notes are four fields side by side, two and two.
func (d *testDialog) notes(f sheets.TestFields) fyne.CanvasObject {
	area := func(x testField, text string) fyne.CanvasObject {
		e := parts.NewTextArea(text, x.hint, 2, nil)
		d.entries[x.name] = e
		d.w.pin("test."+x.name, e)
		return parts.Rows(2, parts.NewCaption(words.Say(x.label)), e)
	}
	half := []float32{1, 1}
	return parts.Rows(parts.GapSmall,
		parts.Columns(parts.GapMedium, half, area(testField{"notes", "tests.notes", "", ""}, f.Notes), area(testField{"well", "tests.well", "", ""}, f.WentWell)),
		parts.Columns(parts.GapMedium, half, area(testField{"bad", "tests.bad", "", ""}, f.WentBad),
			area(testField{"next", "tests.next", words.Say("tests.next.hint"), ""}, f.NextOne)))
}

// fields is the form as it stands.
func (d *testDialog) fields() sheets.TestFields {
	e := func(name string) string { return d.entries[name].Text }
	return sheets.TestFields{
		Date: e("date"), Cook: e("cook"), FullDish: e("full"), Dish: e("dish"), LeftOver: e("left"), Servings: e("servings"),
		Heat: e("heat"), Minutes: e("minutes"), Notes: e("notes"), WentWell: e("well"), WentBad: e("bad"), NextOne: e("next"),
		Version: d.versionID(), AsCooked: d.typed,
	}
}

func (d *testDialog) versionID() recipes.ID {
	if d.version == nil {
		return d.base.Version
	}
	return recipes.ID(d.version.Key()[len("v:"):])
}

// fill lays out the ingredients of the version chosen; what was typed stays.
func (d *testDialog) fill() {
	s := d.bench.AsCookedForm(sheets.TestFields{Version: d.versionID(), AsCooked: d.typed}, d.faults)
	d.lines = keysOf(s)
	data := matrixOf(s)
	data.Columns[0].Min, data.Columns[0].Max, data.Columns[2].Min = 180, 420, 96
	data.Empty = words.Say("tests.no-ingredients")
	d.table.SetData(data)
}

// soFar says under the weights what they come to.
func (d *testDialog) soFar() {
	said := d.bench.TestSoFar(d.fields(), d.today)
	if said == "" {
		said = words.Say("tests.so-far.help")
	}
	d.rows["servings"].SetHelp(said)
}

// save writes the test, or says in place what cannot be read.
func (d *testDialog) save() bool {
	f := d.fields()
	f.AsCooked = sheets.OnlyLines(f.AsCooked, d.lines, d.base.AsCooked, d.fresh)
	t, faults := sheets.ReadTest(d.base, f, d.today)
	d.faults = faults
	for name, row := range d.rows {
		row.SetError(faults[name])
	}
	wrong := ""
	for _, id := range d.lines {
		if why := faults[sheets.AsCookedFault(id)]; why != "" {
			wrong = why
		}
	}
	d.trouble.SetText(wrong)
	visible(d.trouble, wrong != "")
	d.right.Refresh()
	d.fill()
	if t == nil {
		return false
	}
	if d.fresh {
		d.w.tests().chosen = t.ID
		if d.w.at.tab != tabTests {
			d.w.goTo(place{page: pageRecipe, recipe: t.Recipe, tab: tabTests})
			d.w.tests().chosen = t.ID
		}
		d.w.do(recipes.AddTest(t))
		return true
	}
	if !sheets.SameTest(t, d.base) {
		d.w.do(recipes.EditTest(t))
	}
	return true
}
