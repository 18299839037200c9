package recipes

import (
	"slices"

	"parewell/recipes/words"
)

// ForEditor returns the entities of a Book for a copy that others read: tasters
// are numbers, without allergens, what they do not eat, consents and notes;
// settings that say something of a person, what is noted of a tasting for the
// house, reasons in the cook's own words and tasters' own remarks are left out.
// Scores stay, and what was corrected or set aside.
func ForEditor(b *Book) []Entity {
	var out []Entity
	number := 0
	for _, e := range b.Entities() {
		switch x := e.(type) {
		case *Panelist:
			number++
			e = &Panelist{ID: x.ID, Code: words.Say("editor.taster", number), Aside: asideOnly(x.Aside), AsideOn: x.AsideOn, Removed: x.Removed}
		case *Setting:
			if Personal(x.Name) {
				continue
			}
		case *Tasting:
			c := *x
			c.Note, c.Cooks, c.Codes, c.Serves = "", "", "", ""
			c.Late = withoutReasons(x.Late)
			c.Seats = slices.Clone(x.Seats)
			for i := range c.Seats {
				if c.Seats[i].Away != "" {
					c.Seats[i].Away = words.Say("editor.away")
				}
			}
			e = &c
		case *Sample:
			c := *x
			c.Cook = ""
			if x.Served != nil {
				served := *x.Served
				served.Corrected = withoutReasons(served.Corrected)
				c.Served = &served
			}
			e = &c
		case *Serving:
			c := *x
			c.Note = ""
			e = &c
		case *Batch:
			c := *x
			c.Cook = ""
			e = &c
		}
		out = append(out, e)
	}
	return out
}

// withoutReasons leaves out why something was corrected: it may name a person.
func withoutReasons(notes []LateNote) []LateNote {
	out := slices.Clone(notes)
	for i := range out {
		out[i].Why = ""
	}
	return out
}

// asideOnly keeps that scores are set aside and leaves out why.
func asideOnly(aside map[ID]string) map[ID]string {
	if aside == nil {
		return nil
	}
	out := make(map[ID]string, len(aside))
	for id := range aside {
		out[id] = words.Say("editor.aside")
	}
	return out
}
