package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// showDoubts lists what is in doubt, what could move most first, and folds the
// small things into one card. The column goes when nothing is left.
func (p *originalPage) showDoubts(r *recipes.Recipe) {
	p.doubts.Objects = nil
	table, err := p.w.desk.Foods()
	if err != nil {
		p.w.problem(err)
		return
	}
	var small []recipes.ID
	for _, d := range reading.Doubtful(r.Lines, table) {
		if d.Small {
			small = append(small, d.Line.ID)
			continue
		}
		p.doubts.Add(p.doubtCard(d))
	}
	if len(small) > 0 {
		accept := parts.NewButton(parts.Quiet, "check", words.Say("doubts.small.accept"), func() {
			p.w.do(recipes.SettleLines(r.ID, small))
		})
		p.w.pin("doubts.small", accept)
		p.doubts.Add(parts.NewCard(words.Say("doubts.small", len(small)), sheets.Names(r, small), accept))
	}
	visible(p.side, len(p.doubts.Objects) > 0)
	p.doubts.Refresh()
	p.w.built[pageRecipe].Refresh()
}

// doubtCard asks about one line: the likeliest answers as buttons, another
// food or a weight to type, or that it is right as it is.
func (p *originalPage) doubtCard(d reading.DoubtRow) fyne.CanvasObject {
	l := d.Line
	field := parts.NewSuggestEntry("", words.Say("doubts.food.hint"), p.w.foodSuggestions, func(s parts.Suggestion) { p.w.chooseFood(l, s.Key) })
	weight := parts.NewEntry("", words.Say("doubts.grams.hint"), func(text string) { p.weigh(l, text) })
	weight.Width = 110
	right := parts.NewButton(parts.Quiet, "check", words.Say("doubts.right"), func() { p.accept(l) })
	p.w.pin("doubt.food:"+l.Text, field)
	p.w.pin("doubt.grams:"+l.Text, weight)
	p.w.pin("doubt.right:"+l.Text, right)
	rows := []fyne.CanvasObject{parts.NewText(sheets.DoubtText(l))}
	rows = append(rows, p.states(l)...)
	rows = append(rows, p.poured(l)...)
	rows = append(rows, p.salted(l)...)
	rows = append(rows, p.answers(l)...)
	rows = append(rows, parts.Stretch(parts.GapSmall, 0, field, weight), parts.Line(parts.GapSmall, parts.Spring(), right))
	return parts.NewCard(l.Text, sheets.Taken(l, p.w.book().Food(l.Food)), parts.Rows(parts.GapSmall, rows...))
}

// answers are the other foods the reading thought of, one button each.
func (p *originalPage) answers(l *recipes.Line) []fyne.CanvasObject {
	table, err := p.w.desk.Foods()
	if err != nil {
		return nil
	}
	var out []fyne.CanvasObject
	_, _, others := table.Match(l.Name)
	for i, h := range others {
		if i == 3 {
			break
		}
		key := h.Food.Ref.String()
		b := parts.NewButton(parts.Plain, "foods", sheets.FoodAnswer(h.Food), func() { p.w.chooseFood(l, key) })
		b.Short = true
		out = append(out, b)
	}
	return out
}

// states are the answers to "weighed raw, dry or cooked?", one button each: the
// line is read again as if it said so.
func (p *originalPage) states(l *recipes.Line) []fyne.CanvasObject {
	if !sheets.Asks(l, recipes.DoubtState) && !sheets.Asks(l, recipes.DoubtCooked) {
		return nil
	}
	var buttons []fyne.CanvasObject
	for _, s := range sheets.StatesOf(p.w.book().Food(l.Food)) {
		b := parts.NewButton(parts.Quiet, "", words.Say("state."+string(s)), func() { p.weighed(l, s) })
		p.w.pin("doubt."+string(s)+":"+l.Text, b)
		buttons = append(buttons, b)
	}
	return []fyne.CanvasObject{parts.Flow(parts.GapSmall, buttons...)}
}

// poured leads to where fat that is poured off is taken off, with the fat of
// such meat chosen already.
func (p *originalPage) poured(l *recipes.Line) []fyne.CanvasObject {
	if !sheets.Asks(l, recipes.DoubtPoured) || !sheets.CanTakeOff(p.w.recipe(), l) {
		return nil
	}
	b := parts.NewButton(parts.Quiet, "remove", words.Say("doubts.poured"), func() { p.w.lineDetails(l, nil) })
	p.w.pin("doubt.poured:"+l.Text, b)
	return []fyne.CanvasObject{parts.Line(0, b)}
}

// salted offers the salt of the water it is boiled in as an ingredient of its own.
func (p *originalPage) salted(l *recipes.Line) []fyne.CanvasObject {
	if !sheets.Asks(l, recipes.DoubtSalted) {
		return nil
	}
	b := parts.NewButton(parts.Quiet, "add", words.Say("doubts.salted"), func() {
		salt, foods, err := p.w.readLine(reading.SaltOfWater(l), l.Section)
		if err != nil {
			p.w.problem(err)
			return
		}
		salt.ID = p.w.newID()
		p.w.do(recipes.All(words.P("did.add-line", salt.Text), p.w.at.recipe,
			recipes.SetLine(p.w.at.recipe, l.WithoutSalted(), nil), recipes.AddLine(p.w.at.recipe, salt, l.ID, foods)))
	})
	p.w.pin("doubt.salted:"+l.Text, b)
	return []fyne.CanvasObject{parts.Line(0, b)}
}

// weighed takes the state a line was weighed in: where the table has the food
// in that state, its row is taken.
func (p *originalPage) weighed(l *recipes.Line, s food.State) {
	table, err := p.w.desk.Foods()
	if err != nil {
		p.w.problem(err)
		return
	}
	best, _, _ := table.Match(string(s) + " " + l.Name)
	if best.Food == nil || best.Food.State != s {
		p.set(l.WithState(s))
		return
	}
	p.w.do(recipes.SetLine(p.w.at.recipe, p.w.refood(l, best.Food).WithFood(best.Food).WithState(s), []*food.Food{best.Food}))
}

// accept settles a line as it stands and remembers its food for the next
// recipe.
func (p *originalPage) accept(l *recipes.Line) {
	verbs := []recipes.Verb{recipes.SettleLines(p.w.at.recipe, []recipes.ID{l.ID})}
	if f := p.w.book().Food(l.Food); f != nil && l.Name != "" {
		verbs = append(verbs, recipes.Remember(p.w.choiceOf(l, f), nil))
	}
	p.w.do(recipes.All(words.P("did.accepted", sheets.LineName(l)), p.w.at.recipe, verbs...))
}
