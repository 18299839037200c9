package recipes

import (
	"slices"

	"parewell/recipes/words"
)

// ForEditor returns the entities of a Book for a copy that others read: tasters
// are numbers, without allergens, what they do not eat, consents and notes;
// settings that say something of a person, what is noted of a tasting for the
// house and tasters' own remarks are left out. Scores stay.
func ForEditor(b *Book) []Entity {
	var out []Entity
	number := 0
	for _, e := range b.Entities() {
		switch x := e.(type) {
		case *Panelist:
			number++
			e = &Panelist{ID: x.ID, Code: words.Say("editor.taster", number), Aside: x.Aside, Removed: x.Removed}
		case *Setting:
			if Personal(x.Name) {
				continue
			}
		case *Tasting:
			c := *x
			c.Note, c.Cooks, c.Codes, c.Serves = "", "", "", ""
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
