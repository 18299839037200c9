package tasting

import (
	"maps"
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// PutTaster adds a taster, or replaces her of the same ID. Labels never name a
// person, so that removing her leaves none behind.
func PutTaster(p *recipes.Panelist) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		n := *p
		n.Code, n.Note = strings.TrimSpace(p.Code), strings.TrimSpace(p.Note)
		n.DoesNotEat = slices.DeleteFunc(slices.Clone(p.DoesNotEat), func(s string) bool { return strings.TrimSpace(s) == "" })
		if !n.Asked {
			n.Allergens = 0
		}
		key, before := "did.add-taster", recipes.Entity(nil)
		if old := b.Panelist(p.ID); old != nil {
			if old.Removed {
				return recipes.Change{}, refuse(old.Code, "error.taster-removed")
			}
			key, before = "did.edit-taster", old
		}
		c := recipes.Change{Label: words.P(key)}
		put(&c, before, &n)
		return c, nil
	}
}

// RemoveTaster forgets a person: her code, allergens, what she does not eat,
// consent and notes go; scores stay under a number. It cannot be undone; the
// workbook forgets the history of her details with it. A taster who never sat
// down leaves nothing at all.
func RemoveTaster(id recipes.ID) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		old := b.Panelist(id)
		if old == nil {
			return recipes.Change{}, gone("error.taster-gone")
		}
		c := recipes.Change{Label: words.P("did.remove-taster"), Final: true}
		if Sittings(b, id) == 0 && !seated(b, id) {
			put(&c, old, nil)
			return c, nil
		}
		put(&c, old, &recipes.Panelist{ID: id, Code: nextNumber(b), Aside: old.Aside, AsideOn: old.AsideOn, Removed: true})
		for _, t := range b.Tastings() {
			for _, s := range b.Servings(t.ID) {
				if s.Panelist == id && s.Note != "" {
					n := *s
					n.Note = ""
					put(&c, s, &n)
				}
			}
			n := *t
			n.Late = withoutName(t.Late, old.Code)
			if seat := t.SeatOf(id); seat != nil && seat.Away != "" {
				n.Seats = slices.Clone(t.Seats)
				n.Seat(seat.Number).Away = words.Say("tasting.away.removed")
			}
			put(&c, t, &n)
		}
		return c, nil
	}
}

// SetAside leaves a taster's scores of a tasting out of the results for a reason;
// an empty one takes them back in. Every result says so, with the day (2026-11-25).
func SetAside(tastingID, panelist recipes.ID, reason, on string) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, tastingID)
		if err != nil {
			return recipes.Change{}, err
		}
		old := b.Panelist(panelist)
		if old == nil {
			return recipes.Change{}, gone("error.taster-gone")
		}
		if t.State != recipes.TastingClosed {
			return recipes.Change{}, refuse(t.Date, "error.aside-open")
		}
		n := *old
		n.Aside, n.AsideOn = maps.Clone(old.Aside), maps.Clone(old.AsideOn)
		delete(n.AsideOn, tastingID)
		key := "did.taster-aside"
		if reason = strings.TrimSpace(reason); reason == "" {
			key = "did.taster-back"
			delete(n.Aside, tastingID)
		} else {
			if n.Aside == nil {
				n.Aside = map[recipes.ID]string{}
			}
			n.Aside[tastingID] = reason
			if on != "" && n.AsideOn == nil {
				n.AsideOn = map[recipes.ID]string{}
			}
			if on != "" {
				n.AsideOn[tastingID] = on
			}
		}
		c := did(t, key, t.Date)
		put(&c, old, &n)
		return c, nil
	}
}

// nextNumber names a removed person: the first number nobody has.
func nextNumber(b *recipes.Book) string {
	used := map[string]bool{}
	for _, p := range b.Panelists() {
		used[p.Code] = true
	}
	for n := 1; ; n++ {
		if s := words.Say("tasting.taster-number", n); !used[s] {
			return s
		}
	}
}

// Sittings counts the tastings that hold answers of a taster.
func Sittings(b *recipes.Book, id recipes.ID) int {
	n := 0
	for _, t := range b.Tastings() {
		if slices.ContainsFunc(b.Servings(t.ID), func(s *recipes.Serving) bool { return s.Panelist == id }) {
			n++
		}
	}
	return n
}

func seated(b *recipes.Book, id recipes.ID) bool {
	return slices.ContainsFunc(b.Tastings(), func(t *recipes.Tasting) bool { return t.SeatOf(id) != nil })
}
