package ui

import (
	"strings"

	"fyne.io/fyne/v2"

	"parewell/analysis/effects"
	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// usualStrengths are what the fields of the strengths dialog start with; common
// practice, no source.
var usualStrengths = []float64{0.15, 0.25, 0.40}

// strengthRow is one further strength of a swap in the dialog.
type strengthRow struct {
	field *parts.Entry
	row   *parts.FormRow
}

// swapStrengths makes further strengths of a swap that uses less of one
// ingredient: swaps of which one at most is on in a version.
func (w *Window) swapStrengths(sw *recipes.Swap) {
	r := w.recipe()
	if r == nil || !sheets.HasStrengths(sw) || w.view.ReadOnly != "" {
		return
	}
	form := parts.NewForm()
	var rows []*strengthRow
	for _, share := range usualStrengths {
		text := words.Share(share)
		if text == words.Share(sheets.Strength(sw)) {
			text = ""
		}
		s := &strengthRow{field: parts.NewEntry(text, words.Say("strengths.hint"), nil)}
		s.field.Width = 110
		s.row = form.Row(words.Say("strengths.row"), s.field, "", "")
		completes := s.field.OnChanged
		s.field.OnChanged = func(t string) { completes(t); w.showStrength(r, sw, s) }
		w.pin("strengths."+words.Trim(share*100, 0), s.field)
		w.showStrength(r, sw, s)
		rows = append(rows, s)
	}
	body := parts.Rows(parts.GapMedium, parts.NewText(words.Say("strengths.text", sw.Name, words.Share(sheets.Strength(sw)))), form)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("strengths.title"), Content: body, First: rows[0].field, Confirm: words.Say("strengths.make"),
		Cancel: words.Say("button.cancel"), Width: 620, OnOK: func() bool { return w.makeStrengths(r, sw, rows) },
	})
}

// showStrength says under a field what that strength does, or what is wrong.
func (w *Window) showStrength(r *recipes.Recipe, sw *recipes.Swap, s *strengthRow) {
	s.row.SetError("")
	s.row.SetHelp("")
	share, ok := strengthTyped(s.field.Text)
	if !ok {
		if strings.TrimSpace(s.field.Text) != "" {
			s.row.SetError(words.Say("strengths.wrong"))
		}
		return
	}
	e, err := effects.Of(r, sheets.StrengthOf(r, sw, "", share), w.book().Food)
	if err != nil {
		s.row.SetError(err.Error())
		return
	}
	s.row.SetHelp(sheets.UnitsOf(w.book()).EffectLine(e))
}

// strengthTyped reads how much is taken off: "25 %", "-25 %" and "25".
func strengthTyped(text string) (float64, bool) {
	share, ok := reading.Share(strings.TrimLeft(strings.TrimSpace(text), "-–"))
	return share, ok && share > 0 && share < 1
}

// makeStrengths adds the strengths typed; the swap itself stays as it is and
// joins them.
func (w *Window) makeStrengths(r *recipes.Recipe, sw *recipes.Swap, rows []*strengthRow) bool {
	first := *sw
	first.Ladder, first.Strength = sheets.LadderOf(sw), 100*sheets.Strength(sw)
	verbs := []recipes.Verb{recipes.EditSwap(&first, nil)}
	taken := map[string]bool{words.Share(sheets.Strength(sw)): true}
	for _, s := range rows {
		share, ok := strengthTyped(s.field.Text)
		switch {
		case strings.TrimSpace(s.field.Text) == "":
			continue
		case !ok:
			s.row.SetError(words.Say("strengths.wrong"))
			return false
		case taken[words.Share(share)]:
			s.row.SetError(words.Say("strengths.twice"))
			return false
		}
		taken[words.Share(share)] = true
		verbs = append(verbs, recipes.AddSwap(sheets.StrengthOf(r, &first, w.newID(), share), nil, ""))
	}
	if len(verbs) > 1 {
		w.do(recipes.All(words.P("did.strengths", sw.Name), r.ID, verbs...))
	}
	return true
}

// joinRow is one swap that could be joined.
type joinRow struct {
	swap  *recipes.Swap
	check *parts.Check
}

// joinSwaps makes one swap of several that are always meant together.
func (w *Window) joinSwaps(sw *recipes.Swap) {
	r := w.recipe()
	if r == nil || w.view.ReadOnly != "" {
		return
	}
	name := parts.NewEntry(sw.Name, words.Say("swap.name.hint"), nil)
	w.pin("join.name", name)
	trouble := parts.NewText("")
	trouble.SetRole(parts.RoleError)
	list := parts.Rows(2)
	rows := w.joinRows(sw, list, name)
	form := parts.NewForm()
	form.Row(words.Say("swap.name"), name, "", "")
	if len(rows) == 0 {
		list.Add(parts.NewCaption(words.Say("join.none")))
	}
	body := parts.Fill(parts.GapMedium, 1, parts.NewText(words.Say("join.text", sw.Name)), parts.Scrolled(list), form, trouble)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("join.title"), Content: body, Confirm: words.Say("join.do"), Cancel: words.Say("button.cancel"),
		First: firstCheck(rows, name), Width: 600, Height: 480, OnOK: func() bool {
			ids := joined(sw, rows)
			if len(ids) < 2 {
				trouble.SetText(words.Say("join.pick"))
				return false
			}
			w.do(recipes.JoinSwaps(r.ID, ids, name.Text))
			return true
		},
	})
}

func firstCheck(rows []*joinRow, otherwise fyne.Focusable) fyne.Focusable {
	for _, j := range rows {
		if !j.check.Disabled() {
			return j.check
		}
	}
	return otherwise
}

// joinRows lists the other swaps; what is either/or with a chosen one cannot be
// chosen as well.
func (w *Window) joinRows(sw *recipes.Swap, list *fyne.Container, name *parts.Entry) []*joinRow {
	var rows []*joinRow
	update := func() {
		names := []string{sw.Name}
		for _, j := range rows {
			free := true
			for _, k := range append([]*joinRow{{swap: sw}}, rows...) {
				chosen := k.check == nil || k.check.On() && k != j
				free = free && !(chosen && recipes.Alternatives(k.swap, j.swap) != recipes.NoClash)
			}
			j.check.SetEnabled(free)
			if j.check.On() {
				names = append(names, j.swap.Name)
			}
		}
		name.Set(words.Join(names))
	}
	for _, other := range w.book().Swaps(sw.Recipe) {
		if other.ID == sw.ID {
			continue
		}
		j := &joinRow{swap: other}
		j.check = parts.NewCheck(other.Name, false, func(bool) { update() })
		w.pin("join:"+other.Name, j.check)
		rows = append(rows, j)
		list.Add(j.check)
	}
	update()
	return rows
}

func joined(sw *recipes.Swap, rows []*joinRow) []recipes.ID {
	ids := []recipes.ID{sw.ID}
	for _, j := range rows {
		if j.check.On() {
			ids = append(ids, j.swap.ID)
		}
	}
	return ids
}
