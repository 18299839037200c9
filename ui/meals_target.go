package ui

import (
	"fyne.io/fyne/v2"

	"parewell/analysis/meals"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// targetLine says how a day stands against the energy target, and holds what
// the target is worked out from: kept in the workbook, or until the window
// closes.
type targetLine struct {
	p     *mealsPage
	set   *parts.Button
	view  *fyne.Container
	asked *meals.Kept // not kept in the workbook
	path  string      // the workbook asked is for
	said  string
	mark  sheets.Mark
}

func newTargetLine(p *mealsPage) *targetLine {
	t := &targetLine{p: p, view: parts.Rows(3)}
	t.set = parts.NewButton(parts.Quiet, "target", words.Say("meals.target"), t.open)
	p.w.pin("meals.target", t.set)
	return t
}

// kept is what the target is worked out from, nil for nothing.
func (t *targetLine) kept() *meals.Kept {
	if t.path != t.p.w.view.Path {
		t.asked, t.path = nil, t.p.w.view.Path
	}
	if t.asked != nil {
		return t.asked
	}
	if k, ok := meals.ReadKept(t.p.w.book().Setting(meals.BodySetting)); ok {
		return &k
	}
	return nil
}

// offer is the target in force, nil for none.
func (t *targetLine) offer() *meals.Offer {
	k := t.kept()
	if k == nil {
		return nil
	}
	if o := k.Offer(); o.Reason == meals.Offered {
		return &o
	}
	return nil
}

// show says how a day stands; a meal has no target.
func (t *targetLine) show(plate *meals.Plate) {
	visible(t.set, plate.Meal.Day)
	text, mark := "", sheets.NoMark
	if o := t.offer(); o != nil && plate.Meal.Day {
		text, mark = sheets.TargetName(*o)+" "+sheets.DayAgainst(plate, *o), sheets.DayMark(plate, *o)
	}
	visible(t.view, text != "")
	if text == t.said && mark == t.mark {
		return
	}
	t.said, t.mark = text, mark
	t.view.Objects = nil
	if text != "" {
		tone := map[sheets.Mark]parts.Tone{sheets.Met: parts.ToneGood, sheets.Missed: parts.ToneLook}[mark]
		t.view.Add(parts.NewBanner(tone, text))
		t.view.Add(parts.Pad(0, 0, 0, 12, parts.NewCaption(words.Say("meals.target.care"))))
	}
	t.view.Refresh()
}

// use takes a target: in the workbook when keep is on, else for now.
func (t *targetLine) use(k meals.Kept, keep bool) {
	stored := t.p.w.book().Setting(meals.BodySetting)
	if keep {
		t.asked = nil
		if k.Encode() != stored {
			t.p.w.do(recipes.All(words.P("did.keep-body"), "", recipes.Set(meals.BodySetting, k.Encode())))
			return
		}
	} else {
		t.asked = &k
		t.drop(stored)
	}
	t.p.show()
}

// forget takes target and measures away, out of the workbook as well.
func (t *targetLine) forget() {
	t.asked = nil
	t.drop(t.p.w.book().Setting(meals.BodySetting))
	t.p.show()
}

// drop takes kept measures out of the workbook and out of its backups.
func (t *targetLine) drop(stored string) {
	if stored != "" {
		t.p.w.desk.ForgetMeasures(t.p.w.problemOrNil)
	}
}
