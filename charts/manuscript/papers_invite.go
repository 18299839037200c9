package manuscript

import (
	"parewell/recipes/words"
)

// The letters of an invitation and the space between what it says.
const inviteSize, inviteGap = 10.5, 9.0

// invitation sets one page to copy for everybody asked: when, what may do
// somebody harm, what is asked, and a slip to send back. It names neither the
// recipe nor what was done to it.
func (f *flow) invitation(p *TastingPapers) {
	v := &p.Invite
	f.open()
	f.y += 8
	f.heading(say("invite.head"), 20, 80)
	f.para(say("invite.text"), 11, false, false)
	f.y += 16
	half := (f.wide() - columnGap) / 2
	f.blankLine(marginSide, f.y, half, say("invite.day"), v.Day)
	f.blankLine(marginSide+half+columnGap, f.y, half, say("invite.time"), v.Time)
	f.y += 24
	f.blankLine(marginSide, f.y, f.wide(), say("invite.place"), "")
	f.y += 24
	f.blankLine(marginSide, f.y, half, say("invite.dish"), "")
	f.blankLine(marginSide+half+columnGap, f.y, half, say("invite.reply"), "")
	f.y += 28
	f.heading(say("invite.allergens"), 12, 40)
	f.para(f.allergens(v), 11, true, false)
	if v.Open {
		f.para(say("invite.allergens.open"), inviteSize, true, false)
	}
	f.para(say("invite.allergens.why"), inviteSize, false, false)
	f.y += inviteGap
	if len(v.Care) > 0 {
		f.heading(say("invite.care"), 12, 40)
		f.para(say("invite.care.text", words.Join(v.Care)), inviteSize, false, false)
		f.y += inviteGap
	}
	f.heading(say("invite.consent"), 12, 40)
	f.para(say("invite.consent.text"), inviteSize, false, false)
	f.para(say("invite.consent.remove"), inviteSize, false, false)
	f.slip(v)
	f.number(0, f.part.Name())
}

func (f *flow) allergens(v *Invite) string {
	switch {
	case len(v.Allergens) > 0 && v.Between != "":
		return say("invite.allergens.list-between", v.Between, words.Join(v.Allergens))
	case len(v.Allergens) > 0:
		return say("invite.allergens.list", words.Join(v.Allergens))
	case v.Open:
		return say("invite.allergens.not-yet")
	}
	if v.Between != "" {
		return say("invite.allergens.none-between", v.Between)
	}
	return say("invite.allergens.none")
}

// slip is what comes back, at the foot of the page.
func (f *flow) slip(v *Invite) {
	asks := []string{say("slip.allergies"), say("slip.not-eat")}
	lead, boxes := 26.0, []string{say("slip.consent")}
	if len(v.Care) > 0 {
		boxes = append(boxes, say("slip.care", words.Join(v.Care)))
	}
	h := 34.0 + lead*float64(len(asks)+2)
	for _, b := range boxes {
		h += float64(len(f.wrap(b, bodySize, f.wide()-20, false)))*bodySize*lineHeight + 6
	}
	f.need(h)
	f.y = max(f.y, f.bottom()-h)
	p := f.now()
	p.dashes(marginSide, marginSide+f.wide(), f.y+4)
	f.put(p, marginSide, f.y+16, smallSize, false, true, say("slip.head"))
	f.y += 38
	half := (f.wide() - columnGap) / 2
	f.blankLine(marginSide, f.y, half, say("slip.name"), "")
	f.blankLine(marginSide+half+columnGap, f.y, half, say("slip.phone"), "")
	for _, a := range asks {
		f.y += lead
		f.blankLine(marginSide, f.y, f.wide(), a, "")
	}
	f.y += 10
	for _, b := range boxes {
		p.box(marginSide, f.y+1, answerBox, answerBox, thick)
		for _, l := range f.wrap(b, bodySize, f.wide()-20, false) {
			f.put(p, marginSide+20, f.y+bodySize, bodySize, false, false, l)
			f.y += bodySize * lineHeight
		}
		f.y += 6
	}
	f.y += 14
	f.blankLine(marginSide, f.y, half, say("slip.signed"), "")
	f.blankLine(marginSide+half+columnGap, f.y, half, say("slip.guardian"), "")
}
