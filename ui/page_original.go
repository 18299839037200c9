package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// originalPage is where the dish as it was is looked over and put right: what
// is in doubt first, then every ingredient and step.
type originalPage struct {
	w        *Window
	doubts   *fyne.Container
	scroll   *container.Scroll
	side     fyne.CanvasObject
	table    *parts.Matrix
	steps    *parts.Matrix
	servings *parts.Entry
	serves   *parts.Text
	cooked   *techniqueField
	offer    *parts.Button // the way of cooking that the method names
	offered  recipes.Technique
	top      *fyne.Container
	more     *parts.Button
	care     *parts.Text // the dish's cautions
	page     *fyne.Container
	add      *parts.Entry
	step     *parts.Entry
	lines    []recipes.ID // by row of the table, "" for headings
	columns  []int        // of the sheet, by column of the table after the first
	width    float32      // of the table
	stepIDs  []recipes.ID
}

func newOriginalPage(w *Window) page { return &originalPage{w: w} }

func (p *originalPage) build() fyne.CanvasObject {
	p.doubts = parts.Rows(parts.GapMedium)
	p.scroll = parts.Scrolled(parts.Pad(0, 10, 0, 0, p.doubts))
	p.side = parts.Fill(parts.GapSmall, 1, parts.NewSection(words.Say("doubts.title")), p.scroll)
	p.table = parts.NewMatrix()
	p.table.OnEdit = p.edit
	p.table.OnPick = p.pick
	p.table.Suggest = p.suggest
	p.table.OnDelete = func(row, _ int) { p.removeLine(row) }
	p.table.OnActivate = func(row, _ int) { p.details(row) }
	p.w.pin("original.table", p.table)
	p.steps = parts.NewMatrix()
	p.steps.OnEdit = p.editStep
	p.steps.OnActivate = func(row, _ int) { // its number is not to be typed over: its words are
		p.steps.Select(row, 1)
		p.steps.EditSelected()
	}
	p.w.pin("original.steps", p.steps)
	ingredients := told(parts.NewTableCard("", "", p.table), p.fit)
	method := parts.NewTableCard("", "", p.steps)
	p.add = parts.NewEntry("", words.Say("original.add.hint"), nil)
	p.add.OnSubmitted = p.addLine
	p.w.pin("original.add", p.add)
	p.step = parts.NewEntry("", words.Say("original.add-step.hint"), nil)
	p.step.OnSubmitted = p.addStep
	sub := parts.NewButton(parts.Quiet, "recipes", words.Say("sub.add"), func() { p.w.subRecipe(nil) })
	p.w.pin("original.sub", sub)
	adding := parts.Columns(parts.GapMedium, []float32{1, 0.6}, parts.Stretch(parts.GapSmall, 0, p.add, sub), p.step)
	p.care = parts.NewCaption("")
	p.page = parts.Fill(parts.GapSmall, 2, p.head(), p.care, parts.Columns(parts.GapMedium, []float32{1}, split(ingredients, method)), adding)
	return container.New(sideLayout{}, p.page, p.side)
}

// head holds the servings that divide the original.
func (p *originalPage) head() fyne.CanvasObject {
	p.servings = parts.NewNumberEntry("", "", p.setServings)
	p.servings.Width = 72
	p.w.pin("original.servings", p.servings)
	p.serves = parts.NewCaption("")
	p.cooked = newTechniqueField(recipes.Technique{}, "", p.setCooked)
	p.w.pin("original.method", p.cooked.method)
	p.w.pin("original.minutes", p.cooked.minutes)
	p.more = parts.NewButton(parts.Plain, "more", words.Say("original.more"), func() { parts.ShowMenuUnder(p.more, p.w.originalItems()...) })
	p.w.pin("original.more", p.more)
	p.offer = parts.NewButton(parts.Plain, "assumed", "", func() { p.w.do(recipes.SetTechnique(p.w.at.recipe, p.offered)) })
	p.w.pin("original.offer", p.offer)
	p.top = parts.Flow(parts.GapMedium,
		parts.Line(parts.GapSmall, parts.NewText(words.Say("original.servings")), p.servings, p.serves),
		parts.Line(parts.GapSmall, parts.NewText(words.Say("original.cooked")), parts.Sized(170, 0, p.cooked.method), p.cooked.minutes, parts.NewCaption(words.Say("cooked.min"))),
		p.offer, p.more)
	return p.top
}

// showOffer offers the way of cooking that the method's steps name, while none
// is stated.
func (p *originalPage) showOffer(r *recipes.Recipe) {
	var steps []string
	for _, s := range r.Steps {
		steps = append(steps, s.Text)
	}
	t, said, ok := reading.CookedIn(steps)
	ok = ok && r.Dish.Method == ""
	if ok {
		p.offered = t
		p.offer.SetText(words.Say("cooked.offer", sheets.MethodText(t)))
		p.offer.SetTip(words.Say("cooked.offer.tip", said))
	}
	if p.offer.Visible() != ok {
		visible(p.offer, ok)
		p.page.Refresh()
	}
}

// setCooked keeps how the original is cooked.
func (p *originalPage) setCooked() {
	r := p.w.recipe()
	t, ok := p.cooked.technique()
	switch {
	case !ok:
		p.w.problem(sheets.Wrongly("original.minutes.wrong", p.cooked.minutes.Text))
		p.cooked.set(r.Dish)
	case t != r.Dish:
		p.w.do(recipes.SetTechnique(r.ID, t))
	}
}

func (p *originalPage) show() {
	r := p.w.recipe()
	x := sheets.NewBench(p.w.book(), r)
	p.showLines(x)
	steps := sheets.Steps(r)
	p.stepIDs = keysOf(steps)
	p.steps.SetData(matrixOf(steps))
	p.servings.Set(words.Trim(r.Servings, 2))
	p.serves.SetText(sheets.ServesMore(r))
	p.cooked.set(r.Dish)
	p.showOffer(r)
	p.showCare(x)
	p.showDoubts(r)
}

// showLines fills the table with the columns it has room for.
func (p *originalPage) showLines(x *sheets.Bench) {
	s := x.Ingredients()
	p.lines = keysOf(s)
	p.columns = s.OrigColumns(p.width)
	d := matrixOf(s.Only(p.columns))
	if len(p.columns) < len(s.Columns) { // little room: words wrap sooner
		d.Columns[0].Min, d.Columns[0].Max = 140, 190
		if slices.Contains(p.columns, sheets.OrigEaten) {
			d.Columns[1+slices.Index(p.columns, sheets.OrigFood)].Max = 116
		}
	}
	indentOff(x, d)
	p.table.SetData(d)
}

// fit lays the ingredients out for another width of their table.
func (p *originalPage) fit(width float32) {
	if width /= p.w.factor; width == p.width {
		return
	}
	p.width = width
	if r := p.w.recipe(); r != nil && p.lines != nil {
		x := sheets.NewBench(p.w.book(), r)
		if !slices.Equal(p.columns, x.Ingredients().OrigColumns(width)) {
			p.showLines(x)
		}
	}
}

// column is the sheet's of a column of the table, -1 for the ingredient itself.
func (p *originalPage) column(col int) int {
	if col < 1 || col > len(p.columns) {
		return -1
	}
	return p.columns[col-1]
}

// showCare says the dish's cautions, once, in a line above its ingredients.
func (p *originalPage) showCare(x *sheets.Bench) {
	now := x.CautionLine(0)
	if now == p.care.Text() {
		return
	}
	p.care.SetText(now)
	visible(p.care, now != "")
	p.page.Refresh()
}

// keysOf lists what each row stands for; headings stand for nothing.
func keysOf(s sheets.Sheet) []recipes.ID {
	out := make([]recipes.ID, len(s.Rows))
	for i, r := range s.Rows {
		if !r.Band {
			out[i] = recipes.ID(r.Key)
		}
	}
	return out
}

func (p *originalPage) line(row int) *recipes.Line {
	if row < 0 || row >= len(p.lines) || p.lines[row] == "" {
		return nil
	}
	return p.w.recipe().Line(p.lines[row])
}

func (p *originalPage) setServings(text string) {
	n, ok := reading.Number(text)
	if !ok {
		p.w.problem(sheets.Wrongly("original.servings.wrong", text))
		p.show()
		return
	}
	p.w.do(recipes.SetServings(p.w.at.recipe, n), func(ok bool) {
		if !ok {
			p.show()
		}
	})
}

// edit takes what was typed over a field of an ingredient; column 0 is its text.
func (p *originalPage) edit(row, col int, text string) {
	l := p.line(row)
	if l == nil {
		return
	}
	switch p.column(col) {
	case -1:
		p.rewrite(l, text)
	case sheets.OrigGrams:
		p.weigh(l, text)
	case sheets.OrigEaten:
		share, ok := reading.Share(text)
		if !ok {
			p.w.problem(sheets.Wrongly("original.eaten.wrong", text))
			return
		}
		p.set(l.WithPartEaten(share))
	case sheets.OrigFood:
		p.w.problem(sheets.Wrongly("original.food.pick", text))
	}
}

// rewrite reads a line anew from its changed text; an emptied one goes.
func (p *originalPage) rewrite(l *recipes.Line, text string) {
	if text == "" {
		p.w.do(recipes.RemoveLine(p.w.at.recipe, l.ID))
		return
	}
	again, foods, err := p.w.readLine(text, l.Section)
	if err != nil {
		p.w.problem(err)
		return
	}
	again = keptCooking(again, l)
	again.ID = l.ID
	p.w.do(recipes.SetLine(p.w.at.recipe, again, foods))
}

func (p *originalPage) weigh(l *recipes.Line, text string) {
	grams, ok := reading.Grams(text)
	if !ok {
		p.w.problem(sheets.Wrongly("original.grams.wrong", text))
		return
	}
	p.set(sheets.Resized(p.w.book(), l, grams))
}

func (p *originalPage) set(l *recipes.Line) { p.w.do(recipes.SetLine(p.w.at.recipe, l, nil)) }

// suggest completes the name of a food in the food column.
func (p *originalPage) suggest(_, col int, typed string) []parts.Suggestion {
	if p.column(col) != sheets.OrigFood {
		return nil
	}
	return p.w.foodSuggestions(typed)
}

func (p *originalPage) pick(row, col int, s parts.Suggestion) {
	if l := p.line(row); l != nil && p.column(col) == sheets.OrigFood {
		p.w.chooseFood(l, s.Key)
	}
}

func (p *originalPage) removeLine(row int) {
	if l := p.line(row); l != nil {
		p.w.do(recipes.RemoveLine(p.w.at.recipe, l.ID))
	}
}

func (p *originalPage) details(row int) {
	switch l := p.line(row); {
	case l == nil:
	case l.Sub != nil:
		p.w.subRecipe(l)
	default:
		p.w.lineDetails(l, nil)
	}
}

func (p *originalPage) addLine(text string) {
	if text == "" {
		return
	}
	l, foods, err := p.w.readLine(text, lastSection(p.w.recipe()))
	if err != nil {
		p.w.problem(err)
		return
	}
	l.ID = p.w.newID()
	p.add.Set("")
	p.w.do(recipes.AddLine(p.w.at.recipe, l, "end", foods))
}

func lastSection(r *recipes.Recipe) string {
	if n := len(r.Lines); n > 0 {
		return r.Lines[n-1].Section
	}
	return ""
}

func (p *originalPage) addStep(text string) {
	if text != "" {
		p.step.Set("")
		p.w.do(recipes.AddStep(p.w.at.recipe, &recipes.Step{ID: p.w.newID(), Text: text}, ""))
	}
}

func (p *originalPage) editStep(row, _ int, text string) {
	if row >= 0 && row < len(p.stepIDs) {
		p.w.do(recipes.SetStep(p.w.at.recipe, p.stepIDs[row], text))
	}
}

// foodSuggestions searches the table as the cook types.
func (w *Window) foodSuggestions(typed string) []parts.Suggestion {
	table, err := w.desk.Foods()
	if err != nil || typed == "" {
		return nil
	}
	var out []parts.Suggestion
	for _, h := range table.Search(typed, 8) {
		out = append(out, parts.Suggestion{Text: h.Food.Name, Detail: sheets.FoodLine(h.Food), Key: h.Food.Ref.String()})
	}
	return out
}

// chooseFood pins a food to a line of the original and remembers it for the
// ingredient's name.
func (w *Window) chooseFood(l *recipes.Line, key string) {
	ref, ok := food.ParseRef(key)
	table, err := w.desk.Foods()
	if !ok || err != nil {
		return
	}
	f := table.Get(ref)
	if f == nil {
		return
	}
	w.do(recipes.All(words.P("did.food-chosen", f.Name, sheets.LineName(l)), w.at.recipe,
		recipes.SetLine(w.at.recipe, w.refood(l, f), []*food.Food{f}),
		recipes.Remember(w.choiceOf(l, f), nil)))
}
