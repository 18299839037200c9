package ui

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// typeOver takes what was typed over the field of a row in column i; picked is
// the food chosen from the list, empty for none. What cannot be read is told in
// the status line and changes nothing.
func (p *versionsPage) typeOver(key string, i int, text, picked string) {
	table, err := p.w.desk.Foods()
	if err != nil {
		p.w.problem(err)
		return
	}
	t := typing{w: p.w, x: p.bench, table: table, opt: p.w.readingOptions(table, "")}
	if ref, ok := food.ParseRef(picked); ok {
		t.picked = table.Get(ref)
	}
	verb, err := t.verb(key, i, strings.TrimSpace(text))
	if err != nil {
		p.w.problem(err)
		return
	}
	if verb != nil {
		p.w.do(verb)
	}
}

// suggest completes the name of a food while an ingredient is typed.
func (p *versionsPage) suggest(row, col int, text string) []parts.Suggestion {
	switch p.bench.KindOf(p.key(row)) {
	case sheets.LineRow, sheets.AddedRow, sheets.AddLineRow:
	default:
		return nil
	}
	if col < 1 {
		return nil
	}
	head := ""
	if at := strings.LastIndex(text, sheets.Plus); at >= 0 {
		at += len(sheets.Plus)
		head, text = text[:at], text[at:]
	}
	table, err := p.w.desk.Foods()
	if err != nil {
		return nil
	}
	before, name, after := reading.Typed(text, p.w.readingOptions(table, "").System)
	if len(name) < 2 {
		return nil
	}
	out := p.w.foodSuggestions(name)
	for i := range out {
		out[i].Text = head + before + out[i].Text + after
	}
	return out
}

// typing turns what was typed over a field into a verb.
type typing struct {
	w      *Window
	x      *sheets.Bench
	table  *food.Table
	opt    reading.Options
	picked *food.Food
}

// verb is nil when nothing is to be done.
func (t typing) verb(key string, i int, text string) (recipes.Verb, error) {
	id, r := recipes.ID(key), t.x.Recipe.ID
	switch t.x.KindOf(key) {
	case sheets.LineRow, sheets.AddedRow:
		if i == 0 {
			return t.inOriginal(id, text)
		}
		return t.inVersion(i, id, text)
	case sheets.StepRow:
		return t.step(i, id, text), nil
	case sheets.AddLineRow:
		return t.addLine(i, text)
	case sheets.AddStepRow:
		if text == "" {
			return nil, nil
		}
		if i == 0 {
			return recipes.AddStep(r, &recipes.Step{ID: t.w.newID(), Text: text}, ""), nil
		}
		return recipes.AddSwap(&recipes.Swap{
			ID: t.w.newID(), Recipe: r, Name: words.Say("versions.swap-step"), Typed: true,
			Ops: []recipes.Op{{Kind: recipes.OpStepAdd, Step: t.lastStep(), Text: text}},
		}, nil, t.x.Versions[i].ID), nil
	}
	return nil, nil
}

func (t typing) lastStep() recipes.ID {
	if n := len(t.x.Recipe.Steps); n > 0 {
		return t.x.Recipe.Steps[n-1].ID
	}
	return ""
}

// read reads text over a line, with the food picked from the list.
func (t typing) read(text string, line *recipes.Line) (*recipes.Line, error) {
	if t.picked != nil {
		return reading.ReadOverWith(text, line, t.picked, t.opt)
	}
	return reading.ReadOver(text, line, t.opt)
}

// inOriginal changes the original's own line.
func (t typing) inOriginal(id recipes.ID, text string) (recipes.Verb, error) {
	line := t.x.Recipe.Line(id)
	if line == nil || text == sheets.Same {
		return nil, nil
	}
	typed, err := t.read(text, sheets.LineNow(t.w.book(), line))
	if err != nil {
		return nil, err
	}
	if typed == nil {
		return recipes.RemoveLine(t.x.Recipe.ID, id), nil
	}
	if typed.Sub != nil {
		typed = sheets.Resized(t.w.book(), line, typed.Grams)
	}
	return recipes.SetLine(t.x.Recipe.ID, typed, t.foods(typed)), nil
}

func (t typing) foods(l *recipes.Line) []*food.Food {
	if l == nil {
		return nil
	}
	return desk.FoodsOf([]*recipes.Line{l}, t.table)
}

// inVersion makes or changes a swap, or goes back to the original.
func (t typing) inVersion(i int, id recipes.ID, text string) (recipes.Verb, error) {
	orig, stands := t.x.Recipe.Line(id), t.x.Stands(i, id)
	if text == sheets.Same || orig != nil && sameText(text, orig) {
		return t.back(i, id), nil
	}
	if len(stands) > 1 {
		return t.overSeveral(i, id, text, stands)
	}
	base := orig
	if len(stands) == 1 {
		base = reading.Scaled(sheets.LineNow(t.w.book(), stands[0].Line), stands[0].Scale, t.opt)
	}
	if base == nil {
		return nil, nil
	}
	typed, err := t.read(text, base)
	if err != nil {
		return nil, err
	}
	if typed != nil && typed.Sub != nil && orig != nil && orig.Sub != nil {
		typed = t.inOwnMeasure(typed, orig)
	}
	over := id
	if len(stands) == 1 && stands[0].Swap != "" && !(orig != nil && typed != nil && typed.Food == orig.Food) {
		over = stands[0].Line.ID
	}
	verb := t.over(i, over, typed)
	if len(stands) == 0 && orig != nil {
		return t.afterBack(i, id, typed, verb), nil
	}
	return verb, nil
}

// inOwnMeasure turns a weight typed over another recipe's part, as that weighs
// today, into the weight the line was written with.
func (t typing) inOwnMeasure(typed, orig *recipes.Line) *recipes.Line {
	c := *typed
	if now := sheets.LineNow(t.w.book(), orig).Grams; now > 0 {
		c.Grams *= orig.Grams / now
	}
	return &c
}

func (t typing) over(i int, line recipes.ID, typed *recipes.Line) recipes.Verb {
	return recipes.TypeOver{
		Recipe: t.x.Recipe.ID, Version: t.x.Versions[i].ID, Line: line, Typed: typed,
		NewSwap: t.w.newID(), Foods: t.foods(typed),
	}.Verb()
}

// sameText tells that the original's own words were typed.
func sameText(text string, l *recipes.Line) bool {
	return strings.EqualFold(text, strings.TrimSpace(l.Text)) || l.Known() && strings.EqualFold(text, words.Grams(l.Grams)+" "+sheets.LineName(l))
}

// back switches off what the version has on that changes the line; nil when
// nothing does.
func (t typing) back(i int, id recipes.ID) recipes.Verb {
	v := t.x.Versions[i]
	verbs := t.off(v, id)
	if len(verbs) == 0 {
		return nil
	}
	name := ""
	if l := t.x.Recipe.Line(id); l != nil {
		name = sheets.LineName(l)
	} else if stands := t.x.Stands(i, id); len(stands) > 0 {
		name = sheets.LineName(stands[0].Line)
	}
	return recipes.All(words.P("did.back", name, v.Letter), t.x.Recipe.ID, verbs...)
}

func (t typing) off(v *recipes.Version, id recipes.ID) []recipes.Verb {
	var out []recipes.Verb
	for _, s := range t.w.book().On(v) {
		if touches(s, id) {
			out = append(out, recipes.Tick(v.Recipe, v.ID, s.ID, false))
		}
	}
	return out
}

// touches tells whether a swap changes a line of the original or adds the line.
func touches(s *recipes.Swap, id recipes.ID) bool {
	for _, o := range s.Ops {
		if o.Line == id {
			return true
		}
		for _, l := range o.Lines {
			if o.Kind == recipes.OpAdd && l.ID == id {
				return true
			}
		}
	}
	return false
}

// afterBack brings a line that swaps left out back before it is typed over. A
// swap that typing itself made is changed instead.
func (t typing) afterBack(i int, id recipes.ID, typed *recipes.Line, verb recipes.Verb) recipes.Verb {
	v := t.x.Versions[i]
	for _, s := range t.w.book().On(v) {
		if touches(s, id) && !s.Typed {
			return recipes.All(words.P("did.type-over", saidOf(typed), v.Letter), v.Recipe, append(t.off(v, id), verb)...)
		}
	}
	return verb
}

func saidOf(l *recipes.Line) string {
	if l == nil {
		return words.Say("versions.left-out")
	}
	return l.Text
}

// overSeveral handles a field that shows two things or more: what was typed has
// as many, or one that takes the place of all.
func (t typing) overSeveral(i int, id recipes.ID, text string, stands []*recipes.DraftLine) (recipes.Verb, error) {
	v := t.x.Versions[i]
	texts := strings.Split(text, sheets.Plus)
	if len(texts) == len(stands) {
		return t.overEach(i, texts, stands)
	}
	orig := t.x.Recipe.Line(id)
	if len(texts) > 1 || orig == nil {
		return nil, sheets.Wrongly("over.several", text)
	}
	typed, err := t.read(text, orig)
	if err != nil {
		return nil, err
	}
	if typed != nil && typed.Food == orig.Food && !strings.Contains(strings.ToLower(text), strings.ToLower(orig.Name)) {
		return nil, sheets.Wrongly("over.several", text)
	}
	verbs := append(t.off(v, id), t.over(i, id, typed))
	return recipes.All(words.P("did.type-over", saidOf(typed), v.Letter), v.Recipe, verbs...), nil
}

// overEach changes the things of a field one by one. Once the original's own
// part has changed the others are put again, because they scale with it.
func (t typing) overEach(i int, texts []string, stands []*recipes.DraftLine) (recipes.Verb, error) {
	v := t.x.Versions[i]
	var verbs []recipes.Verb
	scaled := false
	for k, d := range stands {
		if strings.TrimSpace(texts[k]) == sheets.StandText(d) && !scaled {
			continue
		}
		one := t
		if k < len(stands)-1 {
			one.picked = nil // the list completes what was typed last
		}
		typed, err := one.read(texts[k], reading.Scaled(d.Line, d.Scale, t.opt))
		if err != nil {
			return nil, err
		}
		verbs = append(verbs, t.over(i, d.Line.ID, typed))
		scaled = scaled || d.Swap == ""
	}
	if len(verbs) == 0 {
		return nil, nil
	}
	return recipes.All(words.P("did.type-over", strings.Join(texts, sheets.Plus), v.Letter), v.Recipe, verbs...), nil
}

// step rewrites a step of the original or of a version.
func (t typing) step(i int, id recipes.ID, text string) recipes.Verb {
	r := t.x.Recipe
	orig := r.Step(id)
	if i == 0 {
		if text == sheets.Same || text == orig.Text {
			return nil
		}
		return recipes.SetStep(r.ID, id, text)
	}
	v := t.x.Versions[i]
	if text == sheets.Same {
		text = orig.Text
	}
	if text == orig.Text && t.namedSwapRewrites(v, id) {
		return recipes.JoinStep(r.ID, v.ID, id, text)
	}
	return recipes.TypeOverStep(r.ID, v.ID, id, text, t.w.newID())
}

// namedSwapRewrites tells that a swap with a life of its own rewrites the step:
// it stays on, and the version keeps the cook's words.
func (t typing) namedSwapRewrites(v *recipes.Version, id recipes.ID) bool {
	for _, s := range t.w.book().On(v) {
		for _, o := range s.Ops {
			if o.Step == id && !s.Typed && o.Kind != recipes.OpStepAdd {
				return true
			}
		}
	}
	return false
}

// addLine adds an ingredient to the original or, as a swap, to a version.
func (t typing) addLine(i int, text string) (recipes.Verb, error) {
	if text == "" {
		return nil, nil
	}
	r := t.x.Recipe
	typed, err := t.read(text, &recipes.Line{PartEaten: 1, GramsFrom: recipes.GramsUnknown, Section: lastSection(r)})
	if err != nil {
		return nil, err
	}
	if typed == nil || typed.Food.Zero() {
		return nil, sheets.Wrongly("over.unreadable", text)
	}
	if i == 0 {
		typed.ID = t.w.newID()
		return recipes.AddLine(r.ID, typed, "end", t.foods(typed)), nil
	}
	return recipes.AddSwap(&recipes.Swap{
		ID: t.w.newID(), Recipe: r.ID, Name: words.Say("swap.add", sheets.LineName(typed)), Typed: true,
		Ops: []recipes.Op{{Kind: recipes.OpAdd, Lines: []*recipes.Line{typed}}},
	}, t.foods(typed), t.x.Versions[i].ID), nil
}
