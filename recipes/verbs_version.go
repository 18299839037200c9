package recipes

import (
	"slices"
	"strings"

	"parewell/recipes/words"
)

// AddVersion adds a version with the next free letter; it starts with the
// swaps of like, or with none when like is empty.
func AddVersion(recipe, id ID, name string, like ID) Verb {
	return func(b *Book) (Change, error) {
		if _, err := b.mustRecipe(recipe); err != nil {
			return Change{}, err
		}
		versions := b.Versions(recipe)
		v := &Version{
			ID: id, Recipe: recipe, Letter: nextLetter(versions), Name: strings.TrimSpace(name),
			Order: nextOrder(versions, func(x *Version) float64 { return x.Order }),
		}
		if from := b.Version(recipe, like); from != nil {
			v.Swaps, v.Servings, v.Joined = slices.Clone(from.Swaps), from.Servings, from.Joined
		}
		e := newEdits(b, recipe, "did.add-version", v.Letter)
		e.put(v)
		return e.done()
	}
}

// editVersion is the shape of every verb that changes one version.
func editVersion(recipe, id ID, key string, args []any, change func(b *Book, v *Version)) Verb {
	return func(b *Book) (Change, error) {
		_, v, err := b.mustVersion(recipe, id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, recipe, key, append([]any{v.Letter}, args...)...)
		c := *v
		change(b, &c)
		e.put(&c)
		return e.done()
	}
}

// RenameVersion gives a version a name beside its letter.
func RenameVersion(recipe, id ID, name string) Verb {
	return editVersion(recipe, id, "did.name-version", []any{name}, func(_ *Book, v *Version) {
		v.Name = strings.TrimSpace(name)
	})
}

// NoteVersion keeps the cook's note on a version.
func NoteVersion(recipe, id ID, note string) Verb {
	return editVersion(recipe, id, "did.note-version", nil, func(_ *Book, v *Version) { v.Note = strings.TrimSpace(note) })
}

// ServeVersion sets the servings of a version; 0 follows the original.
func ServeVersion(recipe, id ID, servings float64) Verb {
	return editVersion(recipe, id, "did.version-servings", []any{servings}, func(_ *Book, v *Version) { v.Servings = servings })
}

// JoinStep keeps the cook's own text for a step that ticked swaps rewrite; an
// empty text goes back to the swaps' texts.
func JoinStep(recipe, id, step ID, text string) Verb {
	return editVersion(recipe, id, "did.join-step", nil, func(_ *Book, v *Version) {
		joined := make(map[ID]string, len(v.Joined)+1)
		for k, t := range v.Joined {
			joined[k] = t
		}
		if text = strings.TrimSpace(text); text == "" {
			delete(joined, step)
		} else {
			joined[step] = text
		}
		v.Joined = joined
		if len(joined) == 0 {
			v.Joined = nil
		}
	})
}

// Tick switches a swap on or off in a version. Switching it on switches off
// every alternative of it that was on.
func Tick(recipe, version, swap ID, on bool) Verb {
	return func(b *Book) (Change, error) {
		_, v, err := b.mustVersion(recipe, version)
		if err != nil {
			return Change{}, err
		}
		_, s, err := b.mustSwap(recipe, swap)
		if err != nil {
			return Change{}, err
		}
		key := "did.tick-off"
		if on {
			key = "did.tick-on"
		}
		e := newEdits(b, recipe, key, s.Name, v.Letter)
		c := *v
		c.Swaps = ticked(b, v, s, on)
		e.put(&c)
		return e.done()
	}
}

// ticked returns v's swaps with s on or off, alternatives of s left out.
func ticked(b *Book, v *Version, s *Swap, on bool) []ID {
	var out []ID
	for _, id := range v.Swaps {
		t := b.Swap(v.Recipe, id)
		if id == s.ID || on && t != nil && Alternatives(s, t) != NoClash {
			continue
		}
		out = append(out, id)
	}
	if on {
		out = append(out, s.ID)
	}
	slices.Sort(out)
	return out
}

// RemoveVersion removes a version; its swaps stay.
func RemoveVersion(recipe, id ID) Verb {
	return func(b *Book) (Change, error) {
		_, v, err := b.mustVersion(recipe, id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, recipe, "did.remove-version", v.Letter)
		e.drop(v)
		return e.done()
	}
}

// MoveVersion puts a version one place earlier or later.
func MoveVersion(recipe, id ID, later bool) Verb {
	return func(b *Book) (Change, error) {
		if _, _, err := b.mustVersion(recipe, id); err != nil {
			return Change{}, err
		}
		all := b.Versions(recipe)
		at := slices.IndexFunc(all, func(v *Version) bool { return v.ID == id })
		to := at - 1
		if later {
			to = at + 1
		}
		e := newEdits(b, recipe, "did.move-version", all[at].Letter)
		if to < 0 || to >= len(all) {
			return e.done()
		}
		for i, v := range all {
			c := *v
			c.Order = float64(i + 1)
			switch i {
			case at:
				c.Order = float64(to + 1)
			case to:
				c.Order = float64(at + 1)
			}
			e.put(&c)
		}
		return e.done()
	}
}

// label makes a phrase; a shorthand for verbs that combine others.
func label(key string, args ...any) words.Phrase { return words.P(key, args...) }
